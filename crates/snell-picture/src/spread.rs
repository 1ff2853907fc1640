//! Labels beside one another on one edge: each as near as can be to where it
//! wants to stand, none over another, in order.

/// A label before it has its place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Wish {
    /// Where its middle would best stand.
    pub middle: f64,
    /// Its height.
    pub height: f64,
}

/// The upper edges of labels that wish for places in ascending order, with `gap` between them and within
/// `top` and `bottom` as far as they have room; where `grid` is not nought, on multiples of it.
///
/// With the heights above each label taken off, labels that do not overlap are places that do not descend,
/// so this is the regression of the wishes to an ascending row (pooling of neighbours that are out of order).
pub(crate) fn spread(wishes: &[Wish], gap: f64, (top, bottom): (f64, f64), grid: f64) -> Vec<f64> {
    let mut above = Vec::with_capacity(wishes.len());
    let mut stacked = 0.0;
    for wish in wishes {
        above.push(stacked);
        stacked += wish.height + gap;
    }
    let latest = (bottom - (stacked - gap)).max(top);
    // Pools of neighbours: the sum of their wishes and how many they are.
    let mut pools: Vec<(f64, usize)> = Vec::new();
    for (wish, above) in wishes.iter().zip(&above) {
        pools.push((wish.middle - wish.height / 2.0 - above, 1));
        while let [.., before, last] = pools.as_slice()
            && before.0 / before.1 as f64 > last.0 / last.1 as f64
        {
            let joined = (before.0 + last.0, before.1 + last.1);
            pools.truncate(pools.len() - 2);
            pools.push(joined);
        }
    }
    let places = pools
        .iter()
        .flat_map(|(sum, count)| std::iter::repeat_n(sum / *count as f64, *count));
    places
        .zip(above)
        .map(|(place, above)| snapped(place.clamp(top, latest), grid) + above)
        .collect()
}

fn snapped(place: f64, grid: f64) -> f64 {
    if grid > 0.0 {
        (place / grid).round() * grid
    } else {
        place
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn a_label_alone_stands_where_it_wishes() {
        let wish = Wish {
            middle: 50.0,
            height: 10.0,
        };
        assert_eq!(spread(&[wish], 2.0, (0.0, 100.0), 0.0), [45.0]);
    }

    #[test]
    fn two_that_wish_for_one_place_part_evenly() {
        let wish = Wish {
            middle: 50.0,
            height: 10.0,
        };
        assert_eq!(spread(&[wish, wish], 2.0, (0.0, 100.0), 0.0), [39.0, 51.0]);
    }

    proptest! {
        #[test]
        fn none_overlaps_none_leaves(mut middles in proptest::collection::vec(0.0..200.0f64, 1..12), height in 1.0..14.0f64) {
            middles.sort_by(f64::total_cmp);
            let wishes: Vec<Wish> = middles.iter().map(|middle| Wish { middle: *middle, height }).collect();
            let tops = spread(&wishes, 2.0, (0.0, 200.0), 0.0);
            for pair in tops.windows(2) {
                prop_assert!(pair[0] + height + 2.0 <= pair[1] + 1e-9);
            }
            prop_assert!(tops[0] >= 0.0 && tops[tops.len() - 1] + height <= 200.0 + 1e-9);
        }
    }
}
