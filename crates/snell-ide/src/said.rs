//! A finding as an editor tells it: in one piece, beside its text, where the
//! line that it is about is seen anyhow.

use snell_analysis::Notebook;
use snell_finding::Finding;
use snell_text::{Place, Span};

/// What is told of a finding, and where.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Said {
    /// What is underlined.
    pub place: Span,
    /// The message, with what stands at the place, the note and the help behind it, a line each.
    pub message: String,
    /// The other places, each with what it is.
    pub elsewhere: Vec<(Place, String)>,
}

/// A finding of a notebook's text, as it is told.
pub fn said(notebook: &Notebook, finding: &Finding) -> Said {
    let text = |place: Place| notebook.document(place.text).map(|document| &*document.text);
    let place = finding.place();
    let own = text(place).unwrap_or_default();
    let mut message = finding.message.clone();
    let here = finding.labels.first().filter(|label| !label.text.is_empty());
    let here = here.map(|label| alone(own, place.span, &label.text));
    for more in here.iter().chain(&finding.note).chain(&finding.help) {
        message.push('\n');
        message.push_str(more);
    }
    let others = finding.labels.iter().skip(1);
    let elsewhere = others.filter_map(|label| {
        let told = alone(text(label.place)?, label.place.span, &label.text);
        Some((label.place, told))
    });
    Said {
        place: seen(own, place.span),
        message,
        elsewhere: elsewhere.collect(),
    }
}

/// A label as it is told away from its line: a quantity with the words before it, `tippet 20 in`.
fn alone(text: &str, span: Span, label: &str) -> String {
    if label.is_empty() {
        return "here".to_owned();
    }
    if !label.starts_with(|letter: char| letter.is_ascii_digit()) {
        return label.to_owned();
    }
    let before = &text[..span.start as usize];
    let line = before.rfind(['\n', '\r']).map_or(0, |end| end + 1);
    format!("{} {label}", before[line..].trim()).trim().to_owned()
}

/// A span of no width has nothing to underline: it is moved onto the last character before it.
fn seen(text: &str, span: Span) -> Span {
    if !span.is_empty() {
        return span;
    }
    let before = &text[..span.start as usize];
    match before.chars().next_back() {
        Some(c) if c != '\n' && c != '\r' => Span::new(span.start - c.len_utf8() as u32, span.start),
        _ => span,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_quantity_away_from_its_line_has_the_words_before_it() {
        let text = "rig a\n  tippet 20 in of 6X\n";
        let length = Span::new(15, 20);
        assert_eq!(length.of(text), "20 in");
        assert_eq!(alone(text, length, "20 in, from b"), "tippet 20 in, from b");
        assert_eq!(alone(text, length, "lacks a size"), "lacks a size");
        assert_eq!(alone(text, length, ""), "here");
    }
}
