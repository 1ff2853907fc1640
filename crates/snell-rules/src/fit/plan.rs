//! A day over several waters: one rig to start with, and from water to water the changes with the fewest knots to tie.
//!
//! Each water gives the sets of changes that make the rig right in it, by themselves and on top of those of the water
//! before. Which of them to take is then chosen for the whole day at once.

use super::asks::{Ask, Asks};
use super::bank::Bank;
use super::change::{Change, Target, To};
use super::fitted::{Fitted, fitted, hard};
use super::search::Search;
use super::way::Told;
use rustc_hash::{FxHashMap, FxHashSet};
use snell_units::in_order;

/// One water of the day.
#[derive(Clone, Debug)]
pub struct Stop {
    /// What is other on the rig than it is written.
    pub changes: Vec<Change>,
    /// Whether that makes it right there, as far as changes can.
    pub right: bool,
}

/// A day.
#[derive(Clone, Debug)]
pub struct Plan {
    /// The waters, in their order.
    pub stops: Vec<Stop>,
    /// How many knots are tied between the first water and the last.
    pub knots: usize,
}

/// How many sets of one water are looked at on top of those of the water before.
const MOST_EXTENDED: usize = 4;
/// No set has more changes on top of one of another water.
const MOST_MORE: usize = 2;

/// Plans a day. The banks are those of one rig.
pub fn plan(banks: &[Bank<'_, '_, '_>], told: Told<'_>) -> Plan {
    let mut pool: Vec<Vec<Change>> = vec![Vec::new()];
    let mut known = FxHashSet::default();
    let mut last: Vec<Vec<Change>> = Vec::new();
    for bank in banks {
        let here = ways_of(bank, &last, told);
        let new = here.iter().filter(|changes| known.insert((*changes).clone()));
        pool.extend(new.cloned());
        last = here;
    }
    let right: Vec<Vec<usize>> = banks.iter().map(|bank| right_in(bank, &pool, told)).collect();
    chosen(banks, &pool, &right)
}

/// The sets that make a rig right in a water, or come nearest to it; by themselves and on top of those of the water before.
fn ways_of(bank: &Bank<'_, '_, '_>, before: &[Vec<Change>], told: Told<'_>) -> Vec<Vec<Change>> {
    let asks = bank.with(&[], |evaluation| Asks::of(bank.books(), evaluation));
    let mut search = Search::new(bank, &asks, told);
    let ways = match fitted(&mut search, &asks) {
        Fitted::Right => return vec![Vec::new()],
        Fitted::Untold => Vec::new(),
        Fitted::Ways(ways) | Fitted::Nearest { ways, .. } => ways,
    };
    let mut all: Vec<Vec<Change>> = ways.into_iter().map(|way| way.changes).collect();
    let pass = let_pass(&mut search, &asks);
    for base in before.iter().filter(|base| !base.is_empty()).take(MOST_EXTENDED) {
        search.renew();
        let more = (0..=MOST_MORE).find_map(|more| {
            let found = search.all_on_top_of(base, more, &pass);
            (!found.is_empty()).then_some(found)
        });
        all.extend(more.into_iter().flatten().take(MOST_EXTENDED));
    }
    all
}

/// Which of the sets make a rig right in a water; all that come nearest where none does.
fn right_in(bank: &Bank<'_, '_, '_>, pool: &[Vec<Change>], told: Told<'_>) -> Vec<usize> {
    let asks = bank.with(&[], |evaluation| Asks::of(bank.books(), evaluation));
    let mut search = Search::new(bank, &asks, told);
    let pass = let_pass(&mut search, &asks);
    let right = pool.iter().enumerate();
    let right = right.filter(|(_, changes)| search.is_right(changes, &pass));
    right.map(|(index, _)| index).collect()
}

/// What no change removes, and the rig's own sums.
fn let_pass(search: &mut Search<'_, '_, '_, '_>, asks: &Asks<'_>) -> FxHashSet<Ask> {
    hard(search).union(asks.sums()).copied().collect()
}

/// What a day costs so far: the knots between waters, the knots before the first, the waters in which it is not right.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
struct Cost {
    not_right: usize,
    knots: usize,
    before: usize,
}

/// The cheapest day: for each set in each water the cheapest way to get there.
fn chosen(banks: &[Bank<'_, '_, '_>], pool: &[Vec<Change>], right: &[Vec<usize>]) -> Plan {
    let Some(bank) = banks.first() else {
        return Plan {
            stops: Vec::new(),
            knots: 0,
        };
    };
    let all: Vec<usize> = (0..pool.len()).collect();
    let mut days: Vec<FxHashMap<usize, (Cost, Option<usize>)>> = Vec::new();
    for right in right {
        let here = if right.is_empty() { &all } else { right };
        let wrong = usize::from(right.is_empty());
        let day = here.iter().map(|to| {
            let best = match days.last() {
                None => {
                    let before = knots(bank, &[], &pool[*to]);
                    (
                        Cost {
                            not_right: wrong,
                            knots: 0,
                            before,
                        },
                        None,
                    )
                }
                Some(day) => {
                    let from = day.iter().map(|(from, (cost, _))| {
                        let knots = cost.knots + knots(bank, &pool[*from], &pool[*to]);
                        (
                            Cost {
                                not_right: cost.not_right + wrong,
                                knots,
                                ..*cost
                            },
                            Some(*from),
                        )
                    });
                    from.min().unwrap_or((
                        Cost {
                            not_right: wrong,
                            knots: 0,
                            before: 0,
                        },
                        None,
                    ))
                }
            };
            (*to, best)
        });
        let day = day.collect();
        days.push(day);
    }
    let last = days
        .last()
        .and_then(|day| day.iter().min_by_key(|(set, (cost, _))| (*cost, **set)));
    let (mut at, knots) = last.map_or((0, 0), |(set, (cost, _))| (*set, cost.knots));
    let mut stops = Vec::new();
    for (day, right) in days.iter().zip(right).rev() {
        stops.push(Stop {
            changes: pool[at].clone(),
            right: !right.is_empty(),
        });
        if let Some((_, Some(from))) = day.get(&at) {
            at = *from;
        }
    }
    stops.reverse();
    Plan { stops, knots }
}

/// How many knots lie between two sets of changes: one for a fly, a tag or a piece that is trimmed, two for a piece that
/// becomes longer, none for a cast.
pub fn knots(bank: &Bank<'_, '_, '_>, from: &[Change], to: &[Change]) -> usize {
    let mut targets: Vec<Target> = from.iter().chain(to).map(|change| change.target).collect();
    in_order(&mut targets, Ord::cmp);
    targets.dedup();
    targets
        .into_iter()
        .map(|target| knots_of(bank, target, from, to))
        .sum()
}

fn knots_of(bank: &Bank<'_, '_, '_>, target: Target, from: &[Change], to: &[Change]) -> usize {
    let of = |changes: &[Change]| {
        changes
            .iter()
            .find(|change| change.target == target)
            .map(|change| change.to)
    };
    let (was, now) = (of(from), of(to));
    if was == now {
        return 0;
    }
    match target {
        Target::Cast => 0,
        Target::Fly(_) | Target::Tag(_) => 1,
        Target::Section(_) => {
            let length = |to: Option<To>| match (to, bank.piece(target)) {
                (Some(To::Length(steps)), _) => steps,
                (_, Some(piece)) => piece.steps(piece.value.si()),
                (_, None) => 0,
            };
            if length(now) > length(was) { 2 } else { 1 }
        }
    }
}
