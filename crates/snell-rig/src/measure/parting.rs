//! Where a rig parts when one of its flies is snagged, and what is lost with it.

use super::strength::{ALIKE, gives_way};
use crate::evaluation::Evaluation;
use crate::keywords::SectionRole;
use crate::lack::Lack;
use crate::missing::{Missing, Unsaid};
use crate::rig::FlyAt;
use crate::thing::{FlyId, JoinId, SectionId, Thing};
use snell_units::in_order;

/// Where a rig parts.
#[derive(Clone, Debug, PartialEq)]
pub struct Parting {
    /// The fly that is snagged.
    pub snagged: FlyId,
    /// The places that may be the weakest between it and the line, the weakest first: more than one where no estimate tells
    /// which goes.
    pub at: Vec<Break>,
}

/// A place where a rig may part.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PartsAt {
    /// A join of two pieces.
    Join(JoinId),
    /// The knot that ties the snagged fly on.
    OwnKnot,
}

/// One place where it may part.
#[derive(Clone, Debug, PartialEq)]
pub struct Break {
    /// Where.
    pub at: PartsAt,
    /// The flies that go with it, in order from the rod.
    pub lost: Vec<FlyId>,
}

/// Where a rig parts when a fly is snagged and pulled straight; how the rod gives is left out.
///
/// # Errors
/// A strength that is unsaid.
pub fn parting(evaluation: &Evaluation<'_, '_>, snagged: FlyId) -> Result<Parting, Lack> {
    if evaluation.rig.broken {
        return Err(Lack::Faulty);
    }
    let chain = &evaluation.rig.chain;
    let fly = chain.fly(snagged);
    // What hangs below a fly on a tag, or on the line itself, is not pulled on when it is stuck.
    let own_join = |id: JoinId| id.lower() == fly.place && fly.at != FlyAt::Point;
    let pulled = |id: &JoinId| match fly.at {
        FlyAt::Inline => id.lower() < fly.place,
        FlyAt::Point | FlyAt::Dropper(_) => id.lower() <= fly.place,
    };
    let of_leader = |id: &JoinId| chain.section(id.upper()).role != SectionRole::Line && pulled(id);
    let joins = chain.joins().filter(of_leader).map(PartsAt::Join);
    let mut places: Vec<(PartsAt, f64)> = Vec::new();
    for place in joins.chain([PartsAt::OwnKnot]) {
        let strength = match place {
            PartsAt::Join(join) if own_join(join) => of_upper(evaluation, join)?,
            PartsAt::Join(join) => strength_of(evaluation, Thing::Join(join))?,
            PartsAt::OwnKnot => strength_of(evaluation, Thing::Fly(snagged))?,
        };
        places.push((place, strength));
    }
    // Of places that are as strong the one nearest the fly comes first.
    places.reverse();
    in_order(&mut places, |(_, one), (_, other)| one.total_cmp(other));
    let Some(&(_, least)) = places.first() else {
        return Err(Missing::new(Unsaid::Knot).at(evaluation.rig.place()).into());
    };
    let alike = places
        .into_iter()
        .filter(|(_, strength)| *strength <= least * (1.0 + ALIKE));
    let at = alike.map(|(at, _)| {
        let lost = match at {
            PartsAt::Join(join) if own_join(join) => below(evaluation, join.lower()),
            PartsAt::Join(join) => below(evaluation, first_lost(evaluation, join)?),
            PartsAt::OwnKnot => with_fly(evaluation, snagged),
        };
        Ok(Break { at, lost })
    });
    Ok(Parting {
        snagged,
        at: at.collect::<Result<_, Lack>>()?,
    })
}

fn strength_of(evaluation: &Evaluation<'_, '_>, thing: Thing) -> Result<f64, Lack> {
    Ok(evaluation.measure_called("strength", thing)?.si())
}

/// The strength of a join where only the piece above it is pulled on: the share of its knot, of that piece.
fn of_upper(evaluation: &Evaluation<'_, '_>, join: JoinId) -> Result<f64, Lack> {
    let upper = strength_of(evaluation, Thing::Section(join.upper()))?;
    let lower = strength_of(evaluation, Thing::Section(join.lower()))?;
    Ok(strength_of(evaluation, Thing::Join(join))? * upper / upper.min(lower))
}

/// The first place whose fly goes when a join breaks. A tag that is left for a dropper stays with the piece that holds.
fn first_lost(evaluation: &Evaluation<'_, '_>, join: JoinId) -> Result<SectionId, Lack> {
    let given = gives_way(evaluation, Thing::Join(join))?;
    let is_lower = given.is_some_and(|(piece, _)| piece == join.lower());
    Ok(if is_lower {
        join.lower().below()
    } else {
        join.lower()
    })
}

fn below(evaluation: &Evaluation<'_, '_>, first: SectionId) -> Vec<FlyId> {
    let flies = evaluation.rig.chain.flies();
    let flies = flies.filter(|(_, fly)| fly.place >= first);
    flies.map(|(id, _)| id).collect()
}

/// A fly whose knot breaks, with what hangs on it.
fn with_fly(evaluation: &Evaluation<'_, '_>, id: FlyId) -> Vec<FlyId> {
    let fly = evaluation.rig.chain.fly(id);
    match fly.at {
        FlyAt::Inline => below(evaluation, fly.place),
        FlyAt::Point | FlyAt::Dropper(_) => vec![id],
    }
}
