//! A hook: its gape by its size, and the rest of it by its gape.
//!
//! Makers agree on no sizes: hooks of one number differ by 15 % in gape and 30 % in mass.

use crate::math::{exp2, ln, pow};
use std::f64::consts::{LN_2, PI};
use uom::si::f64::{Length, Mass};
use uom::si::length::meter;
use uom::si::mass::kilogram;

/// A bare hook.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Hook {
    /// m
    pub(super) gape: f64,
    pub(super) shank: f64,
    pub(super) wire: f64,
}

/// Steel, kg/m3. Source: metals handbooks.
pub(crate) const STEEL: f64 = 7850.0;

/// The hook that the others are told by: its size, its gape (m) and the wire of medium strength that goes with it.
/// Sources: gape 5 and shank 10 mm by masterflyfishing.net; the wire by flyonahook.me.uk, where a #10 of 0.60 mm is
/// called medium.
const KNOWN_SIZE: f64 = 12.0;
const KNOWN_GAPE: f64 = 5e-3;
const KNOWN_WIRE: f64 = 0.62e-3;
/// The gape halves in so many sizes. Source: from memory, 15 % either way.
const HALVES_IN: f64 = 8.0;
/// A shank is two gapes long. Source: flyfishingthesierra.com.
const SHANK: f64 = 2.0;
/// Wire grows more slowly than the gape. Source: from memory.
const WIRE_GROWS: f64 = 0.55;
/// Wire from the eye to the point, in gapes: a shank of 2, half a turn, a spear of 0.9 and an eye of 1.
/// Computed from geometry.
const WIRE_LENGTH: f64 = 5.5;

impl Hook {
    /// The hook of a size: 12 for #12; 2/0 counts as -1, and so does each larger one as one less.
    ///
    /// Any number has a hook, so that sizes between two are between them.
    pub fn of_size(size: f64) -> Self {
        let gape = KNOWN_GAPE * exp2(-(size - KNOWN_SIZE) / HALVES_IN);
        Self {
            gape,
            shank: SHANK * gape,
            wire: KNOWN_WIRE * pow(gape / KNOWN_GAPE, WIRE_GROWS),
        }
    }

    /// The hook of a size with so many noughts: 2 for 2/0.
    pub fn of_noughts(noughts: f64) -> Self {
        Self::of_size(1.0 - noughts)
    }

    /// The size that a gape has.
    pub fn size(&self) -> f64 {
        KNOWN_SIZE - HALVES_IN * ln(self.gape / KNOWN_GAPE) / LN_2
    }

    /// From the point to the shank.
    pub fn gape(&self) -> Length {
        Length::new::<meter>(self.gape)
    }

    /// From the eye to the bend.
    pub fn shank(&self) -> Length {
        Length::new::<meter>(self.shank)
    }

    /// How thick its wire is.
    pub fn wire(&self) -> Length {
        Length::new::<meter>(self.wire)
    }

    /// What it weighs in the air.
    ///
    /// Of a #14 45 mg; nwcutthroat.com weighed 50 to 60.
    pub fn mass(&self) -> Mass {
        Mass::new::<kilogram>(self.mass_si())
    }

    pub(super) fn mass_si(&self) -> f64 {
        PI / 4.0 * self.wire * self.wire * WIRE_LENGTH * self.gape * STEEL
    }

    pub(super) fn has_size(&self) -> bool {
        [self.gape, self.shank, self.wire]
            .iter()
            .all(|size| size.is_finite() && *size > 0.0)
    }
}
