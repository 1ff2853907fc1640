//! A value for people and for programs: SI beside the author's own text.

use super::rounding::{coarse, range, within};
use schemars::JsonSchema;
use serde::Serialize;
use snell_rig::Evaluation;
use snell_rig::measure::Between;
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

/// How an estimate is told.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub enum Estimates {
    /// With what it lies between.
    #[default]
    Between,
    /// Without, where that has to be drawn: a hundred draws cost more than all else that is told of a rig.
    Bare,
}

impl Units {
    /// The system of units in which something is shown whose author writes in another.
    pub(crate) const fn shown(self, own: System) -> System {
        match self {
            Self::Metric => System::Metric,
            Self::Imperial => System::Imperial,
            Self::Author | Self::Both => own,
        }
    }
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
    /// Between what it lies, where that is known: eight times out of ten where it comes from draws.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub between: Option<Range>,
    /// The units that its author writes in.
    #[serde(skip)]
    pub system: System,
}

/// Between what an estimate lies. It need not be in the middle.
#[derive(Clone, Debug, Serialize, JsonSchema, PartialEq)]
pub struct Range {
    /// In the SI unit of its estimate.
    pub low: f64,
    /// See `low`.
    pub high: f64,
    /// For people, no finer than such figures can be.
    pub text: String,
    /// Half of what lies between them as it is written: an estimate is told no finer than that.
    #[serde(skip)]
    pub off: String,
    /// The same in SI: what moves by less is not told to have moved.
    #[serde(skip)]
    pub told_to: f64,
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
            between: None,
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

    /// The same, as an estimate that lies between two figures and is told no finer than they can be.
    #[must_use]
    pub(super) fn between(
        self,
        between: Between,
        value: &Value,
        units: Units,
        evaluation: &Evaluation<'_, '_>,
    ) -> Self {
        let own = evaluation.system_of(value);
        let system = units.shown(own);
        let quantity = |si| Quantity::new(si, value.dimension());
        let told_to = told_to(between, value.dimension(), system);
        let off = coarse(&snell_units::write(
            Quantity::new(told_to, value.dimension()),
            system,
        ));
        let text = match units {
            Units::Both => self.text.clone(),
            Units::Author | Units::Metric | Units::Imperial => within(quantity(value.si()), &off, system),
        };
        let (low, high) = (quantity(between.low), quantity(between.high));
        let between = Range {
            low: between.low,
            high: between.high,
            text: range(low, high, &off, system),
            off,
            told_to,
        };
        Self {
            text,
            between: Some(between),
            ..self.estimated()
        }
    }

    /// For people, an estimate with what it lies between.
    pub fn told(&self) -> String {
        match &self.between {
            // Some are known to within what they are rounded to.
            Some(between) if between.text != self.text => format!("{} ({})", self.text, between.text),
            Some(_) | None => self.text.clone(),
        }
    }

    pub(super) fn words(words: &[String]) -> Self {
        Self {
            value: None,
            unit: None,
            text: words.join(", "),
            estimate: false,
            between: None,
            system: System::Metric,
        }
    }
}

/// Lengths in a stream are told no finer than these are worth, m: to a centimetre and to an inch. Source: by judgement.
const NO_FINER: [f64; 2] = [0.02, 0.0508];

/// Half of what lies between two figures, as far as it is told.
fn told_to(between: Between, dimension: Dimension, system: System) -> f64 {
    let half = (between.high - between.low) / 2.0;
    let [metric, imperial] = NO_FINER;
    let least = match system {
        System::Metric => metric,
        System::Imperial => imperial,
    };
    if dimension == Dimension::LENGTH {
        half.max(least)
    } else {
        half
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
        between: None,
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
