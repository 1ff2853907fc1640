//! What to cut for a rig: each piece of line with what its knots, tags and cut
//! ends take, so that the tied rig comes out at its finished lengths.
//!
//! It adds up; which spool has how much left, and what is done about it, is for
//! those who hold the spools. The reel's line is not cut.

use crate::blocks::LineSize;
use crate::evaluation::{Evaluation, JoinKind};
use crate::keywords::SectionRole;
use crate::lack::{Lack, Outcome};
use crate::missing::{Missing, Unsaid};
use crate::project::BlockId;
use crate::rig::{FlyAt, Stuff};
use crate::thing::{DropperId, FlyId, JoinId, SectionId};
use crate::value::Value;
use snell_units::{Dimension, System};

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
    /// Pieces of line that go through in one: the first and the last of them.
    Sections(SectionId, SectionId),
    /// A tag with stuff of its own.
    Tag(DropperId),
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
    Tag(DropperId),
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
    let chain = &evaluation.rig.chain;
    let system = evaluation.system();
    let mut pieces = Vec::new();
    let mut first = None;
    for (last, section) in chain.sections() {
        let start = *first.get_or_insert(last);
        let join = chain.join_below(last);
        if join.is_some_and(|join| goes_through(evaluation, join)) {
            continue;
        }
        first = None;
        if section.role != SectionRole::Line {
            pieces.push(Piece {
                parts: parts(evaluation, start, last),
                makes: Makes::Sections(start, last),
                stuff: section.stuff,
                system,
            });
        }
        let tag = join.and_then(|join| Some((join, chain.join(join).dropper?)));
        if let Some((join, id)) = tag
            && let Some(stuff) = chain.dropper(id).stuff
        {
            let parts = vec![
                at_join(evaluation, join),
                finished_tag(evaluation, id),
                fly_knot(evaluation, chain.dropper(id).fly),
            ];
            pieces.push(Piece {
                makes: Makes::Tag(id),
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
fn goes_through(evaluation: &Evaluation<'_, '_>, join: JoinId) -> bool {
    let here = evaluation.rig.chain.join(join);
    here.inline.is_none() && evaluation.join_kind(join) == Some(JoinKind::Through)
}

/// The parts of a piece that makes some sections, from the first to the last.
fn parts(evaluation: &Evaluation<'_, '_>, first: SectionId, last: SectionId) -> Vec<Part> {
    let chain = &evaluation.rig.chain;
    let mut parts = Vec::new();
    if let Some(above) = first.above() {
        parts.extend(end(evaluation, above.join(), Carrier::Lower));
    }
    parts.extend(first.down_to(last.below()).map(|id| Part {
        takes: Takes::Finished,
        length: evaluation.section_length(id),
    }));
    match chain.join_below(last) {
        Some(join) => parts.extend(end(evaluation, join, Carrier::Upper)),
        None => {
            let point = chain.flies().find(|(_, fly)| fly.at == FlyAt::Point);
            parts.extend(point.map(|(id, _)| fly_knot(evaluation, id)));
        }
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
fn end(evaluation: &Evaluation<'_, '_>, join: JoinId, carrier: Carrier) -> Vec<Part> {
    let chain = &evaluation.rig.chain;
    let here = chain.join(join);
    let mut parts = vec![at_join(evaluation, join)];
    let tag = here.dropper.filter(|id| chain.dropper(*id).stuff.is_none());
    match tag.filter(|_| tag_carrier(evaluation, join) == carrier) {
        Some(id) => {
            parts.push(Part {
                takes: Takes::Tag(id),
                length: evaluation.dropper_length(id),
            });
            parts.push(fly_knot(evaluation, chain.dropper(id).fly));
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
fn tag_carrier(evaluation: &Evaluation<'_, '_>, join: JoinId) -> Carrier {
    let upper = evaluation.rig.chain.section(join.upper());
    match (&upper.stuff.size, upper.role) {
        (Some(LineSize::Tapered(..)), _) | (_, SectionRole::Line | SectionRole::Sighter) => Carrier::Lower,
        (_, SectionRole::Butt | SectionRole::Leader | SectionRole::Taper | SectionRole::Tippet) => {
            Carrier::Upper
        }
    }
}

/// The line that a join takes on each side. Where a fly sits on the line, both lines are tied to the fly.
fn at_join(evaluation: &Evaluation<'_, '_>, join: JoinId) -> Part {
    let here = evaluation.rig.chain.join(join);
    if let (Some(fly), None, None, None) = (here.inline, here.knot, here.ring, here.swivel) {
        return fly_knot(evaluation, fly);
    }
    let knot = match evaluation.join_kind(join) {
        Some(JoinKind::Knot(id) | JoinKind::Ring(id) | JoinKind::Swivel(id)) => Some(id),
        Some(JoinKind::Through) | None => None,
    };
    Part {
        takes: Takes::Knot(knot),
        length: uses(evaluation, knot),
    }
}

fn fly_knot(evaluation: &Evaluation<'_, '_>, fly: FlyId) -> Part {
    let knot = evaluation.fly_knot(fly);
    Part {
        takes: Takes::FlyKnot(knot),
        length: uses(evaluation, knot),
    }
}

fn finished_tag(evaluation: &Evaluation<'_, '_>, dropper: DropperId) -> Part {
    Part {
        takes: Takes::Finished,
        length: evaluation.dropper_length(dropper),
    }
}

fn uses(evaluation: &Evaluation<'_, '_>, knot: Option<BlockId>) -> Outcome {
    match knot.and_then(|id| evaluation.world.read(id).knot()) {
        Some(knot) => knot.uses.clone(),
        None => Err(Missing::new(Unsaid::KnotOfJoin).at(evaluation.rig.place()).into()),
    }
}

/// A length in the units of a rig.
pub fn length(metres: f64, system: System) -> Value {
    let mut value = Value::plain(metres, Dimension::LENGTH);
    value.system = Some(system);
    value
}
