//! What an outing may say: the day, the rig and the water, what was changed at
//! the bank, what was caught.

use super::Take::{Any, Day, Name, Path, Plain};
use super::{Row, clause, may, must, rigs};
use snell_syntax::{BlockKind, Joint};

pub(super) const OUTING: &[Row] = &[
    Row::new("day", &[must(Day)], "The day, as ISO 8601 writes it.").needed(),
    Row::new("rig", &[must(Name(BlockKind::Rig))], "The rig that was fished.").needed(),
    rigs::WATER,
    rigs::REMOVE,
    rigs::ADD,
    Row::new(
        "caught",
        &[must(Plain)],
        "How many fish, and on which fly: its name, its label, or where it sits (`point`, `dropper 2`).",
    )
    .with(&[clause(Joint::On, &[must(Path), may(Any)])])
    .often(),
    Row::text("note", "A note for people.").often(),
];
