//! Slips with numbers, sizes and the signs of arithmetic.

use super::line::{Kind, Line, Piece, Shape, is_dash};
use super::slip::Slip;
use crate::number::is_malformed;
use crate::parse::Entry;
use crate::vocabulary::is_joining;
use snell_finding::Code;
use snell_text::Span;

pub(super) fn check(line: &Line, at: usize, _shape: Shape) -> Option<Slip> {
    let piece = line.get(at)?;
    match piece.kind {
        Kind::Number if is_malformed(line.of(piece)) => Some(malformed(line, at, piece)),
        Kind::Number => inch_mark(line, at),
        Kind::Sign('#') => size(line, at, piece),
        Kind::Sign(sign @ ('/' | '÷')) if !is_unit_slash(line, at) => {
            let help = "close together, a slash makes fractions like 5/64 and units like ft/s";
            apart(line, at, Code::SpacesAroundSlash, sign, help).or_else(|| dangling(line, at))
        }
        Kind::Sign('+') => apart(line, at, Code::SpacesAroundPlus, '+', "write it like 2 ft + 3 in")
            .or_else(|| dangling(line, at)),
        Kind::Sign('*' | '×') => dangling(line, at),
        Kind::Sign(sign) if is_dash(sign) => dash(line, at, piece),
        Kind::Word if at > 0 && line.is_word(at, &["times", "x"]) && !piece.glued => dangling(line, at),
        Kind::Word if piece.glued && line.before(at).is_some_and(|before| before.kind == Kind::Number) => {
            glued_word(line, line.before(at)?, piece)
        }
        Kind::Word | Kind::Mark | Kind::Text | Kind::Open | Kind::UnitSign | Kind::Sign(_) => None,
    }
}

impl Slip {
    fn malformed_number(written: &str, span: Span) -> Self {
        let slip = Self::new(Code::NumberMalformed, span, format!("`{written}` is no number."));
        let groups: Vec<&str> = written.split(['.', ',']).collect();
        let thousands = groups.len() > 2
            && !written.contains('/')
            && groups[1..groups.len() - 1].iter().all(|group| group.len() == 3);
        if !thousands {
            return slip
                .help("write a number with one decimal point, like 1.25, or as a fraction, like 7 1/2");
        }
        let (last, before) = groups.split_last().unwrap_or((&"", &[]));
        let decimal = written.contains('.') && written.contains(',');
        let point = if decimal { "." } else { "" };
        let plain = format!("{}{point}{last}", before.concat());
        slip.help("thousands are not parted by a sign; write the digits in one row")
            .offer(format!("write {plain}"), span, plain)
    }
}

/// Inside of parentheses the commas may have been meant to part values.
fn malformed(line: &Line, at: usize, piece: Piece) -> Slip {
    let written = line.of(piece);
    let slip = Slip::malformed_number(written, piece.span);
    let inside = line.pieces[..at]
        .iter()
        .any(|before| before.kind == Kind::Sign('('));
    if !inside || written.contains(['.', '/', '⁄']) {
        return slip;
    }
    slip.help("put a space behind each comma that parts two values")
        .offer("part the values", piece.span, written.replace(',', ", "))
}

/// `3'8` without the second mark.
fn inch_mark(line: &Line, at: usize) -> Option<Slip> {
    let number = line.get(at)?;
    let mark = line.glued_after(at).filter(|mark| mark.kind == Kind::Mark)?;
    let inches = line
        .glued_after(at + 1)
        .filter(|inches| inches.kind == Kind::Number)?;
    let said = line
        .glued_after(at + 2)
        .is_some_and(|next| matches!(next.kind, Kind::Mark | Kind::Word));
    if said
        || line.is_word(at + 3, &["in", "inch", "inches"])
        || !line.of(mark).starts_with(['\'', '’', '‘', '′'])
    {
        return None;
    }
    let span = number.span.to(inches.span);
    let written = span.of(line.written);
    Some(
        Slip::new(
            Code::InchMarkMissing,
            span,
            format!("`{written}` has a mark for feet but none for inches."),
        )
        .help(format!(
            "write {written}\" or {} ft {} in",
            line.of(number),
            line.of(inches)
        ))
        .sure("add the inch mark", Span::empty(span.end), "\""),
    )
}

fn size(line: &Line, at: usize, hash: Piece) -> Option<Slip> {
    let Some(number) = line.get(at + 1).filter(|next| next.kind == Kind::Number) else {
        return Some(
            Slip::new(
                Code::SizeUnfinished,
                hash.span,
                "`#` opens a size, but no number follows.",
            )
            .help("write the number close behind it: #14"),
        );
    };
    let span = hash.span.to(number.span);
    if !number.glued {
        let plain = format!("#{}", line.of(number));
        return Some(
            Slip::new(Code::SizeApart, span, "`#` and its number stand apart.")
                .help(format!("write {plain}"))
                .sure("close the gap", Span::new(hash.span.end, number.span.start), ""),
        );
    }
    let next = line.glued_after(at + 1)?;
    let word = match next.kind {
        Kind::Word => next,
        Kind::Sign(sign) if is_dash(sign) => {
            line.glued_after(at + 2).filter(|word| word.kind == Kind::Word)?
        }
        Kind::Number | Kind::Mark | Kind::Text | Kind::Open | Kind::UnitSign | Kind::Sign(_) => return None,
    };
    let size = span.of(line.written);
    Some(size_glued(line, span.to(word.span), size, line.of(word)).offer(
        "put a space between",
        Span::new(span.end, word.span.start),
        " ",
    ))
}

fn size_glued(line: &Line, span: Span, size: &str, word: &str) -> Slip {
    let written = span.of(line.written);
    Slip::new(
        Code::SizeGlued,
        span,
        format!("`{written}` runs a size and a word together."),
    )
    .help(format!("write {size} {word}"))
}

/// A word right behind a number that cannot be its unit.
fn glued_word(line: &Line, number: Piece, word: Piece) -> Option<Slip> {
    let written = line.of(word);
    if is_joining(written) && !written.eq_ignore_ascii_case("x") {
        return Some(
            Slip::new(
                Code::UnitGlued,
                word.span,
                format!("`{written}` sticks to the number before it."),
            )
            .help("put a space between")
            .sure("put a space between", Span::empty(word.span.start), " "),
        );
    }
    let (unit, tail) = written.split_once('-')?;
    let hyphen = Span::new(word.span.start, word.span.start + 1).shifted(unit.len() as u32);
    let slip = if unit.eq_ignore_ascii_case("x") {
        if !tail.starts_with(char::is_alphabetic) {
            return None;
        }
        let size = format!("{}{unit}", line.of(number));
        size_glued(line, number.span.to(word.span), &size, tail)
    } else {
        Slip::new(Code::UnitGlued, word.span, format!("`{written}` is no unit."))
            .help("a unit ends where a space stands")
    };
    Some(slip.offer("put a space for the hyphen", hyphen, " "))
}

/// A sign that needs a space on both sides.
fn apart(line: &Line, at: usize, code: Code, sign: char, help: &str) -> Option<Slip> {
    let (slip, fixed) = spaced(line, at, code, sign)?;
    let (slip, span) = (slip.help(help.to_owned()), line.get(at)?.span);
    // Most lines compute nothing, and what stands there is a slip of the hand.
    Some(if Shape::of(line, Entry::Body) == Shape::Plain {
        slip.offer("put spaces around it", span, fixed)
    } else {
        slip.sure("put spaces around it", span, fixed)
    })
}

/// The slip of a sign that lacks a space, and the sign with its spaces.
fn spaced(line: &Line, at: usize, code: Code, sign: char) -> Option<(Slip, String)> {
    let piece = line.get(at)?;
    let before = line.before(at).filter(|_| piece.glued);
    let after = line.glued_after(at);
    let mut span = piece.span;
    let mut fixed = sign.to_string();
    if let Some(before) = before {
        span = before.span.to(span);
        fixed.insert(0, ' ');
    }
    if let Some(after) = after {
        span = span.to(after.span);
        fixed.push(' ');
    }
    before.or(after)?;
    let slip = Slip::new(code, span, format!("`{sign}` needs a space on both sides."));
    Some((slip, fixed))
}

/// `ft/s` behind a number.
fn is_unit_slash(line: &Line, at: usize) -> bool {
    let word =
        |piece: Option<Piece>| piece.is_some_and(|piece| matches!(piece.kind, Kind::Word | Kind::UnitSign));
    let number = |at: usize| line.get(at).is_some_and(|piece| piece.kind == Kind::Number);
    let glued = line.get(at).is_some_and(|piece| piece.glued);
    let behind_number = at.checked_sub(2).is_some_and(number) || at.checked_sub(3).is_some_and(number);
    glued && word(line.before(at)) && word(line.glued_after(at)) && behind_number
}

fn dash(line: &Line, at: usize, dash: Piece) -> Option<Slip> {
    let code = Code::SpacesAroundMinus;
    let before = line.before(at);
    let after = line.get(at + 1);
    let after_glued = line.glued_after(at);
    let is = |piece: Option<Piece>, kinds: &[Kind]| piece.is_some_and(|piece| kinds.contains(&piece.kind));
    if !dash.glued {
        let Some(number) = after_glued else {
            return dangling(line, at);
        };
        if !is_value(line, at.checked_sub(1)) && number.kind == Kind::Number {
            let span = dash.span.to(number.span);
            return Some(
                Slip::new(
                    Code::NumberNegative,
                    span,
                    "There are no negative numbers in a rig file.",
                )
                .help("for a difference write what is taken from what: depth - 2 ft"),
            );
        }
        return apart(line, at, code, '-', "write it like depth - 20 in");
    }
    let size_before = is(before, &[Kind::Number]) || is_x(line, at.checked_sub(1));
    if size_before && is(after_glued, &[Kind::Number, Kind::Sign('#')]) {
        return None;
    }
    let (slip, fixed) = spaced(line, at, code, '-')?;
    let unit_before = is(before, &[Kind::Mark, Kind::UnitSign])
        || is(before, &[Kind::Word]) && at >= 2 && is(line.get(at - 2), &[Kind::Number]);
    if unit_before && is(after_glued, &[Kind::Number]) {
        let span = before?.span.to(after?.span);
        return Some(
            Slip::new(
                Code::SpreadUnclear,
                span,
                "A dash between two quantities with units may mean a spread or a minus.",
            )
            .help("write 2 ft to 3 ft for a spread, 3 ft - 2 ft for a difference")
            .offer("make it a spread", dash.span, " to ")
            .offer("make it a difference", dash.span, fixed),
        );
    }
    let slip = slip.help("close together, a hyphen is part of a name: low-water");
    if is(before, &[Kind::Word]) && is(after_glued, &[Kind::Word]) {
        let slip = slip.offer("make it one name", dash.span, "-");
        return Some(slip.offer("put spaces around it", dash.span, fixed));
    }
    Some(slip.offer("put spaces around it", dash.span, fixed))
}

/// An operator without a value on one side.
fn dangling(line: &Line, at: usize) -> Option<Slip> {
    let sign = line.get(at)?;
    let behind = line.get(at + 1).is_some_and(|next| match next.kind {
        Kind::Number | Kind::Sign('(' | '#') => true,
        Kind::Word => !is_joining(line.of(next)),
        Kind::Mark | Kind::Text | Kind::Open | Kind::UnitSign | Kind::Sign(_) => false,
    });
    if behind && is_value(line, at.checked_sub(1)) {
        return None;
    }
    let side = if behind { "before" } else { "behind" };
    let written = line.of(sign);
    Some(
        Slip::new(
            Code::OperatorDangling,
            sign.span,
            format!("`{written}` has no value {side} it."),
        )
        .help(format!("put a value on both sides of {written}, or leave it out")),
    )
}

/// Whether a value can end with the piece at `at`. A line's first word is its
/// key, no value.
fn is_value(line: &Line, at: Option<usize>) -> bool {
    let Some((at, piece)) = at.and_then(|at| Some((at, line.get(at)?))) else {
        return false;
    };
    match piece.kind {
        Kind::Number | Kind::Mark | Kind::UnitSign | Kind::Sign(')') => true,
        Kind::Word => at > 0 && !is_joining(line.of(piece)) || is_x(line, Some(at)),
        Kind::Text | Kind::Open | Kind::Sign(_) => false,
    }
}

/// The X of `6X`.
fn is_x(line: &Line, at: Option<usize>) -> bool {
    at.and_then(|at| line.get(at))
        .is_some_and(|piece| piece.glued && line.of(piece).eq_ignore_ascii_case("x"))
}
