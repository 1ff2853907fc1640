//! A strict line written out of values in their places, with which stretch of it stands for which words.

use super::place::{Piece, Placed};
use super::trade::{TELLS_WARMTH, TELLS_WATER, joint};
use crate::layout::is_space;
use crate::words::fold;
use snell_text::Span;
use snell_units::in_order;

/// The strict line for a line in its author's own hand.
#[derive(Debug)]
pub(crate) struct Written {
    pub(crate) strict: String,
    /// Which stretch of it stands for which of the author's.
    pub(crate) stretches: Vec<(Span, Span)>,
    pub(crate) is_head: bool,
    /// What of the author's line was not understood, and is kept as a note.
    pub(crate) unread: Vec<Span>,
}

/// A strict line, and what it says without its comment.
pub(super) struct Strict {
    pub(super) written: Written,
    pub(super) compared: String,
}

/// Puts stretches one behind the other.
#[derive(Default)]
pub(super) struct Writer {
    pub(super) strict: String,
    stretches: Vec<(Span, Span)>,
}

impl Writer {
    pub(super) fn add(&mut self, strict: &str, written: Span) {
        if !self.strict.is_empty() {
            self.strict.push(' ');
        }
        let start = self.strict.len();
        self.strict.push_str(strict);
        self.stretches
            .push((Span::from(start..self.strict.len()), written));
    }

    pub(super) fn done(mut self, notes: &[String], is_head: bool) -> Strict {
        let compared = self.strict.clone();
        let notes: Vec<&str> = notes
            .iter()
            .map(|note| note.trim())
            .filter(|note| !note.is_empty())
            .collect();
        if !notes.is_empty() {
            self.strict.push_str(" // ");
            self.strict.push_str(&notes.join("; "));
        }
        Strict {
            compared,
            written: Written {
                strict: self.strict,
                stretches: self.stretches,
                is_head,
                unread: Vec::new(),
            },
        }
    }
}

/// The line of a key with its values.
pub(super) fn line(line: &str, key: &str, key_span: Span, placed: Placed, comment: Option<Span>) -> Strict {
    let mut writer = Writer::default();
    writer.add(key, key_span);
    for clause in &placed.clauses {
        if let Some(joint) = clause.joint {
            let start = clause
                .pieces
                .first()
                .map_or(key_span.end, |piece| piece.span.start);
            writer.add(joint.word(), Span::empty(start));
        }
        for piece in &clause.pieces {
            writer.add(&piece.strict, piece.span);
        }
    }
    if let Some(name) = &placed.name {
        writer.add(&format!("\"{}\"", name.strict), name.span);
    }
    let mut notes = joined(line, key_span, placed.notes);
    notes.extend(comment.map(|comment| comment.of(line).to_owned()));
    let mut strict = writer.done(&notes, false);
    strict.written.unread = placed.unread;
    strict
}

/// Whether a word only joins what stands on both sides of it.
fn joins(word: &str) -> bool {
    joint(word).is_some() || matches!(word, "a" | "an" | "the" | "and" | "by" | "for" | "from")
}

/// Notes in the order of their line; those between which only small words stand are one: `took most of the fish`.
fn joined(line: &str, key: Span, mut notes: Vec<Piece>) -> Vec<String> {
    in_order(&mut notes, |one, other| one.span.start.cmp(&other.span.start));
    let is_as_written = |note: &Piece| note.strict == note.span.of(line) && note.span != key;
    let mut joined: Vec<Piece> = Vec::new();
    for note in notes {
        let between = |last: &Piece| line.get(last.span.end as usize..note.span.start as usize);
        let is_small = |text: &str| text.split_whitespace().all(|word| joins(&fold(word)));
        match joined.last_mut() {
            Some(last)
                if is_as_written(last) && is_as_written(&note) && between(last).is_some_and(is_small) =>
            {
                last.span = last.span.to(note.span);
                last.strict = last.span.of(line).to_owned();
            }
            Some(_) | None => joined.push(note),
        }
    }
    joined.into_iter().map(|note| note.strict).collect()
}

/// Keeps the word that a part goes by, where the strict key is another.
pub(super) fn called(line: &str, key: &str, key_span: Span, placed: &mut Placed) {
    let written = key_span.of(line);
    let folded = fold(written);
    if folded == key {
        return;
    }
    match (key, &mut placed.name) {
        ("float", None) | ("line", None) if key == "float" || tells_how_it_lies(&folded) => {
            placed.name = Some(Piece {
                strict: folded.into_owned(),
                span: key_span,
            });
        }
        _ if folded.starts_with("dry") && matches!(key, "fly" | "dropper") => {
            let dry = Piece {
                strict: "dry".to_owned(),
                span: key_span,
            };
            let joint = (key == "dropper").then_some(crate::vocabulary::Joint::With);
            if let Some(own) = placed.clauses.iter_mut().find(|clause| clause.joint == joint) {
                let said = own.pieces.iter().any(|piece| piece.strict == "dry");
                let at = own
                    .pieces
                    .iter()
                    .take_while(|piece| !is_word(&piece.strict))
                    .count();
                if !said {
                    own.pieces.insert(at, dry);
                }
            }
        }
        ("water", _) if TELLS_WATER.contains(&&*folded) || TELLS_WARMTH.contains(&&*folded) => {}
        _ if !["then", "shots", "split shot"].contains(&&*folded) => placed.notes.insert(
            0,
            Piece {
                strict: folded.into_owned(),
                span: key_span,
            },
        ),
        _ => {}
    }
}

/// Whether a fly line goes by how it lies in the water.
fn tells_how_it_lies(folded: &str) -> bool {
    ["sink", "float", "intermediate"]
        .iter()
        .any(|word| folded.starts_with(word))
}

/// Whether a value of a fly is said of it behind its hook and bead.
fn is_word(strict: &str) -> bool {
    use super::phrases::{Says, TRADE};
    let said =
        |row: &&super::phrases::Row| matches!(row.says, Says::Fly | Says::Colour) && row.strict == strict;
    TRADE.iter().any(|row| said(&row))
}

/// What a line says without its spaces and commas, for comparing it with a strict one.
pub(super) fn squeezed(said: &str) -> String {
    let plain = fold(said.trim_end_matches(|c: char| is_space(c) || c == '.'));
    plain.chars().filter(|c| !is_space(*c) && *c != ',').collect()
}
