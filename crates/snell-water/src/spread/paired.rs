//! A figure of one rig taken off that of another, draw by draw, so that the errors that they share cancel.

use super::band::Band;
use super::drawn::Drawn;

/// What a figure of one rig is more than that of another.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Paired {
    /// The difference.
    pub band: Band,
    /// The share of the draws that have the sign of the middle one: 1 where it is sure which of the two is more, a half
    /// where it may be either.
    pub agree: f64,
    /// The share of the error of two figures that nobody paired which the same draws take out: 1 is all of it.
    pub cancels: f64,
}

impl Drawn {
    /// What it is more than another figure in each draw; nothing where fewer than half of the draws have both.
    pub fn over(&self, other: &Self) -> Option<Paired> {
        let both = || self.draws.iter().zip(&other.draws);
        let differences = || both().map(|(one, other)| Some((*one)? - (*other)?));
        let band = Band::of(differences())?;
        let told = differences()
            .flatten()
            .filter(|difference| difference.is_finite());
        let alike = told.filter(|difference| difference * band.middle > 0.0).count();
        let (one, from) = (self.band()?, other.band()?);
        let apart = (one.deviation * one.deviation + from.deviation * from.deviation).sqrt();
        Some(Paired {
            cancels: if apart > 0.0 {
                1.0 - band.deviation / apart
            } else {
                1.0
            },
            band,
            agree: alike as f64 / band.of as f64,
        })
    }
}
