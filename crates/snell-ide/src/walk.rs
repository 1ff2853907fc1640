//! Walking over the lines and expressions of a text: what stands at a byte, and
//! every name in a line.
//!
//! It looks nothing up; what a name means is for `names`.

use snell_rig::Project;
use snell_rig::project::{BlockRef, LineRef};
use snell_syntax::{Condition, Expr, ExprKind, Form, Joint, Plain};
use snell_text::{Span, TextId};

/// The text that the editor asks about is the first of its notebook.
pub const ASKED: TextId = TextId(0);

/// The blocks of a text, in the order of its files.
pub fn blocks_of(project: &Project, text: TextId) -> impl Iterator<Item = BlockRef<'_>> {
    let own = project
        .files()
        .filter(move |file| !project.ships(*file) && project.source(*file).file.text == text);
    own.flat_map(move |file| project.blocks(file))
}

/// A block's head and body lines.
pub fn lines_of<'p>(block: BlockRef<'p>) -> impl Iterator<Item = LineRef<'p>> {
    block.head_line().into_iter().chain(block.lines())
}

/// The block and line whose words hold a byte of the asked text, or end at it.
pub fn line_at(project: &Project, at: u32) -> Option<(BlockRef<'_>, LineRef<'_>)> {
    blocks_of(project, ASKED).find_map(|block| {
        let line = lines_of(block).find(|line| touches(line.whole().span, at))?;
        Some((block, line))
    })
}

/// Whether a byte lies in a span or at its end, as a cursor does.
pub fn touches(span: Span, at: u32) -> bool {
    span.start <= at && at <= span.end
}

/// From a block's first word to the end of its last.
pub fn extent(block: BlockRef<'_>) -> Span {
    let mut spans = lines_of(block).map(|line| line.whole().span);
    let first = spans.next().unwrap_or_default();
    spans.fold(first, Span::to)
}

/// Each expression of a line, with the joining word of its clause.
pub fn each_expr<'p>(form: &'p Form, found: &mut dyn FnMut(Option<Joint>, &'p Expr)) {
    match form {
        Form::Use(_) | Form::Block(_) => {}
        Form::Bind(bind) => found(None, &bind.value),
        Form::Change(change) => {
            change.items.iter().for_each(|item| found(None, item));
            for clause in &change.clauses {
                clause
                    .items
                    .iter()
                    .for_each(|item| found(Some(clause.joint), item));
            }
        }
        Form::Claim(claim) => {
            found(None, &claim.subject);
            match &claim.condition {
                Condition::Between(low, high) => {
                    found(None, low);
                    found(None, high);
                }
                Condition::Bound(_, limit) => found(None, limit),
                Condition::Is { words, .. } => words.iter().for_each(|word| found(None, word)),
            }
        }
        Form::Plain(Plain { items, clauses, .. }) => {
            items.iter().for_each(|item| found(None, item));
            for clause in clauses {
                clause
                    .items
                    .iter()
                    .for_each(|item| found(Some(clause.joint), item));
            }
        }
    }
}

/// Each expression within an expression, the outer one first.
pub fn each_within<'p>(expr: &'p Expr, found: &mut dyn FnMut(&'p Expr)) {
    found(expr);
    match &expr.kind {
        ExprKind::Single(_) | ExprKind::Spread(..) | ExprKind::Path(_) => {}
        ExprKind::Call(_, arguments) => arguments.iter().for_each(|one| each_within(one, found)),
        ExprKind::Sum(first, rest) => {
            each_within(first, found);
            rest.iter().for_each(|(_, one)| each_within(one, found));
        }
        ExprKind::Product(first, rest) => {
            each_within(first, found);
            rest.iter().for_each(|(_, one)| each_within(one, found));
        }
    }
}

/// The innermost expression of a line at a byte of its text, with the joining word of its clause.
pub fn expr_at<'p>(line: LineRef<'p>, at: u32) -> Option<(Option<Joint>, &'p Expr)> {
    let mut hit = None;
    each_expr(&line.line.form, &mut |joint, expr| {
        each_within(expr, &mut |inner| {
            if touches(line.place(inner.span).span, at) {
                hit = Some((joint, inner));
            }
        });
    });
    hit
}
