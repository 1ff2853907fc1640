//! The reader of a line's atoms: where it is, what lies ahead, and what it has found.

use super::atoms::{Atom, Look};
use super::item::{Item, Kind};
use super::phrases::Says;
use super::trade::Part;
use crate::words::fold;
use std::borrow::Cow;

pub(super) struct Reader<'a> {
    pub(super) line: &'a str,
    pub(super) atoms: &'a [Atom],
    pub(super) at: usize,
    pub(super) part: Part,
    pub(super) in_bracket: bool,
    pub(super) found: Vec<Item>,
}

impl<'a> Reader<'a> {
    pub(super) const fn new(line: &'a str, atoms: &'a [Atom], part: Part, in_bracket: bool) -> Self {
        Self {
            line,
            atoms,
            at: 0,
            part,
            in_bracket,
            found: Vec::new(),
        }
    }

    /// All that the atoms say. Nothing where a sign has no sense here.
    pub(super) fn read(mut self) -> Option<Vec<Item>> {
        while self.at < self.atoms.len() {
            self.item()?;
        }
        Some(self.done())
    }

    /// What was found, where all of it says what each is.
    pub(super) fn done(mut self) -> Vec<Item> {
        hook_by_number(&mut self.found, self.part);
        part_by_plus(&mut self.found);
        self.found
    }

    pub(super) fn of(&self, atom: Atom) -> &'a str {
        atom.span.of(self.line)
    }

    pub(super) fn get(&self, ahead: usize) -> Option<Atom> {
        self.atoms.get(self.at + ahead).copied()
    }

    pub(super) fn sign(&self, ahead: usize, signs: &[char]) -> bool {
        matches!(self.get(ahead), Some(Atom { look: Look::Sign(sign), .. }) if signs.contains(&sign))
    }

    pub(super) fn word(&self, ahead: usize) -> Option<Cow<'a, str>> {
        let atom = self.get(ahead).filter(|atom| atom.look == Look::Word)?;
        Some(fold(self.of(atom)))
    }

    pub(super) fn is_number(&self, ahead: usize) -> bool {
        self.get(ahead).is_some_and(|atom| atom.look == Look::Number)
    }

    pub(super) fn push(&mut self, kind: Kind, atoms: usize, strict: Option<String>) {
        let (first, last) = (self.atoms[self.at], self.atoms[self.at + atoms - 1]);
        let span = first.span.to(last.span);
        self.found.push(Item {
            kind,
            span,
            strict: strict.unwrap_or_else(|| span.of(self.line).to_owned()),
            about: false,
        });
        self.at += atoms;
    }

    pub(super) fn item(&mut self) -> Option<()> {
        let atom = self.atoms[self.at];
        match atom.look {
            Look::Number => self.quantity(),
            Look::Text(inner) => {
                self.push(Kind::Text, 1, Some(inner.of(self.line).trim().to_owned()));
                Some(())
            }
            Look::Word => self.words(),
            Look::Sign(sign) => self.signs(sign),
        }
    }

    /// A size: the number behind so many atoms.
    pub(super) fn hook(&mut self, before: usize) -> Option<()> {
        let digits = self.get(before).filter(|atom| atom.look == Look::Number)?;
        let size = self.of(digits);
        let (whole, zero) = size.split_once('/').unwrap_or((size, "0"));
        if zero != "0" || !whole.bytes().all(|byte| byte.is_ascii_digit()) {
            return None;
        }
        self.push(Kind::Hook, before + 1, Some(format!("#{size}")));
        Some(())
    }
}

/// `4 ft + 5X fluoro`: what cannot be put together is parted.
fn part_by_plus(found: &mut [Item]) {
    for at in 1..found.len().saturating_sub(1) {
        let (before, behind) = (&found[at - 1], &found[at + 1]);
        let lengths = [before, behind].map(|item| matches!(item.kind, Kind::Length(_)));
        let says = before.is_quantity()
            || matches!(
                before.says(),
                Some(Says::Line | Says::Bead | Says::Build | Says::Knot)
            );
        let value = matches!(behind.kind, Kind::Free | Kind::Word(_)) || behind.is_quantity();
        if found[at].kind == Kind::And && says && value && lengths != [true, true] {
            found[at].kind = Kind::Comma;
        }
    }
}

/// A plain number on a fly that shows no other hook is its size: `16 perdigon`.
fn hook_by_number(found: &mut [Item], part: Part) {
    let bare = |item: &Item| item.kind == Kind::Bare;
    let has_hook = found.iter().any(|item| item.kind == Kind::Hook);
    if !part.is_fly() || has_hook || found.iter().filter(|item| bare(item)).count() != 1 {
        return;
    }
    // Hooks go by even numbers. Source: common practice, no source.
    let size = |written: &str| {
        written
            .parse::<u8>()
            .is_ok_and(|size| size % 2 == 0 && (4..=28).contains(&size))
    };
    if let Some(item) = found.iter_mut().find(|item| bare(item) && size(&item.strict)) {
        item.kind = Kind::Hook;
        item.strict = format!("#{}", item.strict);
    }
}

impl Part {
    /// Whether it is a piece of line, or may say of what its tag is.
    pub(super) const fn is_line(self) -> bool {
        matches!(self, Self::Piece | Self::Line | Self::Dropper)
    }
}
