//! What a picture is laid out for: a page, whose text is measured in a real
//! font, or a terminal's cells.
//!
//! The font is DejaVu Sans, whose widths stand in a table. PNG is drawn in it. In SVG, text is text in the reader's own font; DejaVu Sans runs broader
//! than the fonts that systems come with, so what fits in it fits in those.

use crate::scene::{Run, Side, Text, TextRole, at};
use crate::widths::advance;
use unicode_width::UnicodeWidthStr;

/// What a picture is laid out for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Medium {
    /// A page, as wide as a phone; a unit is a CSS pixel there.
    Page,
    /// A page under a heading that says which rig it is.
    Sheet,
    /// A terminal of so many columns; a unit is a column, and a row is two units high.
    Cells(usize),
}

/// The height of a terminal's row in units.
pub(crate) const ROW: f64 = 2.0;

impl TextRole {
    /// The size of its letters on a page.
    pub(crate) const fn size(self) -> f64 {
        // CSS pixels, of which 96 make an inch: none is below 7 points on the paper that the picture is made for.
        match self {
            Self::Title => 17.0,
            Self::Name | Self::Figure => 11.5,
            Self::Detail | Self::Strong => 10.0,
            Self::Tick => 9.8,
        }
    }

    /// Whether it is set in bold.
    pub(crate) const fn is_bold(self) -> bool {
        matches!(self, Self::Title | Self::Name | Self::Strong)
    }
}

impl Medium {
    /// Whether it is a terminal.
    pub(crate) const fn is_cells(self) -> bool {
        matches!(self, Self::Cells(_))
    }

    /// Whether the picture itself has to say which rig it is of.
    pub(crate) const fn is_headed(self) -> bool {
        !matches!(self, Self::Sheet)
    }

    /// The width of a text.
    pub(crate) fn width(self, role: TextRole, text: &str) -> f64 {
        match self {
            Self::Cells(_) => text.width() as f64,
            Self::Page | Self::Sheet => {
                let letters = text.chars().map(|letter| advance(role.is_bold(), letter));
                letters.sum::<f64>() * role.size()
            }
        }
    }

    /// The height of a line of text.
    pub(crate) fn height(self, role: TextRole) -> f64 {
        match self {
            Self::Cells(_) => ROW,
            Self::Page | Self::Sheet => (role.size() * 1.25).ceil(),
        }
    }

    /// A line of text, measured.
    pub(crate) fn text(self, runs: Vec<Run>, (x, y): (f64, f64), side: Side) -> Text {
        Text {
            width: runs.iter().map(|run| self.width(run.role, &run.text)).sum(),
            height: runs.iter().map(|run| self.height(run.role)).fold(0.0, f64::max),
            runs,
            at: at(x, y),
            side,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Advances of DejaVu Sans 2.37 by `fc-query` and the font's own `hmtx` table: `m` 1995, `i` 569 of 2048.
    #[test]
    fn text_is_measured_in_the_font() {
        let width = Medium::Page.width(TextRole::Detail, "mi");
        assert!((width - (1995.0 + 569.0) / 2048.0 * 10.0).abs() < 1e-6, "{width}");
        assert_eq!(Medium::Cells(80).width(TextRole::Detail, "mi"), 2.0);
        assert_eq!(Medium::Page.width(TextRole::Detail, "漁"), 10.0);
    }
}
