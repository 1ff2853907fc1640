//! A stretch of a line put together from its leaves and what lies between:
//! spaces, commas, operators and joining words, each in its plain form.

use super::leaves::Leaf;
use crate::pieces::{Kind, Line, is_dash};
use snell_text::Span;

/// `within` of the line in its plain form. Its leaves are taken as they come,
/// those outside of it passed over.
pub(super) fn join(written: &str, within: Span, leaves: &[Leaf]) -> String {
    let mut joiner = Joiner::default();
    let mut at = within.start;
    for (span, new) in leaves.iter().filter(|(span, _)| within.holds(*span)) {
        joiner.between(Span::new(at, span.start).of(written));
        joiner.word(new);
        at = span.end;
    }
    joiner.between(Span::new(at, within.end).of(written));
    joiner.made
}

#[derive(Default)]
struct Joiner {
    made: String,
    /// Whether what comes next stands close.
    close: bool,
}

impl Joiner {
    /// Adds a word with the space before it.
    fn word(&mut self, word: &str) {
        if !self.made.is_empty() && !self.close {
            self.made.push(' ');
        }
        self.made.push_str(word);
        self.close = false;
    }

    /// Adds what stands between two leaves.
    fn between(&mut self, written: &str) {
        let line = Line::new(written);
        for piece in &line.pieces {
            match piece.kind {
                Kind::Sign(sign @ (',' | ')')) => {
                    self.made.push(sign);
                    self.close = false;
                }
                Kind::Sign('(') => {
                    // Right behind a name it opens what the name is asked of.
                    self.close = self.close || piece.span.start == 0;
                    self.word("(");
                    self.close = true;
                }
                Kind::Sign('×' | '*') => self.word("times"),
                Kind::Sign('÷') => self.word("/"),
                Kind::Sign(sign) if is_dash(sign) => self.word("-"),
                _ => self.word(&line.of(*piece).to_lowercase()),
            }
        }
    }
}
