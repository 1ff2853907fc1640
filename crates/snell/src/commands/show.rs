//! `snell show`: rigs from rod to fly, in the form that was asked for.

use super::{Ended, Outcome, Session};
use crate::cli::Show;
use crate::picked::{Picked, tell_bare, units};
use crate::scenes::Scenes;
use crate::sheet::fragment::{self, Fragment};
use crate::sheet::html::{self, Drawing, RigPage};
use crate::sheet::markdown::{self, Figure};
use crate::sheet::{Form, Sheet, csv, json, plain};
use crate::terminal::{Stream, Terminal};
use crate::trouble::Trouble;
use crate::{drawing, write};
use snell_picture::{Medium, Scene};
use snell_rig::World;
use snell_rig::project::BlockRef;
use snell_view::{Drawn, ShownRig, WaterShown};
use std::collections::BTreeSet;
use std::fs;
use std::io::Write;
use std::path::Path;

/// The width of a picture in Markdown: what a page shows without a bar to scroll it.
const PAGE_COLUMNS: usize = 76;

/// Runs the command.
///
/// # Errors
/// A path cannot be read, a rig is not there, or the output cannot be written.
pub fn run(options: &Show, session: &mut Session) -> Outcome {
    if options.pictures.is_some() && options.form != Form::Markdown {
        return Err(Trouble::NoPictureFiles);
    }
    if options.alt.is_some() && options.form != Form::Fragment {
        return Err(Trouble::NoAlt);
    }
    if options.class && options.form != Form::Html {
        return Err(Trouble::NoClass);
    }
    let picked = Picked::read(&options.rigs)?;
    let units = units(options.units);
    let rigs = snell_view::show(&picked.notebook, units, |name, file| picked.takes(name, file));
    let faulty = picked.tell_faults(session)?;
    let scenes = Scenes::new(&picked, units);
    print(&rigs, &scenes, options, session)?;
    tell_bare(rigs.len(), session)?;
    Ok(Ended::found_if(faulty))
}

impl Scenes<'_> {
    /// Of each rig its pictures as SVG.
    fn vectors(&self, water: WaterShown) -> Vec<Vec<Drawing>> {
        let of_rig = |(index, scenes): (usize, Vec<(&'static str, Scene)>)| {
            let one = |(kind, scene): &(&str, Scene)| drawn(scene, &format!("rig-{}{kind}", index + 1));
            scenes.iter().map(one).collect()
        };
        self.pictures(Medium::Sheet, water)
            .into_iter()
            .enumerate()
            .map(of_rig)
            .collect()
    }

    /// Of each rig the map of the waters that it fishes as it is tied, as SVG.
    fn vector_maps(&self, water: WaterShown) -> Vec<Option<Drawing>> {
        let one = |(index, scene): (usize, Option<Scene>)| {
            Some(drawn(&scene?, &format!("rig-{}-waters", index + 1)))
        };
        self.maps(water).into_iter().enumerate().map(one).collect()
    }

    /// Each rig as a piece of a page. `alt` is what its picture shows, where the writer says it.
    fn fragments(&self, rigs: &[ShownRig], alt: Option<&str>) -> Vec<String> {
        let world = World::new(self.picked.notebook.project());
        let blocks = self.blocks(&world);
        let wanted = |name: &str, file: &str| self.picked.takes(name, file);
        let drawn = snell_view::draw(&self.picked.notebook, self.units, Medium::Page, &wanted);
        let one = |((rig, block), drawn): ((&ShownRig, BlockRef<'_>), Drawn)| {
            let picture = drawn.scene.ok().map(|mut scene| {
                if let Some(alt) = alt {
                    alt.clone_into(&mut scene.about);
                }
                snell_picture::write::svg(&scene, &format!("rig-{}", rig.name))
            });
            fragment::write(&Fragment {
                sheet: &Sheet::of(rig),
                picture: picture.as_deref(),
                caption: &snell_article::caption(&self.picked.notebook, &world, block, self.units),
                text: &snell_view::text_of(&world, block),
            })
        };
        rigs.iter().zip(blocks).zip(drawn).map(one).collect()
    }

    /// Of each rig its pictures in letters.
    fn letters(&self) -> Vec<Vec<Figure>> {
        let of_rig = |scenes: Vec<(&str, Scene)>| {
            let letters = |(_, scene): &(&str, Scene)| Figure::Letters(drawing::plain(scene));
            scenes.iter().map(letters).collect()
        };
        self.pictures(Medium::Cells(PAGE_COLUMNS), WaterShown::Own)
            .into_iter()
            .map(of_rig)
            .collect()
    }

    /// Of each rig its pictures as files in a folder.
    fn files(&self, rigs: &[ShownRig], folder: &Path) -> Result<Vec<Vec<Figure>>, Trouble> {
        fs::create_dir_all(folder).map_err(|why| Trouble::unwritten(folder, why))?;
        let mut taken = BTreeSet::new();
        let mut all = Vec::new();
        for (rig, scenes) in rigs.iter().zip(self.pictures(Medium::Page, WaterShown::Own)) {
            let mut figures = Vec::new();
            for (kind, scene) in scenes {
                let name = free(&mut taken, &format!("{}{kind}", rig.name));
                let path = folder.join(name);
                let svg = snell_picture::write::svg(&scene, "picture");
                write::put(&path, svg.as_bytes()).map_err(|why| Trouble::unwritten(&path, why))?;
                figures.push(Figure::File {
                    address: path.display().to_string().replace('\\', "/"),
                    told: scene.title,
                });
            }
            all.push(figures);
        }
        Ok(all)
    }
}

fn drawn(scene: &Scene, id: &str) -> Drawing {
    Drawing {
        svg: snell_picture::write::svg(scene, id),
        size: (scene.width, scene.height),
    }
}

/// A file's name that no other picture has taken.
fn free(taken: &mut BTreeSet<String>, name: &str) -> String {
    let numbers = std::iter::once(String::new()).chain((2..).map(|number| format!("-{number}")));
    let mut names = numbers.map(|number| format!("{name}{number}.svg"));
    names
        .find(|name| taken.insert(name.to_lowercase()))
        .unwrap_or_default()
}

fn print(
    rigs: &[ShownRig],
    scenes: &Scenes<'_>,
    options: &Show,
    session: &mut Session,
) -> Result<(), Trouble> {
    let water = water(options);
    let out = &mut session.out;
    let sheets = || rigs.iter().map(Sheet::of);
    match options.form {
        Form::Table => {
            let terminal = Terminal::of(Stream::Out, session.colour);
            for (index, sheet) in sheets().enumerate() {
                let before = if index == 0 { "" } else { "\n" };
                write!(out, "{before}{}", plain::write(&sheet, &terminal, options.all))?;
            }
        }
        Form::Json => json::write(&mut out.machine(), rigs)?,
        Form::Csv => csv::write(&mut out.machine(), rigs)?,
        Form::Markdown => {
            let pictures = match &options.pictures {
                Some(folder) => scenes.files(rigs, folder)?,
                None => scenes.letters(),
            };
            for (index, (sheet, pictures)) in sheets().zip(&pictures).enumerate() {
                let before = if index == 0 { "" } else { "\n" };
                write!(out.machine(), "{before}{}", markdown::write(&sheet, pictures))?;
            }
        }
        Form::Fragment => {
            let fragments = scenes.fragments(rigs, options.alt.as_deref());
            write!(out.machine(), "{}", fragments.join("\n"))?;
        }
        Form::Html => {
            write!(out.machine(), "{}", pages(rigs, scenes, water))?;
        }
    }
    Ok(())
}

/// Whose water the pages are of.
fn water(options: &Show) -> WaterShown {
    if options.class {
        WaterShown::None
    } else {
        WaterShown::Own
    }
}

/// Rigs as one document, each on a page of its own.
fn pages(rigs: &[ShownRig], scenes: &Scenes<'_>, water: WaterShown) -> String {
    let sheet = |rig: &ShownRig| match water {
        WaterShown::Own => Sheet::of(rig),
        WaterShown::None => Sheet::of(rig).without_water(),
    };
    let sheets: Vec<Sheet> = rigs.iter().map(sheet).collect();
    let pictures = scenes.vectors(water);
    let notebook = &scenes.picked.notebook;
    let wanted = |name: &str, file: &str| scenes.picked.takes(name, file);
    let cuts = snell_view::cut(notebook, scenes.units, wanted).rigs;
    let cautions = snell_view::cautions(notebook, water, &wanted);
    let maps = scenes.vector_maps(water);
    let parts = sheets.iter().zip(&pictures).zip(&maps).zip(&cuts).zip(&cautions);
    let pages: Vec<RigPage<'_>> = parts
        .map(|((((sheet, pictures), waters), cuts), cautions)| RigPage {
            sheet,
            pictures,
            waters: waters.as_ref(),
            cuts,
            cautions,
        })
        .collect();
    html::write(&pages)
}
