//! Words of the trade with a meaning of their own as values: the one table that the hand and the keywords read.
//!
//! They are common practice, and for none of them is there a source.

/// A word and what it means.
#[derive(Debug, PartialEq, Eq)]
pub struct Named {
    /// The word.
    pub word: &'static str,
    /// What it means, in one line.
    pub about: &'static str,
    /// How anglers write it; hyphens and spaces are one.
    pub written: &'static [&'static str],
}

impl Named {
    /// A word that is written in one way only.
    pub const fn new(word: &'static str, about: &'static str) -> Self {
        named(word, about, &[])
    }
}

const fn named(word: &'static str, about: &'static str, written: &'static [&'static str]) -> Named {
    Named { word, about, written }
}

/// How a piece of line is made.
pub const BUILDS: &[Named] = &[
    named(
        "tapered",
        "It grows thinner toward its lower end.",
        &[
            "tapered",
            "conical",
            "tapers",
            "tapering",
            "tapers down",
            "tapered down",
            "tapering down",
        ],
    ),
    named("level", "It is of one diameter.", &["level", "level line"]),
    named(
        "knotless",
        "It is drawn in one piece, without knots.",
        &["knotless"],
    ),
    named("furled", "It is twisted of several strands.", &["furled"]),
    named("braided", "It is braided of several strands.", &["braided"]),
    named("twisted", "It is twisted of several strands.", &["twisted"]),
    named(
        "bicolour",
        "It carries two colours in turn.",
        &["bicolour", "bicolor", "bi colour", "bi color"],
    ),
    named(
        "multicolour",
        "It carries several colours in turn.",
        &["multicolour", "multicolor", "tricolour", "tricolor"],
    ),
    named("waxed", "It is waxed.", &["waxed"]),
];

/// What is said of a fly and its hook.
pub const FLY_WORDS: &[Named] = &[
    named("barbless", "Its hook has no barb.", &["barbless", "debarbed"]),
    named(
        "jig",
        "Its hook is bent at the eye, so that it rides point up.",
        &["jig", "jigged", "jig hook", "hook jig"],
    ),
    named(
        "curved",
        "Its hook is curved like a grub.",
        &["curved", "curved hook"],
    ),
    named("wide-gape", "Its hook is wide for its size.", &["wide gape"]),
    named("long-shank", "Its hook is long for its size.", &["long shank"]),
    named("short-shank", "Its hook is short for its size.", &["short shank"]),
    named("dry", "It floats.", &["dry", "floating"]),
    named(
        "unweighted",
        "It carries no bead and no wire.",
        &["unweighted", "no weight"],
    ),
    named("beadless", "It carries no bead.", &["beadless", "no bead"]),
    named("weighted", "It carries wire that is not measured.", &["weighted"]),
    named(
        "eye-to-eye",
        "The line below leaves from its eye.",
        &["eye to eye"],
    ),
    named("body", "The colour is that of its body.", &["body"]),
];

/// Kinds of swivel.
pub const SWIVELS: &[Named] = &[
    named("micro", "The smallest kind.", &["micro"]),
    named(
        "barrel",
        "The plain kind, with a body like a barrel.",
        &["barrel"],
    ),
    named("snap", "With a snap at one end.", &["snap"]),
];

/// What is said of a bead.
pub const SLOTTED: &[Named] = &[named(
    "slotted",
    "A bead with a slot, for a bent hook.",
    &["slotted", "slotted bead"],
)];

/// Colours that a word may name without a material before it.
pub const COLOURS: &[&str] = &[
    "amber",
    "beige",
    "black",
    "blue",
    "bronze",
    "brown",
    "burgundy",
    "chartreuse",
    "cinnamon",
    "claret",
    "clear",
    "copper",
    "cream",
    "crimson",
    "fluorescent",
    "ginger",
    "gold",
    "green",
    "grey",
    "gray",
    "khaki",
    "lemon",
    "lilac",
    "lime",
    "magenta",
    "maroon",
    "natural",
    "olive",
    "orange",
    "peach",
    "pearl",
    "pink",
    "purple",
    "red",
    "rust",
    "scarlet",
    "silver",
    "straw",
    "tan",
    "turquoise",
    "two-tone",
    "violet",
    "white",
    "yellow",
];
