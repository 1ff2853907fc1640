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
        Some(Paired {
            band,
            agree: alike as f64 / band.of as f64,
        })
    }
}
