//! Two states of a notebook, rig by rig, in an angler's terms: which parts
//! were put in, left out, moved, split or changed, and what the measures did.
//!
//! Plain data in, plain data out. It knows neither git nor any form of output;
//! `told` gives each change as a sentence.

mod align;
mod blocks;
mod cards;
mod change;
mod figure;
mod fishes;
mod follow;
mod moved;
mod pieces;
mod place;
mod rigs;
mod says;
mod told;

pub use blocks::{BlockChange, Line, OtherBlock, Partly, other_blocks};
pub use cards::card_of;
pub use cards::{Card, Outline, Saying, cards};
pub use change::Change;
pub use figure::Figure;
pub use fishes::{Fishes, FishesNow};
pub use follow::Bases;
pub use moved::Moved;
pub use pieces::{Detail, Piece, Trait, TraitKind};
pub use rigs::alike;
pub use told::{figures, for_people, place_below, told, told_moved};

use crate::written::Estimates;
use rigs::pairs;
use schemars::JsonSchema;
use serde::Serialize;
use snell_analysis::Notebook;
use snell_rig::World;
use std::path::PathBuf;
use std::rc::Rc;

/// One state of a notebook, ready to be held against another.
#[derive(Clone, Debug, Default)]
pub struct State {
    /// Its rigs, evaluated, with bare estimates: what those lie between is drawn of rigs that changed.
    pub cards: Vec<Card>,
    /// Its blocks but for rigs.
    pub blocks: Vec<OtherBlock>,
    /// The file or folder that was asked for: files of two states are the same where they lie alike below it.
    pub root: PathBuf,
    /// What its rigs were read from.
    notebook: Option<Rc<Notebook>>,
}

impl State {
    /// The state of a notebook; of the rigs, those that `wanted` picks by name and file.
    pub fn of(notebook: Notebook, wanted: impl Fn(&str, &str) -> bool) -> Self {
        Self {
            cards: cards(&notebook, wanted),
            blocks: other_blocks(&notebook),
            root: PathBuf::new(),
            notebook: Some(Rc::new(notebook)),
        }
    }

    /// One of its rigs with what its estimates lie between.
    pub fn whole(&self, card: &Card) -> Card {
        let drawn = self.notebook.as_ref().and_then(|notebook| {
            let world = World::new(notebook.project());
            let block = world.project.block(card.block);
            card_of(notebook, &world, block, Estimates::Between)
        });
        let mut whole = drawn.unwrap_or_else(|| card.clone());
        whole.shown.file.clone_from(&card.shown.file);
        whole
    }

    /// The same, as what was found below a file or folder.
    pub fn below(self, root: impl Into<PathBuf>) -> Self {
        Self {
            root: root.into(),
            ..self
        }
    }

    /// Calls every file by another path.
    pub fn call_files(&mut self, called: impl Fn(&str) -> String) {
        for card in &mut self.cards {
            card.shown.file = called(&card.shown.file);
        }
        for block in &mut self.blocks {
            block.file = called(&block.file);
        }
    }
}

/// What changed from one state to another. Empty where nothing did.
#[derive(Clone, Debug, Default, Serialize, JsonSchema, PartialEq)]
pub struct Comparison {
    /// Rigs that changed, in the order of the later state; those that were dropped last.
    pub rigs: Vec<RigChange>,
    /// Blocks but for rigs that changed.
    pub blocks: Vec<BlockChange>,
    /// How many rigs are the same in both.
    pub same: usize,
    /// Whether two rigs were chosen to be held against each other, rather than one found in both states.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    pub chosen: bool,
}

impl Comparison {
    /// Whether no rig and no block changed.
    pub fn is_empty(&self) -> bool {
        self.rigs.is_empty() && self.blocks.is_empty()
    }
}

/// Where a rig is found.
#[derive(Clone, Debug, Serialize, JsonSchema, PartialEq)]
pub struct Called {
    /// Its name.
    pub name: String,
    /// Its title for people.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub title: Option<String>,
    /// Its file.
    pub file: String,
    /// Its line in that file, from 1.
    pub line: u32,
}

impl From<&Card> for Called {
    fn from(card: &Card) -> Self {
        Self {
            name: card.shown.name.clone(),
            title: card.shown.title.clone(),
            file: card.shown.file.clone(),
            line: card.shown.line,
        }
    }
}

/// What happened to one rig.
#[derive(Clone, Debug, Serialize, JsonSchema, PartialEq)]
#[serde(tag = "what", rename_all = "kebab-case")]
pub enum RigChange {
    /// It is new.
    Added {
        /// The rig.
        rig: Called,
        /// Its parts from rod to fly.
        parts: Vec<Piece>,
    },
    /// It is gone.
    Dropped {
        /// The rig.
        rig: Called,
        /// Its parts from rod to fly.
        parts: Vec<Piece>,
    },
    /// It is there in both.
    Changed {
        /// As it was.
        was: Called,
        /// As it is now.
        now: Called,
        /// What changed.
        changes: Vec<Change>,
        /// The rig that it is made from, where that one changed in just the same way.
        #[serde(skip_serializing_if = "Option::is_none")]
        follows: Option<String>,
        /// Measures that moved.
        measures: Vec<Moved>,
        /// That it fishes in its water now, or does not any more.
        #[serde(skip_serializing_if = "Option::is_none")]
        fishes: Option<Box<FishesNow>>,
        /// Where hardly anything stayed as it was: its parts before and now, which say more than each change.
        #[serde(skip_serializing_if = "Option::is_none")]
        another: Option<Another>,
        /// What could not be read whole, so that this may not be all.
        #[serde(skip_serializing_if = "Option::is_none")]
        partly_read: Option<Partly>,
    },
}

impl RigChange {
    /// Whether an estimate moved.
    fn has_estimates(&self) -> bool {
        let of = |moved: &Moved| {
            let states = [&moved.was, &moved.now].into_iter().flatten();
            states.into_iter().any(|written| written.estimate)
        };
        match self {
            Self::Changed { measures, .. } => measures.iter().any(of),
            Self::Added { .. } | Self::Dropped { .. } => false,
        }
    }
}

/// A rig that is another one under the same name.
#[derive(Clone, Debug, Serialize, JsonSchema, PartialEq)]
pub struct Another {
    /// Its parts as they were.
    pub was: Vec<Piece>,
    /// Its parts as they are.
    pub now: Vec<Piece>,
}

/// Fewer changes are told one by one.
const MANY_CHANGES: usize = 8;
/// Where less of the parts than this stayed, many changes are told as another rig.
const FEW_STAYED: f64 = 0.35;

impl Another {
    fn of(was: &Card, now: &Card, changes: &[Change]) -> Option<Self> {
        let stayed = was.pieces.iter().filter(|piece| {
            let same = |other: &&Piece| other.equals(piece);
            now.pieces.iter().any(|other| same(&other))
        });
        let share = stayed.count() as f64 / was.pieces.len().max(now.pieces.len()).max(1) as f64;
        (changes.len() >= MANY_CHANGES && share < FEW_STAYED).then(|| Self {
            was: was.pieces.to_vec(),
            now: now.pieces.to_vec(),
        })
    }
}

/// Holds two states against each other.
pub fn compare(was: &State, now: &State) -> Comparison {
    let matched = pairs((&was.cards, &was.root), (&now.cards, &now.root));
    let mut told = Comparison {
        blocks: blocks::compare((&was.blocks, &was.root), (&now.blocks, &now.root)),
        ..Comparison::default()
    };
    for (at, card) in now.cards.iter().enumerate() {
        let Some(before) = matched.before(at) else {
            told.rigs.push(RigChange::Added {
                rig: card.into(),
                parts: card.pieces.to_vec(),
            });
            continue;
        };
        let before = &was.cards[before];
        match changed(before, card) {
            Some(change) if change.has_estimates() => {
                told.rigs.extend(changed(&was.whole(before), &now.whole(card)));
            }
            Some(change) => told.rigs.push(change),
            None => told.same += 1,
        }
    }
    follow(&mut told.rigs, &now.cards);
    let gone = was
        .cards
        .iter()
        .enumerate()
        .filter(|(at, _)| matched.after(*at).is_none());
    told.rigs.extend(gone.map(|(_, card)| RigChange::Dropped {
        rig: card.into(),
        parts: card.pieces.to_vec(),
    }));
    told
}

/// Holds one rig against another, whatever they are called.
pub fn compare_two(was: &Card, now: &Card) -> Comparison {
    let mut changes = changed(was, now);
    if let Some(RigChange::Changed { changes, .. }) = &mut changes {
        // That the one is made from the other is no news to who holds them against each other.
        changes.retain(|change| !is_made_from(change, &was.shown.name));
    }
    Comparison {
        same: usize::from(changes.is_none()),
        rigs: changes.into_iter().collect(),
        blocks: Vec::new(),
        chosen: true,
    }
}

fn is_made_from(change: &Change, name: &str) -> bool {
    matches!(change, Change::Says { key, now: Some(now), .. } if key == "from" && now == name)
}

/// What changed between two states of one rig; nothing where it is the same.
pub fn changed(was: &Card, now: &Card) -> Option<RigChange> {
    if was.is_of_one_reading(now) {
        return None;
    }
    let steps = align::align(&was.pieces, &now.pieces);
    let mut changes = says::sayings(&was.says, &now.says);
    changes.extend(change::parts(&was.pieces, &now.pieces, &steps));
    let mut measures = moved::moved(was, now, &steps);
    let partly_read = Partly::of(was.sound, now.sound);
    if let Some(partly) = partly_read {
        changes.retain(|change| !partly.hides_change(change));
        measures.clear();
    }
    let renamed = was.shown.name != now.shown.name;
    let called = renamed || was.shown.title != now.shown.title;
    let read_otherwise = was.sound != now.sound;
    (called || read_otherwise || !changes.is_empty() || !measures.is_empty()).then(|| RigChange::Changed {
        was: was.into(),
        now: now.into(),
        another: Another::of(was, now, &changes).filter(|_| partly_read.is_none()),
        changes,
        follows: None,
        measures,
        fishes: FishesNow::of(was.fishes.as_ref(), now.fishes.as_ref()).map(Box::new),
        partly_read,
    })
}

/// Marks the rigs that changed only as the rig that they are made from did.
fn follow(rigs: &mut [RigChange], cards: &[Card]) {
    let bases = Bases::of(rigs.iter().filter_map(|rig| match rig {
        RigChange::Changed { now, changes, .. } => Some((now.name.as_str(), changes.as_slice())),
        RigChange::Added { .. } | RigChange::Dropped { .. } => None,
    }));
    let base_of = |called: &Called| {
        let here = |card: &&Card| (&card.shown.name, &card.shown.file) == (&called.name, &called.file);
        cards.iter().find(here)?.shown.from.clone()
    };
    for rig in rigs {
        if let RigChange::Changed {
            was,
            now,
            changes,
            follows,
            ..
        } = rig
            && was.name == now.name
        {
            *follows = base_of(now).filter(|base| bases.lead(base, changes));
        }
    }
}
