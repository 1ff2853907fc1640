//! The shape of the line in a steady drift, walked from the point upward.
//!
//! It knows the forces at each height and the point's height; what these have to
//! be is for its caller to find.

use crate::bracket::Bracket;
use crate::fly::Body;
use crate::plane::size;
use crate::strand::Strand;
use crate::stream::Stream;
use crate::tackle::{Reach, Tackle};
use std::cell::Cell;

/// Where the walk is along the line, and the pull of the line above on the line below.
#[derive(Debug, Clone, Copy)]
pub(super) struct Step {
    pub at: [f64; 2],
    pub pull: [f64; 2],
}

/// A fly on the way.
#[derive(Debug, Clone, Copy)]
pub(super) struct Passed {
    pub at: [f64; 2],
    /// The line just above it.
    pub above: Step,
    pub drag: f64,
}

/// What a walk came by.
#[derive(Debug, Clone, Default)]
pub(super) struct Trace {
    pub line: Vec<[f64; 2]>,
    pub flies: Vec<Passed>,
}

/// A walk's end.
#[derive(Debug, Clone, Copy)]
pub(super) struct End {
    pub step: Step,
    /// Line below it.
    pub length: f64,
}

/// Line that would be under water before a walk to the surface is given up, in depths.
const FARTHEST: f64 = 40.0;
/// Line of more than this many depths is cut into longer steps.
const LONG: f64 = 4.0;
/// Steps before a walk to the surface is given up: a line that takes more lies flat.
const MOST_STEPS: usize = 1000;

/// What acts on a rig at each height over the bed, weight and all.
pub(super) trait Forces {
    /// On a fly by its place from the point up, N.
    fn on_fly(&self, fly: usize, height: f64) -> [f64; 2];
    /// On a metre of line that lies in a direction, N/m.
    fn on_line(&self, strand: &Strand, along: [f64; 2], height: f64) -> [f64; 2];
}

/// A stream that a rig goes down with one speed.
#[derive(Debug, Clone, Copy)]
pub(super) struct Passing<'a> {
    pub stream: &'a Stream,
    /// Of each fly, the point first.
    pub bodies: &'a [Body],
    /// Speed of the whole rig.
    pub speed: f64,
}

impl Forces for Passing<'_> {
    fn on_fly(&self, fly: usize, height: f64) -> [f64; 2] {
        let body = &self.bodies[fly];
        let slip = self.stream.profile.speed(height) - self.speed;
        [body.slipping(slip.abs()) * slip, -body.weight]
    }

    fn on_line(&self, strand: &Strand, along: [f64; 2], height: f64) -> [f64; 2] {
        let fluid = &self.stream.fluid;
        let flow = [self.stream.profile.speed(height) - self.speed, 0.0];
        let pull = strand.grip(flow, along, fluid).pull;
        [pull[0], pull[1] - strand.weight_in(fluid)]
    }
}

/// A rig that some forces act on.
#[derive(Debug, Clone, Copy)]
pub(super) struct Walk<'a, F> {
    pub tackle: &'a Tackle,
    pub forces: F,
    /// Of the water.
    pub depth: f64,
    /// How many segments the line or the depth is cut into.
    pub segments: usize,
    /// How many more slopes may be worked out; with none left a walk stops where it is.
    pub left: &'a Cell<usize>,
    /// What the bed bears of the point, N.
    pub borne: f64,
}

impl<F: Forces> Walk<'_, F> {
    /// Over a length of line.
    pub fn over(&self, length: f64, height: f64, trace: Option<&mut Trace>) -> End {
        // The steps of a walk to the surface, so that both agree on the length that just lifts off the bed;
        // longer ones for line that lies on it anyhow.
        let longest = length.min(self.depth.max(length / LONG)) / self.segments as f64;
        self.go(length, height, longest, None, trace).0
    }

    /// Up to the surface, if the line gets there.
    pub fn up(&self, height: f64, trace: Option<&mut Trace>) -> Option<End> {
        let longest = self.depth / self.segments as f64;
        let (end, reached) = self.go(self.depth * FARTHEST, height, longest, Some(self.depth), trace);
        reached.then_some(end)
    }

    fn go(
        &self,
        length: f64,
        height: f64,
        longest: f64,
        surface: Option<f64>,
        mut trace: Option<&mut Trace>,
    ) -> (End, bool) {
        let mut step = self.start(0, [0.0, height]);
        step.pull[1] -= self.borne;
        if let Some(trace) = trace.as_deref_mut() {
            trace.line.push(step.at);
            trace.flies.push(Passed {
                at: step.at,
                above: step,
                drag: -step.pull[0],
            });
        }
        let mut steps = 0;
        for reach in self.tackle.reaches(length) {
            let mut at = reach.from;
            while at < reach.to {
                steps += 1;
                if self.left.get() == 0 || (surface.is_some() && steps > MOST_STEPS) {
                    return (End { step, length: at }, false);
                }
                let slope = self.slope(step, &reach.strand);
                let by = stride(step, slope, longest).min(reach.to - at);
                let next = self.step(step, slope, &reach.strand, by);
                if let Some(surface) = surface.filter(|surface| next.at[1] >= *surface) {
                    let (last, part) = self.up_to(step, slope, &reach.strand, by, surface);
                    if let Some(trace) = trace {
                        trace.line.push(last.at);
                    }
                    let length = at + part;
                    return (End { step: last, length }, true);
                }
                step = next;
                at = if by < reach.to - at { at + by } else { reach.to };
                if let Some(trace) = trace.as_deref_mut() {
                    trace.line.push(step.at);
                }
            }
            step = self.past(step, &reach, trace.as_deref_mut());
        }
        (End { step, length }, false)
    }

    /// At a fly with nothing below it.
    fn start(&self, fly: usize, at: [f64; 2]) -> Step {
        let pull = self.forces.on_fly(fly, at[1]).map(|force| -force);
        Step { at, pull }
    }

    /// Over the place where something hangs.
    fn past(&self, step: Step, reach: &Reach, trace: Option<&mut Trace>) -> Step {
        let Some(index) = reach.hung else { return step };
        let fly = index + 1;
        let (fly, end) = match &self.tackle.hung()[index].tag {
            Some(tag) => self.tag(fly, tag, step.at),
            None => {
                let fly = self.start(fly, step.at);
                (fly, fly)
            }
        };
        let above = Step {
            at: step.at,
            pull: [step.pull[0] + end.pull[0], step.pull[1] + end.pull[1]],
        };
        if let Some(trace) = trace {
            trace.flies.push(Passed {
                at: fly.at,
                above,
                drag: -fly.pull[0],
            });
        }
        above
    }

    /// A tag whose upper end is at a place: its fly, and its upper end.
    fn tag(&self, fly: usize, tag: &Strand, place: [f64; 2]) -> (Step, Step) {
        let length = tag.length;
        let segments = (length / TAG_SEGMENT).ceil().clamp(1.0, MOST_TAG_SEGMENTS);
        let from = |height: f64| {
            let start = self.start(fly, [0.0, height]);
            let by = length / segments;
            (
                start,
                (0..segments as usize).fold(start, |step, _| self.step(step, self.slope(step, tag), tag, by)),
            )
        };
        // The fly's height hardly changes the tag's rise, so that putting the one into the other closes in.
        let mut height = place[1] - length;
        let (mut start, mut end) = from(height);
        for _ in 0..TAG_TURNS {
            let off = place[1] - end.at[1];
            if off.abs() < TAG_TOLERANCE {
                break;
            }
            height += off;
            (start, end) = from(height);
        }
        // But where the water changes within the tag's length: a tag rises by no more than its length.
        let over = |height: f64| from(height).1.at[1] - place[1];
        if (end.at[1] - place[1]).abs() > TAG_TOLERANCE
            && let Some(bracket) = Bracket::of(over, place[1] - length, place[1])
        {
            (start, end) = from(bracket.root(TAG_TOLERANCE));
        }
        start.at[0] = place[0] - end.at[0];
        (start, end)
    }

    /// The part of a step that ends at the surface.
    fn up_to(&self, step: Step, slope: Step, strand: &Strand, by: f64, surface: f64) -> (Step, f64) {
        let mut part = by;
        let mut last = self.step(step, slope, strand, part);
        for _ in 0..SURFACE_TURNS {
            if (last.at[1] - surface).abs() < SURFACE_TOLERANCE {
                break;
            }
            let climb = direction(last.pull)[1].max(0.01);
            part = (part - (last.at[1] - surface) / climb).clamp(0.0, by);
            last = self.step(step, slope, strand, part);
        }
        (last, part)
    }

    /// One step of the classical fourth-order Runge-Kutta method (Kutta 1901), from the slope at its start.
    fn step(&self, step: Step, one: Step, strand: &Strand, by: f64) -> Step {
        let two = self.slope(moved(step, one, by / 2.0), strand);
        let three = self.slope(moved(step, two, by / 2.0), strand);
        let four = self.slope(moved(step, three, by), strand);
        let mean = |part: fn(&Step) -> [f64; 2]| {
            let [one, two, three, four] = [&one, &two, &three, &four].map(part);
            [0, 1].map(|axis| (one[axis] + 2.0 * two[axis] + 2.0 * three[axis] + four[axis]) / 6.0)
        };
        moved(
            step,
            Step {
                at: mean(|step| step.at),
                pull: mean(|step| step.pull),
            },
            by,
        )
    }

    /// What changes by a metre of line: `dr/ds = T/|T|`, `dT/ds = -f`, weight and all.
    fn slope(&self, step: Step, strand: &Strand) -> Step {
        self.left.set(self.left.get().saturating_sub(1));
        let along = direction(step.pull);
        let force = self.forces.on_line(strand, along, step.at[1]);
        Step {
            at: along,
            pull: force.map(|force| -force),
        }
    }
}

/// A segment of a tag, m: it is short and nearly straight.
const TAG_SEGMENT: f64 = 0.15;
/// A tag of any length has no more: what is longer than the water is deep lies straight in it anyhow.
const MOST_TAG_SEGMENTS: f64 = 200.0;
/// A tag's fly is placed to within this, m.
const TAG_TOLERANCE: f64 = 1e-8;
const TAG_TURNS: usize = 6;
const SURFACE_TURNS: usize = 6;
/// A walk to the surface ends within this of it, m.
const SURFACE_TOLERANCE: f64 = 1e-10;

/// A pull below which a line has no direction of its own and is taken to hang.
const SLACK: f64 = 1e-15;

fn direction(pull: [f64; 2]) -> [f64; 2] {
    let tension = size(pull);
    if tension < SLACK {
        return [0.0, 1.0];
    }
    pull.map(|part| part / tension)
}

/// How far a line turns in a step at most, as a share of how steeply it stands.
const TURNS_BY: f64 = 0.3;
/// A line flatter than this counts as this steep.
const FLATTEST: f64 = 0.05;
/// How much shorter than another a step can be.
const SHORTEST: f64 = 1.0 / 64.0;

/// How far to go on with a slope: less where the line turns sharply, as near a light fly, and above all
/// where it lies flat, since the water's hold on it goes with the square of its steepness.
fn stride(step: Step, slope: Step, longest: f64) -> f64 {
    let across = slope.at[0] * slope.pull[1] - slope.at[1] * slope.pull[0];
    let steep = slope.at[1].abs().max(FLATTEST);
    let turn = across.abs() * longest / (size(step.pull) * steep);
    // Where nothing pulls there is no direction to turn from.
    if turn.is_finite() && turn > TURNS_BY {
        return longest * (TURNS_BY / turn).max(SHORTEST);
    }
    longest
}

fn moved(step: Step, slope: Step, by: f64) -> Step {
    let add = |to: [f64; 2], slope: [f64; 2]| [to[0] + by * slope[0], to[1] + by * slope[1]];
    Step {
        at: add(step.at, slope.at),
        pull: add(step.pull, slope.pull),
    }
}

#[cfg(test)]
mod tests;
