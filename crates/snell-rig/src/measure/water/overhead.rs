//! What holds the leader up: the rod's tip, how far off it is and how high,
//! the line up to it, and the wind on that.

use super::tackle::{open_strand, strand};
use super::usual::{metres, usual};
use crate::assumed::{Assumed, Taken, Usual};
use crate::blocks::LineSize;
use crate::evaluation::Evaluation;
use crate::keywords::{Blows, SectionRole, Stands};
use crate::lack::{Lack, Outcome};
use crate::measure::section;
use crate::missing::{Missing, Of, Unsaid};
use crate::thing::{SectionId, Thing};
use crate::value::Value;
use snell_units::Dimension;
use snell_water::Strand;
use snell_water::leader::{Air, Reach, Wind};
use std::f64::consts::PI;
use uom::si::f64::{MassDensity, ThermodynamicTemperature, Velocity};
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::thermodynamic_temperature::degree_celsius;
use uom::si::velocity::meter_per_second;

/// How high the tip is held over the water. Source: from memory, a rod led level at the shoulder.
const TIP: f64 = 1.8;
/// A level line or a fly line that does not say what it is made of, kg/m3. Source: from memory; such lines
/// are made about as heavy as water.
const LINE_DENSITY: f64 = 1000.0;
/// The thickness that stands for a fly line of which only the weight is known, m. Only its weight counts.
const ANY_DIAMETER: f64 = 1e-3;
/// Air over a stream, C: ten degrees more or less change what a wind does by 4 %. Source: the standard atmosphere.
const AIR: f64 = 15.0;

/// Where the tip is, as it is said.
pub(super) struct Tip {
    /// As the leader meets it.
    pub reach: Reach,
    /// In metres: the straight way from tip to entry, and the tip over the water.
    pub straight: f64,
    /// See `straight`.
    pub height: f64,
    /// Where this was said.
    pub from: Value,
}

/// The reach that the rig states.
pub(in crate::measure) fn reach(evaluation: &Evaluation<'_, '_>) -> Outcome {
    match evaluation.rig.settings.reach {
        Some(fit) => evaluation.value(fit),
        None => Err(Missing::new(Unsaid::Reach).at(evaluation.rig.place()).into()),
    }
}

/// The height of the tip over the water.
fn height(evaluation: &Evaluation<'_, '_>) -> Outcome {
    match evaluation.rig.settings.tip {
        Some(fit) => evaluation.value(fit),
        None => Ok(usual(evaluation, Usual::Tip, TIP, Dimension::LENGTH)),
    }
}

/// Where the tip is.
///
/// # Errors
/// What is unsaid of it, or that the reach is shorter than the tip is high.
pub(super) fn tip(evaluation: &Evaluation<'_, '_>) -> Result<Tip, Lack> {
    let straight = reach(evaluation)?;
    let height = height(evaluation)?;
    let level = straight.si() * straight.si() - height.si() * height.si();
    if level <= 0.0 {
        return Err(Missing {
            place: evaluation.rig.settings.reach.map(|fit| fit.place()),
            ..Missing::new(Unsaid::LongerReach)
        }
        .into());
    }
    let side = match stands(evaluation) {
        Stands::Upstream => -1.0,
        Stands::Downstream => 1.0,
    };
    let reach = Reach {
        along: metres(side * level.sqrt()),
        tip: metres(height.si()),
        wind: wind(evaluation, height.si())?,
    };
    Ok(Tip {
        reach,
        straight: straight.si(),
        height: height.si(),
        from: straight.joined(&height),
    })
}

/// Which side of the flies the tip is on.
pub fn stands(evaluation: &Evaluation<'_, '_>) -> Stands {
    evaluation.rig.settings.stands.unwrap_or_else(|| {
        evaluation.assume(|| Assumed {
            what: Usual::Stands,
            of: Of::Rig,
            value: Taken::Stands(Stands::Upstream),
        });
        Stands::Upstream
    })
}

/// Air at a usual temperature.
pub(super) fn usual_air() -> Air {
    Air::at(ThermodynamicTemperature::new::<degree_celsius>(AIR))
}

/// The wind that the rig states, at the height of the tip.
fn wind(evaluation: &Evaluation<'_, '_>, height: f64) -> Result<Option<Wind>, Lack> {
    let Some((fit, blows)) = evaluation.rig.settings.wind else {
        return Ok(None);
    };
    let speed = evaluation.value(fit)?.si();
    let [along, across] = match blows {
        Blows::Up => [-speed, 0.0],
        Blows::Down => [speed, 0.0],
        Blows::Across => [0.0, speed],
    }
    .map(Velocity::new::<meter_per_second>);
    Ok(Some(Wind::new(along, across, metres(height), usual_air())))
}

/// The pieces above one, from it up to the line; the last goes on.
pub(super) fn strands_above(
    evaluation: &Evaluation<'_, '_>,
    first: SectionId,
    wanted: f64,
) -> Result<Vec<Strand>, Lack> {
    let above = evaluation.rig.chain.sections().rev();
    let above = above.filter(|(id, _)| *id < first);
    above.map(|(id, _)| air_strand(evaluation, id, wanted)).collect()
}

/// A section as it weighs in the air; the line is as long as it is wanted.
pub(super) fn air_strand(
    evaluation: &Evaluation<'_, '_>,
    id: SectionId,
    wanted: f64,
) -> Result<Strand, Lack> {
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
