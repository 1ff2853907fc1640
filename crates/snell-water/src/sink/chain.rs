//! The line as lumps of mass on springs that only pull.
//!
//! It knows no targets and no time step; [`super::step`] moves it.

use super::Cast;
use crate::drift::Drift;
use crate::tackle::Tackle;
use crate::fly::Body;
use crate::{Strand, Stream};
use uom::si::length::meter;
use uom::si::velocity::meter_per_second;

/// How far the springs stretch under all that hangs on them.
const STRETCH: f64 = 0.001;
/// Stretches of line shorter than this share of all of it are not segments of their own: what hangs
/// there moves to the nearest end.
const SHORTEST: f64 = 1.0 / 60.0;
/// The last digits of a length, which must not cut it into one segment more.
const ROUNDING: f64 = 1e-6;

/// A lump of mass.
pub(super) struct Node {
    pub at: [f64; 2],
    pub velocity: [f64; 2],
    /// With the water that it carries along, kg.
    pub mass: f64,
    /// In water, N.
    pub weight: f64,
}

/// A stretch of line from a node to the one that it hangs from.
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
    /// A rig as it lands.
    pub fn new(tackle: &Tackle, stream: &'a Stream, drift: &Drift, cast: Cast, segments: usize) -> Self {
        let length = drift.submerged.get::<meter>();
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
            cast,
            length,
            depth,
            speed: stream.profile.speed(depth),
        };
        chain.lay_out(tackle, &lay, segments);
        chain.nodes[chain.top].velocity = [drift.speed.get::<meter_per_second>(), 0.0];
        chain.weigh();
        chain
    }

    fn lay_out(&mut self, tackle: &Tackle, lay: &Lay, segments: usize) {
        let longest = lay.length / segments as f64;
        self.top = self.put(lay, 0.0);
        self.flies.push((tackle.point().body(&self.stream.fluid), self.top));
        self.nodes[self.top].mass += tackle.point().mass_si();
        let mut from = 0.0;
        for reach in tackle.reaches(lay.length) {
            let long = reach.to - from;
            if long >= lay.length * SHORTEST {
                let count = (long / longest - ROUNDING).ceil().max(1.0);
                let by = long / count;
                for turn in 1..=count as usize {
                    let above = self.put(lay, from + turn as f64 * by);
                    self.join(self.top, above, reach.strand, by);
                    self.top = above;
                }
                from = reach.to;
            }
            let Some(hung) = reach.hung.and_then(|index| tackle.hung().get(index)) else {
                continue;
            };
            let node = hung.tag.map_or(self.top, |tag| {
                let length = tag.length().get::<meter>();
                let end = self.put(lay, from - length);
                self.join(end, self.top, tag, length);
                end
            });
            self.nodes[node].mass += hung.fly.mass_si();
            self.flies.push((hung.fly.body(&self.stream.fluid), node));
        }
    }

    fn put(&mut self, lay: &Lay, above_point: f64) -> usize {
        self.nodes.push(Node {
            at: lay.place(above_point),
            velocity: [lay.speed, 0.0],
            mass: 0.0,
            weight: 0.0,
        });
        self.nodes.len() - 1
    }

    fn join(&mut self, low: usize, high: usize, strand: Strand, length: f64) {
        self.segments.push(Segment {
            low,
            high,
            strand,
            length,
            stiffness: 0.0,
        });
    }

    /// Masses and weights of the nodes, and springs that suit them.
    fn weigh(&mut self) {
        let fluid = self.stream.fluid;
        for segment in &self.segments {
            let half = segment.length / 2.0;
            for node in [segment.low, segment.high] {
                self.nodes[node].mass +=
                    half * (segment.strand.mass_by_length() + segment.strand.mass_carried(&fluid));
                self.nodes[node].weight += half * segment.strand.weight_in(&fluid);
            }
        }
        for (fly, node) in &self.flies {
            self.nodes[*node].mass += fly.mass_carried();
            self.nodes[*node].weight += fly.weight();
        }
        let hangs: f64 = self.nodes.iter().map(|node| node.weight.max(0.0)).sum();
        for segment in &mut self.segments {
            segment.stiffness = hangs / (STRETCH * segment.length);
        }
    }

    /// The water's velocity at a height against something that moves.
    pub fn flow(&self, height: f64, velocity: [f64; 2]) -> [f64; 2] {
        [self.stream.profile.speed(height) - velocity[0], -velocity[1]]
    }

    /// A speed that hardly anything in the chain goes faster than against the water.
    pub fn fastest(&self) -> f64 {
        let sinks = self
            .flies
            .iter()
            .filter_map(|(fly, _)| fly.sinks());
        let stream = self.stream.profile.speed(self.depth).abs();
        sinks.fold(stream, f64::max)
    }

    /// How far downstream of its landing the top is.
    pub fn entry(&self) -> f64 {
        self.nodes[self.top].at[0]
    }

    pub fn point_depth(&self) -> f64 {
        self.depth - self.nodes[0].at[1]
    }

    /// Depth of each fly and how far downstream it is.
    pub fn places(&self) -> impl Iterator<Item = (f64, f64)> {
        self.flies.iter().map(|(_, node)| {
            let [along, height] = self.nodes[*node].at;
            (self.depth - height, along)
        })
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
