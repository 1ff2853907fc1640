//! The leader in the wind, walked from the entry up to the height of the tip.
//!
//! Each element bears its weight and the wind: `dT/ds = w - f`, `dr/ds = T / |T|`.

use crate::drag::{along as grip_along, grip_across};
use crate::leader::place::Place;
use crate::leader::wind::Wind;
use crate::strand::Strand;

/// Along the stream, across it and up.
type Space = [f64; 3];

#[derive(Clone, Copy)]
struct At {
    place: Space,
    pull: Space,
}

/// A step turns the line by about this, in shares of the tension. Ten times as fine a walk ends a quarter of a millimetre
/// off at the most.
const TURN: f64 = 0.4;
/// Near the water, where the wind falls off, a step is this share of the height,
const HEIGHT_SHARE: f64 = 1.0;
/// and no shorter than this, m.
const SHORTEST: f64 = 1e-2;
/// Nor is it longer than this, m.
const LONGEST: f64 = 0.5;
/// Steps before it is given up: a line that takes more is blown flat.
const MOST_STEPS: usize = 2000;
/// The walk ends within this of the tip's height, m.
const TOLERANCE: f64 = 1e-9;
const TURNS: usize = 8;

/// Wind and line that do not change while the pull is looked for.
pub(super) struct Blown<'a> {
    pub line: &'a [Strand],
    pub wind: &'a Wind,
    /// The leader's own speed, along and across.
    pub goes: [f64; 2],
    pub tip: f64,
    /// Steps so many times as long as usual: shorter ones show where the line is farthest from a chord.
    pub long: f64,
}

impl Blown<'_> {
    /// Where a line that starts with a pull comes to the height of the tip; nothing where it does not get there.
    /// `passed` is told each place on the way.
    pub fn at_tip(&self, pull: Space, mut passed: impl FnMut(Space)) -> Option<Place> {
        let mut at = At {
            place: [0.0; 3],
            pull,
        };
        let mut length = 0.0;
        let mut steps = 0;
        passed(at.place);
        for (index, strand) in self.line.iter().enumerate() {
            let ends = if index + 1 == self.line.len() {
                f64::INFINITY
            } else {
                strand.length
            };
            let mut from = 0.0;
            while from < ends {
                steps += 1;
                if steps > MOST_STEPS {
                    return None;
                }
                let slope = self.slope(&at, strand);
                let by = (self.long * stride(&at, &slope)).min(ends - from);
                let next = self.step(&at, &slope, strand, by);
                if !next.place[2].is_finite() {
                    return None;
                }
                if next.place[2] >= self.tip && (next.pull[2] > 0.0 || at.place[2] < self.tip) {
                    let (last, part) = self.up_to(&at, &slope, strand, by);
                    passed(last.place);
                    return Some(Place {
                        along: last.place[0],
                        across: last.place[1],
                        length: length + part,
                        pull: last.pull,
                    });
                }
                at = next;
                passed(at.place);
                from = if by < ends - from { from + by } else { ends };
                length += by;
            }
        }
        None
    }

    fn up_to(&self, at: &At, slope: &At, strand: &Strand, by: f64) -> (At, f64) {
        let (mut part, mut last) = (by, self.step(at, slope, strand, by));
        for _ in 0..TURNS {
            let over = last.place[2] - self.tip;
            if over.abs() < TOLERANCE {
                break;
            }
            let climb = (last.pull[2] / size(last.pull)).max(0.01);
            part = (part - over / climb).clamp(0.0, by);
            last = self.step(at, slope, strand, part);
        }
        (last, part)
    }

    /// One step of the classical fourth-order Runge-Kutta method (Kutta 1901), from the slope at its start.
    fn step(&self, at: &At, one: &At, strand: &Strand, by: f64) -> At {
        let two = self.slope(&moved(at, one, by / 2.0), strand);
        let three = self.slope(&moved(at, &two, by / 2.0), strand);
        let four = self.slope(&moved(at, &three, by), strand);
        let mean = |of: fn(&At) -> &Space| {
            let mut mean = [0.0; 3];
            for (axis, mean) in mean.iter_mut().enumerate() {
                let [a, b, c, d] = [one, &two, &three, &four].map(|slope| of(slope)[axis]);
                *mean = (a + 2.0 * b + 2.0 * c + d) / 6.0;
            }
            mean
        };
        let slope = At {
            place: mean(|at| &at.place),
            pull: mean(|at| &at.pull),
        };
        moved(at, &slope, by)
    }

    fn slope(&self, at: &At, strand: &Strand) -> At {
        let tension = size(at.pull);
        let along = if tension > 0.0 {
            at.pull.map(|part| part / tension)
        } else {
            [0.0, 0.0, 1.0]
        };
        let share = self.wind.share(at.place[2]);
        let flow = [
            self.wind.along * share - self.goes[0],
            self.wind.across * share - self.goes[1],
            0.0,
        ];
        let force = self.force(strand, flow, along);
        At {
            place: along,
            pull: [-force[0], -force[1], strand.weight_in_air() - force[2]],
        }
    }

    /// What the air does to a metre of line that lies in a direction.
    fn force(&self, strand: &Strand, flow: Space, along: Space) -> Space {
        let air = &self.wind.air;
        let lengthwise = flow[0] * along[0] + flow[1] * along[1] + flow[2] * along[2];
        let mut across = [0.0; 3];
        for axis in 0..3 {
            across[axis] = flow[axis] - lengthwise * along[axis];
        }
        let reynolds = air.rho * size(across) * strand.diameter / air.mu;
        let (by_across, by_along) = (air.mu * grip_across(reynolds), air.mu * grip_along(reynolds));
        let mut force = [0.0; 3];
        for axis in 0..3 {
            force[axis] = by_across * across[axis] + by_along * lengthwise * along[axis];
        }
        force
    }
}

fn stride(at: &At, slope: &At) -> f64 {
    let turns = size(slope.pull);
    let by_turn = TURN * size(at.pull) / turns;
    let by_height = (HEIGHT_SHARE * at.place[2].abs()).max(SHORTEST);
    by_turn.min(by_height).clamp(SHORTEST, LONGEST)
}

fn moved(at: &At, slope: &At, by: f64) -> At {
    let add = |to: Space, slope: Space| {
        [
            to[0] + by * slope[0],
            to[1] + by * slope[1],
            to[2] + by * slope[2],
        ]
    };
    At {
        place: add(at.place, slope.place),
        pull: add(at.pull, slope.pull),
    }
}

fn size([x, y, z]: Space) -> f64 {
    (x * x + y * y + z * z).sqrt()
}

#[cfg(test)]
mod tests {
    use super::super::{Air, calm};
    use super::*;
    use uom::si::f64::{Length, MassDensity, Velocity};
    use uom::si::length::meter;
    use uom::si::mass_density::kilogram_per_cubic_meter;
    use uom::si::velocity::meter_per_second;

    #[test]
    fn without_air_a_walked_leader_is_the_catenary() {
        let metres = Length::new::<meter>;
        let nylon = MassDensity::new::<kilogram_per_cubic_meter>(1140.0);
        let line = [
            Strand::new(metres(0.7), metres(0.127e-3), nylon),
            Strand::new(metres(0.5), metres(0.22e-3), nylon),
            Strand::new(metres(6.0), metres(0.28e-3), nylon),
        ];
        let (none, nothing) = (
            Air {
                rho: 1e-15,
                mu: 1e-18,
            },
            Velocity::new::<meter_per_second>(0.0),
        );
        let wind = Wind::new(nothing, nothing, metres(2.5), none);
        let blown = Blown {
            line: &line,
            wind: &wind,
            goes: [0.4, 0.0],
            tip: 2.5,
            long: 1.0,
        };
        for pull in [-0.006, -0.001, 0.002, 0.01] {
            for load in [0.001, 0.003] {
                let walked = blown.at_tip([pull, 0.0, load], |_| {}).expect("it gets there");
                let hung = calm::at_tip(&line, pull, load, 2.5).expect("it gets there");
                for (what, one, other) in [
                    ("along", walked.along, hung.along),
                    ("long", walked.length, hung.length),
                    ("pull", walked.pull[2], hung.pull[2]),
                ] {
                    assert!(
                        (one / other - 1.0).abs() < 1e-5,
                        "{pull} {load} {what}: {one} and {other}"
                    );
                }
            }
        }
    }

    /// Steps a tenth as long end where the usual ones do, to a millimetre over metres.
    #[test]
    fn in_a_wind_the_steps_are_short_enough() {
        let metres = Length::new::<meter>;
        let nylon = MassDensity::new::<kilogram_per_cubic_meter>(1140.0);
        let line = [
            Strand::new(metres(0.5), metres(0.127e-3), nylon),
            Strand::new(metres(6.0), metres(0.28e-3), nylon),
        ];
        let speed = Velocity::new::<meter_per_second>;
        for (along, across) in [(4.0, 0.0), (-4.0, 0.0), (0.0, 4.0), (2.0, 1.0)] {
            let wind = Wind::new(
                speed(along),
                speed(across),
                metres(2.5),
                Air {
                    rho: 1.25,
                    mu: 1.78e-5,
                },
            );
            let place = |long: f64, pull: f64| {
                let blown = Blown {
                    line: &line,
                    wind: &wind,
                    goes: [0.4, 0.0],
                    tip: 2.5,
                    long,
                };
                blown.at_tip([pull, 0.0, 0.003], |_| {})
            };
            for pull in [-0.003, 0.0, 0.003] {
                let (Some(usual), Some(fine)) = (place(1.0, pull), place(0.1, pull)) else {
                    continue;
                };
                for (what, one, other) in [
                    ("along", usual.along, fine.along),
                    ("across", usual.across, fine.across),
                    ("long", usual.length, fine.length),
                ] {
                    assert!(
                        (one - other).abs() < 1e-3,
                        "{along} {across} {pull} {what}: {one} and {other}"
                    );
                }
            }
        }
    }
}
