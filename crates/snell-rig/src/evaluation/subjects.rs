//! Where a condition stands, and so what its names mean.

use super::core::Evaluation;
use super::paths::Meaning;
use crate::evaluate::Scope;
use crate::lack::Lack;
use crate::project::LineRef;
use snell_syntax::Word;

/// Where a condition stands: what its names mean.
pub trait Subjects<'p>: Scope {
    /// What a dotted name means.
    ///
    /// # Errors
    /// It means nothing, which has been reported.
    fn meaning(&self, line: LineRef<'_>, path: &[Word]) -> Result<Meaning, Lack>;

    /// The rig that is asked.
    fn evaluation(&self) -> &Evaluation<'_, 'p>;
}

impl<'p> Subjects<'p> for Evaluation<'_, 'p> {
    fn meaning(&self, line: LineRef<'_>, path: &[Word]) -> Result<Meaning, Lack> {
        Evaluation::meaning(self, line, path)
    }

    fn evaluation(&self) -> &Evaluation<'_, 'p> {
        self
    }
}
