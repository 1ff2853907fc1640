//! The words of the trade as anglers write them, each with the strict word that it stands for.
//!
//! They are common practice, and for none of them is there a source, but for the masses of shot.

use crate::vocabulary::Joint;

/// What a word of the trade says.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Says {
    /// What line is made of.
    Line,
    /// What a bead, a shot or a float is made of.
    Bead,
    Colour,
    /// How a piece of line is made.
    Build,
    /// Said of a fly and its hook.
    Fly,
    Slotted,
    Swivel,
    Knot,
    Bed,
    /// Which speed of a water is said.
    Which,
    /// A mass in grams that a shot has.
    Shot,
    /// A speed in words.
    Pace,
    /// `trim to`: the length behind it is what is left.
    Trim,
    /// `off the bend`
    Bend,
    /// Which way a length behind which it stands is measured.
    Extent,
    /// It says nothing beside the value next to it.
    Filler,
}

/// A row: what it says, the strict word, and how anglers write it. Hyphens and spaces are one, and so are letters of
/// either case.
#[derive(PartialEq, Debug)]
pub(super) struct Row {
    pub(super) says: Says,
    pub(super) strict: &'static str,
    pub(super) written: &'static [&'static str],
}

const fn row(says: Says, strict: &'static str, written: &'static [&'static str]) -> Row {
    Row {
        says,
        strict,
        written,
    }
}

use Says::{
    Bead, Bed, Bend, Build, Colour, Extent, Filler, Fly, Knot, Line, Pace, Shot, Slotted, Swivel, Trim, Which,
};

/// Every word but those of methods and parts.
#[rustfmt::skip]
pub(super) const TRADE: &[Row] = &[
    row(Line, "nylon", &["nylon"]),
    row(Line, "mono", &["mono"]),
    row(Line, "monofilament", &["monofilament"]),
    row(Line, "fluoro", &["fluoro"]),
    row(Line, "fluorocarbon", &["fluorocarbon", "fluoro carbon"]),
    row(Line, "copolymer", &["copolymer", "copoly", "co polymer"]),
    row(Line, "horsehair", &["horsehair", "horse hair"]),

    row(Bead, "tungsten", &["tungsten", "tung"]),
    row(Bead, "brass", &["brass"]),
    row(Bead, "steel", &["steel"]),
    row(Bead, "glass", &["glass"]),
    row(Bead, "tin", &["tin"]),
    row(Bead, "lead", &["lead"]),
    row(Bead, "foam", &["foam"]),

    row(Colour, "amber", &["amber"]),
    row(Colour, "black", &["black"]),
    row(Colour, "blue", &["blue"]),
    row(Colour, "bronze", &["bronze"]),
    row(Colour, "brown", &["brown"]),
    row(Colour, "chartreuse", &["chartreuse"]),
    row(Colour, "clear", &["clear"]),
    row(Colour, "copper", &["copper"]),
    row(Colour, "cream", &["cream"]),
    row(Colour, "fluorescent", &["fluorescent"]),
    row(Colour, "gold", &["gold"]),
    row(Colour, "green", &["green"]),
    row(Colour, "grey", &["grey"]),
    row(Colour, "gray", &["gray"]),
    row(Colour, "lime", &["lime"]),
    row(Colour, "natural", &["natural"]),
    row(Colour, "olive", &["olive"]),
    row(Colour, "orange", &["orange"]),
    row(Colour, "pink", &["pink"]),
    row(Colour, "purple", &["purple"]),
    row(Colour, "red", &["red"]),
    row(Colour, "silver", &["silver"]),
    row(Colour, "tan", &["tan"]),
    row(Colour, "two-tone", &["two tone"]),
    row(Colour, "violet", &["violet"]),
    row(Colour, "white", &["white"]),
    row(Colour, "yellow", &["yellow"]),

    row(Build, "tapered", &["tapered"]),
    row(Build, "level", &["level"]),
    row(Build, "knotless", &["knotless"]),
    row(Build, "furled", &["furled"]),
    row(Build, "braided", &["braided"]),
    row(Build, "twisted", &["twisted"]),
    row(Build, "bicolour", &["bicolour", "bicolor", "bi colour", "bi color"]),
    row(Build, "multicolour", &["multicolour", "multicolor", "tricolour", "tricolor"]),
    row(Build, "waxed", &["waxed"]),

    row(Fly, "barbless", &["barbless", "debarbed"]),
    row(Fly, "jig", &["jig", "jigged", "jig hook", "hook jig"]),
    row(Fly, "curved", &["curved", "curved hook"]),
    row(Fly, "wide-gape", &["wide gape"]),
    row(Fly, "long-shank", &["long shank"]),
    row(Fly, "short-shank", &["short shank"]),
    row(Fly, "dry", &["dry", "floating"]),
    row(Fly, "unweighted", &["unweighted", "no weight"]),
    row(Fly, "beadless", &["beadless", "no bead"]),
    row(Fly, "weighted", &["weighted"]),
    row(Fly, "eye-to-eye", &["eye to eye"]),
    row(Fly, "body", &["body"]),
    row(Slotted, "slotted", &["slotted", "slotted bead"]),
    row(Swivel, "micro", &["micro"]),
    row(Swivel, "barrel", &["barrel"]),
    row(Swivel, "snap", &["snap"]),

    row(Knot, "blood", &["blood", "blood knot"]),
    row(Knot, "doubled-blood", &["doubled blood", "doubled blood knot"]),
    row(Knot, "two-turn-surgeon", &["two turn surgeon", "two turn surgeon's", "two turn water knot", "2 turn surgeon"]),
    row(Knot, "double-surgeon", &["double surgeon", "double surgeon's", "double surgeons", "double surgeon's knot", "double surgeon knot"]),
    row(Knot, "three-turn-surgeon", &["three turn surgeon", "three turn surgeon's", "three turn water knot", "3 turn surgeon", "3 turn surgeon's", "3 turn water knot"]),
    row(Knot, "triple-surgeon", &["triple surgeon", "triple surgeon's", "triple surgeons", "triple surgeon's knot", "triple surgeon knot"]),
    row(Knot, "four-turn-surgeon", &["four turn surgeon", "four turn surgeon's", "four turn water knot", "4 turn surgeon", "4 turn surgeon's", "4 turn water knot"]),
    row(Knot, "surgeon", &["surgeon", "surgeon's", "surgeons", "surgeon's knot", "surgeon knot"]),
    row(Knot, "water-knot", &["water knot"]),
    row(Knot, "double-uni", &["double uni", "uni to uni", "double uni knot"]),
    row(Knot, "albright", &["albright", "albright knot"]),
    row(Knot, "dropper-loop", &["dropper loop"]),
    row(Knot, "clinch", &["clinch", "clinch knot", "half blood", "half blood knot"]),
    row(Knot, "improved-clinch", &["improved clinch", "improved clinch knot", "tucked half blood", "tucked half blood knot", "tucked clinch"]),
    row(Knot, "uni", &["uni", "uni knot", "grinner", "grinner knot"]),
    row(Knot, "palomar", &["palomar", "palomar knot"]),
    row(Knot, "davy", &["davy", "davy knot"]),
    row(Knot, "snell", &["snelled", "snell knot"]),
    row(Knot, "non-slip-loop", &["non slip loop", "loop knot"]),
    row(Knot, "non-slip-mono", &["non slip mono", "non slip mono loop", "non slip mono knot"]),
    row(Knot, "figure-of-eight-loop", &["figure of eight", "figure of eight loop", "figure eight", "figure eight loop"]),
    row(Knot, "perfection-loop", &["perfection loop"]),
    row(Knot, "surgeon-loop", &["surgeon loop", "surgeon's loop", "double surgeon's loop"]),
    row(Knot, "loop-to-loop", &["loop to loop"]),
    row(Knot, "needle", &["needle knot"]),
    row(Knot, "nail", &["nail knot"]),
    row(Knot, "glued-splice", &["glued splice", "superglue splice"]),
    row(Knot, "overhand", &["overhand", "overhand knot"]),

    row(Which, "mean", &["mean"]),
    row(Which, "surface", &["surface", "at the surface"]),
    row(Bed, "sand", &["sand", "sandy", "silt", "mud"]),
    row(Bed, "gravel", &["gravel", "pebble", "pebbles"]),
    row(Bed, "cobble", &["cobble", "cobbles", "stone", "stones", "freestone"]),
    row(Bed, "boulder", &["boulder", "boulders", "rock", "rocks", "bedrock"]),
    row(Bed, "weed", &["weed", "weeds", "weed bed", "weed beds"]),

    // At the surface. Source: common practice, no source.
    row(Pace, "0.2 m/s to 0.4 m/s", &["slow", "slow water", "slow current", "slow flow", "gentle"]),
    row(Pace, "0.2 m/s to 0.8 m/s", &["slow to medium", "slow to moderate"]),
    row(Pace, "0.5 m/s to 0.8 m/s", &["medium", "medium speed", "medium current", "medium flow", "moderate", "moderate flow", "moderate current"]),
    row(Pace, "0.5 m/s to 1.3 m/s", &["medium to fast", "moderate to fast"]),
    row(Pace, "0.9 m/s to 1.3 m/s", &["fast", "fast water", "fast current", "fast flow", "quick"]),

    row(Trim, "", &["trim to", "trimmed to", "trimmed back to", "cut to", "cut back to", "cut down to"]),

    // British split shot, g. Source: the usual table of the sizes, from memory.
    row(Shot, "1.6", &["ssg"]),
    row(Shot, "0.8", &["aaa"]),
    row(Shot, "0.6", &["ab"]),
    row(Shot, "0.4", &["bb"]),
    row(Shot, "0.28", &["no 1", "number 1"]),
    row(Shot, "0.2", &["no 3", "number 3"]),
    row(Shot, "0.17", &["no 4", "number 4"]),
    row(Shot, "0.1", &["no 6", "number 6"]),
    row(Shot, "0.06", &["no 8", "number 8"]),

    row(Bend, "bend", &["off bend", "off the bend", "off the hook bend", "off its bend", "from the bend", "to bend", "to the bend", "on the bend", "to the hook bend", "off hook bend"]),
    row(Extent, "", &["deep", "long"]),
    row(Filler, "", &["each", "tag of", "on a tag of", "a tag of", "split shot", "shots", "tied", "knot", "test", "breaking strain", "bs", "tip", "hook", "bead", "beads", "bead head", "beadhead", "between", "diameter", "total"]),
];

/// Words that go with the colour behind them.
pub(super) const SHADES: &[&str] = &[
    "bright",
    "dark",
    "fl",
    "fluo",
    "fluoro",
    "fluorescent",
    "hot",
    "light",
    "matt",
    "matte",
    "neon",
    "pale",
    "signal",
];

/// Those that may stand behind it, too.
pub(super) const SHADES_BEHIND: &[&str] = &["fluo", "fluor", "neon"];

/// Methods by their usual names.
#[rustfmt::skip]
pub(super) const METHODS: &[(&str, &[&str])] = &[
    ("tight-line", &["tight line", "euro", "euro nymph", "euro nymphs", "euro nymphing", "french leader", "french nymphing",
        "spanish", "spanish nymphing", "czech", "czech nymph", "czech nymphing", "polish nymphing", "short line", "short line nymphing",
        "nymph", "nymphs", "nymphing", "contact nymphing", "high stick", "high sticking", "mono rig", "fixed line", "drop shot", "tightline",
        "tight lining", "nymphe au fil", "long leader"]),
    ("float", &["float", "indicator", "indicator nymphing", "bobber", "bung", "the bung", "under the bung", "sink and draw", "strike indicator"]),
    ("dry-dropper", &["dry dropper", "dry and dropper", "dry dropper rig", "hopper dropper", "klink and dink", "duo", "the duo", "new zealand style", "new zealand"]),
    ("team", &["team", "team of wets", "team of wet flies", "team of spiders", "team of buzzers", "wet", "wets", "wet fly", "wet flies", "wet fly swing", "loch style", "lough style",
        "spiders", "north country spiders", "soft hackles", "buzzers on a team", "buzzers", "swing", "swinging", "down and across", "washing line"]),
    ("dry", &["dry", "dry fly", "dries", "single dry", "dry flies"]),
    ("streamer", &["streamer", "streamers", "streamer fishing", "lure", "lures"]),
];

/// The part that a word at the start of a line means, and the strict key.
#[rustfmt::skip]
pub(super) const KEYS: &[(&str, Part, &[&str])] = &[
    ("tippet", Part::Piece, &["tippet", "then"]),
    ("butt", Part::Piece, &["butt", "butt section"]),
    ("taper", Part::Piece, &["taper", "mid", "mid section", "midsection", "transition", "step down"]),
    ("sighter", Part::Piece, &["sighter"]),
    ("leader", Part::Piece, &["leader", "tapered leader"]),
    ("knot", Part::Knot, &["knot"]),
    ("line", Part::Line, &["line", "fly line", "sink tip", "sinking tip", "sinktip"]),
    ("dropper", Part::Dropper, &["dropper", "top dropper", "middle dropper", "first dropper", "second dropper", "bottom dropper",
        "bob", "bob fly", "top fly", "middle fly", "tag", "tag fly", "upper fly", "upper dropper", "lower dropper"]),
    ("point", Part::Fly, &["point", "point fly", "tail fly", "tail", "end fly", "bottom fly"]),
    ("fly", Part::Fly, &["fly", "nymph", "anchor", "anchor fly", "trailer", "dry", "dry fly"]),
    ("inline", Part::Fly, &["inline", "in line"]),
    ("float", Part::Float, &["float", "indicator", "strike indicator", "bobber", "bung"]),
    ("ring", Part::Ring, &["ring", "tippet ring"]),
    ("swivel", Part::Swivel, &["swivel"]),
    ("shot", Part::Shot, &["shot", "shots", "split shot", "putty", "tungsten putty"]),
    ("method", Part::Method, &["method", "style"]),
    ("water", Part::Water, &["water"]),
    ("rod", Part::Rod, &["rod"]),
    ("note", Part::Note, &["notes", "note", "lost", "missed", "weather", "conditions", "reel", "backing"]),
    ("caught", Part::Catch, &["caught", "landed", "netted"]),
    ("day", Part::Day, &["day", "date"]),
    ("rig", Part::Outing, &["rig"]),
];

/// Which values a line takes.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Part {
    Piece,
    Line,
    Dropper,
    Fly,
    Float,
    Ring,
    Swivel,
    Shot,
    Knot,
    Method,
    Water,
    Rod,
    Note,
    Catch,
    Day,
    /// Of an outing, and always strict but for a colon.
    Outing,
}

impl Part {
    /// Whether it carries a fly.
    pub(super) const fn is_fly(self) -> bool {
        matches!(self, Self::Dropper | Self::Fly)
    }

    /// Whether a word that says this has a place on the line.
    pub(super) const fn takes(self, says: Says) -> bool {
        match self {
            Self::Piece => matches!(says, Line | Colour | Build | Knot | Bend | Trim | Extent | Filler),
            Self::Line => matches!(says, Line | Colour | Build | Knot),
            Self::Dropper | Self::Fly => {
                matches!(
                    says,
                    Line | Bead | Colour | Fly | Slotted | Knot | Bend | Extent | Filler
                )
            }
            Self::Float => matches!(says, Bead | Colour),
            Self::Ring => false,
            Self::Swivel => matches!(says, Swivel),
            Self::Shot => matches!(says, Shot | Bead | Knot | Filler),
            Self::Knot => matches!(says, Knot | Filler),
            Self::Water => matches!(says, Bed | Which | Pace | Extent),
            Self::Method | Self::Rod | Self::Note | Self::Catch | Self::Day | Self::Outing => false,
        }
    }
}

/// Words that patterns are called by: they are no slips of words that look like them.
#[rustfmt::skip]
pub(super) const PATTERN_WORDS: &[&str] = &[
    "ant", "baetis", "beetle", "bibio", "bloodworm", "bug", "bumble", "buzzer", "buzzers", "caddis", "cdc", "copper", "crane", "cranefly",
    "cripple", "daddy", "dun", "ear", "ears", "egg", "emerger", "foam", "fly", "gnat", "grayling", "grub", "hackle", "hackles", "hare",
    "hares", "hare's", "hawthorn", "head", "hopper", "klinkhamer", "leech", "legs", "mayfly", "midge", "mite", "nymph", "palmer", "parachute",
    "partridge", "peeping", "perdigon", "perdigón", "pheasant", "pupa", "quill", "ribbed", "scud", "sedge", "shrimp", "snipe", "soft", "spider", "spinner",
    "sink", "sinking", "squirmy", "stonefly", "stimulator", "streamer", "tag", "tail", "thorax", "walt's", "wet", "winged", "woolly", "worm", "zebra", "bead",
    "badger", "blae", "butcher", "diawl", "bach", "peter", "cats", "whisker", "wire", "wired", "ribbing", "style", "lake", "loch", "lough", "stillwater", "still", "pool", "pocket", "deep", "wave", "yarn", "wood", "cork", "damsel", "sparkle", "bomber", "hot", "spot", "collar",
];

/// Names that are written short, and in full.
#[rustfmt::skip]
pub(super) const ABBREVIATIONS: &[(&str, &str)] = &[
    ("ptn", "pheasant tail nymph"),
    ("pt", "pheasant tail"),
    ("grhe", "gold-ribbed hare's ear"),
    ("hares ear", "hare's ear"),
    ("bwo", "blue-winged olive"),
];

/// Words that join in the author's own hand.
pub(super) fn joint(word: &str) -> Option<Joint> {
    match word {
        "w" => Some(Joint::With),
        "in" => Some(Joint::Of),
        _ => Joint::of(word),
    }
}

/// Words that say that a quantity is not exact.
pub(super) const ABOUT: &[&str] = &[
    "about",
    "approx",
    "approximately",
    "roughly",
    "around",
    "circa",
    "c",
    "ca",
];

/// Words before a hook's size.
pub(super) const SIZE_WORDS: &[&str] = &["size", "sz", "no", "n", "nr", "nº", "number", "hook", "hk"];

/// Fish by their usual names, each for one of them: a line may begin with how many of them were caught.
pub(super) const FISH: &[&str] = &[
    "trout",
    "brown",
    "brownie",
    "rainbow",
    "grayling",
    "salmon",
    "char",
    "perch",
    "chub",
    "dace",
    "brook",
    "cutthroat",
    "fish",
];

/// Numbers in words.
pub(super) const NUMBERS: &[(&[&str], u8)] = &[
    (&["nothing", "none", "nil", "no", "zero"], 0),
    (&["a", "an", "one"], 1),
    (&["two"], 2),
    (&["three"], 3),
    (&["four"], 4),
    (&["five"], 5),
    (&["six"], 6),
    (&["seven"], 7),
    (&["eight"], 8),
    (&["nine"], 9),
    (&["ten"], 10),
];

/// The months of the year; three letters of one are enough.
pub(super) const MONTHS: [&str; 12] = [
    "january",
    "february",
    "march",
    "april",
    "may",
    "june",
    "july",
    "august",
    "september",
    "october",
    "november",
    "december",
];
