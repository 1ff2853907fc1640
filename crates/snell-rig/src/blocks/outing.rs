//! An outing: a day at the water with a rig, and what was caught.
//!
//! Which fly of the rig a catch names is settled where the rig is laid out.

use super::{Lines, named};
use crate::day::Day;
use crate::faults;
use crate::fit::Given;
use crate::keywords::Take;
use crate::project::{BlockId, LineRef};
use crate::rig::Layout;
use crate::value::Outcome;
use crate::world::World;
use snell_finding::Finding;
use snell_syntax::{BlockKind, ExprKind, Joint, Word};
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

/// Fish caught.
#[derive(Clone, Debug)]
pub struct Catch<'p> {
    /// How many.
    pub count: Outcome,
    /// The fly's name, label or place as written, with the number behind it.
    pub on: Option<(&'p Word, Option<u16>)>,
    line: LineRef<'p>,
    place: Place,
}

impl<'p> Outing<'p> {
    pub(super) fn read(lines: &Lines<'_, 'p>) -> Self {
        let all = |key: &'static str| lines.given.iter().filter(move |given| given.row.key == key);
        Self {
            day: lines.get("day").and_then(|given| day(lines, given)),
            rig: lines
                .get("rig")
                .and_then(|given| given.get(Take::Name(BlockKind::Rig)))
                .and_then(|fit| named(lines.world, fit, BlockKind::Rig)),
            water: lines.get("water").map(|given| water(lines.world, given)),
            catches: all("caught").map(|given| catch(lines, given)).collect(),
            notes: all("note")
                .filter_map(|given| given.text.map(|text| given.line.text(text)))
                .collect(),
        }
    }
}

fn day(lines: &Lines<'_, '_>, given: &Given<'_>) -> Option<Day> {
    let fit = given.get(Take::Day)?;
    let written = fit.line.written(fit.expr.span);
    written
        .parse()
        .map_err(|_| {
            let message = format!("there is no day `{written}`");
            let finding = Finding::fault(faults::DAY_UNKNOWN, fit.place(), message);
            lines
                .faults
                .report(finding.help("a day is year, month, day: `2026-05-14`"));
        })
        .ok()
}

fn water(world: &World<'_>, given: &Given<'_>) -> (Option<BlockId>, String) {
    let block = given
        .get(Take::Name(BlockKind::Water))
        .and_then(|fit| named(world, fit, BlockKind::Water));
    (block, given.line.behind_key())
}

fn catch<'p>(lines: &Lines<'_, 'p>, given: &Given<'p>) -> Catch<'p> {
    let count = given.get(Take::Plain);
    let whole = |value: crate::value::Value| match value.si() {
        si if si.fract() == 0.0 && (0.0..1e6).contains(&si) => Ok(value),
        _ => {
            let place = count.map_or_else(|| given.line.whole(), |fit| fit.place());
            let finding = Finding::fault(faults::COUNT_NOT_WHOLE, place, "fish are caught whole");
            Err(lines
                .faults
                .lack(finding.help("write a whole number: `caught 3 on point`")))
        }
    };
    let outcome = count.map_or(Err(crate::value::Lack::Faulty), |fit| lines.constant(fit));
    let on = given.within(Joint::On, Take::Path);
    let number = given
        .within(Joint::On, Take::Any)
        .and_then(|fit| match &fit.expr.kind {
            ExprKind::Single(single) => fit.line.written(single.span).parse().ok(),
            _ => None,
        });
    let word = on.and_then(|fit| match &fit.expr.kind {
        ExprKind::Path(words) => words.first(),
        _ => None,
    });
    Catch {
        count: outcome.and_then(whole),
        on: word.map(|word| (word, number)),
        line: given.line,
        place: on.map_or_else(|| given.line.whole(), |fit| fit.place()),
    }
}

impl Catch<'_> {
    /// Which of a rig's flies it was caught on, as an index.
    ///
    /// # Errors
    /// The rig has no such fly.
    pub fn fly(&self, world: &World<'_>, layout: &Layout<'_>) -> Result<Option<usize>, Box<Finding>> {
        let Some((word, number)) = self.on else {
            return Ok(None);
        };
        let at = |(index, fly): (usize, &crate::rig::FlyOn<'_>)| {
            let label = fly
                .part
                .label()
                .is_some_and(|(_, label)| label.folded == word.folded);
            let name = fly.block.is_some_and(|id| world.name(id) == &*word.folded);
            (number.is_none() && (label || name) || fly.part.key() == &*word.folded).then_some(index)
        };
        let all: Vec<usize> = layout.flies.iter().enumerate().filter_map(at).collect();
        let found = match number {
            None => all.first(),
            Some(number) => all.get(usize::from(number).wrapping_sub(1)),
        };
        match found {
            Some(index) => Ok(Some(*index)),
            None => Err(Box::new(self.no_such_fly(layout))),
        }
    }

    fn no_such_fly(&self, layout: &Layout<'_>) -> Finding {
        let written = self.on.map_or("", |(word, _)| self.line.spelled(word));
        let message = format!("the rig had no fly `{written}` that day");
        let flies: Vec<String> = layout.flies.iter().map(|fly| format!("`{}`", fly.name)).collect();
        let finding = Finding::fault(faults::FLY_NOT_ON_RIG, self.place, message);
        finding.help(format!(
            "name one of its flies, its label, or where it sits (`point`, `dropper 2`): {}",
            flies.join(", ")
        ))
    }
}
