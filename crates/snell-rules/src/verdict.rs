//! Whether a rig fishes in its water, and whether one may stand there: the one answer that a check, a fit, a card and a
//! sheet give. Which rules decide it, the rules say themselves.

use crate::allow;
use crate::apply::{Found, told};
use crate::chance::{Chance, chances};
use crate::gathering::Applied;
use crate::judge::{Judge, Skip, breaches, judged};
use crate::rulebook::Books;
use snell_rig::faults::Faults;
use snell_rig::keywords::{Decides, Method};
use snell_rig::lack::Lack;
use snell_rig::measure;
use snell_rig::rig::Rig;
use snell_rig::{Evaluation, World};
use snell_units::in_order;

/// The rules on which one part of the verdict on a rig hangs, without those that the rig allows itself to break.
#[derive(Clone, Debug)]
pub struct Deciding<'p> {
    rules: Vec<Applied<'p>>,
    /// What the rig allows itself to break.
    silenced: Vec<&'p str>,
}

/// One part of the verdict.
#[derive(Clone, Debug)]
pub enum Verdict {
    /// No rule that decides it is broken.
    Holds,
    /// What these found stands against it.
    Breaks(Vec<Found>),
    /// It cannot be told.
    Untold(Lack),
    /// No rule that decides it speaks of such a rig.
    Unasked,
}

/// The first thing that stands against a rig.
#[derive(Clone, Debug)]
pub enum Against {
    /// A rule that it breaks, by its place among those that decide.
    Rule(usize),
    /// The water, in which there is no such drift; what it would need.
    Water(Lack),
}

impl<'p> Deciding<'p> {
    /// Those that a rig is held against. The world is the rig's, which notes what the answer hangs on.
    pub fn of(books: &Books<'_, 'p>, world: &World<'p>, rig: &Rig<'p>, what: Decides) -> Self {
        let applied = books.of_rig(world, rig, &Faults::default());
        let silenced = allow::silenced(books, world, rig);
        Self {
            rules: Vec::new(),
            silenced,
        }
        .with(&applied, what)
    }

    /// Those of a method as well, for a rig that is looked at as if it were fished so.
    #[must_use]
    pub fn with_those_of(
        self,
        books: &Books<'_, 'p>,
        world: &World<'p>,
        rig: &Rig<'p>,
        method: Method,
        what: Decides,
    ) -> Self {
        let shipped = books.of_method(world, method, rig.block.id.file);
        self.with(&shipped, what)
    }

    fn with(mut self, rules: &[Applied<'p>], what: Decides) -> Self {
        for applied in rules {
            let known = self.rules.iter().any(|own| own.rule.id == applied.rule.id);
            if applied.rule.decides == Some(what) && !known && !self.silenced.contains(&applied.rule.name) {
                self.rules.push(applied.clone());
            }
        }
        self
    }

    /// The rules, in the order in which they are asked.
    pub fn rules(&self) -> &[Applied<'p>] {
        &self.rules
    }

    /// How likely what they ask of a rig holds, the least likely first.
    pub fn chances(&self, evaluation: &Evaluation<'_, 'p>) -> Vec<Chance> {
        let mut all: Vec<Chance> = self
            .rules
            .iter()
            .flat_map(|rule| chances(rule, evaluation))
            .collect();
        in_order(&mut all, |one, other| one.holds.total_cmp(&other.holds));
        all
    }

    /// What stands against a rig first.
    ///
    /// # Errors
    /// What is unsaid, where that keeps a rule from being judged and no other is broken.
    pub fn first(&self, evaluation: &Evaluation<'_, 'p>) -> Result<Option<Against>, Lack> {
        let mut untold = None;
        for (index, applied) in self.rules.iter().enumerate() {
            match applied.is_broken_by(evaluation) {
                Ok(false) => {}
                Ok(true) => return Ok(Some(Against::Rule(index))),
                // Flies that drift and do not get down break the rule that asks when they do.
                Err(lack) if lack.is_of_the_water() => {
                    let drifts = measure::drifting(evaluation).is_ok();
                    let against = if drifts {
                        Against::Rule(index)
                    } else {
                        Against::Water(lack)
                    };
                    return Ok(Some(against));
                }
                Err(lack) => untold = untold.or(Some(lack)),
            }
        }
        untold.map_or(Ok(None), Err)
    }

    /// All that stands against a rig.
    pub fn verdict(&self, evaluation: &Evaluation<'_, 'p>) -> Verdict {
        let faults = Faults::default();
        let mut judge = Judge::new(evaluation, &faults);
        let asked = self
            .rules
            .iter()
            .any(|applied| !judge.rule(applied).things.is_empty());
        if !asked {
            return Verdict::Unasked;
        }
        let mut skips = Vec::new();
        let broken = breaches(&judged(&self.rules, evaluation, &faults), &mut skips);
        let found = told(evaluation, &broken, &mut skips);
        let untold = || skips.iter().map(Skip::lack).find(|lack| !lack.is_of_other_kind());
        match (found.is_empty(), untold()) {
            (false, _) => Verdict::Breaks(found),
            (true, Some(lack)) => Verdict::Untold(lack),
            (true, None) => Verdict::Holds,
        }
    }
}
