//! The words of the trade as anglers write them, each with the strict word that it stands for.
//!
//! They are common practice, and for none of them is there a source, but for the masses of shot.

use crate::named::{BUILDS, COLOURS, FLY_WORDS, Named, SLOTTED, SWIVELS};
use crate::words::fold;
use rustc_hash::FxHashMap;
use std::borrow::Cow;
use std::sync::LazyLock;

/// What a word of the trade says.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Says {
    /// What line is made of.
    Line,
    /// The same, of what bites through other line.
    Wire,
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
    /// A depth in words, by whom it reaches where.
    Depth,
    /// `trim to`: the length behind it is what is left.
    Trim,
    /// `off the bend`
    Bend,
    /// Which way a length behind which it stands is measured.
    Extent,
    /// It says nothing beside the value next to it.
    Filler,
    /// The same, of a water.
    OfWater,
    /// The same, of what is on the reel.
    OfReel,
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
    Bead, Bed, Bend, Build, Colour, Depth, Extent, Filler, Fly, Knot, Line, OfReel, OfWater, Pace, Shot,
    Slotted, Swivel, Trim, Which, Wire,
};

/// Every word but those of methods, of parts and of [`crate::named`].
#[rustfmt::skip]
const OWN: &[Row] = &[
    row(Line, "nylon", &["nylon"]),
    row(Line, "mono", &["mono", "mono line"]),
    row(Line, "monofilament", &["monofilament"]),
    row(Line, "fluoro", &["fluoro"]),
    row(Line, "fluorocarbon", &["fluorocarbon", "fluoro carbon", "fc"]),
    row(Line, "copolymer", &["copolymer", "copoly", "co polymer"]),
    row(Line, "horsehair", &["horsehair", "horse hair"]),

    row(Wire, "steel", &["wire", "steel", "steel wire", "trace wire"]),

    row(Bead, "tungsten", &["tungsten", "tung", "tg", "tb", "tungsten bead", "tungsten beadhead"]),
    row(Bead, "brass", &["brass"]),
    row(Bead, "steel", &["steel"]),
    row(Bead, "glass", &["glass"]),
    row(Bead, "tin", &["tin"]),
    row(Bead, "lead", &["lead"]),
    row(Bead, "foam", &["foam"]),

    row(Colour, "two-tone", &["two tone"]),

    row(Knot, "blood", &["blood", "blood knot", "full blood", "full blood knot", "barrel knot"]),
    row(Knot, "doubled-blood", &["doubled blood", "doubled blood knot"]),
    row(Knot, "two-turn-surgeon", &["two turn surgeon", "two turn surgeon's", "two turn water knot", "2 turn surgeon"]),
    row(Knot, "double-surgeon", &["double surgeon", "double surgeon's", "double surgeons", "double surgeon's knot", "double surgeon knot"]),
    row(Knot, "three-turn-surgeon", &["three turn surgeon", "three turn surgeon's", "three turn water knot", "3 turn surgeon", "3 turn surgeon's", "3 turn surgeons", "three turn surgeons", "3 turn water knot"]),
    row(Knot, "triple-surgeon", &["triple surgeon", "triple surgeon's", "triple surgeons", "triple surgeon's knot", "triple surgeon knot"]),
    row(Knot, "four-turn-surgeon", &["four turn surgeon", "four turn surgeon's", "four turn water knot", "4 turn surgeon", "4 turn surgeon's", "4 turn water knot"]),
    row(Knot, "surgeon", &["surgeon", "surgeon's", "surgeons", "surgeon's knot", "surgeon knot"]),
    row(Knot, "water-knot", &["water knot"]),
    row(Knot, "double-uni", &["double uni", "uni to uni", "double uni knot", "double grinner", "double grinner knot"]),
    row(Knot, "albright", &["albright", "albright knot"]),
    row(Knot, "dropper-loop", &["dropper loop"]),
    row(Knot, "clinch", &["clinch", "clinch knot", "half blood", "half blood knot"]),
    row(Knot, "improved-clinch", &["improved clinch", "improved clinch knot", "tucked half blood", "tucked half blood knot", "tucked clinch", "tucked blood", "tucked blood knot", "locked half blood", "locked half blood knot"]),
    row(Knot, "double-clinch", &["double clinch", "double clinch knot"]),
    row(Knot, "uni", &["uni", "uni knot", "grinner", "grinner knot"]),
    row(Knot, "palomar", &["palomar", "palomar knot"]),
    row(Knot, "davy", &["davy", "davy knot"]),
    row(Knot, "snell", &["snell", "snelled", "snell knot"]),
    row(Knot, "non-slip-loop", &["non slip loop", "loop knot"]),
    row(Knot, "non-slip-mono", &["non slip mono", "non slip mono loop", "non slip mono knot"]),
    row(Knot, "figure-of-eight-loop", &["figure of eight", "figure of eight loop", "figure eight", "figure eight loop", "figure of 8", "figure of 8 loop", "figure 8", "figure 8 loop"]),
    row(Knot, "perfection-loop", &["perfection loop", "perfection knot"]),
    row(Knot, "surgeon-loop", &["surgeon loop", "surgeon's loop", "double surgeon's loop"]),
    row(Knot, "loop-to-loop", &["loop to loop"]),
    row(Knot, "needle", &["needle", "needle knot"]),
    row(Knot, "nail", &["nail", "nail knot"]),
    row(Knot, "glued-splice", &["glued splice", "superglue splice"]),
    row(Knot, "overhand", &["overhand", "overhand knot"]),

    row(Which, "mean", &["mean"]),
    row(Which, "surface", &["surface", "at the surface"]),
    row(Bed, "sand", &["sand", "sandy", "silt", "silty", "mud", "muddy"]),
    row(Bed, "gravel", &["gravel", "gravelly", "pebble", "pebbles", "pebbly"]),
    row(Bed, "cobble", &["cobble", "cobbles", "stone", "stones", "stony", "freestone"]),
    row(Bed, "boulder", &["boulder", "boulders", "rock", "rocks", "rocky", "bedrock", "blocks", "big blocks"]),
    row(Bed, "weed", &["weed", "weeds", "weed bed", "weed beds"]),

    // At the surface. Source: common practice, no source.
    row(Pace, "0.2 m/s to 0.4 m/s", &["slow", "slow pace", "slow water", "slow current", "slow flow", "gentle"]),
    row(Pace, "0.2 m/s to 0.8 m/s", &["slow to medium", "slow to moderate"]),
    row(Pace, "0.5 m/s to 0.8 m/s", &["medium", "medium pace", "medium speed", "medium current", "medium flow", "moderate", "moderate flow", "moderate current"]),
    row(Pace, "0.5 m/s to 1.3 m/s", &["medium to fast", "moderate to fast"]),
    row(Pace, "0.8 m/s to 1.2 m/s", &["walking pace", "walking speed"]),
    row(Pace, "0.9 m/s to 1.3 m/s", &["fast", "fast pace", "fast water", "fast current", "fast flow", "brisk", "strong", "strong flow", "strong current", "quick"]),

    // On a grown angler who stands in it. Source: common practice, no source.
    row(Depth, "0.1 m to 0.2 m", &["ankle deep"]),
    row(Depth, "0.25 m to 0.35 m", &["shin deep", "calf deep"]),
    row(Depth, "0.4 m to 0.5 m", &["knee deep"]),
    row(Depth, "0.6 m to 0.8 m", &["thigh deep"]),
    row(Depth, "0.9 m to 1.1 m", &["waist deep"]),
    row(Depth, "0.1 m to 0.5 m", &["ankle to knee deep", "ankle to knee"]),
    row(Depth, "0.25 m to 0.5 m", &["shin to knee deep", "shin to knee", "calf to knee deep", "calf to knee"]),
    row(Depth, "0.25 m to 0.8 m", &["shin to thigh deep", "shin to thigh"]),
    row(Depth, "0.4 m to 0.8 m", &["knee to thigh deep", "knee to thigh"]),
    row(Depth, "0.4 m to 1.1 m", &["knee to waist deep", "knee to waist"]),
    row(Depth, "0.6 m to 1.1 m", &["thigh to waist deep", "thigh to waist"]),

    row(Trim, "", &["trim to", "trimmed to", "trimmed back to", "cut to", "cut back to", "cut down to"]),

    // British split shot, g. Source: the usual table of the sizes, from memory.
    row(Shot, "1.6", &["ssg", "ssgs"]),
    row(Shot, "0.8", &["aaa", "aaas"]),
    row(Shot, "0.6", &["ab", "abs"]),
    row(Shot, "0.4", &["bb", "bbs"]),
    row(Shot, "0.28", &["no 1", "number 1"]),
    row(Shot, "0.2", &["no 3", "number 3"]),
    row(Shot, "0.17", &["no 4", "number 4"]),
    row(Shot, "0.13", &["no 5", "number 5"]),
    row(Shot, "0.1", &["no 6", "number 6"]),
    row(Shot, "0.08", &["no 7", "number 7"]),
    row(Shot, "0.06", &["no 8", "number 8"]),
    row(Shot, "0.05", &["no 9", "number 9"]),
    row(Shot, "0.04", &["no 10", "number 10"]),
    row(Shot, "0.03", &["no 11", "number 11"]),
    row(Shot, "0.02", &["no 12", "number 12"]),

    row(Bend, "bend", &["off bend", "off the bend", "off the hook bend", "off its bend", "from its bend", "from the bend", "to bend", "to the bend", "on the bend", "to the hook bend", "off hook bend", "from hook bend", "to bend of", "off bend of", "off the bend of", "from the bend of", "from bend of", "from the hook bend of", "from the bend of the dry", "from bend of the dry", "from the bend of dry", "to the bend of", "in the hook bend of the dry", "in the hook bend", "in the bend", "hook bend", "off the bend of the dry", "to the bend of the dry", "to bend of dry", "off bend of dry"]),
    row(Extent, "", &["deep", "long", "tag", "in length", "in depth"]),
    row(Filler, "", &["each", "double strength", "tag end", "weight", "weighing", "tag of", "on a tag of", "a tag of", "split shot", "shot", "shots", "tied", "tied to the eye", "to the eye", "knot", "test", "breaking strain", "bs", "b.s", "b.s.", "tip", "hook", "bead", "beads", "bead head", "beadhead", "bh", "between", "dia", "diameter", "total"]),
    row(OfWater, "", &["bottom", "depth", "speed", "bed", "current", "flow", "pace"]),
    row(OfReel, "", &["line", "fly line"]),
];

/// What is often spelt so, or comes from a neighbour's language; it is read, and never offered.
pub(super) const OTHERWISE: &[Row] = &[
    row(
        Line,
        "same",
        &[
            "same",
            "the same",
            "same stuff",
            "the same stuff",
            "same line",
            "the same line",
            "same again",
            "ditto",
        ],
    ),
    row(Line, "mono", &["monofil"]),
    row(Knot, "blood", &["bl knot"]),
    row(Colour, "orange", &["org"]),
    row(Colour, "yellow", &["ylw"]),
    row(Build, "tapered", &["tapd", "tprd"]),
    row(Filler, "", &["bd", "bds", "one piece", "in one piece", "please"]),
    row(Pace, "0.2 m/s to 0.4 m/s", &["slo", "slw"]),
    row(Bead, "tungsten", &["wolfram"]),
    row(Colour, "chartreuse", &["chart"]),
    row(Line, "fluoro", &["fluor", "flouro", "floro", "fluro"]),
    row(
        Line,
        "fluorocarbon",
        &[
            "flourocarbon",
            "flurocarbon",
            "flouro carbon",
            "fluorocarbone",
            "fluorocarbono",
        ],
    ),
    row(Bead, "tungsten", &["tungstène", "tungstene", "tungsteno"]),
    row(Colour, "yellow", &["jaune", "amarillo"]),
    row(Colour, "black", &["blk"]),
    row(Colour, "red", &["rouge"]),
    row(Colour, "white", &["blanc", "blanco"]),
    row(Colour, "orange", &["naranja"]),
];

/// Every row: those above, and those of the words that the keywords read, too.
pub(super) static TRADE: LazyLock<Vec<Row>> = LazyLock::new(|| {
    let own = OWN.iter().map(|row| Row { ..*row });
    let of =
        |says: Says, named: &'static [Named]| named.iter().map(move |one| row(says, one.word, one.written));
    let colours = COLOURS.iter().filter(|colour| !colour.contains('-'));
    own.chain(colours.map(|colour| row(Colour, colour, std::slice::from_ref(colour))))
        .chain(of(Build, BUILDS))
        .chain(of(Fly, FLY_WORDS))
        .chain(of(Slotted, SLOTTED))
        .chain(of(Swivel, SWIVELS))
        .collect()
});

type Phrases = FxHashMap<&'static str, Vec<&'static Row>>;

/// The rows by how they are written.
pub(super) static PHRASES: LazyLock<Phrases> = LazyLock::new(|| {
    let mut phrases = Phrases::default();
    for row in TRADE.iter().chain(OTHERWISE) {
        for written in row.written {
            phrases.entry(*written).or_default().push(row);
        }
    }
    phrases
});

/// The rows by the letters that they are written with first, in their order.
pub(super) static BY_FIRST: LazyLock<Phrases> = LazyLock::new(|| {
    let mut by_first = Phrases::default();
    for row in TRADE.iter() {
        for first in row.written.iter().filter_map(|written| written.get(..1)) {
            let rows = by_first.entry(first).or_default();
            if rows.last() != Some(&row) {
                rows.push(row);
            }
        }
    }
    by_first
});

/// A word or phrase as the tables have it: lower case, plain apostrophes, spaces for hyphens.
pub(super) fn plain(written: &str) -> Cow<'_, str> {
    let folded = fold(written);
    if folded.contains(['’', '-']) {
        folded.replace('’', "'").replace('-', " ").into()
    } else {
        folded
    }
}

/// `dark-olive`: a compound that ends in a colour.
pub(super) fn compound_colour(word: &str) -> Option<&'static Row> {
    let (_, last) = word.rsplit_once('-')?;
    let rows = PHRASES.get(last)?;
    rows.iter().copied().find(|row| row.says == Says::Colour)
}
