//! Whole rigs: the line above the water, and what all of it bears.

use super::{Off, all_states, rigs, with_length};
use crate::given::{force, metres, speed};
use snell_water::drift::{Lead, across, leader};
use snell_water::rod::run_borne;
use snell_water::sag::creep;
use snell_water::sink::sink;
use uom::si::f64::*;
use uom::si::mass::kilogram;
use uom::si::time::second;
use uom::si::velocity::meter_per_second;

#[test]
fn leaders_that_hang() {
    let mut off = Off::default();
    for (name, given, solved) in rigs() {
        let (Some(reach), Some(expected)) = (given.reach(), &solved.air) else {
            continue;
        };
        let (tackle, stream) = (given.tackle(), given.stream());
        if let Some((led, depth)) = expected
            .led
            .as_ref()
            .and_then(|led| Some((led, led.point_depth_m?)))
        {
            let given = with_length(&given, &solved);
            let found = &all_states(&given, &Lead::Reach(reach))[0].drift;
            off.near(&name, "led depth", found.rides[0].depth.value, depth, 0.01, 0.003);
            off.near(
                &name,
                "led speed",
                found.speed.value,
                led.c_mps.expect("a speed"),
                0.01,
                0.003,
            );
            off.near(
                &name,
                "led H",
                found.pull.value,
                led.pull.expect("a pull"),
                0.02,
                2e-5,
            );
            off.near(
                &name,
                "led V",
                found.load.value,
                led.load.expect("a load"),
                0.01,
                0.0,
            );
            let hangs = leader(&tackle, found, &reach).expect("it hangs");
            off.near(
                &name,
                "line in the air",
                hangs.length.value,
                led.line_in_air_m.expect("line"),
                0.005,
                0.0,
            );
            // Tags stay out of the sink, but the leader knows them.
            for target in &led.sink {
                let longest = Time::new::<second>(25.0);
                let sunk = sink(
                    &given.tackle_without_tags(),
                    &stream,
                    found,
                    given.cast(),
                    0.95,
                    longest,
                );
                let time = sunk.reaches(metres(target.depth_m)).map(|time| time.value);
                off.near(
                    &name,
                    "led sink",
                    time.unwrap_or(f64::NAN),
                    target.time_s.unwrap_or(0.0),
                    0.03,
                    0.0,
                );
            }
        }
        let still = expected
            .still
            .as_ref()
            .filter(|still| still.kind.as_deref() == Some("drift"));
        if let Some((still, depth)) = still.and_then(|still| Some((still, still.point_depth_m?))) {
            let given = with_length(&given, &solved);
            let found = &all_states(&given, &Lead::Speed(speed(0.0)))[0].drift;
            off.near(
                &name,
                "still depth",
                found.rides[0].depth.value,
                depth,
                0.01,
                0.003,
            );
            off.near(
                &name,
                "still H",
                found.pull.value,
                still.pull.expect("a pull"),
                0.02,
                2e-5,
            );
        }
        let drawn = expected.across.as_ref();
        if let Some((expected, depth)) = drawn.and_then(|drawn| Some((drawn, drawn.point_depth_m?))) {
            let under = with_length(&given, &solved).under();
            let aside = across(&tackle, &stream, under, &reach);
            let aside = aside.expect("it is drawn aside");
            off.near(
                &name,
                "creep",
                aside.speed.value,
                expected.speed_mps.expect("a speed"),
                0.02,
                0.003,
            );
            off.near(
                &name,
                "depth aside",
                aside.rides[0].depth.value,
                depth,
                0.01,
                0.003,
            );
        }
    }
}

#[test]
fn sags() {
    let mut off = Off::default();
    for (name, given, solved) in rigs() {
        let Some((expected, allowed)) = solved
            .sag
            .as_ref()
            .zip(given.air.as_ref().and_then(|air| air.allowed_sag_m))
        else {
            continue;
        };
        let curve = given
            .line_in_air()
            .with_sag(metres(allowed))
            .expect("a pull lifts it so far");
        off.near(
            &name,
            "pull for the sag",
            curve.pull.value,
            expected.pull,
            0.002,
            0.0,
        );
        off.near(
            &name,
            "line out",
            curve.length.value,
            expected.length_m,
            0.002,
            0.0,
        );
        let under = with_length(&given, &solved).under();
        let crept = creep(&given.tackle(), &given.stream(), under, curve.pull).expect("it drifts aside");
        off.near(
            &name,
            "creep",
            crept.speed.value,
            expected.lateral.speed_mps,
            0.02,
            0.0,
        );
        let depth = crept.rides[0].depth.value;
        off.near(
            &name,
            "depth while it creeps",
            depth,
            expected.lateral.point_depth_m,
            0.005,
            0.0,
        );
    }
}

#[test]
fn loads() {
    let mut off = Off::default();
    for (name, given, solved) in rigs() {
        let (Some(load), Some(expected)) = (&given.load, &solved.load) else {
            continue;
        };
        let (spring, strength) = load.springs();
        let (fish, run) = (Mass::new::<kilogram>(load.mass_kg), speed(load.v_mps));
        let before = force(load.before);
        assert_eq!(strength.0, expected.weakest, "{name}: the weakest place");
        let bears = run_borne(None, &spring, strength.1 - before, fish).get::<meter_per_second>();
        for (what, value, expected) in [
            ("stiffness", spring.stiffness().value, expected.k_series),
            ("strength", strength.1.value, expected.break_newton),
            (
                "stretch",
                spring.stretch(strength.1).value,
                expected.elongation_at_break_m,
            ),
            (
                "energy",
                spring.energy(strength.1).value,
                expected.energy_to_break,
            ),
            ("jolt", spring.jolt(run, fish, before).value, expected.shock),
            ("run that it bears", bears, expected.v_break_mps),
        ] {
            off.near(&name, what, value, expected, 1e-6, 0.0);
        }
    }
}
