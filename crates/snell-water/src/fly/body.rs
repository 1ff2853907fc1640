//! What water of one temperature does to a tied fly: its weight there, how it tilts, and how it drags.
//!
//! Three resistances: of what has no direction (bead and fibres), of the rest broadside, and of the rest head
//! first. An angle between axis and flow joins them.

use super::parts::Built;
use crate::bracket::{self, Bracket};
use crate::drag::{grip_across, grip_of_sphere, shortened};
use crate::fluid::Fluid;

/// A tied fly in a water.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct TiedBody {
    rho: f64,
    mu: f64,
    /// Under water, N.
    pub weight: f64,
    /// All but the bead.
    pub behind_bead: f64,
    bead: f64,
    across: f64,
    long: f64,
    shortened: f64,
    hook_wire: f64,
    gape: f64,
    fibres: f64,
    /// Cosine of the angle between its axis and its way when it falls free.
    pub tilt: f64,
    /// What all drag is multiplied by.
    pub scale: f64,
}

/// The thickness of a fibre, m. Source: from memory.
const FIBRE: f64 = 0.05e-3;
/// What a fibre swept back by 60 degrees keeps of its drag broadside. Source: from memory, within a factor of 2; fibres
/// bend more as the water goes faster, which is left out (Alben, Shelley and Zhang 2002).
const SWEPT: f64 = 0.30;
/// Wire of bend and spear that meets the water broadside, in gapes: the mean over a roll. Computed from geometry.
const BEND_BROADSIDE: f64 = 2.0;
/// The same head first: two thirds of a gape by the rule of independence (computed from geometry), a third for eye
/// and point (from memory).
const BEND_HEAD_FIRST: f64 = 1.0;
/// Skin friction along a body: the limit of a thin cylinder, and a plate's (Blasius 1908) joined to it.
const SKIN_THIN: f64 = 2.0;
const SKIN_PLATE: f64 = 2.09;
/// Where the wire's weight acts and where the bend's drag does, in shanks from the eye. Computed from geometry.
const WIRE_ACTS: f64 = 0.63;
const BEND_ACTS: f64 = 1.02;
/// The speed at which the tilt of a fall is told, m/s.
const TILT_SPEED: f64 = 0.3;
/// How far the centre of pressure walks along the shank from broadside to head first. Source: about a quarter for
/// plates, from memory; 0.15 or 0.4 moves a slim #14 with a 1.5 mm brass bead by 19 %, with 2 mm of tungsten by 3 %.
const WALKS: f64 = 0.25;

impl TiedBody {
    pub(super) fn new(built: &Built, scale: f64, fluid: &Fluid) -> Self {
        let diameters_long = if built.across > 0.0 {
            built.long / built.across
        } else {
            0.0
        };
        let mut body = Self {
            rho: fluid.rho,
            mu: fluid.mu,
            weight: built.bead.weight(fluid.rho) + built.behind_bead().weight(fluid.rho),
            behind_bead: built.behind_bead().weight(fluid.rho),
            bead: built.bead_across,
            across: built.across,
            long: built.long,
            shortened: shortened(diameters_long),
            hook_wire: built.hook_wire,
            gape: built.gape,
            fibres: built.fibres,
            tilt: 1.0,
            scale,
        };
        body.tilt = body.tilt_of(built);
        body
    }

    /// How a fly falls is a lever: its weight acts nearer to the eye than its drag does.
    fn tilt_of(&self, built: &Built) -> f64 {
        if built.shank <= 0.0 {
            return 1.0;
        }
        let middle = (built.shank + built.bead_across) / 2.0;
        let head = built.bead_across / 2.0;
        let weights = [
            (built.bead.weight(self.rho), head),
            (built.hook.weight(self.rho), WIRE_ACTS * built.shank),
            (
                built.wire.weight(self.rho) + built.dressing.weight(self.rho),
                middle,
            ),
        ];
        let drags = [
            (self.of_bead(TILT_SPEED), head),
            (self.of_fibres(TILT_SPEED) + self.of_side(TILT_SPEED), middle),
            (self.of_wire(TILT_SPEED, BEND_BROADSIDE), BEND_ACTS * built.shank),
        ];
        let apart = centre(&drags) - centre(&weights);
        (apart / (WALKS * built.shank)).clamp(0.0, 1.0)
    }

    /// Bead and fibres, N s/m.
    fn without_direction(&self, speed: f64) -> f64 {
        self.of_bead(speed) + self.of_fibres(speed)
    }

    /// Every part's share at a speed: each law of drag is read once.
    fn at_speed(&self, speed: f64) -> Ends {
        let wire = self.of_wire(speed, 1.0);
        Ends {
            without_direction: self.without_direction(speed),
            broadside: self.of_side(speed) + wire * BEND_BROADSIDE,
            head_first: self.of_head(speed) + wire * BEND_HEAD_FIRST,
        }
    }

    fn of_head(&self, speed: f64) -> f64 {
        let skin = SKIN_THIN * self.mu * self.long
            + SKIN_PLATE * self.across * (self.rho * speed * self.mu * self.long).sqrt();
        let stands_out = (self.across * self.across - self.bead * self.bead).max(0.0);
        let head = if stands_out > 0.0 {
            self.mu * grip_of_sphere(self.reynolds(speed, self.across)) * stands_out / self.across
        } else {
            0.0
        };
        skin + head
    }

    fn of_bead(&self, speed: f64) -> f64 {
        self.mu * self.bead * grip_of_sphere(self.reynolds(speed, self.bead))
    }

    fn of_fibres(&self, speed: f64) -> f64 {
        SWEPT * self.mu * self.fibres / FIBRE * grip_across(self.reynolds(speed, FIBRE))
    }

    fn of_side(&self, speed: f64) -> f64 {
        self.shortened * self.mu * self.long * grip_across(self.reynolds(speed, self.across))
    }

    fn of_wire(&self, speed: f64, gapes: f64) -> f64 {
        self.mu * gapes * self.gape * grip_across(self.reynolds(speed, self.hook_wire))
    }

    fn reynolds(&self, speed: f64, across: f64) -> f64 {
        self.rho * speed * across / self.mu
    }

    /// Drag over speed at an angle between axis and flow, by its sine.
    fn at_angle(&self, ends: &Ends, sine: f64) -> f64 {
        let turned = (ends.broadside - ends.head_first) * sine * sine * sine;
        self.scale * (ends.without_direction + ends.head_first + turned)
    }

    /// Drag over speed of a fall, N s/m.
    pub fn falling(&self, speed: f64) -> f64 {
        self.at_angle(&self.at_speed(speed), self.sine_falling())
    }

    fn sine_falling(&self) -> f64 {
        (1.0 - self.tilt * self.tilt).max(0.0).sqrt()
    }

    /// Drag over speed in water that flows level past it while it hangs by the eye: a vane that the weight behind
    /// the bead holds down.
    pub fn slipping(&self, speed: f64) -> f64 {
        let ends = self.at_speed(speed);
        self.at_angle(&ends, self.sine_slipping(&ends, speed))
    }

    fn sine_slipping(&self, ends: &Ends, speed: f64) -> f64 {
        if self.behind_bead <= 0.0 {
            return 0.0;
        }
        let lever = self.scale * ends.broadside * speed / self.behind_bead;
        (2.0 / (1.0 + (1.0 + 4.0 * lever * lever).sqrt())).sqrt()
    }

    /// Drag over speed in a flow of any direction, joined by the squares of its parts.
    pub fn resistance(&self, [along, up]: [f64; 2]) -> f64 {
        let squared = along * along + up * up;
        if squared <= 0.0 {
            return self.falling(0.0);
        }
        let speed = squared.sqrt();
        let ends = self.at_speed(speed);
        let level = self.at_angle(&ends, self.sine_slipping(&ends, speed));
        let fall = self.at_angle(&ends, self.sine_falling());
        level + (fall - level) * up * up / squared
    }

    /// Broadside and head first with all that has no direction, N s/m.
    pub fn ends(&self, speed: f64) -> [f64; 2] {
        let ends = self.at_speed(speed);
        [1.0, 0.0].map(|sine| self.at_angle(&ends, sine))
    }

    /// The speed at which it falls in still water, where it sinks.
    pub fn sinks(&self) -> Option<f64> {
        (self.weight > 0.0).then(|| {
            let left = |speed: f64| self.falling(speed) * speed - self.weight;
            let fastest = bracket::upward(left, 1.0);
            Bracket::of(left, 0.0, fastest).map_or(fastest, |bracket| bracket.root(1e-12))
        })
    }

    /// Mass of water that it carries along, kg: half of what a ball and of what a cylinder of its size displace.
    /// Source: potential flow about a sphere and a cylinder (Lamb, Hydrodynamics, from memory).
    pub fn mass_carried(&self) -> f64 {
        use std::f64::consts::PI;
        let ball = PI / 6.0 * self.bead * self.bead * self.bead;
        let body = PI / 4.0 * self.across * self.across * self.long;
        0.5 * self.rho * (ball + body)
    }

    /// How high its middle lies when it lies on the bed.
    pub fn radius(&self) -> f64 {
        self.bead.max(self.across) / 2.0
    }
}

/// Drag over speed at one speed, N s/m, without the scale.
struct Ends {
    without_direction: f64,
    broadside: f64,
    head_first: f64,
}

/// Where forces act in the mean; nothing where there are none.
fn centre(forces: &[(f64, f64)]) -> f64 {
    let all: f64 = forces.iter().map(|(force, _)| force).sum();
    let moments: f64 = forces.iter().map(|(force, at)| force * at).sum();
    if all > 0.0 { moments / all } else { 0.0 }
}
