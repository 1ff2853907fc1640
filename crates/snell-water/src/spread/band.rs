//! Between what a figure lies over its draws.

use super::draws::DRAWS;
use snell_units::in_order;

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

impl Band {
    /// The band of some values; nothing where fewer than half of the draws have one.
    pub(super) fn of(values: impl Iterator<Item = Option<f64>>) -> Option<Self> {
        let mut values: Vec<f64> = values.flatten().filter(|value| value.is_finite()).collect();
        if values.len() * 2 < DRAWS {
            return None;
        }
        in_order(&mut values, f64::total_cmp);
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

    /// From the low end to the high one.
    pub fn width(&self) -> f64 {
        self.high - self.low
    }
}

/// A share of sorted values, straight between two of them.
pub(super) fn at(sorted: &[f64], share: f64) -> f64 {
    let place = share * (sorted.len() - 1) as f64;
    let below = place.floor() as usize;
    let above = (below + 1).min(sorted.len() - 1);
    sorted[below] + (place - below as f64) * (sorted[above] - sorted[below])
}
