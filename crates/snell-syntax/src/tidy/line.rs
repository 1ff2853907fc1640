//! One line in its plain form, cut where the columns of its block begin.

use super::entry_of;
use super::joiner::join;
use super::leaves::leaves;
use super::same::says_the_same;
use crate::layout::is_space;
use crate::tree::{Form, Joint, Line};
use crate::words::fold;
use snell_text::Span;

/// The parts of a rig, whose lengths stand in a column.
const SECTIONS: [&str; 6] = ["line", "butt", "taper", "sighter", "tippet", "dropper"];

/// A line in its plain form.
pub(super) struct Laid {
    /// Its key; empty for a line that stands at the margin.
    pub(super) key: String,
    /// What stands before the first clause.
    pub(super) values: String,
    /// What stands from the first clause on.
    pub(super) rest: String,
    /// The comment that ends it.
    pub(super) comment: Option<String>,
    /// Whether its values stand in the column of lengths.
    pub(super) is_section: bool,
}

/// The plain form of a line that was read from `written`. `None` if it would
/// say something else.
pub(super) fn lay(written: &str, line: &Line) -> Option<Laid> {
    let leaves = leaves(written, &line.form);
    let key = key(&line.form, line.span)?;
    let clause = match &*line.form {
        Form::Plain(plain) => plain.clauses.first(),
        _ => None,
    };
    let cut = clause.map_or(line.span.end, |clause| clause.span.start);
    let behind = &written[line.span.end as usize..];
    let mut laid = Laid {
        key: fold(written.get(key.start as usize..key.end as usize)?),
        values: join(written, Span::new(key.end, cut), &leaves),
        rest: join(written, Span::new(cut, line.span.end), &leaves),
        comment: behind
            .find("//")
            .map(|at| behind[at..].trim_end_matches(is_space).to_owned()),
        is_section: false,
    };
    let joins = clause.is_some_and(|clause| matches!(clause.joint, Joint::Of | Joint::With));
    laid.is_section = joins && SECTIONS.contains(&laid.key.as_str());
    let entry = entry_of(&line.form);
    let plain = [&laid.key, &laid.values, &laid.rest]
        .map(String::as_str)
        .join(" ");
    if !says_the_same(entry, written, &plain) {
        return None;
    }
    if matches!(&*line.form, Form::Block(_) | Form::Use(_)) {
        laid.values = format!("{} {}", laid.key, laid.values);
        laid.key.clear();
    }
    Some(laid)
}

/// The word that begins the line.
fn key(form: &Form, line: Span) -> Option<Span> {
    let word = |length: usize| Span::new(line.start, line.start + length as u32);
    Some(match form {
        Form::Use(_) => word("use".len()),
        Form::Block(head) => word(head.kind.word().len()),
        Form::Change(_) => word("change".len()),
        Form::Bind(bind) => bind.key.span,
        Form::Claim(claim) => claim.key.span,
        Form::Plain(plain) => plain.key.span,
    })
}
