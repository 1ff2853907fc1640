//! Rig files read: text in, a typed tree and located faults out.
//!
//! A file is read line by line, so a broken line costs that line and one
//! finding, nothing else. This crate knows how a line is built, not what its
//! words mean: it looks up no name and judges no unit. `tidy` lays a file out
//! anew without changing what it says.

// The parser is used without its guard of the stack, which looks at it at every step: how deep parentheses may
// stand is limited before. What it is made of then names this crate.
extern crate alloc;

mod ahead;
mod building;
mod faults;
mod hand;
mod kept;
mod layout;
mod limits;
mod lower;
mod named;
mod normal;
mod number;
mod outcome;
mod parse;
mod reader;
mod spans;
mod standalone;
mod tidy;
mod token;
mod tree;
mod vocabulary;
mod words;

pub use hand::species;
pub use layout::{has_lost_indent, is_indented};
pub use limits::{FINDING_LIMIT, LINE_LIMIT, NESTING_LIMIT};
pub use named::{BUILDS, COLOURS, FLY_WORDS, Named, SLOTTED, SWIVELS};
pub use number::fraction;
pub use reader::{Reader, read, whole};
pub use standalone::{expression, tokens};
pub use tidy::tidy;
pub use token::{Token, TokenKind};
pub use tree::{
    Bind, Block, Change, Claim, Clause, Condition, Expr, ExprKind, File, Form, Head, Line, Number, Operator,
    Plain, Reading, Rest, Sign, Single, SingleKind, Target, Text, Unit, UseLine, Word,
};
pub use vocabulary::{BlockKind, Bound, CONDITIONS, Joint, Link, OwnKey, is_joining};
pub use words::fold;
