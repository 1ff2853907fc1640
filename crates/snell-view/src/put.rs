//! Where lines of the language go in a document: behind those of a file, or of the fence that they belong to.

use snell_analysis::{Document, Kind};
use snell_finding::Edit;
use snell_text::{Place, Span};

/// The edit that puts lines behind those of a file, or of the fence in which a place stands.
pub(crate) fn put(document: &Document, at: usize, lines: &str) -> Option<Edit> {
    if !document.kind.is_source() {
        return None;
    }
    let text = &*document.text;
    let in_fence = document.kind != Kind::Rig;
    let (end, margin) = if in_fence {
        end_of_fence(document, at)?
    } else {
        (text.len(), "")
    };
    let line_end = if text.contains("\r\n") { "\r\n" } else { "\n" };
    let mut new = String::new();
    if !text[..end].ends_with('\n') {
        new.push_str(line_end);
    }
    for line in std::iter::once("").chain(lines.lines()) {
        let line = format!("{margin}{line}");
        new.push_str(line.trim_end());
        new.push_str(line_end);
    }
    // A fence's last line keeps the end that it had.
    let new = match new.strip_suffix(line_end) {
        Some(shorter) if in_fence => shorter.to_owned(),
        Some(_) | None => new,
    };
    Some(Edit {
        place: Place::new(document.id, Span::empty(end as u32)),
        new,
    })
}

/// The end of the last line of the fence in which a place stands, and what stands before each of its lines.
fn end_of_fence(document: &Document, at: usize) -> Option<(usize, &str)> {
    let text = &*document.text;
    let holds = |span: &Span| (span.start as usize..=span.end as usize).contains(&at);
    let fence = document
        .page()
        .fences
        .iter()
        .find(|fence| fence.lines.iter().any(holds))?;
    let last = fence.lines.last()?;
    let end = text[last.end as usize..]
        .find(['\n', '\r'])
        .map_or(text.len(), |more| last.end as usize + more);
    let start = text[..at].rfind(['\n', '\r']).map_or(0, |end| end + 1);
    let margin = &text[start..at];
    let plain = margin.chars().all(|letter| matches!(letter, ' ' | '\t' | '>'));
    plain.then_some((end, margin))
}
