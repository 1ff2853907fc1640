//! What a rig comes to, without the words in which it was written: two texts
//! that mean the same have equal essences.

use snell_analysis::Notebook;
use snell_view::{Measures, ShownPart, ShownRig, ShownUnknown, Units, show};

/// What a rig comes to, without the words in which it was written.
#[derive(PartialEq, Debug)]
pub struct Essence {
    name: String,
    from: Option<String>,
    measures: Vec<Figure>,
    parts: Vec<(String, Vec<Figure>)>,
    assumed: Vec<String>,
    unknown: Vec<String>,
}

/// A measure: its name, its SI value and unit; of words, the words.
type Figure = (String, Option<f64>, String);

/// The essence of every rig of a notebook, in order.
pub fn essences(book: &Notebook) -> Vec<Essence> {
    show(book, Units::Author, |_, _| true)
        .iter()
        .map(essence)
        .collect()
}

fn essence(rig: &ShownRig) -> Essence {
    let parts = [&rig.sections, &rig.joins, &rig.droppers, &rig.gaps, &rig.flies];
    let assumed = rig
        .assumed
        .iter()
        .map(|one| plain(&format!("{}: {}", one.what, one.value)));
    let lacks = |one: &ShownUnknown| {
        let needs: Vec<String> = one.needs.iter().map(ToString::to_string).collect();
        format!(
            "{} {} {}",
            one.measure,
            one.part.as_deref().unwrap_or(""),
            needs.join(", ")
        )
    };
    let unknown = rig.unknown.iter().map(|one| plain(&lacks(one)));
    Essence {
        name: plain(&rig.name),
        from: rig.from.as_deref().map(plain),
        measures: figures(&rig.measures),
        parts: parts.into_iter().flatten().map(part).collect(),
        assumed: assumed.collect(),
        unknown: unknown.collect(),
    }
}

fn part(part: &ShownPart) -> (String, Vec<Figure>) {
    (plain(&part.name), figures(&part.measures))
}

fn figures(measures: &Measures) -> Vec<Figure> {
    let figure = |(name, written): (&&str, &snell_view::Written)| {
        let words = match written.value {
            Some(_) => written.unit.clone().unwrap_or_default(),
            None => plain(&written.text),
        };
        ((*name).to_owned(), written.value, words)
    };
    measures.iter().map(figure).collect()
}

/// Words that were copied from the text, whichever of their forms they were written in: lower case, no spaces, and
/// one form for each sign.
fn plain(words: &str) -> String {
    let signs = [
        ("½", "1/2"),
        ("*", "times"),
        ("×", "times"),
        ("''", "in"),
        ("\"", "in"),
        ("”", "in"),
        ("″", "in"),
        ("'", "ft"),
        ("’", "ft"),
        ("–", "-"),
        ("−", "-"),
        (",", "."),
    ];
    let lower = words.to_lowercase();
    let one = signs
        .into_iter()
        .fold(lower, |words, (sign, form)| words.replace(sign, form));
    // `.20 mm` is laid out as `0.20 mm`.
    let zeroed = one.split(' ').map(|word| match word.strip_prefix('.') {
        Some(part) if part.starts_with(|first: char| first.is_ascii_digit()) => format!("0.{part}"),
        Some(_) | None => word.to_owned(),
    });
    let letters: String = zeroed.collect();
    letters.chars().filter(|letter| !letter.is_whitespace()).collect()
}
