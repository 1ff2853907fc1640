//! How far what a rig comes to may be off: draws of what is not known well, through the solver.
//!
//! The same hundred draws for every rig, so that two rigs can be told apart by what is left of their errors when they are
//! taken off each other.

mod answer;
mod draws;
mod inputs;
mod surface;

use crate::drift::{Followed, NoDrift};
use crate::fly::Fly;
use crate::rig::Rig;
pub use answer::{Answer, Asked, Riding};
pub use draws::{DRAWS, draws};
pub use inputs::{Input, Known, Uncertain};

/// A rig in all its draws.
#[derive(Debug, Clone, PartialEq)]
pub struct Spread {
    /// As it is told.
    pub told: Answer,
    /// In each draw; nothing where it has no drift then.
    pub draws: Vec<Option<Answer>>,
    /// With each input a standard deviation down and up, in the order of [`Input::ALL`].
    pub apart: Vec<[Option<Answer>; 2]>,
}

/// A figure at 10, 50 and 90 % of its draws.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Band {
    /// One in ten lies below.
    pub low: f64,
    /// Half lie below.
    pub middle: f64,
    /// One in ten lies above.
    pub high: f64,
    /// Standard deviation.
    pub deviation: f64,
    /// Draws that have the figure.
    pub of: usize,
}

/// What one figure of two rigs on the same draws comes to when they are taken off each other.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Difference {
    /// The second less the first.
    pub band: Band,
    /// The share of the error of two figures that nobody paired which the same draws take out: 1 is all of it.
    pub cancels: f64,
}

/// How many standard deviations each input is off.
type Off = [f64; draws::COLUMNS];

/// A share of the variance of a figure, for the inputs that it comes from.
pub type Shares = Vec<(Input, f64)>;

impl Spread {
    /// Draws a rig.
    ///
    /// # Errors
    /// Where the rig as it is told has no drift.
    pub fn of(rig: &Rig, uncertain: &Uncertain, asked: &Asked) -> Result<Self, NoDrift> {
        let settled = rig.settles()?;
        let known = Followed::of(settled.shown(), &rig.stream);
        let answer = |off: &Off| {
            let drawn = uncertain.drawn(rig, off);
            let answer = Answer::near(&drawn, &known, asked)?;
            Some((drawn, answer))
        };
        let timed = |off: &Off| {
            let (drawn, mut answer) = answer(off)?;
            answer.sink = asked.sink_to.and_then(|share| answer.time(&drawn, share));
            Some(answer)
        };
        let one = |input: usize, off: f64| {
            let mut all = Off::default();
            all[input] = off;
            timed(&all)
        };
        let told = timed(&Off::default()).ok_or(NoDrift::Unsettled)?;
        let inputs = 0..Input::ALL.len();
        let apart: Vec<[Option<Answer>; 2]> =
            inputs.map(|input| [one(input, -1.0), one(input, 1.0)]).collect();
        let (rigs, mut draws): (Vec<Option<Rig>>, Vec<Option<Answer>>) =
            draws().iter().map(|off| answer(off).unzip()).unzip();
        if let Some(share) = asked.sink_to {
            let sinks: Vec<_> = rigs
                .iter()
                .zip(&draws)
                .map(|(rig, answer)| rig.as_ref().zip(answer.clone()))
                .collect();
            surface::fill(&mut draws, &told, &apart, |draw| {
                let (rig, answer) = sinks[draw].as_ref()?;
                answer.time(rig, share)
            });
        }
        Ok(Self { told, draws, apart })
    }

    /// A figure's band; nothing where fewer than half of the draws have it.
    pub fn band(&self, figure: impl Fn(&Answer) -> Option<f64>) -> Option<Band> {
        Band::of(self.draws.iter().map(|draw| draw.as_ref().and_then(&figure)))
    }

    /// The share of the draws in which something is so, of those that have a drift.
    pub fn chance(&self, so: impl Fn(&Answer) -> bool) -> f64 {
        let drifts = self.draws.iter().flatten();
        let (all, are) = drifts.fold((0, 0), |(all, are), draw| (all + 1, are + usize::from(so(draw))));
        if all == 0 { 0.0 } else { are as f64 / all as f64 }
    }

    /// Which inputs a figure's variance comes from, the greatest first; empty where nothing moves it. Each input is moved by
    /// itself, a standard deviation either way.
    pub fn shares(&self, figure: impl Fn(&Answer) -> Option<f64>) -> Shares {
        let told = figure(&self.told);
        let half = |[down, up]: &[Option<Answer>; 2]| {
            let at = |answer: &Option<Answer>| answer.as_ref().and_then(&figure).or(told);
            at(down).zip(at(up)).map_or(0.0, |(down, up)| (up - down) / 2.0)
        };
        let variances: Vec<f64> = self.apart.iter().map(|pair| half(pair) * half(pair)).collect();
        let whole: f64 = variances.iter().sum();
        if whole <= 0.0 {
            return Vec::new();
        }
        let mut shares: Shares = Input::ALL
            .into_iter()
            .zip(variances.iter().map(|part| part / whole))
            .collect();
        shares.sort_by(|a, b| b.1.total_cmp(&a.1));
        shares
    }

    /// What a figure of another rig is more than this one's, on the same draws.
    pub fn to(&self, other: &Self, figure: impl Fn(&Answer) -> Option<f64>) -> Option<Difference> {
        let at = |draw: &Option<Answer>| draw.as_ref().and_then(&figure);
        let both = self.draws.iter().zip(&other.draws);
        let band = Band::of(both.map(|(one, other)| Some(at(other)? - at(one)?)))?;
        let (one, other) = (self.band(&figure)?, other.band(&figure)?);
        let apart = (one.deviation * one.deviation + other.deviation * other.deviation).sqrt();
        let cancels = if apart > 0.0 {
            1.0 - band.deviation / apart
        } else {
            1.0
        };
        Some(Difference { band, cancels })
    }
}

impl Band {
    fn of(values: impl Iterator<Item = Option<f64>>) -> Option<Self> {
        let mut values: Vec<f64> = values.flatten().filter(|value| value.is_finite()).collect();
        if values.len() * 2 < DRAWS {
            return None;
        }
        values.sort_by(f64::total_cmp);
        let count = values.len() as f64;
        let mean = values.iter().sum::<f64>() / count;
        let squares: f64 = values.iter().map(|value| (value - mean) * (value - mean)).sum();
        Some(Self {
            low: at(&values, 0.1),
            middle: at(&values, 0.5),
            high: at(&values, 0.9),
            deviation: (squares / count).sqrt(),
            of: values.len(),
        })
    }

    /// What a figure of one fly by itself comes to in the draws of its drag and its mass.
    pub fn of_fly(fly: &Fly, uncertain: &Uncertain, figure: impl Fn(&Fly) -> Option<f64>) -> Option<Self> {
        Self::of(draws().iter().map(|off| figure(&uncertain.fly_drawn(fly, off))))
    }

    /// From the low end to the high one.
    pub fn width(&self) -> f64 {
        self.high - self.low
    }
}

/// A share of sorted values, straight between two of them.
fn at(sorted: &[f64], share: f64) -> f64 {
    let place = share * (sorted.len() - 1) as f64;
    let below = place.floor() as usize;
    let above = (below + 1).min(sorted.len() - 1);
    sorted[below] + (place - below as f64) * (sorted[above] - sorted[below])
}

#[cfg(test)]
mod tests;
