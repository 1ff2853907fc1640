//! The one table of what every line may say: keys, their values, clauses and
//! texts, for every kind of block.
//!
//! Checking, messages, completion and the reference read it. It says what a
//! line takes; what a line means is for the readers of blocks and rigs.

mod blocks;
mod groups;
mod key;
mod outings;
mod own;
mod patterns;
mod rigs;
mod roles;
mod row;
mod slot;
mod table;
mod words;

pub use blocks::{BedKey, DressingKey, FlyKey, KnotKey, MaterialKey, RodKey, SpoolKey, WaterKey};
pub use key::Key;
pub use outings::OutingKey;
pub use own::{OWN_FORMS, OwnForm, OwnKey};
pub use patterns::colours_in_name;
pub use rigs::{PartKind, RigKey, RuleKey, RulebookKey, Setting};
pub use roles::SectionRole;
pub use row::{ClauseRow, Often, Row, TextNeed};
pub use slot::{Need, Slot, Take};
pub use table::{about, row, rows};
pub use words::{
    BUILDS, Blows, COLOURS, Cast, Decides, FLY_WORDS, Joined, Method, Named, SAME, SLOTTED, SWIVELS,
    SitsOver, SpeedOf, Stands, is_colour,
};
