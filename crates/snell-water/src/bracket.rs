//! Roots of functions that are known to change sign.
//!
//! A bracket never leaves its ends, so nothing here can run away; the crates for
//! this that we looked at have not been released for years.

/// Two ends between which a function changes sign.
pub(crate) struct Bracket<F> {
    of: F,
    low: (f64, f64),
    high: (f64, f64),
}

/// No root takes more turns than halving needs to get from a kilometre to a nanometre, twice over.
const TURNS: usize = 100;

/// A bracket is looked for in steps that grow by this from one to the next,
const WIDENS: f64 = 2.0;
/// and given up after this many: by then they are four thousand times the first.
const WIDENINGS: usize = 12;

impl<F: FnMut(f64) -> f64> Bracket<F> {
    /// A bracket, where the function changes sign between the ends or is nothing at one.
    pub(crate) fn of(mut of: F, low: f64, high: f64) -> Option<Self> {
        let (at_low, at_high) = (of(low), of(high));
        (at_low * at_high <= 0.0).then_some(Self {
            of,
            low: (low, at_low),
            high: (high, at_high),
        })
    }

    /// A bracket of a function that grows, looked for from a guess in steps that double, towards where the
    /// function changes sign. A guess that is near costs two values; one without a value is taken to be too high.
    pub(crate) fn about(mut of: F, guess: f64, step: f64) -> Option<Self> {
        let mut end = (guess, of(guess));
        let mut by = if end.1 <= 0.0 { step } else { -step };
        for _ in 0..WIDENINGS {
            let at = end.0 + by;
            let next = (at, of(at));
            if end.1 * next.1 <= 0.0 {
                let (low, high) = if by > 0.0 { (end, next) } else { (next, end) };
                return Some(Self { of, low, high });
            }
            end = next;
            by *= WIDENS;
        }
        None
    }

    /// The root, to within `tolerance`.
    pub(crate) fn root(self, tolerance: f64) -> f64 {
        self.settled(tolerance).0
    }

    /// The root, to within `tolerance`, and the value there: a large one where the function jumps.
    ///
    /// Interpolates inversely through the last three points where that is safe and halves otherwise.
    /// Source: Chandrupatla 1997, Advances in Engineering Software 28:145.
    pub(crate) fn settled(mut self, tolerance: f64) -> (f64, f64) {
        for end in [self.low, self.high] {
            if end.1 == 0.0 {
                return end;
            }
        }
        let (mut newest, mut other) = (self.high, self.low);
        let mut share = 0.5;
        for _ in 0..TURNS {
            let at = newest.0 + share * (other.0 - newest.0);
            let found = (at, (self.of)(at));
            let oldest;
            if (found.1 > 0.0) == (newest.1 > 0.0) {
                oldest = newest;
            } else {
                (oldest, other) = (other, newest);
            }
            newest = found;
            let width = (other.0 - newest.0).abs();
            let best = if newest.1.abs() < other.1.abs() {
                newest
            } else {
                other
            };
            if best.1 == 0.0 || width <= 2.0 * tolerance {
                return best;
            }
            let least = tolerance / width;
            share = interpolated(newest, other, oldest)
                .unwrap_or(0.5)
                .clamp(least, 1.0 - least);
        }
        newest
    }
}

/// How far from the newest point towards the other inverse interpolation puts the root, where the
/// three points bend little enough to believe it.
fn interpolated(newest: (f64, f64), other: (f64, f64), oldest: (f64, f64)) -> Option<f64> {
    let place = (newest.0 - other.0) / (oldest.0 - other.0);
    let value = (newest.1 - other.1) / (oldest.1 - other.1);
    let safe = value * value < place && (1.0 - value) * (1.0 - value) < 1.0 - place;
    safe.then(|| {
        let ratio = (oldest.0 - newest.0) / (other.0 - newest.0);
        newest.1 / (other.1 - newest.1) * oldest.1 / (other.1 - oldest.1)
            + ratio * newest.1 / (oldest.1 - newest.1) * other.1 / (oldest.1 - other.1)
    })
}

/// From a start, the first of its doublings at which a growing function is above nothing.
pub(crate) fn upward(mut of: impl FnMut(f64) -> f64, start: f64) -> f64 {
    let mut at = start;
    for _ in 0..TURNS {
        if of(at) > 0.0 {
            break;
        }
        at *= 2.0;
    }
    at
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn roots_lie_where_they_are_known() {
        type Known = (fn(f64) -> f64, f64, f64, f64);
        let known: [Known; 4] = [
            (|x| x * x - 2.0, 0.0, 2.0, 2_f64.sqrt()),
            (|x| x.exp() - 1e6, 0.0, 100.0, 1e6_f64.ln()),
            (|x| (x - 0.3).powi(9), -4.0, 1.0, 0.3),
            (|x| if x < 0.7 { -1.0 } else { 1.0 }, 0.0, 1.0, 0.7),
        ];
        for (of, low, high, root) in known {
            let found = Bracket::of(of, low, high).expect("the sign changes").root(1e-12);
            assert!((found - root).abs() < 1e-3, "{found} for {root}");
        }
    }

    #[test]
    fn a_guess_on_either_side_finds_the_root_and_a_jump_is_told() {
        let cube = |x: f64| x.powi(3) - 8.0;
        for guess in [-5.0, 1.9, 2.0, 2.1, 90.0] {
            let (at, left) = Bracket::about(cube, guess, 0.1)
                .expect("it crosses")
                .settled(1e-12);
            assert!((at - 2.0).abs() < 1e-9 && left.abs() < 1e-9, "{at} from {guess}");
        }
        let jump = |x: f64| if x < 0.7 { -1.0 } else { 3.0 };
        let (at, left) = Bracket::about(jump, 0.0, 0.1).expect("it crosses").settled(1e-9);
        assert!((at - 0.7).abs() < 1e-8 && left.abs() >= 1.0, "{at}: {left}");
        assert!(Bracket::about(|x: f64| x * x + 1.0, 0.0, 0.1).is_none());
    }

    #[test]
    fn ends_that_are_roots_are_found_and_others_refused() {
        let line = |x: f64| x - 1.0;
        assert_eq!(
            Bracket::of(line, 1.0, 5.0).map(|bracket| bracket.root(1e-12)),
            Some(1.0)
        );
        assert!(Bracket::of(line, 2.0, 5.0).is_none());
    }
}
