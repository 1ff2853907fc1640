//! Which written values a value hangs on, so that what would be with another
//! one is worked out anew only where it matters.

use snell_text::Place;
use std::cell::RefCell;

/// A set of written values, by their numbers in one evaluation.
#[derive(Clone, PartialEq, Eq, Default, Debug)]
pub struct Written {
    first: u64,
    /// Beyond the sixty-fourth; few rigs have so many.
    more: Vec<u64>,
}

impl Written {
    pub(super) fn add(&mut self, number: usize) {
        match number / 64 {
            0 => self.first |= 1 << number,
            word => {
                self.more.resize(self.more.len().max(word), 0);
                self.more[word - 1] |= 1 << (number % 64);
            }
        }
    }

    pub(super) fn join(&mut self, other: &Self) {
        self.first |= other.first;
        self.more.resize(self.more.len().max(other.more.len()), 0);
        for (own, other) in self.more.iter_mut().zip(&other.more) {
            *own |= other;
        }
    }

    /// Whether two sets have a value in common.
    pub fn meets(&self, other: &Self) -> bool {
        let pairs = self.more.iter().zip(&other.more);
        self.first & other.first != 0 || pairs.into_iter().any(|(own, other)| own & other != 0)
    }
}

/// The written values of a rig that were asked for, numbered as they come.
#[derive(Default, Debug)]
pub(super) struct Numbers(RefCell<rustc_hash::FxHashMap<Place, usize>>);

impl Numbers {
    pub(super) fn of(&self, place: Place) -> usize {
        let mut known = self.0.borrow_mut();
        let next = known.len();
        *known.entry(place).or_insert(next)
    }

    pub(super) fn known(&self, place: Place) -> Written {
        let mut written = Written::default();
        if let Some(number) = self.0.borrow().get(&place) {
            written.add(*number);
        }
        written
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sets_of_any_size_join_and_meet() {
        let set = |numbers: &[usize]| {
            let mut set = Written::default();
            numbers.iter().for_each(|number| set.add(*number));
            set
        };
        assert!(!set(&[0, 63, 64]).meets(&set(&[1, 65, 700])));
        assert!(set(&[2, 700]).meets(&set(&[700])));
        let mut both = set(&[3]);
        both.join(&set(&[130]));
        assert!(both.meets(&set(&[3])) && both.meets(&set(&[130])) && !both.meets(&set(&[66])));
    }
}
