//! One line through the grammar, handed on as a plain list of tokens.
//!
//! This is the one module that knows pest. It knows no meaning: the tokens are
//! only named stretches of the line, an outer one before those inside it.

use crate::layout::{is_quote, is_space};
use pest::Parser;
use pest::error::InputLocation;
use pest_derive::Parser;
use std::borrow::Cow;
use std::num::NonZeroUsize;
use std::sync::Once;

#[derive(Parser)]
#[grammar = "../../../grammar/snell.pest"]
struct LineParser;

/// No line that a person writes comes near this many steps of the parser; one
/// that does is given up instead of being waited for.
const STEPS: NonZeroUsize = NonZeroUsize::new(1_000_000).expect("not zero");

/// Where a line stands, which says what it may be.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) enum Entry {
    /// At the margin: a head, a `use`, or what an indented line may be.
    Margin,
    /// Indented.
    Body,
    /// No line, but an expression by itself.
    Alone,
}

/// A named stretch of a line.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Token {
    /// Its name in the grammar.
    pub(crate) rule: Rule,
    /// Its first byte.
    pub(crate) start: u32,
    /// One past its last byte.
    pub(crate) end: u32,
}

/// Reads `line` and fills `tokens`, outer ones first. Where the line is broken,
/// gives the furthest byte at which a word was still looked for.
pub(crate) fn parse(entry: Entry, line: &str, tokens: &mut Vec<Token>) -> Result<(), usize> {
    static LIMIT: Once = Once::new();
    LIMIT.call_once(|| pest::set_call_limit(Some(STEPS)));

    tokens.clear();
    let words = line.trim_start_matches(is_space);
    let lead = line.len() - words.len();
    let words = match entry {
        Entry::Alone => words,
        Entry::Margin | Entry::Body => without_comment(words),
    };
    let words = plain_spaces(words);
    let rule = match entry {
        Entry::Margin => Rule::margin,
        Entry::Body => Rule::body,
        Entry::Alone => Rule::alone,
    };
    let pairs = LineParser::parse(rule, &words).map_err(|error| match error.location {
        InputLocation::Pos(at) | InputLocation::Span((at, _)) => lead + at,
    })?;
    let pairs = pairs.flatten().filter(|pair| pair.as_rule() != Rule::row);
    tokens.extend(pairs.map(|pair| {
        let span = pair.as_span();
        Token {
            rule: pair.as_rule(),
            start: (lead + span.start()) as u32,
            end: (lead + span.end()) as u32,
        }
    }));
    Ok(())
}

/// The line without its comment, where there is no text whose quotes could
/// hide the start of it. The grammar knows comments too; this only spares it
/// the search for one more word.
fn without_comment(line: &str) -> &str {
    let mut slashes = line.match_indices('/').map(|(at, _)| at);
    let words = slashes
        .find(|at| line[*at..].starts_with("//"))
        .map(|at| &line[..at]);
    match words {
        Some(words) if !words.contains(is_quote) => words,
        _ => line,
    }
    .trim_end_matches(is_space)
}

/// The line with plain spaces for all others, each as long as the one it
/// stands for. The grammar never counts spaces, so the tree is the same, and
/// it has far less to try at the end of every word.
fn plain_spaces(line: &str) -> Cow<'_, str> {
    if line.is_ascii() || !line.contains(is_odd_space) {
        return Cow::Borrowed(line);
    }
    let mut plain = String::with_capacity(line.len());
    for c in line.chars() {
        if is_odd_space(c) {
            plain.extend(std::iter::repeat_n(' ', c.len_utf8()));
        } else {
            plain.push(c);
        }
    }
    Cow::Owned(plain)
}

fn is_odd_space(c: char) -> bool {
    !c.is_ascii() && is_space(c)
}
