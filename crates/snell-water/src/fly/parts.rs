//! A fly by what it is tied from.

use super::dressing::{Dressing, MATTER};
use super::hook::{Hook, STEEL};
use std::f64::consts::PI;
use thiserror::Error;
use uom::si::f64::{Length, Mass, MassDensity, Velocity};
use uom::si::length::meter;
use uom::si::mass::kilogram;
use uom::si::mass_density::kilogram_per_cubic_meter;

/// What a fly is tied from, and what was measured of it.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Parts {
    /// Nothing for a bare bead or a shot.
    pub hook: Option<Hook>,
    /// At the eye.
    pub bead: Option<Bead>,
    /// Wound round the shank.
    pub wire: Option<Wire>,
    /// Round the shank behind the bead.
    pub dressing: Option<Dressing>,
    /// What the whole fly was found to weigh. What it weighs more or less than its parts is put to hook and
    /// dressing.
    pub weighed: Option<Mass>,
    /// What it was timed at.
    pub timed: Option<Timed>,
}

/// A bead, or a ball that is solid all through.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bead {
    /// Across.
    pub diameter: Length,
    /// Of what it is made of.
    pub density: MassDensity,
    /// The share of the ball that is not bored away, 0 to 1.
    pub fill: f64,
}

/// Wire wound round the shank.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Wire {
    /// How thick it is.
    pub diameter: Length,
    /// Of what it is made of.
    pub density: MassDensity,
    /// How often it goes round.
    pub turns: f64,
}

/// A fall that was timed in still water.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Timed {
    /// Once it fell evenly.
    pub speed: Velocity,
    /// What it fell in.
    pub water: crate::fluid::Fluid,
}

/// Why no fly can be made of some parts.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Error)]
pub enum NoFly {
    /// Neither a hook nor a bead.
    #[error("a fly needs a hook or a bead")]
    Nothing,
    /// A part has a size that is nothing, below nothing or no number.
    #[error("a part of the fly has no size")]
    NoSize,
    /// The whole fly weighs nothing, or no number.
    #[error("the fly weighs nothing")]
    NoMass,
    /// It was timed at a speed at which nothing that weighs so much can fall, or at none.
    #[error("a fly that was timed has to be heavier than water and its speed above nothing")]
    NoFall,
}

impl Bead {
    /// What is left of a ball after the bore of a bead. Source: Tungsten density experiment, 2010: 0.704 on 755 beads of
    /// 3.3 mm, weighed and put under water.
    pub const BORED: f64 = 0.70;
    /// The same of a slotted bead. Source: from memory; brands differ, and a shop finds narrow slots as heavy as the next
    /// size.
    pub const SLOTTED: f64 = 0.68;

    /// A solid ball of a mass: a shot.
    pub fn shot(mass: Mass, density: MassDensity) -> Self {
        let volume = mass.get::<kilogram>() / density.get::<kilogram_per_cubic_meter>();
        Self {
            diameter: Length::new::<meter>(crate::math::cbrt(6.0 / PI * volume)),
            density,
            fill: 1.0,
        }
    }

    pub(super) fn lump(&self) -> Lump {
        let across = self.diameter.get::<meter>();
        let volume = PI / 6.0 * across * across * across * self.fill;
        Lump::of(volume, self.density.get::<kilogram_per_cubic_meter>())
    }
}

/// A part by its mass and the water that it displaces, kg and m3.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(super) struct Lump {
    pub mass: f64,
    pub volume: f64,
}

impl Lump {
    fn of(volume: f64, density: f64) -> Self {
        Self {
            mass: volume * density,
            volume,
        }
    }

    /// What it weighs in a fluid, N.
    pub fn weight(&self, rho: f64) -> f64 {
        (self.mass - rho * self.volume) * crate::fluid::GRAVITY
    }

    pub fn heavier(self, times: f64) -> Self {
        Self {
            mass: self.mass * times,
            ..self
        }
    }

    fn is_sound(&self) -> bool {
        self.mass.is_finite() && self.volume.is_finite() && self.mass >= 0.0 && self.volume >= 0.0
    }
}

/// The measures of a tied fly, m, m2 and kg.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Built {
    pub hook: Lump,
    pub bead: Lump,
    pub wire: Lump,
    pub dressing: Lump,
    pub gape: f64,
    pub shank: f64,
    pub hook_wire: f64,
    pub bead_across: f64,
    /// The body: a cylinder on what the bead leaves of the shank.
    pub across: f64,
    pub long: f64,
    /// Of free fibres.
    pub fibres: f64,
}

impl Parts {
    pub(super) fn build(&self) -> Result<Built, NoFly> {
        if self.hook.is_none() && self.bead.is_none() {
            return Err(NoFly::Nothing);
        }
        let dressing = self.dressing.unwrap_or(Dressing::BARE);
        if self.hook.is_some_and(|hook| !hook.has_size()) || !dressing.is_sound() {
            return Err(NoFly::NoSize);
        }
        let (gape, shank, hook_wire) = self
            .hook
            .map_or((0.0, 0.0, 0.0), |hook| (hook.gape, hook.shank, hook.wire));
        let bead_across = self.bead.map_or(0.0, |bead| bead.diameter.get::<meter>());
        let long = (shank - bead_across).max(0.0);
        let (wound, thicker) = self.wound(hook_wire, long);
        let across = if self.hook.is_some() {
            hook_wire + dressing.bulk * gape + thicker
        } else {
            0.0
        };
        // Wire lies under the dressing and lifts it without adding to it.
        let dressed = hook_wire + dressing.bulk * gape;
        let annulus = PI / 4.0 * (dressed * dressed - hook_wire * hook_wire) * long;
        let hook_mass = self.hook.map_or(0.0, |hook| hook.mass_si());
        let built = Built {
            hook: Lump::of(hook_mass / STEEL, STEEL),
            bead: self.bead.map_or(Lump::default(), |bead| bead.lump()),
            wire: wound,
            dressing: Lump::of(annulus * dressing.solid, MATTER),
            gape,
            shank,
            hook_wire,
            bead_across,
            across,
            long,
            fibres: dressing.fibres * gape * gape,
        };
        let lumps = [built.hook, built.bead, built.wire, built.dressing];
        let sizes = [bead_across, across, long];
        if !lumps.iter().all(Lump::is_sound) || !sizes.iter().all(|size| size.is_finite() && *size >= 0.0) {
            return Err(NoFly::NoSize);
        }
        self.weigh(built)
    }

    /// The wire, and what it adds to the body's thickness: where its turns do not cover the body they count by the
    /// share that they cover.
    fn wound(&self, hook_wire: f64, long: f64) -> (Lump, f64) {
        let Some(wire) = self.wire.filter(|_| self.hook.is_some()) else {
            return (Lump::default(), 0.0);
        };
        let across = wire.diameter.get::<meter>();
        let length = wire.turns * PI * (hook_wire + across);
        let volume = PI / 4.0 * across * across * length;
        let covered = wire.turns * across;
        let share = if covered < long { covered / long } else { 1.0 };
        (
            Lump::of(volume, wire.density.get::<kilogram_per_cubic_meter>()),
            2.0 * across * share,
        )
    }

    fn weigh(&self, mut built: Built) -> Result<Built, NoFly> {
        if let Some(weighed) = self.weighed.map(|mass| mass.get::<kilogram>()) {
            let more = weighed - built.mass();
            let loose = built.hook.mass + built.dressing.mass;
            // A bare bead has neither hook nor dressing to put it to.
            if loose > 0.0 {
                built.hook.mass += more * built.hook.mass / loose;
                built.dressing.mass += more * built.dressing.mass / loose;
            } else {
                built.bead.mass += more;
            }
        }
        let mass = built.mass();
        (mass > 0.0 && mass.is_finite())
            .then_some(built)
            .ok_or(NoFly::NoMass)
    }
}

impl Built {
    pub fn mass(&self) -> f64 {
        self.bead.mass + self.behind_bead().mass
    }

    pub fn behind_bead(&self) -> Lump {
        let parts = [self.hook, self.wire, self.dressing];
        Lump {
            mass: parts.iter().map(|part| part.mass).sum(),
            volume: parts.iter().map(|part| part.volume).sum(),
        }
    }
}
