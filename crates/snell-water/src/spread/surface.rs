//! A surface through some sink times, from which others are read.
//!
//! The logarithm of a time is nearly a quadratic of the inputs. It is fitted to the sinks of some draws, tried on the sinks of
//! others, and there is one only if it holds there.

use super::draws::COLUMNS;
use crate::math::ln;
use snell_units::in_order;

/// Draws that are sunk to fit it, besides those of one input at a time; and draws that it is tried on.
pub(super) const FITTED: usize = 40;
pub(super) const TRIED: usize = 8;
/// How far off it may be in the mean where it is tried, as a share of the deviation of what it is fitted to.
const HOLDS: f64 = 0.25;
/// The inputs that move a time most are also taken two by two.
const TOGETHER: usize = 3;

/// Inputs of a draw with the time that it came to, s.
pub(super) type Sunk = ([f64; COLUMNS], f64);

/// The logarithm of a time by the inputs.
pub(super) struct Surface {
    main: Vec<usize>,
    factors: Vec<f64>,
}

impl Surface {
    /// The quadratic of least squares, if it holds where it is tried.
    pub fn fit(sunk: &[Sunk], tried: &[Sunk]) -> Option<Self> {
        let mut main: Vec<usize> = (0..COLUMNS).collect();
        // The first sinks after the told one are of one input at a time, down and up.
        let moves = |input: &usize| (ln(sunk[2 * input + 2].1) - ln(sunk[2 * input + 1].1)).abs();
        in_order(&mut main, |a, b| moves(b).total_cmp(&moves(a)));
        main.truncate(TOGETHER);
        let rows: Vec<(Vec<f64>, f64)> = sunk
            .iter()
            .map(|(inputs, time)| (terms(inputs, &main), ln(*time)))
            .collect();
        let surface = Self {
            factors: least_squares(&rows)?,
            main,
        };
        let mean = sunk.iter().map(|(_, time)| ln(*time)).sum::<f64>() / sunk.len() as f64;
        let square = |off: f64| off * off;
        let all: f64 = sunk
            .iter()
            .skip(2 * COLUMNS + 1)
            .map(|(_, time)| square(ln(*time) - mean))
            .sum();
        let off: f64 = tried
            .iter()
            .map(|(inputs, time)| square(ln(*time) - surface.at(inputs)))
            .sum();
        let (all, off) = (all / FITTED as f64, off / TRIED as f64);
        (off <= HOLDS * HOLDS * all).then_some(surface)
    }

    pub fn at(&self, inputs: &[f64; COLUMNS]) -> f64 {
        let terms = terms(inputs, &self.main);
        terms
            .iter()
            .zip(&self.factors)
            .map(|(term, factor)| term * factor)
            .sum()
    }
}

/// 1, each input, each square, and the products of the main ones.
fn terms(inputs: &[f64; COLUMNS], main: &[usize]) -> Vec<f64> {
    let mut terms = vec![1.0];
    terms.extend(inputs);
    terms.extend(inputs.iter().map(|input| input * input));
    for (place, one) in main.iter().enumerate() {
        terms.extend(main[..place].iter().map(|other| inputs[*one] * inputs[*other]));
    }
    terms
}

/// The factors by which sums of terms come nearest to some values, by the normal equations; nothing where the terms do not
/// tell them apart.
fn least_squares(rows: &[(Vec<f64>, f64)]) -> Option<Vec<f64>> {
    let count = rows.first()?.0.len();
    let mut sums = vec![vec![0.0; count + 1]; count];
    for (terms, value) in rows {
        for (one, sums) in sums.iter_mut().enumerate() {
            for (other, sum) in sums.iter_mut().take(count).enumerate() {
                *sum += terms[one] * terms[other];
            }
            sums[count] += terms[one] * value;
        }
    }
    eliminated(sums)
}

/// Gauss's elimination with the largest pivot of each column.
fn eliminated(mut rows: Vec<Vec<f64>>) -> Option<Vec<f64>> {
    let count = rows.len();
    for column in 0..count {
        let largest =
            (column..count).max_by(|a, b| rows[*a][column].abs().total_cmp(&rows[*b][column].abs()))?;
        rows.swap(column, largest);
        let pivot = rows[column].clone();
        if pivot[column].abs() < 1e-9 {
            return None;
        }
        for row in rows.iter_mut().skip(column + 1) {
            let times = row[column] / pivot[column];
            for (value, of) in row.iter_mut().zip(&pivot).skip(column) {
                *value -= times * of;
            }
        }
    }
    let mut found = vec![0.0; count];
    for place in (0..count).rev() {
        let known: f64 = (place + 1..count)
            .map(|other| rows[place][other] * found[other])
            .sum();
        found[place] = (rows[place][count] - known) / rows[place][place];
    }
    Some(found)
}

#[cfg(test)]
mod tests {
    use super::super::draws::draws;
    use super::*;
    use crate::math::exp;

    #[test]
    fn a_quadratic_is_found_again_and_a_jump_is_refused() {
        let smooth =
            |z: &[f64; COLUMNS]| exp(0.4 + 0.3 * z[0] - 0.2 * z[5] + 0.05 * z[0] * z[0] + 0.04 * z[0] * z[5]);
        let sunk = |of: &dyn Fn(&[f64; COLUMNS]) -> f64, from: usize, to: usize| -> Vec<Sunk> {
            draws()[from..to].iter().map(|draw| (*draw, of(draw))).collect()
        };
        let one = |of: &dyn Fn(&[f64; COLUMNS]) -> f64| -> Vec<Sunk> {
            let offs = (0..COLUMNS).flat_map(|input| [(input, -1.0), (input, 1.0)]);
            let moved = offs.map(|(input, off)| {
                let mut inputs = [0.0; COLUMNS];
                inputs[input] = off;
                inputs
            });
            std::iter::once([0.0; COLUMNS])
                .chain(moved)
                .map(|inputs| (inputs, of(&inputs)))
                .collect()
        };
        let all = |of: &dyn Fn(&[f64; COLUMNS]) -> f64| [one(of), sunk(of, 0, FITTED)].concat();
        let found = Surface::fit(&all(&smooth), &sunk(&smooth, FITTED, FITTED + TRIED)).expect("it holds");
        for draw in draws() {
            assert!((exp(found.at(draw)) / smooth(draw) - 1.0).abs() < 1e-6);
        }
        let jumps = |z: &[f64; COLUMNS]| {
            if (z[2] * 7.0).floor() as i64 % 2 == 0 {
                1.0
            } else {
                2.0
            }
        };
        assert!(Surface::fit(&all(&jumps), &sunk(&jumps, FITTED, FITTED + TRIED)).is_none());
    }
}
