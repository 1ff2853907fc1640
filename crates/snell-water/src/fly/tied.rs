//! A fly as it is tied: what it weighs, and how it goes through water.

use crate::fluid::Fluid;
use crate::fly::body::TiedBody;
use crate::fly::in_water::InWater;
use crate::fly::parts::Built;
use crate::fly::parts::{Bead, NoFly, Parts, Timed};
use uom::si::f64::{Force, Length, Mass, MassDensity, Velocity, Volume};
use uom::si::force::newton;
use uom::si::length::meter;
use uom::si::mass::kilogram;
use uom::si::velocity::meter_per_second;
use uom::si::volume::cubic_meter;

/// A fly or a shot.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fly {
    built: Built,
    timed: Option<Timed>,
    /// What its drag is multiplied by besides.
    scale: f64,
    /// Nine times out of ten its drag is told right to within this factor.
    known_to: f64,
}

/// The factor to which the drag of a fly is known that is told by its parts, and of one that was timed. Source: from
/// memory; no measured fall of a beaded fly was found.
pub const DRAG_KNOWN_TO: f64 = 1.5;

pub const TIMED_DRAG_KNOWN_TO: f64 = 1.1;

/// The measures that a fly's parts come to.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Anatomy {
    /// Nothing where there is no hook.
    pub gape: Length,
    /// From the eye to the bend.
    pub shank: Length,
    /// How thick the hook's wire is.
    pub wire: Length,
    /// How thick the body is.
    pub body_across: Length,
    /// What the bead leaves of the shank.
    pub body_long: Length,
    /// In the air.
    pub hook: Mass,
    /// In the air.
    pub bead: Mass,
    /// Wire wound round the shank, in the air.
    pub wound: Mass,
    /// In the air, without the water that it holds.
    pub dressing: Mass,
    /// Water that all of it displaces.
    pub displaced: Volume,
}

/// How much of a fly is taken otherwise than it is told.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Varied {
    pub drag: f64,
    pub hook_and_dressing: f64,
    pub bead: f64,
}

impl Fly {
    /// A fly of its parts.
    ///
    /// Its fall is known to a factor of 1.22 either way, rather slower than faster: what is left out all adds drag.
    ///
    /// # Errors
    /// Where there is neither hook nor bead, where a size is no size, or where it was timed but cannot sink.
    pub fn tied(parts: &Parts) -> Result<Self, NoFly> {
        let built = parts.build()?;
        let fly = Self {
            built,
            timed: parts.timed,
            scale: 1.0,
            known_to: if parts.timed.is_some() {
                TIMED_DRAG_KNOWN_TO
            } else {
                DRAG_KNOWN_TO
            },
        };
        if let Some(timed) = parts.timed {
            let scale = fly.timed_scale(&timed);
            if !(scale > 0.0 && scale.is_finite()) {
                return Err(NoFly::NoFall);
            }
        }
        Ok(fly)
    }

    /// A shot: a solid ball of a mass.
    ///
    /// # Errors
    /// Where it has no mass or no density.
    pub fn shot(mass: Mass, density: MassDensity) -> Result<Self, NoFly> {
        Self::tied(&Parts {
            bead: Some(Bead::shot(mass, density)),
            ..Parts::default()
        })
    }

    /// The same fly with its drag scaled so that it sinks at a measured speed in still water.
    /// A fly that does not sink there, or no speed, leaves it as it is.
    #[must_use]
    pub fn sinking_at(self, measured: Velocity, fluid: &Fluid) -> Self {
        let timed = Timed {
            speed: measured,
            water: *fluid,
        };
        let scale = self.timed_scale(&timed);
        if !(scale > 0.0 && scale.is_finite()) {
            return self;
        }
        Self {
            timed: Some(timed),
            known_to: TIMED_DRAG_KNOWN_TO,
            ..self
        }
    }

    /// The same fly with its drag multiplied.
    #[must_use]
    pub fn dragging(self, times: f64) -> Self {
        Self {
            scale: self.scale * times,
            ..self
        }
    }

    /// What it comes to in a water.
    pub fn in_water(&self, fluid: &Fluid) -> InWater {
        InWater::of(self.body(fluid))
    }

    /// What it weighs under water: `(m - rho V) g`, below nothing where it floats.
    pub fn wet_weight(&self, fluid: &Fluid) -> Force {
        Force::new::<newton>(self.body(fluid).weight)
    }

    /// The speed at which it sinks in still water, where it sinks.
    pub fn sinks(&self, fluid: &Fluid) -> Option<Velocity> {
        self.body(fluid).sinks().map(Velocity::new::<meter_per_second>)
    }

    /// What it weighs in the air.
    pub fn mass(&self) -> Mass {
        Mass::new::<kilogram>(self.mass_si())
    }

    /// The measures of its parts.
    pub fn anatomy(&self) -> Anatomy {
        let built = &self.built;
        let (metres, kilograms) = (Length::new::<meter>, Mass::new::<kilogram>);
        Anatomy {
            gape: metres(built.gape),
            shank: metres(built.shank),
            wire: metres(built.hook_wire),
            body_across: metres(built.across),
            body_long: metres(built.long),
            hook: kilograms(built.hook.mass),
            bead: kilograms(built.bead.mass),
            wound: kilograms(built.wire.mass),
            dressing: kilograms(built.dressing.mass),
            displaced: Volume::new::<cubic_meter>(built.bead.volume + built.behind_bead().volume),
        }
    }

    /// The factor to within which its drag is known, nine times out of ten.
    pub fn drag_known_to(&self) -> f64 {
        self.known_to
    }

    /// The same fly with its drag known to within another factor, from 1 on: a shot's to the law of a sphere, or a fly's
    /// whose like were timed.
    #[must_use]
    pub fn known_to(self, factor: f64) -> Self {
        Self {
            known_to: factor,
            ..self
        }
    }

    /// The same fly by its parts alone.
    #[must_use]
    pub fn untimed(self) -> Self {
        Self {
            timed: None,
            known_to: DRAG_KNOWN_TO,
            ..self
        }
    }

    /// Whether its drag was measured.
    pub fn is_timed(&self) -> bool {
        self.timed.is_some()
    }

    pub(crate) fn mass_si(&self) -> f64 {
        self.built.mass()
    }

    /// Whether its drag is a number above nothing. What has no size is not built.
    pub(crate) fn has_size(&self) -> bool {
        self.scale.is_finite() && self.scale > 0.0
    }

    pub(crate) fn body(&self, fluid: &Fluid) -> TiedBody {
        let timed = self.timed.map_or(1.0, |timed| self.timed_scale(&timed));
        TiedBody::new(&self.built, self.scale * timed, fluid)
    }

    /// The same fly of other masses and drag. One that was timed keeps its fall whatever it weighs.
    pub(crate) fn varied(mut self, varied: &Varied) -> Self {
        let built = &mut self.built;
        built.bead = built.bead.heavier(varied.bead);
        built.hook = built.hook.heavier(varied.hook_and_dressing);
        built.dressing = built.dressing.heavier(varied.hook_and_dressing);
        self.scale *= varied.drag;
        self
    }

    fn timed_scale(&self, timed: &Timed) -> f64 {
        let (body, speed) = (
            TiedBody::new(&self.built, 1.0, &timed.water),
            timed.speed.get::<meter_per_second>(),
        );
        body.weight / (body.falling(speed) * speed)
    }
}
