//! The line as lumps of mass on springs that only pull.
//!
//! It knows no targets and no time; [`super::step`] moves it.

use crate::fly::Body;
use crate::sink::way::Cast;
use crate::sink::way::Way;
use crate::strand::Strand;
use crate::stream::Stream;
use crate::tackle::Tackle;

/// Young's modulus times section of the springs, N: the least at which they do not count. Softer ones move a held drift by
/// centimetres.
const STIFF: f64 = 2.0;
/// How stiff the bed is under a fly and under a node of line, N/m. It has no friction.
const BED_UNDER_FLY: f64 = 20.0;
const BED_UNDER_LINE: f64 = 1.0;
/// Stretches of line shorter than this share of all of it are not segments of their own: what hangs
/// there moves to the nearest end.
const SHORTEST: f64 = 1.0 / 60.0;
/// The last digits of a length, which must not cut it into one segment more.
const ROUNDING: f64 = 1e-6;

/// A lump of mass.
#[derive(Debug, Clone, Copy)]
pub(super) struct Node {
    /// With the water that it carries along, kg.
    pub mass: f64,
    /// In water, N.
    pub weight: f64,
    /// Where the bed holds it, and how stiffly.
    pub rests: f64,
    pub bed: f64,
}

/// Where a node is and where it goes, along and up.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Motion {
    pub at: [f64; 2],
    pub velocity: [f64; 2],
}

/// A stretch of line from a node to the one that it hangs from.
#[derive(Debug, Clone, Copy)]
pub(super) struct Segment {
    pub low: usize,
    pub high: usize,
    pub strand: Strand,
    pub length: f64,
    /// N/m
    pub stiffness: f64,
}

/// A rig in pieces.
pub(super) struct Chain<'a> {
    pub stream: &'a Stream,
    pub nodes: Vec<Node>,
    /// Each node but the top is the lower end of one of them, and comes before the node that it hangs
    /// from does.
    pub segments: Vec<Segment>,
    /// Each fly with its node, the point first.
    pub flies: Vec<(Body, usize)>,
    /// The node at the surface.
    pub top: usize,
    pub depth: f64,
}

impl<'a> Chain<'a> {
    /// A rig as it lands, and where its nodes are then.
    pub fn new(tackle: &Tackle, stream: &'a Stream, way: Way, segments: usize) -> (Self, Vec<Motion>) {
        let depth = stream.profile.depth_si();
        let mut chain = Self {
            stream,
            nodes: Vec::new(),
            segments: Vec::new(),
            flies: Vec::new(),
            top: 0,
            depth,
        };
        let lay = Lay {
            cast: way.cast,
            length: way.length,
            depth,
            speed: stream.profile.speed(depth),
        };
        let mut lands = chain.lay_out(tackle, &lay, segments);
        lands[chain.top].velocity = [way.speed, 0.0];
        chain.weigh();
        (chain, lands)
    }

    fn lay_out(&mut self, tackle: &Tackle, lay: &Lay, segments: usize) -> Vec<Motion> {
        let longest = lay.length / segments as f64;
        let mut lands = Vec::new();
        self.top = self.put(lay, &mut lands, 0.0);
        self.hang(tackle.point(), self.top);
        let mut from = 0.0;
        for reach in tackle.reaches(lay.length) {
            let long = reach.to - from;
            if long >= lay.length * SHORTEST {
                let count = (long / longest - ROUNDING).ceil().max(1.0);
                let by = long / count;
                for turn in 1..=count as usize {
                    let above = self.put(lay, &mut lands, from + turn as f64 * by);
                    self.join(self.top, above, reach.strand, by);
                    self.top = above;
                }
                from = reach.to;
            }
            let Some(hung) = reach.hung.and_then(|index| tackle.hung().get(index)) else {
                continue;
            };
            let node = hung.tag.map_or(self.top, |tag| {
                let end = self.put(lay, &mut lands, from - tag.length);
                self.join(end, self.top, tag, tag.length);
                end
            });
            self.hang(&hung.fly, node);
        }
        lands
    }

    fn put(&mut self, lay: &Lay, lands: &mut Vec<Motion>, above_point: f64) -> usize {
        self.nodes.push(Node {
            mass: 0.0,
            weight: 0.0,
            rests: 0.0,
            bed: BED_UNDER_LINE,
        });
        lands.push(Motion {
            at: lay.place(above_point),
            velocity: [lay.speed, 0.0],
        });
        self.nodes.len() - 1
    }

    fn hang(&mut self, fly: &crate::fly::Fly, node: usize) {
        let body = fly.body(&self.stream.fluid);
        let at = &mut self.nodes[node];
        at.mass += fly.mass_si() + body.mass_carried();
        at.weight += body.weight;
        at.rests = at.rests.max(body.radius());
        at.bed = BED_UNDER_FLY;
        self.flies.push((body, node));
    }

    fn join(&mut self, low: usize, high: usize, strand: Strand, length: f64) {
        self.segments.push(Segment {
            low,
            high,
            strand,
            length,
            stiffness: STIFF / length,
        });
    }

    /// Half of each segment at either end.
    fn weigh(&mut self) {
        let fluid = self.stream.fluid;
        for segment in &self.segments {
            let half = segment.length / 2.0;
            for node in [segment.low, segment.high] {
                let strand = &segment.strand;
                self.nodes[node].mass += half * (strand.mass_by_length() + strand.mass_carried(&fluid));
                self.nodes[node].weight += half * strand.weight_in(&fluid);
            }
        }
    }

    /// The water's velocity at a height against something that moves.
    pub fn flow(&self, height: f64, velocity: [f64; 2]) -> [f64; 2] {
        [self.stream.profile.speed(height) - velocity[0], -velocity[1]]
    }

    /// A speed that hardly anything in the chain goes faster than against the water.
    pub fn fastest(&self) -> f64 {
        let sinks = self.flies.iter().filter_map(|(fly, _)| fly.sinks());
        let stream = self.stream.profile.speed(self.depth).abs();
        sinks.fold(stream, f64::max)
    }
}

/// How the rig lands.
struct Lay {
    cast: Cast,
    length: f64,
    depth: f64,
    speed: f64,
}

impl Lay {
    /// Where a place of the line lands, the top at nothing.
    fn place(&self, above_point: f64) -> [f64; 2] {
        let below_top = self.length - above_point;
        let along = match self.cast {
            Cast::Tuck => 0.0,
            Cast::Up => -below_top,
            Cast::Down => below_top,
        };
        [along, self.depth]
    }
}
