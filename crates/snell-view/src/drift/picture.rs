//! A shown drift as a picture.

use crate::drift::shown::{ShownDrift, ShownRide};
use snell_picture::sinking::{self, Sunk, SunkFly};
use snell_picture::{Medium, Scene};

impl ShownDrift {
    /// Its picture; nothing where there is no drift.
    pub fn scene(&self, medium: Medium) -> Option<Scene> {
        let (steady, sink) = self.steady.as_ref().zip(self.sink.as_ref())?;
        let fly = |(index, ride): (usize, &ShownRide)| SunkFly {
            name: ride.name.clone(),
            kind: ride.kind,
            rides: ride.told(),
            depth: ride.rides.value.unwrap_or_default(),
            between: ride.between,
            path: sink
                .moments
                .iter()
                .map(|moment| {
                    let (depth, along) = moment.flies[index];
                    (along, depth)
                })
                .collect(),
        };
        let flies: Vec<SunkFly> = steady.flies.iter().enumerate().map(fly).collect();
        let told = steady
            .flies
            .iter()
            .map(|ride| format!("{} rides {}", ride.name, ride.told()));
        let sunk = Sunk {
            name: self.name.clone(),
            system: self.system,
            depth: steady.profile.last().map_or(0.0, |(height, _)| *height),
            profile: steady.profile.clone(),
            surface: steady.surface.text.clone(),
            flies,
            about: format!("An estimate. {}.", told.collect::<Vec<_>>().join("; ")),
        };
        sinking::scene(&sunk, medium)
    }
}

impl ShownRide {
    /// The depths between which it may be; one where both are written alike.
    pub(super) fn may_be(&self) -> String {
        if self.shallowest == self.deepest {
            return self.deepest.clone();
        }
        format!("{} to {}", self.shallowest, self.deepest)
    }

    /// How deep it rides, with the depths between which it may be.
    pub fn told(&self) -> String {
        // Some depths are known to within what they are rounded to.
        if self.shallowest == self.deepest && self.rides.text == self.deepest {
            return self.rides.text.clone();
        }
        format!("{} ({})", self.rides.text, self.may_be())
    }
}
