//! The curve that a leader hangs in over the water.

use crate::bracket::Bracket;
use crate::math::{exp, ln};
use crate::plane::size;
use crate::sag::catenary::{Catenary, From, Span};
use crate::strand::Strand;
use uom::si::f64::{Force, Length};
use uom::si::force::newton;
use uom::si::length::meter;

/// A line in the air between the rod's tip and the place where it enters the water. The last of its
/// strands goes on for as far as it is asked for.
#[derive(Debug, Clone, PartialEq)]
pub struct Air {
    spans: Vec<Span>,
    from: From,
    /// Along the water.
    reach: f64,
    tip: f64,
}

/// A pull is found to within this share of it.
pub(super) const PULL_TOLERANCE: f64 = 1e-7;

/// The shape that a line in the air takes.
#[derive(Debug, Clone, PartialEq)]
pub struct Curve {
    /// Its pull along the water.
    pub pull: Force,
    /// What it bears down on the tip with.
    pub at_tip: Force,
    /// What it lifts with where it enters the water; below nothing where it dips below the surface.
    pub at_entry: Force,
    /// Line out between tip and water.
    pub length: Length,
    /// The greatest drop below the straight line from tip to entry.
    pub sag: Length,
    /// From the entry to the tip: along the water, and over it.
    pub points: Vec<(Length, Length)>,
}

impl Air {
    /// A line of strands in order from one end, to a tip at a height over the water, at a distance along
    /// the water from its entry. Nothing where there is no line, line without a size, or
    /// no distance.
    pub fn new(strands: &[Strand], from: From, reach: Length, tip: Length) -> Option<Self> {
        if !strands.iter().all(Strand::has_size) {
            return None;
        }
        let spans: Vec<Span> = strands
            .iter()
            .map(|strand| Span {
                length: strand.length,
                weight: strand.weight_in_air(),
            })
            .collect();
        let (reach, tip) = (reach.get::<meter>(), tip.get::<meter>());
        let sound = !spans.is_empty() && reach > 0.0 && reach.is_finite() && tip.is_finite();
        sound.then_some(Self {
            spans,
            from,
            reach,
            tip,
        })
    }

    /// The straight line from tip to entry.
    pub fn chord(&self) -> Length {
        Length::new::<meter>(size([self.reach, self.tip]))
    }

    /// Its shape under a pull along the water.
    pub fn under(&self, pull: Force) -> Option<Curve> {
        self.catenary(pull.get::<newton>()).map(Curve::read)
    }

    /// Its shape with an allowed sag: the least pull that lifts it so far.
    pub fn with_sag(&self, allowed: Length) -> Option<Curve> {
        let allowed = allowed.get::<meter>();
        self.by_pull(|curve| allowed - curve.sag())
    }

    /// Its shape with a length of line out, which must be more than the straight line.
    pub fn with_length(&self, length: Length) -> Option<Curve> {
        let length = length.get::<meter>();
        (length > self.chord().get::<meter>())
            .then(|| self.by_pull(|curve| length - curve.length()))
            .flatten()
    }

    /// The shape at which something that grows with the pull is nothing.
    fn by_pull(&self, wanted: impl Fn(&Catenary) -> f64) -> Option<Curve> {
        self.pull_for(|_, curve| wanted(curve))
            .and_then(|pull| self.catenary(pull))
            .map(Curve::read)
    }

    /// The pull at which something that grows with it is nothing.
    pub(super) fn pull_for(&self, wanted: impl Fn(f64, &Catenary) -> f64) -> Option<f64> {
        let over = |log: f64| {
            let pull = exp(log);
            self.catenary(pull).map_or(f64::NAN, |curve| wanted(pull, &curve))
        };
        let usual = ln(self.spans[0].weight * self.reach);
        Bracket::about(over, usual, 1.0).map(|bracket| exp(bracket.root(PULL_TOLERANCE)))
    }

    fn catenary(&self, pull: f64) -> Option<Catenary> {
        Catenary::through(&self.spans, self.from, self.reach, self.tip, pull)
    }
}

impl Curve {
    fn read(curve: Catenary) -> Self {
        let place = |(along, over): (f64, f64)| (Length::new::<meter>(along), Length::new::<meter>(over));
        Self {
            pull: Force::new::<newton>(curve.pull),
            at_tip: Force::new::<newton>(curve.at_tip()),
            at_entry: Force::new::<newton>(curve.at_entry()),
            length: Length::new::<meter>(curve.length()),
            sag: Length::new::<meter>(curve.sag()),
            points: curve.points().map(place).collect(),
        }
    }
}
