//! A whole card: every cell on all cores, the same whichever core solves it.

use super::at_hand::AtHand;
use super::cell::{Asks, At, Fished, Open, Tried, Wading};
use crate::need::Need;
use snell_rig::value::Value;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::thread;

/// What a cell came to.
#[derive(Clone, Debug)]
pub(super) struct Cell {
    pub answer: Answer,
    pub wading: Wading,
}

/// Which fly fishes a cell.
#[derive(Clone, Debug)]
pub(super) enum Answer {
    /// This one, by its place among those at hand.
    Fly(usize, Box<Fished>),
    /// This rule stands against the one that comes nearest, by its place among those that decide.
    Breaks(usize),
    /// None has a drift there, and why the lightest has none.
    Nowhere(Vec<Need>),
}

/// Called with how many cells are done; from any thread.
pub(super) type Told<'t> = &'t (dyn Fn(usize) + Sync);

/// Solves every cell, row by row of depths; the flies come lightest first.
pub(super) fn cells<'p>(
    open: &Open<'_, 'p>,
    asks: &Asks<'p>,
    flies: &[AtHand<'p>],
    (depths, speeds): (&[Value], &[Value]),
    told: Told<'_>,
) -> Vec<Vec<Cell>> {
    let all = depths.len() * speeds.len();
    let threads = thread::available_parallelism().map_or(1, usize::from).min(all);
    let (next, done) = (AtomicUsize::new(0), AtomicUsize::new(0));
    let work = || {
        let mut solved = Vec::new();
        loop {
            let index = next.fetch_add(1, Ordering::Relaxed);
            if index >= all {
                return solved;
            }
            let at = (&depths[index / speeds.len()], &speeds[index % speeds.len()]);
            let cell = Cell {
                answer: lightest(flies, |fly| open.tries(asks, fly, at)),
                wading: open.wading(asks, at),
            };
            solved.push((index, cell));
            told(done.fetch_add(1, Ordering::Relaxed) + 1);
        }
    };
    // Where nothing is known of threads, as in a browser, there are none to be had.
    let mut solved: Vec<(usize, Cell)> = match threads {
        0 | 1 => work(),
        _ => thread::scope(|scope| {
            let running: Vec<_> = (0..threads).map(|_| scope.spawn(work)).collect();
            let joined = running.into_iter().map(thread::ScopedJoinHandle::join);
            joined
                .flat_map(|done| done.unwrap_or_else(|panic| std::panic::resume_unwind(panic)))
                .collect()
        }),
    };
    solved.sort_unstable_by_key(|(index, _)| *index);
    let mut cells: Vec<Cell> = solved.into_iter().map(|(_, cell)| cell).collect();
    draw_middle(open, asks, flies, &mut cells, |index| {
        (&depths[index / speeds.len()], &speeds[index % speeds.len()])
    });
    cells.chunks(speeds.len().max(1)).map(<[Cell]>::to_vec).collect()
}

/// Asks between what the figures of one cell lie, that in the middle of those that are fished: asking it of each would
/// take longer than the card.
fn draw_middle<'p, 'v>(
    open: &Open<'_, 'p>,
    asks: &Asks<'p>,
    flies: &[AtHand<'p>],
    cells: &mut [Cell],
    at: impl Fn(usize) -> At<'v>,
) {
    let fished = |(index, cell): (usize, &Cell)| matches!(cell.answer, Answer::Fly(..)).then_some(index);
    let fished: Vec<usize> = cells.iter().enumerate().filter_map(fished).collect();
    let Some(middle) = fished.get(fished.len() / 2).copied() else {
        return;
    };
    if let Answer::Fly(fly, figures) = &mut cells[middle].answer {
        open.draws(asks, &flies[*fly], at(middle), figures);
    }
}

/// The first that fishes, or what keeps all of them from it. More weight sinks sooner only where flies are
/// dressed alike, so each is asked in turn.
fn lightest<F>(flies: &[F], tries: impl Fn(&F) -> Tried) -> Answer {
    let (mut breaks, mut nowhere) = (None, None);
    for (index, fly) in flies.iter().enumerate() {
        match tries(fly) {
            Tried::Fishes(fished) => return Answer::Fly(index, fished),
            // One that breaks a later rule has passed more of them.
            Tried::Breaks(rule) => breaks = breaks.max(Some(rule)),
            Tried::Nowhere(lack) => nowhere = nowhere.or(Some(lack)),
        }
    }
    match breaks {
        Some(rule) => Answer::Breaks(rule),
        None => Answer::Nowhere(nowhere.unwrap_or_default()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::card::cell::Estimate;
    use snell_units::Dimension;
    use std::cell::RefCell;

    fn estimate(si: f64, dimension: Dimension) -> Estimate {
        Estimate {
            value: Value::plain(si, dimension),
            between: None,
        }
    }

    fn fishes() -> Tried {
        Tried::Fishes(Box::new(Fished {
            tippet: estimate(1.0, Dimension::LENGTH),
            sink_time: estimate(2.0, Dimension::TIME),
            sink_run: estimate(3.0, Dimension::LENGTH),
        }))
    }

    /// A try is a drift and a sink, so all that a card costs is in the number of them.
    #[test]
    fn each_fly_is_tried_once_until_one_fishes() {
        let tried = RefCell::new(Vec::new());
        let answer = lightest(&[10, 20, 30, 40], |fly| {
            tried.borrow_mut().push(*fly);
            if *fly == 30 { fishes() } else { Tried::Breaks(1) }
        });
        assert!(matches!(answer, Answer::Fly(2, _)), "{answer:?}");
        assert_eq!(tried.into_inner(), [10, 20, 30]);
    }

    #[test]
    fn where_none_fishes_each_was_tried_once() {
        let tried = RefCell::new(Vec::new());
        let answer = lightest(&[10, 20], |fly| {
            tried.borrow_mut().push(*fly);
            if *fly == 10 {
                Tried::Breaks(1)
            } else {
                Tried::Breaks(0)
            }
        });
        assert!(matches!(answer, Answer::Breaks(1)), "{answer:?}");
        assert_eq!(tried.into_inner(), [10, 20]);
    }
}
