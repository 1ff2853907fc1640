//! Measures and settings of a rig in the units that are wanted.

use crate::need::needs_of;
use crate::shown::{Measures, ShownPart, ShownUnknown};
use crate::written::{Estimates, Units, Written};
use snell_rig::Evaluation;
use snell_rig::lack::{Lack, Outcome};
use snell_rig::measure::{self, Get, Measure, Thing};
use snell_rig::value::Value;

/// Shows the measures of one evaluation and keeps what cannot be told.
pub(super) struct Shower<'e, 'w, 'p> {
    pub(super) evaluation: &'e Evaluation<'w, 'p>,
    pub(super) units: Units,
    pub(super) estimates: Estimates,
    pub(super) unknown: Vec<ShownUnknown>,
}

impl<'e, 'w, 'p> Shower<'e, 'w, 'p> {
    pub(super) fn new(evaluation: &'e Evaluation<'w, 'p>, units: Units, estimates: Estimates) -> Self {
        Self {
            evaluation,
            units,
            estimates,
            unknown: Vec::new(),
        }
    }

    /// Keeps what cannot be told of some parts, and tells nothing else of them.
    pub(super) fn look(&mut self, things: impl Iterator<Item = Thing>) {
        for thing in things {
            for measure in measure::all_of(thing.kind()) {
                if let (Get::Value(_), Err(lack)) = (measure.get, self.evaluation.measure(measure, thing)) {
                    self.keep(measure, lack, &self.evaluation.rig.name_of(thing));
                }
            }
        }
    }

    pub(super) fn parts(&mut self, things: impl Iterator<Item = Thing>) -> Vec<ShownPart> {
        let part = |thing| {
            let name = self.evaluation.rig.name_of(thing);
            let measures = self.measures(thing, &name);
            ShownPart { name, measures }
        };
        things.map(part).collect()
    }

    pub(super) fn measures(&mut self, thing: Thing, of: &str) -> Measures {
        let mut shown = Measures::new();
        for measure in measure::all_of(thing.kind()) {
            if let Some(written) = self.measure(measure, thing, of) {
                shown.insert(measure.name, written);
            }
        }
        shown
    }

    fn measure(&mut self, measure: &'static Measure, thing: Thing, of: &str) -> Option<Written> {
        match measure.get {
            Get::Words(_) => {
                let words = measure.words(self.evaluation, thing);
                (!words.is_empty()).then(|| Written::words(&words))
            }
            Get::Value(_) => match self.evaluation.measure(measure, thing) {
                Ok(value) => Some(match self.estimates {
                    Estimates::Bare if measure.is_drawn() => {
                        Written::of(&value, self.units, self.evaluation).estimated()
                    }
                    Estimates::Bare | Estimates::Between => {
                        written(self.evaluation, measure, thing, &value, self.units)
                    }
                }),
                Err(lack) => {
                    self.keep(measure, lack, of);
                    None
                }
            },
        }
    }

    /// Keeps what cannot be told; what a rig of this kind need not have is passed over.
    fn keep(&mut self, measure: &'static Measure, lack: Lack, of: &str) {
        if lack.is_of_other_kind() {
            return;
        }
        let needs = needs_of(self.evaluation, &lack);
        let part = (!of.is_empty()).then(|| of.to_owned());
        self.unknown.push(ShownUnknown {
            measure: measure.name,
            part,
            needs,
        });
    }

    pub(super) fn written(&self, outcome: &Outcome) -> Option<Written> {
        outcome
            .as_ref()
            .ok()
            .map(|value| Written::of(value, self.units, self.evaluation))
    }
}

/// The value of a measure as its reader wants it, an estimate called so with what it lies between.
pub fn written(
    evaluation: &Evaluation<'_, '_>,
    measure: &Measure,
    thing: Thing,
    value: &Value,
    units: Units,
) -> Written {
    let written = Written::of(value, units, evaluation);
    match measure.between(evaluation, thing, value) {
        Some(between) => written.between(between, value, units, evaluation),
        None if measure.is_estimate(evaluation, thing) => written.estimated(),
        None => written,
    }
}
