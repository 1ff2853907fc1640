//! A token in its plain form: digits with a point, units in words, straight quotes.
//!
//! The number stays the one that was written; nothing is converted.

use crate::number::{is_doubtful, vulgar};
use crate::token::{Token, TokenKind};
use crate::words::{fold, plain_unit};
use std::borrow::Cow;

/// What is to stand for `token` of the line `written`; nothing for a token that goes.
pub(super) fn plain<'a>(written: &'a str, token: Token) -> Option<Cow<'a, str>> {
    let as_it_is = token.span.of(written);
    Some(match token.kind {
        TokenKind::Space | TokenKind::Comment | TokenKind::Stop => return None,
        TokenKind::Opener | TokenKind::Key => fold(as_it_is),
        TokenKind::Joining => lower(as_it_is),
        TokenKind::Operator => operator(as_it_is),
        TokenKind::Number => number(as_it_is),
        TokenKind::X => Cow::Borrowed("X"),
        TokenKind::Day => day(as_it_is),
        TokenKind::Unit | TokenKind::Mark | TokenKind::Symbol => unit(as_it_is),
        TokenKind::Dash => Cow::Borrowed("-"),
        TokenKind::Text => text(as_it_is),
        TokenKind::Given
        | TokenKind::Name
        | TokenKind::Size
        | TokenKind::Comma
        | TokenKind::Dot
        | TokenKind::Equals
        | TokenKind::Open
        | TokenKind::Close
        | TokenKind::Word
        | TokenKind::Unclosed
        | TokenKind::Sign => Cow::Borrowed(as_it_is),
    })
}

fn lower(word: &str) -> Cow<'_, str> {
    if word.bytes().any(|byte| byte.is_ascii_uppercase()) {
        Cow::Owned(word.to_ascii_lowercase())
    } else {
        Cow::Borrowed(word)
    }
}

fn operator(sign: &str) -> Cow<'_, str> {
    match sign {
        "*" | "×" => Cow::Borrowed("times"),
        "÷" => Cow::Borrowed("/"),
        "–" | "—" | "−" => Cow::Borrowed("-"),
        other => lower(other),
    }
}

fn day(written: &str) -> Cow<'_, str> {
    if written.is_ascii() {
        return Cow::Borrowed(written);
    }
    let plain = |letter: char| if letter.is_ascii_digit() { letter } else { '-' };
    Cow::Owned(written.chars().map(plain).collect())
}

fn unit(written: &str) -> Cow<'_, str> {
    match snell_units::resolve(&plain_unit(written)) {
        Ok(resolved) => Cow::Owned(resolved.plain.into_owned()),
        Err(_) => Cow::Borrowed(written),
    }
}

fn text(written: &str) -> Cow<'_, str> {
    let mut inner = written.chars();
    if let (Some('"'), Some('"')) = (inner.next(), inner.next_back()) {
        return Cow::Borrowed(written);
    }
    Cow::Owned(format!("\"{}\"", inner.as_str()))
}

fn number(digits: &str) -> Cow<'_, str> {
    let is_plain = digits
        .bytes()
        .all(|byte| byte.is_ascii_digit() || matches!(byte, b'.' | b'/'));
    // Which of two numbers is meant is for the writer to say.
    if is_doubtful(digits) || is_plain && !digits.starts_with('.') {
        return Cow::Borrowed(digits);
    }
    let mut plain = String::with_capacity(digits.len() + 3);
    for c in digits.chars() {
        match (c, vulgar(c)) {
            (',', _) => plain.push('.'),
            ('⁄', _) => plain.push('/'),
            (c, None) if c.is_ascii() && c != ' ' && c != '\t' => plain.push(c),
            (_, fraction) => {
                if !plain.is_empty() && !plain.ends_with(' ') {
                    plain.push(' ');
                }
                if let Some((above, below)) = fraction {
                    plain.push_str(&format!("{above}/{below}"));
                }
            }
        }
    }
    if plain.starts_with('.') {
        plain.insert(0, '0');
    }
    Cow::Owned(plain)
}
