//! What became of one line: it says nothing, it has a tree, or it is broken.

use crate::token::Token;
use crate::tree::{Form, Reading};
use snell_finding::Finding;
use snell_text::Span;
use std::sync::Arc;

/// What became of a line.
#[derive(Clone)]
pub(crate) enum Outcome {
    /// It says nothing: a comment, or a full stop alone.
    Empty(Arc<[Token]>),
    /// Its tree and extent, and the strict line that the tree is of where that is another.
    Sound(Arc<Form>, Span, Arc<[Token]>, Option<Arc<Reading>>),
    Broken(Arc<Broken>),
}

/// A line that could not be read.
pub(crate) struct Broken {
    pub(crate) tokens: Arc<[Token]>,
    pub(crate) finding: Finding,
    pub(crate) opens: Opens,
    /// The sign of a merge's mark, where the line is one.
    pub(crate) conflict: Option<char>,
}

/// What a broken line at the margin still opens, so that the lines below it do
/// not fall to the block above.
pub(crate) enum Opens {
    Nothing,
    /// A block without a name.
    Nameless,
    /// A block whose kind and name can be made out.
    Named(Arc<Form>, Span),
}
