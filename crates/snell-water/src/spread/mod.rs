//! How far what a rig comes to may be off: draws of what is not known well, through the solver.
//!
//! The same hundred draws for every rig, so that two rigs can be told apart by what is left of their errors when they are
//! taken off each other.

mod answer;
mod band;
mod drawn;
mod draws;
mod inputs;
mod paired;
mod surface;

use crate::drift::{Followed, NoDrift};
use crate::rig::Rig;
pub use answer::{Answer, Asked, Riding};
pub use band::Band;
pub use drawn::{Drawn, Shares};
pub use draws::{DRAWS, draws};
pub use inputs::{Input, Known, Uncertain};
pub use paired::Paired;

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

/// How many standard deviations each input is off.
type Off = [f64; draws::COLUMNS];

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

    /// One figure in all draws.
    pub fn figure(&self, figure: impl Fn(&Answer) -> Option<f64>) -> Drawn {
        let at = |answer: &Option<Answer>| answer.as_ref().and_then(&figure);
        Drawn {
            told: figure(&self.told),
            draws: self.draws.iter().map(at).collect(),
            apart: self.apart.iter().map(|[down, up]| [at(down), at(up)]).collect(),
        }
    }

    /// A figure's band; nothing where fewer than half of the draws have it.
    pub fn band(&self, figure: impl Fn(&Answer) -> Option<f64>) -> Option<Band> {
        self.figure(figure).band()
    }

    /// Which inputs a figure's variance comes from, the greatest first; see [`Drawn::shares`].
    pub fn shares(&self, figure: impl Fn(&Answer) -> Option<f64>) -> Shares {
        self.figure(figure).shares()
    }
}

#[cfg(test)]
mod tests;
