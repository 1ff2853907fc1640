//! What the blocks that a rig names may say.

use super::key::keys;
use super::row::{Row, clause};
use super::slot::Take::{
    BeadSize, Colour, Density, Depth, Diameter, Force, HookSize, Length, LineSize, LineWeight, Mass, Name,
    Plain, Share, Speed, Stress, Temperature, Turns, Word,
};
use super::slot::{Slot, many, may, must};
use super::words::{Joined, SLOTTED};
use snell_syntax::{BlockKind, Joint};

const SOURCE: Row = Row::text("source", "Where the figures come from.");

keys! {
    /// What a rod may say.
    RodKey of Rod {
        Length = Row::new("length", &[must(Length)], "The rod's length.").needed(),
        Weight = Row::new("weight", &[must(LineWeight)], "The line weight it is built for."),
        Bends = Row::new(
            "bends",
            &[must(Mass)],
            "The mass that, hung on the tip of the level rod, pulls it down by a third of its length.",
        ),
    }
}

pub(super) const BED_OF: &[Slot] = &[may(Name(BlockKind::Bed)), may(Length)];

keys! {
    /// What a water may say.
    WaterKey of Water {
        Depth = Row::new("depth", &[must(Depth)], "How deep it is where the flies fish.").needed(),
        Surface = Row::new("surface", &[must(Speed)], "The speed of the surface."),
        Mean = Row::new("mean", &[must(Speed)], "The mean speed over the depth."),
        Bed = Row::new(
            "bed",
            BED_OF,
            "What lies on the bottom: a bed's name, or the size of its grain.",
        ),
        Temperature = Row::new("temperature", &[must(Temperature)], "The water's temperature."),
        Run = Row::new("run", &[must(Length)], "How long a drift it gives."),
    }
}

keys! {
    /// What a bed may say.
    BedKey of Bed {
        Grain = Row::new(
            "grain",
            &[must(Length)],
            "The size of its grain, which sets how rough it is.",
        )
        .needed(),
        Source = SOURCE,
    }
}

keys! {
    /// What a material may say.
    MaterialKey of Material {
        Density = Row::new("density", &[must(Density)], "Mass by volume.").needed(),
        Strength = Row::new(
            "strength",
            &[must(Stress)],
            "The stress at which it breaks, dry and without a knot.",
        ),
        Modulus = Row::new("modulus", &[must(Stress)], "How stiff it is against stretch."),
        Stretch = Row::new(
            "stretch",
            &[must(Share)],
            "How far it stretches before it breaks.",
        ),
        Wet = Row::new(
            "wet",
            &[must(Share)],
            "Its strength wet, as a share of its strength dry.",
        ),
        Source = SOURCE,
    }
}

keys! {
    /// What a spool may say.
    SpoolKey of Spool {
        Size = Row::new("size", &[must(LineSize)], "The size on the label.").needed(),
        Material = Row::new(
            "material",
            &[must(Name(BlockKind::Material))],
            "What it is made of.",
        )
        .needed(),
        Measured = Row::new("measured", &[must(Diameter)], "The diameter as measured."),
        Rated = Row::new("rated", &[must(Force)], "The strength that the label claims."),
        Test = Row::new("test", &[must(Force)], "The strength as tested wet."),
        Stretch = Row::new(
            "stretch",
            &[must(Share)],
            "How far it stretches before it breaks.",
        ),
        Colour = Row::new("colour", &[must(Colour), many(Colour)], "Its colour."),
        Left = Row::new("left", &[must(Length)], "How much line is still on it."),
        Price = Row::new(
            "price",
            &[must(Plain)],
            "What a full spool costs, as a plain number.",
        ),
        Holds = Row::new("holds", &[must(Length)], "How much line a full spool holds."),
        Source = SOURCE,
    }
}

keys! {
    /// What a knot may say.
    KnotKey of Knot {
        Joins = Row::new(
            "joins",
            &[must(Word(Joined::WORDS)), many(Word(Joined::WORDS))],
            "What it joins.",
        ),
        Strength = Row::new(
            "strength",
            &[must(Share)],
            "Its strength as a share of the line's.",
        ),
        Range = Row::new("range", &[must(Share)], "Between what shares testers found it."),
        Uses = Row::new("uses", &[must(Length)], "How much line it takes on each side."),
        Step = Row::new(
            "step",
            &[must(Plain)],
            "The largest ratio of diameters that it joins well.",
        ),
        Unsuited = Row::text("unsuited", "Where it does badly."),
        Source = SOURCE,
    }
}

keys! {
    /// What a dressing may say.
    DressingKey of Dressing {
        Bulk = Row::new(
            "bulk",
            &[must(Plain)],
            "How much thicker it makes the body than the hook's wire, in gapes of the hook.",
        ),
        Solid = Row::new(
            "solid",
            &[must(Share)],
            "How much of the body is no trapped water, as a share.",
        ),
        Fibres = Row::new(
            "fibres",
            &[must(Plain)],
            "The area that its free fibres show, in squares of the hook's gape.",
        ),
        Source = SOURCE,
    }
}

pub(super) const WIRE: &[Slot] = &[may(Diameter), may(Name(BlockKind::Material)), may(Turns)];

keys! {
    /// What a fly may say.
    FlyKey of Fly {
        Hook = Row::new("hook", &[must(HookSize)], "The hook's size."),
        Bead = Row::new(
            "bead",
            &[must(BeadSize), may(Name(BlockKind::Material)), may(Word(SLOTTED))],
            "Its bead: size, material, slotted or not.",
        ),
        Wire = Row::new("wire", WIRE, "Wire under the dressing: `0.015 in lead, 8 turns`.").with(&[clause(
                    Joint::Of,
                    &[must(Diameter), may(Name(BlockKind::Material))],
        )]),
        Dressed = Row::new(
            "dressed",
            &[must(Name(BlockKind::Dressing))],
            "How it is dressed.",
        ),
        Floats = Row::new(
            "floats",
            &[must(Mass)],
            "It floats, and carries this mass before it sinks.",
        ),
        Barbless = Row::new("barbless", &[], "Its hook has no barb."),
        Mass = Row::new(
            "mass",
            &[must(Mass)],
            "Its mass as weighed; stands before what is computed.",
        ),
        Sinks = Row::new(
            "sinks",
            &[must(Speed)],
            "Its speed of sinking in still water as measured; stands before what is computed.",
        ),
    }
}
