//! A value for people and for programs: SI beside the author's own text.

use rig::Evaluation;
use rig::value::Value;
use schemars::JsonSchema;
use serde::Serialize;
use units::{Dimension, Quantity, System};

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
    pub(crate) fn of(value: &Value, units: Units, evaluation: &Evaluation<'_, '_>) -> Self {
        let unit = value.dimension().si_unit();
        Self {
            // An empty sum is the negative nought, which no reader wants to see.
            value: Some(value.si() + 0.0),
            unit: (!unit.is_empty()).then(|| unit.into_owned()),
            text: text(value, units, evaluation),
            estimate: false,
            off: None,
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
        let text = coarse(&units::write(Quantity::new(off, value.dimension()), system));
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
            format!("{} ({})", value.written_in(own), value.written_in(other))
        }
    }
}

/// Plain numbers to two decimals: a ratio says no more.
fn ratio(value: &Value) -> String {
    let rounded = (value.si() * 100.0).round() / 100.0;
    units::write_number(rounded)
}

/// A written quantity with no more digits than an error has: one, or two where the first is a one.
pub(crate) fn coarse(text: &str) -> String {
    let Some((number, unit)) = text.split_once(' ') else {
        return text.to_owned();
    };
    let Some(number) = number
        .parse::<f64>()
        .ok()
        .filter(|number| *number > 0.0 && !unit.contains(' '))
    else {
        return text.to_owned();
    };
    let tens = number.log10().floor();
    let step = if number / 10_f64.powf(tens) < 2.0 {
        tens - 1.0
    } else {
        tens
    };
    let scale = 10_f64.powf(step);
    format!("{} {unit}", units::write_number((number / scale).round() * scale))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn errors_are_written_coarsely() {
        assert_eq!(coarse("2.95 in"), "3 in");
        assert_eq!(coarse("0.089 m/s"), "0.09 m/s");
        assert_eq!(coarse("14.8 cm"), "15 cm");
        assert_eq!(coarse("0 in"), "0 in");
        assert_eq!(coarse("1 ft 2 in"), "1 ft 2 in");
    }
}
