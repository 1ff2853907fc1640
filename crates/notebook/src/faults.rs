//! The names of the faults of files and `use` lines, each with what it means.

pub(crate) const FILE_UNREAD: &str = "file-unread";
pub(crate) const USE_MISSING: &str = "use-missing";
pub(crate) const USE_OUTSIDE: &str = "use-outside";
pub(crate) const USE_MARKDOWN: &str = "use-markdown";

/// Every fault of this crate with its meaning.
pub(crate) const FAULTS: &[(&str, &str)] = &[
    (
        FILE_UNREAD,
        "A file could not be read: it is not text in UTF-8, or too large.",
    ),
    (USE_MISSING, "A `use` line names a file that cannot be read."),
    (
        USE_OUTSIDE,
        "A `use` line names a file outside the project folder.",
    ),
    (USE_MARKDOWN, "A `use` line names a file that is no `.rig` file."),
];
