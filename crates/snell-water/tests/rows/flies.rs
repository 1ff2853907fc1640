//! Rows of hooks, beads, flies and floats.

use super::Row;
use crate::given::{self, GivenFly, density, fluid, force, metres, speed};
use serde_json::Value;
use snell_water::fly::{Bead, Hook, Parts};
use snell_water::{Float, Fly};
use uom::si::force::newton;
use uom::si::ratio::ratio;

pub fn hook(row: &Row) -> Option<f64> {
    let hook = given::hook(&row.inputs["hook"]);
    Some(match row.quantity.as_str() {
        "gape m" => hook.gape().value,
        "shank m" => hook.shank().value,
        "wire m" => hook.wire().value,
        "mass kg" => hook.mass().value,
        _ => row.odd(),
    })
}

fn fly(row: &Row) -> (Fly, f64) {
    let celsius = row.number("temp_C");
    let given: GivenFly = serde_json::from_value(Value::Object(row.inputs.clone())).expect("parts of a fly");
    (given.fly(&fluid(celsius)), celsius)
}

pub fn parts(row: &Row) -> Option<f64> {
    let (fly, celsius) = fly(row);
    let fluid = fluid(celsius);
    let water = fly.in_water(&fluid);
    let anatomy = fly.anatomy();
    let area = |which: usize| {
        let at = 0.3;
        2.0 * water.ends(speed(at))[which].value / (fluid.density().value * at * at)
    };
    Some(match row.quantity.as_str() {
        "mass_kg" => fly.mass().value,
        "wet_weight_N" => water.weight().value,
        "body_diameter_m" => anatomy.body_across.value,
        "body_length_m" => anatomy.body_long.value,
        "cos_psi" => water.tilt().get::<ratio>(),
        "drag_area_broadside_m2 (2F/rho v^2 at 0.3 m/s)" => area(0),
        "drag_area_headfirst_m2 (2F/rho v^2 at 0.3 m/s)" => area(1),
        "terminal_mps" => fly.sinks(&fluid).expect("it sinks").value,
        _ => row.odd(),
    })
}

pub fn slipping(row: &Row) -> Option<f64> {
    let (fly, celsius) = fly(row);
    Some(
        fly.in_water(&fluid(celsius))
            .slipping(speed(row.number("slip_mps")))
            .value,
    )
}

pub fn falling(row: &Row) -> Option<f64> {
    let (fly, celsius) = fly(row);
    Some(
        fly.in_water(&fluid(celsius))
            .falling(speed(row.number("speed_mps")))
            .value,
    )
}

fn bead(row: &Row, bore: f64) -> Fly {
    let left = 1.0 - bore * bore;
    let bead = Bead {
        diameter: metres(row.number("bead_mm") * 1e-3),
        density: density(row.number("density")),
        fill: left * left.sqrt(),
    };
    let parts = Parts {
        bead: Some(bead),
        ..Parts::default()
    };
    Fly::tied(&parts).expect("it has a size")
}

pub fn ball_falls(row: &Row) -> Option<f64> {
    assert_eq!(row.word("form"), "solid sphere", "{}", row.id);
    let sinks = bead(row, 0.0).sinks(&fluid(row.number("temp_C")));
    Some(sinks.expect("it sinks").value)
}

/// In grams.
pub fn bead_mass(row: &Row) -> Option<f64> {
    Some(bead(row, row.number("bore_fraction")).mass().value * 1e3)
}

pub fn float(row: &Row) -> Option<f64> {
    let water = fluid(10.0);
    if let Some(size) = row.maybe("dry") {
        let float = Float::dry(&Hook::of_size(size), &water).expect("it floats");
        return Some(float.lift(&water).get::<newton>());
    }
    let (across, of) = (metres(row.number("diameter_m")), density(row.number("density")));
    let float = Float::ball(across, of, &water).expect("it floats");
    let rides = float.under(
        force(row.number("pull_N")),
        speed(row.maybe("slip_mps").unwrap_or(0.0)),
        &water,
    );
    Some(match row.quantity.as_str() {
        "immersed depth m" => rides.immersed.value,
        "share of lift used" => rides.share.value,
        "drag N" => rides.drag.value,
        "wetted frontal area m2" => rides.wetted.value,
        _ => row.odd(),
    })
}
