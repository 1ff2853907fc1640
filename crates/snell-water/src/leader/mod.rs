//! The leader between the water and the rod's tip, where it is known how far away and how high the tip is.
//!
//! What the rig pulls with where the line leaves the water, along and up, is what the leader starts with; where it
//! comes to the height of the tip tells whether the tip is there. In the air reach moves the depth more than tippet, bead
//! or bed do.

mod blown;
mod calm;
mod shape;
mod wind;

use crate::Strand;
use crate::bracket::Bracket;
use crate::secant;
use blown::Blown;
pub use shape::Hanging;
use uom::si::f64::{Force, Length, SurfaceTension, Velocity};
use uom::si::force::newton;
use uom::si::length::meter;
use uom::si::surface_tension::newton_per_meter;
use uom::si::velocity::meter_per_second;
pub use wind::{Air, Shear, Wind};

/// Where the tip is, seen from the place where the line enters the water; it goes down the stream with the rig.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reach {
    /// How far downstream the tip is, over the water; below nothing where it is upstream.
    pub along: Length,
    /// How high it is.
    pub tip: Length,
    /// The wind on the leader; without one the air does nothing to it.
    pub wind: Option<Wind>,
}

impl Reach {
    pub(crate) fn is_sound(&self) -> bool {
        let (along, tip) = (self.along.get::<meter>(), self.tip.get::<meter>());
        let wind = self.wind.is_none_or(|wind| wind.is_sound());
        along.is_finite() && along != 0.0 && tip.is_finite() && tip > 0.0 && wind
    }

    /// How far off the tip a leader ends, along the stream: it grows with the pull.
    pub(crate) fn missing(&self, line: &[Strand], pull: f64, load: f64, goes: f64) -> Option<f64> {
        let place = self.place(line, pull, load, goes)?;
        Some(place.along - self.along.get::<meter>())
    }

    /// Where a leader comes to the height of the tip, with the pull across that brings it there where wind blows
    /// across.
    pub(crate) fn place(&self, line: &[Strand], pull: f64, load: f64, goes: f64) -> Option<Place> {
        let tip = self.tip.get::<meter>();
        let Some(wind) = &self.wind else {
            return calm::at_tip(line, pull, load, tip);
        };
        let blown = self.blown(line, wind, goes);
        if wind.across == 0.0 {
            return blown.at_tip([pull, 0.0, load], |_| {});
        }
        let aside = aside(&blown, pull, load)?;
        blown.at_tip([pull, aside, load], |_| {})
    }

    fn blown<'a>(&self, line: &'a [Strand], wind: &'a Wind, goes: f64) -> Blown<'a> {
        Blown {
            line,
            wind,
            goes: [goes, 0.0],
            tip: self.tip.get::<meter>(),
        }
    }

    /// The pull across the stream that a leader has where it leaves the water.
    pub(crate) fn aside(&self, line: &[Strand], pull: f64, load: f64, goes: f64) -> Option<f64> {
        match &self.wind {
            Some(wind) if wind.across != 0.0 => aside(&self.blown(line, wind, goes), pull, load),
            Some(_) | None => Some(0.0),
        }
    }
}

/// The pull across at which the leader ends over the plane that it starts in.
fn aside(blown: &Blown<'_>, pull: f64, load: f64) -> Option<f64> {
    let off = |aside: f64| {
        let place = blown.at_tip([pull, aside, load], |_| {});
        place.map_or(f64::NAN, |place| place.across)
    };
    let usual = crate::plane::size([pull, load]);
    let guess = usual * blown.wind.across.signum();
    let found = Bracket::about(off, guess, usual * FIRST_STEP)?.root(usual * TOLERANCE);
    Some(found)
}

/// How far the pull across is looked for at first, and how near it is found, in shares of the tension.
const FIRST_STEP: f64 = 0.25;
const TOLERANCE: f64 = 1e-6;

/// What a wind does to a metre of line that stands broadside to it, N/m. Held against what the line weighs it tells from
/// which wind on a leader is a sail rather than a sag.
pub fn broadside(line: &Strand, wind: Velocity, air: &Air) -> LineForce {
    let wind = wind.get::<meter_per_second>();
    let reynolds = air.rho * wind.abs() * line.diameter / air.mu;
    LineForce::new::<newton_per_meter>(air.mu * crate::drag::grip_across(reynolds) * wind)
}

/// A force on a length. `uom` has newtons over metres under the name of surface tension.
pub type LineForce = SurfaceTension;

/// The leader that carries a load to the tip: its pull is the one that brings it there. Nothing where none does.
pub fn hang(reach: &Reach, line: &[Strand], load: Force, goes: Velocity) -> Option<Hanging> {
    let (load, goes) = (load.get::<newton>(), goes.get::<meter_per_second>());
    let sound = !line.is_empty() && line.iter().all(Strand::has_size) && reach.is_sound();
    if !(sound && load.is_finite() && goes.is_finite()) {
        return None;
    }
    let pull = found_together(reach, line, load, goes).or_else(|| pull_to_tip(reach, line, load, goes))?;
    Hanging::of(reach, line, pull, load, goes)
}

/// The pull along the stream that brings a leader to the tip.
fn pull_to_tip(reach: &Reach, line: &[Strand], load: f64, goes: f64) -> Option<f64> {
    let straight = straight(reach, load);
    let step = load.abs().max(straight.abs()) * FIRST_STEP;
    let off = |pull: f64| reach.missing(line, pull, load, goes).unwrap_or(f64::NAN);
    Some(Bracket::about(off, straight, step)?.root(step * TOLERANCE))
}

/// The same with the pull across, both at once, where wind blows across: a fifth of the work.
fn found_together(reach: &Reach, line: &[Strand], load: f64, goes: f64) -> Option<f64> {
    let wind = reach.wind.as_ref().filter(|wind| wind.across != 0.0)?;
    let blown = reach.blown(line, wind, goes);
    let (along, usual) = (reach.along.get::<meter>(), load.abs());
    let off = |[pull, aside]: [f64; 2]| {
        let place = blown.at_tip([pull, aside, load], |_| {});
        place.map_or([f64::NAN; 2], |place| [place.along - along, place.across])
    };
    let start = [straight(reach, load), usual * wind.across.signum()];
    let ([pull, _], left) = secant::root(off, start, [usual, usual], usual * TOLERANCE)?;
    let met = left.iter().all(|off| off.abs() <= along.abs() * MET);
    met.then_some(pull)
}

/// The pull along the stream of a leader that is straight.
fn straight(reach: &Reach, load: f64) -> f64 {
    load * reach.along.get::<meter>() / reach.tip.get::<meter>()
}

/// A leader ends this near to the tip, as a share of its distance.
const MET: f64 = 1e-5;

/// Where a leader comes to the height of the tip.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Place {
    /// From the entry, m.
    pub along: f64,
    pub across: f64,
    /// Line out between water and tip, m.
    pub length: f64,
    /// What it pulls the tip with: along, across and up, N.
    pub pull: [f64; 3],
}
