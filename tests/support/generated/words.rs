//! The words that a made-up season is written with: places and flies of a
//! valley that does not exist.

pub(super) const PLACES: &[&str] = &[
    "stones",
    "larches",
    "sheepwash",
    "alder-bend",
    "long-pool",
    "pool-tail",
    "mill-leat",
    "cattle-drink",
    "weir-sill",
    "weir-edge",
    "top-run",
    "low-run",
    "footbridge",
    "wall-corner",
    "hut-glide",
    "gill-steps",
    "gill-foot",
    "tarn-neck",
    "tarn-shelf",
    "quern-mouth",
    "quern-riffle",
    "ash-root",
    "broken-wall",
    "gate-run",
    "withy-bank",
    "slab-pocket",
];

pub(super) const WATERS: &[&str] = &[
    "Harrow Beck",
    "Quern Beck",
    "Linnet Gill",
    "Tinker's Weir",
    "Dapple Tarn",
];

pub(super) const MONTHS: &[&str] = &["april", "may", "june", "july", "august", "september", "october"];

pub(super) const TIMES: &[&str] = &[
    "first light",
    "a grey noon",
    "wind upstream",
    "low and clear",
    "colour going out",
    "after rain",
    "the hatch at two",
    "bright sun",
    "last light",
    "a cold morning",
    "thunder about, gave up early",
    "nobody else there",
];

pub(super) const NOTES: &[&str] = &[
    "Two from the seam, none from the middle.",
    "Lost the point on the wall; retied with fresh tippet.",
    "The upper fly took everything.",
    "Too much sag above the sighter, shorten the butt.",
    "Fish on the shelf, six inches of water over them.",
    "Better with the rod held higher.",
    "The heavier bead ticked the bottom all the way.",
    "Grayling only.",
    "Not a touch. Same water, same rig, next week again.",
    "The tag wrapped twice; cut it back.",
    "Slow under the far bank, quick in the middle.",
    "From the bank, the stones are slick.",
];

pub(super) const FLIES: &[&str] = &[
    "bracken", "slate", "mote", "pebble", "hobnail", "anvil", "ballast", "bramble", "peat", "rush", "cinder",
    "tarn", "thimble", "gorse", "flint", "sedge", "loam", "ember", "hazel", "marl", "teasel", "sorrel",
    "umber", "whin",
];

/// Beads from light to heavy, each with the hooks whose gape it leaves open.
pub(super) const BEADS: &[(&str, &[&str])] = &[
    ("2 mm", &["#14", "#16", "#18"]),
    ("2.4 mm", &["#14", "#16", "#18"]),
    ("2.8 mm", &["#12", "#14", "#16"]),
    ("3.3 mm", &["#10", "#12", "#14"]),
    ("3.8 mm", &["#10", "#12"]),
];
pub(super) const DRY_HOOKS: &[&str] = &["#12", "#14", "#16"];
pub(super) const DRESSINGS: &[&str] = &["bare", "slim", "dressed", "hackled", "bushy"];
pub(super) const BEDS: &[&str] = &["gravel", "cobble", "weed"];
pub(super) const COLOURS: &[&str] = &["pink", "yellow", "orange", "white", "chartreuse"];

// Each list is thinner than the one before it, so that no leader grows toward the fly, and by so little that a knot
// holds the step. A leader of fewer pieces begins further down.
pub(super) const BUTTS: &[&str] = &[
    "0.33 mm 12 lb nylon",
    "0.30 mm nylon",
    "0.31 mm nylon",
    "0.32 mm nylon",
];
pub(super) const TAPERS: &[&str] = &[
    "0.27 mm nylon",
    "0.28 mm nylon",
    "0.26 mm nylon",
    "0.26 mm 8 lb nylon",
];
pub(super) const LOW_TAPERS: &[&str] = &[
    "0.24 mm nylon",
    "0.23 mm nylon",
    "0.22 mm nylon",
    "0.22 mm 6.5 lb nylon",
    "2X nylon",
];
pub(super) const SIGHTERS: &[&str] = &[
    "0.20 mm nylon",
    "0.19 mm nylon",
    "0.21 mm nylon",
    "0.20 mm 6 lb nylon",
    "3X nylon",
];

/// What goes below the ring with rods of one weight.
pub(super) struct Suited {
    pub(super) uppers: &'static [&'static str],
    pub(super) lowers: &'static [&'static str],
    /// The X of a spool that serves as upper; for the lower it is one finer.
    pub(super) upper_x: usize,
    /// The heaviest of [`BEADS`] that the lower carries without cracking off.
    pub(super) heaviest: usize,
}

pub(super) const LIGHT: Suited = Suited {
    uppers: &[
        "6X fluoro",
        "6X 0.125 mm fluoro",
        "6X 0.125 mm 2.9 lb fluoro",
        "6X 2.9 lb fluoro",
        "0.13 mm fluoro",
    ],
    lowers: &[
        "7X fluoro",
        "7X 0.10 mm fluoro",
        "7X 1.8 lb fluoro",
        "7.5X fluoro",
        "0.10 mm fluoro",
    ],
    upper_x: 6,
    heaviest: 2,
};
pub(super) const MIDDLE: Suited = Suited {
    uppers: &[
        "5X fluoro",
        "5.5X fluoro",
        "5X 0.152 mm 4.2 lb fluoro",
        "5X 4.2 lb fluoro",
        "0.14 mm fluoro",
    ],
    lowers: &[
        "6X fluoro",
        "6.5X fluoro",
        "6X 0.125 mm 2.9 lb fluoro",
        "6X 2.9 lb fluoro",
        "0.12 mm fluoro",
    ],
    upper_x: 5,
    heaviest: 4,
};
pub(super) const STOUT: Suited = Suited {
    uppers: &[
        "4X fluoro",
        "4.5X fluoro",
        "4X 0.178 mm 5.5 lb fluoro",
        "4X 5.5 lb fluoro",
        "0.18 mm fluoro",
    ],
    lowers: &[
        "5X fluoro",
        "5X 0.152 mm fluoro",
        "5X 0.152 mm 4.2 lb fluoro",
        "5X 4.2 lb fluoro",
        "0.15 mm fluoro",
    ],
    upper_x: 4,
    heaviest: 4,
};
pub(super) const TOPS: &[&str] = &["3X nylon", "0.21 mm nylon", "3X 0.205 mm nylon"];
pub(super) const SOFT: &[&str] = &[
    "4X nylon",
    "4.5X nylon",
    "0.17 mm nylon",
    "4X 5 lb nylon",
    "4X 0.178 mm nylon",
];
pub(super) const SOFT_LOW: &[&str] = &["5X nylon", "5.5X nylon", "0.15 mm nylon", "5X 4 lb nylon"];
