//! What carries the cast: the flies, line that is out beyond the rod's tip, or neither.
//!
//! It compares masses. How a rod throws them is left out.

use super::air::beyond_tip;
use super::overhead::air_strand;
use crate::evaluation::Evaluation;
use crate::keywords::SectionRole;
use crate::lack::{Lack, Outcome};
use crate::measure::fly::{shot_mass, swivel_mass, weight};
use crate::measure::length;
use snell_units::Dimension;
use uom::si::f64::Length;
use uom::si::length::meter;

/// What carries a cast. A share of half is where the one outweighs the rest: common practice, no source; the masses are
/// computed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CastBy {
    /// The flies and shots pull the leader out behind them.
    Flies,
    /// The line beyond the tip does.
    Line,
    /// They do together, and neither alone.
    Both,
    /// The leader outweighs both, so that nothing pulls it straight.
    Neither,
}

/// What a cast has to carry, in kilograms.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Casting {
    /// What carries it.
    pub by: CastBy,
    /// The flies and shots.
    pub flies: f64,
    /// The line beyond the tip.
    pub line: f64,
    /// All that is out, the leader's pieces too.
    pub all: f64,
}

/// What is out beyond a length of the rig from the point up: the line, and all pieces, in kilograms.
struct Out {
    line: f64,
    all: f64,
}

fn out(evaluation: &Evaluation<'_, '_>, beyond: f64) -> Result<Out, Lack> {
    let mut out = Out { line: 0.0, all: 0.0 };
    let mut left = beyond;
    for (id, section) in evaluation.rig.chain.sections().rev() {
        let piece = air_strand(evaluation, id, left)?;
        let length = piece.length().value.min(left);
        let mass = piece.of_length(Length::new::<meter>(length)).mass().value;
        out.all += mass;
        if section.role == SectionRole::Line {
            out.line += mass;
        }
        left -= length;
        if left <= 0.0 {
            break;
        }
    }
    Ok(out)
}

/// The flies, the shots and the swivels that were weighed as one mass.
fn flies(evaluation: &Evaluation<'_, '_>) -> Outcome {
    let mut sum = weight(evaluation)?;
    for id in evaluation.rig.chain.shots() {
        sum = sum.plus(&shot_mass(evaluation, id)?);
    }
    for weighed in evaluation
        .rig
        .chain
        .joins()
        .filter_map(|id| swivel_mass(evaluation, id))
    {
        sum = sum.plus(&weighed?);
    }
    Ok(sum)
}

/// What carries the cast: with the line out that the rig is fished with, or with all of its leader where it says no
/// `reach`.
///
/// # Errors
/// The mass of a fly or of a piece that cannot be told.
pub fn casting(evaluation: &Evaluation<'_, '_>) -> Result<Casting, Lack> {
    let beyond = match beyond_tip(evaluation) {
        Ok(beyond) => beyond,
        Err(_) => length::total(evaluation)?,
    };
    let (flies, out) = (flies(evaluation)?.si(), out(evaluation, beyond.si())?);
    let all = flies + out.all;
    let share = |mass: f64| mass / all >= 0.5;
    let by = match (share(flies), share(out.line), share(flies + out.line)) {
        (true, _, _) => CastBy::Flies,
        (false, true, _) => CastBy::Line,
        (false, false, true) => CastBy::Both,
        (false, false, false) => CastBy::Neither,
    };
    Ok(Casting {
        by,
        flies,
        line: out.line,
        all,
    })
}

/// All that hangs out beyond the tip.
pub(in crate::measure) fn mass_beyond_tip(evaluation: &Evaluation<'_, '_>) -> Outcome {
    let beyond = beyond_tip(evaluation)?;
    let flies = flies(evaluation)?;
    let mass = flies.si() + out(evaluation, beyond.si())?.all;
    let mut mass = beyond.joined(&flies).with(mass, Dimension::MASS);
    mass.system = None;
    Ok(mass)
}
