//! Laws that hold whatever the figures are.

use proptest::prelude::*;
use uom::si::f64::*;
use uom::si::force::newton;
use uom::si::length::{meter, millimeter};
use uom::si::mass::gram;
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::thermodynamic_temperature::degree_celsius;
use uom::si::time::second;
use uom::si::velocity::meter_per_second;
use uom::si::volume::cubic_meter;
use water::drift::{Lead, Under, drift};
use water::sag::{Air, From};
use water::sink::{Cast, sink};
use water::{Fluid, Fly, Hung, Profile, Strand, Stream, Tackle};

fn metres(length: f64) -> Length {
    Length::new::<meter>(length)
}

fn line(length: f64, diameter: f64) -> Strand {
    line_of(1780.0, length, diameter)
}

fn line_of(density: f64, length: f64, diameter: f64) -> Strand {
    let density = MassDensity::new::<kilogram_per_cubic_meter>(density);
    Strand::new(metres(length), Length::new::<millimeter>(diameter), density)
}

/// A fly of one make, whose bead alone changes: 40 mm3 of it, in an envelope of 5 mm.
fn fly(mass: f64) -> Fly {
    Fly::new(
        Mass::new::<gram>(mass),
        Volume::new::<cubic_meter>(4e-8),
        metres(0.005),
        0.7,
    )
}

fn rig(mass: f64, dropper: f64, diameter: f64) -> Tackle {
    let hung = Hung {
        fly: fly(dropper),
        above_point: metres(0.4),
        tag: Some(line(0.1, diameter)),
    };
    Tackle::new(fly(mass), vec![line(3.0, diameter)], vec![hung]).expect("a sound tackle")
}

/// The same on nylon, all of one piece.
fn on_nylon(mass: f64, diameter: f64) -> Tackle {
    let line = line_of(1140.0, 3.0, diameter);
    Tackle::new(fly(mass), vec![line], Vec::new()).expect("a sound tackle")
}

fn stream(depth: f64, speed: f64) -> Stream {
    let profile = Profile::over_bed(
        metres(depth),
        Velocity::new::<meter_per_second>(speed),
        metres(0.1),
    );
    Stream {
        profile,
        fluid: Fluid::at(ThermodynamicTemperature::new::<degree_celsius>(10.0)),
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn still_water_and_even_water_hang_straight(mass in 0.1..0.8_f64, diameter in 0.08..0.3_f64, speed in 0.0..1.5_f64) {
        let fluid = stream(1.0, 0.5).fluid;
        let profile = Profile::even(metres(1.0), Velocity::new::<meter_per_second>(speed));
        let under = Under::Length(metres(0.8));
        let found = drift(&rig(mass, 0.1, diameter), &Stream { profile, fluid }, under, Lead::Free).unwrap();
        prop_assert!((found.speed.value - speed).abs() < 1e-6);
        prop_assert!((found.rides[0].depth.value - 0.8).abs() < 1e-6);
        prop_assert!(found.rides.iter().all(|ride| ride.ahead.value.abs() < 1e-6));
    }

    #[test]
    fn more_weight_never_rides_higher(
        mass in 0.1..0.8_f64, more in 0.01..0.5_f64, diameter in 0.08..0.3_f64, speed in 0.1..1.2_f64, held in 0.5..1.0_f64,
    ) {
        let stream = stream(1.0, speed);
        let lead = Lead::Speed(Velocity::new::<meter_per_second>(speed * held * 0.8));
        let depth = |mass| {
            drift(&rig(mass, 0.08, diameter), &stream, Under::Length(metres(0.9)), lead)
                .map(|found| found.rides[0].depth.value)
        };
        if let (Ok(light), Ok(heavy)) = (depth(mass), depth(mass + more)) {
            prop_assert!(heavy >= light - 1e-6, "{light} {heavy}");
        }
    }

    /// Of nylon, which hardly weighs in water: thick line of a heavy stuff may take a light fly down sooner by
    /// its own weight.
    #[test]
    fn thicker_line_never_sinks_sooner(mass in 0.15..0.6_f64, diameter in 0.08..0.2_f64, times in 1.05..2.0_f64) {
        let stream = stream(0.9, 0.5);
        let under = Under::Length(metres(0.8));
        let time = |diameter| {
            let tackle = on_nylon(mass, diameter);
            let drifting = drift(&tackle, &stream, under, Lead::Free).unwrap();
            sink(&tackle, &stream, &drifting, Cast::Tuck, 0.8, Time::new::<second>(30.0)).reaches(metres(0.55))
        };
        let (thin, thick) = (time(diameter).unwrap(), time(diameter * times).unwrap());
        prop_assert!(thick.value >= thin.value * 0.999, "{thin:?} {thick:?}");
    }

    #[test]
    fn sag_grows_as_the_pull_falls(reach in 1.0..8.0_f64, tip in 0.0..2.5_f64, pull in 0.002..0.05_f64, less in 0.2..0.95_f64) {
        let air = Air::new(&[line(3.0, 0.25), line(6.0, 0.3)], From::Entry, metres(reach), metres(tip)).unwrap();
        let sag = |pull| air.under(Force::new::<newton>(pull)).unwrap().sag.value;
        prop_assert!(sag(pull * less) > sag(pull));
    }

    #[test]
    fn joined_lines_of_one_weight_are_one(reach in 1.0..8.0_f64, tip in 0.0..2.5_f64, pull in 0.002..0.05_f64, cut in 0.1..6.0_f64) {
        let whole = Air::new(&[line(9.0, 0.25)], From::Tip, metres(reach), metres(tip)).unwrap();
        let joined = Air::new(&[line(cut, 0.25), line(9.0, 0.25)], From::Tip, metres(reach), metres(tip)).unwrap();
        let pull = Force::new::<newton>(pull);
        let (one, other) = (whole.under(pull).unwrap(), joined.under(pull).unwrap());
        prop_assert!((one.sag - other.sag).value.abs() < 1e-9);
        prop_assert!((one.length - other.length).value.abs() < 1e-9);
    }
}
