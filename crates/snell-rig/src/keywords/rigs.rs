//! What rigs, rules and rulebooks may say, but for the lines with a form of
//! their own.

use super::Take::{
    Any, BeadSize, Colour, Depth, Diameter, Force, HookSize, Label, Length, LineSize, LineWeight, Mass, Name,
    PartLength, Path, Speed, Word,
};
use super::blocks::BED_OF;
use super::words::{BEND, CASTS, EACH, FREE, LEVELS, MEAN, METHODS, SLOTTED, TAGS, THINGS};
use super::{ClauseRow, Row, Slot, TextNeed, clause, many, may, must};
use snell_syntax::{BlockKind, Joint};

const STUFF: &[Slot] = &[
    may(Name(BlockKind::Spool)),
    may(LineSize),
    may(Diameter),
    may(Force),
    may(Name(BlockKind::Material)),
    many(Colour),
];

const A_FLY: &[Slot] = &[
    may(Name(BlockKind::Fly)),
    may(HookSize),
    may(BeadSize),
    may(Name(BlockKind::Material)),
    may(Word(SLOTTED)),
    may(Mass),
];

/// Values that go by one word in the shape of a line.
pub(super) const GROUPS: &[(&str, &[Slot])] = &[("STUFF", STUFF), ("FLY", A_FLY)];

const OF_STUFF: ClauseRow = clause(Joint::Of, STUFF);
const AS_LABEL: ClauseRow = clause(Joint::As, &[must(Label)]);
const ON_KNOT: ClauseRow = clause(Joint::On, &[must(Name(BlockKind::Knot))]);
const WITH_FLY: ClauseRow = clause(Joint::With, A_FLY);
const AFTER: ClauseRow = clause(Joint::After, &[must(Path), may(Any)]);

const A_LENGTH: &[Slot] = &[must(PartLength)];
const SECTION: &[ClauseRow] = &[OF_STUFF, AS_LABEL];

const fn section(key: &'static str, about: &'static str) -> Row {
    Row::new(key, A_LENGTH, about).with(SECTION).often()
}

/// The keys that write a part of the rig.
pub(super) const PARTS: &[&str] = &[
    "line", "butt", "taper", "sighter", "tippet", "knot", "ring", "dropper", "inline", "point", "shot",
    "float",
];

pub(super) const WATER: Row = Row::new(
    "water",
    &[may(Name(BlockKind::Water)), may(Depth)],
    "The water: its name, or depth, speed and bed.",
)
.with(&[
    clause(Joint::At, &[must(Speed), may(Word(MEAN))]),
    clause(Joint::Over, BED_OF),
]);

pub(super) const REMOVE: Row = Row::new(
    "remove",
    &[must(Path), may(Any)],
    "In a rig made from another, or at the water: leaves a part out.",
)
.often();

pub(super) const ADD: Row = Row::new(
    "add",
    &[must(Path), many(Any)],
    "In a rig made from another, or at the water: puts a part in.",
)
.with(&[AFTER])
.often();

pub(super) const RIG: &[Row] = &[
    section(
        "tippet",
        "The last pieces, from the sighter or ring to the point.",
    ),
    section("taper", "Pieces that step the leader down."),
    section("sighter", "A coloured piece that is watched."),
    section("butt", "The first and thickest piece of the leader."),
    Row::new(
        "dropper",
        &[must(PartLength)],
        "A tag at the join where it stands, and its fly.",
    )
    .with(&[OF_STUFF, WITH_FLY, ON_KNOT, AS_LABEL])
    .often(),
    Row::new("point", A_FLY, "The last fly; it ends the rig.")
        .with(&[ON_KNOT, AS_LABEL])
        .often(),
    Row::new(
        "line",
        &[may(PartLength)],
        "The line on the reel; it does not count to the leader's length.",
    )
    .with(SECTION)
    .often(),
    Row::new(
        "knot",
        &[must(Name(BlockKind::Knot))],
        "The knot of the join where it stands.",
    )
    .with(&[clause(Joint::With, &[must(Word(TAGS)), must(Length)]), AS_LABEL])
    .often(),
    Row::new("ring", &[must(Diameter)], "A tippet ring, by its outer size.")
        .with(&[AS_LABEL])
        .often(),
    Row::new("inline", A_FLY, "A fly on the line itself.")
        .with(&[clause(Joint::Off, &[must(Word(BEND))]), ON_KNOT, AS_LABEL])
        .often(),
    Row::new(
        "shot",
        &[must(Mass), may(Name(BlockKind::Material))],
        "A shot on the line.",
    )
    .with(&[AS_LABEL])
    .often(),
    Row::new(
        "float",
        &[must(Diameter), may(Name(BlockKind::Material)), many(Colour)],
        "A float on the line.",
    )
    .with(&[AS_LABEL])
    .often(),
    Row::new(
        "method",
        &[must(Word(METHODS))],
        "The method that it is for, which chooses its rulebook.",
    ),
    Row::new(
        "rod",
        &[may(Name(BlockKind::Rod)), may(Length), may(LineWeight)],
        "The rod: its name, or length and weight.",
    ),
    WATER,
    Row::new(
        "rules",
        &[must(Name(BlockKind::Rulebook)), many(Name(BlockKind::Rulebook))],
        "The rulebooks that it keeps to; a later one wins.",
    ),
    Row::new(
        "reach",
        &[must(Length)],
        "From the rod tip to where the leader meets the water.",
    ),
    Row::new(
        "tip",
        &[must(Length)],
        "The height of the rod tip over the water.",
    ),
    Row::new(
        "off-bed",
        &[must(Length)],
        "How far off the bed the point is to ride.",
    ),
    Row::new(
        "drift",
        &[may(Word(FREE))],
        "Whether the rig goes with the water or is held or led at a speed.",
    )
    .with(&[clause(Joint::At, &[must(Speed)])]),
    Row::new(
        "drag",
        &[must(Force)],
        "The pull at which the reel gives line, weighed with a scale.",
    ),
    Row::new(
        "cast",
        &[must(Word(CASTS))],
        "How the flies are laid on the water.",
    ),
    Row::text("note", "A note for people.").often(),
    Row::new(
        "allow",
        &[must(Path)],
        "Silences one rule on this rig, for a reason.",
    )
    .with(&[ClauseRow {
        joint: Joint::Because,
        takes: &[],
        text: TextNeed::Needed,
    }])
    .often(),
    REMOVE,
    ADD,
];

pub(super) const RULE: &[Row] = &[
    Row::text("about", "The reason for the rule, in one sentence."),
    Row::new(
        "for",
        &[must(Word(EACH)), must(Word(THINGS))],
        "What the rule looks at; the whole rig where unsaid.",
    ),
    Row::new("level", &[must(Word(LEVELS))], "How much a finding weighs."),
    Row::text("say", "What a finding says; measures stand in braces."),
    Row::new("mend", &[must(Path)], "What to change so that the rule holds.")
        .with(&[clause(Joint::To, &[must(Any)])]),
    Row::text("source", "Where the rule comes from."),
];

pub(super) const RULEBOOK: &[Row] = &[
    Row::text("edition", "Which edition of the rules it is."),
    Row::new("with", &[must(Path), many(Path)], "Takes in rules and rulebooks.").often(),
    Row::new("without", &[must(Path), many(Path)], "Leaves rules out.").often(),
    Row::new("set", &[must(Path)], "Gives a rule's limit another value.")
        .with(&[clause(Joint::To, &[must(Any)])])
        .often(),
    Row::new(
        "level",
        &[must(Path), must(Word(LEVELS))],
        "Gives a rule another level.",
    )
    .often(),
    Row::text("source", "Where the rules come from."),
];
