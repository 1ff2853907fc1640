//! Values that go together, and by one word in the shape of a line.

use super::slot::Take::{BeadSize, Colour, Diameter, Force, HookSize, LineSize, Mass, Name, Word};
use super::slot::{Slot, many, may};
use super::words::{BUILDS, FLY_WORDS, SAME, SLOTTED};
use snell_syntax::BlockKind;

pub(super) const STUFF: &[Slot] = &[
    may(Name(BlockKind::Spool)),
    may(LineSize),
    may(Diameter),
    may(Force),
    may(Word(SAME)),
    may(Name(BlockKind::Material)),
    many(Word(BUILDS)),
    many(Colour),
];

pub(super) const FLY: &[Slot] = &[
    may(Name(BlockKind::Fly)),
    may(HookSize),
    may(BeadSize),
    may(Name(BlockKind::Material)),
    may(Word(SLOTTED)),
    may(Mass),
    many(Word(FLY_WORDS)),
    many(Colour),
];

/// Values that go by one word in the shape of a line.
pub(super) const GROUPS: &[(&str, &[Slot])] = &[("STUFF", STUFF), ("FLY", FLY)];
