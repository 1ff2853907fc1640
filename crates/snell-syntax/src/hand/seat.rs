//! How far a shot or a float sits over what lies lower on the line: `4 ft above the fly`, `8 in up from the point`.

use super::atoms::Look;
use super::item::Kind;
use super::reader::Reader;
use super::trade::Part;
use crate::vocabulary::Joint;
use std::borrow::Cow;

/// What a shot or a float is said to sit over, as the strict line has it, and how anglers write it. The words are common
/// practice, and for none of them is there a source.
#[rustfmt::skip]
const OVER: &[(&str, &[&str])] = &[
    ("point", &["point", "point fly", "point nymph", "bottom fly", "bottom nymph", "bottom bug", "btm fly", "btm bug", "tail", "tail fly", "end fly", "last fly", "anchor", "anchor fly"]),
    ("fly", &["fly", "t'fly", "nymph", "bug", "hook", "top fly", "top nymph", "top bug", "first fly", "first nymph", "next fly", "upper fly", "upper nymph", "streamer", "lure"]),
    ("dropper", &["dropper", "dropper knot", "top dropper", "bob", "bob fly"]),
    ("shot", &["shot", "split shot", "weight"]),
];

/// The most words that one of them is written with.
const LONGEST: usize = 2;

/// Words that stand before what it sits over.
const ARTICLES: &[&str] = &["the", "my", "your", "t"];

impl Reader<'_> {
    /// What stands so far ahead, behind a length: over what, and how many atoms say it.
    fn over(&self, ahead: usize) -> Option<(&'static str, usize)> {
        let word = |at: usize| self.word(at);
        let first = word(ahead)?;
        let mut at = ahead + 1;
        match (&*first, word(at).as_deref()) {
            ("up", Some("from" | "above" | "abv")) => at += 1,
            ("up", None) if self.ends(at) => return Some(("fly", at)),
            ("above" | "abv" | "over" | "from" | "off", _) => {}
            _ => return None,
        }
        if word(at).is_some_and(|word| ARTICLES.contains(&&*word)) {
            at += 1;
        }
        (1..=LONGEST).rev().find_map(|count| {
            let words: Option<Vec<Cow<'_, str>>> = (at..at + count).map(word).collect();
            let words = words?.join(" ");
            let (strict, _) = OVER.iter().find(|(_, written)| written.contains(&&*words))?;
            self.ends(at + count).then_some((*strict, at + count))
        })
    }

    /// Whether a phrase ends so far ahead.
    fn ends(&self, ahead: usize) -> bool {
        self.get(ahead).is_none_or(|atom| {
            matches!(
                atom.look,
                Look::Text(_) | Look::Sign(',' | ';' | '|' | '(' | ')' | '.')
            )
        })
    }

    /// A length of so many atoms as a seat, where what it is over is said or `at` stands before it.
    pub(super) fn seat(&mut self, strict: &str, atoms: usize) -> Option<()> {
        if !matches!(self.part, Part::Shot | Part::Float) {
            return None;
        }
        let is_at = self
            .found
            .last()
            .is_some_and(|last| last.kind == Kind::Joining(Joint::At));
        match self.over(atoms) {
            Some((over, whole)) => self.push(Kind::Seat(Some(over)), whole, Some(strict.to_owned())),
            None if is_at && self.ends(atoms) => {
                self.push(Kind::Seat(None), atoms, Some(strict.to_owned()));
            }
            None => return None,
        }
        Some(())
    }
}
