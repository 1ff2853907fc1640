//! Roots of two functions of two unknowns, for where brackets in one another would cost their product.
//!
//! Unlike a bracket it can fail, and then says so: whoever asks has to have another way.

/// Turns before it is given up; a start that is near takes four to six.
const TURNS: usize = 12;
/// The first steps, from which the slopes are told, as a share of the farthest step.
const FIRST: f64 = 0.01;

/// Where both functions are nothing to within about `tolerance` in each unknown, from a start; and their values there,
/// which are large where it settled on nothing. No step is longer than `farthest`.
///
/// The slopes are worked out once and mended by what each step finds.
/// Source: Broyden 1965, Mathematics of Computation 19:577 (from memory).
pub(crate) fn root(
    mut of: impl FnMut([f64; 2]) -> [f64; 2],
    start: [f64; 2],
    farthest: [f64; 2],
    tolerance: f64,
) -> Option<([f64; 2], [f64; 2])> {
    let mut at = start;
    let mut off = of(at);
    let mut slopes = first_slopes(&mut of, at, off, farthest);
    for _ in 0..TURNS {
        let step = solved(slopes, off.map(|value| -value))?;
        let step = [0, 1].map(|axis| step[axis].clamp(-farthest[axis], farthest[axis]));
        at = [at[0] + step[0], at[1] + step[1]];
        let found = of(at);
        let squared = step[0] * step[0] + step[1] * step[1];
        if squared < tolerance * tolerance {
            return Some((at, found));
        }
        for (row, (before, after)) in slopes.iter_mut().zip(off.into_iter().zip(found)) {
            let missed = after - before - (row[0] * step[0] + row[1] * step[1]);
            for (slope, part) in row.iter_mut().zip(step) {
                *slope += missed * part / squared;
            }
        }
        off = found;
    }
    None
}

fn first_slopes(
    of: &mut impl FnMut([f64; 2]) -> [f64; 2],
    at: [f64; 2],
    off: [f64; 2],
    farthest: [f64; 2],
) -> [[f64; 2]; 2] {
    let [by_one, by_other] = [0, 1].map(|axis| {
        let mut beside = at;
        let by = farthest[axis] * FIRST;
        beside[axis] += by;
        let found = of(beside);
        [0, 1].map(|row| (found[row] - off[row]) / by)
    });
    [0, 1].map(|row| [by_one[row], by_other[row]])
}

/// The step by which two straight functions grow as wanted; nothing where their slopes do not tell.
fn solved([[a, b], [c, d]]: [[f64; 2]; 2], wanted: [f64; 2]) -> Option<[f64; 2]> {
    let over = 1.0 / (a * d - b * c);
    let step = [
        (d * wanted[0] - b * wanted[1]) * over,
        (a * wanted[1] - c * wanted[0]) * over,
    ];
    step.iter().all(|part| part.is_finite()).then_some(step)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_circle_and_a_line_meet_where_they_do() {
        let of = |[x, y]: [f64; 2]| [x * x + y * y - 25.0, y - 2.0 * x + 2.0];
        let (found, left) = root(of, [2.5, 3.0], [1.0, 1.0], 1e-9).expect("they meet");
        assert!(left.iter().all(|value| value.abs() < 1e-9), "{left:?}");
        // Geometry: 5 x^2 - 8 x - 21 = 0.
        let x = (4.0 + 121_f64.sqrt()) / 5.0;
        assert!(
            (found[0] - x).abs() < 1e-9 && (found[1] - 2.0 * x + 2.0).abs() < 1e-9,
            "{found:?}"
        );
    }

    #[test]
    fn what_never_meets_is_told() {
        let apart = |[x, y]: [f64; 2]| [x * x + y * y + 1.0, y];
        assert_eq!(root(apart, [1.0, 1.0], [1.0, 1.0], 1e-9), None);
        let nowhere = |_: [f64; 2]| [f64::NAN; 2];
        assert_eq!(root(nowhere, [1.0, 1.0], [1.0, 1.0], 1e-9), None);
    }
}
