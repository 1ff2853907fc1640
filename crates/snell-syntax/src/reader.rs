//! The driver: lines in, blocks and findings out.
//!
//! It keeps what it read of a line, so that a line that stands again, in this
//! text or in the next state of it, is not read again.

use crate::building::Building;
use crate::faults::{self, Slip};
use crate::hand::{self, Hand, Within, Written};
use crate::kept::Kept;
use crate::layout::{self, Shape};
use crate::limits::{LINE_LIMIT, NESTING_LIMIT, too_deep};
use crate::lower::lower;
use crate::outcome::{Broken, Opens, Outcome};
use crate::parse::{Entry, Parsed};
use crate::token::Token;
use crate::tree::{File, Form, Head, Reading, Word};
use crate::words::Words;
use snell_finding::{Code, Finding};
use snell_text::{Span, TextId};
use std::sync::Arc;

/// Reads texts and keeps the trees of their lines.
#[derive(Default)]
pub struct Reader {
    kept: [[Kept<Outcome>; Within::COUNT]; 2],
    one: OneLine,
}

/// What it takes to read one line.
#[derive(Default)]
struct OneLine {
    words: Words,
    parsed: Parsed,
}

/// Reads one text once; see [`Reader::read`].
pub fn read(text: &str, id: TextId, passages: &[Vec<Span>]) -> File {
    Reader::new().read(text, id, passages)
}

/// All lines of `text` as one passage, as a file of its own has them.
pub fn whole(text: &str) -> Vec<Vec<Span>> {
    vec![snell_text::lines(text).collect()]
}

impl Reader {
    /// A reader that has read nothing yet.
    pub fn new() -> Self {
        Self::default()
    }

    /// Reads `text`. A passage is the lines of one file, or of one fence of a
    /// page; no block goes on from one passage to the next. Lines outside of
    /// all passages are not looked at.
    pub fn read(&mut self, text: &str, id: TextId, passages: &[Vec<Span>]) -> File {
        self.one.words.trim();
        self.read_ahead(text, passages);
        let mut file = Building::new(id);
        for passage in passages {
            file.begin_passage();
            self.passage(text, passage, &mut file);
        }
        file.done()
    }

    /// Reads some lines of a text that has kept its indent elsewhere. They begin where the text does, or with
    /// a line that opens a block.
    pub fn read_part(&mut self, text: &str, id: TextId, lines: &[Span]) -> File {
        self.one.words.trim();
        let mut file = Building::new(id);
        self.lines(text, lines, false, &mut file);
        file.done()
    }

    fn passage(&mut self, text: &str, passage: &[Span], file: &mut Building) {
        let lost = layout::has_lost_indent(text, passage);
        self.lines(text, passage, lost, file);
    }

    fn lines(&mut self, text: &str, passage: &[Span], lost: bool, file: &mut Building) {
        // Without indent, a word like `rod` or `knot` opens a block only where
        // a new thought begins; elsewhere it is a line of the block above.
        let mut begins = true;
        for span in passage {
            if file.is_full() {
                return;
            }
            let written = span.of(text);
            let indented = match Shape::of(written) {
                Shape::Words { indented } => indented,
                Shape::Comment => {
                    begins = true;
                    let comment = self.outcome(written, Entry::Body, Within::Other);
                    file.add(span.start, comment);
                    continue;
                }
                Shape::Blank => {
                    begins = true;
                    continue;
                }
            };
            let is_head = !indented && (!lost || begins || layout::is_use(written));
            let entry = if is_head { Entry::Margin } else { Entry::Body };
            let within = file.within();
            let outcome = self.outcome(written, entry, within);
            if within == Within::Rig
                && matches!(outcome, Outcome::Broken(_))
                && let Some(several) = self.several(written)
            {
                for (part, outcome) in several {
                    file.add(span.start + part.start, outcome);
                }
                begins = false;
                continue;
            }
            let used = file.add(span.start, outcome);
            begins = begins && used;
        }
    }

    /// The parts of a line that holds several, each read as a line of its own. Nothing unless most of them can be read.
    fn several(&mut self, line: &str) -> Option<Vec<(Span, Outcome)>> {
        let parts = hand::several_parts(line).into_iter();
        let within = std::iter::once(Within::RodEnd).chain(std::iter::repeat(Within::Rig));
        let read = |(part, within): (Span, _)| (part, self.outcome(part.of(line), Entry::Body, within));
        let read: Vec<_> = parts.zip(within).map(read).collect();
        let broken = read.iter().filter(|(_, read)| matches!(read, Outcome::Broken(_)));
        let sound = read.len() - broken.count();
        (sound > 1 && sound * 2 > read.len()).then_some(read)
    }

    /// Whether a line need not be read again.
    pub(crate) fn keeps(&self, line: &str, entry: Entry, within: Within) -> bool {
        self.kept[entry as usize][within as usize].holds(line)
    }

    /// What a line says, read or kept.
    pub(crate) fn outcome(&mut self, line: &str, entry: Entry, within: Within) -> Outcome {
        self.kept[entry as usize][within as usize].get(line, |line| self.one.read(line, entry, within))
    }

    /// Keeps what another reader read, too.
    pub(crate) fn take_over(&mut self, other: Self) {
        let others = other.kept.into_iter().flatten();
        for (own, others) in self.kept.iter_mut().flatten().zip(others) {
            own.take_over(others);
        }
    }
}

impl OneLine {
    fn read(&mut self, line: &str, entry: Entry, within: Within) -> Outcome {
        let form = self.form(line, entry);
        let tokens: Arc<[Token]> = Arc::from(&*self.parsed.tokens);
        if layout::is_ruled(line) && layout::conflict(line).is_none() {
            return Outcome::Empty(tokens);
        }
        match self.in_own_hand(line, entry, within, &form) {
            // A colon behind the key is no fault: what is wrong is said of the values.
            Hand::Strict => {
                if form.is_err()
                    && let Some(colon) = colon(line, entry)
                {
                    let mut without = line.to_owned();
                    without.replace_range(colon, " ");
                    return self.read(&without, entry, within);
                }
            }
            Hand::Read(hand) => {
                if let Some(outcome) = self.read_as(line, &tokens, hand, within) {
                    return outcome;
                }
            }
            Hand::Asks(slip) => {
                return Outcome::Broken(Arc::new(Broken {
                    finding: self.doubt(slip.into_finding(line), line, entry, within),
                    opens: Opens::Nothing,
                    conflict: None,
                    tokens,
                }));
            }
        }
        match form {
            Ok(Some((form, span))) => Outcome::Sound(Arc::new(form), span, tokens, None),
            Ok(None) => Outcome::Empty(tokens),
            Err(slip) => {
                let finding = self.doubt(slip.into_finding(line), line, entry, within);
                let is_mended = finding.fixes.iter().any(|fix| fix.sure);
                if !is_mended
                    && finding.code.known().is_some_and(tells_little)
                    && let Some(outcome) = self.in_part(line, &tokens, entry, within)
                {
                    return outcome;
                }
                Outcome::Broken(Arc::new(Broken {
                    finding,
                    opens: self.opened(line, &tokens, entry),
                    conflict: layout::conflict(line),
                    tokens,
                }))
            }
        }
    }

    /// What a line says of which only a part is understood.
    fn in_part(&mut self, line: &str, tokens: &[Token], entry: Entry, within: Within) -> Option<Outcome> {
        let is_line = entry == Entry::Body && within_limits(line).is_ok() && layout::conflict(line).is_none();
        let hand = is_line.then(|| hand::read_in_part(line, within)).flatten()?;
        self.read_as(line, tokens, hand, within)
    }

    /// What a line says in its author's own way, where it is written so.
    fn in_own_hand(
        &self,
        line: &str,
        entry: Entry,
        within: Within,
        form: &Result<Option<(Form, Span)>, Slip>,
    ) -> Hand {
        let form = match form {
            Ok(Some((form, _))) => Some(form),
            Ok(None) => return Hand::Strict,
            Err(_) if within_limits(line).is_err() || layout::conflict(line).is_some() => {
                return Hand::Strict;
            }
            Err(_) => None,
        };
        hand::read(line, &self.parsed.tokens, form, entry, within)
    }

    /// The tree of the strict line that a line stands for.
    fn read_as(&mut self, line: &str, tokens: &[Token], hand: Written, within: Within) -> Option<Outcome> {
        let entry = if hand.is_head { Entry::Margin } else { Entry::Body };
        let form = self.form(&hand.strict, entry);
        // What was understood must say itself: a strict line that would be read as another is none.
        if !matches!(self.in_own_hand(&hand.strict, entry, within, &form), Hand::Strict) {
            return None;
        }
        let (form, _) = form.ok()??;
        let tokens = hand::coloured(tokens, &self.parsed.tokens, &hand.stretches);
        let words = line.trim_matches(layout::is_space);
        let start = words.as_ptr() as usize - line.as_ptr() as usize;
        let reading = Reading {
            strict: hand.strict.into(),
            tokens: self.parsed.tokens.clone(),
            stretches: hand.stretches,
            unread: hand.unread,
        };
        let span = Span::from(start..start + words.len());
        Some(Outcome::Sound(
            Arc::new(form),
            span,
            tokens,
            Some(Arc::new(reading)),
        ))
    }

    /// What a line says, with its extent.
    fn form(&mut self, line: &str, entry: Entry) -> Result<Option<(Form, Span)>, Slip> {
        if let Err(slip) = within_limits(line) {
            self.parsed.give_up(line);
            return Err(slip);
        }
        if let Some(marker) = layout::conflict(line) {
            self.parsed.give_up(line);
            return Err(Slip::conflict(line, marker));
        }
        self.parsed.read(entry, line);
        let Parsed { nodes, tokens, odd } = &self.parsed;
        if let Some(at) = odd {
            return Err(faults::find(line, tokens, *at, entry));
        }
        lower(line, nodes, &mut self.words).map_err(|bad| faults::of_number(&bad, line, tokens, entry))
    }

    /// A way out is only sure if the line reads once it is taken.
    fn doubt(&mut self, mut finding: Finding, line: &str, entry: Entry, within: Within) -> Finding {
        for fix in finding.fixes.iter_mut().filter(|fix| fix.sure) {
            let edits = fix.edits.iter().map(|edit| (edit.place.span, edit.new.clone()));
            let mended = snell_finding::apply(line, edits);
            fix.sure = self.reads(&mended, entry, within);
        }
        finding
    }

    /// Whether a line reads, strict or in its author's own way.
    fn reads(&mut self, line: &str, entry: Entry, within: Within) -> bool {
        let form = self.form(line, entry);
        match self.in_own_hand(line, entry, within, &form) {
            Hand::Strict => matches!(form, Ok(Some(_))),
            Hand::Read(hand) => {
                self.read_as(line, &[], hand, within).is_some() || matches!(form, Ok(Some(_)))
            }
            Hand::Asks(_) => false,
        }
    }

    fn opened(&mut self, line: &str, tokens: &[Token], entry: Entry) -> Opens {
        let Some(head) = faults::head(line, tokens).filter(|_| entry == Entry::Margin) else {
            return Opens::Nothing;
        };
        let Some(name) = head.name else {
            return Opens::Nameless;
        };
        let form = Form::Block(Head {
            kind: head.kind,
            name: Word {
                folded: self.words.fold(name.of(line)),
                span: name,
            },
            base: None,
            title: None,
        });
        Opens::Named(Arc::new(form), head.kind_span.to(name))
    }
}

/// Whether a fault only says that the grammar goes on no further, and not what is wrong.
fn tells_little(code: Code) -> bool {
    [
        Code::CharacterUnknown,
        Code::FullStopInside,
        Code::KeyMissing,
        Code::LineUnreadable,
        Code::SizeGlued,
        Code::UnitGlued,
        Code::ValueExtra,
        Code::WordKept,
        Code::WordMisplaced,
    ]
    .contains(&code)
}

/// The colon behind the key of a line within a block.
fn colon(line: &str, entry: Entry) -> Option<std::ops::Range<usize>> {
    let within = entry == Entry::Body && within_limits(line).is_ok() && layout::conflict(line).is_none();
    let colon = within.then(|| hand::colon(line)).flatten()?;
    Some(colon.start as usize..colon.end as usize)
}

/// Limits that keep any line from stalling or overrunning the parser.
fn within_limits(line: &str) -> Result<(), Slip> {
    if line.len() > LINE_LIMIT {
        return Err(Slip::too_long(line));
    }
    too_deep(line, NESTING_LIMIT).map_or(Ok(()), |at| Err(Slip::too_deep(at)))
}
