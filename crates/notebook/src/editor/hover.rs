//! What a word or value means where it stands: the value in both systems of
//! units, where it came from, and the documentation of the tables and pages.

mod picture;
mod quantity;

pub use picture::pictured;

use super::names::{self, Named};
use super::told::{self, is_rig, things_of, with_rig};
use super::walk::{ASKED, expr_at, line_at, path_of, touches};
use crate::load::Notebook;
use crate::view::{Units, Written};
use crate::why::{self, Explained};
use rig::blocks::line_key;
use rig::evaluation::Meaning;
use rig::keywords::{self, Named as Listed};
use rig::measure::Get;
use rig::project::{BlockRef, LineRef};
use rig::value::Value;
use rig::{Evaluation, World};
use std::fmt::Write;
use syntax::{BlockKind, Expr, ExprKind, Form};
use text::Span;

/// What is told of a place.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Hover {
    /// The words that it is about, in the asked text.
    pub place: Span,
    /// What is told, in Markdown.
    pub text: String,
}

/// What is told of a byte of the asked text.
pub fn hover(notebook: &Notebook, at: u32) -> Option<Hover> {
    let (world, _) = World::new(notebook.project());
    let (block, line) = line_at(&world, at)?;
    of_name(notebook, &world, at)
        .or_else(|| of_expr(notebook, &world, block, line, at))
        .or_else(|| of_key(&world, block, line, at))
}

/// A block's or label's name.
fn of_name(notebook: &Notebook, world: &World<'_>, at: u32) -> Option<Hover> {
    let one = names::at(world, ASKED, at)?;
    let place = one.place.span;
    let text = match &one.of {
        Named::Block(id) => {
            let block = world.project.block(*id);
            let mut text = explained(&of_block(notebook, world, block, one.defines));
            if is_rig(block) {
                with_rig(world, block, |evaluation| {
                    measures(&mut text, evaluation, rig::measure::Thing::Rig)
                });
            } else {
                fly_on_rig(world, at, &mut text);
            }
            text
        }
        Named::Local(..) => {
            let (block, line) = line_at(world, at)?;
            if !is_rig(block) {
                return None;
            }
            with_rig(world, block, |evaluation| local(evaluation, line, &one.of))?
        }
    };
    Some(Hover { place, text })
}

/// What a block is: one of another file with that file's name; where its own lines stand below, without them.
fn of_block(notebook: &Notebook, world: &World<'_>, block: BlockRef<'_>, defines: bool) -> Explained {
    let mut of = why::explained(notebook, world, block);
    if let (Some(document), Some(head)) = (notebook.document(block.name_place().text), block.head()) {
        let word = head.kind.word();
        of.kind = match document.path.file_name() {
            Some(name) if document.id != ASKED => format!("{word} of {}", name.display()),
            _ => word.to_owned(),
        };
    }
    if defines {
        of.facts.clear();
    }
    of
}

/// A label's part, or a let's value.
fn local(evaluation: &Evaluation<'_, '_>, line: LineRef<'_>, of: &Named) -> Option<String> {
    let Named::Local(_, name) = of else { return None };
    let word = syntax::Word {
        folded: name.clone(),
        span: Span::default(),
    };
    match evaluation.meaning(line, &[word]).ok()? {
        Meaning::Thing(thing) => {
            let mut text = format!("**{}** `{name}`\n", thing.kind().word());
            measures(&mut text, evaluation, thing);
            Some(text)
        }
        Meaning::Value(Ok(value)) => Some(format!("**let** `{name}`\n\n{}", valued(evaluation, &value))),
        _ => None,
    }
}

/// Where a rig's line names a fly: also what the fly does on that rig.
fn fly_on_rig(world: &World<'_>, at: u32, text: &mut String) {
    let Some((block, line)) = line_at(world, at).filter(|(block, _)| is_rig(*block)) else {
        return;
    };
    with_rig(world, block, |evaluation| {
        let flies = things_of(evaluation, line).into_iter();
        for thing in flies.filter(|thing| thing.kind() == rig::measure::Kind::Fly) {
            let _ = write!(text, "\n\nOn `{}`:\n", evaluation.rig.name);
            measures(text, evaluation, thing);
        }
    });
}

/// A value, a measure or a word of a table.
fn of_expr(
    notebook: &Notebook,
    world: &World<'_>,
    block: BlockRef<'_>,
    line: LineRef<'_>,
    at: u32,
) -> Option<Hover> {
    let (_, expr) = expr_at(line, at)?;
    let place = line.place(expr.span).span;
    let text = match &expr.kind {
        ExprKind::Single(single) => quantity::both(&[single]),
        ExprKind::Spread(low, high) => quantity::both(&[low, high]),
        ExprKind::Path(_) => of_path(world, block, line, expr),
        _ => is_rig(block).then(|| with_rig(world, block, |evaluation| computed(evaluation, line, expr)))?,
    };
    let text = text.or_else(|| listed(notebook, line, expr, at))?;
    Some(Hover { place, text })
}

/// A dotted name that is a measure of the rig.
fn of_path(world: &World<'_>, block: BlockRef<'_>, line: LineRef<'_>, expr: &Expr) -> Option<String> {
    let path = path_of(expr)?;
    let last = path.last()?;
    if !is_rig(block) {
        let rows = rig::measure::MEASURES.iter();
        let named = rows.filter(|measure| measure.name == &*last.folded);
        let told: Vec<String> = named.map(|measure| explained(&why::measure(measure))).collect();
        return (!told.is_empty()).then(|| told.join("\n\n"));
    }
    // A part's own words, such as a colour, are no dotted names.
    if !matches!(&*line.line.form, Form::Claim(_) | Form::Bind(_)) && path.len() == 1 {
        rig::measure::of_rig(&last.folded)?;
    }
    with_rig(world, block, |evaluation| {
        match evaluation.meaning(line, path).ok()? {
            Meaning::Measure(measure, thing) => {
                let mut text = explained(&why::measure(measure));
                match measure.get {
                    Get::Words(_) => {
                        let _ = write!(text, "\n\n{}", measure.words(evaluation, thing).join(", "));
                    }
                    Get::Value(_) => match evaluation.measure(measure, thing) {
                        Ok(value) => {
                            let _ = write!(text, "\n\n{}", valued(evaluation, &value));
                        }
                        Err(rig::value::Lack::Unknown(needs)) => {
                            let needs: Vec<&str> = needs.iter().map(|need| need.what.as_str()).collect();
                            let _ = write!(
                                text,
                                "\n\nIt cannot be told: the rig does not say {}.",
                                needs.join(", ")
                            );
                        }
                        Err(_) => {}
                    },
                }
                Some(text)
            }
            Meaning::Thing(thing) => {
                let mut text = format!(
                    "**{}** {}\n",
                    thing.kind().word(),
                    told::name_of(evaluation, thing)
                );
                measures(&mut text, evaluation, thing);
                Some(text)
            }
            Meaning::Value(value) => value.ok().map(|value| valued(evaluation, &value)),
        }
    })
}

fn computed(evaluation: &Evaluation<'_, '_>, line: LineRef<'_>, expr: &Expr) -> Option<String> {
    let value = rig::evaluate::evaluate(evaluation, line, expr).ok()?;
    Some(valued(evaluation, &value))
}

/// A value in both systems, and the places that it came from with their parts.
fn valued(evaluation: &Evaluation<'_, '_>, value: &Value) -> String {
    let mut text = format!("**{}**", Written::of(value, Units::Both, evaluation).text);
    let mut seen = Vec::new();
    for cause in value.causes.iter() {
        if seen.len() < MOST_CAUSES && !seen.contains(&cause.place) {
            seen.push(cause.place);
            let from = source_line(evaluation, cause.place);
            let _ = write!(text, "\n- {} from `{from}`", cause.written());
        }
    }
    text
}

/// More places than these are no help to a reader.
const MOST_CAUSES: usize = 12;

/// The line of a text that a place lies on.
fn source_line(evaluation: &Evaluation<'_, '_>, place: text::Place) -> String {
    let project = evaluation.world.project;
    let source = project
        .files()
        .map(|file| project.source(file))
        .find(|source| source.file.text == place.text);
    let Some(source) = source else {
        return String::new();
    };
    let text = &source.text;
    let start = text[..place.span.start as usize]
        .rfind(['\n', '\r'])
        .map_or(0, |end| end + 1);
    let end = text[start..]
        .find(['\n', '\r'])
        .map_or(text.len(), |length| start + length);
    text[start..end].trim().replace('`', "'")
}

/// A word that a table explains: a method, a cast, a material.
fn listed(notebook: &Notebook, line: LineRef<'_>, expr: &Expr, at: u32) -> Option<String> {
    let word = path_of(expr)?
        .iter()
        .find(|word| touches(line.place(word.span).span, at))?;
    let all: [&[Listed]; 3] = [keywords::METHODS, keywords::CASTS, keywords::JOINED];
    let known = all
        .into_iter()
        .flatten()
        .find(|listed| listed.word == &*word.folded);
    if let Some(listed) = known {
        return Some(format!("**{}**\n\n{}", listed.word, listed.about));
    }
    let all = crate::why::explain_in(notebook, &word.folded).ok()?;
    let told: Vec<String> = all.iter().map(explained).collect();
    Some(told.join("\n\n"))
}

/// The word that opens a line, with what a part of a rig comes to.
fn of_key(world: &World<'_>, block: BlockRef<'_>, line: LineRef<'_>, at: u32) -> Option<Hover> {
    let head = block
        .head_line()
        .is_some_and(|head| head.line.offset == line.line.offset);
    let kind = block.head().map_or(BlockKind::Rig, |head| head.kind);
    let (key, place) = line_key(line);
    let place = Span::new(place.span.start, place.span.start + key.len() as u32);
    if !touches(place, at) || head {
        return None;
    }
    let own = keywords::OWN_FORMS
        .iter()
        .find(|form| form.key == key && form.within.contains(&kind));
    let mut text = match (keywords::row(kind, key), own) {
        (Some(row), _) => format!("`{}`\n\n{}", row.shape(), row.about),
        (None, Some(form)) => format!("`{}`\n\n{}", form.shape, form.about),
        (None, None) => return None,
    };
    if kind == BlockKind::Rig {
        with_rig(world, block, |evaluation| {
            for thing in things_of(evaluation, line) {
                let _ = write!(text, "\n\n**{}**\n", told::name_of(evaluation, thing));
                measures(&mut text, evaluation, thing);
            }
        });
    }
    Some(Hover { place, text })
}

/// The measures that are asked for most stand first.
const FIRST: [&str; 5] = ["total", "rides", "sinks", "off-bed", "hang"];

fn measures(text: &mut String, evaluation: &Evaluation<'_, '_>, thing: rig::measure::Thing) {
    let mut all = told::all(evaluation, thing);
    all.sort_by_key(|(name, _)| {
        FIRST
            .iter()
            .position(|first| first == name)
            .unwrap_or(FIRST.len())
    });
    for (name, told) in all {
        let _ = write!(text, "\n- {name}: {told}");
    }
}

fn explained(of: &Explained) -> String {
    let mut text = format!("**{}** `{}`", of.kind, of.name);
    if !of.about.is_empty() {
        let _ = write!(text, "\n\n{}", of.about);
    }
    for (word, fact) in &of.facts {
        let _ = write!(text, "\n- {word}: {fact}");
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Kind, LocalDisk};
    use std::path::Path;

    const TEXT: &str = "fly slate \"slate spider\"\n  hook #14\n  bead 2.8 mm tungsten\n\nrig a\n  method tight-line\n  tippet 30 in of 5X fluoro as upper\n  dropper 8 in with slate\n  tippet 20 in of 6X fluoro\n  point slate\n  expect total at least 4 ft\n";

    fn told(word: &str) -> String {
        let book = Notebook::of_text(Path::new("a.rig"), Kind::Rig, TEXT.to_owned(), &LocalDisk);
        let at = TEXT.find(word).unwrap() as u32 + 1;
        hover(&book, at).map_or_else(String::new, |hover| hover.text)
    }

    #[test]
    fn values_are_told_in_both_systems() {
        assert!(told("30 in").contains("76.2 cm"), "{}", told("30 in"));
        assert!(told("6X").contains("0.127 mm"), "{}", told("6X"));
        assert!(told("4 ft").contains("**1.22 m** (4 ft)"), "{}", told("4 ft"));
    }

    #[test]
    fn names_measures_and_keys_are_explained() {
        assert!(told("slate\n").contains("On `a`"), "{}", told("slate\n"));
        assert!(
            told("slate\n").starts_with("**fly** `slate`"),
            "{}",
            told("slate\n")
        );
        assert!(
            told("total").contains("30 in from `tippet 30 in"),
            "{}",
            told("total")
        );
        assert!(told("upper").contains("- length: 30 in"), "{}", told("upper"));
        assert!(told("tight-line").contains("in touch all the way"));
        assert!(
            told("dropper 8").contains("dropper LENGTH"),
            "{}",
            told("dropper 8")
        );
        assert!(told("rig a").is_empty() || told("rig a").contains("rig"));
    }
}
