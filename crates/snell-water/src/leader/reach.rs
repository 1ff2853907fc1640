//! Where the tip is, over what it leads.

use super::calm;
use crate::bracket::Bracket;
use crate::leader::blown::Blown;
use crate::leader::place::Place;
use crate::leader::wind::Wind;
use crate::strand::Strand;
use uom::si::f64::Length;
use uom::si::length::meter;

/// Where the tip is, seen from the place where the line enters the water; it goes down the stream with the rig.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reach {
    /// How far downstream the tip is, over the water; below nothing where it is upstream.
    pub along: Length,
    /// How high it is.
    pub tip: Length,
    /// The wind on the leader; without one the air does nothing to it.
    pub wind: Option<Wind>,
}

impl Reach {
    pub(crate) fn is_sound(&self) -> bool {
        let (along, tip) = (self.along.get::<meter>(), self.tip.get::<meter>());
        let wind = self.wind.is_none_or(|wind| wind.is_sound());
        along.is_finite() && along != 0.0 && tip.is_finite() && tip > 0.0 && wind
    }

    /// How far off the tip a leader ends, along the stream: it grows with the pull.
    pub(crate) fn missing(&self, line: &[Strand], pull: f64, load: f64, goes: f64) -> Option<f64> {
        let place = self.place(line, pull, load, goes)?;
        Some(place.along - self.along.get::<meter>())
    }

    /// Where a leader comes to the height of the tip, with the pull across that brings it there where wind blows
    /// across.
    pub(crate) fn place(&self, line: &[Strand], pull: f64, load: f64, goes: f64) -> Option<Place> {
        let tip = self.tip.get::<meter>();
        let Some(wind) = &self.wind else {
            return calm::at_tip(line, pull, load, tip);
        };
        let blown = self.blown(line, wind, goes);
        if wind.across == 0.0 {
            return blown.at_tip([pull, 0.0, load], |_| {});
        }
        let aside = aside(&blown, pull, load)?;
        blown.at_tip([pull, aside, load], |_| {})
    }

    pub(super) fn blown<'a>(&self, line: &'a [Strand], wind: &'a Wind, goes: f64) -> Blown<'a> {
        Blown {
            line,
            wind,
            goes: [goes, 0.0],
            tip: self.tip.get::<meter>(),
            long: 1.0,
        }
    }

    /// The pull across the stream that a leader has where it leaves the water.
    pub(crate) fn aside(&self, line: &[Strand], pull: f64, load: f64, goes: f64) -> Option<f64> {
        match &self.wind {
            Some(wind) if wind.across != 0.0 => aside(&self.blown(line, wind, goes), pull, load),
            Some(_) | None => Some(0.0),
        }
    }
}

/// The pull across at which the leader ends over the plane that it starts in.
pub(super) fn aside(blown: &Blown<'_>, pull: f64, load: f64) -> Option<f64> {
    let off = |aside: f64| {
        let place = blown.at_tip([pull, aside, load], |_| {});
        place.map_or(f64::NAN, |place| place.across)
    };
    let usual = crate::plane::size([pull, load]);
    let guess = usual * blown.wind.across.signum();
    let found = Bracket::about(off, guess, usual * FIRST_STEP)?.root(usual * TOLERANCE);
    Some(found)
}

/// How far the pull across is looked for at first, and how near it is found, in shares of the tension.
pub(super) const FIRST_STEP: f64 = 0.25;

pub(super) const TOLERANCE: f64 = 1e-6;
