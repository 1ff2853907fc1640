//! A law of drag by Reynolds number, worked out once and read many times.
//!
//! A power takes longer than all else that is done at a place of a line, and a drift asks for thousands. Between
//! its nodes a law is a cubic that agrees with it to 2e-8; the nodes lie at shares of each doubling, so that an
//! entry is found from the bits of a number.

/// A smooth law over Reynolds numbers. Below its range it is taken at the range's end, above it worked out.
pub(crate) struct Table {
    law: fn(f64) -> f64,
    pieces: Vec<[f64; 4]>,
}

/// The range in doublings: from 1e-6, where nothing is left of any force, to 1e6.
const LOWEST: i32 = -20;
const HIGHEST: i32 = 20;
/// Pieces of each doubling: the first bits of the fraction of a number.
const BITS: u32 = 4;
const PIECES: usize = 1 << BITS;
const FRACTION: u32 = 52;

impl Table {
    pub(crate) fn of(law: fn(f64) -> f64) -> Self {
        let doublings = LOWEST..HIGHEST;
        let pieces = doublings.flat_map(|doubling| {
            let start = exp2(doubling);
            (0..PIECES).map(move |piece| {
                let width = start / PIECES as f64;
                let from = start + piece as f64 * width;
                cubic([0.0, 0.25, 0.75, 1.0].map(|part| law(from + part * width)))
            })
        });
        Self {
            law,
            pieces: pieces.collect(),
        }
    }

    pub(crate) fn at(&self, reynolds: f64) -> f64 {
        let (index, part) = place(reynolds);
        match self.pieces.get(index) {
            Some(piece) => read(piece, part),
            None => (self.law)(reynolds),
        }
    }
}

/// Two laws at one number, found together.
pub(crate) struct Pair {
    laws: [fn(f64) -> f64; 2],
    pieces: Vec<[[f64; 4]; 2]>,
}

impl Pair {
    pub(crate) fn of(laws: [fn(f64) -> f64; 2]) -> Self {
        let [one, other] = laws.map(Table::of);
        let pieces = one.pieces.into_iter().zip(other.pieces);
        Self {
            laws,
            pieces: pieces.map(|(one, other)| [one, other]).collect(),
        }
    }

    pub(crate) fn at(&self, reynolds: f64) -> [f64; 2] {
        let (index, part) = place(reynolds);
        match self.pieces.get(index) {
            Some([one, other]) => [read(one, part), read(other, part)],
            None => self.laws.map(|law| law(reynolds)),
        }
    }
}

/// The piece that a number lies in, and how far into it.
fn place(reynolds: f64) -> (usize, f64) {
    let bits = reynolds.max(exp2(LOWEST)).to_bits();
    let index = (bits >> (FRACTION - BITS)) as usize - OFFSET;
    // What is left of the fraction, as a number from 0 to 1: it is put behind the exponent of 1.
    let left = (bits << BITS) & ((1 << FRACTION) - 1);
    (index, f64::from_bits((1023 << FRACTION) | left) - 1.0)
}

fn read([a, b, c, d]: &[f64; 4], part: f64) -> f64 {
    a + part * (b + part * (c + part * d))
}

/// The index that the lowest number of the range would have, were all numbers in the table.
const OFFSET: usize = ((LOWEST + 1023) as usize) << BITS;

fn exp2(doubling: i32) -> f64 {
    f64::from_bits(((doubling + 1023) as u64) << FRACTION)
}

/// The cubic through four values at 0, 1/4, 3/4 and 1, by its coefficients.
fn cubic([at_0, at_quarter, at_three, at_1]: [f64; 4]) -> [f64; 4] {
    // Newton's divided differences, and then the powers sorted out.
    let (f1, f2, f3) = ((at_quarter - at_0) / 0.25, (at_three - at_0) / 0.75, at_1 - at_0);
    let (g1, g2) = ((f2 - f1) / 0.5, (f3 - f2) / 0.25);
    let d = (g2 - g1) / 0.75;
    let c = g1 - d;
    let b = f1 - 0.25 * g1 + 0.1875 * d;
    [at_0, b, c, d]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drag::{across, sphere};

    #[test]
    fn a_table_says_what_its_law_says() {
        let laws: [fn(f64) -> f64; 2] = [|re| re * across(re), |re| re * sphere(re)];
        for law in laws {
            let table = Table::of(law);
            let mut reynolds = 1.1e-6;
            while reynolds < 3e6 {
                let off = table.at(reynolds) / law(reynolds) - 1.0;
                assert!(off.abs() < 2e-8, "{reynolds}: off by {off:e}");
                reynolds *= 1.003;
            }
        }
    }

    #[test]
    fn what_is_no_number_gives_none_and_nothing_gives_the_least() {
        let table = Table::of(|re| re * across(re));
        assert_eq!(table.at(0.0), table.at(1e-9));
        assert!(table.at(f64::INFINITY).is_nan() || table.at(f64::INFINITY).is_infinite());
    }
}
