//! The driver: lines in, blocks and findings out.
//!
//! It knows how lines make blocks, and keeps what it read of a line, so that a
//! line that stands again, in this text or in the next version of it, is not
//! read again.

use crate::faults::Slip;
use crate::layout::{self, Shape};
use crate::lower::lower;
use crate::parse::{self, Entry, Token};
use crate::tree::{Block, File, Form, Line, UseLine};
use crate::words::Words;
use report::Finding;
use rustc_hash::FxHashMap;
use std::sync::Arc;
use text::{Span, TextId};

/// The longest line that is read, in bytes.
pub const LINE_LIMIT: usize = 16 * 1024;

/// How deep parentheses may stand in each other.
pub const NESTING_LIMIT: usize = 32;

/// How many findings are kept of one text.
pub const FINDING_LIMIT: usize = 2_000;

/// Lines longer than this are read afresh each time instead of being kept.
const KEPT_LENGTH: usize = 512;

/// When so many lines are kept, those not met since the last such moment go.
const KEPT_LINES: usize = 1 << 16;

/// What became of a line.
#[derive(Clone)]
enum Outcome {
    Empty,
    Sound(Arc<Form>, Span),
    Broken(Arc<Finding>),
}

/// Reads texts and keeps the trees of their lines.
#[derive(Default)]
pub struct Reader {
    words: Words,
    tokens: Vec<Token>,
    kept: [FxHashMap<Box<str>, Outcome>; 2],
}

/// Reads one text once; see [`Reader::read`].
pub fn read(text: &str, id: TextId, passages: &[Vec<Span>]) -> File {
    Reader::new().read(text, id, passages)
}

/// All lines of `text` as one passage, as a file of its own has them.
pub fn whole(text: &str) -> Vec<Vec<Span>> {
    vec![text::lines(text).collect()]
}

impl Reader {
    /// A reader that has read nothing yet.
    pub fn new() -> Self {
        Self::default()
    }

    /// Reads `text`. A passage is the lines of one file, or of one fence of a
    /// page; a block never goes on from one passage to the next.
    pub fn read(&mut self, text: &str, id: TextId, passages: &[Vec<Span>]) -> File {
        let mut file = File {
            text: id,
            ..File::default()
        };
        for passage in passages {
            self.passage(text, passage, &mut file);
        }
        file
    }

    fn passage(&mut self, text: &str, passage: &[Span], file: &mut File) {
        let lost = layout::has_lost_indent(text, passage);
        let mut open = false;
        let mut may_open = true;
        for span in passage {
            let written = span.of(text);
            let Shape::Words { indented } = Shape::of(written) else {
                may_open = true;
                continue;
            };
            let entry = if indented || (lost && !may_open) { Entry::Body } else { Entry::Margin };
            may_open = false;
            let (form, extent) = match self.line(written, entry) {
                Outcome::Empty => continue,
                Outcome::Sound(form, extent) => (form, extent),
                Outcome::Broken(finding) => { file.findings.push((*finding).clone()); continue }
            };
            let line = Line {
                offset: span.start,
                form,
                span: extent,
            };
            match *line.form {
                Form::Use(path) => {
                    file.uses.push(UseLine { line, path });
                }
                Form::Block(_) => {
                    open = true;
                    file.blocks.push(Block {
                        head: Some(line),
                        body: Vec::new(),
                        broken: false,
                    });
                }
                _ => {
                    if !open {
                        open = true;
                        file.blocks.push(Block {
                            head: None,
                            body: Vec::new(),
                            broken: false,
                        });
                    }
                    if let Some(block) = file.blocks.last_mut() {
                        block.body.push(line);
                    }
                }
            }
        }
    }

    fn line(&mut self, written: &str, entry: Entry) -> Outcome {
        let kept = &self.kept[entry as usize];
        if let Some(outcome) = kept.get(written) {
            return outcome.clone();
        }
        let outcome = self.fresh(written, entry);
        self.kept[entry as usize].insert(written.into(), outcome.clone());
        outcome
    }

    fn fresh(&mut self, written: &str, entry: Entry) -> Outcome {
        let read = match parse::parse(entry, written, &mut self.tokens) {
            Ok(()) => lower(written, &self.tokens, &mut self.words),
            Err(at) => Err(Slip::unreadable(Span::empty(at as u32))),
        };
        match read {
            Ok(Some((form, span))) => Outcome::Sound(Arc::new(form), span),
            Ok(None) => Outcome::Empty,
            Err(slip) => Outcome::Broken(Arc::new(slip.0)),
        }
    }
}
impl Reader {
    /// timing only
    pub fn time_fresh(&mut self, line: &str) -> usize {
        let e = if line.starts_with(' ') { Entry::Body } else { Entry::Margin };
        match self.fresh(line, e) { Outcome::Sound(f, _) => { std::hint::black_box(&f); 1 } _ => 0 }
    }
}
impl Reader {
    /// timing only
    pub fn time_parse(&mut self, line: &str) -> usize {
        let e = if line.starts_with(' ') { Entry::Body } else { Entry::Margin };
        let _ = parse::parse(e, line, &mut self.tokens); self.tokens.len()
    }
}
