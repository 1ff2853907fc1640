//! Laws that hold for every rig: what still or even water does, and what more weight, thicker line or
//! a weaker pull changes and which way.

mod given;

use given::{density, grams, metres, speed};
use proptest::prelude::*;
use snell_water::drift::{Drift, Lead, NoDrift, Under, drift};
use snell_water::fly::{Hook, Parts};
use snell_water::sag::{Air, From};
use snell_water::sink::closed_form;
use snell_water::{Fluid, Fly, Hung, Profile, Strand, Stream, Tackle};
use uom::si::f64::*;
use uom::si::force::newton;
use uom::si::thermodynamic_temperature::degree_celsius;
use uom::si::time::second;

/// A hook that weighs what it is said to, so that its size stays as it is.
fn fly(weight: f64) -> Fly {
    let hook = Some(Hook::of_size(12.0));
    let parts = Parts {
        hook,
        weighed: Some(grams(weight)),
        ..Parts::default()
    };
    Fly::tied(&parts).expect("it has a size")
}

fn line(diameter: f64) -> Strand {
    Strand::new(metres(2.0), metres(diameter), density(1140.0))
}

fn tackle(grams: f64, diameter: f64, above: f64) -> Tackle {
    let hung = Hung {
        fly: fly(0.1),
        above_point: metres(above),
        tag: None,
    };
    Tackle::new(fly(grams), vec![line(diameter)], vec![hung]).expect("its parts have sizes")
}

fn in_water(profile: Profile) -> Stream {
    let fluid = Fluid::at(ThermodynamicTemperature::new::<degree_celsius>(10.0));
    Stream { profile, fluid }
}

fn bed(depth: f64, surface: f64) -> Stream {
    in_water(Profile::over_bed(
        metres(depth),
        speed(surface),
        metres(depth / 20.0),
    ))
}

fn hangs_straight(found: &Drift, length: f64) -> bool {
    let depth = found.rides[0].depth.value;
    let aside = found.rides.iter().all(|ride| ride.ahead.value.abs() < 1e-4);
    (depth - length).abs() < 1e-5 && aside
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn water_of_one_speed_leaves_a_free_rig_straight(
        depth in 0.3..3.0, share in 0.3..0.95, flow in 0.0..2.0,
        grams in 0.05..2.0, diameter in 0.076e-3..0.5e-3,
    ) {
        let water = in_water(Profile::even(metres(depth), speed(flow)));
        let length = depth * share;
        let rig = tackle(grams, diameter, length / 2.0);
        let found = drift(&rig, &water, Under::Length(metres(length)), Lead::Free)
            .map_err(|none| TestCaseError::fail(none.to_string()))?;
        prop_assert!(hangs_straight(&found, length), "{found:?}");
        prop_assert!((found.speed.value - flow).abs() < 1e-4, "{}", found.speed.value);
    }

    #[test]
    fn a_fly_lighter_than_water_is_told(depth in 0.3..3.0, grams in 0.001..0.008) {
        let rig = tackle(grams, 0.15e-3, 0.2);
        let found = drift(&rig, &bed(depth, 0.5), Under::Length(metres(depth / 2.0)), Lead::Free);
        prop_assert_eq!(found, Err(NoDrift::Floats(0)));
    }

    #[test]
    fn more_weight_never_rides_higher(
        depth in 0.4..2.0, flow in 0.1..1.0, held in 0.6..1.0,
        grams in 0.1..1.0, more in 1.02..3.0, diameter in 0.076e-3..0.3e-3,
    ) {
        let (water, length) = (bed(depth, flow), depth * 0.7);
        let lead = Lead::Speed(speed(flow * held));
        let deep = |grams: f64| {
            let rig = tackle(grams, diameter, length / 2.0);
            drift(&rig, &water, Under::Length(metres(length)), lead).map(|found| found.rides[0].depth.value)
        };
        let (light, heavy) = (deep(grams), deep(grams * more));
        if let (Ok(light), Ok(heavy)) = (&light, &heavy) {
            prop_assert!(*heavy >= light - 1e-6, "{light} and {heavy}");
        }
        prop_assert!(light.is_err() || heavy.is_ok(), "{light:?} and {heavy:?}");
    }

    #[test]
    fn line_of_more_drag_never_sinks_sooner(
        depth in 0.3..2.0, grams in 0.05..2.0, diameter in 0.076e-3..0.3e-3, more in 1.05..2.0,
    ) {
        // As dense as water, so that it is only its drag that counts.
        let water = bed(depth * 1.5, 0.5);
        let time = |diameter: f64| {
            let neutral = Strand::new(metres(3.0), metres(diameter), water.fluid.density());
            let rig = Tackle::new(fly(grams), vec![neutral], Vec::new()).expect("its parts have sizes");
            closed_form(&rig, &water, metres(depth), metres(depth * 1.4)).map(|form| form.time.get::<second>())
        };
        let (thin, thick) = (time(diameter), time(diameter * more));
        prop_assert!(thin.is_some() && thick >= thin.map(|thin| thin * (1.0 - 1e-9)), "{thin:?} {thick:?}");
    }

    #[test]
    fn sag_grows_as_the_pull_falls(
        reach in 1.0..10.0, tip in 0.0..3.0, diameter in 0.1e-3..0.5e-3, pull in 1e-3..0.1, less in 0.3..0.98,
    ) {
        let air = Air::new(&[line(diameter)], From::Tip, metres(reach), metres(tip)).expect("it has sizes");
        let sag = |pull: f64| air.under(Force::new::<newton>(pull)).map(|curve| curve.sag.value);
        let (tight, slack) = (sag(pull), sag(pull * less));
        prop_assert!(tight.is_some() && slack > tight, "{tight:?} and {slack:?}");
    }

    #[test]
    fn joined_lines_of_one_weight_hang_as_one(
        reach in 1.0..10.0, tip in 0.0..3.0, diameter in 0.1e-3..0.5e-3,
        pull in 1e-3..0.1, lower in 0.1..2.0, middle in 0.1..2.0,
    ) {
        let part = |length: f64| line(diameter).of_length(metres(length));
        let curve = |strands: &[Strand]| {
            let air = Air::new(strands, From::Entry, metres(reach), metres(tip)).expect("it has sizes");
            air.under(Force::new::<newton>(pull)).expect("the pull holds it")
        };
        let (one, three) = (curve(&[part(1.0)]), curve(&[part(lower), part(middle), part(1.0)]));
        for (one, three) in [(one.sag, three.sag), (one.length, three.length)] {
            prop_assert!((one - three).value.abs() < 1e-7, "{one:?} and {three:?}");
        }
    }
}
