//! Signs in a line: those that part phrases, those that join values, and brackets.

use super::atoms::{Look, is_full_stop};
use super::item::{Item, Kind};
use super::reader::Reader;
use super::slip;
use super::trade::Part;
use super::trade::joint;
use crate::vocabulary::Joint;

impl Reader<'_> {
    pub(super) fn signs(&mut self, sign: char) -> Option<()> {
        match sign {
            '#' if self.part == Part::Shot => return self.shot_number(1),
            '#' => return self.hook(1),
            '(' | '[' => return self.bracket(),
            '~' if self.is_number(1) => return self.about(1),
            ',' | ';' | '|' => self.push(Kind::Comma, 1, None),
            // `bob flj:` is a key that has slipped.
            ':' if self.part.is_fly()
                && matches!(self.found.as_slice(), [only] if only.kind == Kind::Free) =>
            {
                return None;
            }
            ':' if self.at > 0 => self.push(Kind::Comma, 1, None),
            // Between spaces: close to a number it would be a minus.
            '-' | '–' | '—' if !self.atoms[self.at].glued && self.get(1).is_some_and(|next| !next.glued) =>
            {
                self.push(Kind::Comma, 1, None);
            }
            // Between spaces it parts phrases, and colours as well.
            '/' if !self.atoms[self.at].glued
                && self.get(1).is_some_and(|next| !next.glued)
                && self.word(1).is_none_or(|word| joint(&word).is_none()) =>
            {
                self.push(Kind::Comma, 1, None);
            }
            '+' | '&' | '/' => self.push(Kind::And, 1, None),
            '@' => self.push(Kind::Joining(Joint::At), 1, None),
            '×' | '*' if self.part == Part::Shot && self.is_number(1) => return self.times(1),
            '×' | '*' => self.at += 1,
            // `2.5 mm?`
            '?' if self.atoms[self.at].glued => {
                self.found.last_mut()?.about = true;
                self.at += 1;
            }
            '.' if self.at + 1 == self.atoms.len() => self.at += 1,
            '.' if is_full_stop(self.atoms, self.at) => self.push(Kind::Comma, 1, None),
            _ => return None,
        }
        Some(())
    }

    /// A bracket holds values where all of it is known, else it is a note.
    fn bracket(&mut self) -> Option<()> {
        let mut depth = 0;
        let close = (self.at..self.atoms.len()).find(|at| {
            match self.atoms[*at].look {
                Look::Sign('(' | '[') => depth += 1,
                Look::Sign(')' | ']') => depth -= 1,
                Look::Number | Look::Word | Look::Text(_) | Look::Sign(_) => {}
            }
            depth == 0
        })?;
        let inner = &self.atoms[self.at + 1..close];
        let (first, last) = (inner.first()?, inner.last()?);
        let span = first.span.to(last.span);
        let known = Reader::new(self.line, inner, self.part, true)
            .read()
            .filter(|items| {
                // A word among values that is none may be a slip of one, which is asked; among other words it is prose.
                let free = items.iter().filter(|item| !item.is_known()).count();
                let words = items.iter().filter(|item| item.says().is_some()).count();
                let slips = |item: &Item| {
                    item.kind == Kind::Free && slip::check(self.line, self.part, item.span).is_err()
                };
                let one_slips = words > 0 && items.iter().any(slips);
                free == 0
                    || (free == 1 || one_slips)
                        && words > 0
                        && items
                            .iter()
                            .all(|item| item.is_known() || item.kind == Kind::Free)
            });
        let known = known.filter(|items| !says_again(self.found.last(), items));
        match known {
            Some(items) => {
                self.found.extend(items);
                // No name reaches out of the bracket.
                self.at = close;
                self.push(Kind::Comma, 1, None);
                return Some(());
            }
            None => self.found.push(Item {
                kind: Kind::Note,
                span,
                strict: span.of(self.line).to_owned(),
                about: false,
            }),
        }
        self.at = close + 1;
        Some(())
    }

    pub(super) fn about(&mut self, words: usize) -> Option<()> {
        let before = self.found.len();
        self.at += words;
        if self.is_number(0) {
            self.quantity()?;
        } else {
            self.in_words()?;
        }
        if let Some(item) = self.found.get_mut(before) {
            item.about = true;
        }
        Some(())
    }
}

/// `15 ft (4.5 m)`: the length before it in another unit, as near as people round.
fn says_again(before: Option<&Item>, within: &[Item]) -> bool {
    const ROUNDED: f64 = 0.05;
    let length = |item: &Item| {
        if let Kind::Length(si) = item.kind {
            Some(si)
        } else {
            None
        }
    };
    let [only] = within else { return false };
    let said = before.and_then(length).zip(length(only));
    said.is_some_and(|(said, again)| (said - again).abs() <= ROUNDED * said)
}
