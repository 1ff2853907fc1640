//! A half-typed line as far as the cursor, in words.
//!
//! It knows no table and no name.

use snell_syntax::{Joint, Token, TokenKind};
use snell_text::Span;

/// The words of a line before the cursor.
pub(super) struct Typed<'t> {
    /// Whether the line is indented.
    pub(super) indented: bool,
    /// Whole words, in order: what no space, comma or parenthesis parts.
    pub(super) words: Vec<&'t str>,
    /// The word that is being typed; empty behind a space.
    pub(super) half: &'t str,
    /// The dotted name before the half-typed word: `gap` of `gap.le`.
    pub(super) owner: Option<&'t str>,
    /// Whether the last whole word ends with a number.
    pub(super) number: bool,
    /// Whether a number stands behind the last `of`, or anywhere where there is none.
    pub(super) sized: bool,
}

impl<'t> Typed<'t> {
    /// `before` is the line up to the cursor. Nothing within a comment or a text, where nothing is offered.
    pub(super) fn of(before: &'t str) -> Option<Self> {
        let tokens = snell_syntax::tokens(before);
        let mut tokens = tokens.as_slice();
        let mut half = "";
        if let Some((last, whole)) = tokens.split_last() {
            if matches!(last.kind, TokenKind::Comment | TokenKind::Unclosed) {
                return None;
            }
            if is_word(last.kind) {
                (half, tokens) = (last.span.of(before), whole);
            }
        }
        Some(Self {
            indented: snell_syntax::is_indented(before),
            words: words(before, tokens),
            half,
            owner: owner(before, tokens),
            number: tokens
                .iter()
                .rfind(|token| token.kind != TokenKind::Space)
                .is_some_and(|token| is_number(token.kind)),
            sized: tokens
                .iter()
                .rev()
                .take_while(|token| Joint::of(token.span.of(before)) != Some(Joint::Of))
                .any(|token| token.kind == TokenKind::Number),
        })
    }

    pub(super) fn word(&self, index: usize) -> String {
        self.words
            .get(index)
            .map(|word| word.to_lowercase())
            .unwrap_or_default()
    }
}

/// Stretches of tokens with nothing between them.
fn words<'t>(before: &'t str, tokens: &[Token]) -> Vec<&'t str> {
    let parts = |token: &Token| matches!(token.kind, TokenKind::Space | TokenKind::Comma | TokenKind::Open);
    let stretches = tokens.split(parts);
    let span = |stretch: &[Token]| Some(stretch.first()?.span.to(stretch.last()?.span));
    stretches.filter_map(span).map(|span| span.of(before)).collect()
}

/// The dotted name that `tokens` end with, without its last dot.
fn owner<'t>(before: &'t str, tokens: &[Token]) -> Option<&'t str> {
    let is_dot = |token: &Token| {
        matches!(token.kind, TokenKind::Dot | TokenKind::Stop | TokenKind::Sign)
            && token.span.of(before) == "."
    };
    let (dot, path) = tokens.split_last().filter(|(last, _)| is_dot(last))?;
    let of_path = |token: &&Token| is_word(token.kind) || is_dot(token);
    let first = path.iter().rev().take_while(of_path).last()?;
    let owner = Span::new(first.span.start, dot.span.start);
    is_word(first.kind).then(|| owner.of(before))
}

fn is_word(kind: TokenKind) -> bool {
    match kind {
        TokenKind::Opener | TokenKind::Key | TokenKind::Given | TokenKind::Name => true,
        TokenKind::Joining | TokenKind::X | TokenKind::Unit | TokenKind::Word => true,
        TokenKind::Space
        | TokenKind::Comment
        | TokenKind::Operator
        | TokenKind::Number
        | TokenKind::Size
        | TokenKind::Day
        | TokenKind::Dash
        | TokenKind::Comma
        | TokenKind::Dot
        | TokenKind::Equals
        | TokenKind::Open
        | TokenKind::Close
        | TokenKind::Text
        | TokenKind::Stop
        | TokenKind::Mark
        | TokenKind::Symbol
        | TokenKind::Unclosed
        | TokenKind::Sign => false,
    }
}

fn is_number(kind: TokenKind) -> bool {
    matches!(kind, TokenKind::Number | TokenKind::Size | TokenKind::Day)
}
