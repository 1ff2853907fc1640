//! A line whose values have found their places.

use crate::keywords::{Row, Take};
use crate::project::LineRef;
use snell_syntax::{Clause, Expr, Joint, Plain, Text};
use snell_text::{Place, Span};

/// A value in its place.
#[derive(Clone, Copy, Debug)]
pub struct Fit<'p> {
    /// The clause that it stands in; `None` before the first.
    pub joint: Option<Joint>,
    /// What it was taken as.
    pub take: Take,
    /// The value.
    pub expr: &'p Expr,
    /// The line that it stands in.
    pub line: LineRef<'p>,
}

impl Fit<'_> {
    /// Where the value stands.
    pub fn place(&self) -> Place {
        self.line.place(self.expr.span)
    }
}

/// A line whose values have found their places.
#[derive(Clone, Debug)]
pub struct Given<'p> {
    /// The row that it was held against.
    pub row: &'static Row,
    /// The line.
    pub line: LineRef<'p>,
    /// Its values.
    pub fits: Vec<Fit<'p>>,
    /// Its clauses, also those without values.
    pub joints: Vec<Joint>,
    /// Its text: the line's own, or that of a clause.
    pub text: Option<Text>,
    /// Whether something did not fit, which has been reported.
    pub faulty: bool,
}

impl<'p> Given<'p> {
    /// The value taken as `take` before the first clause.
    pub fn get(&self, take: Take) -> Option<Fit<'p>> {
        self.all(None, take).next()
    }

    /// The value taken as `take` in the clause that `joint` opens.
    pub fn within(&self, joint: Joint, take: Take) -> Option<Fit<'p>> {
        self.all(Some(joint), take).next()
    }

    /// Every value taken as `take` in a clause, or before the first.
    pub fn all(&self, joint: Option<Joint>, take: Take) -> impl Iterator<Item = Fit<'p>> + '_ {
        self.fits
            .iter()
            .filter(move |fit| fit.joint == joint && fit.take == take)
            .copied()
    }

    /// Its values before the first clause, as they are written.
    pub fn written_values(&self) -> String {
        let own = self.fits.iter().filter(|fit| fit.joint.is_none());
        let words: Vec<&str> = own.map(|fit| fit.line.written(fit.expr.span)).collect();
        words.join(" ")
    }

    /// Whether a clause stands there.
    pub fn has(&self, joint: Joint) -> bool {
        self.joints.contains(&joint)
    }
}

/// The values of one line, however it is written.
#[derive(Clone, Copy)]
pub struct Values<'p> {
    /// Before the first clause.
    pub items: &'p [Expr],
    /// Clauses.
    pub clauses: &'p [Clause],
    /// The text at the end of the values.
    pub text: Option<Text>,
    /// The words that stand for the line where nothing better does.
    pub span: Span,
}

impl<'p> From<&'p Plain> for Values<'p> {
    fn from(plain: &'p Plain) -> Self {
        Self {
            items: &plain.items,
            clauses: &plain.clauses,
            text: plain.text,
            span: plain.key.span,
        }
    }
}
