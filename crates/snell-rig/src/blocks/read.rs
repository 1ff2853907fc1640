//! One block of any kind, read.

use super::fly::Fly;
use super::lines::Lines;
use super::outing::Outing;
use super::plain::{Bed, Dressing, Knot, Material, Rod};
use super::spool::Spool;
use super::water::Water;
use crate::faults::Faults;
use crate::keywords::{RuleKey, RulebookKey};
use crate::names::Names;
use crate::project::BlockRef;
use snell_syntax::BlockKind;

/// A block as it was read.
#[derive(Debug)]
pub enum Read<'p> {
    /// A rod.
    Rod(Rod),
    /// A water.
    Water(Water),
    /// A bed.
    Bed(Bed),
    /// A material.
    Material(Material),
    /// A spool.
    Spool(Box<Spool<'p>>),
    /// A knot.
    Knot(Knot),
    /// A dressing.
    Dressing(Dressing),
    /// A fly.
    Fly(Box<Fly<'p>>),
    /// An outing.
    Outing(Box<Outing<'p>>),
    /// Rigs, rules and rulebooks are read elsewhere.
    Elsewhere,
}

/// `read.rod()`: what was read, where the block is a rod.
macro_rules! of_one_kind {
    ($($name:ident $kind:ident $of:ty;)*) => {
        impl<'p> Read<'p> {
            $(pub fn $name(&self) -> Option<&$of> {
                if let Self::$kind(read) = self { Some(read) } else { None }
            })*
        }
    };
}

of_one_kind! {
    rod Rod Rod;
    water Water Water;
    bed Bed Bed;
    material Material Material;
    spool Spool Spool<'p>;
    knot Knot Knot;
    dressing Dressing Dressing;
    fly Fly Fly<'p>;
    outing Outing Outing<'p>;
}

/// Reads one block; its faults are reported once, by the block in which they stand.
pub fn read<'p>(names: &Names<'p>, block: BlockRef<'p>, faults: &Faults) -> Read<'p> {
    let Some(head) = block.head() else {
        return Read::Elsewhere;
    };
    match head.kind {
        BlockKind::Rod => Read::Rod(Rod::read(&Lines::new(names, block, faults))),
        BlockKind::Water => Read::Water(Water::read(&Lines::new(names, block, faults))),
        BlockKind::Bed => Read::Bed(Bed::read(&Lines::new(names, block, faults))),
        BlockKind::Material => Read::Material(Material::read(&Lines::new(names, block, faults))),
        BlockKind::Spool => Read::Spool(Box::new(Spool::read(&Lines::new(names, block, faults)))),
        BlockKind::Knot => Read::Knot(Knot::read(&Lines::new(names, block, faults))),
        BlockKind::Dressing => Read::Dressing(Dressing::read(&Lines::new(names, block, faults))),
        BlockKind::Fly => Read::Fly(Box::new(Fly::read(&Lines::new(names, block, faults)))),
        BlockKind::Outing => Read::Outing(Box::new(Outing::read(&Lines::new(names, block, faults)))),
        // What rules say is read where rules are; whether their lines are in order is told here.
        BlockKind::Rule => {
            Lines::<RuleKey>::new(names, block, faults);
            Read::Elsewhere
        }
        BlockKind::Rulebook => {
            Lines::<RulebookKey>::new(names, block, faults);
            Read::Elsewhere
        }
        BlockKind::Rig => Read::Elsewhere,
    }
}
