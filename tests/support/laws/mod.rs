//! What must hold of every input, however hostile: each law is one function
//! of bytes that panics where it is broken.
//!
//! The fuzzer in `tests/fuzz` looks for bytes that break one. The bytes that it
//! kept, and those that once broke one, are held again by an ordinary test.

mod drifts;
mod edits;
mod input;
mod page;
mod seeds;
mod text;
mod typed;

pub use seeds::{seeds, write_seeds};
pub use text::{is_laid_out_at_once, keeps_its_meaning, sound};
pub use typed::Typed;

/// A law by the name of its target.
pub struct Law {
    /// What it says, joined by underscores.
    pub name: &'static str,
    /// Panics where it is broken.
    pub holds: fn(&[u8]),
}

/// All of them; each has a target of the same name.
pub const LAWS: [Law; 5] = [
    Law {
        name: "texts_are_read_laid_out_and_checked",
        holds: text::holds,
    },
    Law {
        name: "typed_texts_are_told_as_fresh_ones",
        holds: edits::holds,
    },
    Law {
        name: "places_of_a_page_lie_in_it",
        holds: page::holds,
    },
    Law {
        name: "messages_come_in_whole_or_are_refused",
        holds: input::holds,
    },
    Law {
        name: "drifts_are_finite_or_told",
        holds: drifts::holds,
    },
];

/// The law with a name.
pub fn law(name: &str) -> Option<&'static Law> {
    LAWS.iter().find(|law| law.name == name)
}
