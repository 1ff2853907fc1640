//! The leader between the water and the rod's tip, where it is known how far away and how high the tip is.
//!
//! What the rig pulls with where the line leaves the water, along and up, is what the leader starts with; where it
//! comes to the height of the tip tells whether the tip is there. In the air reach moves the depth more than tippet, bead
//! or bed do.

mod blown;
mod calm;
mod place;
mod reach;
mod shape;
mod wind;

use crate::bracket::Bracket;
use crate::leader::reach::FIRST_STEP;
use crate::leader::reach::TOLERANCE;
use crate::secant;
use crate::strand::Strand;
pub use reach::Reach;
pub use shape::Hanging;
use uom::si::f64::{Force, SurfaceTension, Velocity};
use uom::si::force::newton;
use uom::si::length::meter;
use uom::si::surface_tension::newton_per_meter;
use uom::si::velocity::meter_per_second;
pub use wind::{Air, Shear, Wind};

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
