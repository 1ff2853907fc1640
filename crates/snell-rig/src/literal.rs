//! What a written quantity comes to, whoever asks: its value in SI, once.

use snell_syntax::{Number, Single, SingleKind};
use snell_units::{Dimension, Quantity, System, Unit, UnitFault};

/// Metres to the foot and to the inch, kilograms to the pound and to the ounce.
/// Source: NIST SP 811 (2008), appendix B.8, exact (the ounce a sixteenth of the pound).
const FOOT: f64 = 0.3048;
const INCH: f64 = 0.0254;
const POUND: f64 = 0.453_592_37;
const OUNCE: f64 = POUND / 16.0;

/// A written quantity.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Literal {
    pub(crate) quantity: Quantity,
    /// The system of its units.
    pub(crate) system: Option<System>,
    /// Its unit, where it has one of the table.
    pub(crate) unit: Option<&'static Unit>,
}

/// What is written like a quantity and is none.
#[derive(Clone, Debug)]
pub(crate) enum NoQuantity {
    /// `#14`
    Size,
    /// `2026-05-14`
    Day,
    /// An X size that the formula does not reach.
    TooFine,
    /// The word behind the number is no unit.
    NoUnit(UnitFault),
}

impl Literal {
    /// The quantity that is written.
    pub(crate) fn of(single: &Single) -> Result<Self, NoQuantity> {
        let made = |si: f64, dimension, system| Self {
            quantity: Quantity { si, dimension },
            system,
            unit: None,
        };
        match &single.kind {
            SingleKind::Feet(feet, inches) => Ok(made(
                feet.value * FOOT + inches.value * INCH,
                Dimension::LENGTH,
                Some(System::Imperial),
            )),
            SingleKind::Pounds(pounds, ounces) => Ok(made(
                pounds.value * POUND + ounces.value * OUNCE,
                Dimension::MASS,
                Some(System::Imperial),
            )),
            SingleKind::X(number) => match snell_units::diameter_of_x(number.value) {
                Some(si) => Ok(made(si, Dimension::LENGTH, None)),
                None => Err(NoQuantity::TooFine),
            },
            SingleKind::Size(_) => Err(NoQuantity::Size),
            SingleKind::Day => Err(NoQuantity::Day),
            SingleKind::Number(number, None) => Ok(made(number.value, Dimension::NONE, None)),
            SingleKind::Number(number, Some(unit)) => match snell_units::resolve(&unit.plain) {
                Ok(known) => Ok(Self {
                    quantity: known.quantity(number.value),
                    system: known.system,
                    unit: known.unit,
                }),
                Err(fault) => Err(NoQuantity::NoUnit(fault)),
            },
        }
    }
}

/// The numbers that a quantity is written with.
pub(crate) fn numbers(single: &Single) -> [Option<Number>; 2] {
    match single.kind {
        SingleKind::Feet(first, second) | SingleKind::Pounds(first, second) => [Some(first), Some(second)],
        SingleKind::X(number) | SingleKind::Number(number, _) => [Some(number), None],
        SingleKind::Size(_) | SingleKind::Day => [None, None],
    }
}
