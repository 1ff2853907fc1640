//! Slips with words: keys, joining words as names, conditions that break off.

use super::line::{Kind, Line, Piece, Shape, is_dash, short};
use super::slip::Slip;
use crate::vocabulary::{Joint, is_joining};
use snell_finding::Code;
use snell_text::Span;

/// A joining word where a name is wanted.
pub(super) fn kept(word: &str, span: Span) -> Slip {
    Slip::new(
        Code::WordKept,
        span,
        format!("`{word}` joins the parts of a line and cannot be a name."),
    )
    .help("choose another name, or make it part of one: low-water, on-it")
}

/// A line that begins with no word.
pub(super) fn key(line: &Line) -> Option<Slip> {
    let first = line.get(0)?;
    let is_list = match first.kind {
        Kind::Word => return None,
        Kind::Sign('•' | '*' | '+') => true,
        Kind::Sign(sign) if is_dash(sign) => true,
        Kind::Sign('#' | '(' | ')' | '/' | '÷' | '×' | '.' | ',' | '=') => false,
        Kind::Sign(_) => return None,
        Kind::Number | Kind::Mark | Kind::Text | Kind::Open | Kind::UnitSign => false,
    };
    let slip = Slip::new(
        Code::KeyMissing,
        first.span,
        format!("A line begins with a word, not with `{}`.", short(line.of(first))),
    );
    let word = line.get(1).filter(|next| is_list && next.kind == Kind::Word);
    Some(match word {
        Some(word) => {
            let bullet = Span::new(first.span.start, word.span.start);
            slip.help("lines need no list marks")
                .offer("leave the list mark out", bullet, "")
        }
        None if first.kind == Kind::Sign('#') => {
            slip.help("a comment begins with //")
                .offer("make it a comment", first.span, "//")
        }
        None => slip.help("begin with what the line is about: tippet 20 in, hook #14, note \"...\""),
    })
}

pub(super) fn check(line: &Line, at: usize, shape: Shape) -> Option<Slip> {
    let piece = line.get(at)?;
    if shape == Shape::Bind && at == 1 && piece.kind != Kind::Word {
        return Some(name_missing(line, piece));
    }
    if at == 0 || piece.kind != Kind::Word || !is_joining(line.of(piece)) || piece.glued {
        return None;
    }
    let word = line.of(piece);
    let lower = word.to_lowercase();
    match shape {
        Shape::Bind if at == 1 => Some(kept(word, piece.span)),
        Shape::Bind if lower != "times" && lower != "x" => Some(misplaced(line, piece)),
        Shape::Head if at == 1 || line.is_word(at - 1, &["from"]) => Some(kept(word, piece.span)),
        Shape::Head if lower == "from" && at == 2 => from(line, at, piece),
        Shape::Claim => claim(line, at, piece, &lower),
        Shape::Plain | Shape::Head if Joint::of(word).is_none() && lower != "times" && lower != "x" => {
            Some(misplaced(line, piece))
        }
        Shape::Head | Shape::Bind | Shape::Plain => None,
    }
}

fn name_missing(line: &Line, piece: Piece) -> Slip {
    let key = line.of(line.pieces[0]);
    Slip::new(
        Code::NameMissing,
        piece.span,
        format!("`{key}` gives a value a name, but no name stands here."),
    )
    .help(format!("write {key}, a name, and its value: {key} low = 2 ft"))
}

fn from(line: &Line, at: usize, piece: Piece) -> Option<Slip> {
    if line.get(at + 1).is_some_and(|base| base.kind == Kind::Word) {
        return None;
    }
    Some(
        Slip::new(
            Code::ValueMissing,
            piece.span,
            "`from` needs the name of a block behind it.",
        )
        .help("name the block to start from, or leave from out"),
    )
}

/// A joining word that joins nothing where it stands.
fn misplaced(line: &Line, piece: Piece) -> Slip {
    let word = line.of(piece);
    let slip = Slip::new(
        Code::WordMisplaced,
        piece.span,
        format!("`{word}` joins nothing in this line."),
    );
    let between = around(line, piece);
    match word.to_lowercase().as_str() {
        "and" | "or" => slip
            .help("values stand side by side, with or without commas")
            .offer("write a comma", between, ", "),
        "is" => slip.help("a key and its values stand side by side").offer(
            format!("leave {word} out"),
            between,
            " ",
        ),
        "from" => slip.help("from stands behind the name in the line that opens a block: rig b from a"),
        "between" | "under" => slip.help("conditions stand in expect, keep, when and unless lines"),
        _ => slip.help("take it out, or give it a line that it can join"),
    }
}

fn around(line: &Line, piece: Piece) -> Span {
    let before = line
        .pieces
        .iter()
        .rfind(|other| other.span.end <= piece.span.start);
    let after = line
        .pieces
        .iter()
        .find(|other| other.span.start >= piece.span.end);
    Span::new(
        before.map_or(piece.span.start, |before| before.span.end),
        after.map_or(piece.span.end, |after| after.span.start),
    )
}

fn claim(line: &Line, at: usize, piece: Piece, lower: &str) -> Option<Slip> {
    let count = |words: &[&str]| (1..at).filter(|index| line.is_word(*index, words)).count();
    let key = line.of(line.pieces[0]);
    match lower {
        "and" if count(&["between"]) <= count(&["and"]) => {
            let first = Span::new(line.pieces[0].span.start, line.pieces[at - 1].span.end);
            let second = Span::new(piece.span.end, line.end());
            let second = second.of(line.written).trim_start();
            Some(
                Slip::new(
                    Code::AndInCondition,
                    piece.span,
                    "`and` does not join conditions; each has a line of its own.",
                )
                .help(format!(
                    "write two lines: {} and {key} {second}",
                    first.of(line.written)
                )),
            )
        }
        "or" if count(&["is"]) == 0 => Some(
            Slip::new(
                Code::OrInCondition,
                piece.span,
                "`or` stands only between words behind `is`.",
            )
            .help("write a rule, or a line, for each case"),
        ),
        "and" | "or" | "is" | "between" | "at" | "over" | "under" | "times" | "x" => None,
        _ => Some(misplaced(line, piece)),
    }
}

/// A line that announces something and ends.
pub(super) fn unfinished(line: &Line, shape: Shape) -> Option<Slip> {
    let last = line.pieces.len().checked_sub(1)?;
    let piece = line.pieces[last];
    if shape == Shape::Bind && piece.kind == Kind::Sign('=') {
        return Some(
            Slip::new(
                Code::ValueMissing,
                piece.span,
                "No value stands behind the equals sign.",
            )
            .help("write the value: let low = 2 ft"),
        );
    }
    if shape != Shape::Claim {
        return None;
    }
    let joins = [
        "is", "not", "between", "and", "or", "at", "least", "most", "over", "under", "about",
    ];
    let slip = |span: Span| Slip::new(Code::ConditionUnfinished, span, "This condition breaks off.");
    if last > 0 && line.is_word(last, &joins) {
        return Some(slip(piece.span).help(format!("say what stands behind `{}`", line.of(piece))));
    }
    let between = (1..=last).find(|at| line.is_word(*at, &["between"]))?;
    let span = Span::new(line.pieces[between].span.start, line.end());
    let whole = (between..=last).any(|at| line.is_word(at, &["and"]));
    (!whole).then(|| slip(span).help("between needs both ends: between 15 and 17 ft"))
}
