//! Ways put in order: the fewest flies changed, those of the box before other
//! beads, the least that is only advised against, lengths as near as can be to
//! what the rules would mend to, the least line to cut or tie.

use super::asks::Ask;
use super::change::{Change, Target, To, without};
use super::search::Search;
use super::{Way, values};
use crate::apply::{Wanted, apply};
use rig::measure::{self, Thing};
use rustc_hash::{FxHashMap, FxHashSet};

/// How many ways are kept, and how many of them may change the same parts.
const KEPT: usize = 3;
const ALIKE: usize = 2;

/// What sets a way behind another, the weightiest first.
#[derive(Clone, Copy, PartialEq, PartialOrd, Debug)]
struct Rank {
    flies: usize,
    beads: usize,
    advice: usize,
    off: f64,
    line: f64,
    fly: f64,
}

/// The best of the sets that were found.
pub(super) fn ranked(
    search: &mut Search<'_, '_, '_, '_>,
    found: Vec<Vec<Change>>,
    pass: &FxHashSet<Ask>,
) -> Vec<Way> {
    let mut wants = Wants::default();
    let mut all: Vec<(Rank, Vec<Change>)> = found
        .into_iter()
        .map(|changes| (rank(search, &changes, pass, &mut wants), changes))
        .collect();
    sort(&mut all);
    // Of sets that differ in lengths alone the first is the best.
    let mut met = FxHashSet::default();
    all.retain(|(_, changes)| met.insert(changes.iter().map(shape).collect::<Vec<_>>()));
    let before = advice(search, &[]);
    for (rank, changes) in &mut all {
        rank.advice = advice(search, changes).saturating_sub(before);
    }
    sort(&mut all);
    without_needless_beads(search, &mut all);
    let mut alike: Vec<Vec<Target>> = Vec::new();
    all.retain(|(_, changes)| {
        let targets: Vec<Target> = changes.iter().map(|change| change.target).collect();
        let count = alike.iter().filter(|other| **other == targets).count();
        alike.push(targets);
        count < ALIKE
    });
    all.truncate(KEPT);
    all.into_iter().map(|(_, changes)| Way { changes }).collect()
}

fn sort(all: &mut [(Rank, Vec<Change>)]) {
    all.sort_by(|(a, changes), (b, others)| {
        let ranks = a.partial_cmp(b).unwrap_or(std::cmp::Ordering::Equal);
        ranks.then_with(|| changes.cmp(others))
    });
}

/// A change without its length.
fn shape(change: &Change) -> (Target, Option<To>) {
    let to = Some(change.to).filter(|to| !matches!(to, To::Length(_)));
    (change.target, to)
}

/// Another bead is a fly to be tied first: where one of the box does as well it is not offered.
fn without_needless_beads(search: &Search<'_, '_, '_, '_>, all: &mut Vec<(Rank, Vec<Change>)>) {
    let targets = |changes: &[Change]| changes.iter().map(|change| change.target).collect::<Vec<_>>();
    let of_box: FxHashSet<Vec<Target>> = all
        .iter()
        .filter(|(_, changes)| beads(search, changes) == 0)
        .map(|(_, changes)| targets(changes))
        .collect();
    all.retain(|(_, changes)| beads(search, changes) == 0 || !of_box.contains(&targets(changes)));
}

fn beads(search: &Search<'_, '_, '_, '_>, changes: &[Change]) -> usize {
    let tied = changes.iter().filter_map(|change| search.bank.choice(*change));
    tied.filter(|choice| choice.block.is_none()).count()
}

/// What rules would mend a length to, by the other changes and the length's target, in metres.
type Wants = FxHashMap<(Vec<Change>, Target), Option<f64>>;

fn rank(
    search: &mut Search<'_, '_, '_, '_>,
    changes: &[Change],
    pass: &FxHashSet<Ask>,
    wants: &mut Wants,
) -> Rank {
    let flies = changes.iter().filter(|change| matches!(change.target, Target::Fly(_)));
    let cut = |change: &Change| {
        let (now, was) = search.bank.lengths(*change)?;
        Some((now.si() - was.si()).abs())
    };
    Rank {
        flies: flies.count(),
        beads: beads(search, changes),
        advice: 0,
        line: changes.iter().filter_map(cut).sum(),
        fly: changes.iter().filter_map(|change| unlike(search, *change)).sum(),
        off: changes
            .iter()
            .filter_map(|change| {
                let (now, _) = search.bank.lengths(*change)?;
                let key = (without(changes, change.target), change.target);
                let wanted = match wants.get(&key) {
                    Some(known) => *known,
                    None => {
                        let wanted = wanted(search, &key.0, change.target, pass);
                        *wants.entry(key).or_insert(wanted)
                    }
                };
                wanted.map(|wanted| (now.si() - wanted).abs())
            })
            .sum(),
    }
}

/// What the rule that stands against the other changes would mend a length to; nothing where none says so.
fn wanted(
    search: &mut Search<'_, '_, '_, '_>,
    others: &[Change],
    target: Target,
    pass: &FxHashSet<Ask>,
) -> Option<f64> {
    let against = search.first(others, pass)?;
    if !search.asked.has_mend(against.ask) {
        return None;
    }
    let piece = search.bank.piece(target)?;
    let wanted = values::root(search.bank, search.asked, others, &against, piece, 0)?;
    Some(piece.of_steps(piece.steps(wanted)).si())
}

/// How unlike the fly that was there another one is: by what it weighs, and by its hook.
fn unlike(search: &Search<'_, '_, '_, '_>, change: Change) -> Option<f64> {
    let Target::Fly(fly) = change.target else { return None };
    let figure = |changes: &[Change], name: &str| {
        let measure = measure::of(measure::Kind::Fly, name)?;
        let value = search.bank.with(changes, |evaluation| evaluation.measure(measure, Thing::Fly(fly)));
        value.ok().map(|value| value.si())
    };
    let between = |name: &str| Some((figure(&[], name)?, figure(&[change], name)?));
    let mass = between("mass").map_or(1.0, |(was, now)| (now / was).ln().abs());
    let hook = between("hook-size").map_or(0.0, |(was, now)| (now - was).abs() / 20.0);
    Some(mass + hook)
}

/// How much is advised against.
fn advice(search: &Search<'_, '_, '_, '_>, changes: &[Change]) -> usize {
    let books = search.bank.books();
    search.bank.with(changes, |evaluation| {
        let found = apply(books, evaluation, Wanted::Bare).found;
        let advised = found.iter().filter(|found| found.finding.level == report::Level::Advice);
        advised.count()
    })
}
