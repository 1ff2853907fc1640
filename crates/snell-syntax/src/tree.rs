//! The typed tree of one line, and of a file as blocks of lines.
//!
//! A line's spans are counted from the line's own start, so that equal lines
//! share one tree; [`Line::place`] gives the place in the text. The tree says
//! what was written, not what it means: no name is looked up here, no unit
//! judged.

use crate::token::Token;
use crate::vocabulary::{BlockKind, Bound, Joint};
use snell_text::{Place, Span, TextId};
use std::sync::Arc;

/// All that was read of one file: its blocks in order and the faults of reading.
#[derive(Clone, Debug, Default)]
pub struct File {
    pub text: TextId,
    pub uses: Vec<UseLine>,
    /// Blocks in order. Lines before the first block stand in one without head.
    pub blocks: Vec<Block>,
    /// The other lines that are not blank, in order: comments and broken lines.
    pub rest: Vec<Rest>,
    /// Faults of reading, in order.
    pub findings: Vec<snell_finding::Finding>,
}

/// The tokens of a line that says nothing: a comment, or a line that could not be read.
#[derive(Clone, Debug)]
pub struct Rest {
    /// Offset of the line's first byte in its text.
    pub offset: u32,
    pub tokens: Arc<[Token]>,
}

#[derive(Clone, Debug)]
pub struct UseLine {
    pub line: Line,
    /// The path as written, between its quotes.
    pub path: Text,
}

/// A block: its head and the sound lines below it.
#[derive(Clone, Debug)]
pub struct Block {
    /// Offset of the line that opens it; without head, of the first line that made one needed.
    pub offset: u32,
    /// The head line; `None` for lines that stand before any block.
    pub head: Option<Line>,
    /// The lines that belong to it, without blank ones, comments and broken ones.
    pub body: Vec<Line>,
    /// Whether a line of it could not be read, so that it is known in part only.
    pub broken: bool,
}

/// A line's tree together with where the line stands.
#[derive(Clone, Debug)]
pub struct Line {
    /// Offset of the line's first byte in its text.
    pub offset: u32,
    pub form: Arc<Form>,
    /// Its first to its last word, without margin and comment; counted from the line's start.
    pub span: Span,
    /// All of it, to its last byte. Empty for the head that was made out of a broken line.
    pub tokens: Arc<[Token]>,
    /// Where it is written in its author's own way: the strict line that it stands for. The spans of its tree are
    /// then those of the strict line.
    pub reading: Option<Arc<Reading>>,
}

/// The strict line that stands for one written in its author's own way.
#[derive(Clone, Debug, Default)]
pub struct Reading {
    /// What is said, as `tidy` would write it but for columns.
    pub strict: Box<str>,
    /// Its tokens.
    pub tokens: Vec<Token>,
    /// Which stretch of the strict line stands for which of the author's, both in the order of the strict line. A
    /// stretch that the author left out stands for an empty one.
    pub(crate) stretches: Vec<(Span, Span)>,
    /// What of the author's line was not understood.
    pub(crate) unread: Vec<Span>,
}

impl Reading {
    /// The words of the author that a span of the strict line stands for; where they left it out, the words around.
    pub fn written(&self, span: Span) -> Span {
        let meets = |own: &Span| own.start < span.end.max(span.start + 1) && span.start < own.end;
        let said = self
            .stretches
            .iter()
            .filter(|(own, written)| meets(own) && written.start < written.end);
        let joined = said
            .map(|(_, written)| *written)
            .reduce(|first, next| Span::new(first.start.min(next.start), first.end.max(next.end)));
        joined.unwrap_or_else(|| {
            let near = self
                .stretches
                .iter()
                .rev()
                .find(|(own, _)| own.start <= span.start);
            near.map_or(Span::empty(0), |(_, written)| *written)
        })
    }
}

impl Line {
    /// The place in `text` of a span of this line.
    pub fn place(&self, text: TextId, span: Span) -> Place {
        Place::new(text, self.written(span).shifted(self.offset))
    }

    /// What it says, as its tree counts it: `text` from where the line begins, or the strict line that it stands for.
    pub fn said<'a>(&'a self, text: &'a str) -> &'a str {
        match &self.reading {
            Some(reading) => &reading.strict,
            None => &text[self.offset as usize..],
        }
    }

    /// Where in the line as it is written a span of its tree stands.
    pub fn written(&self, span: Span) -> Span {
        self.reading
            .as_ref()
            .map_or(span, |reading| reading.written(span))
    }

    /// The tokens within a span of its tree.
    pub fn tokens_in(&self, span: Span) -> impl Iterator<Item = Token> {
        let within = move |token: &Token| span.holds(token.span);
        self.said_tokens().iter().copied().filter(within)
    }

    /// The tokens of what it says, as its tree counts them.
    pub fn said_tokens(&self) -> &[Token] {
        match &self.reading {
            Some(reading) => &reading.tokens,
            None => &self.tokens,
        }
    }
}

#[derive(Clone, Debug, PartialEq)]
pub enum Form {
    /// `use "spools.rig"`
    Use(Text),
    /// `rig harrow-low from harrow "title"`
    Block(Head),
    /// `change upper to 54 in`
    Change(Change),
    /// `let a = 2 m`, `limit least 16 in`
    Bind(Bind),
    /// `expect total at least 15 ft` and the conditions of rules
    Claim(Claim),
    /// Every other line: a key, values, clauses, a text.
    Plain(Plain),
}

impl Form {
    /// What opens a block, where the line does.
    pub fn head(&self) -> Option<&Head> {
        let Self::Block(head) = self else { return None };
        Some(head)
    }

    /// The line, where it is of the common shape.
    pub fn plain(&self) -> Option<&Plain> {
        let Self::Plain(plain) = self else { return None };
        Some(plain)
    }
}

/// A name or word, folded for comparison.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct Word {
    /// In Unicode NFC and lower case; hyphens plain.
    pub folded: Arc<str>,
    pub span: Span,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Text {
    /// With its quotes.
    pub span: Span,
    /// Between its quotes.
    pub inner: Span,
}

/// The head of a block.
#[derive(Clone, Debug, PartialEq)]
pub struct Head {
    pub kind: BlockKind,
    pub name: Word,
    pub base: Option<Word>,
    pub title: Option<Text>,
}

/// `change TARGET to …`
#[derive(Clone, Debug, PartialEq)]
pub struct Change {
    pub target: Target,
    /// Values behind `to`.
    pub items: Vec<Expr>,
    /// Clauses behind those.
    pub clauses: Vec<Clause>,
}

/// A label, or a role and its number: `upper`, `taper 2`.
#[derive(Clone, Debug, PartialEq)]
pub struct Target {
    pub name: Word,
    pub count: Option<u16>,
    pub span: Span,
}

/// `let NAME = …` or `limit NAME …`
#[derive(Clone, Debug, PartialEq)]
pub struct Bind {
    pub key: Word,
    pub name: Word,
    pub value: Expr,
}

/// `expect`, `keep`, `when` or `unless` with a condition.
#[derive(Clone, Debug, PartialEq)]
pub struct Claim {
    pub key: Word,
    /// What is judged.
    pub subject: Expr,
    /// What must hold of it.
    pub condition: Condition,
    /// The condition's words, first to last.
    pub condition_span: Span,
}

/// What a claim asks.
#[derive(Clone, Debug, PartialEq)]
pub enum Condition {
    /// `between A and B`
    Between(Box<Expr>, Box<Expr>),
    /// `at least A` and its like
    Bound(Bound, Box<Expr>),
    /// `is [not] A or B`
    Is {
        /// Whether `not` stands there.
        negated: bool,
        /// The words asked.
        words: Vec<Expr>,
    },
}

/// Any line of the common shape.
#[derive(Clone, Debug, PartialEq)]
pub struct Plain {
    pub key: Word,
    /// Values before the first joining word.
    pub items: Vec<Expr>,
    /// Clauses, each opened by a joining word.
    pub clauses: Vec<Clause>,
    /// The text that ends the values; a text behind a clause is the clause's.
    pub text: Option<Text>,
}

/// A joining word with its values.
#[derive(Clone, Debug, PartialEq)]
pub struct Clause {
    pub joint: Joint,
    /// Where that word stands.
    pub span: Span,
    pub items: Vec<Expr>,
    /// The text that ends it.
    pub text: Option<Text>,
}

/// An expression with its place in the line.
#[derive(Clone, Debug, PartialEq)]
pub struct Expr {
    pub kind: ExprKind,
    /// Where; parentheses around it count.
    pub span: Span,
}

impl Expr {
    /// The words of a dotted name; never empty.
    pub fn path(&self) -> Option<&[Word]> {
        let ExprKind::Path(words) = &self.kind else {
            return None;
        };
        Some(words)
    }

    /// The word of a name that has no dots.
    pub fn word(&self) -> Option<&Word> {
        let [word] = self.path()? else { return None };
        Some(word)
    }

    /// The quantity, where it is one and no more.
    pub fn single(&self) -> Option<&Single> {
        let ExprKind::Single(single) = &self.kind else {
            return None;
        };
        Some(single)
    }
}

#[derive(Clone, Debug, PartialEq)]
pub enum ExprKind {
    /// One quantity.
    Single(Single),
    /// `2 ft to 3 ft`, ends in the order written.
    Spread(Box<Single>, Box<Single>),
    /// A dotted name; never empty.
    Path(Vec<Word>),
    /// `min(a, b)`
    Call(Word, Vec<Expr>),
    /// Terms joined by `+` and `-`.
    Sum(Box<Expr>, Vec<(Sign, Expr)>),
    /// Factors joined by `times` and `/`.
    Product(Box<Expr>, Vec<(Operator, Expr)>),
}

/// What joins terms.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sign {
    /// `+`
    Plus,
    /// `-`
    Minus,
}

/// What joins factors.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Operator {
    /// `times`, spaced `x`, `*`, `×`
    Times,
    /// `/`, `÷`
    Over,
}

/// A quantity as written.
#[derive(Clone, Debug, PartialEq)]
pub struct Single {
    pub kind: SingleKind,
    pub span: Span,
}

impl Single {
    /// The number that stands for itself or before one unit.
    pub fn number(&self) -> Option<Number> {
        let SingleKind::Number(number, _) = self.kind else {
            return None;
        };
        Some(number)
    }

    /// The unit behind that number.
    pub fn unit(&self) -> Option<&Unit> {
        let SingleKind::Number(_, unit) = &self.kind else {
            return None;
        };
        unit.as_ref()
    }

    /// That number, where it is whole and has no unit.
    pub fn count(&self) -> Option<u32> {
        let value = self.number().filter(|_| self.unit().is_none())?.value;
        (value.fract() == 0.0).then_some(value as u32)
    }
}

#[derive(Clone, Debug, PartialEq)]
pub enum SingleKind {
    /// `3 ft 8 in`
    Feet(Number, Number),
    /// `4 lb 8 oz`
    Pounds(Number, Number),
    /// `6X`; of `03X`, three sizes stouter than `0X`, the number is -3
    X(Number),
    /// `#14`, `#2/0`: the span without the `#`
    Size(Span),
    /// `2026-05-14`
    Day,
    /// `44 in`, `8 turns`, `0.7`
    Number(Number, Option<Unit>),
}

/// A unit as written behind a number; whether there is such a unit is judged later.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Unit {
    /// In plain form: `'` and `"` for the marks, `C` and `F` or a bare `deg` for the degree signs,
    /// `2` and `3` for raised powers, no spaces.
    pub plain: Arc<str>,
    pub span: Span,
}

/// A number as written.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Number {
    /// Its value; finite, and below nothing only in an X size stouter than `0X`.
    pub value: f64,
    pub span: Span,
    /// Written like `1,200`, which may mean 1.2 or 1200.
    pub doubtful: bool,
}
