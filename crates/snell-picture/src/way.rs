//! Lengths along a way of straight stretches.

/// A way through places.
pub(crate) type Way = [(f64, f64)];

/// How long it is.
pub(crate) fn length(way: &Way) -> f64 {
    way.windows(2).map(|pair| between(pair[0], pair[1])).sum()
}

/// The place so far along it; a way that is shorter ends where it ends.
pub(crate) fn along(way: &Way, mut far: f64) -> (f64, f64) {
    for pair in way.windows(2) {
        let ((x, y), (to_x, to_y)) = (pair[0], pair[1]);
        let length = between(pair[0], pair[1]);
        if far <= length && length > 0.0 {
            let share = far / length;
            return (x + (to_x - x) * share, y + (to_y - y) * share);
        }
        far -= length;
    }
    way.last().copied().unwrap_or_default()
}

/// The part of it between two lengths along it.
pub(crate) fn stretch(way: &Way, from: f64, to: f64) -> Vec<(f64, f64)> {
    let mut points = vec![along(way, from)];
    let mut far = 0.0;
    for pair in way.windows(2) {
        far += between(pair[0], pair[1]);
        if far > from && far < to {
            points.push(pair[1]);
        }
    }
    points.push(along(way, to));
    points
}

/// It in so many parts of one length.
pub(crate) fn parts(way: &Way, count: usize) -> Vec<Vec<(f64, f64)>> {
    let each = length(way) / count.max(1) as f64;
    let part = |index: usize| stretch(way, index as f64 * each, (index + 1) as f64 * each);
    (0..count).map(part).collect()
}

fn between(one: (f64, f64), other: (f64, f64)) -> f64 {
    let (across, down) = (other.0 - one.0, other.1 - one.1);
    // A root comes out alike on every machine, in the browser too; `hypot` does not.
    (across * across + down * down).sqrt()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn parts_are_of_one_length_and_make_the_way() {
        let bent = [(0.0, 0.0), (3.0, 0.0), (3.0, 3.0)];
        let halves = parts(&bent, 2);
        assert_eq!(halves[0], [(0.0, 0.0), (3.0, 0.0)]);
        assert_eq!(halves[1], [(3.0, 0.0), (3.0, 3.0)]);
        let thirds: Vec<f64> = parts(&bent, 3).iter().map(|part| length(part)).collect();
        assert!(
            thirds.iter().all(|length| (length - 2.0).abs() < 1e-9),
            "{thirds:?}"
        );
    }
}
