//! A line of the author's own hand cut into atoms: words, numbers, texts and single signs.
//!
//! The grammar's own tokens follow the strict form, in which an apostrophe is a foot mark and any word behind a number
//! its unit. Here nothing is known yet of what a word means.

use super::trade::IN_KNOTS;
use crate::layout::{is_quote, is_space};
use crate::normal::is_mark;
use crate::number::vulgar;
use snell_text::Span;

/// What an atom is.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Look {
    Number,
    Word,
    /// With the span between its quotes.
    Text(Span),
    Sign(char),
}

/// An atom of a line.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) struct Atom {
    pub(super) look: Look,
    pub(super) span: Span,
    /// Whether no space parts it from the atom before.
    pub(super) glued: bool,
}

/// The atoms of a line, and what stands behind them as a comment.
pub(super) struct Atoms {
    pub(super) atoms: Vec<Atom>,
    pub(super) comment: Option<Span>,
    /// Whether two dashes open it, and not `//`: it may begin with a value.
    pub(super) is_aside: bool,
}

/// The atoms of `line`; nothing where a text is left open.
pub(super) fn atoms(line: &str) -> Option<Atoms> {
    let mut cutter = Cutter { line, at: 0 };
    let mut found: Vec<Atom> = Vec::new();
    while let Some(first) = cutter.rest().chars().next() {
        let is_diameter = matches!(first, 'Ø' | 'ø' | '∅' | '⌀')
            && cutter.rest()[first.len_utf8()..]
                .starts_with(|next: char| next == ' ' || next.is_ascii_digit());
        if is_space(first) || is_diameter {
            cutter.at += first.len_utf8();
            continue;
        }
        if let Some(comment) = cutter.comment() {
            return Some(Atoms {
                atoms: found,
                is_aside: !cutter.rest().starts_with("//"),
                comment: Some(comment),
            });
        }
        let start = cutter.at;
        let glued = found.last().is_some_and(|last| last.span.end as usize == start);
        let behind_number = glued && is_length_so_far(&found);
        let look = cutter.atom(first, behind_number)?;
        found.push(Atom {
            look,
            span: Span::from(start..cutter.at),
            glued,
        });
    }
    Some(Atoms {
        atoms: found,
        comment: None,
        is_aside: false,
    })
}

/// Whether the last atom is a number that a sign of feet or inches may stand behind; no hook has such a size.
fn is_length_so_far(found: &[Atom]) -> bool {
    match found {
        [.., before, last] if last.glued && before.look == Look::Sign('#') => false,
        [.., last] => last.look == Look::Number,
        [] => false,
    }
}

struct Cutter<'a> {
    line: &'a str,
    at: usize,
}

impl<'a> Cutter<'a> {
    fn rest(&self) -> &'a str {
        &self.line[self.at..]
    }

    /// What stands behind `//`, or behind two dashes between spaces.
    fn comment(&self) -> Option<Span> {
        let rest = self.rest();
        let parted = self.line[..self.at].ends_with(is_space);
        let dashes = parted
            && rest
                .strip_prefix("--")
                .is_some_and(|rest| rest.starts_with(is_space));
        (rest.starts_with("//") || dashes).then(|| {
            let inner = rest[2..].trim_matches(is_space);
            let start = inner.as_ptr() as usize - self.line.as_ptr() as usize;
            Span::from(start..start + inner.len())
        })
    }

    fn atom(&mut self, first: char, behind_number: bool) -> Option<Look> {
        let next = self.rest()[first.len_utf8()..].chars().next();
        // The point of `no.6` is none of the number's.
        let behind_word = self.line[..self.at].ends_with(char::is_alphabetic);
        let is_point =
            first == '.' && !behind_number && !behind_word && next.is_some_and(|next| next.is_ascii_digit());
        if first.is_ascii_digit() || is_point || vulgar(first).is_some() {
            self.at += number(self.rest());
            return Some(Look::Number);
        }
        if first.is_alphabetic() {
            self.at += word(self.rest());
            return Some(Look::Word);
        }
        self.at += first.len_utf8();
        if is_quote(first) && !behind_number {
            return self.text();
        }
        Some(Look::Sign(first))
    }

    /// A text whose first quote is passed.
    fn text(&mut self) -> Option<Look> {
        let start = self.at;
        let length = self.rest().find(is_quote)?;
        let quote = self.rest()[length..].chars().next()?;
        self.at += length + quote.len_utf8();
        Some(Look::Text(Span::from(start..start + length)))
    }
}

/// How long the number is that `rest` begins with: `7`, `0,28`, `.22`, `12/100`, `7 1/2`, `4½`.
fn number(rest: &str) -> usize {
    let digits = |from: usize| {
        let behind = rest[from..].trim_start_matches(|c: char| c.is_ascii_digit());
        rest.len() - behind.len() - from
    };
    let mut end = digits(0);
    let fraction = |from: usize| {
        let above = digits(from);
        let slash = rest[from + above..].starts_with('/');
        let below = if slash { digits(from + above + 1) } else { 0 };
        (above > 0 && below > 0).then_some(from + above + 1 + below)
    };
    if let Some(end) = fraction(0) {
        return end;
    }
    if let Some(point) = rest[end..].chars().next().filter(|c| matches!(c, '.' | ',')) {
        let decimals = digits(end + point.len_utf8());
        if decimals > 0 {
            let end = end + 1 + decimals;
            // `11,7/100`
            return end
                + if is_hundredths(&rest[end..]) {
                    "/100".len()
                } else {
                    0
                };
        }
    }
    let spaces = rest[end..].len() - rest[end..].trim_start_matches(' ').len();
    if let Some(sign) = rest[end + spaces..]
        .chars()
        .next()
        .filter(|c| vulgar(*c).is_some())
    {
        return end + spaces + sign.len_utf8();
    }
    let parted = if rest[end..].starts_with('-') { 1 } else { spaces };
    // Hundredths are of a millimetre, and no part of the number before them.
    let mixed = fraction(end + parted).filter(|end| parted > 0 && !rest[..*end].ends_with("/100"));
    if let Some(mixed) = mixed {
        end = mixed;
    }
    end
}

/// Whether a stroke and a hundred stand here, and no more of a number.
fn is_hundredths(rest: &str) -> bool {
    let behind = rest.strip_prefix("/100");
    behind.is_some_and(|behind| !behind.starts_with(|next: char| next.is_ascii_digit()))
}

/// How long the word is: letters and digits, with hyphens and apostrophes between letters; or two letters for two words,
/// `b.s.`
fn word(rest: &str) -> usize {
    if let Some(length) = initials(rest) {
        return length;
    }
    let mut letters = rest.char_indices().peekable();
    while let Some((at, letter)) = letters.next() {
        let joins = matches!(letter, '-' | '\u{2011}' | '\'' | '’');
        let next = letters.peek().map(|(_, next)| *next);
        let goes_on = if joins {
            next.is_some_and(char::is_alphabetic)
        } else {
            letter.is_alphanumeric() || is_mark(letter)
        };
        if !goes_on {
            return at;
        }
    }
    rest.len()
}

/// How long a word of a knot's name is that is cut short with a point: `bl. knot`, which without it may be blue.
fn pointed(rest: &str) -> Option<usize> {
    let letters = rest.bytes().take_while(u8::is_ascii_alphabetic).count();
    let short = &rest[..letters];
    if !rest[letters..].starts_with('.') {
        return None;
    }
    let words = IN_KNOTS.iter().map(|(short, _)| *short).chain(["bl"]);
    words.into_iter().find(|word| short.eq_ignore_ascii_case(word))?;
    Some(short.len() + 1)
}

/// How long two letters are that stand for two words, each with its point; the last may lack it.
fn initials(rest: &str) -> Option<usize> {
    if let Some(length) = pointed(rest) {
        return Some(length);
    }
    let bytes = rest.as_bytes();
    let is_letter = |at: usize| bytes.get(at).is_some_and(u8::is_ascii_alphabetic);
    let is_point = |at: usize| bytes.get(at) == Some(&b'.');
    if !(is_letter(0) && is_point(1) && is_letter(2)) {
        return None;
    }
    let end = if is_point(3) { 4 } else { 3 };
    let goes_on = rest[end..].starts_with(|next: char| next.is_alphanumeric());
    (!goes_on).then_some(end)
}

/// Whether a dash between spaces stands at a place of the line.
pub(super) fn is_dash(atoms: &[Atom], at: usize) -> bool {
    let next_is_apart = atoms.get(at + 1).is_some_and(|next| !next.glued);
    let is_apart =
        |atom: &Atom| matches!(atom.look, Look::Sign('-' | '–' | '—')) && !atom.glued && next_is_apart;
    atoms.get(at).is_some_and(is_apart)
}

/// Whether a full stop at a place of the line parts what stands before it from what follows. Behind a number it may
/// cut one in two: `0. 18`.
pub(super) fn is_full_stop(atoms: &[Atom], at: usize) -> bool {
    let behind_word = at
        .checked_sub(1)
        .is_some_and(|before| matches!(atoms[before].look, Look::Word | Look::Text(_) | Look::Sign(')')));
    let next_is_apart = atoms.get(at + 1).is_some_and(|next| !next.glued);
    let is_glued = |atom: &Atom| atom.look == Look::Sign('.') && atom.glued;
    behind_word && next_is_apart && atoms.get(at).is_some_and(is_glued)
}
