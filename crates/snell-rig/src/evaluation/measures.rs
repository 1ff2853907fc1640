//! Measures asked of an evaluation, and how far an answer may be off.

use super::core::{
    Between, Draws, Error, Evaluation, Get, Key, Measure, OfThing, Step, Subject, Told, WordsOf,
};
use crate::lack::{Lack, Outcome};
use crate::thing::Thing;
use crate::value::Value;
use snell_water::spread::Drawn;

impl Evaluation<'_, '_> {
    /// A measure of a thing.
    pub fn measure(&self, measure: &'static Measure, thing: Thing) -> Outcome {
        let Get::Value(get) = measure.get else {
            return Err(Lack::Faulty);
        };
        let key = Key::Measure(std::ptr::from_ref(measure).addr(), thing);
        let step = Step::new(key, Subject::Measure(measure.name));
        self.by_need(step, || match (get, thing) {
            (OfThing::Rig(get), Thing::Rig | Thing::Rod | Thing::Water) => get(self),
            (OfThing::Section(get), Thing::Section(id)) => get(self, id),
            (OfThing::Join(get), Thing::Join(id)) => get(self, id),
            (OfThing::Dropper(get), Thing::Dropper(id)) => get(self, id),
            (OfThing::Gap(get), Thing::Gap(id)) => get(self, id),
            (OfThing::Fly(get), Thing::Fly(id)) => get(self, id),
            (OfThing::Shot(get), Thing::Shot(id)) => get(self, id),
            // It is a measure of another kind of thing.
            (
                OfThing::Rig(_)
                | OfThing::Section(_)
                | OfThing::Join(_)
                | OfThing::Dropper(_)
                | OfThing::Gap(_)
                | OfThing::Fly(_)
                | OfThing::Shot(_),
                _,
            ) => Err(Lack::Faulty),
        })
    }

    /// The measure of a thing by its name.
    pub(crate) fn measure_called(&self, name: &str, thing: Thing) -> Outcome {
        let measure = self.measures.of(thing.kind(), name).ok_or(Lack::Faulty)?;
        self.measure(measure, thing)
    }

    /// Each word that a measure tells of a thing.
    pub(super) fn told(&self, measure: &Measure, thing: Thing, told: &mut Told<'_>) {
        let Get::Words(get) = measure.get else { return };
        match (get, thing) {
            (WordsOf::Rig(get), Thing::Rig) => get(self, told),
            (WordsOf::Section(get), Thing::Section(id)) => get(self, id, told),
            (WordsOf::Join(get), Thing::Join(id)) => get(self, id, told),
            (WordsOf::Fly(get), Thing::Fly(id)) => get(self, id, told),
            (WordsOf::Shot(get), Thing::Shot(id)) => get(self, id, told),
            (
                WordsOf::Rig(_) | WordsOf::Section(_) | WordsOf::Join(_) | WordsOf::Fly(_) | WordsOf::Shot(_),
                _,
            ) => {}
        }
    }
}

impl Measure {
    /// The words that it tells of a thing; none where it is told in a quantity.
    pub fn words(&self, evaluation: &Evaluation<'_, '_>, thing: Thing) -> Vec<String> {
        let mut words = Vec::new();
        evaluation.told(self, thing, &mut |word| words.push(word.to_owned()));
        words
    }

    /// Whether its value is an estimate, and must be called one.
    pub fn is_estimate(&self, evaluation: &Evaluation<'_, '_>, thing: Thing) -> bool {
        match self.error {
            Error::None => false,
            Error::Unweighed => {
                let mut flies = evaluation.rig.chain.flies();
                let is_of = |id| !matches!(thing, Thing::Fly(other) if other != id);
                flies.any(|(id, fly)| is_of(id) && fly.tied.fly.mass.is_none())
            }
            Error::Unsaid | Error::Share(_) | Error::Drawn(_) => true,
        }
    }

    /// Between what its value may lie; nothing where it is as good as what it is made of.
    pub fn between(&self, evaluation: &Evaluation<'_, '_>, thing: Thing, value: &Value) -> Option<Between> {
        let si = value.si();
        let (low, high) = match self.error {
            Error::None | Error::Unsaid | Error::Unweighed => return None,
            Error::Share(share) => (si - si.abs() * share, si + si.abs() * share),
            Error::Drawn(_) => {
                let band = self.drawn(evaluation, thing)?.band()?;
                (band.low, band.high)
            }
        };
        // What is told is no draw, and may lie beyond nine of ten of them.
        Some(Between {
            low: low.min(si),
            high: high.max(si),
        })
    }

    /// Whether it takes draws to say between what its value lies.
    pub fn is_drawn(&self) -> bool {
        match self.error {
            Error::Drawn(_) => true,
            Error::None | Error::Unsaid | Error::Unweighed | Error::Share(_) => false,
        }
    }

    /// Its value in all draws of what is not known well: its band, the chance that it stays on a side of a limit, and which
    /// input moves it most. Nothing where it is not drawn, or where the rig has no such draws.
    pub fn drawn(&self, evaluation: &Evaluation<'_, '_>, thing: Thing) -> Option<Drawn> {
        let Error::Drawn(draws) = self.error else {
            return None;
        };
        match (draws, thing) {
            (Draws::Rig(drawn), Thing::Rig) => drawn(evaluation),
            (Draws::Fly(drawn), Thing::Fly(id)) => drawn(evaluation, id),
            // It is a measure of another kind of thing.
            (Draws::Rig(_) | Draws::Fly(_), _) => None,
        }
    }
}
