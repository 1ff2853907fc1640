//! The open texts as they are typed: each with its version, and the edits of
//! one notification made in order.
//!
//! It looks at no word of them.

use snell_analysis::Kind;
use snell_finding::Limit;
use snell_text::{Encoding, LineIndex, Position, Span};
use std::collections::BTreeMap;
use std::path::PathBuf;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

/// The largest text that is followed, in bytes: far larger than any that is read. No message is larger, but
/// many could make one that is.
const LARGEST: usize = Limit::OpenText.count();

/// One state of an open text.
#[derive(Clone, Debug)]
pub struct Open {
    /// Its path; a text that stands nowhere has one made of its address.
    pub path: PathBuf,
    /// What kind of text it is.
    pub kind: Kind,
    /// The editor's number for this state.
    pub version: i32,
    /// The text.
    pub text: Arc<str>,
    /// Its lines.
    pub index: Arc<LineIndex>,
    /// Counts the states of all texts, so that a text that was closed and opened again is another one.
    pub state: u64,
}

/// An edit as an editor tells it; without places the whole text is replaced.
#[derive(Clone, Debug)]
pub struct Change {
    /// First and last position, in the order written.
    pub places: Option<(Position, Position)>,
    /// What comes.
    pub new: String,
}

/// The open texts by their address.
#[derive(Default)]
pub struct Texts {
    open: Mutex<Shelf>,
}

#[derive(Default)]
struct Shelf {
    by_address: BTreeMap<String, Open>,
    states: u64,
}

impl Shelf {
    fn next(&mut self) -> u64 {
        self.states += 1;
        self.states
    }
}

impl Texts {
    /// A thread that panicked leaves whole texts behind, so they can still be used.
    fn shelf(&self) -> MutexGuard<'_, Shelf> {
        self.open.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// Opens a text.
    pub fn open(&self, address: &str, path: PathBuf, kind: Kind, version: i32, text: String) {
        let mut shelf = self.shelf();
        let open = Open {
            path,
            kind,
            version,
            index: Arc::new(LineIndex::new(&text)),
            text: text.into(),
            state: shelf.next(),
        };
        shelf.by_address.insert(address.to_owned(), open);
    }

    /// Makes edits one after the other, each counted from what the one before it left. A text that grows past
    /// all bounds is let go as if it was closed.
    pub fn change(&self, address: &str, version: i32, changes: Vec<Change>, encoding: Encoding) {
        let mut shelf = self.shelf();
        let state = shelf.next();
        let Some(open) = shelf.by_address.get_mut(address) else {
            return;
        };
        let mut text = String::from(&*open.text);
        let mut index = LineIndex::clone(&open.index);
        for change in changes {
            match change.places {
                None => {
                    text = change.new;
                    index = LineIndex::new(&text);
                }
                Some((from, to)) => {
                    let at = |position| index.offset(&text, position, encoding);
                    let (from, to) = (at(from), at(to));
                    let span = Span::new(from.min(to), from.max(to));
                    text.replace_range(std::ops::Range::from(span), &change.new);
                    index.edited(&text, span, change.new.len() as u32);
                }
            }
            if text.len() > LARGEST {
                shelf.by_address.remove(address);
                return;
            }
        }
        open.version = version;
        open.text = text.into();
        open.index = Arc::new(index);
        open.state = state;
    }

    /// Closes a text; its path, if it was open.
    pub fn close(&self, address: &str) -> Option<PathBuf> {
        Some(self.shelf().by_address.remove(address)?.path)
    }

    /// The newest state of a text.
    pub fn get(&self, address: &str) -> Option<Open> {
        self.shelf().by_address.get(address).cloned()
    }

    /// Whether a state is still the newest of its text.
    pub fn is_newest(&self, address: &str, state: u64) -> bool {
        self.shelf()
            .by_address
            .get(address)
            .is_some_and(|open| open.state == state)
    }

    /// The address and version of the open text with a path.
    pub fn of_path(&self, path: &std::path::Path) -> Option<(String, i32)> {
        let shelf = self.shelf();
        let mut all = shelf.by_address.iter();
        all.find(|(_, open)| open.path == path)
            .map(|(address, open)| (address.clone(), open.version))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn edits_of_one_notification_are_made_in_order() {
        let texts = Texts::default();
        texts.open("a", PathBuf::from("a.rig"), Kind::Rig, 1, "a🎣b\r\nc".to_owned());
        let at = |line, column| Position { line, column };
        let change = |from, to, new: &str| Change {
            places: Some((from, to)),
            new: new.to_owned(),
        };
        texts.change(
            "a",
            2,
            vec![
                change(at(0, 1), at(0, 3), "x\n"),
                change(at(1, 1), at(2, 0), ""),
                // An editor may tell the end first.
                change(at(1, 1), at(1, 0), "B"),
            ],
            Encoding::Utf16,
        );
        let open = texts.get("a").expect("it is open");
        assert_eq!((&*open.text, open.version), ("ax\nBc", 2));
        assert_eq!(open.index.count(), 2);
        texts.change(
            "a",
            3,
            vec![Change {
                places: None,
                new: String::new(),
            }],
            Encoding::Utf16,
        );
        assert!(!texts.is_newest("a", open.state));
        assert_eq!(&*texts.get("a").expect("it is open").text, "");
    }

    #[test]
    fn a_text_past_all_bounds_is_let_go() {
        let texts = Texts::default();
        texts.open("a", PathBuf::from("a.rig"), Kind::Rig, 1, String::new());
        let start = Position { line: 0, column: 0 };
        let grow = || Change {
            places: Some((start, start)),
            new: "x".repeat(LARGEST / 2),
        };
        texts.change("a", 2, vec![grow(), grow()], Encoding::Utf8);
        assert!(texts.get("a").is_some());
        texts.change("a", 3, vec![grow()], Encoding::Utf8);
        assert!(texts.get("a").is_none());
    }
}
