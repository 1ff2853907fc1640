//! What names mean where an expression stands.

use crate::faults::Faults;
use crate::lack::{Lack, Outcome};
use crate::project::LineRef;
use snell_finding::{Code, Finding};
use snell_syntax::Word;
use snell_text::Span;

/// What names mean where an expression stands.
pub trait Scope {
    /// The value of a dotted name.
    fn path(&self, line: LineRef<'_>, path: &[Word], span: Span) -> Outcome;

    /// Where faults go.
    fn faults(&self) -> &Faults;
}

/// The scope of blocks other than rigs: there are no names in it.
pub struct Constants<'a>(pub &'a Faults);

impl Scope for Constants<'_> {
    fn path(&self, line: LineRef<'_>, _path: &[Word], span: Span) -> Outcome {
        let message = format!("`{}` means nothing here", line.written(span));
        let finding = Finding::fault(Code::NameUnknown, line.place(span), message);
        Err(self
            .0
            .lack(finding.help("names of values can be used in rigs only; write the value itself")))
    }

    fn faults(&self) -> &Faults {
        self.0
    }
}

/// A value is wanted where none can be had.
pub fn no_value(faults: &Faults, line: LineRef<'_>, span: Span, what: &str) -> Lack {
    let message = format!("`{}` {what}", line.written(span));
    faults.lack(Finding::fault(Code::NotAValue, line.place(span), message))
}
