//! Which piece of one rig is which of the other, in order: the cheapest way from
//! the one to the other, by `prices`.

mod prices;

pub(super) use prices::same_label;

use super::pieces::Piece;
use prices::{COMES_OR_GOES, Labels};
use snell_finding::Limit;
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

/// How many pieces one may become, what stands between them counted.
const LONGEST_CUT: usize = 8;
/// Beyond this many pairs, only what opens and ends both rigs alike is matched.
const MOST_PAIRS: usize = Limit::ComparedParts.count();

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
