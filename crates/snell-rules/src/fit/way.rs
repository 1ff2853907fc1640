//! A way to make a rig right, and who is told how far the search is.

use crate::fit::change::Change;

/// A set of changes that was found.
#[derive(Clone, Debug)]
pub struct Way {
    /// The changes, those of the line first.
    pub changes: Vec<Change>,
}

/// How far a fit is: how much work it has done, and how much it does at the most.
pub type Told<'t> = &'t mut dyn FnMut(usize, usize);
