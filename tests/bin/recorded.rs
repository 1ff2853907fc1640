//! Holds the answers of two programs to the same texts against each other.
//!
//! ```text
//! recorded texts FOLDER                    write the texts
//! recorded answers PROGRAM TEXTS FOLDER    ask a program about them
//! recorded compare FOLDER FOLDER           name every difference of two such folders
//! ```
//!
//! `compare` exits with 1 where there are differences.

use snell_tests::recorded::{answers, differences, texts};
use std::io::{self, Write};
use std::path::{Path, absolute};
use std::process::ExitCode;

const USE: &str = "recorded texts FOLDER | answers PROGRAM TEXTS FOLDER | compare FOLDER FOLDER";

fn main() -> ExitCode {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let arguments: Vec<&str> = arguments.iter().map(String::as_str).collect();
    let done = match arguments[..] {
        ["texts", folder] => texts::write_all(folder.as_ref()).map(|count| written(count, "texts")),
        ["answers", program, texts, folder] => record(program, texts, folder),
        ["compare", was, now] => compare(was.as_ref(), now.as_ref()),
        _ => Err(io::Error::other(USE)),
    };
    done.unwrap_or_else(|error| {
        eprintln!("{error}");
        ExitCode::from(2)
    })
}

fn written(count: usize, what: &str) -> ExitCode {
    eprintln!("{count} {what} written");
    ExitCode::SUCCESS
}

fn record(program: &str, texts: &str, folder: &str) -> io::Result<ExitCode> {
    // The program runs in the folder of the texts, where a relative path would mean another one.
    let count = answers::record(&absolute(program)?, texts.as_ref(), folder.as_ref())?;
    Ok(written(count, "files of answers"))
}

fn compare(was: &Path, now: &Path) -> io::Result<ExitCode> {
    let found = differences::between(was, now)?;
    let mut out = io::BufWriter::new(io::stdout().lock());
    for difference in &found {
        writeln!(out, "{difference}")?;
    }
    for (place, count) in differences::by_place(&found) {
        writeln!(out, "{count:7}  {place}")?;
    }
    writeln!(out, "{:7}  differences", found.len())?;
    out.flush()?;
    Ok(ExitCode::from(u8::from(!found.is_empty())))
}
