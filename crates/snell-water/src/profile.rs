//! How fast the water runs at each height over the bed.
//!
//! A logarithmic law over a rough bed, or one speed everywhere. It knows no bed
//! by name: a bed is the size of its grain.

use crate::math::{ln, quick_ln};
use uom::si::f64::{Length, Ratio, Velocity};
use uom::si::length::meter;
use uom::si::ratio::ratio;
use uom::si::velocity::meter_per_second;

/// The law of speed against height over the bed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Profile {
    depth: f64,
    law: Law,
}

#[derive(Debug, Clone, Copy, PartialEq)]
enum Law {
    /// `u = slope ln(z / z0)`, nothing below `z0`.
    Rough {
        grain: f64,
        z0: f64,
        slope: f64,
        told: Told,
    },
    Even {
        speed: f64,
    },
}

/// Which of a profile's speeds was told: it stays when depth and bed are taken otherwise.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Told {
    Surface,
    Mean,
}

/// How much larger a bed's grain is than the height where its speed law reaches nothing.
/// Source: Nikuradse 1933, sand roughness (from memory).
const GRAIN_TO_ZERO_HEIGHT: f64 = 30.0;

/// Shares of the depth below which no logarithmic law can stand: the depth is taken as no less
/// than this many heights of nothing.
const SHALLOWEST: f64 = 1.5;

/// No bed is smoother than one of this grain, m: the law knows no bed without one. Source: silt, from memory.
const FINEST: f64 = 10e-6;

impl Profile {
    /// Water over a bed of a grain size, by its speed at the surface.
    ///
    /// `u(z) = (u*/kappa) ln(z/z0)`, `z0 = grain/30`. Against the standard vertical velocity curve of
    /// the U.S. Geological Survey (Rantz and others 1982, Water-Supply Paper 2175) within 5 % of
    /// the mean speed at every height for depths of 14 to 50 grains; coarser beds are a convention. About
    /// 10 % in a real stream.
    ///
    /// A grain below 0.01 mm counts as that, and one that reaches the surface as one that nearly does.
    /// Water without a depth has a profile, but nothing drifts in it.
    pub fn over_bed(depth: Length, surface: Velocity, grain: Length) -> Self {
        let (depth, grain) = (depth.get::<meter>(), grain.get::<meter>());
        let z0 = zero_height(depth, grain);
        let slope = surface.get::<meter_per_second>() / ln(depth / z0);
        Self {
            depth,
            law: Law::Rough {
                grain,
                z0,
                slope,
                told: Told::Surface,
            },
        }
    }

    /// The same by the mean speed over the depth.
    pub fn over_bed_by_mean(depth: Length, mean: Velocity, grain: Length) -> Self {
        let surface = mean / Self::mean_to_surface(depth, grain);
        let mut profile = Self::over_bed(depth, surface, grain);
        if let Law::Rough { told, .. } = &mut profile.law {
            *told = Told::Mean;
        }
        profile
    }

    /// The same with its depth, its speed and its grain multiplied.
    pub(crate) fn times(&self, depth: f64, speed: f64, grain: f64) -> Self {
        let deep = self.depth() * depth;
        match self.law {
            Law::Rough { grain: of, told, .. } => {
                let of = Length::new::<meter>(of * grain);
                match told {
                    Told::Surface => Self::over_bed(deep, self.surface() * speed, of),
                    Told::Mean => Self::over_bed_by_mean(deep, self.mean() * speed, of),
                }
            }
            Law::Even { speed: of } => Self::even(deep, Velocity::new::<meter_per_second>(of * speed)),
        }
    }

    /// One speed from bed to surface.
    pub fn even(depth: Length, speed: Velocity) -> Self {
        Self {
            depth: depth.get::<meter>(),
            law: Law::Even {
                speed: speed.get::<meter_per_second>(),
            },
        }
    }

    /// Mean speed over surface speed on a bed: `1 - (1 - 1/X)/ln X` with `X = 30 depth/grain`.
    pub fn mean_to_surface(depth: Length, grain: Length) -> Ratio {
        let depth = depth.get::<meter>();
        Ratio::new::<ratio>(mean_to_surface(depth / zero_height(depth, grain.get::<meter>())))
    }

    /// Depth of the water.
    pub fn depth(&self) -> Length {
        Length::new::<meter>(self.depth)
    }

    /// Speed at a height over the bed; above the surface it is the surface's.
    pub fn at(&self, height: Length) -> Velocity {
        Velocity::new::<meter_per_second>(self.speed(height.get::<meter>()))
    }

    /// Speed at the surface.
    pub fn surface(&self) -> Velocity {
        Velocity::new::<meter_per_second>(self.speed(self.depth))
    }

    /// Mean speed over the depth.
    pub fn mean(&self) -> Velocity {
        Velocity::new::<meter_per_second>(match self.law {
            Law::Rough { z0, slope, .. } => {
                let x = self.depth / z0;
                slope * ln(x) * mean_to_surface(x)
            }
            Law::Even { speed } => speed,
        })
    }

    /// Whether a height lies among the grains of the bed, where the law is only a convention.
    pub fn among_grains(&self, height: Length) -> bool {
        matches!(self.law, Law::Rough { grain, .. } if height.get::<meter>() < grain)
    }

    pub(crate) fn depth_si(&self) -> f64 {
        self.depth
    }

    /// Speed at a height, m/s from m.
    pub(crate) fn speed(&self, height: f64) -> f64 {
        match self.law {
            Law::Rough { z0, .. } if height <= z0 => 0.0,
            Law::Rough { z0, slope, .. } => slope * quick_ln(height.min(self.depth) / z0),
            Law::Even { speed } => speed,
        }
    }
}

fn zero_height(depth: f64, grain: f64) -> f64 {
    // Asked this way round, no number stays no number and is refused by whoever drifts in it.
    let grain = if grain < FINEST { FINEST } else { grain };
    let (by_grain, highest) = (grain / GRAIN_TO_ZERO_HEIGHT, depth / SHALLOWEST);
    if by_grain > highest { highest } else { by_grain }
}

fn mean_to_surface(x: f64) -> f64 {
    1.0 - (1.0 - 1.0 / x) / ln(x)
}
