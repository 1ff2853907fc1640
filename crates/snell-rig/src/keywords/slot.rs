//! What fits the place of one value on a line.

use super::words::Named;
use snell_syntax::BlockKind;

/// One value of a line or clause.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Slot {
    /// What fits.
    pub take: Take,
    /// Whether it must be there.
    pub need: Need,
}

/// Whether a value must be there, and how often.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Need {
    /// It must.
    Must,
    /// It may.
    May,
    /// It may, several times.
    Many,
}

/// What fits a value's place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Take {
    /// A length.
    Length,
    /// The finished length of a part: never a diameter or a size.
    PartLength,
    /// A length that may be a spread.
    Depth,
    /// A line's size: `6X`, `0.22 mm`, `#5`, or upper `to` lower for a tapered piece.
    LineSize,
    /// A diameter: `0.15 mm`, `2 mm`, `6X`.
    Diameter,
    /// A bead's size: a diameter, or an inch label such as `5/64 in`.
    BeadSize,
    /// A mass.
    Mass,
    /// A force; a mass stands for its weight.
    Force,
    /// A speed, which may be a spread.
    Speed,
    /// How fast a rig is led: a speed, or a share of the surface's.
    Lead,
    /// A temperature.
    Temperature,
    /// A density, which may be a spread.
    Density,
    /// A stress, which may be a spread.
    Stress,
    /// A share such as `80 %`, which may be a spread.
    Share,
    /// A plain number.
    Plain,
    /// A number of turns: `8 turns`.
    Turns,
    /// A hook's size: `#14`.
    HookSize,
    /// A fly line's weight: `#3`.
    LineWeight,
    /// A day: `2026-05-14`.
    Day,
    /// The name of a block.
    Name(BlockKind),
    /// One of these words.
    Word(&'static [Named]),
    /// A name given here: `as upper`.
    Label,
    /// A colour.
    Colour,
    /// A dotted name of something that is looked up later.
    Path,
    /// Any value; judged where it is used.
    Any,
}

pub(super) const fn must(take: Take) -> Slot {
    Slot {
        take,
        need: Need::Must,
    }
}

pub(super) const fn may(take: Take) -> Slot {
    Slot {
        take,
        need: Need::May,
    }
}

pub(super) const fn many(take: Take) -> Slot {
    Slot {
        take,
        need: Need::Many,
    }
}

impl Take {
    /// The word that stands for it in a line's shape.
    pub fn word(self) -> String {
        let word = match self {
            Self::Length | Self::PartLength => "LENGTH",
            Self::Depth => "DEPTH",
            Self::LineSize => "SIZE",
            Self::Diameter => "DIAMETER",
            Self::BeadSize => "BEAD",
            Self::Mass => "MASS",
            Self::Force => "STRENGTH",
            Self::Speed => "SPEED",
            Self::Lead => "SPEED|SHARE",
            Self::Temperature => "TEMPERATURE",
            Self::Density => "DENSITY",
            Self::Stress => "STRESS",
            Self::Share => "SHARE",
            Self::Plain => "NUMBER",
            Self::Turns => "TURNS",
            Self::HookSize => "#SIZE",
            Self::LineWeight => "#WEIGHT",
            Self::Day => "DAY",
            Self::Name(kind) => return kind.word().to_uppercase(),
            Self::Word(words) => {
                let words: Vec<_> = words.iter().map(|named| named.word).collect();
                return words.join("|");
            }
            Self::Label => "LABEL",
            Self::Colour => "COLOUR",
            Self::Path => "NAME",
            Self::Any => "VALUE",
        };
        word.to_owned()
    }

    /// What it is, for a sentence: `a length such as 44 in`.
    pub fn told(self) -> String {
        let told = match self {
            Self::Length | Self::PartLength => "a length such as `44 in` or `1.2 m`",
            Self::Depth => "a depth such as `3 ft` or `2 ft to 3 ft`",
            Self::LineSize => "a line's size such as `6X` or `0.22 mm`",
            Self::Diameter => "a diameter such as `0.15 mm`",
            Self::BeadSize => "a bead's size such as `2.8 mm`",
            Self::Mass => "a mass such as `0.4 g`",
            Self::Force => "a strength such as `4 lb`",
            Self::Speed => "a speed such as `2 ft/s`",
            Self::Lead => "a speed such as `2 ft/s`, or a share of the surface's such as `69 %`",
            Self::Temperature => "a temperature such as `12 C`",
            Self::Density => "a density such as `1.14 g/cm3`",
            Self::Stress => "a stress such as `2 GPa`",
            Self::Share => "a share such as `80 %`",
            Self::Plain => "a plain number",
            Self::Turns => "a number of turns such as `8 turns`",
            Self::HookSize => "a hook's size such as `#14`",
            Self::LineWeight => "a line weight such as `#3`",
            Self::Day => "a day such as `2026-05-14`",
            Self::Name(kind) => return format!("the name of a {}", kind.word()),
            Self::Word(words) => {
                let words: Vec<_> = words.iter().map(|named| format!("`{}`", named.word)).collect();
                return words.join(" or ");
            }
            Self::Label => "a label of your own",
            Self::Colour => "a colour",
            Self::Path => "a name",
            Self::Any => "a value",
        };
        told.to_owned()
    }
}

impl Take {
    /// The same without an example: `a length`, `a fly`.
    pub fn told_in_short(self) -> String {
        if let Self::Name(kind) = self {
            return kind.one().to_owned();
        }
        let told = self.told();
        told.split(" such as ").next().unwrap_or(&told).to_owned()
    }
}
