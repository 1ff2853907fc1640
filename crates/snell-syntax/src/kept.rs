//! What was read of lines, kept by their text.
//!
//! Lines that have not been met for long are let go, so that a server that
//! reads every state of a growing text doesn't keep them all. It doesn't know
//! what it keeps of a line.

use rustc_hash::FxHashMap;

/// Lines longer than this are read afresh instead of being kept.
const LONGEST: usize = 512;

/// So many lines are kept before those not met meanwhile are let go. Larger
/// than any notebook, so that reading one again finds all its lines.
pub(crate) const GENERATION: usize = 1 << 17;

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
    /// What is kept of `line`, else what `read` makes of it.
    pub(crate) fn get(&mut self, line: &str, read: impl FnOnce(&str) -> T) -> T {
        if let Some(value) = self.fresh.get(line) {
            return value.clone();
        }
        if line.len() > LONGEST {
            return read(line);
        }
        if self.fresh.len() >= GENERATION {
            self.stale = std::mem::take(&mut self.fresh);
        }
        let (key, value) = self
            .stale
            .remove_entry(line)
            .unwrap_or_else(|| (line.into(), read(line)));
        self.fresh.insert(key, value.clone());
        value
    }

    /// Whether there is something kept of `line`, or nothing ever will be.
    pub(crate) fn holds(&self, line: &str) -> bool {
        line.len() > LONGEST || self.fresh.contains_key(line) || self.stale.contains_key(line)
    }

    /// Keeps what is kept there, too.
    pub(crate) fn take_over(&mut self, other: Self) {
        if self.fresh.is_empty() {
            self.fresh = other.fresh;
        } else {
            self.fresh.extend(other.fresh);
        }
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
        let meet = |kept: &mut Kept<usize>, lines: std::ops::Range<usize>| {
            lines.for_each(|line| _ = kept.get(&line.to_string(), str::len));
        };
        meet(&mut kept, 0..GENERATION);
        assert_eq!(kept.get("a", |_| unreachable!()), 1);
        meet(&mut kept, GENERATION..3 * GENERATION);
        assert_eq!(kept.get("a", |_| 7), 7);
        assert!(kept.fresh.len() + kept.stale.len() <= 2 * GENERATION);
    }
}
