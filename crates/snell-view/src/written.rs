//! A value for people and for programs: SI beside the author's own text.

use super::rounding::coarse;
use schemars::JsonSchema;
use serde::Serialize;
use snell_rig::Evaluation;
use snell_rig::value::Value;
use snell_units::{Dimension, Quantity, System};

/// The units that values are written in.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub enum Units {
    /// Those that the author wrote.
    #[default]
    Author,
    /// Metric.
    Metric,
    /// Imperial.
    Imperial,
    /// The author's, and the other system's behind them.
    Both,
}

/// A value as it is shown.
#[derive(Clone, Debug, Serialize, JsonSchema, PartialEq)]
pub struct Written {
    /// In SI (temperatures in degrees Celsius); of a spread, its middle. Words have none.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub value: Option<f64>,
    /// The SI unit; plain numbers have none.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub unit: Option<String>,
    /// For people.
    pub text: String,
    /// Whether it is an estimate, and must be called one.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    pub estimate: bool,
    /// How wrong it may be either way, where that is known.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub off: Option<Off>,
    /// The units that its author writes in.
    #[serde(skip)]
    pub system: System,
}

/// How wrong an estimate may be either way.
#[derive(Clone, Debug, Serialize, JsonSchema, PartialEq)]
pub struct Off {
    /// In the SI unit of its estimate.
    pub value: f64,
    /// For people, no finer than such a figure can be.
    pub text: String,
}

impl Written {
    pub fn of(value: &Value, units: Units, evaluation: &Evaluation<'_, '_>) -> Self {
        let unit = value.dimension().si_unit();
        Self {
            // An empty sum is the negative nought, which no reader wants to see.
            value: Some(value.si() + 0.0),
            unit: (!unit.is_empty()).then(|| unit.into_owned()),
            text: text(value, units, evaluation),
            estimate: false,
            off: None,
            system: evaluation.system_of(value),
        }
    }

    /// The same, called an estimate.
    #[must_use]
    pub(super) fn estimated(self) -> Self {
        Self {
            estimate: true,
            ..self
        }
    }

    /// The same, as an estimate that may be wrong by so much, in SI.
    #[must_use]
    pub(super) fn within(
        self,
        off: f64,
        value: &Value,
        units: Units,
        evaluation: &Evaluation<'_, '_>,
    ) -> Self {
        let own = evaluation.system_of(value);
        let system = match units {
            Units::Metric => System::Metric,
            Units::Imperial => System::Imperial,
            Units::Author | Units::Both => own,
        };
        let text = coarse(&snell_units::write(Quantity::new(off, value.dimension()), system));
        let off = Some(Off { value: off, text });
        Self {
            off,
            ..self.estimated()
        }
    }

    pub(super) fn words(words: &[String]) -> Self {
        Self {
            value: None,
            unit: None,
            text: words.join(", "),
            estimate: false,
            off: None,
            system: System::Metric,
        }
    }
}

/// As its reader wants it.
pub(super) fn text(value: &Value, units: Units, evaluation: &Evaluation<'_, '_>) -> String {
    if value.dimension() == Dimension::NONE {
        return ratio(value);
    }
    told(value, units, evaluation.system_of(value))
}

/// A value that belongs to no rig, whose author writes in a system.
pub(super) fn in_units(value: &Value, units: Units, own: System) -> Written {
    let unit = value.dimension().si_unit();
    Written {
        value: Some(value.si()),
        unit: (!unit.is_empty()).then(|| unit.into_owned()),
        text: told(value, units, own),
        estimate: false,
        off: None,
        system: own,
    }
}

fn told(value: &Value, units: Units, own: System) -> String {
    match units {
        Units::Metric => value.written_in(System::Metric),
        Units::Imperial => value.written_in(System::Imperial),
        Units::Author => value.written_in(own),
        Units::Both => {
            let other = if own == System::Metric {
                System::Imperial
            } else {
                System::Metric
            };
            let (own, other) = (value.written_in(own), value.written_in(other));
            if own == other {
                return own;
            }
            format!("{own} ({other})")
        }
    }
}

/// Plain numbers to two decimals: a ratio says no more.
fn ratio(value: &Value) -> String {
    let rounded = (value.si() * 100.0).round() / 100.0;
    snell_units::write_number(rounded)
}
