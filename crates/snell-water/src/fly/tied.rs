//! A fly as it is tied: what it weighs, and how it goes through water.

use crate::drag::Shape;
use crate::fluid::Fluid;
use crate::fly::body::TiedBody;
use crate::fly::envelope::Envelope;
use crate::fly::in_water::Body;
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
    pub(super) form: Form,
}

#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Form {
    Tied(Tied),
    Envelope(Envelope),
}

#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Tied {
    built: Built,
    pub(super) timed: Option<Timed>,
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
        let tied = Tied {
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
            let scale = tied.timed_scale(&timed);
            if !(scale > 0.0 && scale.is_finite()) {
                return Err(NoFly::NoFall);
            }
        }
        Ok(Self {
            form: Form::Tied(tied),
        })
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

    /// A fly of a mass that displaces a volume, in an envelope (body and dressing) as large as a
    /// sphere of `diameter`, of a sphericity from 0 to 1. [`Fly::tied`] takes its place.
    pub fn new(mass: Mass, displaced: Volume, diameter: Length, sphericity: f64) -> Self {
        Self {
            form: Form::Envelope(Envelope {
                mass: mass.get::<kilogram>(),
                volume: displaced.get::<cubic_meter>(),
                diameter: diameter.get::<meter>(),
                shape: Shape::of_sphericity(sphericity),
                scale: 1.0,
            }),
        }
    }

    /// The same fly with its drag scaled so that it sinks at a measured speed in still water.
    /// A fly that does not sink there, or no speed, leaves it as it is.
    #[must_use]
    pub fn sinking_at(self, measured: Velocity, fluid: &Fluid) -> Self {
        let timed = Timed {
            speed: measured,
            water: *fluid,
        };
        match self.form {
            Form::Tied(tied) => {
                let scale = tied.timed_scale(&timed);
                if !(scale > 0.0 && scale.is_finite()) {
                    return self;
                }
                Self {
                    form: Form::Tied(Tied {
                        timed: Some(timed),
                        known_to: TIMED_DRAG_KNOWN_TO,
                        ..tied
                    }),
                }
            }
            Form::Envelope(envelope) => {
                let speed = measured.get::<meter_per_second>();
                let body = Envelope {
                    scale: 1.0,
                    ..envelope
                }
                .in_water(fluid);
                let by_shape = body.resistance(speed) * speed;
                let scale = body.weight / by_shape;
                let scale = if scale > 0.0 && scale.is_finite() {
                    scale
                } else {
                    envelope.scale
                };
                Self {
                    form: Form::Envelope(Envelope { scale, ..envelope }),
                }
            }
        }
    }

    /// The same fly with its drag multiplied.
    #[must_use]
    pub fn dragging(mut self, times: f64) -> Self {
        match &mut self.form {
            Form::Tied(tied) => tied.scale *= times,
            Form::Envelope(envelope) => envelope.scale *= times,
        }
        self
    }

    /// What it comes to in a water.
    pub fn in_water(&self, fluid: &Fluid) -> InWater {
        InWater::of(self.body(fluid))
    }

    /// What it weighs under water: `(m - rho V) g`, below nothing where it floats.
    pub fn wet_weight(&self, fluid: &Fluid) -> Force {
        Force::new::<newton>(self.body(fluid).weight())
    }

    /// The speed at which it sinks in still water, where it sinks.
    pub fn sinks(&self, fluid: &Fluid) -> Option<Velocity> {
        self.body(fluid).sinks().map(Velocity::new::<meter_per_second>)
    }

    /// What it weighs in the air.
    pub fn mass(&self) -> Mass {
        Mass::new::<kilogram>(self.mass_si())
    }

    /// Its measures; nothing where it was told by an envelope.
    pub fn anatomy(&self) -> Option<Anatomy> {
        let Form::Tied(tied) = &self.form else { return None };
        let built = &tied.built;
        let (metres, kilograms) = (Length::new::<meter>, Mass::new::<kilogram>);
        Some(Anatomy {
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
        })
    }

    /// The factor to within which its drag is known, nine times out of ten.
    pub fn drag_known_to(&self) -> f64 {
        match &self.form {
            Form::Tied(tied) => tied.known_to,
            Form::Envelope(_) => DRAG_KNOWN_TO,
        }
    }

    /// The same fly with its drag known to within another factor, from 1 on: a shot's to the law of a sphere, or a fly's
    /// whose like were timed.
    #[must_use]
    pub fn known_to(mut self, factor: f64) -> Self {
        if let Form::Tied(tied) = &mut self.form {
            tied.known_to = factor;
        }
        self
    }

    /// Whether its drag was measured.
    pub fn is_timed(&self) -> bool {
        matches!(&self.form, Form::Tied(tied) if tied.timed.is_some())
    }

    pub(crate) fn mass_si(&self) -> f64 {
        match &self.form {
            Form::Tied(tied) => tied.built.mass(),
            Form::Envelope(envelope) => envelope.mass,
        }
    }

    /// Whether it is there at all: all its sizes are numbers above nothing.
    pub(crate) fn has_size(&self) -> bool {
        match &self.form {
            // What has no size is not built.
            Form::Tied(tied) => tied.scale.is_finite() && tied.scale > 0.0,
            Form::Envelope(envelope) => envelope.has_size(),
        }
    }

    pub(crate) fn body(&self, fluid: &Fluid) -> Body {
        match &self.form {
            Form::Tied(tied) => Body::Tied(tied.body(fluid)),
            Form::Envelope(envelope) => Body::Envelope(envelope.in_water(fluid)),
        }
    }

    /// The same fly of other masses and drag. One that was timed keeps its fall whatever it weighs.
    pub(crate) fn varied(&self, varied: &Varied) -> Self {
        match self.form {
            Form::Tied(mut tied) => {
                let built = &mut tied.built;
                built.bead = built.bead.heavier(varied.bead);
                built.hook = built.hook.heavier(varied.hook_and_dressing);
                built.dressing = built.dressing.heavier(varied.hook_and_dressing);
                tied.scale *= varied.drag;
                Self {
                    form: Form::Tied(tied),
                }
            }
            Form::Envelope(mut envelope) => {
                envelope.mass *= varied.bead;
                envelope.scale *= varied.drag;
                Self {
                    form: Form::Envelope(envelope),
                }
            }
        }
    }
}

impl Tied {
    fn body(&self, fluid: &Fluid) -> TiedBody {
        let timed = self.timed.map_or(1.0, |timed| self.timed_scale(&timed));
        TiedBody::new(&self.built, self.scale * timed, fluid)
    }

    fn timed_scale(&self, timed: &Timed) -> f64 {
        let (body, speed) = (
            TiedBody::new(&self.built, 1.0, &timed.water),
            timed.speed.get::<meter_per_second>(),
        );
        body.weight / (body.falling(speed) * speed)
    }
}
