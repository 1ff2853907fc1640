//! Draws that are the same on every machine.
//!
//! Column `j` is the order of `frac(1/2 + i sqrt(p_j))` for `i` from 1 to 100, put into 100 classes, each at the middle
//! of its class: every input takes a hundred values that are spread as they should be, and no two inputs go together (their
//! correlation is below 0.12). Source: additive recurrences of irrational numbers (Weyl 1916, from memory).

use crate::math::{erfc, exp};
use snell_units::in_order;
use std::f64::consts::{PI, SQRT_2};
use std::sync::LazyLock;

/// How many draws there are.
pub const DRAWS: usize = 100;
/// Inputs of a draw.
pub(crate) const COLUMNS: usize = 9;

/// One for each column, so that no two of their roots go together.
const PRIMES: [f64; COLUMNS] = [3.0, 5.0, 7.0, 11.0, 19.0, 29.0, 31.0, 37.0, 41.0];

/// How many standard deviations each input is off in each draw.
pub fn draws() -> &'static [[f64; COLUMNS]; DRAWS] {
    static ALL: LazyLock<[[f64; COLUMNS]; DRAWS]> = LazyLock::new(|| {
        let columns = PRIMES.map(column);
        let mut draws = [[0.0; COLUMNS]; DRAWS];
        for (draw, row) in draws.iter_mut().enumerate() {
            for (place, column) in row.iter_mut().zip(&columns) {
                *place = column[draw];
            }
        }
        draws
    });
    &ALL
}

fn column(prime: f64) -> [f64; DRAWS] {
    let root = prime.sqrt();
    let mut order: Vec<(f64, usize)> = (0..DRAWS)
        .map(|draw| {
            let at = 0.5 + (draw + 1) as f64 * root;
            (at - at.floor(), draw)
        })
        .collect();
    in_order(&mut order, |a, b| a.0.total_cmp(&b.0));
    let mut column = [0.0; DRAWS];
    for (rank, (_, draw)) in order.into_iter().enumerate() {
        column[draw] = quantile((rank as f64 + 0.5) / DRAWS as f64);
    }
    column
}

/// The number below which a standard normal one lies with a chance: Newton's method on its distribution.
fn quantile(chance: f64) -> f64 {
    let mut at = 0.0;
    for _ in 0..TURNS {
        let off = 0.5 * erfc(-at / SQRT_2) - chance;
        let density = exp(-at * at / 2.0) / (2.0 * PI).sqrt();
        at -= (off / density).clamp(-1.0, 1.0);
    }
    at
}

/// From nothing, chances from 0.005 to 0.995 need seven.
const TURNS: usize = 12;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn columns_are_spread_and_do_not_go_together() {
        for one in 0..COLUMNS {
            let mean: f64 = draws().iter().map(|draw| draw[one]).sum::<f64>() / DRAWS as f64;
            assert!(mean.abs() < 1e-9, "{one}: {mean}");
            for other in 0..one {
                let together: f64 = draws().iter().map(|draw| draw[one] * draw[other]).sum();
                let squares: f64 = draws().iter().map(|draw| draw[one] * draw[one]).sum();
                assert!(
                    (together / squares).abs() < 0.12,
                    "{one} and {other}: {}",
                    together / squares
                );
            }
        }
    }

    #[test]
    fn quantiles_are_those_of_the_tables() {
        // Source: any table of the normal distribution.
        for (chance, known) in [
            (0.5, 0.0),
            (0.9, 1.281_551_565_5),
            (0.95, 1.644_853_626_95),
            (0.995, 2.575_829_303_5),
        ] {
            assert!(
                (quantile(chance) - known).abs() < 1e-9,
                "{chance}: {}",
                quantile(chance)
            );
            assert!((quantile(1.0 - chance) + known).abs() < 1e-9);
        }
    }
}
