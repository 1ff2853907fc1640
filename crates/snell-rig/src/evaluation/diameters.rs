//! How thick a piece of line is at its ends, and what that comes to where two meet.

use super::core::Evaluation;
use crate::blocks::LineSize;
use crate::lack::{Lack, Outcome};
use crate::missing::{Missing, Unsaid};
use crate::rig::Stuff;
use crate::thing::{JoinId, SectionId, Thing};
use crate::value::Value;
use snell_text::Place;
use snell_units::Dimension;

/// The diameters of a piece's upper and lower end.
pub(crate) fn ends(evaluation: &Evaluation<'_, '_>, id: SectionId) -> Result<(Value, Value), Lack> {
    let section = evaluation.rig.chain.section(id);
    ends_of(section.stuff, Thing::Section(id), section.part.place())
}

/// The diameters of the upper and lower end of a piece of some stuff.
pub(crate) fn ends_of(stuff: &Stuff<'_>, of: Thing, place: Place) -> Result<(Value, Value), Lack> {
    if let Some(measured) = &stuff.measured {
        let measured = measured.clone()?;
        return Ok((measured.clone(), measured));
    }
    match &stuff.size {
        Some(LineSize::Level(diameter)) => {
            let diameter = diameter.clone()?;
            Ok((diameter.clone(), diameter))
        }
        Some(LineSize::Tapered(upper, lower)) => Ok((upper.clone()?, lower.clone()?)),
        Some(LineSize::FlyLine(_)) | None => {
            Err(Missing::new(Unsaid::Diameter).of_thing(of).at(place).into())
        }
    }
}

/// The diameters that meet: the lower end of the piece above, the upper end of the piece below.
pub(crate) fn meeting(evaluation: &Evaluation<'_, '_>, id: JoinId) -> Result<(Value, Value), Lack> {
    let (_, above) = ends(evaluation, id.upper())?;
    let (below, _) = ends(evaluation, id.lower())?;
    Ok((above, below))
}

/// The thicker diameter over the thinner; at least 1.
pub(crate) fn meeting_ratio(evaluation: &Evaluation<'_, '_>, id: JoinId) -> Outcome {
    let (above, below) = meeting(evaluation, id)?;
    let (a, b) = (above.si(), below.si());
    let ratio = a.max(b) / a.min(b);
    if !ratio.is_finite() {
        return Err(Lack::Faulty);
    }
    Ok(above.joined(&below).with(ratio, Dimension::NONE))
}
