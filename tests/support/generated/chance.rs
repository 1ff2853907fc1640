//! Numbers that look like chance and are the same on every run and machine.
//!
//! The steps are those of splitmix64, a public-domain mixing function: one
//! addition and three shifts with multiplications. A test that failed today
//! fails tomorrow, on the same notebook.

/// A source of even numbers.
pub(crate) struct Chance(u64);

impl Chance {
    /// Always the same numbers for the same start value.
    pub(crate) const fn new(start: u64) -> Self {
        Self(start)
    }

    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        mixed ^ (mixed >> 31)
    }

    /// A number from `0` up to, and without, `bound`.
    pub(crate) fn below(&mut self, bound: usize) -> usize {
        (self.next() % bound as u64) as usize
    }

    /// A number of `range`, its end left out.
    pub(crate) fn within(&mut self, range: std::ops::Range<usize>) -> usize {
        range.start + self.below(range.end - range.start)
    }

    /// One of `things`.
    pub(crate) fn pick<'a, T: ?Sized>(&mut self, things: &[&'a T]) -> &'a T {
        things[self.below(things.len())]
    }

    /// True `part` times in ten.
    pub(crate) fn in_ten(&mut self, part: usize) -> bool {
        self.below(10) < part
    }
}
