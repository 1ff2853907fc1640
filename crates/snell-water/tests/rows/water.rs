//! Rows of water, its profile, laws of drag and loads.

use super::{Row, halved};
use crate::given::{ball, density, fluid, force, metres, speed};
use snell_water::drag;
use snell_water::drift::{Lead, Under, drift};
use snell_water::load::{self, Spring};
use snell_water::sag::{Air, From};
use snell_water::{Fluid, Profile, Strand, Stream, Tackle};
use std::f64::consts::PI;
use uom::si::area::square_meter;
use uom::si::f64::*;
use uom::si::force::newton;
use uom::si::length::meter;
use uom::si::mass::kilogram;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;

pub fn water(row: &Row) -> Option<f64> {
    let fluid = fluid(row.number("T_C"));
    Some(match row.quantity.as_str() {
        "density kg/m3" | "density kg/m3 by Kell 1975" => fluid.density().value,
        "dynamic viscosity Pa s" | "viscosity by Kestin 1978" => fluid.viscosity().value,
        _ => row.odd(),
    })
}

pub fn profile(row: &Row) -> Option<f64> {
    // Only the ratio of depth to grain counts.
    let over_mean = |depth_ratio: f64| {
        let (depth, one) = (metres(row.number("h_over_ks")), speed(1.0));
        let profile = Profile::over_bed_by_mean(depth, one, metres(1.0));
        profile.at(depth * (1.0 - depth_ratio)).value
    };
    let given = || {
        let (depth, grain) = (metres(row.number("depth")), metres(row.number("ks")));
        Profile::over_bed(depth, speed(row.number("surface")), grain)
    };
    Some(match row.quantity.as_str() {
        "u/mean" => over_mean(row.number("depth_ratio")),
        "(u0.2+u0.8)/2/mean" => (over_mean(0.2) + over_mean(0.8)) / 2.0,
        "u0.6/mean" => over_mean(0.6),
        "h/ks" => grains_deep(row.number("mean_over_surface")),
        "u m/s" => {
            let height = metres(row.number("depth") * (1.0 - row.number("depth_ratio")));
            given().at(height).value
        }
        "depth mean m/s" => given().mean().value,
        _ => row.odd(),
    })
}

/// How many grains deep water of a mean over a surface speed is.
fn grains_deep(mean_over_surface: f64) -> f64 {
    let over = |grains: f64| Profile::mean_to_surface(metres(grains), metres(1.0)).value - mean_over_surface;
    halved(1.0, 1000.0, over, |grains| grains)
}

pub fn sphere(row: &Row) -> Option<f64> {
    Some(drag::sphere(row.number("Re")))
}

pub fn cylinder(row: &Row) -> Option<f64> {
    Some(drag::across(row.number("Re")))
}

pub fn finite_cylinder(row: &Row) -> Option<f64> {
    Some(drag::shortened(row.number("length_over_diameter")))
}

pub fn along(row: &Row) -> Option<f64> {
    Some(drag::along(
        row.number("un") * row.number("d_mm") * 1e-3 / row.number("nu"),
    ))
}

/// In millinewtons on a metre, from what a metre adds to the load of a line that hangs in still water.
pub fn line_weight(row: &Row) -> Option<f64> {
    let (diameter, material) = (metres(row.number("d_mm") * 1e-3), density(row.number("density")));
    let strand = Strand::new(metres(1.0), diameter, material);
    let in_air = Air::new(&[strand], From::Tip, metres(1.0), metres(1.0));
    let curve = in_air
        .and_then(|air| air.under(force(1.0)))
        .expect("it spans a metre");
    let in_air = (curve.at_tip - curve.at_entry).get::<newton>() / curve.length.get::<meter>() * 1e3;
    let air_off = (in_air / row.number("air_mN_per_m") - 1.0).abs();
    assert!(air_off < 1e-9, "{}: in air off by {air_off:e}", row.id);

    let fluid = fluid_of_density(999.7);
    let point = ball(1e-3);
    let still = Stream {
        profile: Profile::even(metres(2.0), speed(0.0)),
        fluid,
    };
    let tackle = Tackle::new(point, vec![strand], Vec::new()).expect("it has sizes");
    let hangs = drift(&tackle, &still, Under::Length(metres(1.0)), Lead::Free).expect("it hangs");
    Some((hangs.load - point.wet_weight(&fluid)).get::<newton>() * 1e3)
}

/// Water as warm as it has to be for a density. It grows lighter from 4 C on.
fn fluid_of_density(density: f64) -> Fluid {
    halved(
        4.0,
        40.0,
        |celsius| density - fluid(celsius).density().value,
        fluid,
    )
}

pub fn load(row: &Row) -> Option<f64> {
    let sections: Vec<[f64; 5]> =
        serde_json::from_value(row.inputs["secs"].clone()).expect("five numbers each");
    let springs = sections.iter().map(|[length, diameter, modulus, ..]| {
        let area = Area::new::<square_meter>(PI / 4.0 * diameter * diameter);
        Spring::of_line(metres(*length), area, Pressure::new::<pascal>(*modulus)).expect("it has a size")
    });
    let spring = Spring::in_series(springs).expect("there is line");
    let strengths = sections.iter().map(|[.., test, knot]| {
        let share = |value: f64| Ratio::new::<ratio>(value);
        load::knotted(force(*test), share(1.0), share(*knot))
    });
    Some(match row.id.as_str() {
        "k_series" => spring.stiffness().value,
        "break" => load::weakest(strengths).expect("there is line").1.value,
        "shock" => {
            let (run, fish) = (speed(row.number("v")), Mass::new::<kilogram>(row.number("m")));
            spring.jolt(run, fish, force(row.number("T0"))).value
        }
        _ => row.odd(),
    })
}
