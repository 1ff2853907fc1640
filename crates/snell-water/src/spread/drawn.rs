//! One figure in all draws: its band, its chances, and what moves it.

use super::band::Band;
use super::draws::{COLUMNS, DRAWS, draws};
use super::inputs::{Input, Uncertain};
use crate::fly::Fly;
use snell_units::in_order;

/// A share of the variance of a figure, for the inputs that it comes from.
pub type Shares = Vec<(Input, f64)>;

/// One figure of a rig or a fly in each of the draws.
#[derive(Debug, Clone, PartialEq)]
pub struct Drawn {
    /// As it is told.
    pub(super) told: Option<f64>,
    /// In each draw; nothing where it has none then.
    pub(super) draws: Vec<Option<f64>>,
    /// With each input a standard deviation down and up, in the order of [`Input::ALL`].
    pub(super) apart: Vec<[Option<f64>; 2]>,
}

impl Drawn {
    /// A figure of one fly by itself in the draws of its drag and its mass.
    pub fn of_fly(fly: &Fly, uncertain: &Uncertain, figure: impl Fn(&Fly) -> Option<f64>) -> Self {
        let with = |off: &[f64; COLUMNS]| figure(&uncertain.fly_drawn(fly, off));
        let one = |input: usize, off: f64| {
            let mut all = [0.0; COLUMNS];
            all[input] = off;
            with(&all)
        };
        Self {
            told: figure(fly),
            draws: draws().iter().map(with).collect(),
            apart: (0..COLUMNS)
                .map(|input| [one(input, -1.0), one(input, 1.0)])
                .collect(),
        }
    }

    /// Its band; nothing where fewer than half of the draws have the figure.
    pub fn band(&self) -> Option<Band> {
        Band::of(self.draws.iter().copied())
    }

    /// The share of all draws in which it is at most so much; good to 0.06, held against two thousand random draws. A draw without the figure lies on no side: what never gets
    /// down is not down in time.
    pub fn chance_below(&self, limit: f64) -> f64 {
        self.chance(|value| value <= limit)
    }

    /// The share of all draws in which it is at least so much; as for [`Self::chance_below`].
    pub fn chance_above(&self, limit: f64) -> f64 {
        self.chance(|value| value >= limit)
    }

    fn chance(&self, so: impl Fn(f64) -> bool) -> f64 {
        let are = self.draws.iter().flatten().filter(|value| so(**value)).count();
        are as f64 / DRAWS as f64
    }

    /// Which inputs its variance comes from, the greatest first; empty where nothing moves it. Each input is moved by itself,
    /// a standard deviation either way.
    pub fn shares(&self) -> Shares {
        let half = |[down, up]: &[Option<f64>; 2]| {
            let (down, up) = (down.or(self.told), up.or(self.told));
            down.zip(up).map_or(0.0, |(down, up)| (up - down) / 2.0)
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
        in_order(&mut shares, |a, b| b.1.total_cmp(&a.1));
        shares
    }

    /// The input that its variance comes from more than from any other, with its share; nothing where nothing moves it.
    pub fn dominated_by(&self) -> Option<(Input, f64)> {
        self.shares().first().copied()
    }
}
