//! The search for what is wrong with a line: piece by piece from the left,
//! the first sure slip wins.
//!
//! Every check here and in the modules beside it holds only where no sound
//! line could look so; how to read a line is the grammar's business alone.

use super::line::{Kind, Line, Shape, short};
use super::slip::Slip;
use super::{punctuation, signs, text, words};
use crate::number::Misread;
use crate::parse::Entry;
use crate::token::Token;
use snell_finding::Code;
use snell_text::Span;

/// Looks for a slip at one piece of a line.
type Check = fn(&Line, usize, Shape) -> Option<Slip>;

const CHECKS: [Check; 4] = [text::check, punctuation::check, words::check, signs::check];

/// The fault of a line that could not be read; `furthest` is the last place at
/// which the parser looked for a word.
pub(crate) fn find(written: &str, tokens: &[Token], furthest: u32, entry: Entry) -> Slip {
    let line = Line::new(written, tokens);
    let shape = Shape::of(&line, entry);
    let local = |at| CHECKS.iter().find_map(|check| check(&line, at, shape));
    words::key(&line)
        .or_else(|| (0..line.pieces.len()).find_map(local))
        .or_else(|| punctuation::left_open(&line))
        .or_else(|| words::unfinished(&line, shape))
        .unwrap_or_else(|| rest(&line, furthest, shape))
}

/// The fault of a quantity without a value.
pub(crate) fn of_number(bad: &Misread, written: &str, tokens: &[Token], entry: Entry) -> Slip {
    match *bad {
        Misread::Malformed(span) => find(written, tokens, span.start, entry),
        Misread::OverZero(span) => Slip::over_zero(span),
        Misread::TooLarge(span) => Slip::too_large(span),
        Misread::ThirdEnd(span) => Slip::new(Code::SpreadUnclear, span, "This spread has a third end.")
            .help("a spread has a lower and an upper end: 2 ft to 3 ft"),
    }
}

/// No slip that is known: the line as far as it makes sense.
fn rest(line: &Line, furthest: u32, shape: Shape) -> Slip {
    let at = line.pieces.iter().position(|piece| piece.span.end > furthest);
    let at = at.unwrap_or(line.pieces.len().saturating_sub(1));
    // A comma is sound; what stands behind it is not.
    let is_comma = line.get(at).is_some_and(|piece| piece.kind == Kind::Sign(','));
    let at = if is_comma && at + 1 < line.pieces.len() {
        at + 1
    } else {
        at
    };
    let Some(piece) = line.get(at) else {
        return Slip::new(
            Code::LineUnreadable,
            Span::empty(furthest),
            "This line cannot be read.",
        );
    };
    if matches!(shape, Shape::Bind | Shape::Claim) && at > 2 && piece.kind != Kind::Open {
        let span = Span::new(piece.span.start, line.end());
        let key = line.of(line.pieces[0]);
        return Slip::new(
            Code::ValueExtra,
            span,
            format!(
                "The {key} line is complete before `{}`.",
                short(span.of(line.written))
            ),
        )
        .help("join the values with + - / or times, or write a line of its own");
    }
    Slip::new(
        Code::LineUnreadable,
        piece.span,
        format!("The line cannot be read from `{}` on.", short(line.of(piece))),
    )
    .help("a line is a key, its values, then parts that a joining word opens: of, to, with, as, on, at ...")
}
