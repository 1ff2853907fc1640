//! The lines of a large text, read by two threads before blocks are made of
//! them.
//!
//! Lines are read one by one, so half of them can be read beside the other
//! half; what was read is kept, and the driver finds it there.

use crate::layout::{self, Shape};
use crate::parse::Entry;
use crate::reader::Reader;
use ::text::Span;
use std::thread;

/// With fewer lines a second thread costs more than it brings.
const WORTH_A_THREAD: usize = 2_000;

impl Reader {
    /// Reads the lines of a large text ahead; of a small one, nothing.
    pub(crate) fn read_ahead(&mut self, text: &str, passages: &[Vec<Span>]) {
        let count: usize = passages.iter().map(Vec::len).sum();
        if count < WORTH_A_THREAD || thread::available_parallelism().is_ok_and(|threads| threads.get() == 1) {
            return;
        }
        // Without indent, what a line may be hangs on the lines above it.
        let whole = passages
            .iter()
            .filter(|passage| !layout::has_lost_indent(text, passage));
        let lines: Vec<Span> = whole.flatten().copied().collect();
        let (first, second) = lines.split_at(lines.len() / 2);
        thread::scope(|scope| {
            let beside = scope.spawn(|| {
                let mut reader = Self::new();
                reader.read_each(text, second);
                reader
            });
            self.read_each(text, first);
            if let Ok(reader) = beside.join() {
                self.take_over(reader);
            }
        });
    }

    fn read_each(&mut self, text: &str, lines: &[Span]) {
        for line in lines.iter().map(|span| span.of(text)) {
            if let Shape::Words { indented } = Shape::of(line) {
                self.outcome(line, if indented { Entry::Body } else { Entry::Margin });
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use ::text::TextId;
    use std::fmt::Write;

    #[test]
    fn a_large_text_reads_as_its_parts_do() {
        let mut text = String::new();
        for rig in 0..WORTH_A_THREAD {
            let _ = write!(
                text,
                "rig r{rig}\n  tippet {} in of 6X\n  tippet {rig} 3'8\n",
                rig % 90
            );
        }
        let file = crate::read(&text, TextId(0), &crate::whole(&text));
        assert_eq!(
            (file.blocks.len(), file.findings.len()),
            (WORTH_A_THREAD, WORTH_A_THREAD)
        );
        let at = WORTH_A_THREAD - 1;
        let start = text.rfind("rig ").unwrap();
        let alone = crate::read(&text[start..], TextId(0), &crate::whole(&text[start..]));
        assert_eq!(file.blocks[at].body[0].form, alone.blocks[0].body[0].form);
        let shifted = alone.findings[0].place().span.shifted(start as u32);
        assert_eq!(file.findings[at].place().span, shifted);
    }
}
