//! The roles of pieces of line, which are those parts that have a length of leader.

use super::rigs::PartKind;

/// The role of a piece of line.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum SectionRole {
    /// The line on the reel, which does not count to the leader.
    Line,
    /// The first and thickest piece.
    Butt,
    /// A leader as it is bought.
    Leader,
    /// A piece that steps the leader down.
    Taper,
    /// A piece that is watched.
    Sighter,
    /// One of the last pieces.
    Tippet,
}

impl SectionRole {
    /// Every role, from the reel down.
    pub const ALL: [Self; 6] = [
        Self::Line,
        Self::Butt,
        Self::Leader,
        Self::Taper,
        Self::Sighter,
        Self::Tippet,
    ];

    /// The part that has it.
    pub const fn part(self) -> PartKind {
        match self {
            Self::Line => PartKind::Line,
            Self::Butt => PartKind::Butt,
            Self::Leader => PartKind::Leader,
            Self::Taper => PartKind::Taper,
            Self::Sighter => PartKind::Sighter,
            Self::Tippet => PartKind::Tippet,
        }
    }

    /// The word for it.
    pub fn word(self) -> &'static str {
        self.part().word()
    }
}

impl PartKind {
    /// Its role, where it is a piece of line.
    pub const fn role(self) -> Option<SectionRole> {
        match self {
            Self::Line => Some(SectionRole::Line),
            Self::Butt => Some(SectionRole::Butt),
            Self::Leader => Some(SectionRole::Leader),
            Self::Taper => Some(SectionRole::Taper),
            Self::Sighter => Some(SectionRole::Sighter),
            Self::Tippet => Some(SectionRole::Tippet),
            Self::Dropper
            | Self::Point
            | Self::Fly
            | Self::Knot
            | Self::Ring
            | Self::Swivel
            | Self::Inline
            | Self::Shot
            | Self::Float => None,
        }
    }
}
