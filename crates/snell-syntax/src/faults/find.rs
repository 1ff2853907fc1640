//! The search for what is wrong with a line: piece by piece from the left,
//! the first sure slip wins.
//!
//! Every check here and in the modules beside it holds only where no sound
//! line could look so; how to read a line is the grammar's business alone.

use super::{Slip, punctuation, signs, text, words};
use crate::parse::Entry;
use crate::pieces::{Kind, Line};
use crate::token::Token;
use crate::tree::BlockKind;
use snell_text::Span;

/// What a line's first word makes of it.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Form {
    Head,
    Bind,
    Claim,
    Plain,
}

impl Form {
    fn of(line: &Line, entry: Entry) -> Self {
        let Some(first) = line.word(0) else {
            return Self::Plain;
        };
        match first.as_str() {
            "let" | "limit" => Self::Bind,
            "expect" | "keep" | "when" | "unless" => Self::Claim,
            word if entry == Entry::Margin && BlockKind::of(word).is_some() => Self::Head,
            _ => Self::Plain,
        }
    }
}

/// Looks for a slip at one piece of a line.
type Check = fn(&Line, usize, Form) -> Option<Slip>;

const CHECKS: [Check; 4] = [text::check, punctuation::check, words::check, signs::check];

/// The fault of a line that could not be read; `furthest` is the last place at
/// which the parser looked for a word.
pub(crate) fn find(written: &str, tokens: &[Token], furthest: u32, entry: Entry) -> Slip {
    let line = Line::new(written, tokens);
    let form = Form::of(&line, entry);
    let local = |at| CHECKS.iter().find_map(|check| check(&line, at, form));
    words::key(&line)
        .or_else(|| (0..line.pieces.len()).find_map(local))
        .or_else(|| punctuation::left_open(&line))
        .or_else(|| words::unfinished(&line, form))
        .unwrap_or_else(|| rest(&line, furthest, form))
}

/// The part of a broken line that names the block it was to open: its kind,
/// and its name where that can be made out. Nothing for any other line.
pub(crate) fn head(written: &str, tokens: &[Token]) -> Option<Span> {
    let line = Line::new(written, tokens);
    BlockKind::of(&line.word(0)?)?;
    let [kind, name, ..] = line.pieces[..] else {
        return None;
    };
    let goes_on =
        |piece: Kind, at: usize| matches!(piece, Kind::Text | Kind::Open) || line.is_word(at, &["from"]);
    let named = name.kind == Kind::Word && !words::is_kept(line.of(name));
    if named && line.get(2).is_none_or(|next| goes_on(next.kind, 2)) {
        return Some(Span::new(0, name.span.end));
    }
    goes_on(name.kind, 1).then(|| Span::new(0, kind.span.end))
}

/// No slip that is known: the line as far as it makes sense.
fn rest(line: &Line, furthest: u32, form: Form) -> Slip {
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
            "line-unreadable",
            Span::empty(furthest),
            "This line cannot be read.",
        );
    };
    if matches!(form, Form::Bind | Form::Claim) && at > 2 && piece.kind != Kind::Open {
        let span = Span::new(piece.span.start, line.end());
        let key = line.of(line.pieces[0]);
        return Slip::new(
            "value-extra",
            span,
            format!(
                "The {key} line is complete before `{}`.",
                short(span.of(line.written))
            ),
        )
        .help("join the values with + - / or times, or write a line of its own");
    }
    Slip::new(
        "line-unreadable",
        piece.span,
        format!("The line cannot be read from `{}` on.", short(line.of(piece))),
    )
    .help("a line is a key, its values, then parts that a joining word opens: of, to, with, as, on, at ...")
}

/// At most so much as fits into a message.
pub(super) fn short(words: &str) -> String {
    match words.char_indices().nth(30) {
        Some((at, _)) => format!("{}…", &words[..at]),
        None => words.to_owned(),
    }
}
