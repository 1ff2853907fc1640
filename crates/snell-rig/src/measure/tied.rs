//! What a fly is tied from, in the terms of the water: hook, bead, wire and dressing, and what was weighed.
//!
//! All that is told of a fly's mass, sink and drag is told from here.

use crate::assumed::{Assumed, Taken, Usual};
use crate::blocks::{Bead, Dressing, Fly, Wire};
use crate::evaluation::Evaluation;
use crate::fly_box::usual_hook;
use crate::lack::{Lack, Outcome};
use crate::missing::{Missing, Of, Unsaid};
use crate::project::BlockId;
use crate::rig::Tied;
use crate::thing::{FlyId, Thing};
use crate::value::Value;
use snell_syntax::BlockKind;
use snell_units::Dimension;
use snell_water::fly::{Hook, NoFly, Parts};
use uom::si::f64::{Length, Mass, MassDensity};
use uom::si::length::meter;
use uom::si::mass::kilogram;
use uom::si::mass_density::kilogram_per_cubic_meter;

/// The dressing taken where a fly says none.
const USUAL_DRESSING: &str = "dressed";

pub(super) fn tied<'e, 'p>(evaluation: &'e Evaluation<'_, 'p>, id: FlyId) -> &'e Tied<'p> {
    evaluation.rig.chain.fly(id).tied
}

/// The parts of a fly, with where their sizes were said.
pub(super) struct Made {
    pub(super) parts: Parts,
    /// The block of its dressing.
    pub(super) dressing: BlockId,
    /// Nothing but its causes and its units counts.
    pub(super) from: Value,
}

/// A fly whose parts are asked for.
struct Asked<'a, 'w, 'p> {
    evaluation: &'a Evaluation<'w, 'p>,
    fly: &'a Fly<'p>,
    place: Lies,
}

/// Where a fly is.
#[derive(Clone, Copy)]
enum Lies {
    /// On the rig: what is taken for it is told.
    OnRig(FlyId),
    /// In the box.
    InBox(BlockId),
}

/// What a fly of the rig is made of. One that was weighed and shows no hook is taken to have the one that its bead goes on.
pub(super) fn made(evaluation: &Evaluation<'_, '_>, id: FlyId) -> Result<Made, Lack> {
    Asked::on_rig(evaluation, id).made()
}

/// The same of a fly that only lies in the box.
pub(super) fn made_in_box<'p>(
    evaluation: &Evaluation<'_, 'p>,
    id: BlockId,
    fly: &Fly<'p>,
) -> Result<Made, Lack> {
    let place = Lies::InBox(id);
    Asked {
        evaluation,
        fly,
        place,
    }
    .made()
}

/// A fly of its parts, without what it was timed at.
pub(super) fn built(
    evaluation: &Evaluation<'_, '_>,
    id: FlyId,
    parts: &Parts,
) -> Result<snell_water::Fly, Lack> {
    snell_water::Fly::tied(parts).map_err(|none| no_fly(evaluation, id, none))
}

fn no_fly(evaluation: &Evaluation<'_, '_>, id: FlyId, none: NoFly) -> Lack {
    lacks(
        evaluation,
        id,
        match none {
            NoFly::Nothing => Unsaid::HookOrBead,
            NoFly::NoSize => Unsaid::Size,
            NoFly::NoMass => Unsaid::HookOrMass,
            NoFly::NoFall => Unsaid::SinkOfLighter,
        },
    )
}

/// The mass of a bead by itself; what the whole fly was found to weigh changes nothing about it.
pub(super) fn bead_mass(evaluation: &Evaluation<'_, '_>, id: FlyId, bead: &Bead) -> Outcome {
    let mut from = Value::plain(0.0, Dimension::MASS);
    let bead = Asked::on_rig(evaluation, id).bead(bead, &mut noting(&mut from))?;
    let alone = Parts {
        bead: Some(bead),
        ..Parts::default()
    };
    let si = built(evaluation, id, &alone)?.mass().value;
    Ok(from.with(si, Dimension::MASS))
}

/// The mass of the wire on a fly's hook.
pub(super) fn wire_mass(evaluation: &Evaluation<'_, '_>, id: FlyId, wire: &Wire) -> Outcome {
    let mut from = Value::plain(0.0, Dimension::MASS);
    let asked = Asked::on_rig(evaluation, id);
    let wire = asked.wire(wire, &mut noting(&mut from))?;
    let wound = Parts {
        hook: Some(asked.hook()?),
        wire: Some(wire),
        ..Parts::default()
    };
    let si = built(evaluation, id, &wound)?.anatomy().wound.value;
    Ok(from.with(si, Dimension::MASS))
}

/// Gives the figure of each value that it is handed, and keeps where that came from.
fn noting(from: &mut Value) -> impl FnMut(Value) -> f64 + '_ {
    |value| {
        *from = from.clone().joined(&value);
        value.si()
    }
}

impl<'a, 'w, 'p> Asked<'a, 'w, 'p> {
    fn on_rig(evaluation: &'a Evaluation<'w, 'p>, id: FlyId) -> Self {
        Self {
            evaluation,
            fly: &tied(evaluation, id).fly,
            place: Lies::OnRig(id),
        }
    }

    fn made(&self) -> Result<Made, Lack> {
        let fly = self.fly;
        let mut from = Value::plain(0.0, Dimension::MASS);
        let mut take = noting(&mut from);
        let weighed = fly.mass.clone().transpose()?.map(&mut take);
        let bead = match &fly.bead {
            Some(bead) => Some(self.bead(bead, &mut take)?),
            None => None,
        };
        let wire = match &fly.wire {
            Some(wire) => Some(self.wire(wire, &mut take)?),
            None => None,
        };
        let (dressing, block) = self.dressing()?;
        let dressed = dressing_part(block, &mut take)?;
        drop(take);
        let parts = Parts {
            hook: Some(self.hook()?),
            bead,
            wire,
            dressing: Some(dressed),
            weighed: weighed.map(Mass::new::<kilogram>),
            timed: None,
        };
        Ok(Made {
            parts,
            dressing,
            from,
        })
    }

    fn hook(&self) -> Result<Hook, Lack> {
        if let Some(size) = &self.fly.hook {
            return size.hook().ok_or_else(|| self.lacks(Unsaid::HookMass));
        }
        if self.fly.mass.is_none() {
            return Err(self.lacks(Unsaid::HookOrMass));
        }
        let Some(bead) = &self.fly.bead else {
            return Err(self.lacks(Unsaid::HookOrBead));
        };
        let usual = usual_hook(bead.size.clone()?.si());
        self.assume(Usual::Hook, || Taken::Hook(usual));
        Ok(Hook::of_size(f64::from(usual)))
    }

    fn bead(&self, bead: &Bead, take: &mut impl FnMut(Value) -> f64) -> Result<snell_water::fly::Bead, Lack> {
        let across = take(bead.size.clone()?);
        Ok(snell_water::fly::Bead {
            diameter: Length::new::<meter>(across),
            density: self.density(bead.material)?,
            fill: if bead.slotted {
                snell_water::fly::Bead::SLOTTED
            } else {
                snell_water::fly::Bead::BORED
            },
        })
    }

    /// Wire wound in close turns on the shank.
    fn wire(&self, wire: &Wire, take: &mut impl FnMut(Value) -> f64) -> Result<snell_water::fly::Wire, Lack> {
        let or_lack = |part: &Option<Outcome>, what| part.clone().unwrap_or_else(|| Err(self.lacks(what)));
        let across = take(or_lack(&wire.diameter, Unsaid::WireThickness)?);
        let turns = take(or_lack(&wire.turns, Unsaid::WireTurns)?);
        Ok(snell_water::fly::Wire {
            diameter: Length::new::<meter>(across),
            density: self.density(wire.material)?,
            turns,
        })
    }

    fn density(&self, material: Option<BlockId>) -> Result<MassDensity, Lack> {
        let material = material.and_then(|id| self.evaluation.world.read(id).material());
        let material = material.ok_or_else(|| self.lacks(Unsaid::BeadOrWireMaterial))?;
        let density = material.density.clone()?.si();
        Ok(MassDensity::new::<kilogram_per_cubic_meter>(density))
    }

    /// How it is dressed, or how flies usually are.
    fn dressing(&self) -> Result<(BlockId, &'a Dressing), Lack> {
        let world = self.evaluation.world;
        let usual = || {
            let usual = world.shipped(BlockKind::Dressing, USUAL_DRESSING)?;
            self.assume(Usual::Dressing, || Taken::Block(usual));
            Some(usual)
        };
        let id = self.fly.dressing.or_else(usual);
        let dressing = id.and_then(|id| Some((id, world.read(id).dressing()?)));
        dressing.ok_or_else(|| self.lacks(Unsaid::Dressing))
    }

    fn assume(&self, what: Usual, value: impl FnOnce() -> Taken) {
        match self.place {
            Lies::OnRig(id) => self.evaluation.assume(|| Assumed {
                what,
                of: Of::Thing(Thing::Fly(id)),
                value: value(),
            }),
            Lies::InBox(_) => {}
        }
    }

    fn lacks(&self, what: Unsaid) -> Lack {
        match self.place {
            Lies::OnRig(id) => lacks(self.evaluation, id, what),
            Lies::InBox(id) => Missing::new(what).of(Of::Block(id)).into(),
        }
    }
}

fn dressing_part(
    dressing: &Dressing,
    take: &mut impl FnMut(Value) -> f64,
) -> Result<snell_water::fly::Dressing, Lack> {
    Ok(snell_water::fly::Dressing {
        bulk: take(dressing.bulk.clone()?),
        solid: take(dressing.solid.clone()?),
        fibres: take(dressing.fibres.clone()?),
    })
}

pub(super) fn lacks(evaluation: &Evaluation<'_, '_>, id: FlyId, what: Unsaid) -> Lack {
    let place = match tied(evaluation, id).block {
        Some(block) => evaluation.world.project.block(block).name_place(),
        None => evaluation.rig.chain.fly(id).part.place(),
    };
    Missing::new(what).of_thing(Thing::Fly(id)).at(place).into()
}
