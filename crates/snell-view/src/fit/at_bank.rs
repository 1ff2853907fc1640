//! Changes from one state of a rig to another, in the words that one says at the bank: `lengthen the upper tippet to 54 in,
//! 22 in more`.

use super::bring::Teller;
use super::words;
use crate::written::Units;
use snell_rig::value::Value;
use snell_rules::fit::{Bank, Change, Target, To};

pub(crate) use super::words::water;

/// What is changed between two sets of changes of one rig.
pub(crate) fn changes_between(
    bank: &Bank<'_, '_, '_>,
    units: Units,
    from: &[Change],
    to: &[Change],
) -> Vec<String> {
    let teller = Teller { bank, units };
    let mut targets: Vec<Target> = from.iter().chain(to).map(|change| change.target).collect();
    targets.sort_unstable();
    targets.dedup();
    let told = targets.into_iter().filter_map(|target| {
        let of = |changes: &[Change]| changes.iter().find(|change| change.target == target).copied();
        let (was, now) = (of(from), of(to));
        (was != now).then(|| one(&teller, target, was, now))
    });
    told.collect()
}

fn one(teller: &Teller<'_, '_, '_, '_>, target: Target, was: Option<Change>, now: Option<Change>) -> String {
    let part = teller
        .bank
        .with(&[], |evaluation| words::part(&evaluation.rig.chain, target));
    let length = |change: Option<Change>| match change {
        Some(change) => teller.bank.lengths(change).map(|(now, _)| now),
        None => teller.bank.own_length(target),
    };
    match (target, length(was), length(now)) {
        (Target::Section(_) | Target::Tag(_), Some(was), Some(now)) => {
            let by = now.clone().with((now.si() - was.si()).abs(), now.dimension());
            let (to, by) = (teller.length(&now), teller.length(&by));
            match longer(&was, &now) {
                true => format!("lengthen {part} to {to}, {by} more"),
                false => format!("trim {part} to {to}, {by} off"),
            }
        }
        (Target::Cast, ..) => cast(now).to_owned(),
        (Target::Fly(id), ..) => {
            let choice = now.and_then(|now| teller.bank.choice(now));
            let own = || {
                teller
                    .bank
                    .with(&[], |evaluation| evaluation.rig.chain.fly(id).tied.name.clone())
            };
            format!(
                "change {part} to {}",
                choice.map_or_else(own, |choice| choice.words.clone())
            )
        }
        (Target::Section(_) | Target::Tag(_), ..) => format!("change {part}"),
    }
}

fn longer(was: &Value, now: &Value) -> bool {
    now.si() > was.si()
}

fn cast(now: Option<Change>) -> &'static str {
    match now.map(|now| now.to) {
        Some(To::Cast(cast)) => words::cast(cast),
        Some(To::Length(_) | To::Fly(_)) | None => "cast as the rig says",
    }
}
