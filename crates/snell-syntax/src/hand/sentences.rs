//! A line that its author wrote as a sentence: `the tippet below that is two feet of 5X, and then`.

use super::atoms::Look;
use super::item::{Item, Kind};
use super::phrases::Says;
use super::reader::Reader;

/// Verbs behind which the values of a part stand.
const VERBS: &[&str] = &[
    "is",
    "are",
    "was",
    "were",
    "goes",
    "runs",
    "carries",
    "continues",
    "measures",
    "hang",
    "hangs",
    "add",
    "adds",
    "tie",
    "use",
    "put",
];

/// Small words between such a verb and the values.
const BEHIND_VERB: &[&str] = &["on", "for", "then", "now", "just", "only", "in"];

/// Words that lead to the next line, first of all and behind others.
const LEADING_ON: &[&str] = &["and", "then", "so", "into"];
const LED_ON: &[&str] = &[
    "and", "then", "so", "into", "that", "which", "it", "runs", "goes", "to", "next", "the",
];

/// Whether a word is a verb behind which the values stand.
pub(super) fn is_verb(word: &str) -> bool {
    VERBS.contains(&word)
}

impl Reader<'_> {
    /// A verb before all values. What stands before it says which part it is, and is told in words.
    pub(super) fn verb(&mut self, word: &str) -> bool {
        let is_open = |item: &Item| {
            matches!(
                item.kind,
                Kind::Free | Kind::Joining(_) | Kind::And | Kind::Note | Kind::Comma
            ) || matches!(
                item.says(),
                Some(Says::Bend | Says::Filler | Says::OfWater | Says::OfReel)
            )
        };
        if !is_verb(word) || !self.found.iter().all(is_open) {
            return false;
        }
        let told: Vec<usize> = (0..self.found.len())
            .filter(|at| self.found[*at].says() != Some(Says::Bend))
            .collect();
        if let (Some(first), Some(last)) = (told.first(), told.last()) {
            let span = self.found[*first].span.to(self.found[*last].span);
            let bends = self.found.iter().any(|item| item.says() == Some(Says::Bend));
            self.found.retain(|item| item.says() == Some(Says::Bend));
            if !bends {
                self.found.push(Item {
                    kind: Kind::Note,
                    span,
                    strict: span.of(self.line).to_owned(),
                    about: false,
                });
            }
        }
        self.at += 1;
        while self.word(0).is_some_and(|word| BEHIND_VERB.contains(&&*word)) {
            self.at += 1;
        }
        true
    }

    /// `…, and then`, `…, and that runs to`: how many atoms at the line's end only lead to the next line.
    pub(super) fn leads_on(&self, word: &str) -> Option<usize> {
        let rest = &self.atoms[self.at..];
        let leads = |at: usize| match rest[at].look {
            Look::Word => self.word(at).is_some_and(|word| LED_ON.contains(&&*word)),
            Look::Sign(sign) => matches!(sign, ',' | '.' | ';'),
            Look::Number | Look::Text(_) => false,
        };
        let is_end = LEADING_ON.contains(&word) && (0..rest.len()).all(leads);
        (is_end && !self.found.is_empty()).then_some(rest.len())
    }
}
