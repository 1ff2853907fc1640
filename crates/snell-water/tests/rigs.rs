//! Whole rigs against an independent implementation of the same equations (SciPy, tight
//! tolerances), within the tolerances that were agreed between implementations.
//!
//! `SNELL_REFERENCE` names another folder of `NAME.in.json` and `NAME.out.json`.

mod given;

use given::{Given, Solved, folder, metres};
use snell_water::drift::{Drift, NoDrift};
use snell_water::sag::{Across, creep, settled};
use snell_water::sink::{Cast, closed_form, sink};
use std::fs;
use uom::si::f64::*;
use uom::si::force::newton;
use uom::si::length::meter;
use uom::si::mass::kilogram;
use uom::si::time::second;
use uom::si::velocity::meter_per_second;

/// Every rig of the folder with what it should come to.
fn rigs() -> Vec<(String, Given, Solved)> {
    let folder = folder();
    let mut names: Vec<String> = fs::read_dir(&folder)
        .expect("the folder of rigs can be read")
        .filter_map(|entry| {
            let name = entry
                .expect("an entry can be read")
                .file_name()
                .into_string()
                .ok()?;
            name.strip_suffix(".in.json").map(str::to_owned)
        })
        .collect();
    names.sort();
    assert!(!names.is_empty(), "there are rigs in {}", folder.display());
    names
        .into_iter()
        .map(|name| {
            let given = given::read(&folder.join(format!("{name}.in.json")));
            let solved = given::read(&folder.join(format!("{name}.out.json")));
            (name, given, solved)
        })
        .collect()
}

/// Whether a value lies near another: within a share of it, or within a distance.
#[track_caller]
fn near(name: &str, what: &str, value: f64, expected: f64, share: f64, distance: f64) {
    let off = (value - expected).abs();
    assert!(
        off <= (share * expected.abs()).max(distance),
        "{name}: {what} is {value}, not {expected}"
    );
}

#[test]
fn water_flies_and_line() {
    for (name, given, solved) in rigs() {
        let stream = given.stream();
        let water = &solved.water;
        near(
            &name,
            "density",
            stream.fluid.density().value,
            water.density,
            1e-6,
            0.0,
        );
        near(
            &name,
            "viscosity",
            stream.fluid.viscosity().value,
            water.viscosity,
            1e-6,
            0.0,
        );
        near(
            &name,
            "mean speed",
            stream.profile.mean().value,
            solved.profile.mean,
            1e-6,
            0.0,
        );
        for at in &solved.profile.at {
            let height = stream.depth() * (1.0 - at.depth_ratio);
            near(
                &name,
                "profile",
                stream.profile.at(height).value,
                at.u,
                1e-6,
                1e-12,
            );
        }
        for (fly, solved) in given.flies.iter().zip(&solved.flies) {
            let built = fly.fly();
            let weight = built.wet_weight(&stream.fluid).get::<newton>();
            near(&name, "wet weight", weight, solved.wet_weight_newton, 1e-6, 0.0);
            let sinks = built.sinks(&stream.fluid).expect("it sinks");
            near(
                &name,
                "terminal speed",
                sinks.value,
                solved.terminal_mps,
                1e-4,
                0.0,
            );
        }
    }
}

#[test]
fn steady_drifts() {
    for (name, given, solved) in rigs() {
        let expected = &solved.steady;
        let found = given.drift();
        if expected.bed_contact {
            assert!(matches!(found, Err(NoDrift::OnBed { .. })), "{name}: {found:?}");
            continue;
        }
        let found: Drift = found.unwrap_or_else(|none| panic!("{name}: {none}"));
        near(
            &name,
            "speed",
            found.speed.get::<meter_per_second>(),
            expected.c_mps,
            0.005,
            0.0,
        );
        let submerged = found.submerged.get::<meter>();
        near(
            &name,
            "submerged",
            submerged,
            expected.submerged_length_m,
            0.005,
            0.0,
        );
        near(
            &name,
            "H",
            found.pull.get::<newton>(),
            expected.pull_newton,
            0.02,
            0.02e-3,
        );
        near(
            &name,
            "V",
            found.load.get::<newton>(),
            expected.load_newton,
            0.005,
            0.0,
        );
        for (ride, expected) in found.rides.iter().zip(&expected.flies) {
            near(
                &name,
                "depth",
                ride.depth.get::<meter>(),
                expected.depth_m,
                0.005,
                0.0,
            );
            near(
                &name,
                "offset",
                ride.ahead.get::<meter>(),
                expected.offset_from_entry_m,
                0.02,
                0.005,
            );
        }
    }
}

#[test]
fn sinks() {
    for (name, given, solved) in rigs() {
        let Ok(drift) = given.drift() else { continue };
        // The reference leaves tags out of the sink: a fly hangs where its tag is tied.
        let (tackle, stream) = (given.tackle_without_tags(), given.stream());
        for simple in &solved.transient.simple {
            let found = closed_form(&tackle, &stream, metres(simple.depth_m), drift.submerged);
            let time = found.expect("it sinks").time.get::<second>();
            near(&name, "closed form", time, simple.time_s, 0.01, 0.0);
        }
        let cast = match given.transient.init.as_str() {
            "pile" => Cast::Tuck,
            "upstream" => Cast::Up,
            "downstream" => Cast::Down,
            other => panic!("{other} is no way to land"),
        };
        let longest = Time::new::<second>(given.transient.t_end_s);
        let sunk = sink(&tackle, &stream, &drift, cast, 0.95, longest);
        for target in &solved.transient.targets {
            let time = sunk
                .reaches(metres(target.depth_m))
                .map(|time| time.get::<second>());
            let what = format!("time to {} m", target.depth_m);
            near(
                &name,
                &what,
                time.expect("it gets there"),
                target.time_s,
                0.03,
                0.0,
            );
        }
    }
}

#[test]
fn sags() {
    for (name, given, solved) in rigs() {
        let (tackle, stream, under) = (given.tackle(), given.stream(), given.under());
        let air = given.air();
        let curve = air
            .with_sag(metres(given.air.allowed_sag_m))
            .expect("a pull lifts it so far");
        near(
            &name,
            "pull for the sag",
            curve.pull.get::<newton>(),
            solved.sag.pull,
            0.002,
            0.0,
        );
        near(
            &name,
            "line out",
            curve.length.get::<meter>(),
            solved.sag.length_m,
            0.002,
            0.0,
        );
        let crept = creep(&tackle, &stream, under, curve.pull).expect("it drifts aside");
        near(
            &name,
            "creep",
            crept.speed.value,
            solved.sag.lateral.speed_mps,
            0.02,
            0.0,
        );
        let depth = crept.rides[0].depth.get::<meter>();
        near(
            &name,
            "depth while it creeps",
            depth,
            solved.sag.lateral.point_depth_m,
            0.005,
            0.0,
        );
        for (across, expected) in [
            (Across::Stream, &solved.sag.coupled_lateral),
            (Across::Up, &solved.sag.coupled_upstream),
        ] {
            let found = settled(&air, &tackle, &stream, under, across).expect("it settles");
            let moves = found.moves.get::<meter_per_second>();
            near(
                &name,
                "pull",
                found.curve.pull.get::<newton>(),
                expected.pull,
                0.02,
                0.02e-3,
            );
            near(&name, "moves", moves, expected.drift_speed_mps, 0.02, 0.0);
            let depth = found.drift.rides[0].depth.get::<meter>();
            near(&name, "depth", depth, expected.point_depth_m, 0.005, 0.0);
            near(
                &name,
                "line out",
                found.curve.length.get::<meter>(),
                expected.line_out_m,
                0.002,
                0.0,
            );
            near(
                &name,
                "sag",
                found.curve.sag.get::<meter>(),
                expected.sag_m,
                0.002,
                0.0,
            );
        }
    }
}

#[test]
fn loads() {
    for (name, given, solved) in rigs() {
        let (spring, strength) = given.springs();
        let load = &given.load;
        let (fish, before) = (
            Mass::new::<kilogram>(load.mass_kg),
            Force::new::<newton>(load.before),
        );
        let run = Velocity::new::<meter_per_second>(load.v_mps);
        let expected = &solved.load;
        near(
            &name,
            "stiffness",
            spring.stiffness().value,
            expected.k_series,
            1e-6,
            0.0,
        );
        assert_eq!(strength.0, expected.weakest, "{name}: the weakest place");
        near(
            &name,
            "strength",
            strength.1.get::<newton>(),
            expected.break_newton,
            1e-6,
            0.0,
        );
        let stretch = spring.stretch(strength.1).get::<meter>();
        near(
            &name,
            "stretch",
            stretch,
            expected.elongation_at_break_m,
            1e-6,
            0.0,
        );
        near(
            &name,
            "energy",
            spring.energy(strength.1).value,
            expected.energy_to_break_joule,
            1e-6,
            0.0,
        );
        near(
            &name,
            "jolt",
            spring.jolt(run, fish, before).get::<newton>(),
            expected.shock,
            1e-6,
            0.0,
        );
        let bears = spring.bears(strength.1, fish, before).get::<meter_per_second>();
        near(&name, "run that it bears", bears, expected.v_break_mps, 1e-6, 0.0);
    }
}
