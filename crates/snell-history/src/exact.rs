//! An exact test of whether one of two ways to fish caught more, by outings.
//!
//! Were there no difference, it would not have mattered which outings of a water
//! were fished in which way. Every other way to share them out is counted, and
//! how many of those set the two as far apart as they were. Nothing is assumed
//! of how fish come, and the days of a water are only held against each other.
//! Source: E. J. G. Pitman, Significance tests which may be applied to samples
//! from any populations, Supplement to the Journal of the Royal Statistical
//! Society 4 (1937), 119 to 130; with strata as there for blocks.

use std::collections::BTreeMap;

/// Outings of one kind of water: the fish of each, and whether it was fished in the first way.
pub type Stratum = Vec<(u32, bool)>;

/// What comes of a test.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Chance {
    /// How likely outings that were shared out by lot would be as far apart, or further; from both sides.
    pub by_lot: f64,
    /// The least that could have come of as many outings.
    pub least: f64,
}

/// More fish than these on one outing, and more outings than these, are not counted through.
const MOST_FISH: u32 = 500;
const MOST_OUTINGS: usize = 200;

/// Tests outings; nothing where no water was fished in both ways, or where there are too many to go through.
pub fn chance(strata: &[Stratum]) -> Option<Chance> {
    let both = |stratum: &&Stratum| {
        let first = stratum.iter().filter(|(_, first)| *first).count();
        0 < first && first < stratum.len()
    };
    let strata: Vec<&Stratum> = strata.iter().filter(both).collect();
    let outings: usize = strata.iter().map(|stratum| stratum.len()).sum();
    let many = strata
        .iter()
        .any(|stratum| stratum.iter().any(|(fish, _)| *fish > MOST_FISH));
    if strata.is_empty() || outings > MOST_OUTINGS || many {
        return None;
    }
    let mut all = BTreeMap::from([(0, 1.0)]);
    let mut seen = 0;
    let mut usual = 0.0;
    for stratum in strata {
        let fish: u32 = stratum.iter().map(|(fish, _)| fish).sum();
        let first = stratum.iter().filter(|(_, first)| *first);
        let many = first.clone().count();
        seen += first.map(|(fish, _)| fish).sum::<u32>();
        usual += f64::from(fish) * many as f64 / stratum.len() as f64;
        all = both_of(&all, &shares(stratum, many));
    }
    let off = |sum: u32| (f64::from(sum) - usual).abs();
    let at_least = |off_by: f64| {
        // Sums of whole numbers over a whole number: what is equal is equal but for rounding.
        let far = all.iter().filter(|(sum, _)| off(**sum) >= off_by - 1e-9);
        far.map(|(_, share)| share).sum::<f64>()
    };
    let furthest = all.keys().map(|sum| off(*sum)).fold(0.0, f64::max);
    Some(Chance {
        by_lot: at_least(off(seen)),
        least: at_least(furthest),
    })
}

/// How likely each sum is of so many outings drawn by lot out of a stratum.
fn shares(stratum: &Stratum, many: usize) -> BTreeMap<u32, f64> {
    // By how many are drawn: how many ways there are to each sum.
    let mut ways: Vec<BTreeMap<u32, f64>> = vec![BTreeMap::new(); many + 1];
    ways[0].insert(0, 1.0);
    for (fish, _) in stratum {
        for drawn in (0..many).rev() {
            let with: Vec<(u32, f64)> = ways[drawn]
                .iter()
                .map(|(sum, ways)| (sum + fish, *ways))
                .collect();
            for (sum, more) in with {
                *ways[drawn + 1].entry(sum).or_default() += more;
            }
        }
    }
    let mut shares = ways.pop().unwrap_or_default();
    let all: f64 = shares.values().sum();
    shares.values_mut().for_each(|ways| *ways /= all);
    shares
}

/// Sums of two draws that know nothing of each other.
fn both_of(one: &BTreeMap<u32, f64>, other: &BTreeMap<u32, f64>) -> BTreeMap<u32, f64> {
    let mut both = BTreeMap::new();
    for (sum, share) in one {
        for (more, part) in other {
            *both.entry(sum + more).or_default() += share * part;
        }
    }
    both
}

#[cfg(test)]
mod tests {
    use super::*;

    fn close(one: f64, other: f64) -> bool {
        (one - other).abs() < 1e-12
    }

    /// By hand: of three and three outings there are 20 ways to share them out, and only two set them this far apart.
    #[test]
    fn few_outings_are_shared_out_in_all_ways() {
        let stratum = vec![
            (5, true),
            (4, true),
            (6, true),
            (1, false),
            (0, false),
            (2, false),
        ];
        let chance = chance(&[stratum]).expect("both ways were fished");
        assert!(
            close(chance.by_lot, 0.1) && close(chance.least, 0.1),
            "{chance:?}"
        );
    }

    /// By hand: a pair in each of ten waters, always one fish more in the first way. Two of 1,024 ways are as far apart.
    #[test]
    fn waters_are_held_against_themselves() {
        let strata: Vec<Stratum> = (0..10)
            .map(|water| vec![(water * 5 + 1, true), (water * 5, false)])
            .collect();
        let chance = chance(&strata).expect("both ways were fished");
        assert!(close(chance.by_lot, 2.0 / 1024.0), "{chance:?}");
    }

    #[test]
    fn what_was_fished_in_one_way_only_says_nothing() {
        assert_eq!(chance(&[vec![(3, true), (4, true)], vec![(9, false)]]), None);
        let same = chance(&[vec![(3, true), (3, false)]]).expect("both");
        assert!(close(same.by_lot, 1.0), "{same:?}");
    }
}
