//! The picture of the rig whose name stands at a place.

use super::super::names::{self, Named};
use super::super::told::{is_rig, with_rig};
use super::super::walk::ASKED;
use snell_analysis::Notebook;
use snell_picture::{Medium, hanging, write};
use snell_rig::World;
use snell_view::{Units, Written};

/// The rig whose name stands at a byte of the asked text, to scale, as SVG. Nothing where there is no such
/// name, or the rig has no line to be shown.
pub fn pictured(notebook: &Notebook, at: u32) -> Option<String> {
    let world = World::new(notebook.project());
    let Named::Block(id) = names::at(&world, ASKED, at)?.of else {
        return None;
    };
    let block = Some(world.project.block(id)).filter(|block| is_rig(*block))?;
    with_rig(&world, block, |evaluation| {
        let words = |value: &snell_rig::value::Value| Written::of(value, Units::Author, evaluation).text;
        let scene = hanging::scene(evaluation, &words, evaluation.system(), Medium::Hover)?;
        Some(write::svg(&scene, "rig"))
    })
}
