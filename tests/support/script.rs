//! What an editor sends of somebody who types: notifications of one or more
//! edits, placed by line and column in the editor's encoding, and the text that
//! each should leave.
//!
//! Lines and columns are counted here letter by letter, apart from how the
//! program counts them.

use crate::{Stroke, Typist};
use snell_analysis::Kind;
use snell_text::{Encoding, Position};

/// An edit as an editor tells it: between two places, or of the whole text.
#[derive(Clone, Debug)]
pub struct Edit {
    /// First and last place, or the other way round.
    pub places: Option<(Position, Position)>,
    /// What comes.
    pub new: String,
}

/// A text that is opened and typed in.
#[derive(Clone, Debug)]
pub struct Script {
    /// The text as it is opened.
    pub first: String,
    /// Each notification with the text that it leaves.
    pub notes: Vec<(Vec<Edit>, String)>,
}

/// One in so many scripts is typed in a long text.
const LONG: u64 = 40;

impl Script {
    /// The script with a number.
    pub fn new(number: u64, kind: Kind, encoding: Encoding) -> Self {
        let mut typist = Typist::new(number);
        let long = number % LONG == LONG - 1;
        let first = text(&mut typist, kind, if long { 400 } else { 24 });
        let mut now = first.clone();
        let mut notes = Vec::new();
        for _ in 0..1 + typist.below(4) {
            let mut edits = Vec::new();
            for _ in 0..[1, 1, 2, 4][typist.below(4)] {
                let stroke = match typist.below(14) {
                    0 => Stroke {
                        place: None,
                        new: text(&mut typist, kind, 16),
                    },
                    _ => between_ends(typist.stroke(&now), &now),
                };
                let places = stroke
                    .place
                    .as_ref()
                    .map(|place| places(&mut typist, &now, place, encoding));
                now = stroke.made(&now);
                edits.push(Edit {
                    places,
                    new: stroke.new,
                });
            }
            notes.push((edits, now.clone()));
        }
        Self { first, notes }
    }

    /// The text that is left in the end.
    pub fn last(&self) -> &str {
        self.notes.last().map_or(&self.first, |(_, text)| text)
    }
}

fn text(typist: &mut Typist, kind: Kind, most: usize) -> String {
    match kind {
        Kind::Rig => typist.lines(most),
        Kind::Page(_) | Kind::Published => typist.page(most / 2),
    }
}

/// No editor can point between the two letters of one line end.
fn between_ends(stroke: Stroke, text: &str) -> Stroke {
    let off = |at: usize| {
        let torn = text[..at].ends_with('\r') && text[at..].starts_with('\n');
        at - usize::from(torn)
    };
    let place = stroke.place.map(|place| off(place.start)..off(place.end));
    Stroke { place, ..stroke }
}

/// The two places of a stroke; now and then the last one first, as some editors tell a selection that was
/// made backwards.
fn places(
    typist: &mut Typist,
    text: &str,
    place: &std::ops::Range<usize>,
    encoding: Encoding,
) -> (Position, Position) {
    let from = position(typist, text, place.start, encoding);
    let to = position(typist, text, place.end, encoding);
    if typist.below(8) == 0 {
        (to, from)
    } else {
        (from, to)
    }
}

/// A place as an editor tells it; sometimes past the end of its line, or within a letter of several units,
/// which mean the line's end and the letter's start.
fn position(typist: &mut Typist, text: &str, at: usize, encoding: Encoding) -> Position {
    let width = |letter: char| match encoding {
        Encoding::Utf8 => letter.len_utf8(),
        Encoding::Utf16 => letter.len_utf16(),
        Encoding::Utf32 => 1,
    };
    let (mut line, mut column) = (0, 0);
    let mut before = text[..at].chars().peekable();
    while let Some(letter) = before.next() {
        let ends = letter == '\n' || letter == '\r' && before.peek() != Some(&'\n');
        if ends {
            (line, column) = (line + 1, 0);
        } else {
            column += width(letter);
        }
    }
    if typist.below(6) == 0 {
        match text[at..].chars().next() {
            None | Some('\n' | '\r') => column += 1 + typist.below(1000),
            Some(letter) => column += width(letter) - 1,
        }
    }
    Position {
        line,
        column: column as u32,
    }
}
