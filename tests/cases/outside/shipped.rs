//! The figures as they ship: read from the blocks of the shelf, from the rules of
//! the book, from a table of a page, or off a rig that is written for it.

use snell_analysis::{Kind, LocalDisk, Notebook};
use snell_rig::blocks::Read;
use snell_rig::content::File;
use snell_rig::faults::Faults;
use snell_rig::{Evaluation, Source, World};
use snell_rules::Books;
use snell_syntax::BlockKind;
use snell_text::TextId;
use snell_view::{ShownRig, Units, show};
use std::f64::consts::PI;
use std::fs;
use std::path::Path;

pub(super) fn opened(text: &str) -> Notebook {
    Notebook::of_text(Path::new("asked.rig"), Kind::Rig, text.to_owned(), &LocalDisk)
}

fn shown(text: &str) -> ShownRig {
    show(&opened(text), Units::Author, |_, _| true).remove(0)
}

/// The mass of a fly, in kilograms.
fn fly(essentials: &str, more: &str) -> f64 {
    let text = format!(
        "fly asked\n  hook {essentials}\n{more}\nrig of-it\n  tippet 1 m of 5X fluoro\n  point asked\n"
    );
    shown(&text).flies[0].measures["mass"].value.unwrap()
}

/// How long a hook is, in metres.
fn hook_length(size: &str) -> Option<f64> {
    let text = format!("rig asked\n  tippet 1 m of 5X nylon\n  point {size}\n");
    shown(&text).flies[0].measures["hook-length"].value
}

/// The ends of a line of a shipped block.
fn block(kind: BlockKind, name: &str, line: &str) -> Option<(f64, f64)> {
    let project = snell_rules::project();
    let world = World::new(&project);
    let read = world.read(world.shipped(kind, name)?);
    let value = match (read, line) {
        (Read::Knot(knot), "strength") => &knot.strength,
        (Read::Knot(knot), "range") => &knot.range,
        (Read::Knot(knot), "step") => &knot.step,
        (Read::Material(material), "density") => &material.density,
        (Read::Material(material), "wet") => &material.wet,
        (Read::Bed(bed), "grain") => &bed.grain,
        _ => return None,
    };
    let value = value.as_ref().ok()?;
    Some((value.low(), value.high()))
}

/// A limit of a shipped rule, on a rig that says what limits hang on.
fn limit(rule: &str, name: &str, hook: &str) -> Option<f64> {
    // A rule of tags wants a tag, one of flies a fly that is the only one.
    let tag = if rule.contains("tag") {
        "  dropper 10 cm\n  tippet 5 ft of 5X fluoro\n"
    } else {
        ""
    };
    let text = format!(
        "rig asked\n  method tight-line\n  rod 10 ft #3\n  tippet 5 ft of 5X fluoro\n{tag}  point {hook} 0.1 g\n"
    );
    let file = snell_syntax::read(&text, TextId(0), &snell_syntax::whole(&text));
    let source = Source::new("asked", text.as_str().into(), File::new(&text, file));
    let mut project = snell_rules::project();
    let file = project.add(source);
    let world = World::new(&project);
    let books = Books::new(&world);
    let block = project.blocks(file).next()?;
    let rig = snell_rig::read(&world, block, &Faults::default());
    let evaluation = Evaluation::new(&world, &rig);
    let applied = books.of_rig_or_shipped(&rig, rule)?;
    applied.limit(&evaluation, name).ok().map(|value| value.si())
}

/// A row of a table in a page of the shelf: the number behind a name, in kilograms.
fn shot(country: &str, name: &str) -> Option<f64> {
    let page = fs::read_to_string(snell_tests::top().join("crates/snell-rig/shelf/materials.md")).unwrap();
    let column = if country == "British" { 1 } else { 3 };
    let mass = page.lines().find_map(|line| {
        let cells: Vec<&str> = line.split('|').map(str::trim).collect();
        (cells.get(column) == Some(&name)).then(|| cells[column + 1].to_owned())
    })?;
    let number = mass.split(' ').next()?.parse::<f64>().ok()?;
    Some(number / 1000.0)
}

/// The ends of a shipped figure in SI.
pub(super) fn shipped(figure: &str) -> Option<(f64, f64)> {
    let words: Vec<&str> = figure.split(' ').collect();
    let one = |si: f64| (si, si);
    match words.as_slice() {
        ["knot", name, line] => block(BlockKind::Knot, name, line),
        // The row is what wetting costs, the block what is left.
        ["material", "nylon", "wet"] => {
            block(BlockKind::Material, "nylon", "wet").map(|(low, high)| (1.0 - high, 1.0 - low))
        }
        ["material", name, line] => block(BlockKind::Material, name, line),
        ["bed", name, line] => block(BlockKind::Bed, name, line),
        // For a #12 the number over the X is what is told.
        ["rule", rule @ "hook-tippet", line] => limit(rule, line, "#12").map(|x| one(12.0 / x)),
        ["rule", name, line, "on", hook] => limit(name, line, hook).map(one),
        ["rule", name, line] => limit(name, line, "#14").map(one),
        ["shot", country, name @ ..] => shot(country, &name.join(" ")).map(one),
        ["line", number] => {
            let text = format!("rig asked\n  line 30 ft of {number}\n");
            shown(&text).sections[0].measures["mass"].value.map(one)
        }
        ["fall", size, dressing] => {
            let text = format!(
                "fly asked\n  hook {size}\n  dressed {dressing}\nrig of-it\n  tippet 1 m of 5X fluoro\n  point asked\n"
            );
            shown(&text).flies[0].measures["sinks"].value.map(one)
        }
        ["size", x] => {
            let text = format!("rig asked\n  tippet 1 m of {x} nylon\n");
            shown(&text).sections[0].measures["diameter"].value.map(one)
        }
        ["hook-length", size] => hook_length(size).map(one),
        ["hook", size] => Some(one(fly(size, "  dressed bare\n"))),
        ["fly", size, bead @ ..] => Some(one(fly(size, &format!("  bead {}\n", bead.join(" "))))),
        ["bead", "fill"] => {
            let bead =
                fly("#12", "  bead 3.3 mm tungsten\n  dressed bare\n") - fly("#12", "  dressed bare\n");
            Some(one(bead / (18_000.0 * PI / 6.0 * 3.3e-3_f64.powi(3))))
        }
        ["bead", inches, "in"] => {
            let text = format!("rig asked\n  tippet 1 m of 5X fluoro\n  point #14 {inches} in tungsten\n");
            shown(&text).flies[0].measures["bead"].value.map(one)
        }
        _ => None,
    }
}
