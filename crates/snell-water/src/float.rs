//! A float, or a fly that floats, that a rig hangs from.
//!
//! A ball half awash: how deep it sits and how the surface takes it along follow from what hangs on it. Waves
//! are left out: there are none below 0.23 m/s of slip.

use crate::drag::grip_of_sphere;
use crate::fluid::Fluid;
use crate::fluid::GRAVITY;
use crate::fly::Hook;
use crate::math::{acos, cbrt, cos};
use std::f64::consts::PI;
use uom::si::area::square_meter;
use uom::si::f64::{Area, Force, Length, Mass, MassDensity, Ratio, Velocity};
use uom::si::force::newton;
use uom::si::length::meter;
use uom::si::mass::kilogram;
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::ratio::ratio;
use uom::si::velocity::meter_per_second;

/// What carries a rig at the surface. Its drag is known to a factor of 1.5.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Float {
    size: Size,
    /// kg
    mass: f64,
    /// What its drag is multiplied by.
    scale: f64,
}

#[derive(Debug, Clone, Copy, PartialEq)]
enum Size {
    /// Across, m.
    Across(f64),
    /// What it carries until it goes under, N.
    Lift(f64),
}

/// Surface tension of water, N/m. Source: from memory, at 10 C.
const SURFACE_TENSION: f64 = 0.0742;
/// Edges that hold a dry fly up, in shanks: both sides of the body and half as much again on its hackle.
/// Source: from memory, within a factor of 1.5.
const EDGES: f64 = 3.0;
/// What a dry fly weighs, in bare hooks. Source: from memory.
const DRY_FLY: f64 = 1.25;

impl Float {
    /// A ball of a diameter and the density of what it is made of; none where it does not float or has no size.
    pub fn ball(diameter: Length, density: MassDensity, water: &Fluid) -> Option<Self> {
        let (across, density) = (diameter.get::<meter>(), density.get::<kilogram_per_cubic_meter>());
        let mass = PI / 6.0 * across * across * across * density;
        let float = Self::of(Size::Across(across), mass);
        float.filter(|float| density >= 0.0 && float.sunk(water).lift > 0.0)
    }

    /// A float or a fly by what it can carry before it goes under, given as a mass, and what it weighs itself.
    pub fn lifting(lift: Mass, mass: Mass) -> Option<Self> {
        let lift = lift.get::<kilogram>() * GRAVITY;
        Self::of(Size::Lift(lift), mass.get::<kilogram>())
    }

    /// A dry fly on a hook, held up by the surface's tension along it: 0.16 g on a #12, 0.13 g on a #16. What floats by
    /// foam has to be told by [`Float::lifting`]. None where the hook is too heavy to be held up.
    pub fn dry(hook: &Hook, water: &Fluid) -> Option<Self> {
        let mass = DRY_FLY * hook.mass().get::<kilogram>();
        let displaced = mass / crate::fly::STEEL;
        let weight = (mass - water.rho * displaced) * GRAVITY;
        let lift = EDGES * SURFACE_TENSION * hook.shank().get::<meter>() - weight;
        Self::of(Size::Lift(lift), mass)
    }

    fn of(size: Size, mass: f64) -> Option<Self> {
        let (Size::Across(of) | Size::Lift(of)) = size;
        let sound = of > 0.0 && of.is_finite() && mass >= 0.0 && mass.is_finite();
        sound.then_some(Self {
            size,
            mass,
            scale: 1.0,
        })
    }

    /// The same with its drag multiplied.
    #[must_use]
    pub fn dragging(self, times: f64) -> Self {
        Self {
            scale: self.scale * times,
            ..self
        }
    }

    /// What it can carry before it goes under.
    pub fn lift(&self, water: &Fluid) -> Force {
        Force::new::<newton>(self.sunk(water).lift)
    }

    /// What it weighs in the air.
    pub fn mass(&self) -> Mass {
        Mass::new::<kilogram>(self.mass)
    }

    /// How it rides under a load, with the surface going past it at a speed.
    pub fn under(&self, load: Force, slip: Velocity, water: &Fluid) -> Afloat {
        let sunk = self.sunk(water);
        let (load, slip) = (load.get::<newton>(), slip.get::<meter_per_second>());
        let awash = sunk.awash(load);
        Afloat {
            immersed: Length::new::<meter>(awash.immersed),
            wetted: Area::new::<square_meter>(awash.wetted),
            lift: Force::new::<newton>(sunk.lift),
            share: Ratio::new::<ratio>(load / sunk.lift),
            drag: Force::new::<newton>(sunk.drag(load, slip)),
            slip: Velocity::new::<meter_per_second>(slip),
        }
    }

    pub(crate) fn sunk(&self, water: &Fluid) -> Sunk {
        let (across, lift) = match self.size {
            Size::Across(across) => {
                let volume = PI / 6.0 * across * across * across;
                (across, (water.rho * volume - self.mass) * GRAVITY)
            }
            Size::Lift(lift) => {
                let volume = (lift / GRAVITY + self.mass) / water.rho;
                (cbrt(6.0 / PI * volume), lift)
            }
        };
        Sunk {
            radius: across / 2.0,
            lift,
            mass: self.mass,
            scale: self.scale,
            water: *water,
        }
    }
}

/// How a float rides.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Afloat {
    /// How much of its height is under water.
    pub immersed: Length,
    /// What the water meets of it, from the front.
    pub wetted: Area,
    /// What it can carry.
    pub lift: Force,
    /// The share of its lift that is used: over 1 it is drowned, and drags as a whole ball.
    pub share: Ratio,
    /// What the surface pulls it downstream with.
    pub drag: Force,
    /// How much faster the surface goes.
    pub slip: Velocity,
}

impl Afloat {
    /// Whether the rig pulls it under.
    pub fn is_drowned(&self) -> bool {
        self.share.get::<ratio>() > 1.0
    }
}

/// A float in one water.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Sunk {
    radius: f64,
    pub lift: f64,
    mass: f64,
    scale: f64,
    water: Fluid,
}

struct Awash {
    immersed: f64,
    wetted: f64,
}

impl Sunk {
    /// What the surface pulls it downstream with, by a load and how much faster the surface goes.
    pub fn drag(&self, load: f64, slip: f64) -> f64 {
        let across = 2.0 * self.radius;
        let reynolds = self.water.rho * slip.abs() * across / self.water.mu;
        // Of a whole ball, and the share of its front that is wet.
        let whole = self.water.mu * across * grip_of_sphere(reynolds);
        let share = self.awash(load).wetted / (PI * self.radius * self.radius);
        self.scale * whole * share * slip
    }

    fn awash(&self, load: f64) -> Awash {
        let r = self.radius;
        let displaced = (self.mass + load / GRAVITY) / self.water.rho;
        let thirds = (displaced / (PI / 3.0 * r * r * r)).clamp(0.0, 4.0);
        // A cap of a height y over a radius of 1 is y^2 (3 - y) thirds; with y = 1 + 2 cos a that is a cosine of 3 a.
        let immersed = r * (1.0 + 2.0 * cos((2.0 * PI - acos(1.0 - thirds / 2.0)) / 3.0));
        let above = r - immersed;
        let chord = (2.0 * r * immersed - immersed * immersed).max(0.0).sqrt();
        Awash {
            immersed,
            wetted: r * r * acos((above / r).clamp(-1.0, 1.0)) - above * chord,
        }
    }
}
