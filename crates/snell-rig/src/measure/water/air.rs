//! The line in the air between the rod's tip and the water.

use super::drifting::{Drifting, drifting};
use super::overhead::{Tip, air_strand, reach, tip};
use super::usual::{metres, usual};
use crate::assumed::Usual;
use crate::evaluation::{Evaluation, State};
use crate::keywords::{self, Stands};
use crate::lack::{Lack, Outcome};
use crate::missing::{Missing, Unsaid};
use crate::value::Value;
use snell_units::Dimension;
use snell_water::Strand;
use snell_water::drift::Under;
use snell_water::leader::{self, Reach};
use snell_water::sag::{Air, Curve, From, creep};
use snell_water::windy::{Blows, greatest_wind as greatest};
use std::rc::Rc;
use uom::si::f64::Ratio;
use uom::si::ratio::ratio;

/// The sag that is let pass. Source: common practice, no source.
const ALLOWED: f64 = 0.10;
/// A rig fishes in a wind that leaves it this share of its depth. Source: by judgement.
const STILL_FISHES: f64 = 0.75;

/// A rig's line in the air, as it hangs in its drift.
#[derive(Debug, Clone)]
pub struct Hanging {
    /// The line from where it enters the water up to the tip.
    pub shape: leader::Hanging,
    /// On which side the tip is.
    pub stands: Stands,
    /// In metres: the straight way from tip to entry, and the tip over the water.
    pub reach: f64,
    /// See `reach`.
    pub tip: f64,
    /// The pieces of the line, from the entry up.
    strands: Vec<Strand>,
    /// Where the tip is.
    place: Reach,
    /// Where this was said.
    from: Value,
}

/// The rig's line in the air, solved once.
///
/// # Errors
/// What is unsaid.
pub fn hanging(evaluation: &Evaluation<'_, '_>) -> Result<Rc<Hanging>, Lack> {
    evaluation.state()
}

impl State for Hanging {
    const NAME: &'static str = "the line in the air";

    fn solve(evaluation: &Evaluation<'_, '_>) -> Result<Self, Lack> {
        hang(evaluation)
    }
}

fn hang(evaluation: &Evaluation<'_, '_>) -> Result<Hanging, Lack> {
    let state = drifting(evaluation)?;
    let Tip {
        reach,
        straight,
        height,
        from,
    } = tip(evaluation)?;
    let strands = strands(evaluation, state.drift.submerged.value, straight)?;
    let shape = leader::hang(&reach, &strands, state.drift.load, state.drift.speed);
    Ok(Hanging {
        shape: shape.ok_or_else(|| none(evaluation))?,
        stands: super::overhead::stands(evaluation),
        reach: straight,
        tip: height,
        strands,
        place: reach,
        from,
    })
}

/// The line above what is under water, from there up, as far as it is needed.
fn strands(evaluation: &Evaluation<'_, '_>, submerged: f64, wanted: f64) -> Result<Vec<Strand>, Lack> {
    let mut strands = Vec::new();
    let (mut under, mut out) = (submerged, 0.0);
    for (id, _) in evaluation.rig.chain.sections().rev() {
        let piece = air_strand(evaluation, id, wanted)?;
        let length = piece.length().value;
        let left = (length - under).max(0.0);
        under = (under - length).max(0.0);
        if left > 0.0 {
            strands.push(piece.of_length(metres(left)));
            out += left;
        }
        // The line that sags is a little longer than the straight way; its last piece goes on.
        if out > wanted {
            break;
        }
    }
    if strands.is_empty() {
        let first = evaluation.rig.chain.sections().next();
        strands.extend(first.and_then(|(id, _)| air_strand(evaluation, id, wanted).ok()));
    }
    Ok(strands)
}

fn none(evaluation: &Evaluation<'_, '_>) -> Lack {
    Missing::new(Unsaid::LeadingReach)
        .at(evaluation.rig.place())
        .into()
}

pub(in crate::measure) fn sag(evaluation: &Evaluation<'_, '_>) -> Outcome {
    let hanging = hanging(evaluation)?;
    let sag = hanging.shape.sag.value;
    Ok(hanging.from.clone().with(sag, Dimension::LENGTH))
}

/// The greatest wind of the way that it blows in which the point still rides at three quarters of its depth without one.
pub(in crate::measure) fn greatest_wind(evaluation: &Evaluation<'_, '_>) -> Outcome {
    let Some((fit, blows)) = evaluation.rig.settings.wind else {
        return Err(Missing::new(Unsaid::Wind).into());
    };
    let (state, hanging) = (drifting(evaluation)?, hanging(evaluation)?);
    let blows = match blows {
        keywords::Blows::Up => Blows::Up,
        keywords::Blows::Down => Blows::Down,
        keywords::Blows::Across => Blows::Across,
    };
    let (share, air) = (Ratio::new::<ratio>(STILL_FISHES), super::overhead::usual_air());
    let found = greatest(&state.rig, &hanging.place, blows, share, hanging.place.tip, air);
    let speed = found.ok_or_else(|| Missing::new(Unsaid::WindToFishIn).at(evaluation.rig.place()))?;
    Ok(evaluation.value(fit)?.with(speed.value, Dimension::SPEED))
}

/// The pull that lifts the line to the allowed sag.
fn pull(evaluation: &Evaluation<'_, '_>) -> Result<(Rc<Drifting>, Rc<Hanging>, Curve), Lack> {
    let (state, hanging) = (drifting(evaluation)?, hanging(evaluation)?);
    let allowed = usual(evaluation, Usual::Sag, ALLOWED, Dimension::LENGTH).si();
    let along = hanging.place.along.abs();
    let air = Air::new(&hanging.strands, From::Entry, along, hanging.place.tip);
    let curve = air.and_then(|air| air.with_sag(metres(allowed)));
    let curve = curve.ok_or_else(|| none(evaluation))?;
    Ok((state, hanging, curve))
}

pub(in crate::measure) fn sag_pull(evaluation: &Evaluation<'_, '_>) -> Outcome {
    let (_, hanging, curve) = pull(evaluation)?;
    let mut pull = hanging.from.clone().with(curve.pull.value, Dimension::FORCE);
    pull.system = None;
    Ok(pull)
}

pub(in crate::measure) fn draws_in(evaluation: &Evaluation<'_, '_>) -> Outcome {
    let (state, hanging, curve) = pull(evaluation)?;
    let under = Under::Length(state.drift.submerged);
    let aside = creep(&state.rig.tackle, &state.rig.stream, under, curve.pull);
    // With slack on the bed nothing is drawn aside.
    let speed = aside.map_or(0.0, |aside| aside.speed.value);
    Ok(hanging.from.clone().with(speed, Dimension::SPEED))
}

pub(in crate::measure) fn beyond_tip(evaluation: &Evaluation<'_, '_>) -> Outcome {
    let (state, reach) = (drifting(evaluation)?, reach(evaluation)?);
    let si = reach.si() + state.drift.submerged.value;
    Ok(reach.with(si, Dimension::LENGTH))
}
