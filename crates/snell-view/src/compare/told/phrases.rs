//! How an angler speaks of measures that moved: a row for each that people are
//! told of.

use snell_rig::measure::Kind;

/// How a measure is spoken of. `{by}`, `{now}`, `{was}` and `{part}` stand for what they say,
/// `{both}` for the two flies of a gap.
pub(super) struct Phrase {
    /// What the measure is of.
    pub of: Kind,
    /// Its name in the table of measures.
    pub measure: &'static str,
    /// That it is more now than it was, or less.
    pub moved: [&'static str; 2],
    /// What it is, where one state alone can tell it.
    pub called: &'static str,
}

const fn phrase(of: Kind, measure: &'static str, moved: [&'static str; 2], called: &'static str) -> Phrase {
    Phrase {
        of,
        measure,
        moved,
        called,
    }
}

/// The measures that people are told of, in the order of the telling. The rest only rules ask for, or they follow
/// from these; JSON has all.
pub(super) const PHRASES: &[Phrase] = &[
    phrase(
        Kind::Rig,
        "total",
        [
            "the leader is {by} longer, {now}",
            "the leader is {by} shorter, {now}",
        ],
        "the leader's length",
    ),
    phrase(
        Kind::Rig,
        "tippet",
        [
            "the whole tippet is {by} longer, {now}",
            "the whole tippet is {by} shorter, {now}",
        ],
        "the whole tippet",
    ),
    phrase(
        Kind::Rig,
        "sighter",
        [
            "the whole sighter is {by} longer, {now}",
            "the whole sighter is {by} shorter, {now}",
        ],
        "the whole sighter",
    ),
    phrase(
        Kind::Rig,
        "depth",
        [
            "the water is {by} deeper, {now}",
            "the water is {by} shallower, {now}",
        ],
        "the water's depth",
    ),
    phrase(
        Kind::Rig,
        "tippet-ratio",
        ["the tippet is {now} times the depth, was {was}"; 2],
        "the tippet over the depth",
    ),
    phrase(
        Kind::Rig,
        "wading",
        [
            "it is harder to stand in: depth times speed is {now}, was {was}",
            "it is easier to stand in: depth times speed is {now}, was {was}",
        ],
        "wading",
    ),
    phrase(
        Kind::Rig,
        "weight",
        [
            "the flies weigh {by} more, {now}",
            "the flies weigh {by} less, {now}",
        ],
        "the flies' weight",
    ),
    phrase(
        Kind::Rig,
        "lead",
        [
            "it carries {by} more lead, {now}",
            "it carries {by} less lead, {now}",
        ],
        "its lead",
    ),
    phrase(
        Kind::Rig,
        "weakest",
        [
            "the weakest place bears {by} more, {now}",
            "the weakest place bears {by} less, {now}",
        ],
        "what the weakest place bears",
    ),
    phrase(
        Kind::Rig,
        "float-to-point",
        [
            "the point is {by} further from the float, {now}",
            "the point is {by} nearer to the float, {now}",
        ],
        "from the float to the point",
    ),
    phrase(
        Kind::Gap,
        "length",
        [
            "{both} are {by} further apart, {now}",
            "{both} are {by} closer together, {now}",
        ],
        "from {part}",
    ),
    phrase(
        Kind::Gap,
        "hang-apart",
        [
            "{both} hang {by} further apart, {now}",
            "{both} hang {by} closer together, {now}",
        ],
        "from {part} as they hang",
    ),
    phrase(
        Kind::Fly,
        "rides",
        [
            "{part} rides {by} deeper, at {now}",
            "{part} rides {by} higher, at {now}",
        ],
        "{part}'s ride",
    ),
    phrase(
        Kind::Fly,
        "sinks",
        [
            "{part} sinks {by} faster, at {now}",
            "{part} sinks {by} slower, at {now}",
        ],
        "{part}'s sinking speed",
    ),
    phrase(
        Kind::Rig,
        "tippet-needed",
        [
            "the water takes {by} more line under it, {now}",
            "the water takes {by} less line under it, {now}",
        ],
        "the line that the water takes",
    ),
    phrase(
        Kind::Rig,
        "sighter-out",
        [
            "the sighter is held {by} higher, {now}",
            "the sighter is held {by} lower, {now}",
        ],
        "how high the sighter is held",
    ),
    phrase(
        Kind::Rig,
        "sink-time",
        [
            "the point is down {by} later, after {now}",
            "the point is down {by} sooner, after {now}",
        ],
        "when the point is down",
    ),
    phrase(
        Kind::Rig,
        "sink-run",
        [
            "it takes {by} more of the run to get down, {now}",
            "it takes {by} less of the run to get down, {now}",
        ],
        "how far on it is down",
    ),
    phrase(
        Kind::Rig,
        "sag",
        ["the line sags {by} more, {now}", "the line sags {by} less, {now}"],
        "the line's sag",
    ),
    phrase(
        Kind::Rig,
        "run-borne",
        [
            "it bears a run {by} faster, {now}",
            "it bears a run {by} slower, {now}",
        ],
        "the run that it bears",
    ),
    phrase(
        Kind::Rig,
        "beyond-tip",
        [
            "{by} more line is out beyond the tip, {now}",
            "{by} less line is out beyond the tip, {now}",
        ],
        "the line out beyond the tip",
    ),
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_phrase_is_of_a_measure_of_the_table() {
        for phrase in PHRASES {
            let known = snell_rig::measure::of(phrase.of, phrase.measure);
            assert!(known.is_some(), "{:?} {}", phrase.of, phrase.measure);
        }
    }
}
