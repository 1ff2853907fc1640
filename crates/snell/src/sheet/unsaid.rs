//! What a rig leaves unsaid, in few lines: what was assumed for the same
//! reason stands together, and so do the parts that lack the same thing.

use notebook::view::{ShownAssumed, ShownRig};

/// What was assumed, one line for each value and reason.
pub fn assumed(assumed: &[ShownAssumed]) -> Vec<String> {
    let mut groups: Vec<(&ShownAssumed, Vec<&str>)> = Vec::new();
    for one in assumed {
        let same = groups.iter_mut().find(|(first, _)| first.value == one.value && first.why == one.why);
        match same {
            Some((_, whats)) => whats.push(&one.what),
            None => groups.push((one, vec![&one.what])),
        }
    }
    let line = |(first, whats): (&ShownAssumed, Vec<&str>)| {
        format!("{}: {} ({})", together(&whats), first.value, first.why)
    };
    groups.into_iter().map(line).collect()
}

/// Several names in one list, the words that all begin with said once.
fn together(names: &[&str]) -> String {
    let shared = names.iter().skip(1).fold(names[0], |shared, name| shared_words(shared, name));
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

/// What is missing, one line for each thing.
pub fn unknown(rig: &ShownRig) -> Vec<String> {
    let parts = [&rig.sections, &rig.joins, &rig.droppers, &rig.gaps, &rig.flies];
    let names: Vec<&str> = parts.into_iter().flatten().map(|part| part.name.as_str()).collect();
    let mut missing: Vec<Missing<'_>> = Vec::new();
    for unknown in &rig.unknown {
        for need in &unknown.needs {
            let (what, part) = split(need, &names);
            let index = missing.iter().position(|one| one.what == what).unwrap_or_else(|| {
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

/// `the length of the line` as `length` and `line`, where that is a part's name.
fn split<'n>(need: &'n str, names: &[&str]) -> (&'n str, Option<&'n str>) {
    let part = names.iter().find_map(|name| {
        let before = need.strip_suffix(name)?;
        let what = before.strip_suffix(" of the ").or_else(|| before.strip_suffix(" of "))?;
        Some((what.strip_prefix("the ").unwrap_or(what), Some(&need[before.len()..])))
    });
    part.unwrap_or((need, None))
}

fn line(missing: &Missing<'_>) -> String {
    let mut line = missing.what.to_owned();
    if !missing.parts.is_empty() {
        line.push_str(&format!(": {}", missing.parts.join(", ")));
    }
    // That a length is unknown for want of a length need not be said.
    let waiting: Vec<&str> = missing.measures.iter().copied().filter(|measure| !missing.what.contains(measure)).collect();
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
        assert_eq!(lines, ["the knot butt to taper, taper to tippet: blood (usual)", "the knot line to butt: nail (usual)"]);
    }

    #[test]
    fn names_that_are_equal_or_unlike_are_kept_whole() {
        assert_eq!(together(&["tip height"]), "tip height");
        assert_eq!(together(&["the tip", "the tip"]), "the tip, tip");
        assert_eq!(together(&["tip height", "temperature"]), "tip height, temperature");
    }

    #[test]
    fn needs_are_split_at_their_part() {
        let names = ["line", "taper 1", "fluoro of mine"];
        assert_eq!(split("the length of the line", &names), ("length", Some("line")));
        assert_eq!(split("the hook of fluoro of mine", &names), ("hook", Some("fluoro of mine")));
        assert_eq!(split("a water", &names), ("a water", None));
    }
}
