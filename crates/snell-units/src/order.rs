//! Things put in order.

use std::cmp::Ordering;

/// Puts things in order; equal ones stay as they were.
///
/// The sorts of the standard library are compiled anew for each type and each way to compare, 4 kB every time, and whoever
/// opens a page with a rig fetches all of them. Of this one only what compares and what moves is. Where thousands of
/// things are sorted, take the library's.
pub fn in_order<T>(things: &mut [T], mut compare: impl FnMut(&T, &T) -> Ordering) {
    let mut order: Vec<usize> = (0..things.len()).collect();
    sort(&mut order, &mut |one, other| {
        compare(&things[one], &things[other])
    });
    for at in 0..order.len() {
        let mut from = order[at];
        // What stood before this place was moved on, to where the order of that place says.
        while from < at {
            from = order[from];
        }
        order[at] = from;
        things.swap(at, from);
    }
}

fn sort(order: &mut [usize], compare: &mut dyn FnMut(usize, usize) -> Ordering) {
    order.sort_unstable_by(|one, other| compare(*one, *other).then(one.cmp(other)));
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn it_is_the_order_of_the_standard_librarys_stable_sort(mut things in proptest::collection::vec((0..9_u8, 0..99_u8), 0..60)) {
            let mut expected = things.clone();
            expected.sort_by_key(|(key, _)| *key);
            in_order(&mut things, |(one, _), (other, _)| one.cmp(other));
            prop_assert_eq!(things, expected);
        }
    }
}
