//! What a fit is of: the notebook, the water, and how the rig that is written is to be called.

use crate::fit::water::ToWater;
use crate::written::Units;
use snell_analysis::Notebook;
use snell_rules::Books;

/// The work on one rig after another.
pub(super) struct Fitting<'a, 'w, 'p> {
    pub(super) notebook: &'a Notebook,
    pub(super) books: &'a Books<'w, 'p>,
    pub(super) units: Units,
    pub(super) to: &'a ToWater,
    /// What a rig that is written is to be called.
    pub(super) name: Option<&'a str>,
    /// Where what was asked for was read.
    pub(super) text: snell_text::TextId,
}
