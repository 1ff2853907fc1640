//! Markers in pairs: what opens and the `end` that closes it, and what is wrong
//! with how they stand.
//!
//! What a marker asks for is not known here.

use super::words::{END, USE, first};
use snell_finding::{Code, Finding, Fix};
use snell_text::{Marker, Place, Span, Stands, TextId};

const END_MARKER: &str = "<!-- rig: end -->";

/// A marker and its end.
#[derive(Clone, Debug)]
pub(super) struct Pair {
    pub open: Marker,
    pub end: Marker,
    /// The checksum in the end marker, where there is one.
    pub checksum: Option<Span>,
}

impl Pair {
    /// What stands between them.
    pub fn inside(&self) -> Span {
        Span::new(self.open.comment.end, self.end.comment.start)
    }

    /// With both markers.
    pub fn around(&self) -> Span {
        self.open.comment.to(self.end.comment)
    }
}

/// The pairs of a page in order, and what is wrong with markers that are none.
pub(super) fn pairs(page: &str, markers: &[Marker], text: TextId) -> (Vec<Pair>, Vec<Finding>) {
    let mut pairing = Pairing {
        page,
        text,
        pairs: Vec::new(),
        open: Vec::new(),
        findings: Vec::new(),
    };
    for marker in markers {
        let word = first(marker.words.of(page));
        if marker.stands == Stands::Open {
            pairing.unended(marker);
        } else if word.eq_ignore_ascii_case(USE) {
            pairing.used(marker);
        } else if word.eq_ignore_ascii_case(END) {
            pairing.ended(marker.clone());
        } else {
            pairing.open.push(marker.clone());
        }
    }
    for marker in std::mem::take(&mut pairing.open) {
        pairing.unclosed(&marker);
    }
    (pairing.pairs, pairing.findings)
}

struct Pairing<'t> {
    page: &'t str,
    text: TextId,
    pairs: Vec<Pair>,
    open: Vec<Marker>,
    findings: Vec<Finding>,
}

impl Pairing<'_> {
    fn place(&self, marker: &Marker) -> Place {
        Place::new(self.text, marker.comment)
    }

    fn ended(&mut self, end: Marker) {
        let written = end.words.of(self.page);
        let behind = written[END.len()..].trim_start();
        if behind.contains(char::is_whitespace) {
            let message = "an `end` has nothing behind it but its checksum";
            let finding = Finding::fault(Code::MarkerUnread, self.place(&end), message);
            self.findings
                .push(finding.help("write `<!-- rig: end -->`; `snell fill` puts the checksum there"));
            return;
        }
        let checksum =
            (!behind.is_empty()).then(|| Span::new(end.words.end - behind.len() as u32, end.words.end));
        let Some(open) = self.open.pop() else {
            let finding = Finding::fault(
                Code::MarkerEndAlone,
                self.place(&end),
                "this `end` closes no marker",
            );
            self.findings
                .push(finding.help("take it out, or put a marker before it"));
            return;
        };
        // They are closed in order, so that those within stand behind.
        let first = self
            .pairs
            .partition_point(|pair| pair.open.comment.start < open.comment.start);
        let inner = self.pairs.split_off(first);
        if inner.is_empty() {
            self.pairs.push(Pair { open, end, checksum });
            return;
        }
        // Neither is filled: what the outer one writes would take the inner one away.
        for pair in inner {
            let finding = Finding::fault(
                Code::MarkerNested,
                self.place(&pair.open),
                "this marker stands inside another",
            );
            let finding = finding
                .label(self.place(&open), "which opens here")
                .help("what a marker fills is written anew as a whole: close the outer one first");
            self.findings.push(finding);
        }
    }

    fn unclosed(&mut self, marker: &Marker) {
        let behind = Place::new(self.text, Span::empty(marker.comment.end));
        let before = &self.page[..marker.comment.start as usize];
        let end = if marker.stands != Stands::Alone {
            Some(END_MARKER.to_owned())
        } else if before.is_empty() || before.ends_with('\n') {
            let line_end = if self.page.contains("\r\n") { "\r\n" } else { "\n" };
            Some(format!("{line_end}{END_MARKER}"))
        } else {
            // In a list or a quote the new line would want its margin.
            None
        };
        let mut finding = Finding::fault(
            Code::MarkerUnclosed,
            self.place(marker),
            "this marker is not closed",
        )
        .help("write `<!-- rig: end -->` behind what it fills");
        if let Some(end) = end {
            finding = finding.fix(Fix::offered("close it here", behind, end));
        }
        self.findings.push(finding);
    }

    fn unended(&mut self, marker: &Marker) {
        let finding = Finding::fault(
            Code::MarkerUnread,
            self.place(marker),
            "this comment does not end on its line",
        );
        self.findings
            .push(finding.help("a marker is one comment on one line: `<!-- rig: show RIG -->`"));
    }

    fn used(&mut self, marker: &Marker) {
        if marker.stands != Stands::Alone {
            let finding = Finding::fault(
                Code::MarkerNotAlone,
                self.place(marker),
                "`use` is not alone on its line",
            );
            self.findings.push(finding.help("put it on a line of its own"));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn told(page: &str) -> (Vec<&str>, Vec<String>) {
        let markers = snell_text::Page::read(page, snell_text::Markup::Markdown).markers;
        let (pairs, findings) = pairs(page, &markers, TextId(0));
        (
            pairs.iter().map(|pair| pair.open.words.of(page)).collect(),
            findings
                .iter()
                .map(|finding| format!("{} @{}", finding.code, finding.place().span.start))
                .collect(),
        )
    }

    #[test]
    fn every_slip_is_one_finding_and_hurts_no_neighbour() {
        let page = |markers: &[&str]| {
            let comment = |words: &&str| format!("<!-- rig: {words} -->\n\n");
            markers.iter().map(comment).collect::<String>()
        };
        let fine = page(&["show a", "end", "show b", "end"]);
        assert_eq!(told(&fine), (vec!["show a", "show b"], vec![]));
        let unclosed = page(&["show a", "show b", "end"]);
        assert_eq!(
            told(&unclosed),
            (vec!["show b"], vec!["marker-unclosed @0".to_owned()])
        );
        let nested = page(&["show a", "show b", "end", "end", "show c", "end"]);
        assert_eq!(
            told(&nested),
            (vec!["show c"], vec!["marker-nested @22".to_owned()])
        );
        let alone = page(&["end", "show a", "end"]);
        assert_eq!(
            told(&alone),
            (vec!["show a"], vec!["marker-end-alone @0".to_owned()])
        );
        assert_eq!(
            told("a <!-- rig: use \"b.rig\" -->\n").1,
            ["marker-not-alone @2".to_owned()]
        );
    }
}
