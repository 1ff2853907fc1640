//! The whole table: the rows of each kind of block.

use super::blocks::{BedKey, DressingKey, FlyKey, KnotKey, MaterialKey, RodKey, SpoolKey, WaterKey};
use super::key::Key;
use super::outings::OutingKey;
use super::rigs::{RigKey, RuleKey, RulebookKey};
use super::row::Row;
use snell_syntax::BlockKind;

/// The rows of a kind of block.
pub fn rows(kind: BlockKind) -> &'static [Row] {
    match kind {
        BlockKind::Rod => RodKey::ROWS,
        BlockKind::Water => WaterKey::ROWS,
        BlockKind::Bed => BedKey::ROWS,
        BlockKind::Material => MaterialKey::ROWS,
        BlockKind::Spool => SpoolKey::ROWS,
        BlockKind::Knot => KnotKey::ROWS,
        BlockKind::Dressing => DressingKey::ROWS,
        BlockKind::Fly => FlyKey::ROWS,
        BlockKind::Rig => RigKey::ROWS,
        BlockKind::Rule => RuleKey::ROWS,
        BlockKind::Rulebook => RulebookKey::ROWS,
        BlockKind::Outing => OutingKey::ROWS,
    }
}

/// What a kind of block is, in one line.
pub const fn about(kind: BlockKind) -> &'static str {
    match kind {
        BlockKind::Rod => "A rod that rigs are fished on.",
        BlockKind::Water => "A place to fish: its depth, speed and bed.",
        BlockKind::Bed => "What a stream runs over, by the size of its grains.",
        BlockKind::Material => "What line is made of, or a bead.",
        BlockKind::Spool => "A spool of line: its label, what it measures, what is left on it.",
        BlockKind::Knot => "A knot: what it joins, how much strength it leaves, the line that it takes.",
        BlockKind::Dressing => "How a fly is dressed, as the water feels it.",
        BlockKind::Fly => "A fly: its hook, bead, wire and dressing.",
        BlockKind::Rig => "A rig, from the reel to the point fly, one line a part.",
        BlockKind::Rule => "A rule that rigs are held to.",
        BlockKind::Rulebook => "Rules that hold together, with their limits and levels.",
        BlockKind::Outing => {
            "A day at the water: the rig, what was changed at the bank, and what was caught."
        }
    }
}

/// The row of a key in a kind of block.
pub fn row(kind: BlockKind, key: &str) -> Option<&'static Row> {
    rows(kind).iter().find(|row| row.key == key)
}
