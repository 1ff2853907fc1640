//! What the blocks that a rig names may say.

use super::Take::{
    BeadSize, Colour, Density, Depth, Diameter, Force, HookSize, Length, LineSize, LineWeight, Mass, Name,
    Plain, Share, Speed, Stress, Temperature, Turns, Word,
};
use super::words::{JOINED, SLOTTED};
use super::{Row, Slot, clause, many, may, must};
use snell_syntax::{BlockKind, Joint};

const SOURCE: Row = Row::text("source", "Where the figures come from.");

pub(super) const ROD: &[Row] = &[
    Row::new("length", &[must(Length)], "The rod's length.").needed(),
    Row::new("weight", &[must(LineWeight)], "The line weight it is built for."),
    Row::new(
        "bends",
        &[must(Mass)],
        "The mass that, hung on the tip of the level rod, pulls it down by a third of its length.",
    ),
];

pub(super) const BED_OF: &[Slot] = &[may(Name(BlockKind::Bed)), may(Length)];

pub(super) const WATER: &[Row] = &[
    Row::new("depth", &[must(Depth)], "How deep it is where the flies fish.").needed(),
    Row::new("surface", &[must(Speed)], "The speed of the surface."),
    Row::new("mean", &[must(Speed)], "The mean speed over the depth."),
    Row::new(
        "bed",
        BED_OF,
        "What lies on the bottom: a bed's name, or the size of its grain.",
    ),
    Row::new("temperature", &[must(Temperature)], "The water's temperature."),
    Row::new("run", &[must(Length)], "How long a drift it gives."),
];

pub(super) const BED: &[Row] = &[
    Row::new(
        "grain",
        &[must(Length)],
        "The size of its grain, which sets how rough it is.",
    )
    .needed(),
    SOURCE,
];

pub(super) const MATERIAL: &[Row] = &[
    Row::new("density", &[must(Density)], "Mass by volume.").needed(),
    Row::new(
        "strength",
        &[must(Stress)],
        "The stress at which it breaks, dry and without a knot.",
    ),
    Row::new("modulus", &[must(Stress)], "How stiff it is against stretch."),
    Row::new(
        "stretch",
        &[must(Share)],
        "How far it stretches before it breaks.",
    ),
    Row::new(
        "wet",
        &[must(Share)],
        "Its strength wet, as a share of its strength dry.",
    ),
    SOURCE,
];

pub(super) const SPOOL: &[Row] = &[
    Row::new("size", &[must(LineSize)], "The size on the label.").needed(),
    Row::new(
        "material",
        &[must(Name(BlockKind::Material))],
        "What it is made of.",
    )
    .needed(),
    Row::new("measured", &[must(Diameter)], "The diameter as measured."),
    Row::new("rated", &[must(Force)], "The strength that the label claims."),
    Row::new("test", &[must(Force)], "The strength as tested wet."),
    Row::new(
        "stretch",
        &[must(Share)],
        "How far it stretches before it breaks.",
    ),
    Row::new("colour", &[must(Colour), many(Colour)], "Its colour."),
    Row::new("left", &[must(Length)], "How much line is still on it."),
    Row::new(
        "price",
        &[must(Plain)],
        "What a full spool costs, as a plain number.",
    ),
    Row::new("holds", &[must(Length)], "How much line a full spool holds."),
    SOURCE,
];

pub(super) const KNOT: &[Row] = &[
    Row::new(
        "joins",
        &[must(Word(JOINED)), many(Word(JOINED))],
        "What it joins.",
    ),
    Row::new(
        "strength",
        &[must(Share)],
        "Its strength as a share of the line's.",
    ),
    Row::new("range", &[must(Share)], "Between what shares testers found it."),
    Row::new("uses", &[must(Length)], "How much line it takes on each side."),
    Row::new(
        "step",
        &[must(Plain)],
        "The largest ratio of diameters that it joins well.",
    ),
    Row::text("unsuited", "Where it does badly."),
    SOURCE,
];

pub(super) const DRESSING: &[Row] = &[
    Row::new(
        "roundness",
        &[must(Plain)],
        "How near to a ball the dressed fly is, 1 being a ball (its sphericity).",
    ),
    Row::new("adds", &[must(Mass)], "What thread, body and hackle weigh."),
    SOURCE,
];

pub(super) const WIRE: &[Slot] = &[may(Diameter), may(Name(BlockKind::Material)), may(Turns)];

pub(super) const FLY: &[Row] = &[
    Row::new("hook", &[must(HookSize)], "The hook's size."),
    Row::new(
        "bead",
        &[must(BeadSize), may(Name(BlockKind::Material)), may(Word(SLOTTED))],
        "Its bead: size, material, slotted or not.",
    ),
    Row::new("wire", WIRE, "Wire under the dressing: `0.015 in lead, 8 turns`.").with(&[clause(
        Joint::Of,
        &[must(Diameter), may(Name(BlockKind::Material))],
    )]),
    Row::new(
        "dressed",
        &[must(Name(BlockKind::Dressing))],
        "How it is dressed.",
    ),
    Row::new(
        "floats",
        &[must(Mass)],
        "It floats, and carries this mass before it sinks.",
    ),
    Row::new("barbless", &[], "Its hook has no barb."),
    Row::new(
        "mass",
        &[must(Mass)],
        "Its mass as weighed; stands before what is computed.",
    ),
    Row::new(
        "sinks",
        &[must(Speed)],
        "Its speed of sinking in still water as measured; stands before what is computed.",
    ),
];
