//! The card for the pocket is what single drifts and the rules say, lies near
//! the trade's bead table where that table's own cast is made, and can be read.

#![allow(clippy::unwrap_used, reason = "a test may stop at what it did not expect")]

use serde_json::Value;
use snell_analysis::{Kind, LocalDisk, Notebook};
use snell_picture::scene::{Bounds, Item, Scene, at};
use snell_rig::keywords::Cast;
use snell_tests::{Build, Run};
use snell_view::{Asked, ShownAnswer, ShownCard, ShownFished, Units};
use std::collections::BTreeSet;
use std::fmt::Write;
use std::fs;
use std::path::Path;

/// What a card is solved from: a box of four, dressed unlike, and a rig with a dropper.
const BOX: &str = "
fly slim-two
  hook #16
  bead 2 mm tungsten
  dressed slim

fly bracken
  hook #14
  bead 2.8 mm tungsten
  dressed slim

fly rough
  hook #12
  bead 2.4 mm tungsten
  dressed hackled

fly hobnail
  hook #12
  bead 3.3 mm tungsten, slotted

rig pair
  method  tight-line
  water   2 ft to 3 ft at 2 ft/s over cobble
  sighter 15 in  of 0.20 mm nylon
  ring    2 mm
  tippet  32 in  of 6X fluoro as upper
  dropper 8 in   with slim-two
  tippet  18 in  of 6X fluoro
  point   bracken
";

const DEPTHS: [&str; 2] = ["3 ft", "4 ft"];
const SPEEDS: [&str; 3] = ["1 ft/s", "2 ft/s", "3 ft/s"];
const RUN: &str = "12 ft";
/// Of the tippet, in inches: what lies below the dropper, and is not lengthened.
const LOWER: f64 = 18.0;
const INCH: f64 = 0.0254;

fn json(folder: &Path, arguments: &[&str]) -> Value {
    let mut all = arguments.to_vec();
    all.extend(["--form", "json"]);
    let ran = Run::new(Build::AsTests, &all).within(folder).finish();
    assert!(ran.status.is_some_and(|status| status < 2), "{}", ran.told());
    serde_json::from_str(&ran.out).unwrap_or_else(|_| panic!("{}", ran.told()))
}

fn card_of_pair(folder: &Path) -> Value {
    let mut arguments = vec!["card", "pair", "--run", RUN, "--depths"];
    arguments.extend(DEPTHS);
    arguments.push("--speeds");
    arguments.extend(SPEEDS);
    json(folder, &arguments)["rigs"][0].clone()
}

/// The rig of a cell as a person would write it, with one of the flies on enough tippet.
fn written(name: &str, fly: &str, tippet: f64, depth: &str, speed: &str) -> String {
    format!(
        "\nwater {name}-water\n  depth {depth}\n  surface {speed}\n  bed cobble\n  run {RUN}\n\n\
         rig {name} from pair\n  water {name}-water\n  change upper to {:.1} in\n  change point to {fly}\n",
        tippet / INCH - LOWER
    )
}

#[test]
fn every_cell_is_what_a_drift_of_its_own_and_the_rules_say() {
    let folder = tempfile::tempdir().unwrap();
    fs::write(folder.path().join("box.rig"), BOX).unwrap();
    let card = card_of_pair(folder.path());
    let flies: Vec<&str> = card["flies"]
        .as_array()
        .unwrap()
        .iter()
        .map(|fly| fly["name"].as_str().unwrap())
        .collect();
    assert_eq!(flies.len(), 4);
    let mut text = BOX.to_owned();
    for (row, depth) in DEPTHS.into_iter().enumerate() {
        for (column, speed) in SPEEDS.into_iter().enumerate() {
            for (index, fly) in flies.iter().enumerate() {
                let fished = &card["cells"][row][column]["fished"];
                let own = fished["fly"] == **fly;
                let tippet = if own {
                    fished["tippet"]["value"].as_f64().unwrap()
                } else {
                    12.0
                };
                text.push_str(&written(
                    &format!("r{row}{column}{index}"),
                    fly,
                    tippet,
                    depth,
                    speed,
                ));
            }
        }
    }
    fs::write(folder.path().join("box.rig"), &text).unwrap();
    let findings = json(folder.path(), &["check", "box.rig"]);
    let broken: BTreeSet<(String, String)> = findings["findings"]
        .as_array()
        .unwrap()
        .iter()
        .map(|finding| {
            let word = |key: &str| finding[key].as_str().unwrap_or_default().to_owned();
            (word("rig"), word("rule"))
        })
        .collect();
    let breaks = |rig: &str, rule: &str| broken.contains(&(rig.to_owned(), rule.to_owned()));
    let mut fished_cells = 0;
    for (row, depth) in DEPTHS.into_iter().enumerate() {
        for (column, speed) in SPEEDS.into_iter().enumerate() {
            let cell = &card["cells"][row][column];
            let fished = &cell["fished"];
            let chosen = flies.iter().position(|fly| fished["fly"] == **fly);
            let lighter = flies.iter().take(chosen.unwrap_or(flies.len()));
            for (index, fly) in lighter.enumerate() {
                let rig = format!("r{row}{column}{index}");
                assert!(
                    breaks(&rig, "sink-late") || breaks(&rig, "fly-drags"),
                    "{depth} {speed}: {fly} fishes and is lighter than {fished}\n{broken:?}"
                );
            }
            let Some(chosen) = chosen else { continue };
            fished_cells += 1;
            let rig = format!("r{row}{column}{chosen}");
            for rule in ["sink-late", "fly-drags", "tippet-short-for-water"] {
                assert!(!breaks(&rig, rule), "{rig} breaks {rule}: {fished}");
            }
            let hard = breaks(&rig, "wading");
            let out = breaks(&rig, "wading-danger");
            let wading = if out {
                "keep-out"
            } else if hard {
                "hard"
            } else {
                "within"
            };
            assert_eq!(cell["wading"], wading, "{depth} {speed}");
            let base = format!("cell-{row}-{column}");
            let alone = written(
                &base,
                flies[chosen],
                fished["tippet"]["value"].as_f64().unwrap(),
                "1 ft",
                "1 ft/s",
            );
            let file = folder.path().join(format!("{base}.rig"));
            fs::write(&file, format!("{BOX}{alone}")).unwrap();
            let name = format!("{}:{base}", file.display());
            let drift = json(
                folder.path(),
                &["drift", &name, "--depth", depth, "--speed", speed],
            );
            let measures = &drift["rigs"][0]["steady"]["measures"];
            for measure in ["tippet-needed", "sink-time", "sink-run"] {
                let (own, single) = (
                    fished[measure]["value"].as_f64().unwrap(),
                    measures[measure]["value"].as_f64().unwrap(),
                );
                assert!(
                    (own - single).abs() <= 1e-9 * single,
                    "{depth} {speed} {measure}: {own} and {single}"
                );
            }
        }
    }
    assert!(fished_cells >= 3, "{card:#}");
    assert!(
        fished_cells < DEPTHS.len() * SPEEDS.len(),
        "something at hand does not fish: {card:#}"
    );
}

fn opened(text: &str) -> Notebook {
    Notebook::of_text(Path::new("asked.rig"), Kind::Rig, text.to_owned(), &LocalDisk)
}

fn card(text: &str, asked: &Asked) -> ShownCard {
    snell_view::cards(&opened(text), Units::Author, asked, &|_, _| {}, |_, _| true)
        .unwrap()
        .remove(0)
}

/// An everyday #14 nymph, alone on a fine tippet.
const NYMPH: &str = "
fly nymph
  hook #14
  bead 2.8 mm tungsten

rig one-fly
  method  tight-line
  water   60 cm at 0.6 m/s over gravel
  sighter 50 cm  of 0.20 mm nylon
  ring    2 mm
  tippet  1.5 m  of 6X fluoro
  point   nymph
";

/// The trade's beads for depths, in mm and m, at the middle of the speeds that it names, or where it names
/// none at that of an ordinary run, m/s. Source: common practice, no source.
const TABLE: [(f64, (f64, f64), f64); 5] = [
    (2.0, (0.2, 0.4), 0.3),
    (2.4, (0.3, 0.6), 0.5),
    (2.8, (0.5, 0.9), 0.65),
    (3.3, (0.8, 1.2), 0.5),
    (3.8, (1.2, 1.8), 0.4),
];

/// The beads that come out at the middle depth of each row, by their place in the trade's sizes.
fn places(cast: &'static str, run: &str) -> Vec<(usize, Option<usize>)> {
    let sizes = ["2 mm", "2.4 mm", "2.8 mm", "3.3 mm", "3.8 mm", "4.6 mm"];
    let asked = |depth: f64, speed: f64| Asked {
        depths: vec![format!("{depth} m")],
        speeds: vec![format!("{speed} m/s")],
        run: Some(run.to_owned()),
        cast: Cast::of(cast),
        beads: true,
        ..Asked::default()
    };
    let mut told = format!("cast {cast}, run {run}\n");
    let mut places = Vec::new();
    for (bead, (low, high), speed) in TABLE {
        let depth = (low + high) / 2.0;
        let card = card(NYMPH, &asked(depth, speed));
        let fly = match &card.cells[0][0].answer {
            ShownAnswer::Fished(fished) => Some(fished.fly.clone()),
            ShownAnswer::Unfished(_) => None,
        };
        let place = |name: &str| sizes.iter().position(|size| *size == name);
        let trade = place(&format!("{bead} mm").replace(".0 ", " ")).unwrap();
        let own = fly.as_deref().and_then(place);
        writeln!(
            told,
            "  {depth:.2} m at {speed:.2} m/s: the trade {}, the card {}",
            sizes[trade],
            own.map_or("none", |place| sizes[place])
        )
        .unwrap();
        places.push((trade, own));
    }
    println!("{told}");
    places
}

/// A straight cast upstream on a run of four metres, and a tuck in a pocket of a metre and a half, come out within a size of
/// the table. On the same run the cast that lands the flies first wants less weight, and never more than the table says.
#[test]
fn beads_lie_near_the_trades_table() {
    let near = |(trade, own): &(usize, Option<usize>)| own.is_some_and(|own| own.abs_diff(*trade) <= 1);
    let straight = places("up", "4 m");
    assert!(straight.iter().all(near), "{straight:?}");
    let pocket = places("tuck", "1.5 m");
    assert!(pocket.iter().all(near), "{pocket:?}");
    let tuck = places("tuck", "4 m");
    for ((trade, own), (_, straight)) in tuck.iter().zip(&straight) {
        let own = own.expect("a tuck cast gets down");
        assert!(
            own <= *trade && straight.is_none_or(|straight| own <= straight),
            "{tuck:?}"
        );
    }
}

/// How far a #14 goes until it is down with each of two beads, in the water of a row of the table, m.
fn ways(cast: &str, beads: [f64; 2], depth: f64, speed: f64) -> [f64; 2] {
    beads.map(|bead| {
        let text = format!(
            "rig asked\n  water {depth} m at {speed} m/s over gravel\n  cast {cast}\n  tippet {} m of 6X fluoro\n  \
             point #14 {bead} mm tungsten\n",
            2.0 * depth
        );
        let shown = snell_view::show(&opened(&text), Units::Author, |_, _| true).remove(0);
        shown.measures["sink-run"].value.unwrap()
    })
}

/// Why the table is read for two runs: on one of them a tuck and a straight cast are three sizes of bead apart and more, so
/// that no more than one of them can be within a size of it.
#[test]
fn the_casts_are_farther_apart_than_the_table_can_tell() {
    for pair in TABLE.windows(2) {
        let [(bead, (low, high), speed), (next, ..)] = pair else {
            panic!("two rows")
        };
        let depth = (low + high) / 2.0;
        let [tuck, tuck_next] = ways("tuck", [*bead, *next], depth, *speed);
        let [straight, straight_next] = ways("up", [*bead, *next], depth, *speed);
        let size = (tuck / tuck_next).max(straight / straight_next);
        let casts = straight / tuck;
        assert!((1.05..1.35).contains(&size), "{depth}: {size}");
        assert!(
            (1.8..3.2).contains(&casts) && casts > size * size * size,
            "{depth}: {casts} and {size}"
        );
    }
}

fn boxes(scene: &Scene) -> Vec<(String, Bounds)> {
    let of = |item: &Item| match item {
        Item::Text(text) => Some((text.plain(), text.bounds())),
        Item::Mark(mark) => Some((
            format!("{:?}", mark.kind),
            Bounds {
                from: at(mark.at.x - mark.size, mark.at.y - mark.size),
                to: at(mark.at.x + mark.size, mark.at.y + mark.size),
            },
        )),
        Item::Line(_) => None,
    };
    scene.items.iter().filter_map(of).collect()
}

/// Long names, long tippets, both systems: nothing lies on anything else, nothing is cut off.
#[test]
fn everything_on_the_page_can_be_read() {
    let long = BOX.replace("hobnail", "hobnail-with-the-heavy-bead-and-a-long-name");
    for (text, units) in [
        (BOX, Units::Author),
        (BOX, Units::Metric),
        (long.as_str(), Units::Author),
    ] {
        let asked = Asked {
            run: Some("40 ft".to_owned()),
            ..Asked::default()
        };
        let card = snell_view::cards(&opened(text), units, &asked, &|_, _| {}, |_, _| true)
            .unwrap()
            .remove(0);
        let scene = card.scene().expect("a page");
        let boxes = boxes(&scene);
        assert!(boxes.len() > 100);
        for (index, (name, one)) in boxes.iter().enumerate() {
            assert!(
                one.from.x >= 0.0 && one.to.x <= scene.width,
                "{name} runs off the page"
            );
            assert!(
                one.from.y >= 0.0 && one.to.y <= scene.height,
                "{name} runs off the page"
            );
            for (other_name, other) in &boxes[..index] {
                assert!(!one.overlaps(other), "{name} lies on {other_name}");
            }
        }
        let told: String = scene.texts().map(|text| format!("{} ", text.plain())).collect();
        for word in [
            "estimates",
            "eight times out of ten",
            "wading",
            "guides",
            "assumed",
        ] {
            assert_eq!(told.matches(word).count(), 1, "{word}: {told}");
        }
        let fished = |answer: &ShownAnswer| match answer {
            ShownAnswer::Fished(fished) => Some(ShownFished::clone(fished)),
            ShownAnswer::Unfished(_) => None,
        };
        for fished in card
            .cells
            .iter()
            .flatten()
            .filter_map(|cell| fished(&cell.answer))
        {
            assert!(
                scene.about.contains(&fished.tippet.text),
                "read out: {}",
                fished.tippet.text
            );
            assert!(fished.tippet.value.unwrap() >= fished.needed.value.unwrap() - 1e-6);
        }
    }
}
