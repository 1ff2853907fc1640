//! What hangs in the water: a weight at the end, line above it, more weights on
//! the way.
//!
//! It knows no roles: a tippet is a strand and a shot is a fly that is round.

use crate::fluid::Fluid;
use crate::fly::{Body, Fly};
use crate::strand::Strand;
use snell_units::in_order;
use thiserror::Error;
use uom::si::f64::Length;
use uom::si::length::meter;

/// A fly or a shot somewhere above the point.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Hung {
    /// What hangs there.
    pub fly: Fly,
    /// How far along the line above the point.
    pub above_point: Length,
    /// The line it hangs from, where it does not sit on the main line itself.
    pub tag: Option<Strand>,
}

/// Why no tackle can be made of some parts.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Error)]
pub enum NoTackle {
    /// There is no line above the point.
    #[error("there is no line above the point")]
    NoLine,
    /// A length, a diameter or a density is nothing, or no number at all.
    #[error("a line needs a length, a diameter and a density")]
    NoSize,
    /// A fly's mass, volume, diameter or drag is nothing, or no number; by its place as given, the point first.
    #[error("a fly needs a mass, a volume and a diameter")]
    NoFly(usize),
    /// Something hangs below the point, or nowhere; by its place as given, the point first.
    #[error("a fly has to hang at the point or above it")]
    NoPlace(usize),
}

/// The point fly, the line above it and what hangs from that line. The line goes on upward as its
/// topmost strand for as far as it is asked for.
#[derive(Debug, Clone, PartialEq)]
pub struct Tackle {
    point: Fly,
    strands: Vec<Strand>,
    hung: Vec<Hung>,
}

impl Tackle {
    /// A tackle of strands in order from the point upward.
    ///
    /// # Errors
    /// Where there is no line, or line or a fly without a size, or a fly without a place.
    pub fn new(point: Fly, strands: Vec<Strand>, mut hung: Vec<Hung>) -> Result<Self, NoTackle> {
        if strands.is_empty() {
            return Err(NoTackle::NoLine);
        }
        let mut lines = strands
            .iter()
            .chain(hung.iter().filter_map(|hung| hung.tag.as_ref()));
        if !lines.all(Strand::has_size) {
            return Err(NoTackle::NoSize);
        }
        let mut flies = std::iter::once(&point).chain(hung.iter().map(|hung| &hung.fly));
        if let Some(index) = flies.position(|fly| !fly.has_size()) {
            return Err(NoTackle::NoFly(index));
        }
        let placed = |hung: &Hung| hung.above_point.is_finite() && hung.above_point.get::<meter>() >= 0.0;
        if let Some(index) = hung.iter().position(|hung| !placed(hung)) {
            return Err(NoTackle::NoPlace(index + 1));
        }
        in_order(&mut hung, |a, b| {
            a.above_point
                .get::<meter>()
                .total_cmp(&b.above_point.get::<meter>())
        });
        Ok(Self { point, strands, hung })
    }

    /// The fly at the end.
    pub fn point(&self) -> &Fly {
        &self.point
    }

    /// The line above it, from the point upward.
    pub fn strands(&self) -> &[Strand] {
        &self.strands
    }

    /// What hangs above it, from the lowest up.
    pub fn hung(&self) -> &[Hung] {
        &self.hung
    }

    /// All flies, the point first.
    pub fn flies(&self) -> impl Iterator<Item = &Fly> {
        std::iter::once(&self.point).chain(self.hung.iter().map(|hung| &hung.fly))
    }

    /// What a water does to each fly, the point first.
    pub(crate) fn bodies(&self, fluid: &Fluid) -> Vec<Body> {
        self.flies().map(|fly| fly.body(fluid)).collect()
    }

    /// The same with each fly and each strand changed.
    pub(crate) fn changed(&self, fly: impl Fn(usize, &Fly) -> Fly, line: impl Fn(&Strand) -> Strand) -> Self {
        let hung = self.hung.iter().enumerate().map(|(index, hung)| Hung {
            fly: fly(index + 1, &hung.fly),
            tag: hung.tag.as_ref().map(&line),
            above_point: hung.above_point,
        });
        Self {
            point: fly(0, &self.point),
            hung: hung.collect(),
            strands: self.strands.iter().map(&line).collect(),
        }
    }

    /// The line above a length, from there up; the topmost goes on.
    pub(crate) fn above(&self, length: f64) -> Vec<Strand> {
        let mut below = length;
        let mut above = Vec::with_capacity(self.strands.len());
        let last = self.strands.len() - 1;
        for (index, strand) in self.strands.iter().enumerate() {
            let left = strand.length - below;
            below = (below - strand.length).max(0.0);
            if left > 0.0 || index == last {
                above.push(Strand {
                    length: left.max(0.0),
                    ..*strand
                });
            }
        }
        above
    }

    /// The line cut where it changes and where something hangs, from the point up to a length.
    pub(crate) fn reaches(&self, length: f64) -> Vec<Reach> {
        let mut reaches = Vec::with_capacity(self.strands.len() + self.hung.len() + 1);
        let mut hung = self.hung.iter().enumerate().peekable();
        let mut from = 0.0;
        for (strand, end) in self.ends(length) {
            while let Some((index, _)) = hung.next_if(|(_, hung)| hung.above_point.get::<meter>() <= end) {
                let to = self.hung[index].above_point.get::<meter>().max(from);
                reaches.push(Reach {
                    strand,
                    from,
                    to,
                    hung: Some(index),
                });
                from = to;
            }
            if end > from {
                reaches.push(Reach {
                    strand,
                    from,
                    to: end,
                    hung: None,
                });
                from = end;
            }
        }
        reaches
    }

    /// Each strand with how far from the point it ends; the topmost goes on.
    fn ends(&self, length: f64) -> impl Iterator<Item = (Strand, f64)> {
        let last = self.strands.len() - 1;
        let mut above = 0.0;
        self.strands.iter().enumerate().map_while(move |(index, strand)| {
            let starts = above;
            above += strand.length;
            let end = if index == last { length } else { above.min(length) };
            (starts < length).then_some((*strand, end))
        })
    }
}

/// A stretch of one strand, and what hangs at its upper end.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Reach {
    pub strand: Strand,
    pub from: f64,
    pub to: f64,
    pub hung: Option<usize>,
}
