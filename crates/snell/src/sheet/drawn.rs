//! Each rig's sheet as one picture: the words of the page that is printed, and its pictures.

use super::Sheet;
use crate::cutting;
use crate::scenes::Scenes;
use snell_picture::sheet::{List, Words, scene};
use snell_picture::{Medium, Scene};
use snell_view::{CutPiece, CutRig, Drawn, WaterShown};

/// The sheets of the rigs that were picked.
pub fn drawn(scenes: &Scenes<'_>) -> Vec<Drawn> {
    let notebook = &scenes.picked.notebook;
    let wanted = |name: &str, file: &str| scenes.picked.takes(name, file);
    let rigs = snell_view::show(notebook, scenes.units, wanted);
    let cuts = snell_view::cut(notebook, scenes.units, wanted).rigs;
    let cautions = snell_view::cautions(notebook, WaterShown::Own, &wanted);
    let pictures = scenes.pictures(Medium::Sheet, WaterShown::Own);
    let maps = scenes.maps(WaterShown::Own);
    let parts = rigs
        .iter()
        .zip(cuts)
        .zip(cautions)
        .zip(pictures.into_iter().zip(maps));
    parts
        .map(|(((rig, cuts), cautions), (pictures, map))| {
            let pictures: Vec<Scene> = pictures.into_iter().map(|(_, scene)| scene).chain(map).collect();
            Drawn {
                name: rig.name.clone(),
                file: rig.file.clone(),
                scene: Ok(scene(&words(&Sheet::of(rig), &cuts, cautions), &pictures)),
                left_out: None,
            }
        })
        .collect()
}

fn words(sheet: &Sheet, cuts: &CutRig, cautions: Vec<String>) -> Words {
    let setting = |one: &super::Named| format!("{}: {}", one.name, one.text);
    let piece = |(index, piece): (usize, &CutPiece)| {
        format!(
            "{}. {}: {} of {}",
            index + 1,
            piece.name,
            cutting::cut(piece),
            piece.of
        )
    };
    let list = |heading: &str, lines: Vec<String>| List {
        heading: heading.to_owned(),
        lines,
    };
    Words {
        name: sheet.name.clone(),
        title: sheet.title.clone(),
        place: sheet.place.clone(),
        answer: sheet.answer.clone(),
        lists: vec![
            list("", sheet.settings.iter().map(setting).collect()),
            list(
                "Cut, in tying order",
                cuts.pieces.iter().enumerate().map(piece).collect(),
            ),
            list(
                "Cautions",
                cautions
                    .into_iter()
                    .map(|caution| format!("· {caution}"))
                    .collect(),
            ),
        ],
    }
}
