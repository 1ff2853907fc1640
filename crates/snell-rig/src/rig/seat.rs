//! How far over the flies a shot or a float sits, where its line says so.

use crate::fit::{Fit, Given};
use crate::keywords::{SitsOver, Take};
use crate::thing::{SectionId, ShotId};
use snell_syntax::Joint;

/// A distance over something that lies lower on the line.
#[derive(Clone, Copy, Debug)]
pub struct Seat<'p> {
    /// How far.
    pub distance: Fit<'p>,
    /// Over what.
    pub over: SitsOver,
}

/// Where on the line that is.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Below {
    /// The upper end of a piece, or the end of the line.
    Place(SectionId),
    /// A shot.
    Shot(ShotId),
}

impl<'p> Seat<'p> {
    /// What a line says of it; over the point, where it names nothing else.
    pub(super) fn read(given: &Given<'p>) -> Option<Self> {
        let distance = given.within(Joint::At, Take::Length)?;
        let over = given.within(Joint::Over, Take::Word(SitsOver::WORDS));
        let over = over.and_then(|fit| SitsOver::of(fit.line.written(fit.expr.span)));
        Some(Self {
            distance,
            over: over.unwrap_or(SitsOver::Point),
        })
    }
}
