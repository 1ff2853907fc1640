//! How measures moved, as one angler would tell another. An estimate is told
//! with what it may be off by, and left out where it moved by less.

use crate::compare::moved::Moved;
use crate::view::{Written, within};
use rig::measure::Kind;

/// How a measure is spoken of. `{by}`, `{now}`, `{was}` and `{part}` stand for what they say,
/// `{both}` for the two flies of a gap.
struct Phrase {
    of: Kind,
    measure: &'static str,
    /// That it is more now than it was, or less.
    moved: [&'static str; 2],
    /// What it is, where one state alone can tell it.
    called: &'static str,
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
const PHRASES: &[Phrase] = &[
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
        ["wading comes to {now}, was {was}"; 2],
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
        "hung",
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
        "sighter-clear",
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
            "it is down {by} further on, after {now}",
            "it is down {by} less far on, after {now}",
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
        "cushion",
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

/// The measures that people are told of, in the order of the telling: not those that follow from others, nor
/// estimates that moved by less than they may be off by.
pub fn for_people(measures: &[Moved]) -> Vec<&Moved> {
    let told = PHRASES.iter().flat_map(|phrase| {
        let of = |moved: &&Moved| (moved.kind, moved.measure) == (phrase.of, phrase.measure);
        measures.iter().filter(of)
    });
    told.filter(|moved| !moved.within_error && !follows(moved, measures))
        .collect()
}

/// Two flies that are further apart along the line hang further apart.
fn follows(moved: &Moved, measures: &[Moved]) -> bool {
    let along =
        |other: &Moved| (other.kind, other.measure) == (Kind::Gap, "length") && other.part == moved.part;
    (moved.kind, moved.measure) == (Kind::Gap, "hung") && measures.iter().any(along)
}

/// What people are told of measures that moved, a sentence each. Where all that moved are estimates, and none by
/// more than it may be off by, that is said.
pub fn moved(measures: &[Moved]) -> Vec<String> {
    let all = for_people(measures);
    let mut told: Vec<String> = all.iter().filter_map(|moved| by_how_much(moved)).collect();
    told.extend(as_before(measures));
    let one_sided = |figure: fn(&Moved) -> Option<&Written>| {
        let alone = all
            .iter()
            .filter(|moved| moved.was.is_none() || moved.now.is_none());
        let named =
            alone.filter_map(|moved| Some(format!("{} ({})", called(moved), estimate(figure(moved)?))));
        named.collect::<Vec<_>>().join(", ")
    };
    let (new, gone) = (
        one_sided(|moved| moved.now.as_ref()),
        one_sided(|moved| moved.was.as_ref()),
    );
    told.extend((!new.is_empty()).then(|| format!("it can be told now: {new}")));
    told.extend((!gone.is_empty()).then(|| format!("it can no longer be told: {gone}")));
    if told.is_empty() && measures.iter().any(|moved| moved.within_error) {
        told.push("no estimate moves by more than it may be off by".to_owned());
    }
    told
}

fn phrase_of(moved: &Moved) -> Option<&'static Phrase> {
    PHRASES
        .iter()
        .find(|phrase| (phrase.of, phrase.measure) == (moved.kind, moved.measure))
}

fn part_of(moved: &Moved) -> String {
    spoken(moved.part.as_deref().unwrap_or_default())
}

fn called(moved: &Moved) -> String {
    let called = phrase_of(moved).map_or(moved.measure, |phrase| phrase.called);
    called.replace("{part}", &part_of(moved))
}

/// A measure that moved, in words; nothing where one of the two states cannot tell it.
fn by_how_much(moved: &Moved) -> Option<String> {
    let (was, now, by) = (moved.was.as_ref()?, moved.now.as_ref()?, moved.by.as_ref()?);
    let [more, less] = phrase_of(moved)?.moved;
    let part = part_of(moved);
    let much = match moved.off() {
        Some(off) => format!("about {}", within(&by.text, &off.text)),
        None if now.estimate => format!("about {}", by.text),
        None => by.text.clone(),
    };
    let text = if by.value < 0.0 { less } else { more };
    let text = text
        .replace("{by}", &much)
        .replace("{now}", &figure(now))
        .replace("{was}", &figure(was));
    Some(
        text.replace("{part}", &part)
            .replace("{both}", &part.replacen(" to ", " and ", 1)),
    )
}

/// What it comes to, no finer than it can be told, with what it may be off by.
fn figure(written: &Written) -> String {
    match &written.off {
        Some(off) => format!("{} ± {}", within(&written.text, &off.text), off.text),
        None => written.text.clone(),
    }
}

/// The same, called an estimate.
fn estimate(written: &Written) -> String {
    let about = if written.estimate { "about " } else { "" };
    format!("{about}{}", figure(written))
}

/// What is asked first of all: flies that ride as deep as they did, as far as that can be told.
fn as_before(measures: &[Moved]) -> Option<String> {
    let rides = measures
        .iter()
        .filter(|moved| (moved.kind, moved.measure) == (Kind::Fly, "rides") && moved.within_error);
    let rides: Vec<&Moved> = rides.filter(|moved| is_felt(moved)).collect();
    let off = rides.first()?.off()?.text.clone();
    let names: Vec<String> = rides
        .iter()
        .filter_map(|moved| Some(spoken(moved.part.as_deref()?)))
        .collect();
    let names: Vec<&str> = names.iter().map(String::as_str).collect();
    let ride = if names.len() == 1 { "rides" } else { "ride" };
    Some(format!(
        "{} {ride} as deep as before, within ± {off}",
        super::and(&names)
    ))
}

/// Whether an estimate moved by as much as a tenth of what it may be off by. Less is nobody's question.
fn is_felt(moved: &Moved) -> bool {
    let by = moved.by.as_ref().map_or(0.0, |by| by.value.abs());
    moved.off().is_some_and(|off| by > off.value / 10.0)
}

/// A place on the rig takes an article, the name of a fly none.
fn spoken(part: &str) -> String {
    match part.split(' ').next() {
        Some("point" | "dropper" | "inline") => format!("the {part}"),
        _ => part.to_owned(),
    }
}
