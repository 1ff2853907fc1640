//! The one table of what every line may say: keys, their values, clauses and
//! texts, for every kind of block.
//!
//! Checking, messages, completion and the reference read it. It says what a
//! line takes; what a line means is for the readers of blocks and rigs.

mod blocks;
mod outings;
mod rigs;
mod words;

pub use words::{CASTS, COLOURS, JOINED, METHODS, Named, is_colour};

use snell_syntax::{BlockKind, Joint};

/// One key of one kind of block.
#[derive(Debug, PartialEq)]
pub struct Row {
    /// The word that opens the line.
    pub key: &'static str,
    /// Values, in order.
    pub takes: &'static [Slot],
    /// Clauses, in any order.
    pub clauses: &'static [ClauseRow],
    /// Whether the line ends in a text.
    pub text: TextNeed,
    /// How often it may stand in a block.
    pub often: Often,
    /// One line of documentation.
    pub about: &'static str,
}

/// How often a key may stand in one block.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Often {
    /// At most once.
    Once,
    /// Exactly once.
    Needed,
    /// As often as wanted.
    Many,
}

/// Whether a line takes a text in quotes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TextNeed {
    /// No.
    None,
    /// It must end in one.
    Needed,
}

/// A clause of a line.
#[derive(Debug, PartialEq)]
pub struct ClauseRow {
    /// Its joining word.
    pub joint: Joint,
    /// Its values, in order.
    pub takes: &'static [Slot],
    /// Whether it takes a text.
    pub text: TextNeed,
}

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

const fn must(take: Take) -> Slot {
    Slot {
        take,
        need: Need::Must,
    }
}

const fn may(take: Take) -> Slot {
    Slot {
        take,
        need: Need::May,
    }
}

const fn many(take: Take) -> Slot {
    Slot {
        take,
        need: Need::Many,
    }
}

const fn clause(joint: Joint, takes: &'static [Slot]) -> ClauseRow {
    ClauseRow {
        joint,
        takes,
        text: TextNeed::None,
    }
}

impl Row {
    const fn new(key: &'static str, takes: &'static [Slot], about: &'static str) -> Self {
        Self {
            key,
            takes,
            clauses: &[],
            text: TextNeed::None,
            often: Often::Once,
            about,
        }
    }

    const fn text(key: &'static str, about: &'static str) -> Self {
        let mut row = Self::new(key, &[], about);
        row.text = TextNeed::Needed;
        row
    }

    const fn with(mut self, clauses: &'static [ClauseRow]) -> Self {
        self.clauses = clauses;
        self
    }

    const fn needed(mut self) -> Self {
        self.often = Often::Needed;
        self
    }

    const fn often(mut self) -> Self {
        self.often = Often::Many;
        self
    }

    /// The clause that a joining word opens here.
    pub fn clause(&self, joint: Joint) -> Option<&'static ClauseRow> {
        self.clauses.iter().find(|row| row.joint == joint)
    }

    /// What the line looks like: `tippet LENGTH [of STUFF] [as LABEL]`.
    pub fn shape(&self) -> String {
        let mut shape = self.key.to_owned();
        push_values(&mut shape, self.takes);
        for row in self.clauses {
            shape.push_str(" [");
            shape.push_str(row.joint.word());
            push_values(&mut shape, row.takes);
            if row.text == TextNeed::Needed {
                shape.push_str(" \"text\"");
            }
            shape.push(']');
        }
        if self.text == TextNeed::Needed {
            shape.push_str(" \"text\"");
        }
        shape
    }
}

fn push_values(shape: &mut String, slots: &[Slot]) {
    if let Some((word, _)) = rigs::GROUPS.iter().find(|(_, group)| *group == slots) {
        shape.push(' ');
        shape.push_str(word);
        return;
    }
    for slot in slots {
        shape.push(' ');
        let word = slot.take.word();
        match slot.need {
            Need::Must => shape.push_str(&word),
            Need::May => shape.push_str(&format!("[{word}]")),
            Need::Many => shape.push_str(&format!("[{word}]…")),
        }
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

/// The rows of a kind of block.
pub fn rows(kind: BlockKind) -> &'static [Row] {
    match kind {
        BlockKind::Rod => blocks::ROD,
        BlockKind::Water => blocks::WATER,
        BlockKind::Bed => blocks::BED,
        BlockKind::Material => blocks::MATERIAL,
        BlockKind::Spool => blocks::SPOOL,
        BlockKind::Knot => blocks::KNOT,
        BlockKind::Dressing => blocks::DRESSING,
        BlockKind::Fly => blocks::FLY,
        BlockKind::Rig => rigs::RIG,
        BlockKind::Rule => rigs::RULE,
        BlockKind::Rulebook => rigs::RULEBOOK,
        BlockKind::Outing => outings::OUTING,
    }
}

/// What a kind of block is, in one line.
pub const fn about(kind: BlockKind) -> &'static str {
    match kind {
        BlockKind::Rod => "A rod that rigs are fished on.",
        BlockKind::Water => "A place to fish: its depth, speed and bed.",
        BlockKind::Bed => "What a stream runs over, by the size of its grains.",
        BlockKind::Material => "What line is made of, or a bead.",
        BlockKind::Spool => "A spool of line: its label, what it measures, what is left on it.",
        BlockKind::Knot => "A knot: what it joins, how much strength it leaves, the line that it takes.",
        BlockKind::Dressing => "How a fly is dressed, as the water feels it.",
        BlockKind::Fly => "A fly: its hook, bead, wire and dressing.",
        BlockKind::Rig => "A rig, from the reel to the point fly, one line a part.",
        BlockKind::Rule => "A rule that rigs are held to.",
        BlockKind::Rulebook => "Rules that hold together, with their limits and levels.",
        BlockKind::Outing => {
            "A day at the water: the rig, what was changed at the bank, and what was caught."
        }
    }
}

/// The row of a key in a kind of block.
pub fn row(kind: BlockKind, key: &str) -> Option<&'static Row> {
    rows(kind).iter().find(|row| row.key == key)
}

/// The form of a line with a form of its own: `let`, `limit`, `change`, the condition words.
pub struct OwnForm {
    /// The word that opens it.
    pub key: &'static str,
    /// The kinds of block that it may stand in.
    pub within: &'static [BlockKind],
    /// What it looks like.
    pub shape: &'static str,
    /// One line of documentation.
    pub about: &'static str,
}

/// The lines with a form of their own.
pub const OWN_FORMS: &[OwnForm] = &[
    OwnForm {
        key: "let",
        within: &[BlockKind::Rig],
        shape: "let NAME = VALUE",
        about: "Gives a value a name for this rig's expressions.",
    },
    OwnForm {
        key: "expect",
        within: &[BlockKind::Rig],
        shape: "expect MEASURE CONDITION",
        about: "Fails the check when the condition does not hold.",
    },
    OwnForm {
        key: "change",
        within: &[BlockKind::Rig, BlockKind::Outing],
        shape: "change TARGET to …",
        about: "In a rig made from another, or at the water: gives a part other values.",
    },
    OwnForm {
        key: "limit",
        within: &[BlockKind::Rule],
        shape: "limit NAME VALUE",
        about: "Names a figure of the rule that a rulebook may set.",
    },
    OwnForm {
        key: "when",
        within: &[BlockKind::Rule],
        shape: "when MEASURE CONDITION",
        about: "The rule speaks only where this holds.",
    },
    OwnForm {
        key: "unless",
        within: &[BlockKind::Rule],
        shape: "unless MEASURE CONDITION",
        about: "The rule is silent where this holds.",
    },
    OwnForm {
        key: "keep",
        within: &[BlockKind::Rule],
        shape: "keep MEASURE CONDITION",
        about: "What the rule asks for.",
    },
];

/// The kind of part that a key of a rig writes, where it writes one.
pub fn is_part(key: &str) -> bool {
    rigs::PARTS.contains(&key)
}

/// The keys of a rig that are sections.
pub const SECTIONS: &[&str] = &["line", "butt", "taper", "sighter", "tippet"];
