//! A first guess of a drift: that of the same rig on a line that is straight.
//!
//! A line that is held much slower than it drifts lies flat and is slow to walk. From a guess that is near, the
//! search never comes there.

use crate::bracket::Bracket;
use crate::fly::Body;
use crate::plane::size;
use crate::strand::Strand;
use crate::stream::Stream;
use crate::tackle::Tackle;

/// Pieces that the depth is cut into.
const PIECES: f64 = 8.0;
/// The speed is found to within this share of the surface's.
const TOLERANCE: f64 = 1e-3;
/// Where the search for it starts, as a share of the surface's speed, and how far it looks at first.
const USUAL: f64 = 0.8;
const NEAR: f64 = 0.1;
/// Water slower than this, m/s, counts as this fast in both.
const SLOW: f64 = 0.1;
/// The share of the pull that the line lies along: it leans with all of it at the surface, and with the point fly's
/// own at the point.
const LEANS_BY: f64 = 0.5;

/// What is known of where the rig is, m.
#[derive(Debug, Clone, Copy)]
pub(super) enum Wanted {
    /// The line under water, from the point up.
    Length(f64),
    /// The point's height over the bed.
    Height(f64),
}

/// Where the point is and how fast the rig goes, about.
#[derive(Debug, Clone, Copy)]
pub(super) struct Guess {
    /// Over the bed, m.
    pub height: f64,
    /// m/s
    pub speed: f64,
}

/// What the water takes hold of, each with the water's speed there.
enum Held<'a> {
    Fly(&'a Body),
    /// A length of a strand.
    Line(Strand, f64),
}

/// The guess for a rig that the line above pulls downstream with a force.
pub(super) fn guess(
    tackle: &Tackle,
    stream: &Stream,
    bodies: &[Body],
    wanted: &Wanted,
    pull: f64,
) -> Option<Guess> {
    let depth = stream.profile.depth_si();
    let weight: f64 = bodies.iter().map(|body| body.weight).sum();
    let lean = [pull * LEANS_BY, weight];
    let along = lean.map(|part| part / size(lean));
    let (height, length) = match *wanted {
        Wanted::Height(height) => (height, (depth - height) / along[1]),
        Wanted::Length(length) => ((depth - length * along[1]).max(0.0), length),
    };
    let held = held(tackle, stream, bodies, height, along, length);
    let left = |speed: f64| {
        let on = held.iter().map(|(water, held)| {
            let flow = [water - speed, 0.0];
            match held {
                Held::Fly(body) => body.slipping(flow[0].abs()) * flow[0],
                Held::Line(strand, length) => strand.grip(flow, along, &stream.fluid).pull[0] * length,
            }
        });
        -on.sum::<f64>() - pull
    };
    let surface = stream.profile.speed(depth);
    let near = surface.abs().max(SLOW);
    let speed = Bracket::about(left, surface * USUAL, near * NEAR)?.root(near * TOLERANCE);
    Some(Guess { height, speed })
}

fn held<'a>(
    tackle: &Tackle,
    stream: &Stream,
    bodies: &'a [Body],
    height: f64,
    along: [f64; 2],
    length: f64,
) -> Vec<(f64, Held<'a>)> {
    let water = |above_point: f64| stream.profile.speed(height + above_point * along[1]);
    let mut held = vec![(water(0.0), Held::Fly(&bodies[0]))];
    for reach in tackle.reaches(length) {
        let count = ((reach.to - reach.from) / length * PIECES).ceil();
        let by = (reach.to - reach.from) / count;
        for piece in 0..count as usize {
            let middle = reach.from + by * (piece as f64 + 0.5);
            held.push((water(middle), Held::Line(reach.strand, by)));
        }
        if let Some(index) = reach.hung {
            let tag = tackle.hung()[index].tag.map_or(0.0, |tag| tag.length);
            held.push((water(reach.to - tag), Held::Fly(&bodies[index + 1])));
        }
    }
    held
}
