//! What a rig with one value comes to: the figures that are put beside each other, each with its draws.

use super::shown::{ShownDifference, ShownFigure};
use crate::rounding::coarse;
use crate::rounding::to_tenths;
use crate::written::{Units, Written};
use snell_rig::Evaluation;
use snell_rig::measure::{self, Drawn, Kind, Thing};
use snell_rig::thing::FlyId;
use snell_rig::value::Value;
use snell_units::{Dimension, System};

/// What is put beside each other, and how a difference of it is told.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum Role {
    /// The line that goes under water.
    Needed,
    /// How deep a fly rides.
    Depth(FlyId),
    /// How long the point takes to get down.
    Seconds,
    /// How fast the water drags a fly.
    Drags(FlyId),
    /// The drop of the line in the air.
    Sag,
    /// The pull along the water that takes it out.
    Pull,
    /// The strength of the weakest place.
    Breaks,
}

/// A figure of one rig.
pub(super) struct Figure {
    role: Role,
    what: String,
    measure: &'static str,
    value: Option<Value>,
    written: Option<Written>,
    drawn: Option<Drawn>,
}

impl Role {
    const fn measure(self) -> (Kind, &'static str) {
        match self {
            Self::Needed => (Kind::Rig, "tippet-needed"),
            Self::Depth(_) => (Kind::Fly, "rides"),
            Self::Seconds => (Kind::Rig, "sink-time"),
            Self::Drags(_) => (Kind::Fly, "drags"),
            Self::Sag => (Kind::Rig, "sag"),
            Self::Pull => (Kind::Rig, "sag-pull"),
            Self::Breaks => (Kind::Rig, "weakest"),
        }
    }

    const fn thing(self) -> Thing {
        match self {
            Self::Depth(id) | Self::Drags(id) => Thing::Fly(id),
            Self::Needed | Self::Seconds | Self::Sag | Self::Pull | Self::Breaks => Thing::Rig,
        }
    }

    /// What is less is nothing that one would notice, in SI units. Source: common practice, no source.
    const fn noticed(self) -> f64 {
        match self {
            Self::Needed | Self::Depth(_) | Self::Sag => 0.01,
            Self::Seconds => 0.05,
            Self::Drags(_) => 0.005,
            Self::Pull => 1e-4,
            Self::Breaks => 0.2,
        }
    }

    /// `needs 5 in less line`
    fn told(self, what: &str, by: &str, more: bool) -> String {
        let one_of = |up: &'static str, down: &'static str| if more { up } else { down };
        match self {
            Self::Needed => format!("needs {by} {} line", one_of("more", "less")),
            Self::Depth(_) => format!("{what} rides {by} {}", one_of("deeper", "higher")),
            Self::Seconds => format!("is down {by} {}", one_of("later", "sooner")),
            Self::Drags(_) => format!("the water drags the point {by} {}", one_of("more", "less")),
            Self::Sag => format!("sags {by} {}", one_of("more", "less")),
            Self::Breaks => format!("bears {by} {}", one_of("more", "less")),
            Self::Pull => format!("wants {by} {} pull", one_of("more", "less")),
        }
    }
}

/// All figures of a rig, with the draws of those that are drawn. A fly that is another one keeps its place.
pub(super) fn figures(evaluation: &Evaluation<'_, '_>, units: Units) -> Vec<Figure> {
    let chain = &evaluation.rig.chain;
    let flies: Vec<FlyId> = chain.flies().map(|(id, _)| id).collect();
    let place = |id: FlyId| match chain.fly(id).at {
        snell_rig::rig::FlyAt::Point => "point".to_owned(),
        snell_rig::rig::FlyAt::Dropper(tag) => chain.dropper_name(tag),
        snell_rig::rig::FlyAt::Inline => chain.fly_name(id),
    };
    let mut roles = vec![(Role::Needed, "line".to_owned())];
    roles.extend(flies.iter().rev().map(|id| (Role::Depth(*id), place(*id))));
    roles.push((Role::Seconds, "down".to_owned()));
    roles.extend(chain.point().map(|id| (Role::Drags(id), "drag".to_owned())));
    roles.push((Role::Sag, "sag".to_owned()));
    roles.push((Role::Pull, "pull".to_owned()));
    roles.push((Role::Breaks, "bears".to_owned()));
    let figure = |(role, what): (Role, String)| {
        let (kind, name) = role.measure();
        let measure = measure::of(kind, name)?;
        let value = evaluation.measure(measure, role.thing()).ok();
        let drawn = value
            .as_ref()
            .and_then(|_| measure.drawn(evaluation, role.thing()));
        let written = value.as_ref().map(|value| {
            let mut written = Written::of(value, units, evaluation);
            let rounded = Written::of(&in_steps(value, evaluation), units, evaluation);
            written.text = to_tenths(&rounded.text);
            written
        });
        Some(Figure {
            role,
            what,
            measure: name,
            value,
            written,
            drawn,
        })
    };
    roles.into_iter().filter_map(figure).collect()
}

/// A length as finely as a drift can be told: to a centimetre or half an inch.
fn in_steps(value: &Value, evaluation: &Evaluation<'_, '_>) -> Value {
    if value.dimension() != Dimension::LENGTH {
        return value.clone();
    }
    let step = match evaluation.system() {
        System::Metric => 0.01,
        System::Imperial => 0.0127,
    };
    value
        .clone()
        .with((value.si() / step).round() * step, Dimension::LENGTH)
}

impl Figure {
    /// Whether it is told and more than nothing, unlike the sag of a line that goes straight down.
    pub(super) fn is_something(&self) -> bool {
        self.value.as_ref().is_some_and(|value| value.si() != 0.0)
    }

    pub(super) fn shown(&self) -> ShownFigure {
        ShownFigure {
            what: self.what.clone(),
            measure: self.measure,
            value: self.written.clone(),
        }
    }

    /// What it is more than the same figure of the rig as it is; nothing where that would not be noticed.
    pub(super) fn over(
        &self,
        as_it_is: &[Self],
        units: Units,
        evaluation: &Evaluation<'_, '_>,
    ) -> Option<ShownDifference> {
        let other = as_it_is.iter().find(|other| other.role == self.role)?;
        let (value, was) = (self.value.as_ref()?, other.value.as_ref()?);
        let told = value.si() - was.si();
        let (by, between, chance) = match self.drawn.as_ref().zip(other.drawn.as_ref()) {
            Some((now, was)) => {
                let paired = now.over(was)?;
                (
                    paired.band.middle,
                    (paired.band.low, paired.band.high),
                    paired.agree,
                )
            }
            None => (told, (told, told), 1.0),
        };
        if by.abs() < self.role.noticed() {
            return None;
        }
        let amount = value.clone().with(by.abs(), value.dimension());
        let text = coarse(&Written::of(&amount, units, evaluation).text);
        Some(ShownDifference {
            measure: self.measure,
            words: self.role.told(&self.what, &text, by > 0.0),
            by,
            between,
            chance,
        })
    }
}
