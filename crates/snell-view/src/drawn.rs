//! Rigs as pictures. How a picture is laid out is for `picture`; which rigs,
//! and in which units their values are written, is settled here.

use super::written::text;
use crate::names::file_of;
use crate::written::Units;
use snell_analysis::Notebook;
use snell_analysis::rigs;
use snell_picture::{Medium, Scene, hanging};
use snell_rig::faults::Faults;
use snell_rig::value::Value;
use snell_rig::{Evaluation, World};

/// A rig with its picture.
#[derive(Clone, Debug)]
pub struct Drawn {
    /// Its name.
    pub name: String,
    /// The file that it stands in.
    pub file: String,
    /// Its picture, or why there is none.
    pub scene: Result<Scene, String>,
    /// What the picture had to leave out, and why.
    pub left_out: Option<String>,
}

/// The picture of one rig; a rig without line has none.
pub fn scene_of(evaluation: &Evaluation<'_, '_>, units: Units, medium: Medium) -> Option<Scene> {
    let written = |value: &Value| text(value, units, evaluation);
    hanging::scene(evaluation, &written, units.shown(evaluation.system()), medium)
}

/// The picture of every rig of a notebook that `wanted` picks by its name and file, in order.
pub fn draw(
    notebook: &Notebook,
    units: Units,
    medium: Medium,
    wanted: &dyn Fn(&str, &str) -> bool,
) -> Vec<Drawn> {
    each(notebook, wanted, |evaluation| {
        (drawn_of(evaluation, units, medium), None)
    })
}

/// The picture of one rig, or why there is none.
///
/// # Errors
/// Parts of it cannot be read, or it has no line.
pub fn drawn_of(evaluation: &Evaluation<'_, '_>, units: Units, medium: Medium) -> Result<Scene, String> {
    // A picture that lacks a fly would be tied without it.
    if evaluation.rig.holes {
        return Err("not drawn until the faults of its parts are mended".to_owned());
    }
    scene_of(evaluation, units, medium).ok_or_else(|| "no line to draw".to_owned())
}

/// What `draws` makes of every rig that `wanted` picks by its name and file, in order: a picture or why there is
/// none, and what it had to leave out.
pub(super) fn each(
    notebook: &Notebook,
    wanted: &dyn Fn(&str, &str) -> bool,
    draws: impl Fn(&Evaluation<'_, '_>) -> (Result<Scene, String>, Option<String>),
) -> Vec<Drawn> {
    let world = World::new(notebook.project());
    let mut drawn = Vec::new();
    for block in rigs(&world) {
        let (name, file) = (snell_rig::rig::name(block), file_of(notebook, block));
        if wanted(&name, &file) {
            let rig = snell_rig::read(&world, block, &Faults::default());
            let (scene, left_out) = draws(&Evaluation::new(&world, &rig));
            drawn.push(Drawn {
                name,
                file,
                scene,
                left_out,
            });
        }
    }
    drawn
}
