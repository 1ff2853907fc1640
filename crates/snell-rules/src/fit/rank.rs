//! Ways put in order: those that leave the butt alone, the fewest flies changed, those of the box before other
//! beads, the least that is only advised against, what is lengthened as near as
//! can be to what the rules would mend it to, the least line to cut or tie.

use super::asks::Ask;
use super::change::{Change, Target, To, without};
use super::search::Search;
use super::values;
use crate::apply::{Wanted, apply};
use crate::fit::way::Way;
use rustc_hash::{FxHashMap, FxHashSet};
use snell_rig::measure::{self, Thing};
use snell_units::in_order;

/// How many ways are kept, how many of them may change the same parts, and how many are looked at again.
const KEPT: usize = 3;
const ALIKE: usize = 2;
const LOOKED_AT: usize = 24;

/// What sets a way behind another, the weightiest first.
#[derive(Clone, Copy, PartialEq, PartialOrd, Debug)]
struct Rank {
    butts: usize,
    flies: usize,
    beads: usize,
    advice: usize,
    off: f64,
    fly: f64,
    line: f64,
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
    all.truncate(LOOKED_AT);
    let before = advice(search, &[]);
    for (rank, changes) in &mut all {
        *changes = refined(search, changes, pass, &mut wants);
        *rank = self::rank(search, changes, pass, &mut wants);
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
    in_order(all, |(a, changes), (b, others)| {
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
    let flies = changes
        .iter()
        .filter(|change| matches!(change.target, Target::Fly(_)));
    let cut = |change: &Change| {
        let (now, was) = search.bank.lengths(*change)?;
        Some((now.si() - was.si()).abs())
    };
    let butts = changes.iter().filter(|change| search.bank.is_butt(change.target));
    Rank {
        butts: butts.count(),
        flies: flies.count(),
        beads: beads(search, changes),
        advice: 0,
        line: changes.iter().filter_map(cut).sum(),
        fly: changes.iter().filter_map(|change| unlike(search, *change)).sum(),
        off: changes
            .iter()
            .filter_map(|change| {
                let (now, _) = search.bank.lengths(*change)?;
                let wanted = wanted(search, changes, change.target, pass, wants)?;
                Some((now.si() - wanted).abs())
            })
            .sum(),
    }
}

/// What the rule that stands against the other changes would lengthen a piece to; nothing where none does.
fn wanted(
    search: &mut Search<'_, '_, '_, '_>,
    changes: &[Change],
    target: Target,
    pass: &FxHashSet<Ask>,
    wants: &mut Wants,
) -> Option<f64> {
    let key = (without(changes, target), target);
    if let Some(known) = wants.get(&key) {
        return *known;
    }
    let against = search.first(&key.0, pass);
    let mended = against.filter(|against| search.asked.has_mend(against.ask));
    let piece = search.bank.piece(target);
    let wanted = mended.zip(piece).and_then(|(against, piece)| {
        let exact = values::root(search.bank, search.asked, &key.0, &against, piece, 0)?;
        let mended = piece.of_steps(piece.steps(exact)).si();
        // Cut line does not come back, so no more is trimmed than must be.
        (mended > piece.value.si()).then_some(mended)
    });
    *wants.entry(key).or_insert(wanted)
}

/// The changes with each length as near as the rig allows to what a rule would mend it to, or else to what it
/// was. Lengths were tried in wide steps, so something nearer may do.
fn refined(
    search: &mut Search<'_, '_, '_, '_>,
    changes: &[Change],
    pass: &FxHashSet<Ask>,
    wants: &mut Wants,
) -> Vec<Change> {
    let mut refined = changes.to_vec();
    for index in 0..refined.len() {
        let (target, To::Length(now)) = (refined[index].target, refined[index].to) else {
            continue;
        };
        let Some(piece) = search.bank.piece(target) else {
            continue;
        };
        let wanted = wanted(search, &refined, target, pass, wants);
        let goal = piece.steps(wanted.unwrap_or_else(|| piece.value.si()));
        let mut does = |steps: u32| {
            let mut tried = refined.clone();
            tried[index].to = To::Length(steps);
            search.is_right(&tried, pass)
        };
        let nearest = nearest(now, goal, &mut does);
        // A whole inch or five centimetres is easier to lay off, where it lies on the right side.
        let even = values::even_steps(piece);
        let even = [nearest.next_multiple_of(even), nearest / even * even];
        let between = |steps: &u32| (nearest.min(now)..=nearest.max(now)).contains(steps);
        let easy = even
            .into_iter()
            .filter(|_| nearest != goal)
            .find(|steps| between(steps) && does(*steps));
        refined[index].to = To::Length(easy.unwrap_or(nearest));
    }
    refined
}

/// Between a length that does and one that is wished for, the one nearest to the wish that does.
fn nearest(mut does: u32, mut goal: u32, right: &mut impl FnMut(u32) -> bool) -> u32 {
    if right(goal) {
        return goal;
    }
    while does.abs_diff(goal) > 1 {
        let middle = does.midpoint(goal);
        if right(middle) {
            does = middle;
        } else {
            goal = middle;
        }
    }
    does
}

/// How unlike the fly that was there another one is: by what it weighs, and by its hook.
fn unlike(search: &Search<'_, '_, '_, '_>, change: Change) -> Option<f64> {
    let Target::Fly(fly) = change.target else {
        return None;
    };
    let figure = |changes: &[Change], name: &str| {
        let measure = measure::of(measure::Kind::Fly, name)?;
        let value = search
            .bank
            .with(changes, |evaluation| evaluation.measure(measure, Thing::Fly(fly)));
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
        let advised = found
            .iter()
            .filter(|found| found.finding.level == snell_finding::Level::Advice);
        advised.count()
    })
}
