//! The tables of `grammar/reference.md`, made from the tables of the code.
//!
//! A table stands between two markers that name it; all else is written by
//! hand and kept.

use snell_rig::keywords::{self, OWN_FORMS};
use snell_rig::measure::{Get, Kind, MEASURES};
use snell_syntax::{BlockKind, Joint};
use std::fmt::Write;

const END: &str = "<!-- end -->";

/// The page with every table made anew.
///
/// # Errors
/// A marker names no table, or is left open.
pub fn filled(page: &str) -> Result<String, String> {
    let mut made = String::new();
    let mut rest = page;
    while let Some(at) = rest.find("<!-- table: ") {
        let line_end = rest[at..]
            .find('\n')
            .map(|length| at + length + 1)
            .ok_or("a marker ends the page")?;
        let name = rest[at..line_end]
            .trim()
            .trim_start_matches("<!-- table: ")
            .trim_end_matches(" -->");
        let end = rest[line_end..]
            .find(END)
            .map(|length| line_end + length)
            .ok_or("a table is left open")?;
        made.push_str(&rest[..line_end]);
        let _ = write!(
            made,
            "\n{}\n{END}",
            table(name).ok_or_else(|| format!("there is no table `{name}`"))?
        );
        rest = &rest[end + END.len()..];
    }
    made.push_str(rest);
    Ok(made)
}

fn table(name: &str) -> Option<String> {
    Some(match name {
        "joining-words" => joining_words(),
        "units" => units_table(),
        "blocks" => blocks(),
        "rig" => keys(BlockKind::Rig),
        "rules" => format!("{}\n{}", keys(BlockKind::Rule), keys(BlockKind::Rulebook)),
        "words" => words(),
        "measures" => measures(),
        "faults" => faults(),
        _ => return None,
    })
}

/// A table of rows; pipes in cells are escaped.
fn rows(heads: &[&str], rows: impl IntoIterator<Item = Vec<String>>) -> String {
    let line = |cells: Vec<String>| format!("| {} |\n", cells.join(" | "));
    let mut made = line(heads.iter().map(|head| (*head).to_owned()).collect());
    made.push_str(&line(heads.iter().map(|_| "---".to_owned()).collect()));
    for row in rows {
        made.push_str(&line(
            row.into_iter().map(|cell| cell.replace('|', "\\|")).collect(),
        ));
    }
    made
}

fn code(text: &str) -> String {
    format!("`{text}`")
}

fn joining_words() -> String {
    let words: Vec<String> = Joint::ALL.iter().map(|joint| code(joint.word())).collect();
    format!("{}.\n", words.join(", "))
}

fn units_table() -> String {
    let row = |unit: &snell_units::Unit| {
        // One thing and several of it are one row.
        let several = |word: &str| {
            let one = word.strip_suffix('s').unwrap_or_default();
            one == unit.name || unit.words.contains(&one)
        };
        let words: Vec<String> = unit
            .words
            .iter()
            .filter(|word| !several(word))
            .map(|word| code(&word.replace('`', "'")))
            .collect();
        vec![code(unit.name), words.join(", "), unit.about.to_owned()]
    };
    rows(
        &["unit", "also written", "what it is"],
        snell_units::UNITS.iter().map(row),
    )
}

fn blocks() -> String {
    let plain = BlockKind::ALL
        .into_iter()
        .filter(|kind| !matches!(kind, BlockKind::Rig | BlockKind::Rule | BlockKind::Rulebook));
    let of = |kind: BlockKind| {
        // Its name stands at its first line.
        let name = move |at: usize| if at == 0 { code(kind.word()) } else { String::new() };
        let named = move |(at, line): (usize, Vec<String>)| [vec![name(at)], line].concat();
        lines(kind).into_iter().enumerate().map(named)
    };
    rows(&["block", "its line", "what it says"], plain.flat_map(of))
}

fn keys(kind: BlockKind) -> String {
    rows(&[&format!("line of {}", kind.one()), "what it says"], lines(kind))
}

/// The lines of a block, each with what it says.
fn lines(kind: BlockKind) -> Vec<Vec<String>> {
    let often = |row: &keywords::Row| {
        if row.often == keywords::Often::Needed {
            " Needed."
        } else {
            ""
        }
    };
    let own = OWN_FORMS.iter().filter(|form| form.within.contains(&kind));
    let own = own.map(|form| vec![code(form.shape), form.about.to_owned()]);
    let plain = keywords::rows(kind)
        .iter()
        .map(|row| vec![code(&row.shape()), format!("{}{}", row.about, often(row))]);
    plain.chain(own).collect()
}

fn words() -> String {
    let of = |name: &'static str, words: &'static [keywords::Named]| {
        words.iter().enumerate().map(move |(at, named)| {
            let name = if at == 0 { name } else { "" };
            vec![name.to_owned(), code(named.word), named.about.to_owned()]
        })
    };
    let all = of("method", keywords::Method::WORDS).chain(of("cast", keywords::Cast::WORDS));
    rows(&["of", "word", "what it means"], all)
}

fn measures() -> String {
    let kinds = [
        Kind::Rig,
        Kind::Section,
        Kind::Join,
        Kind::Dropper,
        Kind::Gap,
        Kind::Fly,
        Kind::Shot,
        Kind::Rod,
        Kind::Water,
    ];
    let told = |measure: &snell_rig::measure::Measure| match measure.get {
        Get::Value(_) => measure.dimension.name().into_owned(),
        Get::Words(_) => "words".to_owned(),
    };
    let of = |kind: Kind| {
        let own = MEASURES.iter().filter(move |measure| measure.of == kind);
        own.map(move |measure| {
            vec![
                kind.word().to_owned(),
                code(measure.name),
                told(measure),
                measure.about.to_owned(),
            ]
        })
    };
    rows(
        &["of", "measure", "told in", "what it is"],
        kinds.into_iter().flat_map(of),
    )
}

/// What is wrong with how a line is written is a matter of the grammar above, and `why` says it again: names will do.
fn faults() -> String {
    let mut all = snell_finding::Code::ALL.to_vec();
    all.sort_unstable_by_key(|code| code.name());
    let (written, meant): (Vec<_>, Vec<_>) = all
        .into_iter()
        .partition(|found| found.stage() == snell_finding::Stage::Reading);
    let written: Vec<String> = written.into_iter().map(|found| code(found.name())).collect();
    let table = rows(
        &["fault", "what it means"],
        meant
            .into_iter()
            .map(|found| vec![code(found.name()), found.about().to_owned()]),
    );
    format!("Of writing: {}.\n\nOf meaning:\n\n{table}", written.join(", "))
}
