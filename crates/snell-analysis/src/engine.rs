//! The engine: what is kept from one snapshot of the texts to the next.

use crate::answers::Answers;
use crate::document::Document;
use crate::text::Text;
use rustc_hash::FxHashMap;
use snell_syntax::Reader;
use std::path::PathBuf;
use std::sync::{Arc, Mutex, PoisonError, TryLockError};

/// The engine: it reads texts into snapshots, and keeps what it learnt of one for the next. What is kept of a text, and
/// each answer, is taken again where all that it was made from is unchanged.
#[derive(Clone, Debug, Default)]
pub struct Analysis(Arc<Shared>);

#[derive(Default)]
struct Shared {
    /// The last state of each text, by its real path or the one that it is called by.
    texts: Mutex<FxHashMap<PathBuf, Arc<Text>>>,
    reader: Mutex<Reader>,
    answers: Answers,
}

impl std::fmt::Debug for Shared {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Analysis")
            .field("answers", &self.answers)
            .finish_non_exhaustive()
    }
}

/// So many texts are kept to be read again.
const MOST_TEXTS: usize = 4_096;

impl Analysis {
    /// How many answers about blocks had to be worked out so far.
    pub fn worked_out(&self) -> usize {
        self.0.answers.worked_out()
    }

    /// How many values of rigs had to be worked out so far, for findings and for mends.
    pub fn values_worked_out(&self) -> usize {
        self.0.answers.values_worked_out()
    }

    /// Keeps about so many answers about blocks, and as many again that nobody asked for meanwhile. Who goes through a
    /// history asks for what a state holds, and seldom for what an older one did.
    pub fn keep(&self, answers: usize) {
        self.0.answers.keep(answers);
    }

    /// What is read of a document, by its last state where there is one.
    pub(crate) fn text(&self, document: &Document) -> Arc<Text> {
        let path = document.real.as_ref().unwrap_or(&document.path);
        // A thread that panicked leaves a map of whole texts.
        let texts = || self.0.texts.lock().unwrap_or_else(PoisonError::into_inner);
        let last = texts().get(path).cloned();
        let same = |text: &&Arc<Text>| text.kind == document.kind && *text.text == *document.text;
        if let Some(known) = last.as_ref().filter(same) {
            return known.clone();
        }
        let mut own = Reader::new();
        // A text need not wait until another one is read: it is read by itself then.
        let mut shared = match self.0.reader.try_lock() {
            Ok(reader) => Some(reader),
            Err(TryLockError::WouldBlock) => None,
            Err(TryLockError::Poisoned(poisoned)) => {
                self.0.reader.clear_poison();
                let mut reader = poisoned.into_inner();
                *reader = Reader::new();
                Some(reader)
            }
        };
        let reader = shared.as_deref_mut().unwrap_or(&mut own);
        let text = match &last {
            Some(last) => last.next(document, reader),
            None => Text::read(document, reader),
        };
        drop(shared);
        let text = Arc::new(text);
        let mut texts = texts();
        if texts.len() >= MOST_TEXTS {
            texts.clear();
        }
        texts.insert(path.clone(), text.clone());
        text
    }

    pub(crate) fn answers(&self) -> &Answers {
        &self.0.answers
    }
}
