//! Reads the files of each state of a history, and of those only what changed.
//!
//! A file is read anew where it changed, or one that it uses did. What was read
//! a while ago in the same words, with the same files used, is not read again.

use super::state::{Asked, Files, Known, Opened, State, opened};
use crate::git::{Blobs, Step, Tree};
use crate::trouble::Trouble;
use snell_analysis::{Analysis, Notebook};
use snell_history::{Changed, FileRead};
use std::collections::HashMap;
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// So many texts are remembered before those that did not come up meanwhile are let go: branches of a history are gone
/// through in turn, and a change may be taken back.
const GENERATION: usize = 64;

/// Answers about the rigs of a state that are kept: for each of them, and besides.
const ANSWERS_EACH: usize = 4;
const ANSWERS_BESIDES: usize = 256;

/// What was read of a text at a path, once for each set of files that it used.
type Texts = HashMap<(PathBuf, String), Vec<Arc<Known>>>;

/// What a file was made from, by the states that changed it.
#[derive(Default)]
struct MadeFrom {
    /// On the line, in its order.
    on_line: Vec<(usize, Asked)>,
    /// On branches.
    beside: HashMap<usize, Asked>,
}

/// Reads files out of a history.
pub struct Reader<'b> {
    pub blobs: &'b Blobs,
    pub analysis: Analysis,
    /// How many files were read: each state of a file and of those that it uses counts once.
    pub files: usize,
    /// In two generations.
    known: [Texts; 2],
    /// What each file was made from in the states that changed it.
    made_from: HashMap<PathBuf, MadeFrom>,
}

impl<'b> Reader<'b> {
    pub fn new(blobs: &'b Blobs) -> Self {
        Self {
            blobs,
            analysis: Analysis::default(),
            files: 0,
            known: Default::default(),
            made_from: HashMap::new(),
        }
    }

    /// Makes a commit's changes to the state of its first parent, and tells which files read differently. Some of them
    /// may have been opened before.
    pub fn step(&mut self, state: &mut State, step: &Step, ahead: Files) -> Result<Changed, Trouble> {
        state.change(step);
        let rigs: usize = state.read.values().map(|known| known.read.cards.len()).sum();
        self.analysis.keep(ANSWERS_EACH * rigs + ANSWERS_BESIDES);
        let mut ahead: HashMap<PathBuf, Opened> = ahead.into_iter().collect();
        let touched = |path: &Path| step.changed.iter().any(|(changed, _)| changed == path);
        let uses = |known: &Known| known.asked.keys().any(|path| touched(path));
        let own = step.changed.iter().map(|(path, _)| path.clone());
        let users = state
            .read
            .iter()
            .filter(|(_, known)| uses(known))
            .map(|(path, _)| path.clone());
        let mut paths: Vec<PathBuf> = own.chain(users).collect();
        paths.sort();
        paths.dedup();
        let mut changed = Changed {
            renames: step.renames.clone(),
            ..Changed::default()
        };
        for path in paths {
            let read = match state.ids.get(&path).cloned() {
                Some(id) => Some(self.file(&state.ids, &path, id, ahead.remove(&path))?),
                None => None,
            };
            match &read {
                Some(known) => state.read.insert(path.clone(), known.clone()),
                None => state.read.remove(&path),
            };
            changed.files.insert(path, read.map(|known| known.read.clone()));
        }
        Ok(changed)
    }

    /// Keeps in mind what the files that a state changed were made from.
    pub fn keep(&mut self, number: usize, on_line: bool, state: &State, changed: &Changed) {
        for path in changed.files.keys() {
            if let Some(known) = state.read.get(path) {
                let kept = self.made_from.entry(path.clone()).or_default();
                match on_line {
                    true => kept.on_line.push((number, known.asked.clone())),
                    false => _ = kept.beside.insert(number, known.asked.clone()),
                }
            }
        }
    }

    /// A file as a state has it, read anew with the files that it used then: a state of the line, or one of a branch
    /// that changed it.
    pub fn anew(&self, path: &Path, number: usize) -> Option<Notebook> {
        let kept = self.made_from.get(path)?;
        let on_line = || {
            let found = kept.on_line.iter().rfind(|(from, _)| *from <= number);
            found.map(|(_, asked)| asked)
        };
        let asked = kept.beside.get(&number).or_else(on_line)?;
        let there = asked
            .iter()
            .filter_map(|(path, id)| Some((path.clone(), id.clone()?)));
        let tree: Tree = there.collect();
        let opened = opened(&self.analysis, self.blobs, &tree, path).ok()?;
        Some(opened.notebook)
    }

    fn file(
        &mut self,
        ids: &Tree,
        path: &Path,
        id: String,
        ahead: Option<Opened>,
    ) -> Result<Arc<Known>, Trouble> {
        let key = (path.to_owned(), id);
        if let Some(known) = self.remembered(&key, ids) {
            return Ok(known);
        }
        let Opened { notebook, asked } = match ahead {
            Some(opened) => opened,
            None => opened(&self.analysis, self.blobs, ids, path)?,
        };
        self.files += 1;
        let read = Arc::new(FileRead::of(&notebook));
        let known = Arc::new(Known { read, asked });
        let [fresh, stale] = &mut self.known;
        if fresh.len() >= GENERATION {
            *stale = std::mem::take(fresh);
        }
        fresh.entry(key).or_default().push(known.clone());
        Ok(known)
    }

    fn remembered(&mut self, key: &(PathBuf, String), ids: &Tree) -> Option<Arc<Known>> {
        let as_now = |known: &&Arc<Known>| known.asked.iter().all(|(path, id)| ids.get(path) == id.as_ref());
        let [fresh, stale] = &mut self.known;
        if let Some(all) = stale.remove(key) {
            fresh.entry(key.clone()).or_default().extend(all);
        }
        fresh.get(key)?.iter().find(as_now).cloned()
    }
}
