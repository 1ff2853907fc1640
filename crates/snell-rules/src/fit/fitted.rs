//! One fit: the fewest changes that make a rig right for its water, or what comes nearest.

use super::asks::{Ask, Asks};
use super::bank::Bank;
use super::rank::ranked;
use super::search::Search;
use super::way::{Told, Way};
use rustc_hash::FxHashSet;

/// No fit makes more changes: beyond it one ties another rig.
pub const MOST_CHANGES: usize = 3;

/// A fit.
#[derive(Clone, Debug)]
pub struct Fit {
    /// What it came to.
    pub fitted: Fitted,
    /// The rules above advice that find something which hangs on nothing that is changed at the bank.
    pub untouched: Vec<String>,
}

/// How many things are tried to be left, one after the other, where not all can be mended.
const MOST_LEFT: usize = 4;

/// What a fit came to.
#[derive(Clone, Debug)]
pub enum Fitted {
    /// What the drift needs is unsaid, so that nothing can be told.
    Untold,
    /// Nothing stands against the rig that a change could remove.
    Right,
    /// Ways that leave nothing that a change could remove, the best first.
    Ways(Vec<Way>),
    /// No set of changes leaves nothing; these leave the least, and may be none at all.
    Nearest {
        /// The nearest ways, the best first.
        ways: Vec<Way>,
        /// Whether the work was broken off before every set was tried.
        broken_off: bool,
    },
}

/// Fits a rig to the water that its bank has.
pub fn fit(bank: &Bank<'_, '_, '_>, told: Told<'_>) -> Fit {
    let asks = bank.with(&[], |evaluation| Asks::of(bank.books(), evaluation));
    let mut search = Search::new(bank, &asks, told);
    let untouched = search.untouched();
    let fitted = match untouched.contains(&Ask::Drift) {
        true => Fitted::Untold,
        false => fitted(&mut search, &asks),
    };
    let names = untouched
        .into_iter()
        .filter_map(|ask| asks.rule(ask).map(str::to_owned));
    Fit {
        fitted,
        untouched: names.collect(),
    }
}

pub(super) fn fitted(search: &mut Search<'_, '_, '_, '_>, asks: &Asks<'_>) -> Fitted {
    if search.is_right(&[], asks.sums()) {
        return Fitted::Right;
    }
    // What no changes remove, whatever else they do, need not be waited for.
    let hard = hard(search);
    let known = !search.broken_off();
    let pass = hard.union(asks.sums()).copied().collect();
    if search.is_right(&[], &pass) {
        return if known {
            Fitted::Right
        } else {
            nearest(Vec::new(), search)
        };
    }
    if let Some(ways) = ways(search, &hard) {
        return if known {
            Fitted::Ways(ways)
        } else {
            nearest(ways, search)
        };
    }
    let ways = leaving_one(search, &hard).unwrap_or_default();
    nearest(ways, search)
}

fn nearest(ways: Vec<Way>, search: &Search<'_, '_, '_, '_>) -> Fitted {
    Fitted::Nearest {
        ways,
        broken_off: search.broken_off(),
    }
}

/// The ways of the fewest changes, with some asks let pass. The rig's own sums are kept where so many changes
/// can keep them.
fn ways(search: &mut Search<'_, '_, '_, '_>, pass: &FxHashSet<Ask>) -> Option<Vec<Way>> {
    search.renew();
    let moved: FxHashSet<Ask> = pass.union(search.asked.sums()).copied().collect();
    for changes in 1..=MOST_CHANGES {
        for pass in [pass, &moved] {
            let found = search.all_of(changes, pass);
            if !found.is_empty() {
                return Some(ranked(search, found, pass));
            }
        }
    }
    None
}

/// What no set of changes removes, even if nothing else is asked.
pub(super) fn hard(search: &mut Search<'_, '_, '_, '_>) -> FxHashSet<Ask> {
    let sums = search.asked.sums();
    let against = search.against(&[]);
    let against = against.into_iter().filter(|ask| !sums.contains(ask));
    let all = search.asks();
    let is_hard = |ask: &Ask| {
        search.renew();
        let others: FxHashSet<Ask> = all.iter().filter(|other| *other != ask).copied().collect();
        (1..=MOST_CHANGES).all(|changes| !search.has_any(changes, &others))
    };
    against.filter(is_hard).collect()
}

/// Ways that leave one thing more than what none removes, the lightest that can be left.
fn leaving_one(search: &mut Search<'_, '_, '_, '_>, hard: &FxHashSet<Ask>) -> Option<Vec<Way>> {
    let left = search.in_the_way();
    let sums = search.asked.sums();
    let left = left
        .into_iter()
        .filter(|ask| !hard.contains(ask) && !sums.contains(ask));
    left.take(MOST_LEFT).find_map(|ask| {
        let mut pass = hard.clone();
        pass.insert(ask);
        let moved = pass.union(sums).copied().collect();
        if search.is_right(&[], &moved) {
            // To change nothing leaves no more than this.
            return Some(Vec::new());
        }
        ways(search, &pass)
    })
}
