//! What water of one temperature does to a fly, worked out once.

use super::body::TiedBody;
use uom::si::f64::{Force, Ratio, Velocity};
use uom::si::force::newton;
use uom::si::ratio::ratio;
use uom::si::velocity::meter_per_second;

/// What water of one temperature does to a fly. Forces against its speed through the water.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct InWater {
    body: TiedBody,
}

impl InWater {
    pub(super) fn of(body: TiedBody) -> Self {
        Self { body }
    }

    /// `(m - rho V) g`, below nothing where it floats.
    pub fn weight(&self) -> Force {
        Force::new::<newton>(self.body.weight)
    }

    /// The same of all but the bead.
    pub fn weight_behind_bead(&self) -> Force {
        Force::new::<newton>(self.body.behind_bead)
    }

    /// Cosine of the angle between its axis and its way when it falls free: 1 is head first.
    pub fn tilt(&self) -> Ratio {
        Ratio::new::<ratio>(self.body.tilt)
    }

    /// What its drag was scaled by to make its timed fall; 1 where it was not timed.
    pub fn drag_scale(&self) -> Ratio {
        Ratio::new::<ratio>(self.body.scale)
    }

    /// Drag at a speed when it falls free.
    pub fn falling(&self, speed: Velocity) -> Force {
        self.force(speed, |speed| self.body.falling(speed))
    }

    /// Drag at a speed of water that flows level past it while it hangs by the eye.
    pub fn slipping(&self, speed: Velocity) -> Force {
        self.force(speed, |speed| self.body.slipping(speed))
    }

    /// Drag at a speed broadside and head first.
    pub fn ends(&self, speed: Velocity) -> [Force; 2] {
        let at = |which: usize| self.force(speed, |speed| self.body.ends(speed)[which]);
        [at(0), at(1)]
    }

    fn force(&self, speed: Velocity, resistance: impl Fn(f64) -> f64) -> Force {
        let speed = speed.get::<meter_per_second>();
        Force::new::<newton>(resistance(speed) * speed)
    }
}
