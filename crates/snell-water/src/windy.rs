//! A rig in the wind: how deep it fishes when the wind blows across its leader, and the greatest wind that it still
//! fishes in.

use crate::drift::{Drift, Lead, NoDrift, Under, across, drift};
use crate::leader::{Air, Hanging, Reach, Wind, hang};
use crate::plane::size;
use crate::rig::Rig;
use uom::si::f64::{Force, Length, Ratio, Velocity};
use uom::si::force::newton;
use uom::si::length::meter;
use uom::si::ratio::ratio;
use uom::si::velocity::meter_per_second;

/// Which way a wind blows, seen from a rig that hangs from a tip.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Blows {
    /// Up the stream; the tip stands up- or downstream of the rig.
    Up,
    /// Down the stream; the same.
    Down,
    /// Across the stream; the same.
    Across,
    /// Towards the tip, which stands across the stream from the rig.
    In,
    /// Away from it.
    Out,
}

/// How near two pulls count as the same, as a share.
const SAME: f64 = 1e-4;
/// Turns in which a pull across has to settle.
const TURNS: usize = 40;

/// The drift of a rig whose leader the wind blows aside: by the whole pull, along and across together, taken along the
/// stream. An estimate; a drift in space is not modelled.
///
/// # Errors
/// Where the rig has no such drift.
pub fn blown_aside(rig: &Rig, reach: &Reach) -> Result<(Drift, Hanging), NoDrift> {
    let under = Under::Length(rig.length);
    let line = rig.tackle.above(rig.length.get::<meter>());
    let side = reach.along.get::<meter>().signum();
    let calm = Reach { wind: None, ..*reach };
    let mut found = drift(&rig.tackle, &rig.stream, under, Lead::Reach(calm))?;
    let mut before = found.pull.get::<newton>();
    for _ in 0..TURNS {
        let hangs = hang(reach, &line, found.load, found.speed).ok_or(NoDrift::Unsettled)?;
        let [along, aside, _] = hangs.pull.map(|pull| pull.get::<newton>());
        let pull = side * size([along, aside]);
        if (pull - before).abs() <= SAME * pull.abs() {
            return Ok((found, hangs));
        }
        before = pull;
        found = drift(
            &rig.tackle,
            &rig.stream,
            under,
            Lead::Pull(Force::new::<newton>(pull)),
        )?;
    }
    Err(NoDrift::Unsettled)
}

/// A rig under a tip in a wind of a speed at a height: its drift, or the drift across where the tip stands across.
///
/// # Errors
/// Where the rig has no such drift.
pub fn in_wind(
    rig: &Rig,
    reach: &Reach,
    blows: Blows,
    speed: Velocity,
    at: Length,
    air: Air,
) -> Result<Drift, NoDrift> {
    let nothing = Velocity::new::<meter_per_second>(0.0);
    let wind = |along: Velocity, across: Velocity| Reach {
        wind: Some(Wind::new(along, across, at, air)),
        ..*reach
    };
    let under = Under::Length(rig.length);
    let along = |reach: Reach| drift(&rig.tackle, &rig.stream, under, Lead::Reach(reach));
    let aside = |reach: Reach| across(&rig.tackle, &rig.stream, under, &reach);
    match blows {
        Blows::Up => along(wind(-speed, nothing)),
        Blows::Down => along(wind(speed, nothing)),
        Blows::Across => blown_aside(rig, &wind(nothing, speed)).map(|(drift, _)| drift),
        Blows::In => aside(wind(speed, nothing)),
        Blows::Out => aside(wind(-speed, nothing)),
    }
}

/// Winds are looked at in steps of this, up to the greatest, m/s.
const STEP: f64 = 1.0;
const GREATEST: f64 = 25.0;
/// The greatest wind is found to within this, m/s.
const TOLERANCE: f64 = 0.01;

/// The greatest wind in which the point still rides at a share of the depth that it has without one. Nothing where it
/// does so in a storm, or has no drift without wind.
pub fn greatest_wind(
    rig: &Rig,
    reach: &Reach,
    blows: Blows,
    share: Ratio,
    at: Length,
    air: Air,
) -> Option<Velocity> {
    let calm = Reach { wind: None, ..*reach };
    let under = Under::Length(rig.length);
    let still = match blows {
        Blows::Up | Blows::Down | Blows::Across => drift(&rig.tackle, &rig.stream, under, Lead::Reach(calm)),
        Blows::In | Blows::Out => across(&rig.tackle, &rig.stream, under, &calm),
    };
    let wanted = still.ok()?.rides[0].depth * share.get::<ratio>();
    let fishes = |speed: f64| {
        let speed = Velocity::new::<meter_per_second>(speed);
        let found = in_wind(rig, reach, blows, speed, at, air);
        // What lies on the bed is deep enough; what is blown flat has no drift.
        match found {
            Ok(found) => found.rides[0].depth >= wanted,
            Err(none) => matches!(none, NoDrift::OnBed { .. }),
        }
    };
    let mut low = 0.0;
    while fishes(low + STEP) {
        low += STEP;
        if low >= GREATEST {
            return None;
        }
    }
    let mut high = low + STEP;
    while high - low > TOLERANCE {
        let middle = (low + high) / 2.0;
        if fishes(middle) {
            low = middle
        } else {
            high = middle
        }
    }
    Some(Velocity::new::<meter_per_second>((low + high) / 2.0))
}
