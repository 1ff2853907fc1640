//! What was read of lines, kept by their text.
//!
//! Lines that have not been met for long are let go, so that a server that
//! reads every state of a growing text doesn't keep them all. It doesn't know
//! what it keeps of a line.

use rustc_hash::FxHashMap;

/// Lines longer than this are read afresh instead of being kept.
const LONGEST: usize = 512;

/// So many lines are kept before those not met meanwhile are let go.
const GENERATION: usize = 1 << 16;

/// Values by line, in two generations.
pub(crate) struct Kept<T> {
    fresh: FxHashMap<Box<str>, T>,
    stale: FxHashMap<Box<str>, T>,
}

impl<T> Default for Kept<T> {
    fn default() -> Self {
        Self {
            fresh: FxHashMap::default(),
            stale: FxHashMap::default(),
        }
    }
}

impl<T: Clone> Kept<T> {
    /// To be called between two texts. Says whether lines were let go.
    pub(crate) fn age(&mut self) -> bool {
        let full = self.fresh.len() > GENERATION;
        if full {
            self.stale = std::mem::take(&mut self.fresh);
        }
        full
    }

    /// What is kept of `line`, else what `read` makes of it.
    pub(crate) fn get(&mut self, line: &str, read: impl FnOnce(&str) -> T) -> T {
        if let Some(value) = self.fresh.get(line) {
            return value.clone();
        }
        if line.len() > LONGEST {
            return read(line);
        }
        let (key, value) = self
            .stale
            .remove_entry(line)
            .unwrap_or_else(|| (line.into(), read(line)));
        self.fresh.insert(key, value.clone());
        value
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_are_read_once_and_let_go_in_the_end() {
        let mut kept = Kept::default();
        assert_eq!(kept.get("a", str::len), 1);
        assert_eq!(kept.get("a", |_| unreachable!()), 1);
        for number in 0..=GENERATION {
            kept.get(&number.to_string(), str::len);
        }
        assert!(kept.age());
        assert_eq!(kept.get("a", |_| unreachable!()), 1);
        assert!(!kept.age());
        assert_eq!(kept.fresh.len(), 1);
    }
}
