//! How measures moved, as one angler would tell another. An estimate is told
//! with what it may be off by, and left out where it moved by less.

use super::phrases::{PHRASES, Phrase};
use crate::compare::cards::Outline;
use crate::compare::moved::Moved;
use crate::rounding::{coarse, within};
use crate::shown::Measures;
use crate::written::Written;
use snell_rig::measure::Kind;
use snell_units::{Dimension, Quantity};

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

/// The measures of a rig that people are told of, a line each: `total 15 ft 10 in`, `bracken rides 26 in (24 to 31 in)`.
pub fn figures(rig: &Outline) -> Vec<String> {
    let of = |kind: Kind, part: &str, measures: &Measures| {
        let phrases = PHRASES.iter().filter(|phrase| phrase.of == kind);
        let told = phrases.filter_map(|phrase| {
            let written = measures.get(phrase.measure)?;
            // Without lead there is nothing to tell of it.
            written
                .value
                .filter(|value| (kind, phrase.measure, *value) != (Kind::Rig, "lead", 0.0))?;
            let told = format!("{part} {} {}", phrase.measure, written.told());
            Some(told.trim_start().to_owned())
        });
        told.collect::<Vec<_>>()
    };
    let mut all = of(Kind::Rig, "", &rig.measures);
    for gap in &rig.gaps {
        all.extend(of(Kind::Gap, &gap.name, &gap.measures));
    }
    for fly in &rig.flies {
        all.extend(of(Kind::Fly, &fly.name, &fly.measures));
    }
    all
}

/// Two flies that are further apart along the line hang further apart.
fn follows(moved: &Moved, measures: &[Moved]) -> bool {
    let along =
        |other: &Moved| (other.kind, other.measure) == (Kind::Gap, "length") && other.part == moved.part;
    (moved.kind, moved.measure) == (Kind::Gap, "hang-apart") && measures.iter().any(along)
}

/// Whether a sentence would say again what another one says: that the tippet is longer by as much as the leader, or that
/// the point goes further because it is down later.
fn said_already(moved: &Moved, measures: &[Moved]) -> bool {
    let other = |name: &str| {
        let of_rig = |other: &&Moved| (other.kind, other.measure) == (Kind::Rig, name);
        measures
            .iter()
            .find(of_rig)
            .filter(|other| other.by.is_some() && !other.within_error)
    };
    let by = |one: &Moved| one.by.as_ref().map_or(0.0, |by| by.value);
    let as_much = |other: &Moved| (by(other) - by(moved)).abs() < 1e-9;
    match (moved.kind, moved.measure) {
        (Kind::Rig, "tippet" | "sighter") => other("total").is_some_and(as_much),
        (Kind::Rig, "tippet-ratio") => other("tippet").is_some() || other("depth").is_some(),
        (Kind::Rig, "sighter-out") => other("tippet-needed").is_some(),
        (Kind::Rig, "sink-run") => other("sink-time").is_some_and(|other| by(other) * by(moved) > 0.0),
        (Kind::Rig | Kind::Gap | Kind::Fly | Kind::Section | Kind::Join | Kind::Dropper, _)
        | (Kind::Shot | Kind::Rod | Kind::Water, _) => false,
    }
}

/// What people are told of measures that moved, a sentence each. Where all that moved are estimates, and none by
/// more than it may be off by, that is said.
pub fn moved(measures: &[Moved]) -> Vec<String> {
    let mut all = for_people(measures);
    all.retain(|moved| !said_already(moved, measures));
    let mut told: Vec<String> = all.iter().filter_map(|moved| by_how_much(moved)).collect();
    told.extend(as_before(measures));
    let one_sided = |figure: fn(&Moved) -> Option<&Written>| {
        let alone = all
            .iter()
            .filter(|moved| moved.was.is_none() || moved.now.is_none());
        let named = alone.filter_map(|moved| Some(format!("{} {}", called(moved), estimate(figure(moved)?))));
        named.collect::<Vec<_>>().join(", ")
    };
    let (new, gone) = (
        one_sided(|moved| moved.now.as_ref()),
        one_sided(|moved| moved.was.as_ref()),
    );
    told.extend((!new.is_empty()).then(|| format!("it can be told now: {new}")));
    told.extend((!gone.is_empty()).then(|| format!("it can no longer be told: {gone}")));
    if told.is_empty() && measures.iter().any(|moved| moved.within_error) {
        told.push("it fishes as before, as far as can be told".to_owned());
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
    let much = match moved.between() {
        Some(between) => format!(
            "about {}",
            rounded(moved.dimension(), by.value.abs(), &between.off, now)
        ),
        None if now.estimate => format!("about {}", guessed(moved.dimension(), by.value.abs(), (was, now))),
        None => by.text.clone(),
    };
    let text = if by.value < 0.0 { less } else { more };
    let text = text
        .replace("{by}", &much)
        .replace("{now}", &guess(moved.dimension(), now))
        .replace("{was}", &guess(moved.dimension(), was));
    Some(
        text.replace("{part}", &part)
            .replace("{both}", &part.replacen(" to ", " and ", 1)),
    )
}

/// What nobody weighed is told to a tenth of it. Source: by judgement.
const UNWEIGHED: f64 = 0.1;

/// A guess, with no more digits than it is worth.
fn guess(dimension: Dimension, written: &Written) -> String {
    match (written.value, &written.between) {
        (Some(value), None) if written.estimate => {
            let off = Quantity::new(value.abs() * UNWEIGHED, dimension);
            let off = coarse(&snell_units::write(off, written.system));
            rounded(dimension, value, &off, written)
        }
        (Some(_) | None, _) => written.told(),
    }
}

/// By how much a guess moved: to one digit, as the two are made of the same guesses.
fn guessed(dimension: Dimension, by: f64, (was, now): (&Written, &Written)) -> String {
    let first = 10_f64.powf(by.log10().floor());
    let one_digit = (by / first).round() * first;
    let whole = |written: &Written| written.value.unwrap_or_default().abs();
    let least = whole(was).max(whole(now)) * UNWEIGHED;
    // From a tenth of the whole on, the digits of the whole.
    let by = if by < least { one_digit } else { by };
    let off = Quantity::new(least.min(by), dimension);
    rounded(dimension, by, &coarse(&snell_units::write(off, now.system)), now)
}

fn rounded(dimension: Dimension, value: f64, off: &str, like: &Written) -> String {
    within(Quantity::new(value, dimension), off, like.system)
}

/// The same, called an estimate.
fn estimate(written: &Written) -> String {
    let about = if written.estimate { "about " } else { "" };
    format!("{about}{}", written.told())
}

/// What is asked first of all: flies that ride as deep as they did, as far as that can be told.
fn as_before(measures: &[Moved]) -> Option<String> {
    let rides = measures
        .iter()
        .filter(|moved| (moved.kind, moved.measure) == (Kind::Fly, "rides") && moved.within_error);
    let rides: Vec<&Moved> = rides.filter(|moved| is_felt(moved)).collect();
    let off = rides.first()?.between()?.off.clone();
    let names: Vec<String> = rides
        .iter()
        .filter_map(|moved| Some(spoken(moved.part.as_deref()?)))
        .collect();
    let names: Vec<&str> = names.iter().map(String::as_str).collect();
    let ride = if names.len() == 1 { "rides" } else { "ride" };
    Some(format!(
        "{} {ride} as deep as before, within {off}",
        super::words::and(&names)
    ))
}

/// Whether an estimate moved by as much as a tenth of what it may be off by. Less is nobody's question.
fn is_felt(moved: &Moved) -> bool {
    let by = moved.by.as_ref().map_or(0.0, |by| by.value.abs());
    moved.between().is_some_and(|range| by > range.told_to / 10.0)
}

/// A place on the rig takes an article, the name of a fly none.
fn spoken(part: &str) -> String {
    match part.split(' ').next() {
        Some("point" | "dropper" | "inline") => format!("the {part}"),
        _ => part.to_owned(),
    }
}
