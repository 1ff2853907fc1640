//! What a word or value means where it stands: the value in both systems of
//! units, where it came from, and the documentation of the tables and pages.

mod page;
mod picture;
mod quantity;
mod sources;

pub use picture::pictured;

use super::hints::totals;
use super::names::{self, Named};
use super::told::{self, is_rig, things_of, with_rig};
use super::walk::{ASKED, expr_at, line_at, touches};
use page::explained;
use snell_analysis::Notebook;
use snell_analysis::why;
use snell_rig::blocks::line_key;
use snell_rig::evaluation::Meaning;
use snell_rig::keywords::{self, Cast, Joined, Method, Named as Listed};
use snell_rig::measure::{Get, Kind, Thing};
use snell_rig::project::{BlockRef, LineRef};
use snell_rig::{Evaluation, World};
use snell_rules::Books;
use snell_syntax::{BlockKind, Expr, ExprKind, Form};
use snell_text::Span;
use snell_units::in_order;
use snell_view::Units;
use sources::valued;
use std::fmt::Write;

/// What is told of a place.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Hover {
    /// The words that it is about, in the asked text.
    pub place: Span,
    /// What is told first, in Markdown; a picture stands below it.
    pub text: String,
    /// What is told below that.
    pub more: String,
}

impl Hover {
    fn new(place: Span, text: String) -> Self {
        Self {
            place,
            text,
            more: String::new(),
        }
    }
}

/// What is told of a byte of the asked text.
pub fn hover(notebook: &Notebook, at: u32) -> Option<Hover> {
    let world = World::new(notebook.project());
    let (block, line) = line_at(world.project, at)?;
    let told = of_name(notebook, &world, at)
        .or_else(|| of_expr(notebook, &world, block, line, at))
        .or_else(|| of_key(&world, block, line, at));
    match read_as(line) {
        None => told,
        Some(read) => {
            let mut hover = told.unwrap_or_else(|| Hover::new(line.whole().span, String::new()));
            hover.text = format!("{read}\n\n{}", hover.text).trim_end().to_owned();
            Some(hover)
        }
    }
}

/// The strict line that a line in its author's own hand stands for.
fn read_as(line: LineRef<'_>) -> Option<String> {
    let reading = line.line.reading.as_ref()?;
    Some(format!("read as `{}`", reading.strict))
}

/// A block's or label's name.
fn of_name(notebook: &Notebook, world: &World<'_>, at: u32) -> Option<Hover> {
    let one = names::at(world, ASKED, at)?;
    let place = one.place.span;
    let text = match &one.of {
        Named::Block(id) if is_rig(world.project.block(*id)) => {
            return Some(of_rig(notebook, world, world.project.block(*id), place));
        }
        Named::Block(id) => {
            let block = world.project.block(*id);
            let mut of = why::explained(notebook, world, block);
            if one.defines {
                // Its lines stand below.
                of.facts.clear();
            }
            let mut text = explained(notebook, &of);
            fly_on_rig(world, at, &mut text);
            text
        }
        Named::Local(..) => {
            let (block, line) = line_at(world.project, at)?;
            if !is_rig(block) {
                return None;
            }
            with_rig(world, block, |evaluation| local(evaluation, line, &one.of))?
        }
    };
    Some(Hover::new(place, text))
}

/// A rig: the verdict on it and its totals, then all its measures.
fn of_rig<'p>(notebook: &Notebook, world: &World<'p>, block: BlockRef<'p>, place: Span) -> Hover {
    let mut of = why::explained(notebook, world, block);
    of.facts.clear();
    of.kind = BlockKind::Rig.word().to_owned();
    of.name = snell_rig::rig::name(block);
    let mut hover = Hover::new(place, explained(notebook, &of));
    let answer = snell_view::with_usual(world, block, |evaluation| {
        snell_view::in_short(&Books::new(world), evaluation, Units::Author)
    });
    for line in answer {
        let _ = write!(hover.text, "\n\n{line}");
    }
    with_rig(world, block, |evaluation| {
        if let Some(totals) = totals(evaluation) {
            let _ = write!(hover.text, "\n\n{totals}");
        }
        measures(&mut hover.more, evaluation, Thing::Rig);
    });
    hover
}

/// A label's part, or a let's value.
fn local(evaluation: &Evaluation<'_, '_>, line: LineRef<'_>, of: &Named) -> Option<String> {
    let Named::Local(_, name) = of else { return None };
    let word = snell_syntax::Word {
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
        Meaning::Value(Err(_)) | Meaning::Measure(..) => None,
    }
}

/// Where a rig's line names a fly: also what the fly does on that rig.
fn fly_on_rig(world: &World<'_>, at: u32, text: &mut String) {
    let Some((block, line)) = line_at(world.project, at).filter(|(block, _)| is_rig(*block)) else {
        return;
    };
    with_rig(world, block, |evaluation| {
        let flies = things_of(evaluation, line).into_iter();
        for thing in flies.filter(|thing| thing.kind() == Kind::Fly) {
            let _ = write!(text, "\n\nOn `{}`:\n", evaluation.rig.name);
            measures(text, evaluation, thing);
        }
    });
}

/// A value, a measure or a word of a table.
fn of_expr<'p>(
    notebook: &Notebook,
    world: &World<'p>,
    block: BlockRef<'p>,
    line: LineRef<'p>,
    at: u32,
) -> Option<Hover> {
    let (_, expr) = expr_at(line, at)?;
    let place = line.place(expr.span).span;
    let text = match &expr.kind {
        ExprKind::Single(single) => quantity::both(&[single]),
        ExprKind::Spread(low, high) => quantity::both(&[low, high]),
        ExprKind::Path(_) => of_path(notebook, world, block, line, expr),
        ExprKind::Call(..) | ExprKind::Sum(..) | ExprKind::Product(..) => {
            is_rig(block).then(|| with_rig(world, block, |evaluation| computed(evaluation, line, expr)))?
        }
    };
    let text = text.or_else(|| listed(notebook, line, expr, at))?;
    Some(Hover::new(place, text))
}

/// A dotted name that is a measure of the rig.
fn of_path<'p>(
    notebook: &Notebook,
    world: &World<'p>,
    block: BlockRef<'p>,
    line: LineRef<'p>,
    expr: &Expr,
) -> Option<String> {
    let path = expr.path()?;
    let last = path.last()?;
    if !is_rig(block) {
        let rows = snell_rig::measure::MEASURES.iter();
        let named = rows.filter(|measure| measure.name == &*last.folded);
        let told: Vec<String> = named
            .map(|measure| explained(notebook, &why::measure(measure)))
            .collect();
        return (!told.is_empty()).then(|| told.join("\n\n"));
    }
    // A part's own words, such as a colour, are no dotted names.
    if !matches!(&*line.line.form, Form::Claim(_) | Form::Bind(_)) && path.len() == 1 {
        snell_rig::measure::of_rig(&last.folded)?;
    }
    with_rig(world, block, |evaluation| {
        match evaluation.meaning(line, path).ok()? {
            Meaning::Measure(measure, thing) => {
                let mut text = explained(notebook, &why::measure(measure));
                match measure.get {
                    Get::Words(_) => {
                        let _ = write!(text, "\n\n{}", measure.words(evaluation, thing).join(", "));
                    }
                    Get::Value(_) => match evaluation.measure(measure, thing) {
                        Ok(value) => {
                            let _ = write!(text, "\n\n{}", valued(evaluation, &value));
                        }
                        Err(snell_rig::lack::Lack::Unknown(needs)) => {
                            let needs = evaluation.words_of_all(&needs);
                            let needs: Vec<String> = needs.iter().map(ToString::to_string).collect();
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
    let value = snell_rig::evaluate::evaluate(evaluation, line, expr).ok()?;
    Some(valued(evaluation, &value))
}

/// A word that a table explains: a method, a cast, a material.
fn listed(notebook: &Notebook, line: LineRef<'_>, expr: &Expr, at: u32) -> Option<String> {
    let word = expr
        .path()?
        .iter()
        .find(|word| touches(line.place(word.span).span, at))?;
    let all: [&[Listed]; 3] = [Method::WORDS, Cast::WORDS, Joined::WORDS];
    let known = all
        .into_iter()
        .flatten()
        .find(|listed| listed.word == &*word.folded);
    if let Some(listed) = known {
        return Some(format!("**{}**\n\n{}", listed.word, listed.about));
    }
    let all = snell_analysis::explain_in(notebook, &word.folded).ok()?;
    let told: Vec<String> = all.iter().map(|of| explained(notebook, of)).collect();
    Some(told.join("\n\n"))
}

/// The word that opens a line, with what a part of a rig comes to.
fn of_key<'p>(world: &World<'p>, block: BlockRef<'p>, line: LineRef<'p>, at: u32) -> Option<Hover> {
    let head = block
        .head_line()
        .is_some_and(|head| head.offset() == line.offset());
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
            let mut things = things_of(evaluation, line);
            // What the fly does is asked for more than what its tag is.
            let is_other = |thing: &Thing| thing.kind() != Kind::Fly;
            in_order(&mut things, |one, other| is_other(one).cmp(&is_other(other)));
            for thing in things {
                let _ = write!(text, "\n\n**{}**\n", told::name_of(evaluation, thing));
                measures(&mut text, evaluation, thing);
            }
        });
    }
    Some(Hover::new(place, text))
}

/// The measures that are asked for most stand first.
const FIRST: [&str; 5] = ["total", "rides", "sinks", "off-bed", "hangs"];

fn measures(text: &mut String, evaluation: &Evaluation<'_, '_>, thing: Thing) {
    let mut all = told::all(evaluation, thing);
    let place = |name: &str| {
        FIRST
            .iter()
            .position(|first| *first == name)
            .unwrap_or(FIRST.len())
    };
    in_order(&mut all, |(one, _), (other, _)| place(one).cmp(&place(other)));
    for (name, told) in all {
        let _ = write!(text, "\n- {name}: {told}");
    }
    if let Some(drag) = evaluation.drag_assumed(thing) {
        let _ = write!(text, "\n- its drag: {} ({})", drag.value, drag.why);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use snell_analysis::{Kind, LocalDisk};
    use std::path::Path;

    const TEXT: &str = "fly slate \"slate spider\"\n  hook #14\n  bead 2.8 mm tungsten\n\nrig a\n  method tight-line\n  tippet 30 in of 5X fluoro as upper\n  dropper 8 in with slate\n  tippet 20 in of 6X fluoro\n  point slate\n  expect total at least 4 ft\n";

    fn told(word: &str) -> String {
        let book = Notebook::of_text(Path::new("a.rig"), Kind::Rig, TEXT.to_owned(), &LocalDisk);
        let at = TEXT.find(word).unwrap() as u32 + 1;
        hover(&book, at).map_or_else(String::new, |hover| hover.text + &hover.more)
    }

    #[test]
    fn a_fly_tells_by_which_timings_its_drag_is_known() {
        let timed: String = (1..=3)
            .map(|place| {
                format!("fly timed-{place}\n  hook #14\n  bead 2.8 mm tungsten\n  sinks 0.5 m/s\n\n")
            })
            .collect();
        let text = timed + TEXT;
        let book = Notebook::of_text(Path::new("a.rig"), Kind::Rig, text.clone(), &LocalDisk);
        let at = text.rfind("point slate").expect("it has a point") as u32 + 7;
        let told = hover(&book, at).expect("it is told").text;
        assert!(
            told.contains("its drag: 1.") && told.contains("3 timed flies"),
            "{told}"
        );
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
            told("dropper 8").contains("dropper [LENGTH]"),
            "{}",
            told("dropper 8")
        );
        assert!(told("rig a").is_empty() || told("rig a").contains("rig"));
    }
}
