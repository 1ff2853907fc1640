//! Under which licences, and in which versions, what others wrote is taken:
//! one table for our own test, for the notices and for `cargo deny`.

use spdx::{Expression, Licensee, ParseMode};

/// A licence that is taken.
pub struct Licence {
    /// Its name in the SPDX list.
    pub name: &'static str,
    /// Words that its text has and no other's.
    pub words: &'static str,
}

const fn licence(name: &'static str, words: &'static str) -> Licence {
    Licence { name, words }
}

/// The licences under which a dependency may come. Where it offers several, the first of them is taken. All let
/// the program be given on, changed or not, and ask for no more than that their text goes with it.
pub const ALLOWED: &[Licence] = &[
    licence(
        "MIT",
        "Permission is hereby granted, free of charge, to any person obtaining",
    ),
    licence("Apache-2.0", "Apache License"),
    licence("Apache-2.0 WITH LLVM-exception", "LLVM Exceptions"),
    licence("Unicode-3.0", "UNICODE LICENSE V3"),
    licence("BSD-3-Clause", "Neither the name of"),
    licence("BSD-2-Clause", "Redistributions in binary form must reproduce"),
    licence("Zlib", "This software is provided 'as-is'"),
    licence("MIT-0", "MIT No Attribution"),
];

/// The licences that are taken of a dependency: one, or several that hold together.
///
/// # Errors
/// What its manifest gives is no licence expression, or asks for a licence that is not allowed.
pub fn taken(expression: &str) -> Result<Vec<&'static Licence>, String> {
    let parsed = Expression::parse_mode(expression, ParseMode::LAX).map_err(|error| error.to_string())?;
    let accepted: Vec<Licensee> = ALLOWED
        .iter()
        .filter_map(|licence| Licensee::parse(licence.name).ok())
        .collect();
    let needed = parsed
        .minimized_requirements(&accepted)
        .map_err(|error| error.to_string())?;
    needed
        .iter()
        .map(|need| {
            let name = need.to_string();
            ALLOWED
                .iter()
                .find(|licence| licence.name == name)
                .ok_or(format!("`{name}` is not allowed"))
        })
        .collect()
}

/// A package of which two versions are in the tree.
pub struct Twice {
    pub name: &'static str,
    /// The version that is on its way out, as far as it matters.
    pub older: &'static str,
    /// Who holds on to it.
    pub because: &'static str,
}

/// All that are there twice.
pub const TWICE: &[Twice] = &[
    Twice {
        name: "hashbrown",
        older: "0.14",
        because: "the language server's library keeps its maps in `dashmap`, which asks for it",
    },
    Twice {
        name: "miniz_oxide",
        older: "0.8",
        because: "`png` packs by it; `flate2` is a version ahead",
    },
    Twice {
        name: "similar",
        older: "2",
        because: "`insta` shows differences by it; only tests",
    },
    Twice {
        name: "syn",
        older: "2",
        because: "half of the derive macros went on to 3; only builds",
    },
    Twice {
        name: "unicode-width",
        older: "0.1",
        because: "`miette` measures by it",
    },
];

/// The settings of `cargo deny`.
pub fn deny() -> String {
    let allowed: String = ALLOWED
        .iter()
        .map(|licence| format!("    {:?},\n", licence.name))
        .collect();
    let twice: String = TWICE
        .iter()
        .map(|twice| {
            let named = format!("{}@{}", twice.name, twice.older);
            format!("    {{ crate = {named:?}, reason = {:?} }},\n", twice.because)
        })
        .collect();
    format!(
        "# Made by `cargo refresh` from the table in tests/support/licences.rs.\n\n\
         [licenses]\nunused-allowed-license = \"deny\"\nallow = [\n{allowed}]\n\n\
         [bans]\nmultiple-versions = \"deny\"\nmultiple-versions-include-dev = true\nwildcards = \"deny\"\nskip = [\n{twice}]\n\n\
         [sources]\nunknown-registry = \"deny\"\nunknown-git = \"deny\"\n"
    )
}
