//! A notebook made up by rule, as large as a test wants it: the same text on
//! every run.
//!
//! It stands for a long season: shared waters, flies and spools between the
//! rigs, full rigs of several methods, short ones, and rigs made from others.
//! Fifteen lines go to a rig on average, blank lines and shared blocks counted.
//! Every claim in it holds, because it is worked out beside the lengths, and
//! what it ties is sound by the rules that ship, as most of what people tie is.

mod chance;
mod derived;
mod rigs;
mod shared;
mod words;

pub(crate) use chance::Chance;
use rigs::Made;
use std::fmt::Write;

/// Lines to a rig, on average.
pub const LINES_A_RIG: usize = 15;

/// The fewest rigs whose lines come out even: the shared blocks at the start must be earned back.
pub const FEWEST_RIGS: usize = 20;

/// The longest that a rig written in full gets, in lines.
const FULL: usize = 26;

/// A notebook of so many rigs; from [`FEWEST_RIGS`] on it has exactly [`LINES_A_RIG`] lines for each.
pub fn generated_notebook(rigs: usize) -> String {
    numbered_notebook(14, rigs)
}

/// Another notebook for each number.
pub(crate) fn numbered_notebook(number: u64, rigs: usize) -> String {
    let mut book = Book::new(number);
    book.open();
    for number in 0..rigs {
        let ends = (number + 1) * LINES_A_RIG;
        if number + 3 < rigs {
            book.shared(number);
        }
        let room = ends as isize - book.lines as isize;
        book.rig(number, room);
    }
    while book.lines < rigs * LINES_A_RIG {
        let note = book.note();
        book.line(format_args!("// {note}"));
    }
    book.text
}

/// The text so far, and what its rigs can build on.
struct Book {
    text: String,
    lines: usize,
    chance: Chance,
    waters: Vec<(String, f64)>,
    /// Each with the place of its bead among the beads.
    flies: Vec<(String, usize)>,
    /// Each with its X.
    spools: Vec<(String, usize)>,
    made: Vec<Made>,
}

impl Book {
    fn new(number: u64) -> Self {
        Self {
            text: String::new(),
            lines: 0,
            chance: Chance::new(number),
            waters: Vec::new(),
            flies: Vec::new(),
            spools: Vec::new(),
            made: Vec::new(),
        }
    }

    fn line(&mut self, line: std::fmt::Arguments<'_>) {
        // A String takes all that is written to it.
        let _ = self.text.write_fmt(line);
        self.text.push('\n');
        self.lines += 1;
    }

    /// An indented line, its key padded as `tidy` pads it.
    fn body(&mut self, key: &str, rest: &str) {
        self.line(format_args!("  {key:<7} {rest}"));
    }

    fn blank(&mut self) {
        self.line(format_args!(""));
    }

    fn note(&mut self) -> String {
        let (place, month) = (self.chance.pick(words::PLACES), self.chance.pick(words::MONTHS));
        let (day, note) = (self.chance.within(1..29), self.chance.pick(words::NOTES));
        let degrees = self.chance.within(40..68);
        format!(
            "{day} {month}, {}, air {degrees} F. {note}",
            place.replace('-', " ")
        )
    }
}
