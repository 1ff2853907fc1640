//! How what a marker asks for lies in its page: on lines of its own behind the
//! margin of its list or quote, or in running text.

use super::pairs::Pair;
use super::words::{What, Wish};
use snell_analysis::Document;
use snell_finding::{Code, Finding, Fix};
use snell_text::{Marker, Place, Span, Stands};

/// How a filled place lies in its page.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Lay {
    /// On lines of its own, each behind this margin.
    Lines {
        /// What the list or quote around it puts before every line.
        margin: String,
    },
    /// In running text.
    Within,
}

/// How a pair lies; `None`, and a finding, where it cannot lie so.
pub(super) fn lay(
    document: &Document,
    pair: &Pair,
    wish: &Wish<'_>,
    findings: &mut Vec<Finding>,
) -> Option<Lay> {
    let page: &str = &document.text;
    let inside = pair.inside().of(page);
    let both_alone = pair.open.stands == Stands::Alone && pair.end.stands == Stands::Alone;
    let place = |span| Place::new(document.id, span);
    if both_alone || inside.trim().is_empty() && is_one_line(page, pair) {
        let is_block = matches!(wish.what, What::Block { .. });
        if is_block || both_alone {
            let margin = margin(page, pair.open.comment.start);
            return Some(Lay::Lines { margin });
        }
    }
    if let What::Block { .. } = wish.what {
        let lone = |marker: &Marker| marker.stands == Stands::Alone;
        let marker = if lone(&pair.open) { &pair.end } else { &pair.open };
        let message = "this marker shares its line, and what it fills needs lines of its own";
        findings.push(
            Finding::fault(Code::MarkerNotAlone, place(marker.comment), message)
                .help("put both comments alone on a line"),
        );
        return None;
    }
    for marker in [&pair.open, &pair.end] {
        if marker.stands == Stands::AtHead {
            findings.push(at_head(document, marker));
        }
    }
    Some(Lay::Within)
}

/// Whether both markers are on one line with nothing before or behind them.
fn is_one_line(page: &str, pair: &Pair) -> bool {
    let behind = page[pair.end.comment.end as usize..]
        .lines()
        .next()
        .unwrap_or_default();
    pair.open.stands == Stands::AtHead && !pair.inside().of(page).contains('\n') && behind.trim().is_empty()
}

/// What stands before every line of a list or quote: the marks of a quote, and room for those of a list.
fn margin(page: &str, at: u32) -> String {
    let before = &page[..at as usize];
    let start = before.rfind(['\n', '\r']).map_or(0, |end| end + 1);
    let kept = |letter: char| {
        if matches!(letter, '>' | '\t') { letter } else { ' ' }
    };
    before[start..].chars().map(kept).collect()
}

/// A comment at the head of a line of running text: Markdown reads the whole line as HTML, and a paragraph ends
/// before it.
fn at_head(document: &Document, marker: &Marker) -> Finding {
    let page: &str = &document.text;
    let place = Place::new(document.id, marker.comment);
    let message = "a line that begins with a comment is HTML to Markdown, and no part of its paragraph";
    let finding = Finding::new(Code::MarkerAtHead, snell_finding::Level::Caution, place, message);
    match line_above(page, marker.comment.start) {
        Some(gap) => finding.help("let a word stand before it").fix(Fix::sure(
            "take the line up to the one above",
            Place::new(document.id, gap),
            " ",
        )),
        None => finding.help("begin the line with a word"),
    }
}

/// The line end and margin before a line of running text that goes on from the one above.
fn line_above(page: &str, at: u32) -> Option<Span> {
    let before = &page[..at as usize];
    let line = before.rfind('\n')?;
    let above = before[..line].trim_end_matches('\r');
    let written = above[above.rfind('\n').map_or(0, |end| end + 1)..].trim_end();
    let own = |line: &str| line.trim_start_matches([' ', '\t', '>']).to_owned();
    let text = own(written);
    let is_text = text.starts_with(char::is_alphanumeric) && !before[line + 1..].contains(['-', '*', '+']);
    let written_end = above.rfind('\n').map_or(0, |end| end + 1) + written.len();
    is_text.then(|| Span::from(written_end..at as usize))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn margins_keep_quotes_and_make_room_for_lists() {
        for (line, expected) in [
            ("<!--", ""),
            ("> <!--", "> "),
            ("text\n  - <!--", "    "),
            ("> 1. <!--", ">    "),
        ] {
            let at = line.find("<!--").expect("a comment") as u32;
            assert_eq!(margin(line, at), expected);
        }
    }

    #[test]
    fn only_a_line_of_text_takes_another_up() {
        let gap = |page: &str| {
            let at = page.find("<!--").expect("a comment");
            line_above(page, at as u32).map(|gap| gap.of(page).to_owned())
        };
        assert_eq!(gap("It is\n<!--"), Some("\n".to_owned()));
        assert_eq!(gap("> It is  \r\n> <!--"), Some("  \r\n> ".to_owned()));
        assert_eq!(gap("\n<!--"), None);
        assert_eq!(gap("# A\n<!--"), None);
        assert_eq!(gap("a\n- <!--"), None);
    }
}
