//! A stream: water of a temperature that runs with a profile.

use crate::fluid::Fluid;
use crate::profile::Profile;
use uom::si::f64::{Length, Velocity};
use uom::si::velocity::meter_per_second;

/// The water that a rig drifts in.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stream {
    /// How fast it runs, from the bed to the surface.
    pub profile: Profile,
    /// What it is made of.
    pub fluid: Fluid,
}

impl Stream {
    /// The same water at rest: what a rig that is drawn across the stream meets on its way.
    #[must_use]
    pub fn at_rest(&self) -> Self {
        Self {
            profile: Profile::even(self.depth(), Velocity::new::<meter_per_second>(0.0)),
            fluid: self.fluid,
        }
    }

    /// From the bed to the surface.
    pub fn depth(&self) -> Length {
        self.profile.depth()
    }
}
