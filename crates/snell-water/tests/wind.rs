//! What reach and wind do to the base rig, as its page tells it; and what is only a convention.

mod given;

use given::{Given, air, example, metres, speed};
use snell_water::drift::{Drift, Lead, states};
use snell_water::leader::{Reach, Shear, Wind};
use uom::si::length::meter;

fn base() -> Given {
    example("wind_up2_028_45")
}

fn under(given: &Given, reach: Reach) -> Drift {
    let rig = given.rig();
    let found = states(&rig.tackle, &rig.stream, rig.length, &Lead::Reach(reach));
    found.expect("there are states").remove(0).drift
}

fn depth(given: &Given, reach: Reach) -> f64 {
    under(given, reach).rides[0].depth.get::<meter>()
}

fn reach(along: f64) -> Reach {
    Reach {
        along: metres(along),
        tip: metres(2.5),
        wind: None,
    }
}

#[test]
fn reach_moves_the_depth_more_than_anything() {
    // Base rig, tip 2.5 m high and upstream.
    for (along, expected) in [(0.5, 0.83), (1.0, 0.83), (2.0, 0.78), (3.0, 0.67), (4.5, 0.45)] {
        let found = depth(&base(), reach(-along));
        assert!((found - expected).abs() < 0.006, "{along} m upstream: {found}");
    }
    for (along, expected) in [(0.5, 0.79), (1.0, 0.75), (2.0, 0.65), (3.0, 0.54), (4.5, 0.39)] {
        let found = depth(&base(), reach(along));
        assert!((found - expected).abs() < 0.006, "{along} m downstream: {found}");
    }
    let mut level = base();
    level.sections[0].diameter_m = 0.55e-3;
    level.sections[0].length_m = 8.0;
    let found = depth(&level, reach(-4.5));
    assert!((found - 0.23).abs() < 0.006, "a level line of 0.55 mm: {found}");
}

#[test]
fn a_downstream_wind_carries_the_leader_and_then_drives_the_rig() {
    let found = [0.0, 2.0, 4.0, 6.0].map(|at| {
        let wind = Wind::new(speed(at), speed(0.0), metres(2.5), air(15.0));
        depth(
            &base(),
            Reach {
                wind: Some(wind),
                ..reach(-3.0)
            },
        )
    });
    for (found, expected) in found.iter().zip([0.66, 0.72, 0.82, 0.75]) {
        assert!((found - expected).abs() < 0.01, "{found}, not {expected}");
    }
}

#[test]
fn the_law_of_the_wind_moves_the_depth_by_centimetres() {
    let wind = Wind::new(speed(-4.0), speed(0.0), metres(2.5), air(15.0));
    let at = |shear: Shear| {
        depth(
            &base(),
            Reach {
                wind: Some(wind.with(shear)),
                ..reach(-3.0)
            },
        )
    };
    let water = at(Shear::OverWater);
    let power = (at(Shear::Power) - water).abs();
    let grass = (at(Shear::Over(metres(0.03))) - water).abs();
    assert!(power < 0.012, "by a power: {power}");
    assert!(grass > power && grass < 0.08, "over grass: {grass}");
}
