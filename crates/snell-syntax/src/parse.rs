//! One line through the grammar, handed on as plain lists of nodes and tokens.
//!
//! This is the one module that knows pest. It knows no meaning.

use crate::layout::is_space;
use crate::token::{Token, TokenKind};
use pest::Parser;
use pest_derive::Parser;
use snell_text::Span;
use std::borrow::Cow;
use std::num::NonZeroUsize;
use std::sync::Once;

#[derive(Parser)]
#[grammar = "snell.pest"]
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

/// A rule of the grammar that the typed tree is built from, and where it stands.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Node {
    pub(crate) rule: Rule,
    pub(crate) span: Span,
}

/// A line as the grammar reads it.
#[derive(Default)]
pub(crate) struct Parsed {
    /// Outer ones before those inside.
    pub(crate) nodes: Vec<Node>,
    /// Side by side, from the first byte of the line to its last.
    pub(crate) tokens: Vec<Token>,
    /// Where the line stops making sense.
    pub(crate) odd: Option<u32>,
}

impl Parsed {
    /// Reads `line` in place of what was read before. Only a line that takes the parser too long is not read; it is
    /// odd as a whole.
    pub(crate) fn read(&mut self, entry: Entry, line: &str) {
        static LIMIT: Once = Once::new();
        LIMIT.call_once(|| pest::set_call_limit(Some(STEPS)));

        self.nodes.clear();
        self.tokens.clear();
        self.odd = None;
        let rule = match entry {
            Entry::Margin => Rule::margin,
            Entry::Body => Rule::indented,
            Entry::Alone => Rule::alone,
        };
        let plain = plain_spaces(line);
        let Ok(pairs) = LineParser::parse(rule, &plain) else {
            return self.give_up(line);
        };
        for pair in pairs.flatten() {
            let (start, end) = (pair.as_span().start() as u32, pair.as_span().end() as u32);
            self.add(pair.as_rule(), Span::new(start, end));
        }
        self.space_up_to(line.len() as u32);
    }

    /// Takes the whole line for one odd token.
    pub(crate) fn give_up(&mut self, line: &str) {
        self.nodes.clear();
        self.tokens.clear();
        self.odd = Some(0);
        self.tokens.push(Token {
            kind: TokenKind::Sign,
            span: Span::from(0..line.len()),
        });
    }

    fn add(&mut self, rule: Rule, span: Span) {
        let part = part(rule);
        if let Part::Leaf(kind) | Part::Mark(kind) = part {
            self.space_up_to(span.start);
            self.tokens.push(Token { kind, span });
        }
        match part {
            Part::Node | Part::Leaf(_) => self.nodes.push(Node { rule, span }),
            Part::Mark(_) => {}
            Part::Odd => self.odd = Some(span.start),
            // What breaks off lacks something at its end.
            Part::Begun => self.odd = Some(span.end),
            Part::Unnamed => {}
        }
    }

    /// What no token covers is space.
    fn space_up_to(&mut self, end: u32) {
        let start = self.tokens.last().map_or(0, |token| token.span.end);
        if start < end {
            self.tokens.push(Token {
                kind: TokenKind::Space,
                span: Span::new(start, end),
            });
        }
    }
}

/// The line with plain spaces for all others, each as long as the one it stands for: the parser looks for a space
/// at so many places that reading takes a tenth longer where it looks for eight kinds of them.
fn plain_spaces(line: &str) -> Cow<'_, str> {
    let is_wide = |c: char| !c.is_ascii() && is_space(c);
    if line.is_ascii() || !line.contains(is_wide) {
        return Cow::Borrowed(line);
    }
    let mut plain = String::with_capacity(line.len());
    for c in line.chars() {
        if is_wide(c) {
            plain.extend(std::iter::repeat_n(' ', c.len_utf8()));
        } else {
            plain.push(c);
        }
    }
    Cow::Owned(plain)
}

/// What a rule of the grammar is to the tree.
enum Part {
    /// It holds others.
    Node,
    /// A token that the typed tree is built from.
    Leaf(TokenKind),
    /// A token that only the line itself needs.
    Mark(TokenKind),
    /// What does not fit.
    Odd,
    /// What breaks off.
    Begun,
    /// Nothing: it only has a name in the grammar.
    Unnamed,
}

fn part(rule: Rule) -> Part {
    use Part::{Begun, Leaf, Mark, Node, Odd, Unnamed};
    match rule {
        Rule::use_line | Rule::block | Rule::plain | Rule::change | Rule::bind | Rule::claim => Node,
        Rule::target | Rule::compare | Rule::within | Rule::bounded | Rule::bound | Rule::being => Node,
        Rule::arguments | Rule::group | Rule::until | Rule::range | Rule::inches | Rule::ounces => Node,
        Rule::kind => Leaf(TokenKind::Opener),
        Rule::key | Rule::bind_key | Rule::claim_key => Leaf(TokenKind::Key),
        Rule::use_key | Rule::change_key => Mark(TokenKind::Key),
        Rule::given => Leaf(TokenKind::Given),
        Rule::name | Rule::part => Leaf(TokenKind::Name),
        Rule::joint | Rule::not => Leaf(TokenKind::Joining),
        Rule::is | Rule::between | Rule::and | Rule::or | Rule::from | Rule::to => Mark(TokenKind::Joining),
        Rule::at | Rule::least | Rule::most => Mark(TokenKind::Joining),
        Rule::about | Rule::over | Rule::under => Mark(TokenKind::Joining),
        Rule::sign | Rule::star => Leaf(TokenKind::Operator),
        Rule::number | Rule::count => Leaf(TokenKind::Number),
        Rule::ex => Leaf(TokenKind::X),
        Rule::size => Leaf(TokenKind::Size),
        Rule::day => Leaf(TokenKind::Day),
        Rule::unit => Leaf(TokenKind::Unit),
        Rule::mark => Leaf(TokenKind::Mark),
        Rule::symbol => Leaf(TokenKind::Symbol),
        Rule::foot | Rule::inch | Rule::pound | Rule::ounce => Mark(TokenKind::Unit),
        Rule::foot_mark | Rule::inch_mark => Mark(TokenKind::Mark),
        Rule::span => Mark(TokenKind::Dash),
        Rule::comma => Mark(TokenKind::Comma),
        Rule::dot => Mark(TokenKind::Dot),
        Rule::equals => Mark(TokenKind::Equals),
        Rule::open => Mark(TokenKind::Open),
        Rule::close => Mark(TokenKind::Close),
        Rule::text => Leaf(TokenKind::Text),
        Rule::stop => Mark(TokenKind::Stop),
        Rule::comment => Mark(TokenKind::Comment),
        Rule::word => Mark(TokenKind::Word),
        Rule::figures => Mark(TokenKind::Number),
        Rule::tick => Mark(TokenKind::Mark),
        Rule::unit_sign => Mark(TokenKind::Symbol),
        Rule::quoted => Mark(TokenKind::Text),
        Rule::unclosed => Mark(TokenKind::Unclosed),
        Rule::other => Mark(TokenKind::Sign),
        Rule::odd => Odd,
        Rule::begun => Begun,
        _ => Unnamed,
    }
}
