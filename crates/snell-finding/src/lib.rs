//! What is to be said about a text: a [`Finding`] with its places and ways out.
//!
//! One finding serves every reader: terminal, JSON, editor. So it holds no
//! output format and no colour, and it does not know the language.

mod code;
mod finding;
mod fix;
mod limit;

pub use code::{Code, FindingCode, Stage};
pub use finding::{Finding, Label, Level};
pub use fix::{Edit, Fix, apply};
pub use limit::{Counted, Limit, Told};
