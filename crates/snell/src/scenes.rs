//! The pictures of the rigs that a command line picks, as scenes.

use crate::picked::Picked;
use snell_picture::{Medium, Scene};
use snell_rig::World;
use snell_rig::project::BlockRef;
use snell_view::{Units, WaterShown};

/// The rigs that were picked, drawn when their pictures are asked for: to scale, in their water, in all waters.
pub struct Scenes<'p> {
    /// The rigs.
    pub picked: &'p Picked,
    /// The units that values are written in.
    pub units: Units,
}

/// How the two pictures of a rig are told apart, behind its name.
const KINDS: [&str; 2] = ["", "-in-water"];

impl<'p> Scenes<'p> {
    /// Of what was picked, in some units.
    pub fn new(picked: &'p Picked, units: Units) -> Self {
        Self { picked, units }
    }

    /// Of each rig its pictures, each with what tells it from the other.
    pub fn pictures(&self, medium: Medium, water: WaterShown) -> Vec<Vec<(&'static str, Scene)>> {
        let wanted = |name: &str, file: &str| self.picked.takes(name, file);
        let to_scale = snell_view::draw(&self.picked.notebook, self.units, medium, &wanted);
        let in_water = snell_view::draw_in_water(&self.picked.notebook, self.units, medium, &wanted);
        let pairs = to_scale.into_iter().zip(in_water);
        pairs
            .map(|(one, other)| {
                let in_water = other.scene.ok().filter(|_| water == WaterShown::Own);
                let scenes = [one.scene.ok(), in_water];
                KINDS
                    .into_iter()
                    .zip(scenes)
                    .filter_map(|(kind, scene)| Some((kind, scene?)))
                    .collect()
            })
            .collect()
    }

    /// The rigs that were picked.
    pub fn blocks<'w>(&self, world: &'w World<'_>) -> Vec<BlockRef<'w>> {
        let mut blocks = snell_analysis::rigs(world);
        blocks.retain(|block| {
            let file = snell_view::file_of(&self.picked.notebook, *block);
            self.picked.takes(&snell_rig::rig::name(*block), &file)
        });
        blocks
    }

    /// Of each rig the map of the waters that it fishes as it is tied.
    pub fn maps(&self, water: WaterShown) -> Vec<Option<Scene>> {
        let world = World::new(self.picked.notebook.project());
        let one =
            |block: BlockRef<'_>| snell_view::waters_of(&self.picked.notebook, block.id, self.units, water);
        self.blocks(&world).into_iter().map(one).collect()
    }
}
