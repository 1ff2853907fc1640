//! The one table of measures: what can be told of a rig and its parts.
//!
//! Claims, rules, `show` and the reference read it. A measure is a function of
//! an evaluation; adding one is a row of `table` and a function beside its like.

mod bearing;
mod fly;
mod gap;
mod join;
mod length;
mod section;
mod strength;
mod table;
mod water;

pub(crate) use join::ratio_of as join_ratio;
pub use length::under_sighter;
pub use strength::{places as breaking_places, weakest_place};
pub use table::MEASURES;
pub use water::{
    DOWN, Drifting, Hanging, Sinking, at_rest, bed_grain, carried_by, drifting, hanging, sinking, sinking_of,
    stream,
};

use crate::evaluation::Evaluation;
use crate::value::{Outcome, Value};
use rustc_hash::FxHashMap;
use snell_units::Dimension;
use std::sync::LazyLock;

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

/// A thing that can be measured; numbers count from the reel.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, PartialOrd, Ord)]
pub enum Thing {
    /// The whole rig.
    Rig,
    /// A section.
    Section(usize),
    /// The join below a section.
    Join(usize),
    /// A dropper.
    Dropper(usize),
    /// The gap below a fly.
    Gap(usize),
    /// A fly.
    Fly(usize),
    /// A shot, counted among what sits on the line.
    Shot(usize),
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

    /// Its number among its kind, from 0.
    pub const fn index(self) -> usize {
        match self {
            Self::Section(index)
            | Self::Join(index)
            | Self::Dropper(index)
            | Self::Gap(index)
            | Self::Fly(index)
            | Self::Shot(index) => index,
            Self::Rig | Self::Rod | Self::Water => 0,
        }
    }
}

/// What is called with each word that a measure tells.
pub type Told<'t> = dyn FnMut(&str) + 't;

/// A function that answers a measure.
#[derive(Clone, Copy, Debug)]
pub enum Get {
    /// In a quantity.
    Value(fn(&Evaluation<'_, '_>, Thing) -> Outcome),
    /// In words that `is` asks for.
    Words(fn(&Evaluation<'_, '_>, Thing, &mut Told<'_>)),
}

impl Measure {
    /// The words that it tells of a thing; none where it is told in a quantity.
    pub fn words(&self, evaluation: &Evaluation<'_, '_>, thing: Thing) -> Vec<String> {
        let mut words = Vec::new();
        if let Get::Words(get) = self.get {
            get(evaluation, thing, &mut |word| words.push(word.to_owned()));
        }
        words
    }
}

/// A row of the table.
#[derive(Debug)]
pub struct Measure {
    /// What it is of.
    pub of: Kind,
    /// Its name.
    pub name: &'static str,
    /// Its dimension; plain numbers and words have none.
    pub dimension: Dimension,
    /// One line of documentation.
    pub about: &'static str,
    /// How wrong it may be, over what the figures that it is made of are.
    pub error: Error,
    /// How it is had.
    pub get: Get,
}

/// How wrong a measure may be in a real stream.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum Error {
    /// No more than the figures that it is made of.
    None,
    /// It is an estimate, and nobody can say by how much it is off.
    Unsaid,
    /// The same, unless every fly that it is of was weighed.
    Unweighed,
    /// By a share of itself.
    Share(f64),
    /// By a length in metres.
    Length(f64),
    /// By a share of itself: that of a fly that was not timed in still water, and of one that was.
    Fly {
        /// Not timed.
        untimed: f64,
        /// Timed.
        timed: f64,
    },
}

impl Measure {
    /// Whether its value is an estimate, and must be called one.
    pub fn is_estimate(&self, evaluation: &Evaluation<'_, '_>, thing: Thing) -> bool {
        match self.error {
            Error::None => false,
            Error::Unweighed => {
                let flies = &evaluation.rig.layout.flies;
                let of = match thing {
                    Thing::Fly(index) => flies.get(index..=index).unwrap_or_default(),
                    _ => flies.as_slice(),
                };
                of.iter().any(|fly| fly.fly.mass.is_none())
            }
            Error::Unsaid | Error::Share(_) | Error::Length(_) | Error::Fly { .. } => true,
        }
    }

    /// How wrong its value may be either way, in SI; nothing where it is as good as what it is made of.
    pub fn off(&self, evaluation: &Evaluation<'_, '_>, thing: Thing, value: &Value) -> Option<f64> {
        let size = value.si().abs();
        match self.error {
            Error::None | Error::Unsaid | Error::Unweighed => None,
            Error::Share(share) => Some(size * share),
            Error::Length(length) => Some(length),
            Error::Fly { untimed, timed } => {
                let flies = &evaluation.rig.layout.flies;
                let fly = flies.get(thing.index())?;
                Some(size * if fly.fly.sinks.is_some() { timed } else { untimed })
            }
        }
    }
}

static BY_NAME: LazyLock<FxHashMap<(Kind, &str), &'static Measure>> = LazyLock::new(|| {
    MEASURES
        .iter()
        .map(|measure| ((measure.of, measure.name), measure))
        .collect()
});

static IN_WORDS: LazyLock<FxHashMap<Kind, Vec<&'static Measure>>> = LazyLock::new(|| {
    let mut in_words: FxHashMap<Kind, Vec<_>> = FxHashMap::default();
    for measure in MEASURES
        .iter()
        .filter(|measure| matches!(measure.get, Get::Words(_)))
    {
        in_words.entry(measure.of).or_default().push(measure);
    }
    in_words
});

/// The measures of a kind of thing that are told in words.
pub fn in_words(kind: Kind) -> &'static [&'static Measure] {
    IN_WORDS.get(&kind).map_or(&[], Vec::as_slice)
}

/// The measure of a kind of thing with a name.
pub fn of(kind: Kind, name: &str) -> Option<&'static Measure> {
    BY_NAME.get(&(kind, name)).copied()
}

/// The measure of rigs with a name.
pub fn of_rig(name: &str) -> Option<&'static Measure> {
    of(Kind::Rig, name)
}

/// Every measure of a kind of thing.
pub fn all_of(kind: Kind) -> impl Iterator<Item = &'static Measure> {
    MEASURES.iter().filter(move |measure| measure.of == kind)
}
