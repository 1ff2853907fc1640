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
mod sinks;
mod surface;

use crate::drift::{Followed, State};
use crate::rig::Rig;
use answer::Needed;
pub use answer::{Answer, Riding};
pub use band::Band;
pub use drawn::{Drawn, Shares};
pub use draws::{DRAWS, draws};
pub use inputs::{Input, Known, Uncertain};
pub use paired::Paired;
use uom::si::f64::Length;

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

/// Each input by itself a standard deviation down and up.
fn one_by_one() -> impl Iterator<Item = [Off; 2]> {
    (0..draws::COLUMNS).map(|input| {
        [-1.0, 1.0].map(|off| {
            let mut all = Off::default();
            all[input] = off;
            all
        })
    })
}

impl Spread {
    /// Draws a rig in one of its states.
    pub fn of(rig: &Rig, state: &State, uncertain: &Uncertain) -> Self {
        let known = Followed::of(state, &rig.stream);
        let near = |off: &Off| Answer::near(&uncertain.drawn(rig, off), &known);
        Self {
            told: Answer::in_state(state),
            draws: draws().iter().map(near).collect(),
            apart: one_by_one().map(|pair| pair.map(|off| near(&off))).collect(),
        }
    }

    /// The same with the line that each draw needs to hold its point at a height over the bed.
    #[must_use]
    pub fn with_needed(mut self, rig: &Rig, state: &State, uncertain: &Uncertain, height: Length) -> Self {
        let needed = Needed::at(height, rig, state);
        self.told.needed = needed.of(rig);
        let apart = self.apart.iter_mut().flatten().zip(one_by_one().flatten());
        let drawn = self.draws.iter_mut().zip(draws().iter().copied());
        for (answer, off) in drawn.chain(apart) {
            if let Some(answer) = answer {
                answer.needed = needed.of(&uncertain.drawn(rig, &off));
            }
        }
        self
    }

    /// The same with how long each draw takes to sink to a share of the depth at which its point rides.
    #[must_use]
    pub fn with_sinks(mut self, rig: &Rig, uncertain: &Uncertain, share: f64) -> Self {
        let time = |off: &Off, answer: &Answer, long| answer.time(&uncertain.drawn(rig, off), share, long);
        self.told.sink = self.told.time(rig, share, 1.0);
        for (pair, offs) in self.apart.iter_mut().zip(one_by_one()) {
            for (answer, off) in pair.iter_mut().zip(offs) {
                if let Some(answer) = answer {
                    answer.sink = time(&off, answer, 1.0);
                }
            }
        }
        let answers = self.draws.clone();
        sinks::fill(&mut self.draws, &self.told, &self.apart, |draw, long| {
            time(&draws()[draw], answers[draw].as_ref()?, long)
        });
        self
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
