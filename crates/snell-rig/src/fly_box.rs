//! Flies that can be tied on instead of another: those of the box, which are
//! the fly blocks that a file sees, and the same fly with another bead.
//!
//! It does not know which of them suits a water.

use crate::blocks::{Bead, Fly, Size};
use crate::project::{BlockId, FileId};
use crate::rig::Rig;
use crate::thing::FlyId;
use crate::value::Value;
use crate::world::World;
use snell_syntax::BlockKind;
use snell_units::Dimension;

/// A fly to tie on.
#[derive(Clone, Debug)]
pub struct Choice<'p> {
    /// As a line of a rig writes it: its name, or its essentials.
    pub words: String,
    /// Its block; nothing where it is only told by its essentials.
    pub block: Option<BlockId>,
    /// The fly.
    pub fly: Fly<'p>,
}

/// The beads of the trade: the size in millimetres, and the hooks that it goes on, largest first.
/// Source: common practice; every pair stands in a shop's chart of bead sizes (2.0 on #16-20 to 4.6 on #4-8).
pub const BEADS: [(f64, &[u32]); 6] = [
    (2.0, &[18, 20]),
    (2.4, &[16, 18]),
    (2.8, &[14, 16]),
    (3.3, &[12, 14]),
    (3.8, &[10, 12]),
    (4.6, &[8]),
];

/// What a bead is made of where its fly does not say.
const USUAL_MATERIAL: &str = "tungsten";

/// The hook that a bead of a diameter in metres goes on: of those that the nearest bead of the trade goes on, the
/// smallest, which its bead tells most about.
pub fn usual_hook(bead: f64) -> u32 {
    let off = |size: f64| (size * 1e-3 - bead).abs();
    let nearest = BEADS.iter().fold(
        &BEADS[0],
        |best, one| if off(one.0) < off(best.0) { one } else { best },
    );
    nearest.1.iter().copied().fold(0, u32::max)
}

/// What a fly's bead is made of; of a fly without one, what is usual.
pub fn bead_material(world: &World<'_>, fly: &Fly<'_>) -> Option<BlockId> {
    let own = fly.bead.as_ref().and_then(|bead| bead.material);
    own.or_else(|| world.shipped(BlockKind::Material, USUAL_MATERIAL))
}

/// Every fly that a file sees, by name.
pub fn flies<'p>(world: &World<'p>, file: FileId) -> Vec<Choice<'p>> {
    let names = world.visible(file, BlockKind::Fly);
    let found = names.into_iter().filter_map(|name| {
        let id = world.find(file, BlockKind::Fly, &name).block()?;
        Some(Choice {
            words: name.to_string(),
            block: Some(id),
            fly: world.read(id).fly()?.clone(),
        })
    });
    found.collect()
}

/// A fly with each other bead of the trade, on its own hook or the nearest one that the bead goes on. A fly
/// without bead or hook has none.
pub fn with_other_beads<'p>(world: &World<'p>, fly: &Fly<'p>) -> Vec<Choice<'p>> {
    let (Some(bead), Some(hook)) = (&fly.bead, fly.hook.as_ref().and_then(|hook| hook.whole)) else {
        return Vec::new();
    };
    let Some(material) = bead_material(world, fly) else {
        return Vec::new();
    };
    let own = bead.size.as_ref().map_or(0.0, |size| size.si() * 1e3);
    let others = BEADS.iter().filter(|(size, _)| (size - own).abs() > 0.05);
    let choice = |(size, hooks): &(f64, &[u32])| {
        let hook = *hooks.iter().min_by_key(|other| other.abs_diff(hook))?;
        let slotted = if bead.slotted { ", slotted" } else { "" };
        let words = format!("#{hook} {size} mm {}{slotted}", world.name(material));
        let fly = Fly {
            hook: Some(Size {
                written: hook.to_string(),
                whole: Some(hook),
            }),
            bead: Some(Bead {
                size: Ok(Value::plain(size * 1e-3, Dimension::LENGTH)),
                material: Some(material),
                slotted: bead.slotted,
            }),
            ..Fly::default()
        };
        Some(Choice {
            words,
            block: None,
            fly,
        })
    };
    others.filter_map(choice).collect()
}

impl<'p> Rig<'p> {
    /// Ties another fly on in the place of one of the rig's.
    pub fn tie(&mut self, fly: FlyId, choice: &Choice<'p>) {
        let tied = self.chain.tied_mut(fly);
        tied.fly = choice.fly.clone();
        tied.block = choice.block;
        tied.name.clone_from(&choice.words);
    }
}
