//! The crate against other people's programs, published curves and quadrature, over tables.
//!
//! The tables are made by `data/outside/tables.py` and name the libraries and versions they come
//! from; `tests/tools/tables.sh` works them out anew.

mod given;

use given::{density, fluid, metres};
use snell_water::drag::{across, sphere};
use snell_water::drift::{Lead, Under, drift};
use snell_water::fly::{Bead, Parts};
use snell_water::sag::{Air, Curve, From};
use snell_water::{Fly, Profile, Strand, Stream, Tackle};
use uom::si::f64::*;
use uom::si::force::newton;
use uom::si::length::meter;
use uom::si::velocity::meter_per_second;

/// The rows of a table that has as many columns as this and as many rows.
fn table<const COLUMNS: usize>(text: &str, rows: usize) -> Vec<[f64; COLUMNS]> {
    let lines = text.lines().filter(|line| !line.starts_with('#'));
    let table: Vec<[f64; COLUMNS]> = lines
        .map(|line| {
            let row: Vec<f64> = line
                .split('\t')
                .map(|cell| cell.parse().expect("a cell is a number"))
                .collect();
            row.try_into()
                .unwrap_or_else(|_| panic!("not {COLUMNS} columns: {line}"))
        })
        .collect();
    assert_eq!(table.len(), rows, "rows of the table");
    table
}

#[track_caller]
fn near(row: &[f64], what: &str, value: f64, expected: f64, share: f64) {
    let off = (value - expected).abs();
    assert!(
        off <= share * expected.abs(),
        "{row:?}: {what} is {value}, not {expected}; off by {:e}",
        off / expected.abs()
    );
}

fn ball(millimetres: f64, material: f64) -> Fly {
    let bead = Bead {
        diameter: metres(millimetres * 1e-3),
        density: density(material),
        fill: 1.0,
    };
    let parts = Parts {
        bead: Some(bead),
        ..Parts::default()
    };
    Fly::tied(&parts).expect("it has a size")
}

#[test]
fn water_agrees_with_the_formulations_of_iapws() {
    for row in table::<3>(include_str!("data/outside/water.tsv"), 31) {
        let fluid = fluid(row[0]);
        near(&row, "density", fluid.density().value, row[1], 4.1e-6);
        near(&row, "viscosity", fluid.viscosity().value, row[2], 8.5e-4);
    }
}

#[test]
fn spheres_drag_as_other_laws_have_it() {
    for row in table::<3>(include_str!("data/outside/sphere_drag.tsv"), 61) {
        for (law, expected) in ["usual", "Clift"].iter().zip(&row[1..]) {
            near(&row, law, sphere(row[0]), *expected, 0.065);
        }
    }
}

#[test]
fn spheres_sink_as_another_program_has_it() {
    for row in table::<4>(include_str!("data/outside/sphere_speed.tsv"), 60) {
        let sinks = ball(row[2], row[1]).sinks(&fluid(row[0])).expect("it sinks");
        near(&row, "speed", sinks.value, row[3], 0.04);
    }
}

#[test]
fn cylinders_drag_as_another_fit_to_measurements_has_it() {
    for row in table::<2>(include_str!("data/outside/cylinder_drag.tsv"), 51) {
        near(&row, "drag", across(row[0]), row[1], 0.18);
    }
}

#[test]
fn cylinders_drag_as_the_theory_of_slow_flow_has_it() {
    for row in table::<2>(include_str!("data/outside/cylinder_slow.tsv"), 8) {
        near(&row, "drag", across(row[0]), row[1], 0.17);
    }
}

/// Ratios of the speed to its mean, by depth over the whole depth. Source: U.S. Geological Survey,
/// standard vertical velocity curve (Rantz and others 1982, Water-Supply Paper 2175; from memory).
const STANDARD_CURVE: [(f64, f64); 11] = [
    (0.05, 1.160),
    (0.1, 1.160),
    (0.2, 1.149),
    (0.3, 1.130),
    (0.4, 1.108),
    (0.5, 1.067),
    (0.6, 1.020),
    (0.7, 0.953),
    (0.8, 0.871),
    (0.9, 0.746),
    (0.95, 0.648),
];

/// How far off the standard curve water of so many grains is, in shares of the mean speed.
fn off_the_curve(grains: f64) -> [f64; 11] {
    let mean = Velocity::new::<meter_per_second>(1.0);
    let profile = Profile::over_bed_by_mean(metres(grains), mean, metres(1.0));
    STANDARD_CURVE.map(|(depth, expected)| profile.at(metres(grains * (1.0 - depth))).value - expected)
}

#[test]
fn speeds_follow_the_standard_vertical_curve() {
    for grains in [14.0, 17.0, 20.0, 25.0, 30.0, 40.0, 50.0] {
        for (off, (depth, _)) in off_the_curve(grains).iter().zip(STANDARD_CURVE) {
            assert!(off.abs() < 0.05, "{grains} grains, {depth} deep: off by {off}");
        }
    }
    let squares: f64 = off_the_curve(20.0).iter().map(|off| off * off).sum();
    assert!((squares / 11.0).sqrt() < 0.0125, "{}", (squares / 11.0).sqrt());
}

#[test]
fn mean_over_surface_speed_lies_where_it_is_measured() {
    // The coefficient of the surface that gaugers use is 0.84-0.90 (the same paper, from memory).
    for grains in [22.0, 26.0, 42.0, 100.0, 200.0] {
        let found = Profile::mean_to_surface(metres(grains), metres(1.0)).value;
        assert!((0.84..=0.90).contains(&found), "{grains} grains: {found}");
    }
}

#[test]
fn a_held_line_has_the_shape_that_quadrature_gives() {
    for row in table::<10>(include_str!("data/outside/cable_held.tsv"), 30) {
        let [celsius, bead, material, line, stuff, speed, length, x, z, tension] = row;
        let strand = Strand::new(metres(length), metres(line * 1e-3), density(stuff));
        let tackle = Tackle::new(ball(bead, material), vec![strand], Vec::new()).expect("it has sizes");
        let stream = Stream {
            profile: Profile::even(metres(5.0), Velocity::new::<meter_per_second>(speed)),
            fluid: fluid(celsius),
        };
        let held = Lead::Speed(Velocity::new::<meter_per_second>(0.0));
        let found = drift(&tackle, &stream, Under::Length(metres(length)), held).expect("it is held");
        let point = &found.rides[0];
        near(&row, "depth", point.depth.get::<meter>(), z, 1e-4);
        near(&row, "ahead", point.ahead.get::<meter>(), -x, 1e-4);
        let pull = found.pull.get::<newton>().hypot(found.load.get::<newton>());
        near(&row, "tension", pull, tension, 1e-4);
    }
}

fn holds_as(row: &[f64], air: Option<Air>, length: f64, expected: &[f64]) {
    let air = air.expect("there is line in the air");
    let curve: Curve = air.with_length(metres(length)).expect("the line is long enough");
    let pull = expected[0];
    near(row, "pull", curve.pull.get::<newton>(), pull, 1e-6);
    // Near its lowest place a line lifts nothing, so what counts is the share of the pull.
    for (what, value, expected) in [
        ("at the entry", curve.at_entry, expected[1]),
        ("at the tip", curve.at_tip, expected[2]),
    ] {
        let off = (value.get::<newton>() - expected).abs();
        assert!(
            off < 1e-6 * pull,
            "{row:?}: {what} {} not {expected}",
            value.value
        );
    }
}

#[test]
fn lines_in_the_air_hang_as_another_program_has_them() {
    for row in table::<8>(include_str!("data/outside/catenary.tsv"), 50) {
        let [reach, rise, length, diameter, material, ..] = row;
        let strand = Strand::new(metres(length), metres(diameter * 1e-3), density(material));
        for from in [From::Tip, From::Entry] {
            let air = Air::new(&[strand], from, metres(reach), metres(rise));
            holds_as(&row, air, length, &row[5..]);
        }
    }
}

#[test]
fn joined_lines_hang_as_another_program_has_each() {
    for row in table::<9>(include_str!("data/outside/catenary_joined.tsv"), 15) {
        let [reach, rise, lower, thin, upper, thick, ..] = row;
        let light = Strand::new(metres(lower), metres(thin * 1e-3), density(1780.0));
        let heavy = Strand::new(metres(upper), metres(thick * 1e-3), density(1140.0));
        let (reach, rise) = (metres(reach), metres(rise));
        let from_entry = Air::new(&[light, heavy], From::Entry, reach, rise);
        holds_as(&row, from_entry, lower + upper, &row[6..]);
        let from_tip = Air::new(&[heavy, light], From::Tip, reach, rise);
        holds_as(&row, from_tip, lower + upper, &row[6..]);
    }
}
