//! What lines open with, which values each takes, and the words that stand beside them.
//!
//! They are common practice, and for none of them is there a source.

use super::phrases::Says;
use crate::vocabulary::Joint;
use Says::{
    Bead, Bed, Bend, Build, Colour, Depth, Extent, Filler, Fly, Knot, Line, OfReel, OfWater, Pace, Shot,
    Slotted, Swivel, Trim, Which, Wire,
};

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
    "hi-vis",
    "high-vis",
    "neon",
    "pale",
    "signal",
];

/// Those that may stand behind it, too.
pub(super) const SHADES_BEHIND: &[&str] = &["fluo", "fluor", "neon"];

/// Methods by their usual names.
#[rustfmt::skip]
pub(super) const METHODS: &[(&str, &[&str])] = &[
    ("tight-line", &["tight line", "euro", "euro style", "euro rig", "euro nymph", "euro nymphs", "euro nymphing", "french", "french leader", "french nymph", "french nymphing", "french style",
        "spanish", "spanish leader", "spanish style", "spanish nymphing", "czech", "czech nymph", "czech nymphs", "czech nymphing", "polish", "polish nymph", "polish nymphing", "italian nymphing", "short line", "short line nymphing",
        "nymph", "nymphs", "nymphing", "contact", "contact nymph", "contact nymphing", "high stick", "high sticking", "mono rig", "fixed line", "tenkara", "drop shot", "tightline", "tight line nymph",
        "tight line nymphing", "tight lining", "tightlining", "nymphe au fil", "long leader", "tl", "jig nymphing", "sight nymphing", "micro leader"]),
    ("float", &["float", "indicator", "indi", "indy", "indicator nymph", "indicator nymphing", "bobber", "bobbers", "bung", "the bung", "under the bung", "sink and draw", "strike indicator", "suspension nymphing",
        "under a float", "under an indicator", "under the indicator"]),
    ("dry-dropper", &["dry dropper", "dry and dropper", "dry & dropper", "dry/dropper", "dry dropper rig", "dry and nymph", "dry with dropper", "dry with a dropper", "dry and a dropper", "dry plus dropper", "dry fly and dropper", "dry fly dropper", "dry fly and nymph", "dry fly with dropper", "dry fly with a dropper", "dry fly with nymph", "dry over nymph", "dry with nymph", "hopper dropper", "hopper and dropper", "klink and dink", "klink & dink", "duo", "the duo", "new zealand style", "new zealand", "nz style"]),
    ("team", &["team", "team of wets", "team of wet flies", "team of spiders", "team of buzzers", "wet", "wets", "wet fly", "wet flies", "wet fly swing", "loch style", "lough style",
        "spider", "spiders", "buzzer", "north country spider", "north country spiders", "soft hackle", "soft hackles", "buzzers on a team", "buzzers", "swing", "swinging", "swung", "down and across", "across and down", "washing line", "static buzzers"]),
    ("dry", &["dry", "dry fly", "dries", "single dry", "dry flies", "dry fly fishing", "dapping"]),
    ("streamer", &["streamer", "streamers", "streamer fishing", "lure", "lures", "stripping lures", "pulling lures", "strip", "stripping", "strip and pause"]),
];

/// Names of methods that say how a fly is moved or what it is like, and not alone what the method is: beside another
/// the other counts. Source: common practice, no source.
pub(super) const BROAD_METHODS: &[&str] = &[
    "nymph",
    "nymphs",
    "nymphing",
    "buzzer",
    "buzzers",
    "swing",
    "swinging",
    "swung",
    "down and across",
    "across and down",
    "fixed line",
    "short line",
    "long leader",
    "mono rig",
    "french style",
    "spanish style",
    "sink and draw",
];

/// The part that a word at the start of a line means, and the strict key.
#[rustfmt::skip]
pub(super) const KEYS: &[(&str, Part, &[&str])] = &[
    ("tippet", Part::Piece, &["tippet", "then", "trace", "gap", "hooklength", "hook length"]),
    ("butt", Part::Piece, &["butt", "butt section", "main", "mainline", "main line"]),
    ("taper", Part::Piece, &["taper", "mid", "middle", "middle section", "mid section", "midsection", "transition", "step down", "taper section", "mid taper"]),
    ("sighter", Part::Piece, &["sighter", "indicator mono", "indicator line", "indicator section", "sighter section", "coil sighter", "coloured section", "colored section"]),
    ("leader", Part::Piece, &["leader", "tapered leader", "polyleader", "poly leader", "mono leader", "cast"]),
    ("knot", Part::Knot, &["knot", "loop"]),
    ("line", Part::Line, &["line", "fly line", "sink tip", "sinking tip", "sinktip", "flyline", "shooting head", "running line", "level line", "euro line", "nymph line", "floating line", "intermediate line", "sinking line", "floating fly line", "sink tip line"]),
    ("dropper", Part::Dropper, &["dropper", "top dropper", "middle dropper", "first dropper", "second dropper", "bottom dropper", "mid dropper",
        "dropper fly", "third dropper", "bob", "bob fly", "bobfly", "top fly", "middle fly", "tag", "tag fly", "upper fly", "upper dropper", "lower dropper"]),
    ("point", Part::Fly, &["point", "point fly", "tail fly", "tail", "end fly", "bottom fly", "bottom nymph", "bottom bug", "btm fly", "btm bug", "btm nymph", "point nymph", "last fly", "pointfly"]),
    ("fly", Part::Fly, &["fly", "nymph", "anchor", "anchor fly", "trailer", "trailer fly", "trailing fly", "streamer", "lure", "first fly", "second fly", "first nymph", "second nymph", "top nymph", "top bug", "bug", "lead fly", "dry", "dry fly"]),
    ("inline", Part::Fly, &["inline", "in line"]),
    ("float", Part::Float, &["float", "indicator", "indi", "indy", "strike indicator", "yarn indicator", "foam indicator", "wool indicator", "bobber", "bung"]),
    ("ring", Part::Ring, &["ring", "tippet ring", "leader ring", "micro ring", "rig ring"]),
    ("swivel", Part::Swivel, &["swivel"]),
    ("shot", Part::Shot, &["shot", "shots", "split shot", "putty", "tungsten putty"]),
    ("method", Part::Method, &["method", "style"]),
    ("water", Part::Water, &["water"]),
    ("rod", Part::Rod, &["rod"]),
    ("note", Part::Note, &["notes", "note", "lost", "missed", "weather", "conditions", "reel", "backing", "river", "stream", "lake", "venue", "place", "where",
        "target", "species", "season", "remark", "remarks", "comment", "comments", "remember", "result", "results", "retrieve", "fished", "presentation", "spacing", "beat",
        "knots", "flies", "total", "rem", "why", "todo", "see", "nb", "ps", "tactics", "hint", "hints"]),
    ("caught", Part::Catch, &["caught", "catch", "landed", "netted"]),
    ("day", Part::Day, &["day", "date"]),
    ("rig", Part::Outing, &["rig"]),
];

/// What a line within a rig may open with besides: it says of the water what `water` may say, too.
pub(super) const RIG_KEYS: &[(&str, Part, &[&str])] = &[
    ("fly", Part::Fly, &["top"]),
    (
        "water",
        Part::Water,
        &[
            "depth",
            "water depth",
            "speed",
            "water speed",
            "flow",
            "current",
            "pace",
            "temperature",
            "temp",
            "water temperature",
            "water temp",
        ],
    ),
    ("water", Part::Bed, &["bed", "bottom"]),
];

/// Those of them that speak of how warm it is.
pub(super) const TELLS_WARMTH: &[&str] = &["temperature", "temp", "water temperature", "water temp"];

/// Those whose figures say by themselves what they are of.
pub(super) const TELLS_WATER: &[&str] = &[
    "water depth",
    "depth",
    "speed",
    "water speed",
    "flow",
    "current",
    "pace",
    "bed",
    "bottom",
];

/// Those that speak of its speed.
pub(super) const TELLS_PACE: &[&str] = &["speed", "water speed", "flow", "current", "pace"];

/// Short keys that only a point tells from words of their own.
pub(super) const TAKEN: &[&str] = &["pt", "tip"];

/// Keys that are written short, mostly with a point: `tip.`
pub(super) const SHORT_KEYS: &[(&str, &str)] = &[
    ("drop", "dropper"),
    ("dr", "dropper"),
    ("ind", "indicator"),
    ("ldr", "leader"),
    ("m", "method"),
    ("meth", "method"),
    ("pt", "point"),
    ("sig", "sighter"),
    ("sight", "sighter"),
    ("sgt", "sighter"),
    ("tapr", "taper"),
    ("tip", "tippet"),
    ("tipp", "tippet"),
    ("tpt", "tippet"),
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
    /// What lies on the ground of a water, on a line of its own.
    Bed,
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
            Self::Piece => matches!(
                says,
                Line | Wire | Colour | Build | Knot | Bend | Trim | Extent | Filler
            ),
            Self::Line => matches!(says, Line | Colour | Build | Knot | OfReel),
            Self::Dropper | Self::Fly => {
                matches!(
                    says,
                    Line | Bead | Colour | Fly | Slotted | Knot | Bend | Extent | Filler
                )
            }
            Self::Float => matches!(says, Bead | Colour | Filler),
            Self::Ring => matches!(says, Knot),
            Self::Swivel => matches!(says, Swivel | Knot),
            Self::Shot => matches!(says, Shot | Bead | Knot | Filler),
            Self::Knot => matches!(says, Knot | Filler),
            Self::Water => matches!(says, Bed | Which | Pace | Depth | Extent | OfWater),
            Self::Bed => matches!(says, Bed),
            Self::Method | Self::Rod | Self::Note | Self::Catch | Self::Day | Self::Outing => false,
        }
    }
}

/// Words of knots' names that are written short, with a point or without: `dbl. surg`.
pub(super) const IN_KNOTS: &[(&str, &str)] = &[
    ("dbl", "double"),
    ("imp", "improved"),
    ("impr", "improved"),
    ("kn", "knot"),
    ("knots", "knot"),
    ("wtr", "water"),
    ("surg", "surgeon"),
    ("surgs", "surgeon"),
    ("trpl", "triple"),
    ("trip", "triple"),
    ("perf", "perfection"),
    ("alb", "albright"),
    ("clin", "clinch"),
];

/// Lines of a rig that are always strict: what they hold is known where rigs are read.
pub(crate) const STRICT_KEYS: &[&str] = &[
    "add", "allow", "cast", "drag", "drift", "off-bed", "reach", "remove", "rules", "tip", "wind",
];

/// What a fly is told to be without; `no tag` ties it into the line.
pub(super) const LACKED: &[&str] = &["bead", "beads", "beadhead", TAG, "weight", "lead", "flash"];

/// The length of line that a dropper hangs on.
pub(super) const TAG: &str = "tag";

/// Words that patterns are called by: they are no slips of words that look like them.
#[rustfmt::skip]
pub(super) const PATTERN_WORDS: &[&str] = &[
    "ant", "baetis", "beetle", "bibio", "bloodworm", "bug", "bumble", "buzzer", "buzzers", "caddis", "cdc", "copper", "crane", "cranefly",
    "cripple", "daddy", "dun", "ear", "ears", "egg", "emerger", "foam", "fly", "gnat", "grayling", "grub", "hackle", "hackles", "hare",
    "hares", "hare's", "hawthorn", "head", "hopper", "klinkhamer", "leech", "legs", "mayfly", "midge", "mite", "nymph", "palmer", "parachute",
    "partridge", "peeping", "perdigon", "perdigón", "pheasant", "pupa", "quill", "ribbed", "scud", "sedge", "shrimp", "snipe", "soft", "spider", "spinner",
    "sink", "sinking", "light", "dark", "pale", "bread", "cone", "conehead", "rib", "post", "wing", "wings", "body", "thread", "silk", "dubbing", "elk", "deer", "hair", "feather", "minnow", "lure", "blob", "booby", "prawn", "cricket", "cicada", "snail", "coachman", "duster", "blood", "popper", "mink", "grass", "rook", "perch", "dust", "rusty", "beard", "crown", "navy", "golden", "ember", "glue", "lengths", "droppers", "floatant", "line", "sow", "crayfish", "baitfish", "sculpin", "bugger", "squirmy", "stonefly", "streamer", "tag", "tail", "thorax", "wet", "winged", "woolly", "worm", "zebra", "bead",
    "double", "treble", "single", "badger", "blae", "bloody", "butcher", "diawl", "bach", "peter", "cats", "whisker", "wire", "wired", "ribbing", "style", "lake", "loch", "lough", "stillwater", "still", "pool", "pocket", "deep", "wave", "yarn", "wood", "cork", "damsel", "sparkle", "bomber", "hot", "spot", "collar",
];

/// Words that floats are called by.
pub(super) const FLOAT_WORDS: &[&str] = &[
    "bung",
    "indicator",
    "bobber",
    "float",
    "yarn",
    "wool",
    "cork",
    "balsa",
    "putty",
    "pinch",
    "thingy",
];

/// Words that waters are called by.
#[rustfmt::skip]
pub(super) const WATER_WORDS: &[&str] = &[
    "stillwater", "still", "pocket", "pool", "slot", "hole", "run", "seam", "slick", "eddy", "swim", "corner", "tailout", "bend", "bank", "riffle", "riffles", "glide", "stream", "river", "lake", "loch",
    "lough", "pond", "reservoir", "tail", "flat", "tidal", "spate", "ripple", "wave", "canal", "shallow", "skinny",
    "thin", "calm", "dirty", "brisk", "clear", "coloured", "low", "high", "weedy",
];

/// Words behind or before a speed of the air.
pub(super) const WINDS: &[&str] = &["wind", "breeze"];

/// Words that fly lines are called by.
#[rustfmt::skip]
pub(super) const REEL_WORDS: &[&str] = &[
    "floating", "floater", "sinking", "sinker", "intermediate", "sink", "fast", "slow", "hover", "weight",
    "forward", "double", "taper", "head", "shooting", "running",
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

/// Words that say how a piece of line feels or lies, which no figure holds.
#[rustfmt::skip]
pub(super) const QUALITIES: &[&str] = &[
    "stiff", "stiffer", "soft", "softer", "supple", "limp", "hard", "cheap", "fine", "finest", "thin", "thick", "fresh", "new", "old", "plain",
    "colored", "coloured", "half", "opaque", "straight", "strong", "good", "decent", "ordinary", "standard", "normal", "any", "my", "your", "usual",
];

/// Words that say that a quantity is not exact.
#[rustfmt::skip]
pub(super) const ABOUT: &[&str] = &[
    "about", "approx", "approximately", "roughly", "around", "circa", "c", "ca", "like", "maybe", "perhaps", "probably",
    "say", "nearly", "almost",
];

/// Words behind a value of which their author is not sure.
pub(super) const HEDGES: &[&str] = &[
    "i think",
    "i believe",
    "i guess",
    "i hope",
    "maybe",
    "perhaps",
    "probably",
    "possibly",
    "or so",
    "or thereabouts",
    "give or take",
    "more or less",
    "not sure",
    "at a guess",
    "from memory",
    "at most",
    "at least",
    "max",
    "or less",
    "or more",
    "or under",
    "or over",
    "he said",
    "she said",
    "i reckon",
    "trust me",
    "as ever",
    "as usual",
    "as always",
    "ish",
];

/// Words that alone are no name of a fly or a piece.
#[rustfmt::skip]
pub(super) const SMALL_WORDS: &[&str] = &[
    "a", "an", "the", "w", "carrying", "tied", "holding", "below", "above", "for", "more", "lengths", "length",
    "fly", "tag", "standing", "short", "about", "my", "usual", "end", "joined", "clinched", "attached", "looped",
    "one", "ones", "another", "added", "put", "stuff", "kind", "type", "sort", "that", "which", "then", "he", "she", "it", "they",
    "here", "there", "just", "only", "small", "tiny", "big", "large", "little", "something", "anything", "some", "any", "heavy",
    "heaviest", "lighter", "heavier", "quite", "pretty", "fairly", "rather", "really", "very", "coiled", "curly", "greased", "degreased", "other", "free", "set", "again",
    "left",
];

/// What a part does, where its line is a sentence; none of them is part of what it is called.
pub(super) const DOINGS: &[&str] = &[
    "begins", "comes", "come", "ends", "finishes", "follows", "goes", "makes", "next", "rides", "sits",
    "start", "starts",
];

/// Words before a hook's size.
pub(super) const SIZE_WORDS: &[&str] = &[
    "size", "sz", "no", "h", "n", "nr", "gr", "nº", "number", "hook", "hk",
];

/// Fish by their usual names, each for one of them, and what a count of them goes by; of `fish` nobody says which. A
/// line may begin with how many of them were caught.
pub(super) const FISH: &[(&str, Option<&str>)] = &[
    ("trout", Some("trout")),
    ("brown", Some("brown trout")),
    ("brownie", Some("brown trout")),
    ("rainbow", Some("rainbow trout")),
    ("grayling", Some("grayling")),
    ("salmon", Some("salmon")),
    ("char", Some("char")),
    ("perch", Some("perch")),
    ("chub", Some("chub")),
    ("dace", Some("dace")),
    ("brook", Some("brook trout")),
    ("brookie", Some("brook trout")),
    ("cutthroat", Some("cutthroat trout")),
    ("whitefish", Some("whitefish")),
    ("fish", None),
];

/// What is told of fish besides.
pub(super) const FISH_TALK: &[&str] = &[
    "bites", "caught", "eats", "landed", "lost", "missed", "pulls", "rises", "takes",
];

/// Words of sentences that no line of a block holds.
#[rustfmt::skip]
pub(super) const SENTENCE_WORDS: &[&str] = &[
    "are", "be", "because", "been", "but", "can", "can't", "could", "did", "didn't", "do", "does", "doesn't", "don't", "had", "has", "have",
    "he", "her", "his", "how", "i", "if", "is", "it", "it's", "me", "must", "my", "never", "not", "our", "she", "should", "so", "their", "them", "they",
    "this", "til", "till", "until", "very", "was", "we", "were", "what", "when", "which", "while", "who", "will", "won't", "would", "you", "your",
];

/// What tells somebody to do something, at the start of a sentence; no part of a rig is called so.
#[rustfmt::skip]
pub(super) const OPENING_VERBS: &[&str] = &[
    "bring", "came", "check", "degrease", "fish", "go", "grease", "hold", "keep", "kneel", "leave", "lift", "made", "measured", "move", "put", "remember", "rest", "sold", "stand", "start", "stay", "step", "take", "tie", "strike", "swap", "try",
    "wade", "wait", "walk", "watch", "work",
];

/// Words that say in which order a card names its parts.
pub(super) const ORDER_WORDS: &[&str] = &[
    "rod", "reel", "end", "tip", "top", "butt", "bottom", "fly", "flies", "point", "to", "from", "down",
    "up", "the", "first", "last", "in", "order", "read", "reading", "listed", "written",
];

/// Words behind what all of a leader comes to.
pub(super) const TOTAL_WORDS: &[&str] = &["overall", "total", "altogether", "all-in", "comes"];

/// Small words that open a sentence about a part, and say nothing of it.
pub(super) const LEADING_WORDS: &[&str] = &[
    "a", "add", "an", "and", "finally", "first", "next", "now", "the", "then",
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
    (&["eleven"], 11),
    (&["twelve"], 12),
    (&["thirteen"], 13),
    (&["fourteen"], 14),
    (&["fifteen"], 15),
    (&["sixteen"], 16),
    (&["seventeen"], 17),
    (&["eighteen"], 18),
    (&["nineteen"], 19),
    (&["twenty"], 20),
    (&["thirty"], 30),
    (&["forty"], 40),
    (&["fifty"], 50),
    (&["sixty"], 60),
    (&["seventy"], 70),
    (&["eighty"], 80),
    (&["ninety"], 90),
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
