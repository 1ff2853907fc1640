//! How far a long work is, told on the terminal and wiped away at its end.

use crate::terminal::steered;
use std::io::{IsTerminal, Write, stderr};
use std::time::{Duration, Instant};

/// What is done sooner needs no telling.
const PATIENCE: Duration = Duration::from_secs(1);
/// Between two tellings.
const BREATH: Duration = Duration::from_millis(100);

/// The progress of one work.
pub struct Progress {
    started: Instant,
    told: Option<Instant>,
    terminal: bool,
}

impl Progress {
    /// A work that begins now.
    pub fn new() -> Self {
        Self {
            started: Instant::now(),
            told: None,
            terminal: stderr().is_terminal() && steered(),
        }
    }

    /// Tells how many are done, if it takes long. Where nobody looks on, it is told once that it takes long.
    pub fn tell(&mut self, done: usize, all: usize, what: &str) {
        let due = self
            .told
            .map_or(self.started.elapsed() > PATIENCE, |told| told.elapsed() > BREATH);
        if !due || !self.terminal && self.told.is_some() {
            return;
        }
        self.told = Some(Instant::now());
        let mut err = stderr().lock();
        // If nobody can be told, the work goes on all the same.
        let _ = if self.terminal {
            write!(err, "\r{done} of {all} {what}")
        } else {
            writeln!(err, "{done} of {all} {what}, and going on")
        };
        let _ = err.flush();
    }
}

impl Drop for Progress {
    fn drop(&mut self) {
        if self.terminal && self.told.is_some() {
            let _ = write!(stderr().lock(), "\r\x1b[K");
        }
    }
}
