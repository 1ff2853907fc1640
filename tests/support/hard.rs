//! Notebooks of the shapes that were slow once: many parts, variants, rules,
//! flies or findings. Only their size differs, so that growth can be told.

use std::fmt::Write;

/// One rig, and as many like it.
pub fn rigs(count: usize) -> String {
    let rig = |number: usize| {
        format!(
            "rig r{number} \"rig {number}\"\n  method tight-line\n  water 3 ft at 2 ft/s over cobble\n  \
             sighter 40 cm of 0.20 mm nylon\n  ring 2 mm\n  tippet {} cm of 5X fluoro as upper\n  \
             knot three-turn-surgeon\n  dropper 15 cm with #16 2.4 mm tungsten\n  tippet 50 cm of 6X fluoro as lower\n  \
             point #14 2.8 mm tungsten\n\n",
            60 + number % 40
        )
    };
    (0..count).map(rig).collect()
}

/// A rig of many tippets and tags, all too short, and rigs made from it by one line each.
pub fn pairs(pairs: usize, variants: usize) -> String {
    let mut text =
        "rig base\n  method tight-line\n  sighter 15 in of 0.20 mm nylon\n  ring 2 mm\n".to_owned();
    for pair in 0..pairs {
        let _ = writeln!(
            text,
            "  tippet {} in of 6X fluoro\n  dropper 2 in with #16",
            10 + pair % 3
        );
    }
    text.push_str("  tippet 10 in of 6X fluoro\n  point #14 2.8 mm tungsten\n\n");
    for variant in 0..variants {
        let _ = writeln!(
            text,
            "rig v{variant} from base\n  change tippet 1 to {} in\n",
            8 + variant % 40
        );
    }
    text
}

/// A rig that many rules of its own rulebook are broken by, each with a mend.
pub fn rules(count: usize) -> String {
    let names: Vec<String> = (0..count).map(|number| format!("rule-{number}")).collect();
    let mut text = format!("rulebook mine\n  with {}\n\n", names.join(", "));
    for (number, name) in names.iter().enumerate() {
        let least = 100 + 7 * number;
        let _ = writeln!(
            text,
            "rule {name}\n  limit least {least} in\n  keep tippet at least least\n  say \"{{tippet}} is short of {least} in\"\n  \
             mend tippet to least\n"
        );
    }
    text.push_str(
        "rig a\n  rules mine\n  sighter 15 in of 0.20 mm nylon\n  tippet 36 in of 5X fluoro\n  point #14 2.8 mm tungsten\n",
    );
    text
}

/// Many flies, and rigs each of which names one that is not there.
pub fn unknown_flies(flies: usize, rigs: usize) -> String {
    const KINDS: [&str; 4] = ["olive", "hare", "pheasant", "black"];
    let mut text = String::new();
    for fly in 0..flies {
        let (number, kind) = (fly * 7_919 % 100_003, KINDS[fly % KINDS.len()]);
        let _ = writeln!(text, "fly fly-{number:06}-{kind}\n  hook #14\n");
    }
    for rig in 0..rigs {
        let number = rig * 104_729 % 1_000_003;
        let _ = writeln!(
            text,
            "rig q{rig}\n  tippet 20 in of 6X fluoro\n  point fly-{number:07}-olivx\n"
        );
    }
    text
}

/// Rigs in one water, each of which breaks three rules; the first has a sighter of its own.
pub fn with_findings(rigs: usize, first: &str) -> String {
    let rig = |number: usize| {
        let sighter = if number == 0 { first } else { "20 cm" };
        format!(
            "rig r{number}\n  method tight-line\n  water run\n  sighter {sighter} of 0.20 mm nylon\n  ring 2 mm\n  \
             tippet {} cm of 6X fluoro\n  point #14 2.8 mm tungsten\n\n",
            30 + number % 7
        )
    };
    let water = "water run\n  depth 50 cm\n  surface 1.4 m/s\n  bed cobble\n\n".to_owned();
    std::iter::once(water).chain((0..rigs).map(rig)).collect()
}
