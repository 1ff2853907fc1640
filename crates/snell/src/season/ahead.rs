//! A second thread that opens the files of a history before they are asked for.
//!
//! To take a text from git and to read its words hangs on nothing that is told of the commits before, so it is done
//! beside what is told of them. What was opened is what would be opened when it is asked for.

use super::state::{Files, States, opened};
use crate::git::{Blobs, Step};
use snell_analysis::Analysis;
use snell_history::Commit;
use std::sync::mpsc::{Receiver, sync_channel};
use std::thread::{self, Scope};

/// A shorter history is read before it pays.
const WORTH_A_THREAD: usize = 64;

/// So many commits are opened and not yet asked for: each may hold a whole notebook.
const AHEAD: usize = 8;

/// What the thread hands over: the files of one commit after the other.
pub struct Ahead(Receiver<Files>);

impl Ahead {
    /// Starts on a history, where it is long enough and there is a second thread to be had.
    pub fn of<'scope, 'env>(
        scope: &'scope Scope<'scope, 'env>,
        blobs: &'env Blobs,
        (steps, commits): (&'env [Step], &'env [Commit]),
        analysis: Analysis,
    ) -> Option<Self> {
        let has_threads = || thread::available_parallelism().is_ok_and(|threads| threads.get() > 1);
        if steps.len() < WORTH_A_THREAD || !has_threads() {
            return None;
        }
        let (to, files) = sync_channel(AHEAD);
        scope.spawn(move || {
            let mut states = States::of(commits);
            for (number, step) in steps.iter().enumerate() {
                let mut state = states.first_parent(&step.commit);
                state.change(step);
                let own = step.changed.iter().filter(|(_, id)| id.is_some());
                let files = own.filter_map(|(path, _)| {
                    // What cannot be had is asked for again by who needs it, and told there.
                    let opened = opened(&analysis, blobs, &state.ids, path).ok()?;
                    Some((path.clone(), opened))
                });
                if to.send(files.collect()).is_err() {
                    break;
                }
                states.put(number, &step.commit, state);
            }
        });
        Some(Self(files))
    }

    /// The files of the next commit.
    pub fn next(&self) -> Files {
        self.0.recv().unwrap_or_default()
    }
}
