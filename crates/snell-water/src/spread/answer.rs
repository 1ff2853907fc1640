//! What a rig comes to in one draw.

use crate::drift::{Followed, State, follow};
use crate::rig::Rig;
use crate::sink;
use uom::si::f64::{Length, Ratio};
use uom::si::length::meter;

/// Where a fly rides, m and m/s.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Riding {
    /// Below the surface.
    pub depth: f64,
    /// Over the bed.
    pub off_bed: f64,
    /// How much slower than the water beside it it goes.
    pub lag: f64,
}

/// What a rig comes to, in SI units.
#[derive(Debug, Clone, PartialEq)]
pub struct Answer {
    /// The point first and the others from it upward.
    pub flies: Vec<Riding>,
    /// The whole rig's speed.
    pub speed: f64,
    /// The line's pull at the surface along the stream, and the weight that it carries.
    pub pull: f64,
    pub load: f64,
    /// Whether the point lies on the bed.
    pub on_bed: bool,
    /// Line that holds the point at the height that was asked about.
    pub needed: Option<f64>,
    /// Seconds to the share of the depth that was asked about; nothing where it does not get there.
    pub sink: Option<f64>,
}

/// The line that holds the point at a height over the bed, looked for near where it is for the rig as it is told.
#[derive(Debug, Clone, Copy)]
pub(super) struct Needed {
    height: Length,
    /// Of the rig then, as a share of the surface's.
    speed: Ratio,
}

impl Needed {
    pub fn at(height: Length, rig: &Rig, state: &State) -> Self {
        let speed = rig
            .with_point_at(height)
            .map_or(state.drift.speed, |drift| drift.speed);
        let speed = speed / rig.stream.profile.surface();
        Self { height, speed }
    }

    pub fn of(&self, rig: &Rig) -> Option<f64> {
        let near = self.speed * rig.stream.profile.surface();
        let found = rig.with_point_at_from(self.height, near).ok();
        // A search that begins in still water begins nowhere.
        let found = found.or_else(|| rig.with_point_at(self.height).ok());
        found.map(|line| line.submerged.get::<meter>())
    }
}

/// A sink that takes longer than this is taken for none, s.
pub(super) const LONGEST: f64 = 60.0;

impl Answer {
    /// What a rig comes to whose state is near one that is known.
    pub(super) fn near(rig: &Rig, known: &Followed) -> Option<Self> {
        let state = follow(&rig.tackle, &rig.stream, rig.length, &rig.lead, known)?;
        Some(Self::in_state(&state))
    }

    /// What a rig comes to in a state.
    pub(super) fn in_state(state: &State) -> Self {
        let drift = &state.drift;
        let rides = drift.rides.iter();
        let riding = rides.map(|ride| Riding {
            depth: ride.depth.value,
            off_bed: ride.off_bed.value,
            lag: ride.lag(drift.speed).value,
        });
        Self {
            flies: riding.collect(),
            speed: drift.speed.value,
            pull: drift.pull.value,
            load: drift.load.value,
            on_bed: state.is_on_bed(),
            needed: None,
            sink: None,
        }
    }

    /// How long the sink to a share of the point's depth takes, in steps so many times as long as usual.
    pub(super) fn time(&self, rig: &Rig, share: f64, long: f64) -> Option<f64> {
        let depth = self.flies.first()?.depth * share;
        sink::time_to(
            &rig.tackle,
            &rig.stream,
            rig.way(self.speed),
            depth,
            LONGEST,
            long,
        )
    }
}
