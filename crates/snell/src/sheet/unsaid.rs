//! What a rig leaves unsaid, in few lines: what was assumed for the same
//! reason stands together, and so do the parts that lack the same thing.

use super::words::is_told;
use snell_rig::measure::Kind;
use snell_view::{HIDDEN, ShownAssumed, ShownPart, ShownRig, ShownUnknown};

/// What was assumed, one line for each value and reason.
pub fn assumed(assumed: &[ShownAssumed]) -> Vec<String> {
    let mut groups: Vec<(&ShownAssumed, Vec<&str>)> = Vec::new();
    for one in assumed {
        let same = groups
            .iter_mut()
            .find(|(first, _)| first.value == one.value && first.why == one.why);
        match same {
            Some((_, whats)) => whats.push(&one.what),
            None => groups.push((one, vec![&one.what])),
        }
    }
    groups
        .into_iter()
        .map(|(first, whats)| told(first, &whats))
        .collect()
}

/// Knots by their own name, all else by what it is about.
fn told(first: &ShownAssumed, whats: &[&str]) -> String {
    let knots: Option<Vec<&str>> = whats.iter().map(|what| of_knot(what)).collect();
    match knots {
        Some(knots) => {
            let between = if knots.iter().any(|knot| knot.contains(',')) {
                "; "
            } else {
                ", "
            };
            format!("{} knot: {} ({})", first.value, knots.join(between), first.why)
        }
        None => format!("{}: {} ({})", together(whats), first.value, first.why),
    }
}

/// `the knot butt to taper` as `butt to taper`.
fn of_knot(what: &str) -> Option<&str> {
    what.strip_prefix("the knot ")
        .or_else(|| what.strip_prefix("the knots "))
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
    what: &'r str,
    parts: Vec<&'r str>,
    measures: Vec<&'r str>,
}

/// What is missing, one line for each thing. Of the parts only that counts which the sheet has a place for.
pub fn unknown(rig: &ShownRig) -> Vec<String> {
    let parts = [&rig.sections, &rig.joins, &rig.droppers, &rig.gaps, &rig.flies];
    let names: Vec<&str> = parts
        .into_iter()
        .flatten()
        .map(|part| part.name.as_str())
        .collect();
    let mut missing: Vec<Missing<'_>> = Vec::new();
    for unknown in rig.unknown.iter().filter(|unknown| is_missed(rig, unknown)) {
        for need in &unknown.needs {
            let (what, part) = split(need, &names);
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

/// `the length of the line` as `length` and `line`, where that is a part's name.
fn split<'n>(need: &'n str, names: &[&str]) -> (&'n str, Option<&'n str>) {
    let part = names.iter().find_map(|name| {
        let before = need.strip_suffix(name)?;
        let what = before
            .strip_suffix(" of the ")
            .or_else(|| before.strip_suffix(" of "))?;
        Some((
            what.strip_prefix("the ").unwrap_or(what),
            Some(&need[before.len()..]),
        ))
    });
    part.unwrap_or((need, None))
}

fn line(missing: &Missing<'_>) -> String {
    if missing.what == HIDDEN {
        return format!("{}, until the faults are mended", missing.measures.join(", "));
    }
    let mut line = missing.what.to_owned();
    if !missing.parts.is_empty() {
        line.push_str(&format!(": {}", missing.parts.join(", ")));
    }
    // That a length is unknown for want of a length need not be said.
    let waiting: Vec<&str> = missing
        .measures
        .iter()
        .copied()
        .filter(|measure| !missing.what.contains(measure))
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
        }
    }

    #[test]
    fn the_same_knot_is_told_once() {
        let lines = assumed(&[
            one("the knot butt to taper", "blood"),
            one("the knot line to butt", "nail"),
            one("the knot taper to tippet", "blood"),
        ]);
        assert_eq!(
            lines,
            [
                "blood knot: butt to taper, taper to tippet (usual)",
                "nail knot: line to butt (usual)"
            ]
        );
        let lines = assumed(&[
            one("the knots of the ring, a to b", "clinch"),
            one("the knot of slate", "clinch"),
        ]);
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

    #[test]
    fn needs_are_split_at_their_part() {
        let names = ["line", "taper 1", "fluoro of mine"];
        assert_eq!(split("the length of the line", &names), ("length", Some("line")));
        assert_eq!(
            split("the hook of fluoro of mine", &names),
            ("hook", Some("fluoro of mine"))
        );
        assert_eq!(split("a water", &names), ("a water", None));
    }
}
