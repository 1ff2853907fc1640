//! What is said of leaders, held against what comes out for a rig: a page, and the table that argues it.

use crate::vary::{ShownVary, Vary, vary};
use crate::written::Units;
use snell_analysis::{Disk, Kind, Notebook};
use std::path::Path;

/// A piece of lore.
#[derive(Debug)]
pub struct Lore {
    /// Its name.
    pub name: &'static str,
    /// What is said, and what comes out.
    pub page: &'static str,
    target: &'static str,
    values: &'static [&'static str],
}

/// All of it.
pub const LORE: [Lore; 6] = [
    Lore {
        name: "thin-tippet",
        page: include_str!("../lore/thin-tippet.md"),
        target: "tippet",
        values: &["4X", "5X", "6X", "7X"],
    },
    Lore {
        name: "thin-butt",
        page: include_str!("../lore/thin-butt.md"),
        target: "butt",
        values: &["0.20 mm", "0.28 mm", "0.40 mm", "0.55 mm"],
    },
    Lore {
        name: "heavy-or-slim",
        page: include_str!("../lore/heavy-or-slim.md"),
        target: "point",
        values: &["2.4 mm", "2.8 mm", "3.3 mm", "3.8 mm"],
    },
    Lore {
        name: "tuck-cast",
        page: include_str!("../lore/tuck-cast.md"),
        target: "cast",
        values: &["tuck", "up", "down"],
    },
    Lore {
        name: "long-tags",
        page: include_str!("../lore/long-tags.md"),
        target: "dropper",
        values: &["3 in", "6 in", "10 in"],
    },
    Lore {
        name: "close-in",
        page: include_str!("../lore/close-in.md"),
        target: "reach",
        values: &["6 ft", "9 ft", "12 ft", "15 ft"],
    },
];

/// The rig that pages are argued with where nobody names another.
const PAIR: &str = include_str!("../lore/the-pair.rig");

/// A piece of lore by its name, with spaces or hyphens.
pub fn lore(name: &str) -> Option<&'static Lore> {
    let folded = name.to_lowercase().replace(' ', "-");
    LORE.iter().find(|lore| lore.name == folded)
}

impl Lore {
    /// The table of the rig that pages are argued with.
    ///
    /// # Errors
    /// As [`vary`].
    pub fn of_the_pair(&self, disk: &dyn Disk) -> Result<Vec<ShownVary>, String> {
        let notebook = Notebook::of_text(Path::new("the-pair.rig"), Kind::Rig, PAIR.to_owned(), disk);
        self.of(&notebook, disk, |_, _| true)
    }

    /// The table of rigs of a notebook.
    ///
    /// # Errors
    /// As [`vary`].
    pub fn of(
        &self,
        notebook: &Notebook,
        disk: &dyn Disk,
        wanted: impl Fn(&str, &str) -> bool,
    ) -> Result<Vec<ShownVary>, String> {
        let asked = Vary {
            target: self.target.to_owned(),
            values: self.values.iter().map(|value| (*value).to_owned()).collect(),
        };
        vary(notebook, Units::Author, &asked, disk, wanted)
    }
}
