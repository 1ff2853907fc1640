//! The shape of a leader that hangs from the tip.

use super::calm;
use crate::leader::blown::Blown;
use crate::leader::reach::Reach;
use crate::leader::wind::Wind;
use crate::strand::Strand;
use uom::si::angle::radian;
use uom::si::f64::{Angle, Force, Length};
use uom::si::force::newton;
use uom::si::length::meter;

/// A leader between the water and the tip.
#[derive(Debug, Clone, PartialEq)]
pub struct Hanging {
    /// What it pulls the rig with where it leaves the water: downstream, across and up.
    pub pull: [Force; 3],
    /// Tension at the tip.
    pub at_tip: Force,
    /// How steeply it stands at the tip, from the level.
    pub steepness: Angle,
    /// Where the tip is, downstream of the entry.
    pub along: Length,
    /// Line out between water and tip.
    pub length: Length,
    /// From the entry to the tip, straight.
    pub chord: Length,
    /// The greatest distance from that chord.
    pub bow: Length,
    /// The greatest drop below that chord; nothing where wind lifts it over the chord.
    pub sag: Length,
    /// From the entry to the tip: downstream, across and over the water.
    pub points: Vec<[Length; 3]>,
}

/// Points of a leader that hangs in still air.
const DRAWN: usize = 60;
/// Steps of one that is blown, in usual ones.
const WALKED: f64 = 0.5;

impl Hanging {
    pub(crate) fn of(reach: &Reach, line: &[Strand], pull: f64, load: f64, goes: f64) -> Option<Self> {
        let place = reach.place(line, pull, load, goes)?;
        let aside = reach.aside(line, pull, load, goes)?;
        let tip = reach.tip.get::<meter>();
        let points = match &reach.wind {
            None => drawn(line, pull, load, tip)?,
            Some(wind) => walked(reach, line, wind, [pull, aside, load], goes)?,
        };
        let end = [place.along, place.across, tip];
        let [along, across, up] = place.pull;
        let level = crate::plane::size([along, across]);
        Some(Self {
            pull: [pull, aside, load].map(Force::new::<newton>),
            at_tip: Force::new::<newton>(crate::plane::size([level, up])),
            steepness: Angle::new::<radian>(crate::math::atan2(up, level)),
            along: Length::new::<meter>(place.along),
            length: Length::new::<meter>(place.length),
            chord: Length::new::<meter>(dot(end, end).sqrt()),
            bow: Length::new::<meter>(bow(&points, end)),
            sag: Length::new::<meter>(sag(&points, end)),
            points: points
                .into_iter()
                .map(|point| point.map(Length::new::<meter>))
                .collect(),
        })
    }
}

fn drawn(line: &[Strand], pull: f64, load: f64, tip: f64) -> Option<Vec<[f64; 3]>> {
    let mut points = vec![[0.0; 3]];
    for turn in 1..=DRAWN {
        let height = tip * turn as f64 / DRAWN as f64;
        points.push([calm::at_tip(line, pull, load, height)?.along, 0.0, height]);
    }
    Some(points)
}

fn walked(reach: &Reach, line: &[Strand], wind: &Wind, pull: [f64; 3], goes: f64) -> Option<Vec<[f64; 3]>> {
    let mut points = Vec::new();
    let blown = Blown {
        long: WALKED,
        ..reach.blown(line, wind, goes)
    };
    blown.at_tip(pull, |place| points.push(place))?;
    Some(points)
}

/// The greatest distance of a point from the line to an end.
fn bow(points: &[[f64; 3]], end: [f64; 3]) -> f64 {
    let long = dot(end, end);
    let off = |point: &[f64; 3]| {
        let part = dot(*point, end) / long;
        let away = [0, 1, 2].map(|axis| point[axis] - part * end[axis]);
        dot(away, away).sqrt()
    };
    points.iter().map(off).fold(0.0, f64::max)
}

/// The greatest drop of a point below the line to an end.
fn sag(points: &[[f64; 3]], end: [f64; 3]) -> f64 {
    let drop = |point: &[f64; 3]| point[0] / end[0] * end[2] - point[2];
    points.iter().map(drop).fold(0.0, f64::max)
}

fn dot(a: [f64; 3], b: [f64; 3]) -> f64 {
    a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
}
