//! What an outing may say: the day, the rig and the water, what was changed at
//! the bank, what was caught.

use super::key::keys;
use super::rigs;
use super::row::{Row, clause};
use super::slot::Take::{Any, Day, Name, Path, Plain};
use super::slot::{may, must};
use snell_syntax::{BlockKind, Joint};

keys! {
    /// What an outing may say.
    OutingKey of Outing {
        Day = Row::new("day", &[must(Day)], "The day, as ISO 8601 writes it.").needed(),
        Rig = Row::new("rig", &[must(Name(BlockKind::Rig))], "The rig that was fished.").needed(),
        Water = rigs::WATER,
        Remove = rigs::REMOVE,
        Add = rigs::ADD,
        Caught = Row::new(
            "caught",
            &[must(Plain)],
            "How many fish, and on which fly: its name, its label, or where it sits (`point`, `dropper 2`).",
        )
        .with(&[clause(Joint::On, &[must(Path), may(Any)])])
        .called()
        .often(),
        Lost = Row::new(
            "lost",
            &[must(Plain)],
            "How many fish were hooked and got off, and on which fly.",
        )
        .with(&[clause(Joint::On, &[must(Path), may(Any)])])
        .called()
        .often(),
        Note = Row::text("note", "A note for people.").often(),
    }
}
