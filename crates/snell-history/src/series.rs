//! How a figure of a rig went along the line: each value that it came to, and
//! which of them a step is felt to.

use crate::stood::{Seen, Stood};
use snell_view::Written;
use snell_view::compare::Figure;

/// How a figure went.
#[derive(Clone, Debug)]
pub struct Series {
    /// The figure.
    pub figure: Figure,
    /// Where it was first told, and each time it changed.
    pub points: Vec<Point>,
}

/// A figure from a state on.
#[derive(Clone, Debug)]
pub struct Point {
    /// The state, as its number.
    pub commit: usize,
    /// The figure; nothing where it is unknown or the rig is gone. What it lies between is told where the step is felt.
    pub written: Option<Written>,
    /// Whether it moved by as much as it may be off by since a step was felt last.
    pub felt: bool,
}

/// Works out what a figure of a rig lies between, as the rig stood in a state: the figure, the state's number, the rig.
pub type Drawn<'d> = dyn FnMut(&Figure, usize, &Seen) -> Option<Written> + 'd;

impl Series {
    /// Follows a figure of a rig, the one of this number among those that its states keep. Draws cost far more than the
    /// rest, and are made only where the figure moved by as much as it may be off by.
    pub fn of(stood: &[Stood], number: usize, figure: Figure, drawn: &mut Drawn<'_>) -> Self {
        let mut points: Vec<Point> = Vec::new();
        let mut last: Option<Written> = None;
        for stood in stood {
            let bare = stood.figures.get(number).and_then(Option::as_ref);
            let value = bare.and_then(|one| one.value);
            let same = |point: &Point| point.written.as_ref().and_then(|one| one.value) == value;
            if points.last().is_some_and(same) {
                continue;
            }
            let felt = bare.is_some_and(|now| !last.as_ref().is_some_and(|last| is_near(last, now)));
            let written = match (bare, stood.rig.as_deref(), &last) {
                (Some(bare), Some(rig), _) if felt => {
                    let with = figure
                        .is_drawn()
                        .then(|| drawn(&figure, stood.commit, rig))
                        .flatten();
                    Some(with.unwrap_or_else(|| bare.clone()))
                }
                (Some(bare), _, Some(last)) => Some(figure.as_fine_as(bare, last)),
                (bare, _, _) => bare.cloned(),
            };
            if felt {
                last.clone_from(&written);
            }
            points.push(Point {
                commit: stood.commit,
                written,
                felt,
            });
        }
        Self { figure, points }
    }

    /// The points that a step is felt to.
    pub fn felt(&self) -> impl Iterator<Item = (usize, &Written)> {
        let felt = self.points.iter().filter(|point| point.felt);
        felt.filter_map(|point| Some((point.commit, point.written.as_ref()?)))
    }
}

/// Whether an estimate moved by less than it may be off by.
fn is_near(last: &Written, now: &Written) -> bool {
    let off = last.between.as_ref().map(|range| range.told_to);
    let by = now.value.zip(last.value).map(|(now, was)| (now - was).abs());
    by.zip(off).is_some_and(|(by, off)| by < off)
}
