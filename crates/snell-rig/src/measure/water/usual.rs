//! Figures that a rig may leave unsaid.

use crate::assumed::{Assumed, Taken, Usual};
use crate::evaluation::Evaluation;
use crate::lack::{Lack, Outcome};
use crate::missing::Of;
use crate::value::Value;
use snell_units::{Dimension, Quantity};
use uom::si::f64::Length;
use uom::si::length::meter;

pub(super) fn metres(si: f64) -> Length {
    Length::new::<meter>(si)
}

/// What a figure is where the rig leaves it unsaid; listed as assumed.
pub(in crate::measure) fn usual(
    evaluation: &Evaluation<'_, '_>,
    what: Usual,
    si: f64,
    dimension: Dimension,
) -> Value {
    evaluation.assume(|| Assumed {
        what,
        of: Of::Rig,
        value: Taken::Figure(Quantity::new(si, dimension)),
    });
    Value::plain(si, dimension)
}

/// A figure that may be unsaid.
pub(super) fn said(value: &Outcome) -> Result<Option<Value>, Lack> {
    match value {
        Ok(value) => Ok(Some(value.clone())),
        Err(Lack::Faulty) => Err(Lack::Faulty),
        Err(Lack::Unknown(_)) => Ok(None),
    }
}
