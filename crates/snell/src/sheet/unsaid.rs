//! What a rig leaves unsaid, in few lines: what was assumed for the same
//! reason stands together, and so do the parts that lack the same thing.

use super::words::is_told;
use snell_rig::measure::Kind;
use snell_view::{Need, ShownAssumed, ShownPart, ShownRig, ShownUnknown};

/// What was assumed, one line for each value and reason.
pub fn assumed(assumed: &[ShownAssumed]) -> Vec<String> {
    let mut groups: Vec<Vec<&ShownAssumed>> = Vec::new();
    for one in assumed {
        let same = |group: &&mut Vec<&ShownAssumed>| group[0].value == one.value && group[0].why == one.why;
        match groups.iter_mut().find(same) {
            Some(group) => group.push(one),
            None => groups.push(vec![one]),
        }
    }
    groups.iter().map(|group| told(group)).collect()
}

/// Knots by their own name, all else by what it is about.
fn told(group: &[&ShownAssumed]) -> String {
    let (value, why) = (&group[0].value, &group[0].why);
    let knots: Option<Vec<&str>> = group.iter().map(|one| one.knot.as_deref()).collect();
    match knots {
        Some(knots) => {
            let between = if knots.iter().any(|knot| knot.contains(',')) {
                "; "
            } else {
                ", "
            };
            format!("{value} knot: {} ({why})", knots.join(between))
        }
        None => {
            let whats: Vec<&str> = group.iter().map(|one| one.what.as_str()).collect();
            format!("{}: {value} ({why})", together(&whats))
        }
    }
}

/// Several names in one list, the words that all begin with said once.
fn together(names: &[&str]) -> String {
    let shared = names
        .iter()
        .skip(1)
        .fold(names[0], |shared, name| shared_words(shared, name));
    let rest: Vec<&str> = names.iter().map(|name| &name[shared.len()..]).collect();
    format!("{shared}{}", rest.join(", "))
}

/// The whole words, with the space behind them, that two texts begin with.
fn shared_words<'t>(one: &'t str, other: &str) -> &'t str {
    let mut length = 0;
    for (word, same) in one.split_inclusive(' ').zip(other.split_inclusive(' ')) {
        if word != same || !word.ends_with(' ') {
            break;
        }
        length += word.len();
    }
    &one[..length]
}

/// Something that is missing, the parts that it is missing of, and the measures that wait for it.
struct Missing<'r> {
    what: What,
    parts: Vec<&'r str>,
    measures: Vec<&'r str>,
}

/// What is missing, whatever it is of.
#[derive(PartialEq, Eq)]
enum What {
    Mended,
    Said(String),
}

/// What is missing, one line for each thing.
pub fn unknown(rig: &ShownRig) -> Vec<String> {
    let mut missing: Vec<Missing<'_>> = Vec::new();
    for unknown in rig.unknown.iter().filter(|unknown| is_missed(rig, unknown)) {
        for need in &unknown.needs {
            let (what, part) = parted(need);
            let index = missing
                .iter()
                .position(|one| one.what == what)
                .unwrap_or_else(|| {
                    missing.push(Missing {
                        what,
                        parts: Vec::new(),
                        measures: Vec::new(),
                    });
                    missing.len() - 1
                });
            let one = &mut missing[index];
            if let Some(part) = part.filter(|part| !one.parts.contains(part)) {
                one.parts.push(part);
            }
            if !one.measures.contains(&unknown.measure) {
                one.measures.push(unknown.measure);
            }
        }
    }
    missing.iter().map(line).collect()
}

/// What is missing, and of which part.
fn parted(need: &Need) -> (What, Option<&str>) {
    match need {
        Need::Mended => (What::Mended, None),
        Need::Missing(words) => match &words.part {
            Some(part) => (What::Said(words.what.clone()), Some(part)),
            None => (What::Said(words.to_string()), None),
        },
    }
}

/// Whether a reader of the sheet misses it. How long and thick a line is need not be said.
fn is_missed(rig: &ShownRig, unknown: &ShownUnknown) -> bool {
    let Some(part) = &unknown.part else {
        return is_told(Kind::Rig, unknown.measure);
    };
    let kinds = [
        (Kind::Section, &rig.sections),
        (Kind::Dropper, &rig.droppers),
        (Kind::Gap, &rig.gaps),
        (Kind::Fly, &rig.flies),
    ];
    let of = kinds.into_iter().find_map(|(kind, parts)| {
        let part = parts.iter().find(|one| one.name == *part)?;
        Some((kind, part))
    });
    let is_line = |part: &ShownPart| part.measures.get("role").is_some_and(|role| role.text == "line");
    of.is_some_and(|(kind, part)| is_told(kind, unknown.measure) && !is_line(part))
}

fn line(missing: &Missing<'_>) -> String {
    let what = match &missing.what {
        What::Mended => {
            return format!("{}, until the faults are mended", missing.measures.join(", "));
        }
        What::Said(what) => what,
    };
    let mut line = what.clone();
    if !missing.parts.is_empty() {
        line.push_str(&format!(": {}", missing.parts.join(", ")));
    }
    // That a length is unknown for want of a length need not be said.
    let waiting: Vec<&str> = missing
        .measures
        .iter()
        .copied()
        .filter(|measure| !what.contains(measure))
        .collect();
    if !waiting.is_empty() {
        line.push_str(&format!(" (so no {})", waiting.join(", ")));
    }
    line
}

#[cfg(test)]
mod tests {
    use super::*;

    fn one(what: &str, value: &str) -> ShownAssumed {
        ShownAssumed {
            what: what.to_owned(),
            value: value.to_owned(),
            why: "usual".to_owned(),
            knot: None,
        }
    }

    fn knot(knot: &str, value: &str) -> ShownAssumed {
        ShownAssumed {
            knot: Some(knot.to_owned()),
            ..one("the knot", value)
        }
    }

    #[test]
    fn the_same_knot_is_told_once() {
        let lines = assumed(&[
            knot("butt to taper", "blood"),
            knot("line to butt", "nail"),
            knot("taper to tippet", "blood"),
        ]);
        assert_eq!(
            lines,
            [
                "blood knot: butt to taper, taper to tippet (usual)",
                "nail knot: line to butt (usual)"
            ]
        );
        let lines = assumed(&[knot("of the ring, a to b", "clinch"), knot("of slate", "clinch")]);
        assert_eq!(lines, ["clinch knot: of the ring, a to b; of slate (usual)"]);
        let lines = assumed(&[
            one("how slate is dressed", "dressed"),
            one("how peat is dressed", "dressed"),
        ]);
        assert_eq!(lines, ["how slate is dressed, peat is dressed: dressed (usual)"]);
    }

    #[test]
    fn names_that_are_equal_or_unlike_are_kept_whole() {
        assert_eq!(together(&["tip height"]), "tip height");
        assert_eq!(together(&["the tip", "the tip"]), "the tip, tip");
        assert_eq!(
            together(&["tip height", "temperature"]),
            "tip height, temperature"
        );
    }
}
