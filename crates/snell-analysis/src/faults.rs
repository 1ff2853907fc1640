//! The names of the faults of files and `use` lines, each with what it means.

pub const FILE_UNREAD: &str = "file-unread";
pub const USE_MISSING: &str = "use-missing";
pub const USE_OUTSIDE: &str = "use-outside";
pub const USE_MARKDOWN: &str = "use-markdown";
pub const MARKER_UNREAD: &str = "marker-unread";
pub const MARKER_RIG: &str = "marker-rig";
pub const MARKER_PART: &str = "marker-part";
pub const MARKER_MEASURE: &str = "marker-measure";
pub const MARKER_UNIT: &str = "marker-unit";
pub const MARKER_UNKNOWN: &str = "marker-unknown";
pub const MARKER_FILE: &str = "marker-file";
pub const MARKER_UNCLOSED: &str = "marker-unclosed";
pub const MARKER_END_ALONE: &str = "marker-end-alone";
pub const MARKER_NESTED: &str = "marker-nested";
pub const MARKER_NOT_ALONE: &str = "marker-not-alone";
pub const MARKER_HOLDS_TEXT: &str = "marker-holds-text";
pub const MARKER_AT_HEAD: &str = "marker-at-head";

/// Every fault of this crate with its meaning.
pub const FAULTS: &[(&str, &str)] = &[
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
    (
        MARKER_UNREAD,
        "A marker in an article, a comment that opens with `rig:`, asks for nothing that there is.",
    ),
    (
        MARKER_RIG,
        "A marker names a rig that neither its page nor a file that the page uses has.",
    ),
    (MARKER_PART, "A marker names a part that its rig has not."),
    (MARKER_MEASURE, "A marker names no measure of the rig or part."),
    (
        MARKER_UNIT,
        "A marker names a unit that does not fit its measure.",
    ),
    (
        MARKER_UNKNOWN,
        "A marker asks for what the rig leaves unsaid, so that it cannot be told.",
    ),
    (
        MARKER_FILE,
        "A marker draws into a file that is no SVG below its page's folder, or into that of another picture.",
    ),
    (MARKER_UNCLOSED, "A marker is not closed by an `end`."),
    (MARKER_END_ALONE, "An `end` closes no marker."),
    (MARKER_NESTED, "A marker stands inside what another fills."),
    (
        MARKER_NOT_ALONE,
        "A marker that fills lines of its own shares its line with text.",
    ),
    (
        MARKER_HOLDS_TEXT,
        "Between two markers stands what no filling has, a heading or a rig, which filling would take away.",
    ),
    (
        MARKER_AT_HEAD,
        "A marker in running text begins its line, which Markdown then takes for HTML.",
    ),
];
