//! What joins two sections: as written, or the knot that is usual there.

use super::Evaluation;
use crate::blocks::LineSize;
use crate::rig::Section;
use crate::value::{Assumed, Outcome};
use crate::{measure, project::BlockId};
use snell_syntax::BlockKind;

/// How two sections are joined.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum JoinKind {
    /// One piece of line goes through.
    Through,
    /// A knot.
    Knot(BlockId),
    /// A ring, with an eye knot on each side.
    Ring(BlockId),
}

/// The knots taken where none is named. Source: common practice, no source.
const LINE_TO_LEADER: (&str, &str) = ("nail", "usual where a line meets its leader");
const WITH_DROPPER: (&str, &str) = ("three-turn-surgeon", "usual where a tag is left for a dropper");
const NEAR_SIZES: (&str, &str) = ("blood", "usual between pieces of nearly one size");
const UNLIKE_SIZES: (&str, &str) = ("three-turn-surgeon", "usual between pieces of unlike size");
const AT_AN_EYE: (&str, &str) = ("clinch", "usual at an eye");
const STREAMER: (&str, &str) = (
    "non-slip-loop",
    "usual on a streamer, which swims better in a loop",
);

/// The ratio of diameters up to which a blood knot is usual.
const NEAR_RATIO: f64 = 1.3;

impl Evaluation<'_, '_> {
    /// How the section `index` is joined to the next; a knot that is not named is noted as assumed.
    /// `None` where the usual knot does not ship.
    pub fn join_kind(&self, index: usize) -> Option<JoinKind> {
        if let Some(known) = self.joined.borrow().get(&index) {
            return *known;
        }
        // No knot hangs on a length.
        let kind = match &self.supposed {
            Some(supposed) => supposed.of.join_kind(index),
            None => self.find_join_kind(index),
        };
        self.joined.borrow_mut().insert(index, kind);
        kind
    }

    fn find_join_kind(&self, index: usize) -> Option<JoinKind> {
        let layout = &self.rig.layout;
        let join = &layout.joins[index];
        let named = join.knot.map(|(id, _)| id);
        if join.ring.is_some() {
            let knot = named.or_else(|| {
                self.usual(AT_AN_EYE, || {
                    format!("the knots of the ring, {}", layout.join_name(index))
                })
            });
            return knot.map(JoinKind::Ring);
        }
        if let Some(id) = named {
            return Some(JoinKind::Knot(id));
        }
        let (above, below) = (&layout.sections[index], &layout.sections[index + 1]);
        if join.dropper.is_none() && !join.inline && same_stuff(above, below) {
            return Some(JoinKind::Through);
        }
        let usual = self.usual_knot(index, above);
        self.usual(usual, || format!("the knot {}", layout.join_name(index)))
            .map(JoinKind::Knot)
    }

    fn usual_knot(&self, index: usize, above: &Section<'_>) -> (&'static str, &'static str) {
        let below = &self.rig.layout.sections[index + 1];
        if above.role == "line" && below.role != "line" {
            return LINE_TO_LEADER;
        }
        if self.rig.layout.joins[index].dropper.is_some() {
            return WITH_DROPPER;
        }
        match measure::join_ratio(self, index) {
            Ok(ratio) if ratio.si() > NEAR_RATIO => UNLIKE_SIZES,
            _ => NEAR_SIZES,
        }
    }

    /// The knot that ties a fly on.
    pub fn fly_knot(&self, index: usize) -> Option<BlockId> {
        if let Some(known) = self.tied.borrow().get(&index) {
            return *known;
        }
        let knot = match &self.supposed {
            Some(supposed) => supposed.of.fly_knot(index),
            None => self.find_fly_knot(index),
        };
        self.tied.borrow_mut().insert(index, knot);
        knot
    }

    fn find_fly_knot(&self, index: usize) -> Option<BlockId> {
        let fly = &self.rig.layout.flies[index];
        let streamer = self
            .rig
            .settings
            .method
            .as_ref()
            .is_some_and(|method| method.value == "streamer");
        let usual = if streamer { STREAMER } else { AT_AN_EYE };
        fly.knot
            .or_else(|| self.usual(usual, || format!("the knot of {}", fly.name)))
    }

    fn usual(&self, (knot, why): (&str, &str), what: impl Fn() -> String) -> Option<BlockId> {
        let id = self.world.shipped(BlockKind::Knot, knot)?;
        self.assume(|| Assumed {
            what: what(),
            value: knot.to_owned(),
            why: why.to_owned(),
        });
        Some(id)
    }
}

/// Whether two sections are of one stuff, so that a line can go through.
fn same_stuff(above: &Section<'_>, below: &Section<'_>) -> bool {
    let (one, other) = (&above.stuff, &below.stuff);
    let size = match (&one.size, &other.size) {
        (Some(LineSize::Level(one)), Some(LineSize::Level(other))) => equal(one, other),
        (Some(LineSize::FlyLine(one)), Some(LineSize::FlyLine(other))) => one == other,
        _ => false,
    };
    let optional = |one: &Option<Outcome>, other: &Option<Outcome>| match (one, other) {
        (Some(one), Some(other)) => equal(one, other),
        (None, None) => true,
        _ => false,
    };
    let line = |section: &Section<'_>| section.role == "line";
    size && line(above) == line(below)
        && one.spool == other.spool
        && one.material == other.material
        && one.colours == other.colours
        && optional(&one.measured, &other.measured)
        && (one.spool.is_some() || optional(&one.rated, &other.rated))
}

fn equal(one: &Outcome, other: &Outcome) -> bool {
    matches!((one, other), (Ok(one), Ok(other)) if one.quantity == other.quantity)
}
