//! Prints lines with whether they can be read, for another reader of the
//! language to be held against: `cargo run -p snell-tests --bin judged-lines`.
//!
//! One line of the output is `read` or `broken`, a tab, and the line. They are
//! the line traps, the examples, the shipped pages, the faulty lines of the
//! tests and a great many put together at random.

use snell_tests::judged::{self, Judged};
use std::io::{self, Write};

fn main() -> io::Result<()> {
    let mut out = io::BufWriter::new(io::stdout().lock());
    for Judged { line, read } in judged::lines()? {
        writeln!(out, "{}\t{line}", if read { "read" } else { "broken" })?;
    }
    out.flush()
}
