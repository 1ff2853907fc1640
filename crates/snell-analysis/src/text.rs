//! One text read into pieces: each block with all lines up to the next, and the
//! lines before the first.
//!
//! Within a piece all places count from its start, so that it stays as it is
//! when the text above it changes. A keystroke reads the pieces around it anew;
//! the others are those of the state before.

use crate::document::{Document, Kind};
use snell_finding::Finding;
use snell_rig::content::{File, Placed, SharedBlock};
use snell_syntax::{Block, Line, Reader, Rest, UseLine};
use snell_text::{Place, Span, TextId};
use snell_units::in_order;
use std::sync::Arc;

/// A text that was read.
#[derive(Debug)]
pub(crate) struct Text {
    pub(crate) kind: Kind,
    pub(crate) text: Arc<str>,
    /// How many files are in it: a page may have several.
    files: usize,
    /// In the order of the text, each with its start.
    pieces: Vec<(u32, Arc<Piece>)>,
}

/// A piece of a text with what was read of it; its places count from its start, and lie in no text yet.
#[derive(Debug)]
struct Piece {
    /// Which of the files in the text it belongs to.
    file: usize,
    length: u32,
    block: Option<Placed>,
    uses: Vec<UseLine>,
    /// Comments and broken lines.
    rest: Vec<Rest>,
    findings: Vec<Finding>,
    /// Whether a line of it is indented.
    indented: bool,
}

/// The pieces of a text that is read in parts are no more than this, with so many faults at the most and so many lines
/// in one block: what a whole reading leaves out, a reading in parts would not.
const MOST_PIECES: usize = 10_000;
const MOST_FAULTS: usize = 1_000;
const MOST_LINES: usize = 1_000;

impl Text {
    /// Reads all of a document.
    pub(crate) fn read(document: &Document, reader: &mut Reader) -> Self {
        let text = &document.text;
        let passages = document.files();
        let mut pieces = Vec::new();
        for (number, passages) in passages.iter().enumerate() {
            let file = reader.read(text, TextId::default(), passages);
            pieces.extend(cut(text, number, file, passages));
        }
        in_order(&mut pieces, |(one, _), (other, _)| one.cmp(other));
        Self {
            kind: document.kind,
            text: text.clone(),
            files: passages.len(),
            pieces,
        }
    }

    /// Reads the next state of the text, as far as can be by what was read of this one.
    pub(crate) fn next(&self, document: &Document, reader: &mut Reader) -> Self {
        self.in_part(document, reader)
            .unwrap_or_else(|| Self::read(document, reader))
    }

    /// Only the pieces around the bytes that differ; nothing where that will not do. A page is read whole: what is a
    /// fence hangs on all lines before.
    fn in_part(&self, document: &Document, reader: &mut Reader) -> Option<Self> {
        let text = &document.text;
        if self.kind != Kind::Rig || document.kind != Kind::Rig || !self.may_be_read_in_part() {
            return None;
        }
        let (from, to) = differing(&self.text, text);
        let touched = |(start, piece): &(u32, Arc<Piece>)| *start <= to && from <= start + piece.length;
        let first = self.pieces.iter().position(touched)?;
        let last = self.pieces.iter().rposition(touched)?;
        // A line that opened a block may not do so any more: then its lines fall to the block above. And words that open the
        // first block are its title only where nothing above them says more.
        let opens = self.pieces.iter().position(|(_, piece)| piece.block.is_some());
        let last = opens
            .filter(|opens| first <= *opens)
            .map_or(last, |opens| last.max(opens));
        let at = first.saturating_sub(1)..last + 1;
        let moved = text.len() as i64 - self.text.len() as i64;
        let start = self.pieces[at.start].0;
        let end = self.pieces[last].0 + self.pieces[last].1.length;
        let part = Span::new(start, shifted(end, moved));
        let lines: Vec<Span> = snell_text::lines(part.of(text))
            .map(|line| line.shifted(start))
            .collect();
        let file = reader.read_part(text, TextId::default(), &lines);
        let mut pieces = self.pieces[..at.start].to_vec();
        pieces.extend(cut(text, 0, file, &[lines]));
        let behind = self.pieces[at.end..].iter();
        pieces.extend(behind.map(|(start, piece)| (shifted(*start, moved), piece.clone())));
        let next = Self {
            kind: self.kind,
            text: text.clone(),
            files: self.files,
            pieces,
        };
        next.may_be_read_in_part().then_some(next)
    }

    /// A text without indent is read by its paragraphs, and a long one only up to its limits.
    fn may_be_read_in_part(&self) -> bool {
        let lines = |piece: &Piece| piece.block.as_ref().map_or(0, |placed| placed.block.lines());
        let pieces = || self.pieces.iter().map(|(_, piece)| piece);
        self.pieces.len() < MOST_PIECES
            && pieces().any(|piece| piece.indented)
            && pieces().map(|piece| piece.findings.len()).sum::<usize>() < MOST_FAULTS
            && pieces().all(|piece| lines(piece) < MOST_LINES)
    }

    /// The files in the text, placed in it, with the faults of reading.
    pub(crate) fn files(&self, id: TextId) -> Vec<File> {
        let mut files: Vec<File> = Vec::new();
        files.resize_with(self.files, || File {
            text: id,
            ..File::default()
        });
        for (start, piece) in &self.pieces {
            let file = &mut files[piece.file];
            file.blocks.extend(piece.block.as_ref().map(|placed| Placed {
                start: start + placed.start,
                block: placed.block.clone(),
            }));
            file.uses.extend(piece.uses.iter().map(|used| UseLine {
                line: Line {
                    offset: used.line.offset + start,
                    ..used.line.clone()
                },
                path: used.path,
            }));
            file.rest.extend(piece.rest.iter().map(|line| Rest {
                offset: line.offset + start,
                tokens: line.tokens.clone(),
            }));
            file.findings.extend(piece.findings.iter().map(|finding| {
                let mut finding = finding.clone();
                finding.each_place(&mut |place| *place = Place::new(id, place.span.shifted(*start)));
                finding
            }));
        }
        files
    }
}

fn shifted(at: u32, by: i64) -> u32 {
    (i64::from(at) + by) as u32
}

/// The pieces of one file of a text. `passages` are its lines, as they were read.
fn cut(
    text: &str,
    number: usize,
    file: snell_syntax::File,
    passages: &[Vec<Span>],
) -> Vec<(u32, Arc<Piece>)> {
    let mut pieces: Vec<(u32, Piece)> = Vec::with_capacity(file.blocks.len() + passages.len());
    let mut blocks = file.blocks.into_iter().peekable();
    for lines in passages {
        let (Some(first), Some(last)) = (lines.first(), lines.last()) else {
            continue;
        };
        let passage = Span::new(line_start(text, first.start), line_end(text, last.end));
        let mut from = passage.start;
        let mut open: Option<Block> = None;
        let mut push = |span: Span, block: Option<Block>| {
            if span.is_empty() {
                return;
            }
            let block = block.map(|block| {
                let (start, block) = SharedBlock::new(text, block);
                Placed {
                    start: start - span.start,
                    block: Arc::new(block),
                }
            });
            let piece = Piece {
                file: number,
                length: span.len(),
                block,
                uses: Vec::new(),
                rest: Vec::new(),
                findings: Vec::new(),
                indented: false,
            };
            pieces.push((span.start, piece));
        };
        while let Some(block) = blocks.next_if(|block| block.offset < passage.end) {
            let start = line_start(text, block.offset);
            // Lines before the first block that are of none belong to the block that they make.
            let of_first_line = block.body.first().is_some_and(|line| line.offset == block.offset);
            if block.head.is_some() || !of_first_line || open.is_some() {
                push(Span::new(from, start), open.take());
                from = start;
            }
            open = Some(block);
        }
        push(Span::new(from, passage.end), open);
    }
    for line in passages.iter().flatten() {
        if let Some((_, piece)) = holder(&mut pieces, line.start) {
            piece.indented =
                piece.indented || !snell_syntax::has_lost_indent(text, std::slice::from_ref(line));
        }
    }
    for mut used in file.uses {
        if let Some((start, piece)) = holder(&mut pieces, used.line.offset) {
            used.line.offset -= *start;
            piece.uses.push(used);
        }
    }
    for mut line in file.rest {
        if let Some((start, piece)) = holder(&mut pieces, line.offset) {
            line.offset -= *start;
            piece.rest.push(line);
        }
    }
    for mut finding in file.findings {
        if let Some((start, piece)) = holder(&mut pieces, finding.place().span.start) {
            let back = |at: u32| at.saturating_sub(*start);
            finding.each_place(&mut |place| {
                place.span = Span::new(back(place.span.start), back(place.span.end))
            });
            piece.findings.push(finding);
        }
    }
    pieces
        .into_iter()
        .map(|(start, piece)| (start, Arc::new(piece)))
        .collect()
}

fn holder(pieces: &mut [(u32, Piece)], at: u32) -> Option<&mut (u32, Piece)> {
    let index = pieces.partition_point(|(start, _)| *start <= at).checked_sub(1)?;
    pieces.get_mut(index)
}

fn line_start(text: &str, at: u32) -> u32 {
    let before = &text.as_bytes()[..at as usize];
    memchr::memrchr2(b'\n', b'\r', before).map_or(0, |end| end as u32 + 1)
}

/// The end of a line with its line end.
fn line_end(text: &str, at: u32) -> u32 {
    let bytes = text.as_bytes();
    let Some(length) = memchr::memchr2(b'\n', b'\r', &bytes[at as usize..]) else {
        return bytes.len() as u32;
    };
    let end = at as usize + length;
    let pair = bytes[end] == b'\r' && bytes.get(end + 1) == Some(&b'\n');
    end as u32 + if pair { 2 } else { 1 }
}

/// The bytes of the old text, from and to, that are not as in the new one.
fn differing(old: &str, new: &str) -> (u32, u32) {
    let (old, new) = (old.as_bytes(), new.as_bytes());
    let ahead = common(old, new);
    let shorter = old.len().min(new.len()) - ahead;
    let behind = common_end(&old[old.len() - shorter..], &new[new.len() - shorter..]);
    (ahead as u32, (old.len() - behind) as u32)
}

/// Long stretches are compared as wholes first, which is far quicker than byte by byte.
const STRETCH: usize = 4096;

fn common(one: &[u8], other: &[u8]) -> usize {
    let stretches = one.chunks_exact(STRETCH).zip(other.chunks_exact(STRETCH));
    let start = stretches.take_while(|(one, other)| one == other).count() * STRETCH;
    let rest = one[start..].iter().zip(&other[start..]);
    start + rest.take_while(|(one, other)| one == other).count()
}

fn common_end(one: &[u8], other: &[u8]) -> usize {
    let stretches = one.rchunks_exact(STRETCH).zip(other.rchunks_exact(STRETCH));
    let end = stretches.take_while(|(one, other)| one == other).count() * STRETCH;
    let rest = one[..one.len() - end]
        .iter()
        .rev()
        .zip(other[..other.len() - end].iter().rev());
    end + rest.take_while(|(one, other)| one == other).count()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_alike_on_both_sides_is_left_out() {
        assert_eq!(differing("abc", "abXc"), (2, 2));
        assert_eq!(differing("aaa", "aa"), (2, 3));
        assert_eq!(differing("", "x"), (0, 0));
        let long = "line\n".repeat(STRETCH);
        let mut typed = long.clone();
        typed.insert(9000, 'x');
        assert_eq!(differing(&long, &typed), (9000, 9000));
    }

    /// A state of a text, read whole and by way of another, says the same.
    #[test]
    fn a_text_read_in_parts_is_as_one_read_whole() {
        let rig =
            |name: &str| format!("// of {name}\nrig {name}\n  tippet 20 in of 6X fluoro\n  point #14\n\n");
        let before: String = ["a", "b", "c", "d"].map(rig).concat();
        let document = |text: &str| Document::new(TextId(0), "a.rig".into(), Kind::Rig, Arc::from(text));
        let told = |text: &Text| format!("{:?}", text.files(TextId(0)));
        for (from, to, new) in [
            (30, 30, "x"),
            (0, 5, ""),
            (70, 200, "\n"),
            (3, 190, "rig"),
            (200, 200, "  shot\n"),
        ] {
            let mut reader = Reader::new();
            let first = Text::read(&document(&before), &mut reader);
            let mut after = before.clone();
            after.replace_range(from..to, new);
            let next = first.next(&document(&after), &mut reader);
            assert_eq!(
                told(&next),
                told(&Text::read(&document(&after), &mut Reader::new())),
                "{after}"
            );
            let back = next.next(&document(&before), &mut reader);
            assert_eq!(told(&back), told(&first));
        }
    }
}
