//! A figure of a rig that is followed from state to state: a measure of the
//! rig, or of one of its flies.

use super::cards::Card;
use crate::rounding::within;
use crate::shower::written;
use crate::written::{Units, Written};
use snell_rig::faults::Faults;
use snell_rig::measure::{self, Get, Kind, Measure, Thing};
use snell_rig::project::BlockRef;
use snell_rig::{Evaluation, World};
use snell_units::Quantity;

/// A figure: `total`, or `point.rides` of a fly by its name or place.
#[derive(Clone, Debug)]
pub struct Figure {
    name: String,
    fly: Option<String>,
    measure: &'static Measure,
}

impl Figure {
    /// The figure of a name; nothing where no measure of that name is told in a figure.
    pub fn named(name: &str) -> Option<Self> {
        let (fly, measure) = match name.split_once('.') {
            Some((fly, name)) => (Some(fly.to_owned()), measure::of(Kind::Fly, name)),
            None => (None, measure::of_rig(name)),
        };
        let is_figure = |measure: &&Measure| matches!(measure.get, Get::Value(_));
        measure.filter(is_figure).map(|measure| Self {
            name: name.to_owned(),
            fly,
            measure,
        })
    }

    /// Its name as it was asked for.
    pub fn name(&self) -> &str {
        &self.name
    }

    /// What it is of.
    pub fn kind(&self) -> Kind {
        match self.fly {
            Some(_) => Kind::Fly,
            None => Kind::Rig,
        }
    }

    /// The name of its measure in the table.
    pub fn measure(&self) -> &'static str {
        self.measure.name
    }

    /// Whether it takes draws to say between what it lies.
    pub fn is_drawn(&self) -> bool {
        self.measure.is_drawn()
    }

    /// What it is of a rig; nothing where it cannot be told.
    pub fn of<'c>(&self, card: &'c Card) -> Option<&'c Written> {
        let measures = match &self.fly {
            Some(fly) => &card.shown.flies.get(card.fly(fly)?)?.measures,
            None => &card.shown.measures,
        };
        measures.get(self.measure.name)
    }

    /// A bare estimate, told no finer than another one of it that is known to lie between two others.
    #[must_use]
    pub fn as_fine_as(&self, bare: &Written, other: &Written) -> Written {
        let mut written = bare.clone();
        if let (Some(value), Some(between)) = (bare.value, &other.between) {
            let quantity = Quantity::new(value, self.measure.dimension);
            written.text = within(quantity, &between.off, bare.system);
        }
        written
    }

    /// The same with what it lies between, worked out from the rig's block; `card` is the rig as it was read before.
    pub fn drawn<'p>(&self, card: &Card, world: &World<'p>, block: BlockRef<'p>) -> Option<Written> {
        let rig = snell_rig::read(world, block, &Faults::default());
        let evaluation = Evaluation::new(world, &rig);
        let thing = match &self.fly {
            Some(fly) => Thing::Fly(rig.chain.flies().nth(card.fly(fly)?)?.0),
            None => Thing::Rig,
        };
        let value = evaluation.measure(self.measure, thing).ok()?;
        Some(written(&evaluation, self.measure, thing, &value, Units::Author))
    }
}
