//! The shape of a text: what folds, what a selection grows to, where `use`
//! lines lead, and how it should be laid out.

use super::walk::{ASKED, blocks_of, each_expr, each_within, extent, line_at, touches};
use snell_analysis::Notebook;
use snell_finding::{Edit, Limit, apply};
use snell_text::{Place, Span};
use std::path::PathBuf;

/// The blocks of the asked text that are longer than a line.
pub fn folds(notebook: &Notebook) -> Vec<Span> {
    let long =
        |block: &snell_rig::project::BlockRef<'_>| block.block.head.is_some() && !block.block.body.is_empty();
    blocks_of(notebook.project(), ASKED)
        .filter(long)
        .map(extent)
        .collect()
}

/// What a selection at a byte grows to, innermost first: values, the line, the block, the text.
pub fn grown(notebook: &Notebook, at: u32) -> Vec<Span> {
    let Some(document) = notebook.document(ASKED) else {
        return Vec::new();
    };
    let mut spans = vec![Span::new(0, document.text.len() as u32)];
    if let Some((block, line)) = line_at(notebook.project(), at) {
        spans.extend([extent(block), line.whole().span]);
        each_expr(&line.line.form, &mut |_, expr| {
            each_within(expr, &mut |inner| {
                let span = line.place(inner.span).span;
                if touches(span, at) {
                    spans.push(span);
                }
            });
        });
    }
    spans.dedup();
    spans.reverse();
    // Each must hold the one before it.
    let mut grown: Vec<Span> = Vec::new();
    for span in spans {
        if grown.last().is_none_or(|last| span.holds(*last)) {
            grown.push(span);
        }
    }
    grown
}

/// The paths of `use` lines of the asked text, each with the file that it leads to.
pub fn links(notebook: &Notebook) -> Vec<(Span, PathBuf)> {
    let project = notebook.project();
    let own = project.files().filter(|file| !project.ships(*file));
    let mut found = Vec::new();
    for source in own
        .map(|file| project.source(file))
        .filter(|source| source.file.text == ASKED)
    {
        for (used, index) in &source.uses {
            let line = &source.file.uses[*index];
            let place = line.path.inner.shifted(line.line.offset);
            let target = notebook.document(project.source(*used).file.text);
            found.extend(target.map(|document| {
                let path = document.real.as_ref().unwrap_or(&document.path);
                (place, path.clone())
            }));
        }
    }
    found
}

/// The edits that lay the asked text out; one edit where there are more than an editor should be sent.
pub fn tidied(notebook: &Notebook) -> Vec<Edit> {
    let Some(document) = notebook.document(ASKED) else {
        return Vec::new();
    };
    let edits = snell_syntax::tidy(&document.text, ASKED, &document.passages());
    match edits.len() > Limit::TidyEdits.count() {
        true => vec![joined(&document.text, edits)],
        false => edits,
    }
}

/// One edit for several: what lies between them comes along.
fn joined(text: &str, edits: Vec<Edit>) -> Edit {
    let spans = || edits.iter().map(|edit| edit.place.span);
    let start = spans().map(|span| span.start).min().unwrap_or_default();
    let end = spans().map(|span| span.end).max().unwrap_or_default();
    let whole = Span::new(start, end);
    let shifted = |edit: Edit| {
        let Span { start: from, end: to } = edit.place.span;
        (Span::new(from - start, to - start), edit.new)
    };
    let new = apply(whole.of(text), edits.into_iter().map(shifted));
    let place = Place::new(ASKED, whole);
    Edit { place, new }
}
