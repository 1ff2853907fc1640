//! A rod that bends under a pull at its tip: it grows stiffer as it bends, and never gives more than its own length.
//!
//! It is reckoned as an even cantilever with the pull across it. A real rod is thinner at the tip and gives sooner,
//! and one that points at the fish gives less.

use crate::fluid::GRAVITY;
use crate::load::Spring;
use uom::si::energy::joule;
use uom::si::f64::{Energy, Force, Length, Mass, Velocity};
use uom::si::force::newton;
use uom::si::length::meter;
use uom::si::mass::kilogram;
use uom::si::velocity::meter_per_second;

/// By the pull times the square of the length over the stiffness: how far the tip gives, as a share of the length.
/// Source: the elastica of K. E. Bisshopp and D. C. Drucker, Large deflection of cantilever beams, Quarterly of Applied
/// Mathematics 3 (1945), computed anew; theirs at 1, 2, 5 and 10 are 0.302, 0.494, 0.714 and 0.811.
const CURVE: [(f64, f64); 13] = [
    (0.0, 0.0),
    (0.5, 0.1621),
    (1.0, 0.3017),
    (1.5, 0.4110),
    (2.0, 0.4935),
    (3.0, 0.6033),
    (4.0, 0.6700),
    (5.0, 0.7138),
    (6.0, 0.7446),
    (8.0, 0.7850),
    (10.0, 0.8106),
    (15.0, 0.8477),
    (20.0, 0.8687),
];

/// Beyond the curve the tip lacks this over the root of the pull to the whole length: `2 - sqrt 2`, its limit.
const LACKS: f64 = 0.5858;

/// Where on the curve the tip has given a third of the length, as rod builders measure a rod: common practice,
/// no source.
const THIRD: f64 = 1.1313;

/// A rod by its length and by how stiff it is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rod {
    length: f64,
    /// The pull at one on the curve, in newtons.
    unit: f64,
}

impl Rod {
    /// A rod by its length and the mass that, hung on the tip of the level rod, pulls it down by a third of that
    /// length. Nothing where either is nothing.
    pub fn new(length: Length, bends: Mass) -> Option<Self> {
        let (length, unit) = (length.get::<meter>(), bends.get::<kilogram>() * GRAVITY / THIRD);
        (length > 0.0 && unit > 0.0 && (length + unit).is_finite()).then_some(Self { length, unit })
    }

    /// How far its tip gives under a pull.
    pub fn gives(&self, pull: Force) -> Length {
        let at = (pull.get::<newton>() / self.unit).max(0.0);
        Length::new::<meter>(self.length * along(at).0)
    }

    /// What it takes up until a pull is reached.
    pub fn energy(&self, pull: Force) -> Energy {
        let at = (pull.get::<newton>() / self.unit).max(0.0);
        let (share, below) = along(at);
        Energy::new::<joule>(self.unit * self.length * (at * share - below))
    }
}

/// The share at a place on the curve, and the area below the curve as far as there.
fn along(at: f64) -> (f64, f64) {
    let mut below = 0.0;
    for pair in CURVE.windows(2) {
        let [(from, low), (to, high)] = [pair[0], pair[1]];
        if at <= to {
            let share = low + (high - low) * (at - from) / (to - from);
            return (share, below + (low + share) / 2.0 * (at - from));
        }
        below += (low + high) / 2.0 * (to - from);
    }
    let (last, _) = CURVE[CURVE.len() - 1];
    let tail = |at: f64| at - 2.0 * LACKS * at.sqrt();
    (1.0 - LACKS / at.sqrt(), below + tail(at) - tail(last))
}

/// The fastest run of a fish that line and a rod, where there is one, stop without bearing more than a force, the reel
/// held and the line slack before: all that the fish brings is taken up by then.
pub fn run_borne(rod: Option<&Rod>, line: &Spring, strength: Force, fish: Mass) -> Velocity {
    let by_rod = rod.map_or(0.0, |rod| rod.energy(strength).get::<joule>());
    let taken = by_rod + line.energy(strength).get::<joule>();
    Velocity::new::<meter_per_second>((2.0 * taken / fish.get::<kilogram>()).max(0.0).sqrt())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn rod() -> Rod {
        Rod::new(Length::new::<meter>(3.0), Mass::new::<kilogram>(0.055)).expect("it has a size")
    }

    #[test]
    fn the_mass_that_bends_it_by_a_third_does() {
        let pull = Force::new::<newton>(0.055 * GRAVITY);
        assert!((rod().gives(pull).get::<meter>() - 1.0).abs() < 0.01);
    }

    #[test]
    fn it_gives_more_the_harder_it_is_pulled_and_never_its_whole_length() {
        let gives = |newtons: f64| rod().gives(Force::new::<newton>(newtons)).get::<meter>();
        let pulls = (0..400).map(|step| 0.05 * f64::from(step));
        let given: Vec<f64> = pulls.map(gives).collect();
        assert!(given.windows(2).all(|pair| pair[0] < pair[1]));
        assert!(gives(1e6) < 3.0);
    }

    /// By adding up small steps of pull times way.
    #[test]
    fn what_it_takes_up_is_the_pull_along_its_way() {
        for newtons in [0.3, 2.0, 9.0, 30.0] {
            let (steps, mut sum) = (4000, 0.0);
            let at = |step: u32| Force::new::<newton>(newtons * f64::from(step) / f64::from(steps));
            for step in 0..steps {
                let way = rod().gives(at(step + 1)) - rod().gives(at(step));
                sum += (at(step) + at(step + 1)).get::<newton>() / 2.0 * way.get::<meter>();
            }
            let energy = rod().energy(Force::new::<newton>(newtons)).get::<joule>();
            assert!(
                (energy / sum - 1.0).abs() < 1e-3,
                "{newtons} N: {energy} against {sum}"
            );
        }
    }
}
