//! Which block a line stands in, as far as that bears on how its author's own way is read.

use crate::vocabulary::BlockKind;

/// What kind of block a line belongs to.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) enum Within {
    /// None yet: a line of words above all others is a title.
    Top,
    /// Lines may lack their key, or say what the water is, or tell of a day.
    Rig,
    /// The same, of the first of several parts on one line: a piece that does not say which one it is, is the butt.
    RodEnd,
    /// Lines tell of a day, and what was caught counts.
    Outing,
    /// A fly, a water, a rule and their like, whose lines have keys of their own.
    Other,
}

impl Within {
    pub(crate) const COUNT: usize = 5;

    /// Whether lines are those of a rig.
    pub(crate) const fn is_rig(self) -> bool {
        match self {
            Self::Rig | Self::RodEnd => true,
            Self::Top | Self::Outing | Self::Other => false,
        }
    }

    /// What lines below a head of this kind may say.
    pub(crate) const fn of(kind: BlockKind) -> Self {
        match kind {
            BlockKind::Rig => Self::Rig,
            BlockKind::Outing => Self::Outing,
            BlockKind::Rod
            | BlockKind::Water
            | BlockKind::Bed
            | BlockKind::Material
            | BlockKind::Spool
            | BlockKind::Knot
            | BlockKind::Dressing
            | BlockKind::Fly
            | BlockKind::Rule
            | BlockKind::Rulebook => Self::Other,
        }
    }
}
