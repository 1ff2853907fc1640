//! A place between two markers: where it lies, who wrote what stands there, and
//! what is told where that is somebody else's.

use crate::checksum::Author;
use crate::lay::Lay;
use crate::words::END;
use snell_finding::{Code, Finding, Fix, Level};
use snell_text::{Place, Span, TextId};

/// A place between two markers.
#[derive(Clone, Debug)]
pub struct Slot {
    /// The marker that opens it.
    pub open: Span,
    /// What stands between the markers.
    pub inside: Span,
    /// That with both markers.
    pub around: Span,
    /// The words of the marker that closes it, checksum and all.
    pub end: Span,
    /// Who wrote what stands there.
    pub author: Author,
    /// How it lies in the page.
    pub lay: Lay,
}

impl Slot {
    /// What is told where text of somebody else is kept, with both ways out. `instead` is what would stand here.
    pub fn kept(&self, page: &str, text: TextId, instead: &str) -> Finding {
        self.told(page, text).help(format!("the rig says: {instead}"))
    }

    /// What `check` says, which does not know what would stand here: text that was changed since it was filled is a
    /// fault; of text without a checksum nobody can tell.
    pub(super) fn judged(&self, page: &str, text: TextId) -> Option<Finding> {
        match self.author {
            Author::Nobody | Author::Snell => None,
            Author::Somebody => {
                let finding = self.told(page, text);
                Some(finding.help("`snell fill` says what the rig has there"))
            }
            Author::Unknown => {
                let mut finding = self.told(page, text);
                finding.level = Level::Advice;
                Some(finding.help("`snell fill` puts one there where it is what the rig says"))
            }
        }
    }

    fn told(&self, page: &str, text: TextId) -> Finding {
        let message = match self.author {
            Author::Somebody => "what stands here was changed since it was filled, and is kept",
            Author::Unknown | Author::Nobody | Author::Snell => {
                "what stands here has no checksum, so it may be somebody's own and is kept"
            }
        };
        let here = |span| Place::new(text, span);
        let behind = Span::new(self.inside.end, self.around.end);
        let end = behind.of(page).replacen(self.end.of(page), END, 1);
        let empty = match self.lay {
            Lay::Lines { .. } if page.contains("\r\n") => "\r\n",
            Lay::Lines { .. } => "\n",
            Lay::Within => "",
        };
        Finding::fault(
            Code::MarkerHoldsText,
            here(first_line(page, self.inside)),
            message,
        )
        .label(here(self.open), "it belongs to this marker")
        .fix(Fix::offered(
            "take the text out, so that `snell fill` fills the place",
            here(Span::new(self.inside.start, self.around.end)),
            format!("{empty}{}{end}", margin(page, self.inside)),
        ))
        .fix(Fix::offered(
            "keep the text, and take the markers out",
            here(self.around),
            self.inside.of(page).trim(),
        ))
    }
}

/// What stands before the end marker on its line.
fn margin(page: &str, inside: Span) -> &str {
    let inside = inside.of(page);
    inside.rfind('\n').map_or("", |at| &inside[at + 1..])
}

/// The first line that has anything on it.
fn first_line(page: &str, inside: Span) -> Span {
    let mut lines = snell_text::lines(inside.of(page)).map(|line| line.shifted(inside.start));
    lines
        .find(|line| !line.of(page).trim_matches([' ', '\t', '>']).is_empty())
        .unwrap_or(inside)
}
