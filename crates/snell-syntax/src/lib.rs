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
mod faults;
mod kept;
mod layout;
mod lower;
mod number;
mod parse;
mod pieces;
mod reader;
mod spans;
mod standalone;
mod tidy;
mod token;
mod tree;
mod words;

pub use layout::has_lost_indent;
pub use reader::{FINDING_LIMIT, LINE_LIMIT, NESTING_LIMIT, Reader, read, whole};
pub use standalone::expression;
pub use tidy::tidy;
pub use token::{Token, TokenKind};
pub use tree::{
    Bind, Block, BlockKind, Bound, Change, Claim, Clause, Condition, Expr, ExprKind, File, Form, Head, Joint,
    Line, Number, Operator, Plain, Sign, Single, SingleKind, Target, Text, Unit, UseLine, Word,
};
pub use words::fold;
