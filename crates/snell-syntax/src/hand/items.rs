//! What the atoms of a line say, each told by its look: a length, a size, a colour, a knot, or a free word.

use super::atoms::Atom;
use super::item::{Item, Kind};
use super::reader::Reader;
use super::trade::Part;
use snell_text::Span;

/// Reads the atoms of a line whose key says which values it takes. Nothing where a sign has no sense here.
pub(super) fn items(line: &str, atoms: &[Atom], part: Part) -> Option<Vec<Item>> {
    Reader::new(line, atoms, part, false).read()
}

/// The same where what has no sense is left unread, as a note. With the places of what is.
pub(super) fn items_in_part(line: &str, atoms: &[Atom], part: Part) -> (Vec<Item>, Vec<Span>) {
    let mut reader = Reader::new(line, atoms, part, false);
    let mut unread = Vec::new();
    while reader.at < atoms.len() {
        let (at, found) = (reader.at, reader.found.len());
        if reader.item().is_none() {
            reader.at = at;
            reader.found.truncate(found);
            let glued = atoms[at + 1..].iter().take_while(|atom| atom.glued).count();
            reader.push(Kind::Note, 1 + glued, None);
            unread.extend(reader.found.last().map(|item| item.span));
        }
    }
    (reader.done(), unread)
}
