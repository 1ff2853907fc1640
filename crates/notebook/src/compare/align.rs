//! Which piece of one rig is which of another, in order: the cheapest way from
//! the one to the other, by the prices below.

use super::pieces::{Piece, TraitKind};
use std::ops::Range;

/// What happened to pieces; numbers count from the reel.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Step {
    /// The same piece in both, perhaps changed.
    Kept(usize, usize),
    /// Only the earlier rig has it.
    Gone(usize),
    /// Only the later rig has it.
    New(usize),
    /// One piece became several, with other things between them.
    Split(usize, Range<usize>),
    /// Several became one.
    Joined(Range<usize>, usize),
}

/// To put in or leave out a piece.
const COMES_OR_GOES: u32 = 160;
/// To take one label for another: with stuff and length changed as well it is another piece.
const OTHER_LABEL: u32 = 190;
/// To give or lose a label.
const NEW_LABEL: u32 = 30;
/// To cut a piece in two, or make two one.
const CUT: u32 = 60;
/// For a length that does not add up where one became several.
const NOT_EVEN: u32 = 70;
/// How far it may be out, as a share.
const MOST_OUT: f64 = 0.1;
/// How many pieces one may become, what stands between them counted.
const LONGEST_CUT: usize = 8;
/// Beyond this many pairs, only what opens and ends both rigs alike is matched.
const MOST_PAIRS: usize = 1_000_000;

/// The steps from one rig to another.
pub(super) fn align(was: &[Piece], now: &[Piece]) -> Vec<Step> {
    let same = |(one, other): &(&Piece, &Piece)| one.label == other.label && one.equals(other);
    let head = was.iter().zip(now).take_while(same).count();
    let (rest_was, rest_now) = (&was[head..], &now[head..]);
    let tail = rest_was
        .iter()
        .rev()
        .zip(rest_now.iter().rev())
        .take_while(same)
        .count();
    let middle = (
        &rest_was[..rest_was.len() - tail],
        &rest_now[..rest_now.len() - tail],
    );
    let mut steps: Vec<Step> = (0..head).map(|at| Step::Kept(at, at)).collect();
    let table = if middle.0.len().saturating_mul(middle.1.len()) > MOST_PAIRS {
        None
    } else {
        Some(Table::fill(was, now, middle.0, middle.1))
    };
    let inner = match table {
        Some(table) => table.way(),
        None => (0..middle.0.len())
            .map(Step::Gone)
            .chain((0..middle.1.len()).map(Step::New))
            .collect(),
    };
    steps.extend(inner.into_iter().map(|step| step.shifted(head)));
    let (was_end, now_end) = (was.len() - tail, now.len() - tail);
    steps.extend((0..tail).map(|at| Step::Kept(was_end + at, now_end + at)));
    steps
}

impl Step {
    fn shifted(self, by: usize) -> Self {
        let range = |range: Range<usize>| range.start + by..range.end + by;
        match self {
            Self::Kept(was, now) => Self::Kept(was + by, now + by),
            Self::Gone(was) => Self::Gone(was + by),
            Self::New(now) => Self::New(now + by),
            Self::Split(was, now) => Self::Split(was + by, range(now)),
            Self::Joined(was, now) => Self::Joined(range(was), now + by),
        }
    }
}

/// The least price from each place to the end, and the step that begins it.
struct Table {
    was: usize,
    now: usize,
    cells: Vec<(u32, Option<Step>)>,
}

impl Table {
    fn fill(all_was: &[Piece], all_now: &[Piece], was: &[Piece], now: &[Piece]) -> Self {
        let labels = Labels {
            was: all_was,
            now: all_now,
        };
        let mut table = Self {
            was: was.len(),
            now: now.len(),
            cells: vec![(0, None); (was.len() + 1) * (now.len() + 1)],
        };
        for at in (0..=was.len()).rev() {
            for to in (0..=now.len()).rev() {
                if at < was.len() || to < now.len() {
                    let best = table.best(&labels, was, now, at, to);
                    let cell = table.cell(at, to);
                    table.cells[cell] = best;
                }
            }
        }
        table
    }

    fn cell(&self, at: usize, to: usize) -> usize {
        at * (self.now + 1) + to
    }

    fn price(&self, at: usize, to: usize) -> u32 {
        self.cells[self.cell(at, to)].0
    }

    fn best(
        &self,
        labels: &Labels<'_>,
        was: &[Piece],
        now: &[Piece],
        at: usize,
        to: usize,
    ) -> (u32, Option<Step>) {
        let mut best = (u32::MAX, None);
        let mut offer = |price: u32, step: Step| {
            if price < best.0 {
                best = (price, Some(step));
            }
        };
        if at < was.len() && to < now.len() {
            if let Some(price) = labels.price(&was[at], &now[to]) {
                offer(price + self.price(at + 1, to + 1), Step::Kept(at, to));
            }
            for end in ends(now, to) {
                if let Some(price) = labels.cut(&was[at], &now[to..end], false) {
                    offer(price + self.price(at + 1, end), Step::Split(at, to..end));
                }
            }
            for end in ends(was, at) {
                if let Some(price) = labels.cut(&now[to], &was[at..end], true) {
                    offer(price + self.price(end, to + 1), Step::Joined(at..end, to));
                }
            }
        }
        if at < was.len() {
            offer(COMES_OR_GOES + self.price(at + 1, to), Step::Gone(at));
        }
        if to < now.len() {
            offer(COMES_OR_GOES + self.price(at, to + 1), Step::New(to));
        }
        best
    }

    /// The cheapest way, step by step.
    fn way(mut self) -> Vec<Step> {
        let (mut at, mut to) = (0, 0);
        let mut steps = Vec::new();
        while at < self.was || to < self.now {
            let cell = self.cell(at, to);
            let Some(step) = self.cells[cell].1.take() else {
                break;
            };
            (at, to) = match &step {
                Step::Kept(..) => (at + 1, to + 1),
                Step::Gone(_) => (at + 1, to),
                Step::New(_) => (at, to + 1),
                Step::Split(_, range) => (at + 1, range.end),
                Step::Joined(range, _) => (range.end, to + 1),
            };
            steps.push(step);
        }
        steps
    }
}

/// Where pieces that began as one may end.
fn ends(pieces: &[Piece], from: usize) -> Range<usize> {
    from + 2..pieces.len().min(from + LONGEST_CUT) + 1
}

/// A label that both rigs have binds its two pieces together.
struct Labels<'p> {
    was: &'p [Piece],
    now: &'p [Piece],
}

impl Labels<'_> {
    /// What it costs to take one piece for the other; nothing where that cannot be.
    fn price(&self, was: &Piece, now: &Piece) -> Option<u32> {
        let label = self.label_price(was, now)?;
        let role = match was.role == now.role {
            true => 0,
            false if was.is_section() && now.is_section() => 150,
            false => return None,
        };
        let sides: u32 = TraitKind::ALL
            .iter()
            .filter(|kind| !was.same(now, **kind))
            .map(|kind| side_price(was, now, *kind))
            .sum();
        Some(label + role + sides)
    }

    fn label_price(&self, was: &Piece, now: &Piece) -> Option<u32> {
        match (&was.label, &now.label) {
            (None, None) => Some(0),
            (Some(one), Some(other)) if same_label(one, other) => Some(0),
            (one, other) => {
                let bound = |label: &Option<String>, pieces: &[Piece]| {
                    label.as_ref().is_some_and(|label| has(pieces, label))
                };
                let tied = bound(one, self.now) || bound(other, self.was);
                let price = if one.is_some() && other.is_some() {
                    OTHER_LABEL
                } else {
                    NEW_LABEL
                };
                (!tied).then_some(price)
            }
        }
    }

    /// What it costs to take several pieces for one that was cut, or the other way round.
    fn cut(&self, whole: &Piece, parts: &[Piece], joined: bool) -> Option<u32> {
        let (first, last) = (parts.first()?, parts.last()?);
        if !(whole.is_section() && last.is_section()) || first.role != whole.role {
            return None;
        }
        let (others, own) = if joined {
            (self.now, self.was)
        } else {
            (self.was, self.now)
        };
        // A piece may bring a new label, but one that the other rig has must be the whole's own.
        let bound = |part: &Piece| match (&part.label, &whole.label) {
            (None, _) => true,
            (Some(one), Some(other)) if same_label(one, other) => true,
            (Some(label), _) => !has(others, label),
        };
        let kept = |label: &String| {
            parts
                .iter()
                .any(|part| part.label.as_ref().is_some_and(|other| same_label(label, other)))
        };
        if whole
            .label
            .as_ref()
            .is_some_and(|label| has(own, label) && !kept(label))
        {
            return None;
        }
        let mut sum = 0.0;
        let mut price = CUT;
        for part in parts {
            if !part.is_section() {
                price += COMES_OR_GOES;
                continue;
            }
            let fits = part.role == whole.role && part.same(whole, TraitKind::Stuff);
            // Beside a piece that kept its length another was put in; nothing was cut.
            if !(fits && bound(part)) || part.same(whole, TraitKind::Length) {
                return None;
            }
            sum += part.length()?;
        }
        let length = whole.length()?;
        let out = (sum - length).abs() / length.max(f64::MIN_POSITIVE);
        match out {
            out if out > MOST_OUT => None,
            out if out > 1e-6 => Some(price + NOT_EVEN),
            _ => Some(price),
        }
    }
}

fn has(pieces: &[Piece], label: &str) -> bool {
    pieces
        .iter()
        .any(|piece| piece.label.as_ref().is_some_and(|other| same_label(label, other)))
}

pub(super) fn same_label(one: &str, other: &str) -> bool {
    one == other || one.to_lowercase() == other.to_lowercase()
}

fn side_price(was: &Piece, now: &Piece, kind: TraitKind) -> u32 {
    match kind {
        TraitKind::Length => match (was.length(), now.length()) {
            (Some(one), Some(other)) => {
                let share = (one - other).abs() / one.max(other).max(f64::MIN_POSITIVE);
                // A share between nought and one, so it fits.
                40 + (60.0 * share.min(1.0)) as u32
            }
            _ => 70,
        },
        TraitKind::Stuff | TraitKind::Fly | TraitKind::Size => 100,
        TraitKind::FlyKnot | TraitKind::Knot | TraitKind::Tags => 30,
    }
}
