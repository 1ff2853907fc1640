//! A file in the making: lines that are read one after the other become its blocks and findings.
//!
//! It knows how lines make blocks, and which of them no longer fit in a file. What a line says is not known here.

use crate::faults;
use crate::hand::Within;
use crate::limits::{BLOCK_LIMIT, BODY_LIMIT, FINDING_LIMIT, USE_LIMIT};
use crate::outcome::{Broken, Opens, Outcome};
use crate::token::Token;
use crate::tree::{Block, File, Form, Line, Rest, UseLine};
use snell_finding::Finding;
use snell_text::{Place, TextId};
use std::sync::Arc;

/// A file in the making.
pub(crate) struct Building {
    file: File,
    /// The block that takes the next line.
    open: Option<usize>,
    /// Whether a line broke before any block of the passage.
    broken_above: bool,
    left_out: Option<(Finding, usize)>,
    /// Whether a mark of a merge was told in the open block, and the last one has not come. Blocks are read again by
    /// themselves when one is edited, so each tells it anew.
    in_conflict: bool,
    /// Whether a limit was reached, and the rest of the text is passed over.
    full: bool,
}

impl Building {
    pub(crate) fn new(text: TextId) -> Self {
        Self {
            file: File {
                text,
                ..File::default()
            },
            open: None,
            broken_above: false,
            left_out: None,
            in_conflict: false,
            full: false,
        }
    }

    /// Begins a passage: no block goes on from one to the next.
    pub(crate) fn begin_passage(&mut self) {
        self.open = None;
        self.broken_above = false;
        self.in_conflict = false;
    }

    pub(crate) fn is_full(&self) -> bool {
        self.full
    }

    pub(crate) fn done(mut self) -> File {
        if let Some((first, count)) = self.left_out {
            self.file.findings.push(faults::too_many(first.place(), count));
        }
        self.file
    }

    /// What the next line of the open block may say. Without a head it is a rig's.
    pub(crate) fn within(&self) -> Within {
        let Some(block) = self.open else {
            let is_first = self.file.blocks.is_empty() && !self.broken_above;
            return if is_first { Within::Top } else { Within::Other };
        };
        match self.file.blocks[block].head.as_ref().map(|head| &*head.form) {
            Some(Form::Block(head)) => Within::of(head.kind),
            Some(Form::Use(_) | Form::Change(_) | Form::Bind(_) | Form::Claim(_) | Form::Plain(_)) => {
                Within::Other
            }
            None => Within::Rig,
        }
    }

    /// Adds a line. Says whether it stands outside of all blocks.
    pub(crate) fn add(&mut self, offset: u32, outcome: Outcome) -> bool {
        match outcome {
            _ if self.full => false,
            Outcome::Empty(tokens) => {
                self.rest(offset, &tokens);
                false
            }
            Outcome::Sound(form, span, tokens, reading) => {
                for unread in reading.iter().flat_map(|reading| &reading.unread) {
                    let place = Place::new(self.file.text, unread.shifted(offset));
                    self.tell(|| faults::unread(place, *unread == span));
                }
                self.sound(Line {
                    offset,
                    form,
                    span,
                    tokens,
                    reading,
                })
            }
            Outcome::Broken(broken) => {
                self.broken(offset, &broken);
                false
            }
        }
    }

    fn sound(&mut self, line: Line) -> bool {
        let body = self.open.map_or(0, |block| self.file.blocks[block].body.len());
        let (count, limit, what) = match *line.form {
            Form::Block(_) => (self.file.blocks.len(), BLOCK_LIMIT, "blocks"),
            Form::Use(_) => (self.file.uses.len(), USE_LIMIT, "`use` lines"),
            Form::Change(_) | Form::Bind(_) | Form::Claim(_) | Form::Plain(_) => {
                (body, BODY_LIMIT, "lines in one block")
            }
        };
        if count >= limit {
            self.full = true;
            let place = line.place(self.file.text, line.span);
            self.file.findings.push(faults::overfull(place, limit, what));
            return false;
        }
        match *line.form {
            Form::Use(path) => {
                self.file.uses.push(UseLine { line, path });
                return true;
            }
            Form::Block(_) => self.block(line.offset, Some(line), false),
            Form::Change(_) | Form::Bind(_) | Form::Claim(_) | Form::Plain(_) => {
                let block = self.open.unwrap_or_else(|| {
                    self.block(line.offset, None, self.broken_above);
                    self.file.blocks.len() - 1
                });
                self.file.blocks[block].body.push(line);
            }
        }
        false
    }

    fn block(&mut self, offset: u32, head: Option<Line>, broken: bool) {
        self.in_conflict = false;
        self.open = Some(self.file.blocks.len());
        self.file.blocks.push(Block {
            offset,
            head,
            body: Vec::new(),
            broken,
        });
    }

    fn rest(&mut self, offset: u32, tokens: &Arc<[Token]>) {
        self.file.rest.push(Rest {
            offset,
            tokens: Arc::clone(tokens),
        });
    }

    fn broken(&mut self, offset: u32, broken: &Broken) {
        self.rest(offset, &broken.tokens);
        match &broken.opens {
            Opens::Named(form, span) => self.block(
                offset,
                Some(Line {
                    offset,
                    form: Arc::clone(form),
                    span: *span,
                    tokens: Arc::default(),
                    reading: None,
                }),
                true,
            ),
            Opens::Nameless => self.block(offset, None, true),
            Opens::Nothing => match self.open {
                Some(block) => self.file.blocks[block].broken = true,
                None => self.broken_above = true,
            },
        }
        if let Some(marker) = broken.conflict {
            let told = std::mem::replace(&mut self.in_conflict, marker != '>');
            if told {
                return;
            }
        }
        let text = self.file.text;
        self.tell(|| faults::placed(&broken.finding, text, offset));
    }

    /// Keeps a finding, or counts it where there are too many.
    fn tell(&mut self, finding: impl FnOnce() -> Finding) {
        if self.file.findings.len() < FINDING_LIMIT {
            self.file.findings.push(finding());
        } else if let Some((_, count)) = &mut self.left_out {
            *count += 1;
        } else {
            self.left_out = Some((finding(), 1));
        }
    }
}
