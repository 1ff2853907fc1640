//! A rig in its water: flies and line, what is under water, what leads it and how it landed.

use crate::drift::{Drift, Lead, NoDrift, State, Under, drift, drift_from, only, states};
use crate::sink::{self, Cast, Sink, Way};
use crate::stream::Stream;
use crate::tackle::Tackle;
use uom::si::f64::{Length, Mass, Ratio, Time, Velocity};
use uom::si::length::meter;
use uom::si::mass::kilogram;
use uom::si::velocity::meter_per_second;

/// A rig in its water.
#[derive(Debug, Clone, PartialEq)]
pub struct Rig {
    /// Flies and line.
    pub tackle: Tackle,
    /// The water.
    pub stream: Stream,
    /// Line under water, from the point up.
    pub length: Length,
    /// What the line above the water does.
    pub lead: Lead,
    /// How it lands.
    pub cast: Cast,
}

/// All steady states of a rig, and the one that its cast comes to.
#[derive(Debug, Clone, PartialEq)]
pub struct Settled {
    states: Vec<State>,
    shown: usize,
}

/// A sink that is followed for so long, s, tells which state it comes to. Rigs take 10 to 60 s to come near it: within a
/// drift of a few seconds the way down says more.
const FOLLOWED: f64 = 25.0;

impl Rig {
    /// All steady states from the bed up, and the one that the cast comes to.
    ///
    /// # Errors
    /// Where there is none that the rig stays in.
    pub fn settles(&self) -> Result<Settled, NoDrift> {
        let states = states(&self.tackle, &self.stream, self.length, &self.lead)?;
        let staying: Vec<usize> = (0..states.len()).filter(|index| states[*index].stays()).collect();
        let (Some(lowest), several) = (staying.first().copied(), staying.len() > 1) else {
            return Err(NoDrift::Unsettled);
        };
        let shown = if several {
            self.reached(&states, lowest)
        } else {
            lowest
        };
        Ok(Settled { states, shown })
    }

    /// The same where one of its drifts is known already, as from [`Self::with_point_at`].
    ///
    /// # Errors
    /// As for [`Self::settles`].
    pub fn settles_by(&self, known: &Drift) -> Result<Settled, NoDrift> {
        let is_its_own = matches!(self.lead, Lead::Free) && known.submerged == self.length;
        match is_its_own
            .then(|| only(&self.tackle, &self.stream, known))
            .flatten()
        {
            Some(state) => Ok(Settled {
                states: vec![state],
                shown: 0,
            }),
            None => self.settles(),
        }
    }

    /// The state in whose basin the sink ends: unstable states part them.
    fn reached(&self, states: &[State], lowest: usize) -> usize {
        let speed = states[lowest].drift.speed.get::<meter_per_second>();
        let height = sink::height_after(&self.tackle, &self.stream, self.way(speed), FOLLOWED);
        let above = |state: &State| state.drift.rides[0].off_bed.get::<meter>() > height;
        // The last that stays below the first unstable state over the place where it ends.
        let mut reached = lowest;
        for (index, state) in states.iter().enumerate() {
            if state.stays() {
                reached = index;
            } else if above(state) {
                break;
            }
        }
        reached
    }

    /// The drift with as much line under water as holds the point at a height over the bed.
    ///
    /// # Errors
    /// Where there is none.
    pub fn with_point_at(&self, off_bed: Length) -> Result<Drift, NoDrift> {
        drift(&self.tackle, &self.stream, Under::PointOffBed(off_bed), self.lead)
    }

    /// The same, looked for from a speed of the rig that is near.
    pub(crate) fn with_point_at_from(&self, off_bed: Length, near: Velocity) -> Result<Drift, NoDrift> {
        drift_from(&self.tackle, &self.stream, off_bed, &self.lead, near)
    }

    /// The same rig with another length of line under water.
    #[must_use]
    pub fn with_length(&self, length: Length) -> Self {
        Self {
            length,
            ..self.clone()
        }
    }

    /// Its way down to a share of the depth of a state, or until a time has gone by.
    pub fn sink(&self, state: &Drift, share: f64, longest: Time) -> Sink {
        let whole = Drift {
            submerged: self.length,
            ..state.clone()
        };
        sink::sink(&self.tackle, &self.stream, &whole, self.cast, share, longest)
    }

    pub(crate) fn way(&self, speed: f64) -> Way {
        Way {
            length: self.length.get::<meter>(),
            speed,
            cast: self.cast,
        }
    }
}

/// What a cast has to carry beyond the rod's tip.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BeyondTip {
    /// Line from the tip to the point.
    pub line_out: Length,
    /// What that weighs in the air, without tags.
    pub leader: Mass,
    /// The tags of droppers.
    pub tags: Mass,
    /// Flies and shots.
    pub flies: Mass,
}

impl BeyondTip {
    /// What of all that the flies are.
    pub fn share_of_flies(&self) -> Ratio {
        self.flies / (self.flies + self.leader + self.tags)
    }
}

impl Rig {
    /// What is beyond the tip with so much line in the air.
    pub fn beyond_tip(&self, in_air: Length) -> BeyondTip {
        let line_out = self.length + in_air;
        let reaches = self.tackle.reaches(line_out.get::<meter>());
        let leader: f64 = reaches
            .iter()
            .map(|reach| reach.strand.mass_by_length() * (reach.to - reach.from))
            .sum();
        let tags = self.tackle.hung().iter().filter_map(|hung| hung.tag);
        let kilograms = Mass::new::<kilogram>;
        BeyondTip {
            line_out,
            leader: kilograms(leader),
            tags: kilograms(tags.map(|tag| tag.mass_by_length() * tag.length).sum()),
            flies: kilograms(self.tackle.flies().map(crate::fly::Fly::mass_si).sum()),
        }
    }
}

impl Settled {
    /// All states from the bed up; stable and unstable ones take turns.
    pub fn states(&self) -> &[State] {
        &self.states
    }

    /// The state that the cast comes to.
    pub fn shown(&self) -> &State {
        &self.states[self.shown]
    }

    /// The other states that the rig could stay in.
    pub fn others(&self) -> impl Iterator<Item = &State> {
        let all = self.states.iter().enumerate();
        all.filter(|(index, state)| *index != self.shown && state.stays())
            .map(|(_, state)| state)
    }
}
