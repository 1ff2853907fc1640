//! Whole rigs against an independent implementation of the same equations (SciPy, tight
//! tolerances), within the tolerances that were agreed between implementations.
//!
//! `SNELL_REFERENCE` names another folder of `NAME.in.json` and `NAME.out.json`.

mod air;
#[path = "../given/mod.rs"]
mod given;

use given::solved::Solved;
use given::{Given, folder, metres, speed};
use snell_water::drift::{Drift, Lead, Standing, State, drift, states};
use snell_water::sink::{closed_form, sink};
use std::fs;
use uom::si::f64::*;
use uom::si::force::newton;
use uom::si::length::meter;
use uom::si::time::second;

/// Every rig of the folder with what it should come to.
fn rigs() -> Vec<(String, Given, Solved)> {
    let folder = folder();
    let entries = fs::read_dir(&folder).expect("the folder of rigs can be read");
    let mut names: Vec<String> = entries
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

/// What does not hold, so that all of it is seen at once.
#[derive(Default)]
struct Off(Vec<String>);

impl Off {
    /// Whether a value lies near another: within a share of it, or within a distance.
    fn near(&mut self, name: &str, what: &str, value: f64, expected: f64, share: f64, distance: f64) {
        let off = (value - expected).abs();
        if off.is_nan() || off > (share * expected.abs()).max(distance) {
            self.0.push(format!("{name}: {what} is {value}, not {expected}"));
        }
    }
}

impl Drop for Off {
    fn drop(&mut self) {
        if !std::thread::panicking() {
            assert!(self.0.is_empty(), "{}", self.0.join("\n"));
        }
    }
}

#[test]
fn water_flies_and_line() {
    let mut off = Off::default();
    for (name, given, solved) in rigs() {
        let stream = given.stream();
        off.near(
            &name,
            "density",
            stream.fluid.density().value,
            solved.water.density,
            1e-6,
            0.0,
        );
        off.near(
            &name,
            "viscosity",
            stream.fluid.viscosity().value,
            solved.water.viscosity,
            1e-6,
            0.0,
        );
        off.near(
            &name,
            "mean speed",
            stream.profile.mean().value,
            solved.profile.mean,
            1e-6,
            0.0,
        );
        for at in &solved.profile.at {
            let height = stream.depth() * (1.0 - at.depth_ratio);
            off.near(
                &name,
                "profile",
                stream.profile.at(height).value,
                at.u,
                1e-6,
                1e-12,
            );
        }
        for (fly, solved) in given.flies.iter().zip(&solved.flies) {
            let built = fly.fly(&stream.fluid);
            let water = built.in_water(&stream.fluid);
            let anatomy = built.anatomy();
            let area = |force: Force| 2.0 * force.value / (stream.fluid.density().value * 0.3 * 0.3);
            let [broadside, head_first] = water.ends(speed(0.3)).map(area);
            for (what, value, expected) in [
                ("gape", anatomy.gape.value, solved.gape_m),
                ("shank", anatomy.shank.value, solved.shank_m),
                ("wire", anatomy.wire.value, solved.wire_m),
                ("body across", anatomy.body_across.value, solved.body_diameter_m),
                ("body long", anatomy.body_long.value, solved.body_length_m),
                ("hook", anatomy.hook.value, solved.hook_mass_kg),
                ("bead", anatomy.bead.value, solved.bead_mass_kg),
                ("dressing", anatomy.dressing.value, solved.dressing_mass_kg),
                ("mass", built.mass().value, Some(solved.mass_kg)),
                ("displaced", anatomy.displaced.value, Some(solved.volume_m3)),
                ("wet weight", water.weight().value, Some(solved.wet_weight)),
                (
                    "behind the bead",
                    water.weight_behind_bead().value,
                    Some(solved.behind_bead),
                ),
            ] {
                if let Some(expected) = expected {
                    off.near(&name, what, value, expected, 1e-6, 1e-15);
                }
            }
            for (what, value, expected) in [
                ("tilt", water.tilt().value, solved.cos_psi),
                ("broadside", broadside, solved.drag_area_broadside_m2),
                ("head first", head_first, solved.drag_area_headfirst_m2),
                ("drag scale", water.drag_scale().value, solved.drag_scale),
                (
                    "fall",
                    built.sinks(&stream.fluid).expect("it sinks").value,
                    solved.terminal_mps,
                ),
            ] {
                off.near(&name, what, value, expected, 1e-4, 0.0);
            }
        }
    }
}

/// All states of a rig by length, or the one of a rig by height.
fn all_states(given: &Given, lead: &Lead) -> Vec<State> {
    let (tackle, stream) = (given.tackle(), given.stream());
    match given.drift.submerged_length_m {
        Some(length) => states(&tackle, &stream, metres(length), lead).expect("there are states"),
        None => {
            let drift = drift(&tackle, &stream, given.under(), *lead).expect("it drifts");
            vec![State {
                standing: Standing::Stable,
                drift,
            }]
        }
    }
}

/// A rig that was given by its point's depth, by the length that this came to.
fn with_length(given: &Given, solved: &Solved) -> Given {
    let mut given = given.clone();
    given.drift.submerged_length_m = Some(solved.steady.submerged_length_m);
    given
}

fn shown<'a>(states: &'a [State], solved: &Solved) -> &'a State {
    let apart = |state: &&State| {
        let off_bed = state.drift.rides[0].off_bed.get::<meter>();
        (off_bed - solved.steady.zf).abs()
    };
    let nearest = states.iter().min_by(|a, b| apart(a).total_cmp(&apart(b)));
    nearest.expect("there is a state")
}

#[test]
fn steady_states() {
    let mut off = Off::default();
    for (name, given, solved) in rigs() {
        let found = all_states(&given, &given.lead());
        if !solved.steady.states.is_empty() {
            off.near(
                &name,
                "states",
                found.len() as f64,
                solved.steady.states.len() as f64,
                0.0,
                0.0,
            );
        }
        for (found, expected) in found.iter().zip(&solved.steady.states) {
            let (bed, bears) = match found.standing {
                Standing::OnBed { bears, .. } => (true, bears.get::<newton>()),
                Standing::Stable | Standing::Unstable => (false, 0.0),
            };
            assert_eq!(
                bed,
                expected.kind != "drift",
                "{name}: {} {}",
                expected.kind,
                expected.zf
            );
            assert_eq!(found.stays(), expected.stable, "{name}: {}", expected.zf);
            let height = found.drift.rides[0].off_bed.get::<meter>();
            off.near(&name, "height", height, expected.zf, 0.01, 0.002);
            off.near(&name, "bears", bears, expected.borne, 0.02, 2e-5);
            off.near(
                &name,
                "speed",
                found.drift.speed.value,
                expected.c_mps,
                0.005,
                0.0,
            );
            off.near(&name, "pull", found.drift.pull.value, expected.pull, 0.02, 2e-5);
            off.near(&name, "load", found.drift.load.value, expected.load, 0.005, 0.0);
        }
        let found = &shown(&found, &solved).drift;
        drifts_as(&mut off, &name, found, &solved);
        if let (Some(float), Some(expected)) = (given.float(), &solved.steady.float) {
            let slip = given.stream().profile.surface() - found.speed;
            let rides = float.under(found.load, slip, &given.fluid());
            off.near(
                &name,
                "immersed",
                rides.immersed.value,
                expected.immersed_m,
                0.01,
                0.0,
            );
            off.near(
                &name,
                "lift used",
                rides.share.value,
                expected.lift_used,
                0.01,
                0.0,
            );
            off.near(&name, "slip", slip.value, expected.slip, 0.01, 0.002);
            assert_eq!(rides.is_drowned(), expected.drowned, "{name}");
        }
    }
}

fn drifts_as(off: &mut Off, name: &str, found: &Drift, solved: &Solved) {
    let expected = &solved.steady;
    off.near(name, "speed", found.speed.value, expected.c_mps, 0.005, 0.0);
    off.near(name, "H", found.pull.value, expected.pull, 0.02, 2e-5);
    off.near(name, "V", found.load.value, expected.load, 0.005, 0.0);
    if expected.kind == "drift" {
        off.near(
            name,
            "submerged",
            found.submerged.value,
            expected.submerged_length_m,
            0.005,
            0.0,
        );
    }
    for (ride, expected) in found.rides.iter().zip(&expected.flies) {
        off.near(name, "depth", ride.depth.value, expected.depth_m, 0.005, 0.002);
        off.near(
            name,
            "offset",
            ride.ahead.value,
            expected.offset_from_entry_m,
            0.02,
            0.005,
        );
    }
}

#[test]
fn sinks() {
    let mut off = Off::default();
    for (name, given, solved) in rigs() {
        let Some(expected) = &solved.transient else {
            continue;
        };
        let states = all_states(&given, &given.lead());
        let drift = &shown(&states, &solved).drift;
        // The reference leaves tags out of the sink: a fly hangs where its tag is tied.
        let (tackle, stream) = (given.tackle_without_tags(), given.stream());
        for simple in &expected.simple {
            let found = closed_form(&tackle, &stream, metres(simple.depth_m), drift.submerged);
            let time = found.expect("it sinks").time.get::<second>();
            off.near(
                &name,
                "closed form",
                time,
                simple.time_s.expect("it gets there"),
                0.01,
                0.0,
            );
        }
        let longest = Time::new::<second>(given.transient.t_end_s);
        let sunk = sink(&tackle, &stream, drift, given.cast(), 0.95, longest);
        for target in &expected.targets {
            let time = sunk.reaches(metres(target.depth_m));
            let (Some(time), Some(expected)) = (time, target.time_s) else {
                assert_eq!(
                    time.is_some(),
                    target.time_s.is_some(),
                    "{name}: {} m",
                    target.depth_m
                );
                continue;
            };
            let what = format!("time to {} m", target.depth_m);
            off.near(&name, &what, time.get::<second>(), expected, 0.03, 0.0);
        }
    }
}
