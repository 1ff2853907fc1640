//! Slips with commas, full stops, colons, equals signs and parentheses, and
//! characters that the language has no use for.

use super::line::{Kind, Line, Piece, Shape, is_dash};
use super::slip::Slip;
use crate::vocabulary::{Joint, is_joining};
use snell_finding::Code;
use snell_text::Span;

pub(super) fn check(line: &Line, at: usize, shape: Shape) -> Option<Slip> {
    let piece = line.get(at)?;
    let Kind::Sign(sign) = piece.kind else {
        return None;
    };
    match sign {
        ',' => comma(line, at, piece),
        '.' => full_stop(line, at, piece, shape),
        '(' => opened(line, at, piece, shape),
        ')' => closed(line, at, piece),
        '>' | '<' | '≥' | '≤' => Some(comparison(line, at, piece)),
        '=' => equals(line, at, piece, shape),
        ':' => Some(colon(line, at, piece)),
        '#' | '+' | '/' | '÷' | '*' | '×' => None,
        sign if is_dash(sign) => None,
        sign => Some(unknown(piece, sign)),
    }
}

/// What is left when `piece` goes: the space before it goes too.
fn without(line: &Line, at: usize) -> Span {
    let before = line.before(at).map_or(0, |before| before.span.end);
    Span::new(before, line.pieces[at].span.end)
}

/// From the end of the piece before to the start of the one behind.
fn around(line: &Line, at: usize) -> Span {
    let gone = without(line, at);
    let next = line.get(at + 1).map_or(gone.end, |next| next.span.start);
    Span::new(gone.start, next)
}

fn comma(line: &Line, at: usize, piece: Piece) -> Option<Slip> {
    let reason = match line.get(at + 1).map(|next| next.kind) {
        None => "Nothing stands behind this comma.",
        Some(Kind::Sign(',')) => "Two commas stand here for one.",
        Some(Kind::Sign(')' | '.')) => "Nothing stands between this comma and what closes the values.",
        Some(Kind::Text | Kind::Open) => "No comma stands before a text.",
        _ if line
            .before(at)
            .is_some_and(|before| before.kind == Kind::Sign('(')) =>
        {
            "Nothing stands before this comma."
        }
        _ => return None,
    };
    Some(
        Slip::new(Code::CommaMisplaced, piece.span, reason)
            .help("leave the comma out")
            .sure("leave the comma out", without(line, at), ""),
    )
}

fn full_stop(line: &Line, at: usize, piece: Piece, shape: Shape) -> Option<Slip> {
    let before = line.before(at).filter(|_| piece.glued);
    let after = line.glued_after(at);
    let is_path = after.is_some_and(|after| after.kind == Kind::Word)
        && before.is_some_and(|before| before.kind == Kind::Word);
    if is_path {
        let dotted = line.pieces[at - 1].span.to(line.pieces[at + 1].span);
        let written = dotted.of(line.written);
        if at == 1 {
            return Some(
                Slip::new(
                    Code::KeyMissing,
                    dotted,
                    format!("`{written}` cannot begin a line."),
                )
                .help("a line begins with one word that says what it is about: set, keep, mend ..."),
            );
        }
        if at == 2 && shape == Shape::Bind {
            return Some(
                Slip::new(
                    Code::NameMissing,
                    dotted,
                    format!("`{written}` cannot be given a value here."),
                )
                .help("a name of your own has no full stop in it; a hyphen may stand there")
                .offer("join it with a hyphen", piece.span, "-"),
            );
        }
        let name = line.pieces[at + 1];
        return is_joining(line.of(name)).then(|| super::words::kept(line.of(name), name.span));
    }
    if at + 1 == line.pieces.len() {
        return None;
    }
    let span = before.map_or(piece.span, |before| before.span.to(piece.span));
    let slip = Slip::new(
        Code::FullStopInside,
        span,
        "A full stop may end a line but not stand inside it.",
    );
    // `1.-5 ft` may be a spread, and `1.5 ft` as well.
    let is_dash = |next: Piece| matches!(next.kind, Kind::Sign('-' | '–' | '—' | '−'));
    if before.is_some_and(|before| before.kind == Kind::Number) && line.glued_after(at).is_some_and(is_dash) {
        return Some(slip.help("leave the full stop out of a spread, or the dash out of a number"));
    }
    let stops = (at..line.pieces.len() - 1).filter(|at| is_stray_stop(line, *at));
    let space = |at: usize| if line.glued_after(at).is_some() { " " } else { "" };
    let edits = stops.map(|at| (line.pieces[at].span, space(at).to_owned()));
    Some(
        slip.help("leave it out; units and keys are written without one")
            .sure_edits("leave the full stop out", edits),
    )
}

fn is_stray_stop(line: &Line, at: usize) -> bool {
    let joins_a_path =
        line.pieces[at].glued && line.glued_after(at).is_some_and(|next| next.kind == Kind::Word);
    line.pieces[at].kind == Kind::Sign('.') && !joins_a_path
}

fn equals(line: &Line, at: usize, piece: Piece, shape: Shape) -> Option<Slip> {
    // Behind `let` itself it is the name that is missing.
    if shape == Shape::Bind && at <= 2 {
        return None;
    }
    let slip = Slip::new(
        Code::EqualsMisplaced,
        piece.span,
        "Only let and limit lines take an equals sign.",
    );
    let is_word = |piece: Option<Piece>| piece.is_some_and(|piece| piece.kind == Kind::Word);
    let within = piece.glued && line.glued_after(at).is_some();
    let splits = within && (at > 1 || is_word(line.before(at)) && is_word(line.get(at + 1)));
    Some(if splits {
        slip.help("leave it out")
            .offer("leave the equals sign out", piece.span, "")
    } else if shape == Shape::Claim {
        slip.help("conditions are written in words: method is dry, total about 15 ft")
            .offer("write is", around(line, at), " is ")
            .offer("write about", around(line, at), " about ")
    } else {
        slip.help("put the value right behind its key").sure(
            "leave the equals sign out",
            around(line, at),
            " ",
        )
    })
}

fn comparison(line: &Line, at: usize, piece: Piece) -> Slip {
    let equal = line.glued_after(at).filter(|next| next.kind == Kind::Sign('='));
    let words = match (piece.kind, equal) {
        (Kind::Sign('>'), None) => "over",
        (Kind::Sign('<'), None) => "under",
        (Kind::Sign('>' | '≥'), _) => "at least",
        _ => "at most",
    };
    let last = if equal.is_some() { at + 1 } else { at };
    let span = piece.span.to(line.pieces[last].span);
    Slip::new(
        Code::ComparisonInSigns,
        span,
        format!("`{}` is written in words.", span.of(line.written)),
    )
    .help(format!("write {words}"))
    .sure(
        format!("write {words}"),
        around(line, at).to(around(line, last)),
        format!(" {words} "),
    )
}

fn colon(line: &Line, at: usize, piece: Piece) -> Slip {
    let slip = Slip::new(
        Code::ColonMisplaced,
        piece.span,
        "No colon stands in a line outside of a text.",
    );
    if at == 1 {
        slip.help("put the values right behind the key")
            .sure("leave the colon out", around(line, at), " ")
    } else {
        slip.help("leave it out")
            .offer("leave the colon out", around(line, at), " ")
    }
}

fn opened(line: &Line, at: usize, piece: Piece, shape: Shape) -> Option<Slip> {
    let inside = line.get(at + 1);
    if let Some(close) = inside.filter(|next| next.kind == Kind::Sign(')')) {
        return Some(
            Slip::new(
                Code::ParenthesisEmpty,
                piece.span.to(close.span),
                "Nothing stands in these parentheses.",
            )
            .help("put a value between them, or leave them out"),
        );
    }
    let before = line.before(at)?;
    if piece.glued && matches!(before.kind, Kind::Number | Kind::Mark) {
        return Some(
            Slip::new(
                Code::OperatorMissing,
                before.span.to(piece.span),
                "Nothing says how these two values are joined.",
            )
            .help("put times, /, + or - between them")
            .offer("multiply them", Span::empty(piece.span.start), " times "),
        );
    }
    let close = closing(line, at)?;
    let is_name = before.kind == Kind::Word && !piece.glued && at > 1 && !is_joining(line.of(before));
    let is_unit = at >= 2 && line.pieces[at - 2].kind == Kind::Number;
    let several = has_comma(line, at, close);
    if !is_name || is_unit || !(several || matches!(shape, Shape::Bind | Shape::Claim)) {
        return None;
    }
    let name = line.of(before);
    let span = before.span.to(line.pieces[close].span);
    let gap = Span::new(before.span.end, piece.span.start);
    let slip = Slip::new(
        Code::CallApart,
        span,
        format!("A space stands between {name} and its parentheses."),
    )
    .help(format!("write {name}( close together"));
    Some(if several || matches!(name, "min" | "max") {
        slip.sure("close the gap", gap, "")
    } else {
        slip.offer("close the gap", gap, "")
    })
}

fn closed(line: &Line, at: usize, piece: Piece) -> Option<Slip> {
    let sign = |sign: char| {
        let is = move |piece: &&Piece| piece.kind == Kind::Sign(sign);
        line.pieces[..=at].iter().filter(is).count()
    };
    if sign(')') > sign('(') {
        return Some(
            Slip::new(
                Code::ParenthesisClosed,
                piece.span,
                "This parenthesis closes none.",
            )
            .help("leave it out, or open one before it")
            .offer("leave it out", piece.span, ""),
        );
    }
    let next = line.glued_after(at)?;
    matches!(next.kind, Kind::Number | Kind::Word | Kind::Sign('(')).then(|| {
        Slip::new(
            Code::OperatorMissing,
            piece.span.to(next.span),
            "Nothing says how these two values are joined.",
        )
        .help("put times, /, + or - between them")
        .offer("multiply them", Span::empty(next.span.start), " times ")
    })
}

/// The piece that closes the parenthesis at `at`.
fn closing(line: &Line, at: usize) -> Option<usize> {
    let mut depth = 0;
    (at..line.pieces.len()).find(|index| {
        let kind = line.pieces[*index].kind;
        depth += i32::from(kind == Kind::Sign('(')) - i32::from(kind == Kind::Sign(')'));
        depth == 0
    })
}

fn has_comma(line: &Line, open: usize, close: usize) -> bool {
    line.pieces[open..close]
        .iter()
        .any(|piece| piece.kind == Kind::Sign(','))
}

/// An opening parenthesis that nothing closes.
pub(super) fn left_open(line: &Line) -> Option<Slip> {
    let is_open = |at: &usize| line.pieces[*at].kind == Kind::Sign('(') && closing(line, *at).is_none();
    // The innermost one is nearest to where the other should stand.
    let at = (0..line.pieces.len()).rev().find(is_open)?;
    // Values end where a joining word, a text or the full stop begins.
    let ends = |at: &usize| {
        matches!(line.pieces[*at].kind, Kind::Text | Kind::Sign('.'))
            || line.word(*at).is_some_and(|word| Joint::of(&word).is_some())
    };
    let last = (at + 1..line.pieces.len())
        .find(ends)
        .unwrap_or(line.pieces.len())
        - 1;
    let end = line.pieces[last].span.end;
    Some(
        Slip::new(
            Code::ParenthesisOpen,
            line.pieces[at].span,
            "This parenthesis is never closed.",
        )
        .help("close it where the calculation ends")
        .offer("close it at the end", Span::empty(end), ")"),
    )
}

fn unknown(piece: Piece, sign: char) -> Slip {
    let number = u32::from(sign);
    if sign.is_control() || is_invisible(sign) {
        let message = format!("An invisible character (U+{number:04X}) stands here.");
        return Slip::new(Code::CharacterUnknown, piece.span, message)
            .help("take it out")
            .sure("take the invisible character out", piece.span, "");
    }
    let slip = Slip::new(
        Code::CharacterUnknown,
        piece.span,
        format!("`{sign}` means nothing here."),
    );
    if sign == ';' {
        return slip
            .help("values are parted by spaces or commas")
            .offer("write a comma", piece.span, ",");
    }
    slip.help("words for people stand in quotes, or behind // as a comment")
}

fn is_invisible(c: char) -> bool {
    matches!(c, '\u{AD}' | '\u{200C}'..='\u{200F}' | '\u{2028}'..='\u{202E}' | '\u{2060}'..='\u{206F}')
}
