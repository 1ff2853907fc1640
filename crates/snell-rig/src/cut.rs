//! What to cut for a rig: each piece of line with what its knots, tags and cut
//! ends take, so that the tied rig comes out at its finished lengths.
//!
//! It adds up; which spool has how much left, and what is done about it, is for
//! those who hold the spools. The reel's line is not cut.

use crate::blocks::{LineSize, Read};
use crate::evaluation::{Evaluation, JoinKind};
use crate::project::BlockId;
use crate::rig::{FlyAt, Stuff};
use crate::value::{Lack, Outcome, Value};
use snell_units::{Dimension, System};
use std::ops::Range;

/// A length of line to cut.
#[derive(Debug)]
pub struct Piece<'r, 'p> {
    /// What it makes.
    pub makes: Makes,
    /// What it is cut from.
    pub stuff: &'r Stuff<'p>,
    /// What it is made up of, from its upper end down.
    pub parts: Vec<Part>,
    /// The units that it is cut in.
    system: System,
}

/// What a piece makes.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Makes {
    /// Sections that go through in one.
    Sections(Range<usize>),
    /// A tag with stuff of its own.
    Tag(usize),
}

/// A part of a piece's length.
#[derive(Clone, Debug)]
pub struct Part {
    /// What takes it.
    pub takes: Takes,
    /// How much; what is not known is not in the sum.
    pub length: Outcome,
}

/// What takes a part of a piece.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Takes {
    /// The finished length of a section, or of a tag of its own stuff.
    Finished,
    /// A knot at the join below a section.
    Knot(Option<BlockId>),
    /// A cut end that is left beside a knot.
    End,
    /// The tag of a dropper, left long.
    Tag(usize),
    /// The knot that ties a fly on.
    FlyKnot(Option<BlockId>),
}

/// What a person cuts to: half an inch, or a centimetre.
const STEPS: [(System, f64); 2] = [(System::Imperial, 0.0127), (System::Metric, 0.01)];

impl Piece<'_, '_> {
    /// The finished length of what it makes, in metres; `None` where it is not known.
    pub fn finished(&self) -> Option<f64> {
        let finished = self.parts.iter().filter(|part| part.takes == Takes::Finished);
        finished
            .map(|part| part.length.as_ref().ok().map(Value::si))
            .sum()
    }

    /// What is known of its length, summed, in metres.
    pub fn sum(&self) -> f64 {
        let known = self.parts.iter().filter_map(|part| part.length.as_ref().ok());
        known.map(Value::si).sum()
    }

    /// Whether all of its length is known.
    pub fn is_whole(&self) -> bool {
        self.parts.iter().all(|part| part.length.is_ok())
    }

    /// What to cut in metres, rounded up to what a person cuts; `None` where its finished length is not known.
    pub fn cut(&self) -> Option<f64> {
        self.finished()?;
        let step = STEPS.iter().find(|(system, _)| *system == self.system)?.1;
        // What is left of a sum of binary fractions is no reason to cut another half inch.
        Some((self.sum() / step - 1e-6).ceil() * step)
    }

    /// What is missing for the whole of its length.
    pub fn lacks(&self) -> Vec<&Lack> {
        self.parts
            .iter()
            .filter_map(|part| part.length.as_ref().err())
            .collect()
    }
}

/// Every piece to cut for a rig, in tying order: from the rod down, a tag of its own stuff at its join.
pub fn pieces<'r, 'p>(evaluation: &Evaluation<'r, 'p>) -> Vec<Piece<'r, 'p>> {
    let layout = &evaluation.rig.layout;
    let system = evaluation.system();
    let mut pieces = Vec::new();
    let mut first = 0;
    for last in 0..layout.sections.len() {
        if goes_through(evaluation, last) {
            continue;
        }
        let sections = first..last + 1;
        first = last + 1;
        if layout.sections[last].role != "line" {
            pieces.push(Piece {
                parts: parts(evaluation, sections.clone()),
                makes: Makes::Sections(sections),
                stuff: &layout.sections[last].stuff,
                system,
            });
        }
        let dropper = layout.joins.get(last).and_then(|join| join.dropper);
        if let Some(index) = dropper
            && let Some(stuff) = &layout.droppers[index].stuff
        {
            let parts = vec![
                at_join(evaluation, last),
                finished_tag(evaluation, index),
                fly_knot(evaluation, layout.droppers[index].fly),
            ];
            pieces.push(Piece {
                makes: Makes::Tag(index),
                stuff,
                parts,
                system,
            });
        }
    }
    pieces
}

/// Whether the line goes through below a section. Where a fly sits on the line it does not, and no knot between
/// the two lines need be assumed to tell.
fn goes_through(evaluation: &Evaluation<'_, '_>, section: usize) -> bool {
    let join = evaluation.rig.layout.joins.get(section);
    join.is_some_and(|join| !join.inline) && evaluation.join_kind(section) == Some(JoinKind::Through)
}

/// The parts of a piece that makes some sections.
fn parts(evaluation: &Evaluation<'_, '_>, sections: Range<usize>) -> Vec<Part> {
    let layout = &evaluation.rig.layout;
    let mut parts = Vec::new();
    if let Some(above) = sections.start.checked_sub(1) {
        parts.extend(end(evaluation, above, Carrier::Lower));
    }
    let last = sections.end - 1;
    parts.extend(sections.map(|index| Part {
        takes: Takes::Finished,
        length: evaluation.section_length(index),
    }));
    if last < layout.joins.len() {
        parts.extend(end(evaluation, last, Carrier::Upper));
    } else {
        let below = layout.flies.iter().enumerate();
        let mut point = below.filter(|(_, fly)| fly.above == last + 1 && fly.at != FlyAt::Inline);
        parts.extend(point.next().map(|(index, _)| fly_knot(evaluation, index)));
    }
    parts
}

/// Which of the two lines at a join.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Carrier {
    Upper,
    Lower,
}

/// What one line takes at the join below a section.
fn end(evaluation: &Evaluation<'_, '_>, join: usize, carrier: Carrier) -> Vec<Part> {
    let layout = &evaluation.rig.layout;
    let here = &layout.joins[join];
    let mut parts = vec![at_join(evaluation, join)];
    let tag = here
        .dropper
        .filter(|index| layout.droppers[*index].stuff.is_none());
    match tag.filter(|_| tag_carrier(evaluation, join) == carrier) {
        Some(index) => {
            parts.push(Part {
                takes: Takes::Tag(index),
                length: evaluation.dropper_length(index),
            });
            parts.push(fly_knot(evaluation, layout.droppers[index].fly));
        }
        None => parts.extend(here.tags.map(|fit| Part {
            takes: Takes::End,
            length: evaluation.value(fit),
        })),
    }
    if carrier == Carrier::Lower {
        parts.reverse();
    }
    parts
}

/// The line whose end becomes the tag: the upper one, whose end points down the leader once the knot is drawn.
/// The end of a fly line, a sighter or a tapered piece makes no tag: there it is the lower one's. Source: common
/// practice, no source.
fn tag_carrier(evaluation: &Evaluation<'_, '_>, join: usize) -> Carrier {
    let upper = &evaluation.rig.layout.sections[join];
    let tapered = matches!(upper.stuff.size, Some(LineSize::Tapered(..)));
    if tapered || matches!(upper.role, "line" | "sighter") {
        Carrier::Lower
    } else {
        Carrier::Upper
    }
}

/// The line that a join takes on each side. Where a fly sits on the line, both lines are tied to the fly.
fn at_join(evaluation: &Evaluation<'_, '_>, join: usize) -> Part {
    let here = &evaluation.rig.layout.joins[join];
    if here.inline && here.knot.is_none() && here.ring.is_none() {
        let mut flies = evaluation.rig.layout.flies.iter().enumerate();
        let fly = flies.find(|(_, fly)| fly.above == join + 1 && fly.at == FlyAt::Inline);
        if let Some((index, _)) = fly {
            return fly_knot(evaluation, index);
        }
    }
    let knot = match evaluation.join_kind(join) {
        Some(JoinKind::Knot(id) | JoinKind::Ring(id)) => Some(id),
        Some(JoinKind::Through) | None => None,
    };
    Part {
        takes: Takes::Knot(knot),
        length: uses(evaluation, knot),
    }
}

fn fly_knot(evaluation: &Evaluation<'_, '_>, fly: usize) -> Part {
    let knot = evaluation.fly_knot(fly);
    Part {
        takes: Takes::FlyKnot(knot),
        length: uses(evaluation, knot),
    }
}

fn finished_tag(evaluation: &Evaluation<'_, '_>, dropper: usize) -> Part {
    Part {
        takes: Takes::Finished,
        length: evaluation.dropper_length(dropper),
    }
}

fn uses(evaluation: &Evaluation<'_, '_>, knot: Option<BlockId>) -> Outcome {
    match knot.map(|id| evaluation.world.read(id)) {
        Some(Read::Knot(knot)) => knot.uses.clone(),
        _ => Err(Lack::need("the knot of a join", Some(evaluation.rig.place()))),
    }
}

/// A length in the units of a rig.
pub fn length(metres: f64, system: System) -> Value {
    let mut value = Value::plain(metres, Dimension::LENGTH);
    value.system = Some(system);
    value
}
