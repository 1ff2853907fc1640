//! The line in the air between the rod's tip and the water.

use super::drifting::{Drifting, drifting};
use super::tackle::{open_strand, strand};
use super::usual::{metres, usual};
use crate::assumed::Usual;
use crate::blocks::LineSize;
use crate::evaluation::{Evaluation, State};
use crate::keywords::SectionRole;
use crate::lack::{Lack, Outcome};
use crate::measure::section;
use crate::missing::{Missing, Unsaid};
use crate::thing::{SectionId, Thing};
use crate::value::Value;
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
    let reach = reach(evaluation)?;
    let tip = match evaluation.rig.settings.tip {
        Some(fit) => evaluation.value(fit)?,
        None => usual(evaluation, Usual::Tip, TIP, Dimension::LENGTH),
    };
    let along = reach.si() * reach.si() - tip.si() * tip.si();
    let air = (along > 0.0)
        .then(|| strands(evaluation, state.drift.submerged.value, reach.si()))
        .transpose()?
        .and_then(|strands| Air::new(&strands, From::Entry, metres(along.sqrt()), metres(tip.si())));
    let air = air.ok_or_else(|| Missing {
        place: evaluation.rig.settings.reach.map(|fit| fit.place()),
        ..Missing::new(Unsaid::LongerReach)
    })?;
    Ok(Hanging {
        air,
        reach: reach.si(),
        tip: tip.si(),
        from: reach.clone().joined(&tip),
    })
}

/// The reach that the rig states.
pub(in crate::measure) fn reach(evaluation: &Evaluation<'_, '_>) -> Outcome {
    match evaluation.rig.settings.reach {
        Some(fit) => evaluation.value(fit),
        None => Err(Missing::new(Unsaid::Reach).at(evaluation.rig.place()).into()),
    }
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

/// A section as it weighs in the air; the line is as long as it is wanted.
fn air_strand(evaluation: &Evaluation<'_, '_>, id: SectionId, wanted: f64) -> Result<Strand, Lack> {
    let piece = evaluation.rig.chain.section(id);
    if piece.role != SectionRole::Line {
        return strand(evaluation, id);
    }
    let length = match piece.part.length() {
        Some(_) => evaluation.section_length(id)?.si(),
        None => wanted,
    };
    let density = |of: f64| MassDensity::new::<kilogram_per_cubic_meter>(of);
    if let (Some(LineSize::FlyLine(weight)), None) = (&piece.stuff.size, &piece.stuff.measured) {
        let mass = section::fly_line(weight).ok_or_else(|| {
            Missing::new(Unsaid::MassByLength)
                .of_thing(Thing::Section(id))
                .at(piece.part.place())
        })?;
        let area = PI / 4.0 * ANY_DIAMETER * ANY_DIAMETER;
        return Ok(Strand::new(
            metres(length),
            metres(ANY_DIAMETER),
            density(mass / area),
        ));
    }
    if piece.stuff.material.is_none() {
        let diameter = section::diameter(evaluation, id)?.si();
        let heavy = usual(evaluation, Usual::LineDensity, LINE_DENSITY, Dimension::DENSITY).si();
        return Ok(Strand::new(metres(length), metres(diameter), density(heavy)));
    }
    open_strand(evaluation, id, length)
}

/// The state that the rig comes to with nothing but its own weight to hold it, across the stream.
///
/// # Errors
/// What is unsaid, or that there is no such state.
pub fn at_rest(evaluation: &Evaluation<'_, '_>) -> Result<(Rc<Hanging>, Settled), Lack> {
    let (state, hanging) = (drifting(evaluation)?, hanging(evaluation)?);
    let under = Under::Length(state.drift.submerged);
    let found = settled(
        &hanging.air,
        &state.rig.tackle,
        &state.rig.stream,
        under,
        Across::Stream,
    );
    let settled = found.map_err(|_| none(evaluation))?;
    Ok((hanging, settled))
}

fn none(evaluation: &Evaluation<'_, '_>) -> Lack {
    Missing::new(Unsaid::LeadingReach)
        .at(evaluation.rig.place())
        .into()
}

pub(in crate::measure) fn sag(evaluation: &Evaluation<'_, '_>) -> Outcome {
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
    let allowed = usual(evaluation, Usual::Sag, ALLOWED, Dimension::LENGTH).si();
    let curve = hanging
        .air
        .with_sag(metres(allowed))
        .ok_or_else(|| none(evaluation))?;
    Ok((state, hanging, curve))
}

pub(in crate::measure) fn sag_pull(evaluation: &Evaluation<'_, '_>) -> Outcome {
    let (_, hanging, curve) = pull(evaluation)?;
    let mut pull = hanging.from.clone().with(curve.pull.value, Dimension::FORCE);
    pull.system = None;
    Ok(pull)
}

pub(in crate::measure) fn creep(evaluation: &Evaluation<'_, '_>) -> Outcome {
    let (state, hanging, curve) = pull(evaluation)?;
    let under = Under::Length(state.drift.submerged);
    let aside = creep_under(&state.rig.tackle, &state.rig.stream, under, curve.pull);
    // With slack on the bed nothing is drawn aside.
    let speed = aside.map_or(0.0, |aside| aside.speed.value);
    Ok(hanging.from.clone().with(speed, Dimension::SPEED))
}

pub(in crate::measure) fn beyond_tip(evaluation: &Evaluation<'_, '_>) -> Outcome {
    let (state, reach) = (drifting(evaluation)?, reach(evaluation)?);
    let si = reach.si() + state.drift.submerged.value;
    Ok(reach.with(si, Dimension::LENGTH))
}

pub(in crate::measure) fn mass_beyond_tip(evaluation: &Evaluation<'_, '_>) -> Outcome {
    let out = beyond_tip(evaluation)?;
    let state = drifting(evaluation)?;
    let mut mass = state.mass.si();
    let mut left = out.si();
    for (id, _) in evaluation.rig.chain.sections().rev() {
        let piece = air_strand(evaluation, id, left)?;
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
