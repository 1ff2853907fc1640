//! The steady drift: a rig that goes down the stream with one speed and one
//! shape.
//!
//! It knows nothing of how the rig came there ([`crate::sink`] does) nor of the
//! rod that leads it ([`crate::sag`]).

mod follow;
mod solve;
mod states;
mod straight;
mod top;
mod walk;

use crate::Stream;
use crate::float::Float;
use crate::leader::{Hanging, Reach};
use crate::plane::size;
use crate::tackle::Tackle;
pub(crate) use follow::{Followed, follow};
use solve::{Found, Solver};
use states::Stands;
use straight::Wanted;
use thiserror::Error;
use uom::si::f64::{Force, Length, Ratio, Velocity};
use uom::si::force::newton;
use uom::si::length::meter;
use uom::si::velocity::meter_per_second;

/// How much line is under water.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Under {
    /// This much, from the point fly up.
    Length(Length),
    /// As much as holds the point fly at this height over the bed.
    PointOffBed(Length),
}

/// What the line above the water does.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Lead {
    /// It pulls nowhere along the stream: the free drift.
    Free,
    /// It pulls downstream with a force, or upstream where that is below nothing.
    Pull(Force),
    /// It goes down the stream with a speed.
    Speed(Velocity),
    /// The same, told as a share of the surface's speed. An angler leads by what the surface does, and a depth told
    /// so is known twice as well.
    Share(Ratio),
    /// The rig hangs from a float, which its own drag takes along. The line above the float is slack.
    Float(Float),
    /// The leader hangs from the tip, which goes with the rig and is known to be somewhere.
    Reach(Reach),
}

/// Why there is no steady drift.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum NoDrift {
    /// A fly is lighter than the water it displaces; by its place from the point up.
    #[error("a fly floats")]
    Floats(usize),
    /// The point lies on the bed with this much line under water or more.
    #[error("the point lies on the bed")]
    OnBed {
        /// The longest line under water that holds it just off the bed.
        lifts: Length,
    },
    /// The height asked for is not under water: it is over the surface, below the bed or no number.
    #[error("the point has to hang between the bed and the surface")]
    OverSurface,
    /// However much line there is, its top does not come up to the surface.
    #[error("the line never reaches the surface")]
    NeverUp,
    /// No steady state was found with the work that one answer may cost.
    #[error("no steady drift was found")]
    Unsettled,
    /// A depth or a length is nothing, or one of these, a speed or a pull is no number.
    #[error("a drift needs water with a depth, line in it, and a speed or a pull that is a number")]
    NoWater,
}

/// A fly in the drift.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ride {
    /// Below the surface.
    pub depth: Length,
    /// Over the bed.
    pub off_bed: Length,
    /// Downstream of where the line enters the water; below nothing where it is upstream.
    pub ahead: Length,
    /// The water's speed where it is.
    pub water: Velocity,
    /// What the water pulls it downstream with.
    pub drag: Force,
    /// Tension in the line just above it.
    pub tension: Force,
}

/// A steady drift. Depths are good to 5-10 cm in a real stream.
#[derive(Debug, Clone, PartialEq)]
pub struct Drift {
    /// The whole rig's speed down the stream.
    pub speed: Velocity,
    /// Line under water.
    pub submerged: Length,
    /// The line's pull at the surface along the stream: downstream above nothing.
    pub pull: Force,
    /// The weight that the line carries at the surface.
    pub load: Force,
    /// The flies, the point first and the others from it upward.
    pub rides: Vec<Ride>,
    /// The line from the point to the surface: downstream of its entry, and height over the bed.
    pub line: Vec<(Length, Length)>,
}

impl Ride {
    /// How much slower than the water beside it a fly goes when the rig has this speed; below nothing
    /// where it is dragged ahead.
    pub fn lag(&self, rig: Velocity) -> Velocity {
        self.water - rig
    }
}

/// Segments that the line is cut into: doubling them moves a depth by less than 0.1 %.
pub(crate) const SEGMENTS: usize = 16;

/// How a rig stands in a steady state.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Standing {
    /// Pushed off, it comes back.
    Stable,
    /// Nothing stays in it: it parts those that end above from those that end below.
    Unstable,
    /// The point lies on the bed. There is no friction in it, which would hold the rig back.
    OnBed {
        /// What the bed bears of the point.
        bears: Force,
        /// The longest line under water that holds it just off the bed.
        lifts: Length,
        /// How much of the line lies along the bed.
        lies: Length,
    },
}

/// A steady state of a length of line.
#[derive(Debug, Clone, PartialEq)]
pub struct State {
    /// Whether the rig stays in it.
    pub standing: Standing,
    /// Of the line that is off the bed.
    pub drift: Drift,
}

impl State {
    /// Whether a rig stays in it.
    pub fn stays(&self) -> bool {
        match self.standing {
            Standing::Stable | Standing::OnBed { .. } => true,
            Standing::Unstable => false,
        }
    }

    /// Whether its point lies on the bed.
    pub fn is_on_bed(&self) -> bool {
        matches!(self.standing, Standing::OnBed { .. })
    }
}

/// All steady states of a length of line, from the bed up; stable and unstable ones take turns.
///
/// # Errors
/// Where there is none; see [`NoDrift`]. A point on the bed is a state here.
pub fn states(tackle: &Tackle, stream: &Stream, length: Length, lead: &Lead) -> Result<Vec<State>, NoDrift> {
    let solver = Solver::new(tackle, stream, Under::Length(length), lead, SEGMENTS)?;
    let found = states::all(&solver, length.get::<meter>());
    let all = found.iter();
    let told: Result<Vec<State>, NoDrift> = all
        .map(|(stands, found)| told(tackle, stream, &solver, lead, *stands, found))
        .collect();
    let told = told?;
    if told.is_empty() {
        Err(solver.none())
    } else {
        Ok(told)
    }
}

fn told(
    tackle: &Tackle,
    stream: &Stream,
    solver: &Solver<'_>,
    lead: &Lead,
    stands: Stands,
    found: &Found,
) -> Result<State, NoDrift> {
    let standing = match stands {
        Stands::Stable => Standing::Stable,
        Stands::Unstable => Standing::Unstable,
        Stands::OnBed { lies } => Standing::OnBed {
            bears: Force::new::<newton>(found.borne),
            lifts: lifts(tackle, stream, solver, lead)?,
            lies: Length::new::<meter>(lies),
        },
    };
    let drift = solver.read(found)?;
    Ok(State { standing, drift })
}

/// The longest line that holds the point just off the bed.
fn lifts(tackle: &Tackle, stream: &Stream, solver: &Solver<'_>, lead: &Lead) -> Result<Length, NoDrift> {
    let just = Under::PointOffBed(Length::new::<meter>(solver.lowest()));
    drift(tackle, stream, just, *lead).map(|drift| drift.submerged)
}

/// The steady drift of a rig: that of the lowest state that it stays in.
///
/// Source of the equations: a cable in a stream (Pode 1951, David Taylor Model Basin report 687) with
/// the coefficients of [`crate::drag`].
///
/// # Errors
/// Where there is none, or where the point lies on the bed; see [`NoDrift`].
pub fn drift(tackle: &Tackle, stream: &Stream, under: Under, lead: Lead) -> Result<Drift, NoDrift> {
    drift_in(tackle, stream, under, lead, SEGMENTS)
}

/// [`drift`] with the line cut into another number of segments.
pub(crate) fn drift_in(
    tackle: &Tackle,
    stream: &Stream,
    under: Under,
    lead: Lead,
    segments: usize,
) -> Result<Drift, NoDrift> {
    let solver = Solver::new(tackle, stream, under, &lead, segments)?;
    let length = match solver.wanted {
        Wanted::Height(height) => return at_height(&solver, height),
        Wanted::Length(length) => length,
    };
    if let Some(found) = off_bed(&solver, length) {
        return solver.read(&found);
    }
    let all = states::all(&solver, length);
    for (stands, found) in &all {
        match stands {
            Stands::OnBed { .. } => {
                return Err(NoDrift::OnBed {
                    lifts: lifts(tackle, stream, &solver, &lead)?,
                });
            }
            Stands::Stable => return solver.read(found),
            Stands::Unstable => {}
        }
    }
    Err(solver.none())
}

fn at_height(solver: &Solver<'_>, height: f64) -> Result<Drift, NoDrift> {
    let near = solver.guess().ok_or_else(|| solver.none())?.speed;
    let (speed, _) = solver.up(height, 0.0, near).ok_or_else(|| solver.none())?;
    let mut trace = walk::Trace::default();
    let end = solver.walk(speed, 0.0).up(height, Some(&mut trace));
    solver.told(speed, end.ok_or_else(|| solver.none())?, trace)
}

/// A stable state found from the guess, of a rig that cannot as well lie on the bed.
fn off_bed(solver: &Solver<'_>, length: f64) -> Option<Found> {
    if solver.top.given().is_some() {
        return None;
    }
    let found = solver.together(length, solver.guess()?)?;
    let top = |height: f64| solver.walk(found.speed, 0.0).over(length, height, None).step.at[1];
    let rises = top(found.height + NUDGE) > solver.depth;
    (rises && top(solver.lowest()) <= solver.depth).then_some(found)
}

/// How far a point is pushed up to see whether it comes back, m.
const NUDGE: f64 = 1e-3;

/// The weight that the line carries at the surface in a drift, also where the point lies on the bed.
pub(crate) fn load(tackle: &Tackle, stream: &Stream, under: Under, lead: Lead) -> Option<f64> {
    let solver = Solver::new(tackle, stream, under, &lead, SEGMENTS).ok()?;
    let length = match solver.wanted {
        Wanted::Height(height) => return Some(at_height(&solver, height).ok()?.load.get::<newton>()),
        Wanted::Length(length) => length,
    };
    let found = off_bed(&solver, length).or_else(|| {
        let all = states::all(&solver, length);
        let stays = all.into_iter().find(|(stands, _)| *stands != Stands::Unstable);
        stays.map(|(_, found)| found)
    })?;
    Some(solver.read(&found).ok()?.load.get::<newton>())
}

impl Drift {
    fn read(stream: &Stream, speed: f64, end: walk::End, trace: walk::Trace) -> Self {
        let depth = stream.profile.depth_si();
        let entry = end.step.at[0];
        let ride = |passed: &walk::Passed| Ride {
            depth: Length::new::<meter>(depth - passed.at[1]),
            off_bed: Length::new::<meter>(passed.at[1]),
            ahead: Length::new::<meter>(passed.at[0] - entry),
            water: Velocity::new::<meter_per_second>(stream.profile.speed(passed.at[1])),
            drag: Force::new::<newton>(passed.drag),
            tension: Force::new::<newton>(size(passed.above.pull)),
        };
        let place = |at: &[f64; 2]| (Length::new::<meter>(at[0] - entry), Length::new::<meter>(at[1]));
        Self {
            speed: Velocity::new::<meter_per_second>(speed),
            submerged: Length::new::<meter>(end.length),
            pull: Force::new::<newton>(end.step.pull[0]),
            load: Force::new::<newton>(end.step.pull[1]),
            rides: trace.flies.iter().map(ride).collect(),
            line: trace.line.iter().map(place).collect(),
        }
    }
}

/// The leader that hangs over a drift from the tip that it is led by; nothing where no leader comes to the tip.
pub fn leader(tackle: &Tackle, drift: &Drift, reach: &Reach) -> Option<Hanging> {
    let line = tackle.above(drift.submerged.get::<meter>());
    let (pull, load) = (drift.pull.get::<newton>(), drift.load.get::<newton>());
    Hanging::of(reach, &line, pull, load, drift.speed.get::<meter_per_second>())
}

/// The drift across the stream of a rig whose tip stands across from it: its leader draws the flies to the tip's
/// side, through water that is taken to be at rest that way. An upper bound of how fast; only the distance of the
/// tip counts, not its side.
///
/// # Errors
/// Where the rig has no such drift.
pub fn across(tackle: &Tackle, stream: &Stream, under: Under, reach: &Reach) -> Result<Drift, NoDrift> {
    let along = reach.along.abs();
    let reach = Reach { along, ..*reach };
    drift(tackle, &stream.at_rest(), under, Lead::Reach(reach))
}

#[cfg(test)]
mod refined;
