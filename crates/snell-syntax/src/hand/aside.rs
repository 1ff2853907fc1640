//! What stands behind two dashes, where it begins with a value of the line.

use super::atoms::{self, Atom, Look};
use super::item;
use super::items;
use super::opening::Opened;
use super::phrases;
use snell_text::Span;

/// An aside such as `-- loop to loop on the fly line` begins with a value of the line; what is left of it is a comment.
pub(super) fn behind_knot(line: &str, aside: Span, opened: &Opened, atoms: &mut Vec<Atom>) -> Option<Span> {
    let (part, values) = (opened.part, &atoms[opened.atoms..]);
    let own = atoms::atoms(aside.of(line))
        .map(|own| own.atoms)
        .unwrap_or_default();
    let own: Vec<Atom> = own
        .into_iter()
        .map(|atom| Atom {
            look: match atom.look {
                Look::Text(inner) => Look::Text(inner.shifted(aside.start)),
                look @ (Look::Number | Look::Word | Look::Sign(_)) => look,
            },
            span: atom.span.shifted(aside.start),
            ..atom
        })
        .collect();
    let Some(start) = own.first().map(|first| first.span.start) else {
        return Some(aside);
    };
    let together: Vec<Atom> = values.iter().chain(&own).copied().collect();
    let items = items::items(line, &together, part).unwrap_or_default();
    let says = |says: phrases::Says| move |item: &item::Item| item.says() == Some(says);
    let has_line = items
        .iter()
        .any(|item| item.span.start < aside.start && says(phrases::Says::Line)(item));
    // What the line is made of stands there only where nothing has said it.
    let is_knot = |item: &&item::Item| {
        let is_line = part.is_line() && !has_line && says(phrases::Says::Line)(item);
        item.span.start == start && (is_line || says(phrases::Says::Knot)(item))
    };
    let Some(end) = items.iter().find(is_knot).map(|knot| knot.span.end) else {
        return Some(aside);
    };
    atoms.extend(own.into_iter().filter(|atom| atom.span.end <= end));
    let rest = Span::new(end, aside.end).of(line);
    let left = rest.trim_start_matches([',', ';', ' ']);
    (!left.is_empty()).then(|| Span::new(aside.end - left.len() as u32, aside.end))
}
