//! Where the columns of the picture stand: ruler, flies' labels, tags, the
//! line, and the labels of its parts.

use crate::labels::Column;
use crate::medium::Medium;
use crate::scene::Side;

/// The columns of a picture, from left to right.
#[derive(Clone, Copy, Debug)]
pub(super) struct Frame {
    pub width: f64,
    pub margin: f64,
    /// Where the strip with the whole rig stands, where there is one.
    pub strip: Option<f64>,
    /// Where the ruler's edge stands.
    pub ruler: f64,
    /// Flies' labels; where there is no room for them, they stand among those of the parts.
    pub flies: Option<Column>,
    /// Where pointers to flies bend.
    pub flies_bend: f64,
    /// How far a tag may run to the left.
    pub tag_room: f64,
    /// Where the line hangs.
    pub line: f64,
    /// Where pointers to parts bend.
    pub bend: f64,
    /// The parts' labels.
    pub parts: Column,
    /// How tall the leader is drawn: at least, at most, and for each of its metres, labels allowing.
    pub tall: (f64, f64, f64),
    /// How tall a piece is drawn that is not to scale.
    pub stub: f64,
    /// How much taller than its labels the picture is, so that most stand level with what they are of.
    pub slack: f64,
    /// How far from a thing its pointer begins.
    pub clear: f64,
    /// Between blocks.
    pub space: f64,
    /// Whether pieces have a line of text each, and knots that nobody named none.
    pub dense: bool,
}

/// What a rig is laid out on to scale.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Paper {
    /// A page of its own.
    Page,
    /// A sheet that it shares with another picture, under one heading.
    Sheet,
    /// The narrow window of an editor.
    Hover,
}

impl Paper {
    pub const fn medium(self) -> Medium {
        match self {
            Self::Page => Medium::Page,
            Self::Sheet => Medium::Sheet,
            Self::Hover => Medium::Hover,
        }
    }
}

/// With more pieces than these a picture would not fit on a sheet of paper.
const MANY: usize = 14;
/// How tall a piece of so many is drawn that is not to scale.
const DENSE_STUB: f64 = 17.0;

impl Frame {
    /// The places on a paper, with one for a strip beside the rig where it has an inset, and close together where it
    /// has many pieces.
    pub(super) fn of(paper: Paper, inset: bool, pieces: usize) -> Self {
        let frame = Self::roomy(paper, inset);
        if pieces <= MANY {
            return frame;
        }
        // Flies stand among the other parts, so that each piece has room for a line of its own.
        let tag_room = match paper {
            Paper::Page => frame.tag_room,
            Paper::Sheet | Paper::Hover => 20.0,
        };
        let moved = frame.ruler + tag_room + 22.0 - frame.line;
        Self {
            dense: true,
            stub: DENSE_STUB,
            tag_room,
            flies: None,
            line: frame.line + moved,
            bend: frame.bend + moved,
            parts: Column {
                edge: frame.parts.edge + moved,
                width: frame.parts.width - moved,
                gap: 2.0,
                ..frame.parts
            },
            ..frame
        }
    }

    fn roomy(paper: Paper, inset: bool) -> Self {
        match paper {
            Paper::Page => PAGE.beside(inset),
            Paper::Sheet => SHEET.beside(inset),
            // The end of a leader alone: there is no room for the whole beside it.
            Paper::Hover => HOVER,
        }
    }

    /// The same with all of its columns moved aside for a strip with the whole rig, where there is one.
    fn beside(self, strip: bool) -> Self {
        const ASIDE: f64 = 18.0;
        if !strip {
            return self;
        }
        let aside = |column: Column| Column {
            edge: column.edge + ASIDE,
            width: column.width - ASIDE,
            ..column
        };
        Self {
            strip: Some(self.margin + 6.0),
            ruler: self.ruler + 38.0,
            flies: self.flies.map(aside),
            flies_bend: self.flies_bend + ASIDE,
            line: self.line + ASIDE,
            bend: self.bend + ASIDE,
            parts: aside(self.parts),
            ..self
        }
    }
}

const PAGE: Frame = Frame {
    width: 420.0,
    margin: 16.0,
    strip: None,
    ruler: 47.0,
    flies: Some(Column {
        edge: 158.0,
        width: 102.0,
        side: Side::Ends,
        gap: 4.0,
    }),
    flies_bend: 169.0,
    tag_room: 40.0,
    line: 224.0,
    bend: 236.0,
    parts: Column {
        edge: 258.0,
        width: 147.0,
        side: Side::Begins,
        gap: 4.0,
    },
    tall: (300.0, 760.0, 120.0),
    stub: 44.0,
    slack: 1.08,
    clear: 8.0,
    space: 14.0,
    dense: false,
};

/// Half of a sheet of A4: two columns of 350 CSS pixels stand beside each other between its margins.
const SHEET: Frame = Frame {
    width: 350.0,
    margin: 6.0,
    ruler: 44.0,
    flies: Some(Column {
        edge: 131.0,
        width: 78.0,
        side: Side::Ends,
        gap: 4.0,
    }),
    flies_bend: 141.0,
    line: 194.0,
    bend: 206.0,
    parts: Column {
        edge: 228.0,
        width: 117.0,
        side: Side::Begins,
        gap: 4.0,
    },
    tall: (240.0, 560.0, 90.0),
    stub: 32.0,
    ..PAGE
};

const HOVER: Frame = Frame {
    width: 300.0,
    margin: 4.0,
    ruler: 43.0,
    flies: Some(Column {
        edge: 115.0,
        width: 67.0,
        side: Side::Ends,
        gap: 3.0,
    }),
    flies_bend: 122.0,
    tag_room: 30.0,
    line: 158.0,
    bend: 166.0,
    parts: Column {
        edge: 181.0,
        width: 115.0,
        side: Side::Begins,
        gap: 3.0,
    },
    tall: (150.0, 260.0, 60.0),
    stub: 20.0,
    space: 10.0,
    dense: true,
    ..PAGE
};
