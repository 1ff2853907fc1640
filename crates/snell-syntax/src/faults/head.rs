//! What a broken line at the margin still opens, so that the lines below it do
//! not fall to the block above.

use super::line::{Kind, Line};
use crate::token::Token;
use crate::vocabulary::{BlockKind, is_joining};
use snell_text::Span;

/// A broken head: what it opens, and where its name stands if that can be made out.
pub(crate) struct BrokenHead {
    pub(crate) kind: BlockKind,
    pub(crate) kind_span: Span,
    pub(crate) name: Option<Span>,
}

/// The block that a broken line was to open. Nothing for any other line.
pub(crate) fn head(written: &str, tokens: &[Token]) -> Option<BrokenHead> {
    let line = Line::new(written, tokens);
    let kind = BlockKind::of(&line.word(0)?)?;
    let goes_on = |at: usize| match line.get(at) {
        Some(piece) => matches!(piece.kind, Kind::Text | Kind::Open) || line.is_word(at, &["from"]),
        None => true,
    };
    let (kind_span, next) = (line.get(0)?.span, line.get(1)?);
    let named = next.kind == Kind::Word && !is_joining(line.of(next)) && goes_on(2);
    (named || goes_on(1)).then_some(BrokenHead {
        kind,
        kind_span,
        name: named.then_some(next.span),
    })
}
