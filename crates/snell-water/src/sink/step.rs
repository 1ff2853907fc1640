//! One step of a chain in time, by a method that cannot blow up.
//!
//! Springs and drag are taken at the end of the step, linearized at its start (backward Euler with one turn of
//! Newton's method). The equations couple each node only with the one it hangs from, so they are solved from the
//! flies up. Methods of second order were tried: they throw back what comes taut within a step, and need shorter ones.

use super::chain::{Chain, Motion, Segment};
use crate::plane::size;

/// How much faster than its resistance the drag of a line grows with the speed across it.
const STEEP: f64 = 1.6;

/// A symmetric two by two matrix. What is worked with together lies together: a pair that was written in two parts is slow to
/// read again, which was a tenth of a sink.
#[derive(Debug, Clone, Copy)]
struct Block {
    /// `xx` and `zz`.
    diagonal: [f64; 2],
    /// `xz`
    across: f64,
}

/// Room for the equations of a step, kept from one to the next.
#[derive(Default)]
pub(super) struct Stepper {
    own: Vec<Block>,
    right: Vec<[f64; 2]>,
    /// One for each segment: how its lower node and its upper bear on one another.
    between: Vec<Block>,
}

impl Stepper {
    /// Moves a chain on by a time.
    pub fn step(&mut self, chain: &Chain<'_>, nodes: &mut [Motion], by: f64) {
        self.set_up(chain, nodes, by);
        let turns = self.solve(chain);
        for (node, turn) in nodes.iter_mut().zip(turns) {
            for axis in [0, 1] {
                node.velocity[axis] += turn[axis];
                node.at[axis] += by * node.velocity[axis];
            }
            keep_under(node, chain.depth);
        }
    }

    /// `(M + by D + by^2 K) dv = by (F - by K v)`, block by block.
    fn set_up(&mut self, chain: &Chain<'_>, nodes: &[Motion], by: f64) {
        self.own.clear();
        self.right.clear();
        for (node, motion) in chain.nodes.iter().zip(nodes) {
            let (mut upward, mut lift) = (node.mass, -by * node.weight);
            let under = node.rests - motion.at[1];
            if under > 0.0 {
                upward += by * by * node.bed;
                lift += by * node.bed * (under - by * motion.velocity[1]);
            }
            self.own.push(Block {
                diagonal: [node.mass, upward],
                across: 0.0,
            });
            self.right.push([0.0, lift]);
        }
        self.between.clear();
        for segment in &chain.segments {
            self.add_segment(chain, nodes, segment, by);
        }
        for (fly, node) in &chain.flies {
            let at = &nodes[*node];
            let flow = chain.flow(at.at[1], at.velocity);
            let resistance = fly.resistance(flow);
            // Drag grows with the square of the speed: along the flow twice as fast as the resistance.
            let speed = size(flow);
            let along = if speed > 0.0 {
                flow.map(|part| part / speed)
            } else {
                [0.0, 1.0]
            };
            add(
                &mut self.own[*node],
                directed(along, 2.0 * by * resistance, by * resistance),
            );
            push(&mut self.right[*node], flow, by * resistance);
        }
    }

    fn add_segment(&mut self, chain: &Chain<'_>, nodes: &[Motion], segment: &Segment, by: f64) {
        let (low, high) = (&nodes[segment.low], &nodes[segment.high]);
        let apart = [high.at[0] - low.at[0], high.at[1] - low.at[1]];
        let distance = size(apart);
        let along = if distance > 0.0 {
            apart.map(|part| part / distance)
        } else {
            [0.0, 1.0]
        };
        // Half of the segment's drag at each end, by the mean of their velocities.
        let middle = [0, 1].map(|axis| (low.velocity[axis] + high.velocity[axis]) / 2.0);
        let flow = chain.flow((low.at[1] + high.at[1]) / 2.0, middle);
        let grip = segment.strand.grip(flow, along, &chain.stream.fluid);
        let quarter = by * segment.length / 4.0;
        let drag = directed(along, grip.along * quarter, STEEP * grip.across * quarter);
        for node in [segment.low, segment.high] {
            push(&mut self.right[node], grip.pull, by * segment.length / 2.0);
            add(&mut self.own[node], drag);
        }
        let mut between = drag;
        let taut = distance - segment.length;
        if taut > 0.0 {
            let tension = segment.stiffness * taut;
            let spring = directed(along, by * by * segment.stiffness, by * by * tension / distance);
            let opening = [0, 1].map(|axis| high.velocity[axis] - low.velocity[axis]);
            let eased = times(spring, opening);
            for (node, sign) in [(segment.low, 1.0), (segment.high, -1.0)] {
                push(&mut self.right[node], along, sign * by * tension);
                push(&mut self.right[node], eased, sign);
                add(&mut self.own[node], spring);
            }
            add(&mut between, negative(spring));
        }
        self.between.push(between);
    }

    /// The changes of velocity: each node is put in terms of the one it hangs from, whose own is known
    /// at the top.
    fn solve(&mut self, chain: &Chain<'_>) -> &[[f64; 2]] {
        for (segment, between) in chain.segments.iter().zip(&self.between) {
            let solved = inverse(self.own[segment.low]);
            self.own[segment.low] = solved;
            let right = times(solved, self.right[segment.low]);
            self.right[segment.low] = right;
            let less = negative(squeezed(*between, solved));
            add(&mut self.own[segment.high], less);
            push(&mut self.right[segment.high], times(*between, right), -1.0);
        }
        self.right[chain.top] = [0.0, 0.0];
        for (segment, between) in chain.segments.iter().zip(&self.between).rev() {
            let above = times(*between, self.right[segment.high]);
            let less = times(self.own[segment.low], above);
            push(&mut self.right[segment.low], less, -1.0);
        }
        &self.right
    }
}

/// Nothing leaves the water.
fn keep_under(node: &mut Motion, depth: f64) {
    if node.at[1] > depth {
        node.at[1] = depth;
        node.velocity[1] = node.velocity[1].min(0.0);
    }
}

/// A matrix with one factor along a direction and another across it.
fn directed(along: [f64; 2], lengthwise: f64, across: f64) -> Block {
    let more = lengthwise - across;
    Block {
        diagonal: along.map(|part| across + more * part * part),
        across: more * along[0] * along[1],
    }
}

fn times(block: Block, [x, z]: [f64; 2]) -> [f64; 2] {
    let [xx, zz] = block.diagonal;
    [xx * x + block.across * z, zz * z + block.across * x]
}

fn inverse(block: Block) -> Block {
    let [xx, zz] = block.diagonal;
    let over = 1.0 / (xx * zz - block.across * block.across);
    Block {
        diagonal: [zz * over, xx * over],
        across: -block.across * over,
    }
}

/// `b s b` for two symmetric matrices.
fn squeezed(b: Block, s: Block) -> Block {
    let [xx, zz] = b.diagonal;
    let first = times(b, times(s, [xx, b.across]));
    let second = times(b, times(s, [b.across, zz]));
    Block {
        diagonal: [first[0], second[1]],
        across: second[0],
    }
}

fn negative(block: Block) -> Block {
    Block {
        diagonal: block.diagonal.map(|part| -part),
        across: -block.across,
    }
}

fn add(to: &mut Block, block: Block) {
    for (to, part) in to.diagonal.iter_mut().zip(block.diagonal) {
        *to += part;
    }
    to.across += block.across;
}

fn push(to: &mut [f64; 2], vector: [f64; 2], times: f64) {
    to[0] += vector[0] * times;
    to[1] += vector[1] * times;
}
