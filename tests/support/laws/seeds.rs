//! What a fuzzer starts from: the project's own rigs and pages, scripts that
//! somebody typed, an editor's messages, and rigs in water.

use crate::recorded::texts::of_the_project;
use crate::{Chance, PIECES};
use serde_json::json;
use std::fs;
use std::io;
use std::path::Path;

/// Longer texts take a fuzzer too long to learn from.
const LONGEST: usize = 3_000;

/// The seeds of a law, by its name.
///
/// # Errors
/// A file of the project cannot be read.
pub fn seeds(name: &str) -> io::Result<Vec<Vec<u8>>> {
    Ok(match name {
        "texts_are_read_laid_out_and_checked" => asked(texts()?),
        "typed_texts_are_told_as_fresh_ones" => typed(texts()?),
        "places_of_a_page_lie_in_it" => texts()?.map(|(_, text)| text.into_bytes()).collect(),
        "messages_come_in_whole_or_are_refused" => messages(),
        "drifts_are_finite_or_told" => rigs_in_water(),
        _ => Vec::new(),
    })
}

/// Writes the seeds of a law into a folder, each under its number.
///
/// # Errors
/// The same, or the folder cannot be written.
pub fn write_seeds(name: &str, folder: &Path) -> io::Result<usize> {
    fs::create_dir_all(folder)?;
    let seeds = seeds(name)?;
    for (number, seed) in seeds.iter().enumerate() {
        fs::write(folder.join(format!("seed-{number:04}")), seed)?;
    }
    Ok(seeds.len())
}

/// The project's texts, cut at an empty line where they are long; with nought for a file and one for a page.
fn texts() -> io::Result<impl Iterator<Item = (u8, String)>> {
    let all = of_the_project()?.into_iter();
    Ok(all.flat_map(|(path, text)| {
        let kind = u8::from(path.ends_with(".md"));
        parts(&text).into_iter().map(move |part| (kind, part))
    }))
}

fn parts(text: &str) -> Vec<String> {
    let mut parts = vec![String::new()];
    for block in text.split_inclusive("\n\n") {
        if block.len() > LONGEST {
            continue;
        }
        match parts.last_mut() {
            Some(last) if last.len() + block.len() <= LONGEST => last.push_str(block),
            _ => parts.push(block.to_owned()),
        }
    }
    parts
}

/// Of every eighth all is asked.
fn asked(texts: impl Iterator<Item = (u8, String)>) -> Vec<Vec<u8>> {
    let numbered = texts.enumerate();
    numbered
        .map(|(number, (kind, text))| headed(kind + 2 * (number % 8) as u8, &text))
        .collect()
}

fn headed(kind: u8, text: &str) -> Vec<u8> {
    [&[kind], text.as_bytes()].concat()
}

/// Each text with three edits at random in it.
fn typed(texts: impl Iterator<Item = (u8, String)>) -> Vec<Vec<u8>> {
    let mut chance = Chance::new(1);
    let with_edits = |(number, (kind, text)): (usize, (u8, String))| {
        let text: String = text.chars().take(LONGEST / 3).collect();
        let mut bytes = headed(kind + 2 * (number % 3) as u8, &text);
        for _ in 0..3 {
            let at = chance.below(text.len() + 1) as u16;
            bytes.push(0);
            bytes.extend(at.to_be_bytes());
            bytes.push(chance.below(6) as u8);
            bytes.extend(chance.pick(PIECES).bytes());
        }
        bytes
    };
    texts.enumerate().map(with_edits).collect()
}

fn messages() -> Vec<Vec<u8>> {
    let bodies = [
        json!({ "jsonrpc": "2.0", "id": 1, "method": "initialize", "params": { "capabilities": {} } })
            .to_string(),
        json!({ "jsonrpc": "2.0", "method": "initialized", "params": {} }).to_string(),
        json!({ "jsonrpc": "2.0", "id": "a", "method": "shutdown" }).to_string(),
        json!({ "jsonrpc": "1.0", "id": null, "result": ["a\"}\\", [[{}]]] }).to_string(),
        "{".to_owned(),
        "[]".to_owned(),
        "[".repeat(120),
    ];
    let framed = |body: &String| format!("Content-Length: {}\r\n\r\n{body}", body.len());
    let mut all: Vec<Vec<u8>> = bodies.iter().map(|body| headed(3, &framed(body))).collect();
    all.push(headed(7, &bodies.iter().map(framed).collect::<String>()));
    all.push(headed(
        1,
        &format!(
            "Content-Type: x\r\ncontent-length:2\r\n\r\n{{}}{}",
            framed(&bodies[0])
        ),
    ));
    all.push(headed(0, "Content-Length: 99999999999\r\n\r\n{}"));
    all
}

/// Numbers at random: fifty rigs.
fn rigs_in_water() -> Vec<Vec<u8>> {
    let mut chance = Chance::new(2);
    (0..50)
        .map(|_| (0..120).map(|_| chance.below(255) as u8).collect())
        .collect()
}
