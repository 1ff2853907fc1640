//! What a method that steps in time must keep: it makes no energy, and a finer step says the same.

use super::*;
use crate::drift::{Lead, Under, drift};
use crate::{Fluid, Fly, Hung, Profile, Strand};
use uom::si::f64::{Mass, MassDensity, ThermodynamicTemperature, Velocity, Volume};
use uom::si::mass::kilogram;
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::thermodynamic_temperature::degree_celsius;
use uom::si::velocity::meter_per_second;
use uom::si::volume::cubic_meter;

fn metres(value: f64) -> Length {
    Length::new::<meter>(value)
}

/// A rig in water of a surface speed, and its free drift.
fn rig(flow: f64) -> (Tackle, Stream, Drift) {
    let fly = |grams: f64| {
        let volume = Volume::new::<cubic_meter>(grams * 1e-3 / 4000.0);
        Fly::new(Mass::new::<kilogram>(grams * 1e-3), volume, metres(0.004), 0.7)
    };
    let density = MassDensity::new::<kilogram_per_cubic_meter>(1140.0);
    let line = Strand::new(metres(2.0), metres(0.15e-3), density);
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

fn energy(chain: &Chain<'_>) -> f64 {
    let of_node = |node: &chain::Node| {
        let [x, z] = node.velocity;
        0.5 * node.mass * (x * x + z * z) + node.weight * node.at[1]
    };
    let of_spring = |segment: &chain::Segment| {
        let (low, high) = (chain.nodes[segment.low].at, chain.nodes[segment.high].at);
        let stretch = (high[0] - low[0]).hypot(high[1] - low[1]) - segment.length;
        0.5 * segment.stiffness * stretch.max(0.0).powi(2)
    };
    chain.nodes.iter().map(of_node).sum::<f64>() + chain.segments.iter().map(of_spring).sum::<f64>()
}

/// Steps over which energy must not have grown.
const SLIPS: usize = 100;

#[test]
fn still_water_takes_energy_and_gives_none() {
    let (tackle, stream, found) = rig(0.0);
    for cast in [Cast::Tuck, Cast::Up, Cast::Down] {
        let mut chain = Chain::new(&tackle, &stream, &found, cast, SEGMENTS);
        let by = found.submerged.get::<meter>() / chain.fastest() / STEPS as f64;
        let mut stepper = Stepper::default();
        let start = energy(&chain);
        let mut before = start;
        // A spring that comes taut within a step is only felt at the next, so that single steps may
        // slip; what counts is that none of it is kept.
        for turn in 0..8 * STEPS / SLIPS {
            for _ in 0..SLIPS {
                stepper.step(&mut chain, by);
                let now = energy(&chain);
                assert!(
                    now <= start,
                    "{cast:?}: {now} is more than it landed with, {start}"
                );
            }
            let now = energy(&chain);
            assert!(
                now <= before + 1e-4 * (start - now),
                "{cast:?} at {turn}: {now} after {before}"
            );
            before = now;
        }
        assert!(before < start, "{cast:?}: it sank");
    }
}

#[test]
fn half_the_step_takes_the_flies_down_as_soon() {
    let (tackle, stream, found) = rig(0.7);
    let deep = found.rides[0].depth.get::<meter>() * 0.9;
    for cast in [Cast::Tuck, Cast::Up, Cast::Down] {
        let time = |parts: f64| {
            let mut chain = Chain::new(&tackle, &stream, &found, cast, SEGMENTS);
            let by = found.submerged.get::<meter>() / chain.fastest() / STEPS as f64 / parts;
            let mut stepper = Stepper::default();
            let mut steps = 0;
            while chain.point_depth() < deep && steps < 200_000 {
                stepper.step(&mut chain, by);
                steps += 1;
            }
            f64::from(steps) * by
        };
        let (whole, half) = (time(1.0), time(2.0));
        assert!((whole / half - 1.0).abs() < 0.01, "{cast:?}: {whole} and {half}");
    }
}
