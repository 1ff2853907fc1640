//! What can be measured on a rig, and the numbers that its parts go by.

macro_rules! ids {
    ($($(#[$meta:meta])* $name:ident)*) => {$(
        $(#[$meta])*
        #[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
        pub struct $name(u32);

        impl $name {
            /// The one with a number, counted from 0 at the reel.
            pub(crate) const fn at(number: usize) -> Self {
                Self(number as u32)
            }

            /// How many of its kind lie above it.
            pub const fn number(self) -> usize {
                self.0 as usize
            }
        }
    )*};
}

ids! {
    /// A piece of line. As a place on the line it stands for that piece's upper end, and so the number
    /// behind the last is the end of the line.
    SectionId
    /// Where two pieces meet.
    JoinId
    /// A tag with its fly.
    DropperId
    /// Two flies next to each other.
    GapId
    /// A fly.
    FlyId
    /// A shot.
    ShotId
    /// A float.
    FloatId
}

impl SectionId {
    /// The piece, or the end of the line, below it.
    #[must_use]
    pub const fn below(self) -> Self {
        Self(self.0 + 1)
    }

    /// The piece above a place on the line.
    pub fn above(self) -> Option<Self> {
        self.0.checked_sub(1).map(Self)
    }

    /// The join at its lower end, where another piece follows.
    pub const fn join(self) -> JoinId {
        JoinId(self.0)
    }

    /// The pieces from here down to a place on the line.
    pub fn down_to(self, end: Self) -> impl DoubleEndedIterator<Item = Self> + ExactSizeIterator + Clone {
        (self.0..end.0).map(Self)
    }
}

impl JoinId {
    /// The piece above it.
    pub const fn upper(self) -> SectionId {
        SectionId(self.0)
    }

    /// The piece below it.
    pub const fn lower(self) -> SectionId {
        SectionId(self.0 + 1)
    }
}

impl GapId {
    /// The fly at its upper end.
    pub const fn upper(self) -> FlyId {
        FlyId(self.0)
    }

    /// The fly at its lower end.
    pub const fn lower(self) -> FlyId {
        FlyId(self.0 + 1)
    }
}

impl FlyId {
    /// The gap below it, where another fly follows.
    pub const fn gap(self) -> GapId {
        GapId(self.0)
    }

    /// The next fly down the line, if there is one.
    #[must_use]
    pub const fn below(self) -> Self {
        Self(self.0 + 1)
    }
}

/// What a measure is of.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum Kind {
    /// The whole rig.
    Rig,
    /// A piece of line.
    Section,
    /// Where two sections meet.
    Join,
    /// A tag with its fly.
    Dropper,
    /// Two flies next to each other.
    Gap,
    /// A fly.
    Fly,
    /// A shot.
    Shot,
    /// The rod.
    Rod,
    /// The water.
    Water,
}

impl Kind {
    /// The kinds that a rule may look at one by one.
    pub const EACH: [Self; 6] = [
        Self::Section,
        Self::Join,
        Self::Dropper,
        Self::Gap,
        Self::Fly,
        Self::Shot,
    ];

    /// The kind that a word names, among those.
    pub fn of(word: &str) -> Option<Self> {
        Self::EACH.into_iter().find(|kind| kind.word() == word)
    }

    /// The word for it in the language.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Rig => "rig",
            Self::Section => "section",
            Self::Join => "join",
            Self::Dropper => "dropper",
            Self::Gap => "gap",
            Self::Fly => "fly",
            Self::Shot => "shot",
            Self::Rod => "rod",
            Self::Water => "water",
        }
    }
}

/// A thing that can be measured.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, PartialOrd, Ord)]
pub enum Thing {
    /// The whole rig.
    Rig,
    /// A piece of line.
    Section(SectionId),
    /// Where two pieces meet.
    Join(JoinId),
    /// A tag with its fly.
    Dropper(DropperId),
    /// Two flies next to each other.
    Gap(GapId),
    /// A fly.
    Fly(FlyId),
    /// A shot.
    Shot(ShotId),
    /// The rod.
    Rod,
    /// The water.
    Water,
}

impl Thing {
    /// What kind of thing it is.
    pub const fn kind(self) -> Kind {
        match self {
            Self::Rig => Kind::Rig,
            Self::Section(_) => Kind::Section,
            Self::Join(_) => Kind::Join,
            Self::Dropper(_) => Kind::Dropper,
            Self::Gap(_) => Kind::Gap,
            Self::Fly(_) => Kind::Fly,
            Self::Shot(_) => Kind::Shot,
            Self::Rod => Kind::Rod,
            Self::Water => Kind::Water,
        }
    }
}
