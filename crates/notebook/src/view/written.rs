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
    /// The author's, where the rig as a whole is written in this system.
    AuthorOr(System),
    /// Both, where the rig as a whole is written in this system.
    BothFrom(System),
}

impl Units {
    /// The same choice, with the rig's own system for values that come from no text of their own.
    pub(super) fn of_rig(self, evaluation: &Evaluation<'_, '_>) -> Self {
        let sections = 0..evaluation.rig.layout.sections.len();
        let mut lengths = sections.filter_map(|index| evaluation.section_length(index).ok()?.system);
        let system = lengths.next().unwrap_or(System::Metric);
        match self {
            Self::Author => Self::AuthorOr(system),
            Self::Both => Self::BothFrom(system),
            chosen => chosen,
        }
    }
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
}

impl Written {
    pub(super) fn of(value: &Value, units: Units) -> Self {
        let unit = value.dimension().si_unit();
        Self {
            value: Some(value.si()),
            unit: (!unit.is_empty()).then(|| unit.into_owned()),
            text: text(value, units),
        }
    }

    pub(super) fn words(words: &[String]) -> Self {
        Self {
            value: None,
            unit: None,
            text: words.join(", "),
        }
    }
}

fn text(value: &Value, units: Units) -> String {
    let other = |system| match system {
        System::Metric => System::Imperial,
        System::Imperial => System::Metric,
    };
    if value.dimension() == Dimension::NONE {
        return ratio(value);
    }
    match units {
        Units::Metric => value.written_in(System::Metric),
        Units::Imperial => value.written_in(System::Imperial),
        Units::Author => value.written(),
        Units::AuthorOr(system) => value.written_in(own(value, system)),
        Units::Both => both(value, value.system.unwrap_or(System::Metric), other),
        Units::BothFrom(system) => both(value, own(value, system), other),
    }
}

/// The system that a value's author wrote; what comes from sizes and figures alone is metric if it is a
/// diameter or a mass, for those are written so even by people who count in feet.
fn own(value: &Value, rig: System) -> System {
    let fine = value.dimension() != Dimension::LENGTH || (value.si() != 0.0 && value.si().abs() < 0.005);
    value.system.unwrap_or(if fine { System::Metric } else { rig })
}

fn both(value: &Value, first: System, other: impl Fn(System) -> System) -> String {
    format!("{} ({})", value.written_in(first), value.written_in(other(first)))
}

/// Plain numbers to two decimals: a ratio says no more.
fn ratio(value: &Value) -> String {
    let rounded = (value.si() * 100.0).round() / 100.0;
    units::write_number(rounded)
}

