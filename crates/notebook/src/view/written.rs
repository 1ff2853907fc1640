//! A value for people and for programs: SI beside the author's own text.

use rig::Evaluation;
use rig::value::Value;
use serde::Serialize;
use units::{Dimension, System};

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
#[derive(Clone, Debug, Serialize, PartialEq)]
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
}

impl Written {
    pub(crate) fn of(value: &Value, units: Units, evaluation: &Evaluation<'_, '_>) -> Self {
        let unit = value.dimension().si_unit();
        Self {
            // An empty sum is the negative nought, which no reader wants to see.
            value: Some(value.si() + 0.0),
            unit: (!unit.is_empty()).then(|| unit.into_owned()),
            text: text(value, units, evaluation),
            estimate: false,
        }
    }

    /// The same, as an estimate if it is one.
    #[must_use]
    pub(super) fn estimated(mut self, estimate: bool) -> Self {
        self.estimate = estimate;
        self
    }

    pub(super) fn words(words: &[String]) -> Self {
        Self {
            value: None,
            unit: None,
            text: words.join(", "),
            estimate: false,
        }
    }
}

fn text(value: &Value, units: Units, evaluation: &Evaluation<'_, '_>) -> String {
    if value.dimension() == Dimension::NONE {
        return ratio(value);
    }
    let own = evaluation.system_of(value);
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
            format!("{} ({})", value.written_in(own), value.written_in(other))
        }
    }
}

/// Plain numbers to two decimals: a ratio says no more.
fn ratio(value: &Value) -> String {
    let rounded = (value.si() * 100.0).round() / 100.0;
    units::write_number(rounded)
}
