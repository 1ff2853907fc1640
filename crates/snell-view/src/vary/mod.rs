//! What a rig comes to with one thing varied: line needed, depths, seconds, drag, and where it parts, each with how sure the
//! difference is from the rig as it is.
//!
//! Both are drawn alike, so that the errors which they share cancel.

mod asked;
mod figures;
mod shown;

pub use asked::Vary;
pub use shown::{ShownDifference, ShownFigure, ShownVaried, ShownVary};

use crate::drift::instead;
use crate::fit::ToWater;
use crate::names::file_of;
use crate::put::put;
use crate::verdict::{shown::ShownVerdict, verdict};
use crate::written::Units;
use asked::Made;
use figures::{Figure, figures};
use snell_analysis::{Disk, Notebook, rigs};
use snell_rig::faults::Faults;
use snell_rig::project::BlockRef;
use snell_rig::rig::Rig;
use snell_rig::{Evaluation, World};
use snell_rules::Books;
use snell_text::Span;

/// A rig with one value, with what the rows are held against each other by.
struct State {
    figures: Vec<Figure>,
    differences: Vec<ShownDifference>,
    verdict: ShownVerdict,
}

/// Varies every rig that `wanted` picks by its name and file.
///
/// # Errors
/// What was wrong with what is asked for, or why a rig cannot be varied.
pub fn vary(
    notebook: &Notebook,
    units: Units,
    asked: &Vary,
    disk: &dyn Disk,
    wanted: impl Fn(&str, &str) -> bool,
) -> Result<Vec<ShownVary>, String> {
    let world = World::new(notebook.project());
    let mut all = Vec::new();
    for block in rigs(&world) {
        let (name, file) = (snell_rig::rig::name(block), file_of(notebook, block));
        if wanted(&name, &file) {
            let varying = Varying {
                notebook,
                units,
                asked,
                disk,
            };
            all.push(varying.one(&world, block, file)?);
        }
    }
    Ok(all)
}

/// The work on one rig after another.
struct Varying<'a> {
    notebook: &'a Notebook,
    units: Units,
    asked: &'a Vary,
    disk: &'a dyn Disk,
}

impl Varying<'_> {
    fn one<'p>(&self, world: &World<'p>, block: BlockRef<'p>, file: String) -> Result<ShownVary, String> {
        if block.head_line().is_none() {
            return self.headed(block, file);
        }
        let mut rig = snell_rig::read(world, block, &Faults::default());
        if rig.broken {
            let name = &rig.name;
            return Err(format!(
                "`{name}` has faults; `snell check` tells them, and how to mend them"
            ));
        }
        let as_it_is = self.state(&Books::new(world), &mut rig, None);
        let made = self.asked.made(&Evaluation::new(world, &rig))?;
        let lines = made.iter().filter_map(|(_, made)| match made {
            Made::Lines(lines) => Some(lines.as_slice()),
            Made::Water(_) => None,
        });
        let lines: Vec<&[String]> = lines.collect();
        let mut derived = self.derived(block, &rig.name, &lines, &as_it_is)?.into_iter();
        let mut states = Vec::new();
        for (_, made) in &made {
            states.extend(match made {
                Made::Lines(_) => derived.next(),
                Made::Water(to) => Some(self.in_water(&rig, to, &as_it_is)?),
            });
        }
        let values = made.into_iter().map(|(value, _)| Some(value));
        let rows = std::iter::once(None)
            .chain(values)
            .zip(std::iter::once(as_it_is).chain(states));
        Ok(ShownVary {
            name: rig.name.clone(),
            title: rig.title().map(str::to_owned),
            file,
            target: self.asked.target.clone(),
            rows: shown(rows.collect()),
        })
    }

    /// A rig of lines without a head, so that others can be made from it.
    fn headed(&self, block: BlockRef<'_>, file: String) -> Result<ShownVary, String> {
        let document = self.notebook.document(block.source.file.text);
        let document = document.ok_or("the rig stands in no document")?;
        let name = snell_rig::rig::name(block);
        let starts = block.lines().map(|line| line.offset()).enumerate();
        let edits = starts.map(|(index, at)| match index {
            0 => (Span::empty(at), format!("rig {name}\n  ")),
            _ => (Span::empty(at), "  ".to_owned()),
        });
        let text = snell_finding::apply(&document.text, edits);
        let notebook = Notebook::of_text(&document.path, document.kind, text, self.disk);
        let world = World::new(notebook.project());
        let headed = rigs(&world)
            .into_iter()
            .find(|block| block.head_line().is_some() && snell_rig::rig::name(*block) == name);
        let varying = Varying {
            notebook: &notebook,
            units: self.units,
            asked: self.asked,
            disk: self.disk,
        };
        varying.one(&world, headed.ok_or("the rig cannot be read with a head")?, file)
    }

    fn state<'p>(&self, books: &Books<'_, 'p>, rig: &mut Rig<'p>, as_it_is: Option<&State>) -> State {
        rig.settings.takes_usual = true;
        let evaluation = Evaluation::new(books.world(), rig);
        let figures = figures(&evaluation, self.units);
        let over = |figure: &Figure| figure.over(&as_it_is?.figures, self.units, &evaluation);
        State {
            differences: figures.iter().filter_map(over).collect(),
            verdict: verdict(books, &evaluation, self.units),
            figures,
        }
    }

    /// The rig in another water.
    fn in_water(&self, own: &Rig<'_>, to: &ToWater, as_it_is: &State) -> Result<State, String> {
        let (project, text) = to.beside(self.notebook);
        let world = World::new(&project);
        if let Some(wrong) = instead::wrong(&world, text) {
            return Err(wrong);
        }
        let block = rigs(&world).into_iter().find(|block| block.id == own.block.id);
        let block = block.ok_or("the rig is not there any more")?;
        let mut rig = snell_rig::read(&world, block, &Faults::default());
        let water = to.of_rig(self.notebook, &world, &rig, text)?.water;
        rig.settings.water = water;
        Ok(self.state(&Books::new(&world), &mut rig, Some(as_it_is)))
    }

    /// Rigs made from one with some lines each, written behind its file's and read with it.
    fn derived(
        &self,
        block: BlockRef<'_>,
        name: &str,
        all: &[&[String]],
        as_it_is: &State,
    ) -> Result<Vec<State>, String> {
        if all.is_empty() {
            return Ok(Vec::new());
        }
        let head = block.head_line().ok_or("the rig has no head")?;
        let document = self.notebook.document(block.source.file.text);
        let document = document.ok_or("the rig stands in no document")?;
        let names: Vec<String> = (1..=all.len())
            .map(|index| format!("{name}-varied-{index}"))
            .collect();
        let rig = |(name, lines): (&String, &&[String])| {
            let lines: String = lines.iter().map(|line| format!("  {line}\n")).collect();
            format!("rig {name} from {}\n{lines}", snell_rig::rig::name(block))
        };
        let rigs_written: Vec<String> = names.iter().zip(all).map(rig).collect();
        let edit = put(document, head.offset() as usize, &rigs_written.join("\n"));
        let edit = edit.ok_or("nothing can be written beside the rig")?;
        let from = edit.place.span.start;
        let text = snell_finding::apply(&document.text, [(edit.place.span, edit.new)]);
        let notebook = Notebook::of_text(&document.path, document.kind, text, self.disk);
        let world = World::new(notebook.project());
        let books = Books::new(&world);
        let mut states = Vec::new();
        for name in &names {
            let block = rigs(&world)
                .into_iter()
                .find(|block| snell_rig::rig::name(*block) == **name);
            let block = block.ok_or_else(|| format!("`{}` cannot be written there", self.asked.target))?;
            let faults = Faults::default();
            let mut rig = snell_rig::read(&world, block, &faults);
            let read = notebook.reading().iter().cloned();
            let found = read
                .chain(faults.into_inner())
                .chain(world.findings(block.id).iter().cloned());
            let mut of_it = found.filter(|finding| finding.place().span.start >= from);
            if let Some(wrong) = of_it.next() {
                return Err(instead::told(&wrong));
            }
            states.push(self.state(&books, &mut rig, Some(as_it_is)));
        }
        Ok(states)
    }
}

fn shown(rows: Vec<(Option<String>, State)>) -> Vec<ShownVaried> {
    let count = rows
        .iter()
        .map(|(_, state)| state.figures.len())
        .max()
        .unwrap_or(0);
    let of = |index: usize| rows.iter().filter_map(move |(_, state)| state.figures.get(index));
    let told: Vec<bool> = (0..count)
        .map(|index| of(index).any(Figure::is_something))
        .collect();
    let row = |(value, state): (Option<String>, State)| {
        let figures = state.figures.iter().zip(&told).filter(|(_, told)| **told);
        ShownVaried {
            value,
            figures: figures.map(|(figure, _)| figure.shown()).collect(),
            differences: state.differences,
            verdict: state.verdict,
        }
    };
    rows.into_iter().map(row).collect()
}
