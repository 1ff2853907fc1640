//! Sets of changes of a number, tried until none stands against the rig.
//!
//! A set that makes the rig right holds, for whatever stands against the rig
//! without it, a change that this hangs on. So only such changes are tried, and
//! what is quickly told is asked first. The work is bounded.

use super::asks::{Against, Ask, Asks};
use super::bank::Bank;
use super::change::{Change, Target, To, with, without};
use super::values;
use crate::fit::way::Told;
use rustc_hash::{FxHashMap, FxHashSet};
use snell_finding::Limit;
use snell_rig::measure::Thing;
use snell_units::in_order;

/// How much work an ask is by the states of the rig in its water that it needs, in some hundredths of a
/// millisecond: none, the drift, the sink or the line in the air as well.
const WORK: [usize; 3] = [1, 30, 250];

/// The most work that is done in one part of a fit: a second or two.
const MOST_WORK: usize = Limit::FitWork.count();

/// Of what is long in telling, so many values of a target show whether anything hangs on it.
const SHOWING: usize = 6;

/// Which asks are let pass.
type Pass = FxHashSet<Ask>;

/// What is known of one ask: that it holds, or what stands against it.
type Known = Option<Option<Against>>;

/// The search of one fit.
pub(super) struct Search<'s, 'a, 'w, 'p> {
    pub(super) bank: &'s Bank<'a, 'w, 'p>,
    pub(super) asked: &'s Asks<'p>,
    told: Told<'s>,
    work: usize,
    /// How much work may be done until it is broken off.
    bound: usize,
    broken_off: bool,
    /// What is known of each ask, by the changes that are made.
    known: FxHashMap<Vec<Change>, Vec<Known>>,
    /// What stood against the rig where no more changes could be made.
    blocking: FxHashSet<Ask>,
    /// How much nearer a target can bring an ask to what would do; nothing where it does not hang on it at all.
    helps: FxHashMap<(Ask, Target), Option<f64>>,
    even: FxHashMap<Target, Vec<To>>,
}

/// The sets of one number of changes.
struct Round<'r> {
    pass: &'r Pass,
    met: FxHashSet<Vec<Change>>,
    found: Vec<Vec<Change>>,
    /// Whether one set is enough.
    any: bool,
}

impl<'s, 'a, 'w, 'p> Search<'s, 'a, 'w, 'p> {
    pub(super) fn new(bank: &'s Bank<'a, 'w, 'p>, asked: &'s Asks<'p>, told: Told<'s>) -> Self {
        let even = bank.targets().map(|target| (target, values::even(bank, target)));
        Self {
            bank,
            asked,
            told,
            work: 0,
            bound: MOST_WORK,
            broken_off: false,
            known: FxHashMap::default(),
            blocking: FxHashSet::default(),
            helps: FxHashMap::default(),
            even: even.collect(),
        }
    }

    /// Whether some work was broken off.
    pub(super) fn broken_off(&self) -> bool {
        self.broken_off
    }

    /// Allows for as much work again.
    pub(super) fn renew(&mut self) {
        self.bound = self.work + MOST_WORK;
    }

    pub(super) fn asks(&self) -> Pass {
        self.asked.all().map(|(ask, _)| ask).collect()
    }

    /// Whether nothing that a change could touch stands against the rig.
    pub(super) fn is_right(&mut self, changes: &[Change], pass: &Pass) -> bool {
        self.first(changes, pass).is_none()
    }

    /// Every ask that does not hold, and that a change could touch.
    pub(super) fn against(&mut self, changes: &[Change]) -> Vec<Ask> {
        let mut pass = Pass::default();
        let mut all = Vec::new();
        while let Some(against) = self.first(changes, &pass) {
            pass.insert(against.ask);
            all.push(against.ask);
        }
        all
    }

    /// Every ask that does not hold, and that no change could touch.
    pub(super) fn untouched(&mut self) -> Vec<Ask> {
        let asked = self.asked;
        let against = self.bank.with(&[], |evaluation| {
            let all = asked
                .all()
                .filter_map(|(ask, _)| asked.against(ask, evaluation).into_iter().next());
            all.collect::<Vec<_>>()
        });
        let untouched = against
            .into_iter()
            .filter(|against| self.touching(&[], against).is_empty());
        untouched.map(|against| against.ask).collect()
    }

    /// Every ask that stood in the way of some set, the lightest first, and of one level those that are longest
    /// in telling.
    pub(super) fn in_the_way(&self) -> Vec<Ask> {
        let blocks = |(ask, _): &(Ask, usize)| self.blocking.contains(ask);
        let mut all: Vec<(Ask, usize)> = self.asked.all().filter(blocks).collect();
        in_order(&mut all, |(one, states), (other, others)| {
            let levels = self.asked.level(*one).cmp(&self.asked.level(*other));
            levels.then(others.cmp(states))
        });
        all.into_iter().map(|(ask, _)| ask).collect()
    }

    /// Every set of so many changes that makes the rig right.
    pub(super) fn all_of(&mut self, changes: usize, pass: &Pass) -> Vec<Vec<Change>> {
        self.round(changes, pass, false)
    }

    /// Every set of so many changes on top of others that makes the rig right.
    pub(super) fn all_on_top_of(&mut self, base: &[Change], more: usize, pass: &Pass) -> Vec<Vec<Change>> {
        self.round_from(base, more, pass, false)
    }

    /// Whether there is such a set.
    pub(super) fn has_any(&mut self, changes: usize, pass: &Pass) -> bool {
        !self.round(changes, pass, true).is_empty()
    }

    fn round(&mut self, changes: usize, pass: &Pass, any: bool) -> Vec<Vec<Change>> {
        self.round_from(&[], changes, pass, any)
    }

    fn round_from(&mut self, base: &[Change], more: usize, pass: &Pass, any: bool) -> Vec<Vec<Change>> {
        let mut round = Round {
            pass,
            met: FxHashSet::default(),
            found: Vec::new(),
            any,
        };
        self.visit(base, more, &mut round);
        round.found
    }

    fn visit(&mut self, changes: &[Change], left: usize, round: &mut Round<'_>) {
        if self.work >= self.bound {
            self.broken_off = true;
            return;
        }
        if round.any && !round.found.is_empty() {
            return;
        }
        self.work += 1;
        (self.told)(MOST_WORK - (self.bound - self.work), MOST_WORK);
        let Some(against) = self.first(changes, round.pass) else {
            round.found.push(changes.to_vec());
            return;
        };
        if left == 0 {
            self.blocking.insert(against.ask);
            return;
        }
        // Of so many changes one takes away its share at least; half of it is asked, for they are not just summed.
        let share = against.gap().unwrap_or_default() * 0.5 / left as f64;
        for target in self.touching(changes, &against) {
            let helps = self
                .help(changes, &against, target)
                .is_some_and(|help| help >= share);
            if !helps || changes.iter().any(|change| change.target == target) {
                continue;
            }
            for to in self.values(changes, &against, target) {
                let next = with(changes, Change { target, to });
                if round.met.insert(next.clone()) {
                    self.visit(&next, left - 1, round);
                }
            }
        }
    }

    /// The first thing that stands against the rig and that some change touches.
    pub(super) fn first(&mut self, changes: &[Change], pass: &Pass) -> Option<Against> {
        let asked = self.asked;
        let mut known = self.known.remove(changes).unwrap_or_default();
        known.resize(asked.all().count(), None);
        let open = || {
            asked
                .all()
                .enumerate()
                .filter(|(_, (ask, _))| !pass.contains(ask))
        };
        let told = open().find_map(|(index, _)| match &known[index] {
            Some(None) => None,
            known => Some(known.clone()),
        });
        let first = match told {
            None => None,
            Some(Some(against)) => against,
            Some(None) => self.bank.with(changes, |evaluation| {
                open().find_map(|(index, (ask, states))| {
                    let against = known[index].get_or_insert_with(|| {
                        self.work += WORK[states.min(WORK.len() - 1)];
                        asked.against(ask, evaluation).into_iter().next()
                    });
                    against.clone()
                })
            }),
        };
        self.known.insert(changes.to_vec(), known);
        let against = first?;
        if !self.touching(changes, &against).is_empty() {
            return Some(against);
        }
        let mut more = pass.clone();
        more.insert(against.ask);
        self.first(changes, &more)
    }

    /// The targets that an ask hangs on.
    fn touching(&mut self, changes: &[Change], against: &Against) -> Vec<Target> {
        let targets: Vec<Target> = self.bank.targets().collect();
        targets
            .into_iter()
            .filter(|target| self.help(changes, against, *target).is_some())
            .collect()
    }

    /// How much nearer a target can bring what was found to what would do; without bound where it can take all
    /// of it away, or where that is no figure.
    fn help(&mut self, changes: &[Change], against: &Against, target: Target) -> Option<f64> {
        let key = (against.ask, target);
        if let Some(known) = self.helps.get(&key) {
            return *known;
        }
        let others = without(changes, target);
        let states = self.asked.all().find(|(ask, _)| *ask == against.ask);
        let states = states.map_or(0, |(_, states)| states.min(WORK.len() - 1));
        let (bank, asked) = (self.bank, self.asked);
        let told =
            |changes: &[Change]| bank.with(changes, |evaluation| asked.against(against.ask, evaluation));
        let as_is = told(&others);
        let all = self.even.get(&target).map_or(&[][..], Vec::as_slice);
        let stride = match (states, target) {
            (0, _) | (_, Target::Fly(_) | Target::Cast) => 1,
            _ => all.len().div_ceil(SHOWING).max(1),
        };
        let tried = all.iter().step_by(stride).chain(all.last());
        self.work += WORK[states] * (tried.clone().count() + 1);
        let helps = tried.filter_map(|to| help(&as_is, &told(&with(&others, Change { target, to: *to }))));
        let most = helps.reduce(f64::max);
        self.helps.insert(key, most);
        most
    }

    fn values(&mut self, changes: &[Change], against: &Against, target: Target) -> Vec<To> {
        let mut values = self.even.get(&target).cloned().unwrap_or_default();
        if let Some(piece) = self.bank.piece(target) {
            let own = To::Length(piece.steps(piece.value.si()));
            let solved = values::solved(self.bank, self.asked, changes, against, piece);
            let tried = values::span(self.bank, piece);
            let within = |to: &To| matches!(to, To::Length(steps) if tried.contains(steps));
            values.extend(solved.into_iter().filter(|to| *to != own && within(to)));
            in_order(&mut values, Ord::cmp);
            values.dedup();
        }
        values
    }
}

/// How much nearer to what would do a rig has come; nothing where all is as it was.
fn help(before: &[Against], after: &[Against]) -> Option<f64> {
    let figures = |all: &[Against]| -> Vec<(Thing, Vec<f64>)> {
        all.iter().map(|one| (one.thing, one.figures.clone())).collect()
    };
    if figures(before) == figures(after) {
        return None;
    }
    let gap = |all: &[Against]| all.iter().map(Against::gap).sum::<Option<f64>>();
    match (gap(before), gap(after)) {
        (Some(was), Some(now)) if after.len() >= before.len() => Some((was - now).max(0.0)),
        _ => Some(f64::INFINITY),
    }
}
