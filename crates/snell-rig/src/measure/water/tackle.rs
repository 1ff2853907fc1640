//! A rig's line, flies and shots as they hang in the water.
//!
//! They hang from the rod's line; or from a float or a dry fly, where the rig
//! has one, and then what lies above it is not under water.

use super::body::{dressed, shot, swivel};
use super::usual::metres;
use crate::assumed::{Assumed, Taken, Usual};
use crate::evaluation::{Evaluation, Sits};
use crate::lack::Lack;
use crate::measure::section;
use crate::missing::{Missing, Of, Unsaid};
use crate::rig::{FlyAt, Stuff};
use crate::thing::{FloatId, FlyId, SectionId, Thing};
use rustc_hash::FxHashMap;
use snell_syntax::BlockKind;
use snell_units::in_order;
use snell_water::{Fly, Hung, Strand, Tackle};
use std::f64::consts::PI;
use uom::si::f64::MassDensity;
use uom::si::mass_density::kilogram_per_cubic_meter;

/// What line is taken to be made of where nothing is said. It hardly weighs in water either way.
const USUAL_LINE: &str = "nylon";

/// A tackle, and which part of the rig each of its flies is.
#[derive(Debug, Clone)]
pub(super) struct Rigged {
    pub tackle: Tackle,
    /// The point first, and the others from it upward.
    pub things: Vec<Thing>,
}

/// What a rig hangs from that floats.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Carrier {
    /// A float.
    Float(FloatId),
    /// A dry fly.
    Fly(FlyId),
}

/// The float or the lowest fly that floats, where the rig hangs from one.
pub fn carried_by(evaluation: &Evaluation<'_, '_>) -> Option<Carrier> {
    let chain = &evaluation.rig.chain;
    let float = chain.floats().next_back();
    let dry = chain.flies().rfind(|(id, _)| afloat(evaluation, *id));
    match (float, dry) {
        (Some(float), Some((_, fly))) if chain.float(float).place > fly.place => Some(Carrier::Float(float)),
        (_, Some((id, _))) => Some(Carrier::Fly(id)),
        (float, None) => float.map(Carrier::Float),
    }
}

/// The line of a rig that may be under water.
#[derive(Debug, Clone)]
pub(super) struct Under {
    /// Its first piece.
    pub first: SectionId,
    /// How much of that piece, in metres; nothing where all of it.
    pub of_first: Option<f64>,
}

impl Under {
    /// All that lies below what carries the rig.
    pub(super) fn below(evaluation: &Evaluation<'_, '_>, carrier: Carrier) -> Result<Self, Lack> {
        match carrier {
            Carrier::Fly(id) => Ok(Self::from(evaluation.rig.chain.fly(id).place)),
            Carrier::Float(id) => {
                let sits = evaluation.float_sits(id)?;
                Ok(Self {
                    first: sits.piece,
                    of_first: sits.below,
                })
            }
        }
    }

    /// All from the upper end of a piece down.
    pub(super) const fn from(first: SectionId) -> Self {
        Self {
            first,
            of_first: None,
        }
    }

    /// Whether the upper end of a piece lies in it.
    fn holds(&self, place: SectionId) -> bool {
        place > self.first || place == self.first && self.of_first.is_none()
    }

    /// Whether what lies so far up on a piece does.
    fn reaches(&self, sits: &Sits, below: f64) -> bool {
        let cut = self.of_first.filter(|_| sits.piece == self.first);
        sits.piece >= self.first && cut.is_none_or(|of_first| below <= of_first)
    }

    /// How long a piece is, as far as it lies in it.
    fn length_of(&self, evaluation: &Evaluation<'_, '_>, id: SectionId) -> Result<f64, Lack> {
        match self.of_first.filter(|_| id == self.first) {
            Some(length) => Ok(length),
            None => Ok(evaluation.section_length(id)?.si()),
        }
    }
}

/// Whether a fly rides on the surface; told as assumed where it does not say so itself.
fn afloat(evaluation: &Evaluation<'_, '_>, id: FlyId) -> bool {
    let rides = evaluation.rig.rides_afloat(id);
    if rides && evaluation.rig.chain.fly(id).tied.fly.floats.is_none() {
        evaluation.assume(|| Assumed {
            what: Usual::Afloat,
            of: Of::Thing(Thing::Fly(id)),
            value: Taken::Afloat,
        });
    }
    rides
}

/// The rig below its float, or all of it, from the point up, and the line higher up; the line goes on as its uppermost
/// piece.
pub(super) fn rigged(
    evaluation: &Evaluation<'_, '_>,
    under: &Under,
    higher: Vec<Strand>,
) -> Result<Rigged, Lack> {
    let chain = &evaluation.rig.chain;
    let point = chain.point().filter(|id| !afloat(evaluation, *id));
    let Some(point) = point else {
        return Err(no_point(evaluation));
    };
    let mut strands = Vec::new();
    let mut above: FxHashMap<SectionId, f64> = FxHashMap::default();
    let mut length = 0.0;
    for id in under.first.down_to(chain.end()).rev() {
        let own = under.length_of(evaluation, id)?;
        strands.push(open_strand(evaluation, id, own)?);
        length += own;
        above.insert(id, length);
    }
    strands.extend(higher);
    let (fly, _) = dressed(evaluation, point)?;
    let mut hangs = Vec::new();
    let mut hang = |thing, fly: Fly, place, tag| {
        let hung = Hung {
            fly,
            above_point: metres(place),
            tag,
        };
        hangs.push((thing, hung));
    };
    let at = |place: SectionId| above.get(&place).copied().unwrap_or_default();
    for (id, on) in chain.flies() {
        if !afloat(evaluation, id) && id != point && under.holds(on.place) {
            let tag = tag(evaluation, id)?;
            hang(Thing::Fly(id), dressed(evaluation, id)?.0, at(on.place), tag);
        }
    }
    for id in chain.shots() {
        let sits = evaluation.shot_sits(id)?;
        match sits.below {
            None if under.holds(sits.piece) => {
                hang(Thing::Shot(id), shot(evaluation, id)?, at(sits.piece), None);
            }
            Some(below) if under.reaches(&sits, below) => {
                let place = at(sits.piece.below()) + below;
                hang(Thing::Shot(id), shot(evaluation, id)?, place, None);
            }
            None | Some(_) => {}
        }
    }
    for id in chain.joins().filter(|id| under.holds(id.lower())) {
        if let Some(swivel) = swivel(evaluation, id)? {
            hang(Thing::Join(id), swivel, at(id.lower()), None);
        }
    }
    in_order(&mut hangs, |(_, a), (_, b)| {
        a.above_point.value.total_cmp(&b.above_point.value)
    });
    let things = std::iter::once(Thing::Fly(point)).chain(hangs.iter().map(|(thing, _)| *thing));
    let things = things.collect();
    let hung = hangs.into_iter().map(|(_, hung)| hung).collect();
    let tackle = Tackle::new(fly, strands, hung)
        .map_err(|none| Missing::new(Unsaid::Tackle(none)).at(evaluation.rig.place()))?;
    Ok(Rigged { tackle, things })
}

fn no_point(evaluation: &Evaluation<'_, '_>) -> Lack {
    if evaluation.rig.broken {
        return Lack::Faulty;
    }
    Missing::new(Unsaid::SinkingPoint)
        .at(evaluation.rig.place())
        .into()
}

/// The tag that a fly hangs from, of its own stuff or of the piece above.
fn tag(evaluation: &Evaluation<'_, '_>, id: FlyId) -> Result<Option<Strand>, Lack> {
    let chain = &evaluation.rig.chain;
    let fly = chain.fly(id);
    let FlyAt::Dropper(tag) = fly.at else {
        return Ok(None);
    };
    let length = evaluation.dropper_length(tag)?.si();
    let diameter = section::diameter_at_fly(evaluation, id)?.si();
    let above = || fly.place.above().map(|above| chain.section(above).stuff);
    let stuff = chain.dropper(tag).stuff.or_else(above);
    let density = stuff.map_or(Err(Lack::Faulty), |stuff| {
        density(evaluation, stuff, Thing::Dropper(tag))
    })?;
    Ok((length > 0.0).then(|| Strand::new(metres(length), metres(diameter), density)))
}

/// A section as level line: of a tapered one, the middle.
pub(super) fn strand(evaluation: &Evaluation<'_, '_>, id: SectionId) -> Result<Strand, Lack> {
    let length = evaluation.section_length(id)?.si();
    open_strand(evaluation, id, length)
}

/// The same of another length, for a line that does not say its own.
pub(super) fn open_strand(
    evaluation: &Evaluation<'_, '_>,
    id: SectionId,
    length: f64,
) -> Result<Strand, Lack> {
    let area = section::area(evaluation, id)?.si();
    let stuff = evaluation.rig.chain.section(id).stuff;
    let density = density(evaluation, stuff, Thing::Section(id))?;
    Ok(Strand::new(
        metres(length),
        metres((area * 4.0 / PI).sqrt()),
        density,
    ))
}

fn density(evaluation: &Evaluation<'_, '_>, stuff: &Stuff<'_>, of: Thing) -> Result<MassDensity, Lack> {
    let usual = || {
        let id = evaluation.world.shipped(BlockKind::Material, USUAL_LINE)?;
        evaluation.assume(|| Assumed {
            what: Usual::Material,
            of: Of::Thing(of),
            value: Taken::Block(id),
        });
        Some(id)
    };
    let id = stuff.material.or_else(usual).ok_or(Lack::Faulty)?;
    let material = evaluation.world.read(id).material().ok_or(Lack::Faulty)?;
    let density = material.density.clone()?.si();
    Ok(MassDensity::new::<kilogram_per_cubic_meter>(density))
}
