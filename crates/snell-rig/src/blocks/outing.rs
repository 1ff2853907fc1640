//! An outing: a day at the water with a rig, and what was caught.
//!
//! Which fly of the rig a catch names is settled where the rig is laid out.

use super::lines::Lines;
use crate::day::Day;
use crate::fit::Given;
use crate::keywords::{OutingKey, Take};
use crate::lack::{Lack, Outcome};
use crate::project::{BlockId, LineRef};
use crate::value::Value;
use snell_finding::{Code, Finding};
use snell_syntax::{BlockKind, Joint, Word};
use snell_text::Place;

/// An outing.
#[derive(Clone, Debug)]
pub struct Outing<'p> {
    /// The day; nothing where it is none.
    pub day: Option<Day>,
    /// The rig that was fished.
    pub rig: Option<BlockId>,
    /// The water, where the outing says so: its block, or its essentials as written.
    pub water: Option<(Option<BlockId>, String)>,
    /// What was caught.
    pub catches: Vec<Catch<'p>>,
    /// Notes for people.
    pub notes: Vec<&'p str>,
}

/// What became of fish that were hooked.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Came {
    /// They were caught.
    ToHand,
    /// They got off.
    Off,
}

/// Fish caught, or lost.
#[derive(Clone, Debug)]
pub struct Catch<'p> {
    /// What became of them.
    pub came: Came,
    /// How many.
    pub count: Outcome,
    /// The fly's name, label or place as written, with the number behind it.
    pub on: Option<(&'p Word, Option<u16>)>,
    /// What else is said of them: `grayling, 31 and 34 cm, at 10:40`.
    pub said: Option<&'p str>,
    pub(crate) line: LineRef<'p>,
    pub(crate) place: Place,
}

impl<'p> Outing<'p> {
    pub(super) fn read(lines: &Lines<'_, 'p, OutingKey>) -> Self {
        let mut outing = Self {
            day: None,
            rig: None,
            water: None,
            catches: Vec::new(),
            notes: Vec::new(),
        };
        for (key, given) in lines.each() {
            match key {
                OutingKey::Day => outing.day = day(lines, given),
                OutingKey::Rig => outing.rig = lines.named(given, BlockKind::Rig),
                OutingKey::Water => outing.water = Some(water(lines, given)),
                OutingKey::Caught => outing.catches.push(catch(lines, given, Came::ToHand)),
                OutingKey::Lost => outing.catches.push(catch(lines, given, Came::Off)),
                OutingKey::Note => outing.notes.extend(given.text.map(|text| given.line.text(text))),
                // These edit the rig, which reads them.
                OutingKey::Remove | OutingKey::Add => {}
            }
        }
        outing
    }
}

fn day(lines: &Lines<'_, '_, OutingKey>, given: &Given<'_>) -> Option<Day> {
    let fit = given.get(Take::Day)?;
    let written = fit.line.written(fit.expr.span);
    written
        .parse()
        .map_err(|_| {
            let message = format!("there is no day `{written}`");
            let finding = Finding::fault(Code::DayUnknown, fit.place(), message);
            lines
                .faults
                .report(finding.help("a day is year, month, day: `2026-05-14`"));
        })
        .ok()
}

fn water<'p>(lines: &Lines<'_, 'p, OutingKey>, given: &Given<'p>) -> (Option<BlockId>, String) {
    let block = lines.named(given, BlockKind::Water);
    (block, given.line.behind_key())
}

fn catch<'p>(lines: &Lines<'_, 'p, OutingKey>, given: &Given<'p>, came: Came) -> Catch<'p> {
    let count = given.get(Take::Plain);
    let whole = |value: Value| match value.si() {
        si if si.fract() == 0.0 && (0.0..1e6).contains(&si) => Ok(value),
        _ => {
            let place = count.map_or_else(|| given.line.whole(), |fit| fit.place());
            let finding = Finding::fault(Code::CountNotWhole, place, "fish are caught whole");
            Err(lines
                .faults
                .lack(finding.help("write a whole number: `caught 3 on point`")))
        }
    };
    let outcome = count.map_or(Err(Lack::Faulty), |fit| lines.constant(fit));
    let on = given.within(Joint::On, Take::Path);
    let number = given
        .within(Joint::On, Take::Any)
        .and_then(|fit| fit.line.written(fit.expr.single()?.span).parse().ok());
    let word = on.and_then(|fit| fit.expr.path()?.first());
    Catch {
        came,
        said: given.text.map(|text| given.line.text(text)),
        count: outcome.and_then(whole),
        on: word.map(|word| (word, number)),
        line: given.line,
        place: on.map_or_else(|| given.line.whole(), |fit| fit.place()),
    }
}
