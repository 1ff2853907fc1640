//! What a method that steps in time must keep: it makes no energy, and a finer step says the same.

use super::*;
use crate::drift::{Lead, Under, drift};
use crate::fluid::Fluid;
use crate::fly::Fly;
use crate::profile::Profile;
use crate::sink::way::Way;
use crate::strand::Strand;
use crate::tackle::Hung;
use uom::si::f64::{Mass, MassDensity, ThermodynamicTemperature, Velocity};
use uom::si::mass::kilogram;
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::thermodynamic_temperature::degree_celsius;
use uom::si::velocity::meter_per_second;

fn metres(value: f64) -> Length {
    Length::new::<meter>(value)
}

/// A rig in water of a surface speed, and its free drift.
fn rig(flow: f64) -> (Tackle, Stream, Drift) {
    let density = MassDensity::new::<kilogram_per_cubic_meter>;
    let fly =
        |grams: f64| Fly::shot(Mass::new::<kilogram>(grams * 1e-3), density(4000.0)).expect("it has a mass");
    let line = Strand::new(metres(2.0), metres(0.15e-3), density(1140.0));
    let hung = Hung {
        fly: fly(0.1),
        above_point: metres(0.4),
        tag: None,
    };
    let tackle = Tackle::new(fly(0.3), vec![line], vec![hung]).expect("its parts have sizes");
    let stream = Stream {
        profile: Profile::over_bed(metres(1.0), Velocity::new::<meter_per_second>(flow), metres(0.05)),
        fluid: Fluid::at(ThermodynamicTemperature::new::<degree_celsius>(10.0)),
    };
    let found = drift(&tackle, &stream, Under::Length(metres(0.8)), Lead::Free).expect("it drifts");
    (tackle, stream, found)
}

fn way(found: &Drift, cast: Cast) -> Way {
    Way {
        length: found.submerged.get::<meter>(),
        speed: found.speed.get::<meter_per_second>(),
        cast,
    }
}

const CASTS: [Cast; 3] = [Cast::Tuck, Cast::Up, Cast::Down];

/// Steps over which energy must not have grown.
const SLIPS: usize = 50;

#[test]
fn still_water_takes_energy_and_gives_none() {
    let (tackle, stream, found) = rig(0.0);
    for cast in CASTS {
        let mut fall = Fall::new(&tackle, &stream, way(&found, cast), SEGMENTS);
        let start = fall.energy();
        let mut before = start;
        // A spring that comes taut within a step is only felt at the next, so that single steps may slip; what counts is
        // that none of it is kept.
        while fall.time < 8.0 * fall.usual {
            for _ in 0..SLIPS {
                assert!(
                    fall.goes_on() && fall.energy() <= start,
                    "{cast:?}: more than it landed with"
                );
            }
            let now = fall.energy();
            assert!(
                now <= before + 1e-4 * (start - now),
                "{cast:?} at {}: {now} after {before}",
                fall.time
            );
            before = now;
        }
        assert!(before < start, "{cast:?}: it sank");
    }
}

#[test]
fn finer_steps_and_segments_take_the_flies_down_as_soon() {
    let (tackle, stream, found) = rig(0.7);
    let deep = depth_of_point(&found) * 0.9;
    for cast in CASTS {
        let time = |finer: f64, segments: usize| {
            let mut fall = Fall::new(&tackle, &stream, way(&found, cast), segments).in_steps(1.0 / finer);
            while fall.point_depth() < deep && fall.goes_on() {}
            (fall.passed(deep).expect("it gets there"), fall.steps())
        };
        let (usual, steps) = time(1.0, SEGMENTS);
        let (fine, more) = time(4.0, SEGMENTS);
        assert!(
            (usual / fine - 1.0).abs() < 0.01,
            "{cast:?}: {usual} in {steps} and {fine} in {more}"
        );
        assert!(more > steps);
        let (cut, _) = time(4.0, 3 * SEGMENTS);
        assert!((usual / cut - 1.0).abs() < 0.03, "{cast:?}: {usual} and {cut}");
    }
}

#[test]
fn the_time_to_a_depth_is_when_the_moments_are_there() {
    let (tackle, stream, found) = rig(0.7);
    for cast in CASTS {
        let time = time_to(
            &tackle,
            &stream,
            way(&found, cast),
            depth_of_point(&found) * 0.9,
            25.0,
            1.0,
        )
        .expect("it gets there");
        let sunk = sink(&tackle, &stream, &found, cast, 0.95, Time::new::<second>(25.0));
        let by_moments = sunk
            .reaches(metres(depth_of_point(&found) * 0.9))
            .expect("it gets there");
        assert!(
            (by_moments.get::<second>() - time).abs() < 0.01,
            "{cast:?}: {by_moments:?} and {time}"
        );
    }
}
