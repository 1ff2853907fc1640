//! One line in its plain form, cut where the columns of its block begin.

use super::plain::plain;
use crate::parse::{Entry, Node, Parsed, Rule};
use crate::token::{Token, TokenKind};
use crate::tree::{Form, Line};
use crate::vocabulary::Joint;
use std::borrow::Cow;

/// The parts of a rig, whose lengths stand in a column.
const SECTIONS: [&str; 7] = ["line", "butt", "leader", "taper", "sighter", "tippet", "dropper"];

/// A line in its plain form.
pub(super) struct Laid<'a> {
    /// Its key; empty for a line that stands at the margin.
    pub(super) key: String,
    /// What stands before the first clause.
    pub(super) values: String,
    /// What stands from the first clause on.
    pub(super) rest: String,
    /// The comment that ends it.
    pub(super) comment: Option<Cow<'a, str>>,
    /// Whether its values stand in the column of lengths.
    pub(super) is_section: bool,
    /// How the parser sees such a line.
    pub(super) entry: Entry,
    /// Whether more changed than how wide its spaces are.
    pub(super) reworded: bool,
    /// The strict line, where its author wrote another.
    pub(super) strict: Option<&'a str>,
}

/// The plain form of a line that was read from `written`.
pub(super) fn lay<'a>(written: &'a str, line: &Line) -> Laid<'a> {
    let clause = match &*line.form {
        Form::Plain(plain) => plain.clauses.first(),
        Form::Use(_) | Form::Block(_) | Form::Change(_) | Form::Bind(_) | Form::Claim(_) => None,
    };
    let cut = clause.map_or(u32::MAX, |clause| clause.span.start);
    let mut laid = Laid {
        key: String::new(),
        values: String::new(),
        rest: String::new(),
        comment: None,
        is_section: false,
        entry: entry_of(&line.form),
        reworded: false,
        strict: line.reading.is_some().then_some(written),
    };
    let mut writer = Writer::default();
    for token in line.said_tokens() {
        if token.kind == TokenKind::Comment {
            let comment = token.span.of(written);
            laid.comment = Some(comment.trim_end_matches(crate::layout::is_space).into());
        }
        let part = if token.kind == TokenKind::Key {
            &mut laid.key
        } else if token.span.start < cut {
            &mut laid.values
        } else {
            &mut laid.rest
        };
        writer.add(part, written, *token);
    }
    laid.reworded = writer.reworded;
    let joins = clause.is_some_and(|clause| matches!(clause.joint, Joint::Of | Joint::With));
    laid.is_section = joins && SECTIONS.contains(&laid.key.as_str());
    if matches!(&*line.form, Form::Use(_)) {
        laid.values = format!("{} {}", laid.key, laid.values);
        laid.key.clear();
    }
    laid
}

fn entry_of(form: &Form) -> Entry {
    match form {
        Form::Use(_) | Form::Block(_) => Entry::Margin,
        Form::Change(_) | Form::Bind(_) | Form::Claim(_) | Form::Plain(_) => Entry::Body,
    }
}

/// Puts tokens one behind the other, with the spaces that belong between them.
#[derive(Default)]
struct Writer {
    /// What stands before, with its plain form where that may bear on the next.
    last: Option<TokenKind>,
    /// Whether a space stood behind it.
    parted: bool,
    /// Whether it is a whole number that begins a spread: a fraction behind its dash would be added to it.
    whole: bool,
    reworded: bool,
}

impl Writer {
    fn add(&mut self, made: &mut String, written: &str, token: Token) {
        let Some(mut new) = plain(written, token) else {
            self.parted = self.parted || token.kind == TokenKind::Space;
            self.reworded = self.reworded || token.kind == TokenKind::Stop;
            return;
        };
        let close = self.last.is_none() || self.close(token.kind);
        let written_close = self.last.is_none() || !self.parted;

        // `2-½` must not become `2-1/2`, which is two and a half.
        if self.whole && self.last == Some(TokenKind::Dash) && is_fraction(&new) {
            new = Cow::Borrowed(token.span.of(written));
        }
        self.reworded = self.reworded || close != written_close || new != token.span.of(written);
        if !made.is_empty() && !close {
            made.push(' ');
        }
        made.push_str(&new);
        if token.kind != TokenKind::Dash {
            self.whole = new.bytes().all(|byte| byte.is_ascii_digit());
        }
        self.last = Some(token.kind);
        self.parted = false;
    }

    /// Whether nothing parts the next token from the last.
    fn close(&self, next: TokenKind) -> bool {
        use TokenKind::{Close, Comma, Dash, Dot, Name, Open, X};
        matches!(next, Comma | Close | Dot | Dash | X)
            || matches!(self.last, Some(Open | Dot | Dash))
            // What a call is asked of.
            || next == Open && self.last == Some(Name) && !self.parted
    }
}

fn is_fraction(plain: &str) -> bool {
    plain
        .trim_start_matches(|c: char| c.is_ascii_digit())
        .starts_with('/')
}

/// Whether `new` says what `written` says: the same tokens of the same tree, wherever they stand.
pub(super) fn says_the_same(entry: Entry, written: &str, new: &str) -> bool {
    let (mut before, mut after) = (Parsed::default(), Parsed::default());
    before.read(entry, written);
    after.read(entry, new);
    // A mark is a unit and a star an operator, only otherwise written.
    let rule = |node: &Node| match node.rule {
        Rule::mark | Rule::symbol => Rule::unit,
        Rule::star => Rule::sign,
        rule => rule,
    };
    let rules = |parsed: &Parsed| parsed.nodes.iter().map(rule).collect::<Vec<_>>();
    after.odd.is_none() && rules(&before) == rules(&after) && said(written, &before).eq(said(new, &after))
}

fn said<'a>(written: &'a str, parsed: &'a Parsed) -> impl Iterator<Item = Cow<'a, str>> {
    parsed
        .tokens
        .iter()
        .filter_map(move |token| plain(written, *token))
}
