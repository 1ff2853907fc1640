//! Hatching: slant strokes over a box, which a copier keeps where it loses a tint.

use crate::scene::{Point, at};

/// Between two strokes, along either edge.
const APART: f64 = 7.0;

/// Strokes that rise to the right, over the box between its upper left and its lower right corner.
pub(crate) fn strokes(from: Point, to: Point) -> impl Iterator<Item = Vec<Point>> {
    let (wide, tall) = ((to.x - from.x).max(0.0), (to.y - from.y).max(0.0));
    let count = ((wide + tall) / APART).ceil() as usize;
    (1..count).map(move |index| {
        // Each runs where the ways from the left and from the upper edge add up to one length.
        let sum = index as f64 * APART;
        let low = (sum - tall).max(0.0);
        let high = sum.min(wide);
        vec![
            at(from.x + low, from.y + (sum - low)),
            at(from.x + high, from.y + (sum - high)),
        ]
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn strokes_stay_in_their_box() {
        let (from, to) = (at(10.0, 20.0), at(60.0, 33.0));
        let all: Vec<Point> = strokes(from, to).flatten().collect();
        assert!(all.len() > 10);
        for point in all {
            let inside = point.x >= from.x && point.x <= to.x && point.y >= from.y && point.y <= to.y;
            assert!(inside, "{point:?}");
        }
    }
}
