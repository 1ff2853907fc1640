//! What a rig comes to, without the words in which it was written: two texts
//! that mean the same have equal essences.

use notebook::Notebook;
use notebook::view::{Measures, ShownPart, ShownRig, ShownUnknown, Units, show};

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
        format!(
            "{} {} {}",
            one.measure,
            one.part.as_deref().unwrap_or(""),
            one.needs.join(", ")
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
    let figure = |(name, written): (&&str, &notebook::view::Written)| {
        let words = match written.value {
            Some(_) => written.unit.clone().unwrap_or_default(),
            None => plain(&written.text),
        };
        ((*name).to_owned(), written.value, words)
    };
    measures.iter().map(figure).collect()
}

/// Words that were copied from the text, as the plain form has them.
fn plain(words: &str) -> String {
    let words = words
        .to_lowercase()
        .replace(['\t', '\u{A0}'], " ")
        .replace('½', " 1/2");
    let digit = |at: Option<&char>| at.is_some_and(char::is_ascii_digit);
    let letters: Vec<char> = words.chars().collect();
    let point = |(at, letter): (usize, &char)| {
        let between = at > 0 && digit(letters.get(at - 1)) && digit(letters.get(at + 1));
        if *letter == ',' && between { '.' } else { *letter }
    };
    letters.iter().enumerate().map(point).collect()
}
