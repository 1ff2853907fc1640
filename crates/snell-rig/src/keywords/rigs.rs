//! What rigs, rules and rulebooks may say, but for the lines with a form of
//! their own.

use super::blocks::BED_OF;
use super::groups::{FLY, STUFF};
use super::key::{grouped_keys, keys};
use super::row::{ClauseRow, Row, TextNeed, clause};
use super::slot::Take::{
    Any, Colour, Depth, Diameter, Force, Label, Lead, Length, LineWeight, Mass, Name, PartLength, Path,
    Speed, Temperature, Word,
};
use super::slot::{Slot, many, may, must};
use super::words::{
    BEND, Blows, Cast, Decides, EACH, FREE, LEVELS, Method, SWIVELS, SitsOver, SpeedOf, Stands, TAGS, THINGS,
};
use snell_syntax::{BlockKind, Joint};

const OF_STUFF: ClauseRow = clause(Joint::Of, STUFF);
const AS_LABEL: ClauseRow = clause(Joint::As, &[must(Label)]);
const ON_KNOT: ClauseRow = clause(Joint::On, &[must(Name(BlockKind::Knot))]);
const WITH_FLY: ClauseRow = clause(Joint::With, FLY);
const AT_LENGTH: ClauseRow = clause(Joint::At, &[must(Length)]);
const OVER_MARK: ClauseRow = clause(Joint::Over, &[must(Word(SitsOver::WORDS))]);
const AFTER: ClauseRow = clause(Joint::After, &[must(Path), may(Any)]);

const A_LENGTH: &[Slot] = &[may(PartLength)];
const OFF_BEND: ClauseRow = clause(Joint::Off, &[must(Word(BEND))]);
const SECTION: &[ClauseRow] = &[OF_STUFF, OFF_BEND, ON_KNOT, AS_LABEL];

const fn section(key: &'static str, about: &'static str) -> Row {
    Row::new(key, A_LENGTH, about).with(SECTION).called().often()
}

pub(super) const WATER: Row = Row::new(
    "water",
    &[may(Name(BlockKind::Water)), may(Depth), may(Temperature)],
    "The water: its name, or depth, temperature, speed and bed.",
)
.with(&[
    clause(Joint::At, &[must(Speed), may(Word(SpeedOf::WORDS))]),
    clause(Joint::Over, BED_OF),
])
.called();

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

grouped_keys! {
    /// What a rig may say.
    RigKey of Rig {
        /// What a part of a rig is.
        Part(PartKind) {
            Tippet = section(
                "tippet",
                "The last pieces, from the sighter or ring to the point.",
            ),
            Taper = section("taper", "Pieces that step the leader down."),
            Sighter = section("sighter", "A coloured piece that is watched."),
            Butt = section("butt", "The leader's first and thickest piece."),
            Leader = section("leader", "A leader as it is bought: level, or tapered to its size."),
            Dropper = Row::new(
                "dropper",
                &[may(PartLength)],
                "A tag at a join, and its fly; a knot of lines is the join's.",
            )
            .with(&[OF_STUFF, WITH_FLY, ON_KNOT, AS_LABEL])
            .called()
            .often(),
            Point = Row::new("point", FLY, "The last fly; it ends the rig.")
                .with(&[ON_KNOT, AS_LABEL])
                .called()
                .often(),
            Fly = Row::new(
                "fly",
                FLY,
                "A fly by its place: the point where no line follows, else on the line.",
            )
            .with(&[OFF_BEND, ON_KNOT, AS_LABEL])
            .called()
                .often(),
            Line = Row::new(
                "line",
                &[may(PartLength)],
                "The line on the reel; it does not count to the leader's length.",
            )
            .with(SECTION)
            .called()
            .often(),
            Knot = Row::new(
                "knot",
                &[must(Name(BlockKind::Knot))],
                "The knot of the join where it stands.",
            )
            .with(&[clause(Joint::With, &[must(Word(TAGS)), must(Length)]), AS_LABEL])
            .often(),
            Ring = Row::new("ring", &[may(Diameter)], "A tippet ring, by its outer size where it is known.")
                .with(&[AS_LABEL])
                .often(),
            Swivel = Row::new(
                "swivel",
                &[may(Diameter), may(Mass), may(Force), many(Word(SWIVELS))],
                "A swivel between two pieces, by its length, mass and strength; unweighed, it weighs nothing.",
            )
            .with(&[AS_LABEL])
            .often(),
            Inline = Row::new("inline", FLY, "A fly on the line itself.")
                .with(&[OFF_BEND, ON_KNOT, AS_LABEL])
                .called()
                .often(),
            Shot = Row::new(
                "shot",
                &[may(Mass), may(Name(BlockKind::Material))],
                "A shot on the line, where it stands or so far over what is below it.",
            )
            .with(&[AT_LENGTH, OVER_MARK, ON_KNOT, AS_LABEL])
            .called()
            .often(),
            Float = Row::new(
                "float",
                &[may(Diameter), may(Name(BlockKind::Material)), many(Colour)],
                "A float on the line, where it stands or so far over what is below it.",
            )
            .with(&[AT_LENGTH, OVER_MARK, AS_LABEL])
            .called()
            .often(),
        }
        /// What a rig says but for its parts.
        Setting(Setting) {
            Method = Row::new(
                "method",
                &[must(Word(Method::WORDS))],
                "The method that it is for, which chooses its rulebook.",
            )
            .called(),
            Rod = Row::new(
                "rod",
                &[may(Name(BlockKind::Rod)), may(Length), may(LineWeight)],
                "The rod: its name, or length and weight.",
            )
            .called(),
            // What one line leaves unsaid another may say.
            Water = WATER.often(),
            Rules = Row::new(
                "rules",
                &[must(Name(BlockKind::Rulebook)), many(Name(BlockKind::Rulebook))],
                "The rulebooks that it keeps to; a later one wins.",
            ),
            Reach = Row::new(
                "reach",
                &[must(Length), may(Word(Stands::WORDS))],
                "From the rod tip to where the leader meets the water, and where the tip is from there.",
            ),
            Wind = Row::new(
                "wind",
                &[must(Speed), must(Word(Blows::WORDS))],
                "The wind at the height of the rod tip, and which way it blows.",
            ),
            Tip = Row::new(
                "tip",
                &[must(Length)],
                "The height of the rod tip over the water.",
            ),
            OffBed = Row::new(
                "off-bed",
                &[must(Length)],
                "How far off the bed the point is to ride.",
            ),
            Drift = Row::new(
                "drift",
                &[may(Word(FREE))],
                "Whether the rig goes with the water or is held or led, at a speed or at a share of the surface's.",
            )
            .with(&[clause(Joint::At, &[must(Lead)])]),
            Drag = Row::new(
                "drag",
                &[must(Force)],
                "The pull at which the reel gives line, weighed with a scale.",
            ),
            Cast = Row::new(
                "cast",
                &[must(Word(Cast::WORDS))],
                "How the flies are laid on the water.",
            ),
            Note = Row::text("note", "A note for people.").often(),
        }
    }
    {
        Allow = Row::new(
            "allow",
            &[must(Path)],
            "Silences one rule on this rig, for a reason.",
        )
        .with(&[ClauseRow {
            joint: Joint::Because,
            takes: &[],
            text: TextNeed::Needed,
        }])
        .names()
        .often(),
        Remove = REMOVE,
        Add = ADD,
    }
}

keys! {
    /// What a rule may say.
    RuleKey of Rule {
        About = Row::text("about", "The reason for the rule, in one sentence."),
        For = Row::new(
            "for",
            &[must(Word(EACH)), must(Word(THINGS))],
            "What the rule looks at; the whole rig where unsaid.",
        ),
        Level = Row::new("level", &[must(Word(LEVELS))], "How much a finding weighs."),
        Decides = Row::new(
            "decides",
            &[must(Word(Decides::WORDS))],
            "What of the verdict on a rig hangs on this rule.",
        ),
        Say = Row::text("say", "What a finding says; measures stand in braces, and `{too short|too long}` tells on which side of two limits it lies."),
        Mend = Row::new("mend", &[must(Path)], "What to change so that the rule holds.")
            .with(&[clause(Joint::To, &[must(Any)])]),
        Source = Row::text("source", "Where the rule comes from."),
    }
}

keys! {
    /// What a rulebook may say.
    RulebookKey of Rulebook {
        Edition = Row::text("edition", "Which edition of the rules it is."),
        With = Row::new("with", &[must(Path), many(Path)], "Takes in rules and rulebooks.").often(),
        Without = Row::new("without", &[must(Path), many(Path)], "Leaves rules out.").often(),
        Set = Row::new("set", &[must(Path)], "Gives a rule's limit another value.")
            .with(&[clause(Joint::To, &[must(Any)])])
            .names()
            .often(),
        Level = Row::new(
            "level",
            &[must(Path), must(Word(LEVELS))],
            "Gives a rule another level.",
        )
        .names()
        .often(),
        Source = Row::text("source", "Where the rules come from."),
    }
}
