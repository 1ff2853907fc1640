//! Slips with texts in quotes: left open, not last, where none belongs.

use super::line::{Kind, Line, Piece, Shape, short};
use super::slip::Slip;
use crate::layout::is_space;
use crate::vocabulary::Joint;
use snell_finding::Code;
use snell_text::Span;

pub(super) fn check(line: &Line, at: usize, shape: Shape) -> Option<Slip> {
    let piece = line.get(at)?;
    match piece.kind {
        Kind::Open => Some(open(line, piece)),
        Kind::Text if at + 1 < line.pieces.len() => Some(not_last(line, at, piece, shape)),
        Kind::Text if matches!(shape, Shape::Bind | Shape::Claim) || is_bare_change(line) => Some(
            Slip::new(
                Code::TextMisplaced,
                piece.span,
                format!("A {} line takes values, no text.", line.of(line.pieces[0])),
            )
            .help("words for people stand in a note line, or behind // as a comment"),
        ),
        Kind::Text | Kind::Word | Kind::Number | Kind::Mark | Kind::UnitSign | Kind::Sign(_) => None,
    }
}

/// A `change` line without a clause that a text could belong to.
fn is_bare_change(line: &Line) -> bool {
    let joints = (1..line.pieces.len()).filter_map(|at| Joint::of(&line.word(at)?));
    line.is_word(0, &["change"]) && joints.count() <= 1
}

fn open(line: &Line, piece: Piece) -> Slip {
    let written = line.of(piece);
    let close = match written.chars().next() {
        Some('“' | '„') => "”",
        Some('«') => "»",
        Some('»') => "«",
        _ => "\"",
    };
    let slip = Slip::new(Code::QuoteOpen, piece.span, "This quote is never closed.")
        .help("close it at the end of the text, on the same line");
    let at_end = Span::empty(piece.span.end);
    match written.find("//") {
        // Inside a word it is a slip of the hand.
        None if piece.glued => slip.offer("close the quote", at_end, close),
        None => slip.sure("close the quote", at_end, close),
        Some(comment) => {
            let text = written[..comment].trim_end_matches(is_space);
            let before = Span::empty(piece.span.start + text.len() as u32);
            slip.offer("close the quote before the comment", before, close)
                .offer("close the quote at the end of the line", at_end, close)
        }
    }
}

fn not_last(line: &Line, at: usize, piece: Piece, shape: Shape) -> Slip {
    let behind = Span::new(line.pieces[at + 1].span.start, line.end());
    let title = line.of(piece);
    let rest = behind.of(line.written);
    let swapped = format!("{rest} {title}");
    let both = piece.span.to(behind);
    if shape == Shape::Head && line.is_word(at + 1, &["from"]) {
        return Slip::new(
            Code::TitleBeforeFrom,
            both,
            "The title stands last in this line, behind `from` and its name.",
        )
        .help(format!("write: {}", short(&swapped)))
        .offer("put the title last", both, swapped);
    }
    Slip::new(
        Code::TextNotLast,
        behind,
        format!(
            "`{}` stands behind the closing quote, but a text ends its line.",
            short(rest)
        ),
    )
    .help("put it before the text, or inside the quotes")
    .offer("put the text last", both, swapped)
}
