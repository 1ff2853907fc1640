//! The lines of a large text, read by two threads before blocks are made of
//! them.
//!
//! Lines are read one by one, so half of them can be read beside the other
//! half; what was read is kept, and the driver finds it there. Lines that are
//! kept already are not read again.

use crate::hand::Within;
use crate::kept::GENERATION;
use crate::layout::{self, Shape};
use crate::parse::Entry;
use crate::reader::Reader;
use crate::vocabulary::BlockKind;
use rustc_hash::FxHashSet;
use snell_text::Span;
use std::thread;

/// With fewer new lines a second thread costs more than it brings.
const WORTH_A_THREAD: usize = 2_000;

/// With more lines it is no notebook, and the driver may stop long before its end.
const NO_NOTEBOOK: usize = 50_000;

/// A line with what it may be, and the block that it seems to belong to.
type NewLine<'a> = (&'a str, Entry, Within);

impl Reader {
    /// Reads the new lines of a large text ahead; of a small one, nothing.
    pub(crate) fn read_ahead(&mut self, text: &str, passages: &[Vec<Span>]) {
        let count: usize = passages.iter().map(Vec::len).sum();
        // To ask the system for threads costs as much as to read a rig. Where nothing is known of them, as in a browser,
        // there are none.
        let has_threads = || thread::available_parallelism().is_ok_and(|threads| threads.get() > 1);
        if !(WORTH_A_THREAD..NO_NOTEBOOK).contains(&count) || !has_threads() {
            return;
        }
        let lines = self.new_lines(text, passages);
        if lines.len() < WORTH_A_THREAD {
            return;
        }
        let (first, second) = lines.split_at(lines.len() / 2);
        thread::scope(|scope| {
            let beside = scope.spawn(|| {
                let mut reader = Self::new();
                reader.read_each(second);
                reader
            });
            self.read_each(first);
            if let Ok(reader) = beside.join() {
                self.take_over(reader);
            }
        });
    }

    /// The lines that are not kept, each once, and no more than can be kept.
    fn new_lines<'a>(&self, text: &'a str, passages: &[Vec<Span>]) -> Vec<NewLine<'a>> {
        let mut met = FxHashSet::default();
        passages
            .iter()
            // Without indent, what a line may be hangs on the lines above it.
            .filter(|passage| !layout::has_lost_indent(text, passage))
            .flat_map(|passage| {
                passage.iter().scan(Within::Top, |within, span| {
                    let line = span.of(text);
                    let before = *within;
                    *within = opens(line).unwrap_or(before);
                    Some((line, before))
                })
            })
            .filter_map(|(line, within)| {
                let Shape::Words { indented } = Shape::of(line) else {
                    return None;
                };
                let entry = if indented { Entry::Body } else { Entry::Margin };
                Some((line, entry, within))
            })
            .filter(|(line, entry, within)| {
                !self.keeps(line, *entry, *within) && met.insert((*line, *within as usize))
            })
            .take(GENERATION)
            .collect()
    }

    fn read_each(&mut self, lines: &[NewLine]) {
        for (line, entry, within) in lines {
            self.outcome(line, *entry, *within);
        }
    }
}

/// The block that a line at the margin opens, by its first word.
fn opens(line: &str) -> Option<Within> {
    let word = line.split(|letter: char| !letter.is_alphabetic()).next()?;
    BlockKind::of(word).map(Within::of)
}

#[cfg(test)]
mod tests {
    use super::*;
    use snell_text::TextId;
    use std::fmt::Write;

    #[test]
    fn a_large_text_reads_as_its_parts_do() {
        let mut text = String::new();
        for rig in 0..WORTH_A_THREAD {
            let _ = write!(text, "rig r{rig}\n  tippet {} in of 6X\n", rig % 90);
            // No more of them than are told.
            if rig % 2 == 1 {
                let _ = writeln!(text, "  tippet {rig} 3'8");
            }
        }
        let file = crate::read(&text, TextId(0), &crate::whole(&text));
        assert_eq!(
            (file.blocks.len(), file.findings.len()),
            (WORTH_A_THREAD, WORTH_A_THREAD / 2)
        );
        let at = WORTH_A_THREAD - 1;
        let start = text.rfind("rig ").unwrap();
        let alone = crate::read(&text[start..], TextId(0), &crate::whole(&text[start..]));
        assert_eq!(file.blocks[at].body[0].form, alone.blocks[0].body[0].form);
        let shifted = alone.findings[0].place().span.shifted(start as u32);
        assert_eq!(file.findings[at / 2].place().span, shifted);
    }
}
