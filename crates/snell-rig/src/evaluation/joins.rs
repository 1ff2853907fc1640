//! What joins two sections: as written, or the knot that is usual there.

use super::core::Evaluation;
use super::diameters::meeting_ratio;
use super::join_kind::JoinKind;
use crate::assumed::{Assumed, Eyes, Taken, Usual, UsualKnot};
use crate::blocks::LineSize;
use crate::keywords::{Method, SectionRole};
use crate::lack::Outcome;
use crate::missing::Of;
use crate::project::BlockId;
use crate::rig::{Join, Section};
use crate::thing::{FlyId, JoinId, Thing};
use snell_syntax::BlockKind;

/// The ratio of diameters up to which a blood knot is usual.
const NEAR_RATIO: f64 = 1.3;

impl Evaluation<'_, '_> {
    /// How the pieces at a join are joined; a knot that is not named is noted as assumed.
    /// `None` where the usual knot does not ship.
    pub fn join_kind(&self, id: JoinId) -> Option<JoinKind> {
        if let Some(known) = self.joined.borrow().get(&id) {
            return *known;
        }
        // No knot hangs on a length.
        let kind = match &self.supposed {
            Some(supposed) => supposed.of.join_kind(id),
            None => self.find_join_kind(id),
        };
        self.joined.borrow_mut().insert(id, kind);
        kind
    }

    fn find_join_kind(&self, id: JoinId) -> Option<JoinKind> {
        let chain = &self.rig.chain;
        let join = chain.join(id);
        let of = Of::Thing(Thing::Join(id));
        let eye_knot = |eyes| {
            let usual = || self.usual(Usual::EyeKnots(eyes), UsualKnot::AtAnEye, of);
            join.knot.or_else(usual)
        };
        if join.ring.is_some() {
            return eye_knot(Eyes::Ring).map(JoinKind::Ring);
        }
        if join.swivel.is_some() {
            return eye_knot(Eyes::Swivel).map(JoinKind::Swivel);
        }
        if let Some(knot) = join.knot {
            return Some(JoinKind::Knot(knot));
        }
        let (above, below) = (chain.section(id.upper()), chain.section(id.lower()));
        if join.dropper.is_none() && join.inline.is_none() && same_stuff(above, below) {
            return Some(JoinKind::Through);
        }
        let usual = self.usual_knot(id, &join);
        self.usual(Usual::Knot(usual), usual, of).map(JoinKind::Knot)
    }

    fn usual_knot(&self, id: JoinId, join: &Join<'_>) -> UsualKnot {
        let role = |section| self.rig.chain.section(section).role;
        if role(id.upper()) == SectionRole::Line && role(id.lower()) != SectionRole::Line {
            return UsualKnot::LineToLeader;
        }
        if join.dropper.is_some() {
            return UsualKnot::WithDropper;
        }
        match meeting_ratio(self, id) {
            Ok(ratio) if ratio.si() > NEAR_RATIO => UsualKnot::UnlikeSizes,
            _ => UsualKnot::NearSizes,
        }
    }

    /// The knot that ties a fly on.
    pub fn fly_knot(&self, id: FlyId) -> Option<BlockId> {
        if let Some(known) = self.tied.borrow().get(&id) {
            return *known;
        }
        let knot = match &self.supposed {
            Some(supposed) => supposed.of.fly_knot(id),
            None => self.find_fly_knot(id),
        };
        self.tied.borrow_mut().insert(id, knot);
        knot
    }

    fn find_fly_knot(&self, id: FlyId) -> Option<BlockId> {
        let usual = if self.rig.settings.is_for(Method::Streamer) {
            UsualKnot::OnAStreamer
        } else {
            UsualKnot::AtAnEye
        };
        let of = Of::Thing(Thing::Fly(id));
        let named = self.rig.chain.fly(id).tied.knot;
        named.or_else(|| self.usual(Usual::FlyKnot(usual), usual, of))
    }

    fn usual(&self, what: Usual, knot: UsualKnot, of: Of) -> Option<BlockId> {
        let id = self.world.shipped(BlockKind::Knot, knot.knot())?;
        self.assume(|| Assumed {
            what,
            of,
            value: Taken::Block(id),
        });
        Some(id)
    }
}

/// Whether two sections are of one stuff, so that a line can go through.
fn same_stuff(above: Section<'_, '_>, below: Section<'_, '_>) -> bool {
    let (one, other) = (above.stuff, below.stuff);
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
    let is_line = |section: Section<'_, '_>| section.role == SectionRole::Line;
    size && is_line(above) == is_line(below)
        && one.spool == other.spool
        && one.material == other.material
        && one.colours == other.colours
        && optional(&one.measured, &other.measured)
        && (one.spool.is_some() || optional(&one.rated, &other.rated))
}

fn equal(one: &Outcome, other: &Outcome) -> bool {
    matches!((one, other), (Ok(one), Ok(other)) if one.quantity == other.quantity)
}
