//! A first guess of a drift's speed: that of the same rig hanging upright.
//!
//! A line that is held much slower than it drifts lies flat and is slow to walk. From a guess that is near, the
//! search never comes there.

use crate::bracket::Bracket;
use crate::{Fly, Strand, Stream, Tackle};

/// Pieces that the depth is cut into.
const PIECES: f64 = 8.0;
/// The guess is found to within this share of the surface's speed.
const TOLERANCE: f64 = 1e-3;
/// Where the search for it starts, as a share of the surface's speed, and how far it looks at first.
const USUAL: f64 = 0.8;
const NEAR: f64 = 0.1;
/// Water slower than this, m/s, counts as this fast in both.
const SLOW: f64 = 0.1;

/// What the water takes hold of, each with the water's speed there.
enum Held<'a> {
    Fly(&'a Fly),
    /// A strand and a length of it.
    Line(Strand, f64),
}

/// The speed at which the line above has to pull the rig with a force, were it upright with its point at a height.
pub(super) fn speed(tackle: &Tackle, stream: &Stream, point: f64, pull: f64) -> Option<f64> {
    let surface = stream.profile.speed(stream.profile.depth_si());
    let held = held(tackle, stream, point);
    let left = |speed: f64| {
        let on = held.iter().map(|(water, held)| {
            let flow = [water - speed, 0.0];
            match held {
                Held::Fly(fly) => fly.pull(flow, &stream.fluid)[0],
                Held::Line(strand, length) => strand.grip(flow, [0.0, 1.0], &stream.fluid).pull[0] * length,
            }
        });
        -on.sum::<f64>() - pull
    };
    let near = surface.abs().max(SLOW);
    Bracket::about(left, surface * USUAL, near * NEAR).map(|bracket| bracket.root(near * TOLERANCE))
}

fn held<'a>(tackle: &'a Tackle, stream: &Stream, point: f64) -> Vec<(f64, Held<'a>)> {
    let depth = stream.profile.depth_si();
    let at = |above_point: f64| stream.profile.speed(point + above_point);
    let mut held = vec![(at(0.0), Held::Fly(tackle.point()))];
    for reach in tackle.reaches((depth - point).max(0.0)) {
        let count = ((reach.to - reach.from) / depth * PIECES).ceil();
        let by = (reach.to - reach.from) / count;
        for piece in 0..count as usize {
            let middle = reach.from + by * (piece as f64 + 0.5);
            held.push((at(middle), Held::Line(reach.strand, by)));
        }
        if let Some(hung) = reach.hung.and_then(|index| tackle.hung().get(index)) {
            let tag = hung.tag.map_or(0.0, |tag| tag.length);
            held.push((at(reach.to - tag), Held::Fly(&hung.fly)));
        }
    }
    held
}
