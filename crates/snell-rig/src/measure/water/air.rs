//! The line in the air between the rod's tip and the water.

use super::drifting::{Drifting, drifting};
use super::tackle::{open_strand, strand};
use super::{metres, usual};
use crate::blocks::LineSize;
use crate::evaluation::{Evaluation, Solved};
use crate::measure::{Thing, section};
use crate::value::{Lack, Outcome, Value};
use snell_units::Dimension;
use snell_water::Strand;
use snell_water::drift::Under;
use snell_water::sag::{Across, Air, From, Settled, creep as creep_under, settled};
use std::f64::consts::PI;
use std::rc::Rc;
use uom::si::f64::MassDensity;
use uom::si::mass_density::kilogram_per_cubic_meter;

/// How high the tip is held over the water. Source: from memory, a rod led level at the shoulder.
const TIP: f64 = 1.8;
/// The sag that is let pass. Source: common practice, no source.
const ALLOWED: f64 = 0.10;
/// A level line or a fly line that does not say what it is made of, kg/m3. Source: from memory; such lines
/// are made about as heavy as water.
const LINE_DENSITY: f64 = 1000.0;
/// The thickness that stands for a fly line of which only the weight is known, m. Only its weight counts.
const ANY_DIAMETER: f64 = 1e-3;

/// A rig's line in the air.
#[derive(Debug, Clone)]
pub struct Hanging {
    /// The line from where it enters the water up to the tip.
    pub air: Air,
    /// In metres: the straight way from tip to entry, and the tip over the water.
    pub reach: f64,
    /// See `reach`.
    pub tip: f64,
    /// Where this was said.
    from: Value,
}

/// The rig's line in the air, solved once.
///
/// # Errors
/// What is unsaid.
pub fn hanging(evaluation: &Evaluation<'_, '_>) -> Result<Rc<Hanging>, Lack> {
    evaluation.solved(Solved::Air, |states| &states.air, hang)
}

fn hang(evaluation: &Evaluation<'_, '_>) -> Result<Hanging, Lack> {
    let state = drifting(evaluation)?;
    let reach = reach(evaluation, Thing::Rig)?;
    let tip = match evaluation.rig.settings.tip {
        Some(fit) => evaluation.value(fit)?,
        None => usual(
            evaluation,
            "the height of the rod tip",
            TIP,
            Dimension::LENGTH,
            "the rod held level",
        ),
    };
    let along = reach.si() * reach.si() - tip.si() * tip.si();
    let air = (along > 0.0)
        .then(|| strands(evaluation, state.drift.submerged.value, reach.si()))
        .transpose()?
        .and_then(|strands| Air::new(&strands, From::Entry, metres(along.sqrt()), metres(tip.si())));
    let place = evaluation.rig.settings.reach.map(|fit| fit.place());
    let air = air.ok_or_else(|| Lack::need("a reach that is longer than the tip is high", place))?;
    Ok(Hanging {
        air,
        reach: reach.si(),
        tip: tip.si(),
        from: reach.clone().joined(&tip),
    })
}

/// The reach that the rig states.
pub(in crate::measure) fn reach(evaluation: &Evaluation<'_, '_>, _: Thing) -> Outcome {
    match evaluation.rig.settings.reach {
        Some(fit) => evaluation.value(fit),
        None => Err(Lack::need(
            "the reach, from the rod tip to where the leader meets the water",
            Some(evaluation.rig.place()),
        )),
    }
}

/// The line above what is under water, from there up, as far as it is needed.
fn strands(evaluation: &Evaluation<'_, '_>, submerged: f64, wanted: f64) -> Result<Vec<Strand>, Lack> {
    let mut strands = Vec::new();
    let (mut under, mut out) = (submerged, 0.0);
    for index in (0..evaluation.rig.layout.sections.len()).rev() {
        let piece = air_strand(evaluation, index, wanted)?;
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
        strands.extend(air_strand(evaluation, 0, wanted).ok());
    }
    Ok(strands)
}

/// A section as it weighs in the air; the line is as long as it is wanted.
fn air_strand(evaluation: &Evaluation<'_, '_>, index: usize, wanted: f64) -> Result<Strand, Lack> {
    let layout = &evaluation.rig.layout;
    let piece = &layout.sections[index];
    if piece.role != "line" {
        return strand(evaluation, index);
    }
    let length = match piece.part.length() {
        Some(_) => evaluation.section_length(index)?.si(),
        None => wanted,
    };
    let density = |of: f64| MassDensity::new::<kilogram_per_cubic_meter>(of);
    if let (Some(LineSize::FlyLine(weight)), None) = (&piece.stuff.size, &piece.stuff.measured) {
        let mass = section::fly_line(weight).ok_or_else(|| {
            let what = format!("the mass by length of the {}", layout.section_name(index));
            Lack::need(what, Some(piece.part.given.line.whole()))
        })?;
        let area = PI / 4.0 * ANY_DIAMETER * ANY_DIAMETER;
        return Ok(Strand::new(
            metres(length),
            metres(ANY_DIAMETER),
            density(mass / area),
        ));
    }
    if piece.stuff.material.is_none() {
        let diameter = section::diameter(evaluation, Thing::Section(index))?.si();
        let why = "not said; such lines are about as heavy as water";
        let what = "the density of the line";
        let heavy = usual(evaluation, what, LINE_DENSITY, Dimension::DENSITY, why).si();
        return Ok(Strand::new(metres(length), metres(diameter), density(heavy)));
    }
    open_strand(evaluation, index, length)
}

/// The state that the rig comes to with nothing but its own weight to hold it, across the stream.
///
/// # Errors
/// What is unsaid, or that there is no such state.
pub fn at_rest(evaluation: &Evaluation<'_, '_>) -> Result<(Rc<Hanging>, Settled), Lack> {
    let (state, hanging) = (drifting(evaluation)?, hanging(evaluation)?);
    let under = Under::Length(state.drift.submerged);
    let found = settled(&hanging.air, &state.tackle, &state.stream, under, Across::Stream);
    let settled = found.map_err(|_| none(evaluation))?;
    Ok((hanging, settled))
}

fn none(evaluation: &Evaluation<'_, '_>) -> Lack {
    Lack::need(
        "a reach at which the line leads the flies at all",
        Some(evaluation.rig.place()),
    )
}

pub(in crate::measure) fn sag(evaluation: &Evaluation<'_, '_>, _: Thing) -> Outcome {
    let (hanging, settled) = at_rest(evaluation)?;
    Ok(hanging
        .from
        .clone()
        .with(settled.curve.sag.value, Dimension::LENGTH))
}

/// The pull that lifts the line to the allowed sag.
fn pull(
    evaluation: &Evaluation<'_, '_>,
) -> Result<(Rc<Drifting>, Rc<Hanging>, snell_water::sag::Curve), Lack> {
    let (state, hanging) = (drifting(evaluation)?, hanging(evaluation)?);
    let what = "the sag that is let pass";
    let allowed = usual(evaluation, what, ALLOWED, Dimension::LENGTH, "common practice").si();
    let curve = hanging
        .air
        .with_sag(metres(allowed))
        .ok_or_else(|| none(evaluation))?;
    Ok((state, hanging, curve))
}

pub(in crate::measure) fn sag_pull(evaluation: &Evaluation<'_, '_>, _: Thing) -> Outcome {
    let (_, hanging, curve) = pull(evaluation)?;
    let mut pull = hanging.from.clone().with(curve.pull.value, Dimension::FORCE);
    pull.system = None;
    Ok(pull)
}

pub(in crate::measure) fn creep(evaluation: &Evaluation<'_, '_>, _: Thing) -> Outcome {
    let (state, hanging, curve) = pull(evaluation)?;
    let under = Under::Length(state.drift.submerged);
    let aside = creep_under(&state.tackle, &state.stream, under, curve.pull);
    // With slack on the bed nothing is drawn aside.
    let speed = aside.map_or(0.0, |aside| aside.speed.value);
    Ok(hanging.from.clone().with(speed, Dimension::SPEED))
}

pub(in crate::measure) fn beyond_tip(evaluation: &Evaluation<'_, '_>, _: Thing) -> Outcome {
    let (state, reach) = (drifting(evaluation)?, reach(evaluation, Thing::Rig)?);
    let si = reach.si() + state.drift.submerged.value;
    Ok(reach.with(si, Dimension::LENGTH))
}

pub(in crate::measure) fn mass_beyond_tip(evaluation: &Evaluation<'_, '_>, thing: Thing) -> Outcome {
    let out = beyond_tip(evaluation, thing)?;
    let state = drifting(evaluation)?;
    let mut mass = state.mass.si();
    let mut left = out.si();
    for index in (0..evaluation.rig.layout.sections.len()).rev() {
        let piece = air_strand(evaluation, index, left)?;
        let length = piece.length().value.min(left);
        mass += piece.of_length(metres(length)).mass().value;
        left -= length;
        if left <= 0.0 {
            break;
        }
    }
    let mut mass = out.joined(&state.mass).with(mass, Dimension::MASS);
    mass.system = None;
    Ok(mass)
}
