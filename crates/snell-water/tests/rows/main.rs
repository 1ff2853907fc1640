//! Single values against published work, other programs and closed forms: every row of
//! `data/rows.json` by what it is about, each within its own tolerance.

mod given;

use given::{Given, density, metres, own_folder};
use serde::Deserialize;
use serde_json::{Map, Value};
use snell_water::drag::{SPHERE, Shape, across, along};
use snell_water::drift::{Lead, Under, drift};
use snell_water::load::{self, Spring};
use snell_water::sag::{Air, Curve, From};
use snell_water::sink::{Cast, sink};
use snell_water::{Fluid, Fly, Profile, Strand, Stream, Tackle};
use std::collections::BTreeMap;
use std::f64::consts::PI;
use uom::si::area::square_meter;
use uom::si::f64::*;
use uom::si::force::newton;
use uom::si::length::meter;
use uom::si::mass::kilogram;
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::thermodynamic_temperature::degree_celsius;
use uom::si::time::second;
use uom::si::velocity::meter_per_second;

/// Standard gravity, m/s2.
const GRAVITY: f64 = 9.806_65;

#[derive(Deserialize)]
struct Row {
    id: String,
    area: String,
    inputs: Map<String, Value>,
    quantity: String,
    expected: f64,
    rel_tol: Option<f64>,
    abs_tol: Option<f64>,
    kind: String,
    provenance: String,
}

/// How many rows there are of each area.
const AREAS: [(&str, usize); 13] = [
    ("bead mass", 30),
    ("cylinder Cd", 26),
    ("fly Cd", 36),
    ("line weight", 12),
    ("load", 3),
    ("profile", 25),
    ("sag", 11),
    ("sphere Cd", 36),
    ("steady", 20),
    ("tangential k", 14),
    ("terminal speed", 30),
    ("transient", 8),
    ("water", 28),
];

#[test]
fn every_row_holds() {
    let rows: Vec<Row> = given::read(&own_folder().join("rows.json"));
    let mut counts: BTreeMap<&str, usize> = BTreeMap::new();
    let mut failures = Vec::new();
    for row in &rows {
        *counts.entry(&row.area).or_default() += 1;
        let value = match row.judge() {
            Judged::Value(value) => value,
            Judged::InsideTheCrate => continue,
        };
        let off = (value - row.expected).abs();
        if off.is_nan() || off > row.allowed() {
            failures.push(format!(
                "{}: {} is {value:e}, not {:e} within {:e} ({}: {})",
                row.id,
                row.quantity,
                row.expected,
                row.allowed(),
                row.kind,
                row.provenance
            ));
        }
    }
    assert!(failures.is_empty(), "{}", failures.join("\n"));
    assert_eq!(counts, BTreeMap::from(AREAS));
    assert_eq!(rows.len(), 279);
}

enum Judged {
    Value(f64),
    /// By the same file, in `src/drift/shape/tests.rs`.
    InsideTheCrate,
}

impl Row {
    fn allowed(&self) -> f64 {
        let by_share = self.rel_tol.map(|share| share * self.expected.abs());
        by_share
            .into_iter()
            .chain(self.abs_tol)
            .reduce(f64::max)
            .unwrap_or_else(|| panic!("{} has no tolerance", self.id))
    }

    fn number(&self, name: &str) -> f64 {
        let value = self.inputs.get(name).and_then(Value::as_f64);
        value.unwrap_or_else(|| panic!("{} has no number {name}", self.id))
    }

    fn word(&self, name: &str) -> &str {
        let value = self.inputs.get(name).and_then(Value::as_str);
        value.unwrap_or_else(|| panic!("{} has no word {name}", self.id))
    }

    fn judge(&self) -> Judged {
        let value = match (self.area.as_str(), self.quantity.as_str()) {
            ("water", quantity) => self.water(quantity),
            ("profile", quantity) => self.profile(quantity),
            ("sphere Cd", "Cd" | "Cd any sphere law") => SPHERE.drag_coefficient(self.number("Re")),
            ("fly Cd", "Cd") => {
                Shape::of_sphericity(self.number("sphericity")).drag_coefficient(self.number("Re"))
            }
            ("cylinder Cd", "Cd") => across(self.number("Re")),
            ("tangential k", "k_t") => {
                along(self.number("un") * self.number("d_mm") * 1e-3 / self.number("nu"))
            }
            ("terminal speed", "m/s") => self.terminal_speed(),
            ("bead mass", "g") => self.bead_mass(),
            ("line weight", "wet mN/m at 999.7 kg/m3") => self.line_weight(),
            ("steady", "c m/s") => self.free_drift(),
            // Coefficients that do not follow from the flow cannot be asked for through a drift.
            ("steady", "x" | "z" | "T" | "deg from stream") => return Judged::InsideTheCrate,
            ("transient", "time_s") => self.sink_time(),
            ("sag", quantity) => self.sag(quantity),
            ("load", quantity) => self.load(quantity),
            (area, quantity) => panic!("{}: nothing judges {quantity} of {area}", self.id),
        };
        Judged::Value(value)
    }

    fn water(&self, quantity: &str) -> f64 {
        let fluid = fluid(self.number("T_C"));
        match quantity {
            "density kg/m3" | "density kg/m3 by Kell 1975" => fluid.density().value,
            "dynamic viscosity Pa s" | "viscosity by Kestin 1978" => fluid.viscosity().value,
            other => panic!("{}: nothing judges {other} of water", self.id),
        }
    }

    fn profile(&self, quantity: &str) -> f64 {
        // Only the ratio of depth to grain counts.
        let over_mean = |depth_ratio: f64| {
            let (depth, one) = (metres(self.number("h_over_ks")), speed(1.0));
            let profile = Profile::over_bed_by_mean(depth, one, metres(1.0));
            profile.at(depth * (1.0 - depth_ratio)).value
        };
        let given = || {
            let (depth, grain) = (metres(self.number("depth")), metres(self.number("ks")));
            Profile::over_bed(depth, speed(self.number("surface")), grain)
        };
        match quantity {
            "u/mean" => over_mean(self.number("depth_ratio")),
            "(u0.2+u0.8)/2/mean" => (over_mean(0.2) + over_mean(0.8)) / 2.0,
            "u0.6/mean" => over_mean(0.6),
            "h/ks" => grains_deep(self.number("mean_over_surface")),
            "u m/s" => {
                let height = metres(self.number("depth") * (1.0 - self.number("depth_ratio")));
                given().at(height).value
            }
            "depth mean m/s" => given().mean().value,
            other => panic!("{}: nothing judges {other} of a profile", self.id),
        }
    }

    fn ball(&self, bore: f64) -> Fly {
        let bore = Ratio::new::<ratio>(bore);
        Fly::ball(
            metres(self.number("bead_mm") * 1e-3),
            bore,
            density(self.number("density")),
        )
    }

    fn terminal_speed(&self) -> f64 {
        assert_eq!(self.word("form"), "solid sphere", "{}", self.id);
        let sinks = self.ball(0.0).sinks(&fluid(self.number("temp_C")));
        sinks.expect("it sinks").value
    }

    /// In grams, from what it weighs under water.
    fn bead_mass(&self) -> f64 {
        let (fluid, material) = (fluid(self.number("temp_C")), self.number("density"));
        let weight = self
            .ball(self.number("bore_fraction"))
            .wet_weight(&fluid)
            .get::<newton>();
        let outweighs = material - fluid.density().get::<kilogram_per_cubic_meter>();
        weight / GRAVITY * material / outweighs * 1e3
    }

    /// In millinewtons on a metre, from what a metre adds to the load of a line that hangs in still water.
    fn line_weight(&self) -> f64 {
        let (diameter, material) = (
            metres(self.number("d_mm") * 1e-3),
            density(self.number("density")),
        );
        let in_air = Air::new(
            &[Strand::new(metres(1.0), diameter, material)],
            From::Tip,
            metres(1.0),
            metres(1.0),
        );
        let curve = in_air.and_then(|air| air.under(Force::new::<newton>(1.0)));
        let curve = curve.expect("it spans a metre");
        let in_air = (curve.at_tip - curve.at_entry).get::<newton>() / curve.length.get::<meter>() * 1e3;
        let air_off = (in_air / self.number("air_mN_per_m") - 1.0).abs();
        assert!(air_off < 1e-9, "{}: in air off by {air_off:e}", self.id);

        let fluid = fluid_of_density(999.7);
        let point = Fly::ball(metres(1e-4), Ratio::new::<ratio>(0.0), density(5000.0));
        let still = Stream {
            profile: Profile::even(metres(2.0), speed(0.0)),
            fluid,
        };
        let tackle = Tackle::new(
            point,
            vec![Strand::new(metres(1.0), diameter, material)],
            Vec::new(),
        );
        let hangs = drift(
            &tackle.expect("it has sizes"),
            &still,
            Under::Length(metres(1.0)),
            Lead::Free,
        );
        (hangs.expect("it hangs").load - point.wet_weight(&fluid)).get::<newton>() * 1e3
    }

    fn example(&self) -> Given {
        given::read(&own_folder().join(format!("{}.in.json", self.word("example"))))
    }

    fn free_drift(&self) -> f64 {
        let given = self.example();
        let drift = drift(&given.tackle(), &given.stream(), given.under(), Lead::Free);
        drift.expect("it drifts").speed.value
    }

    fn sink_time(&self) -> f64 {
        let given = self.example();
        assert_eq!(self.word("tags"), "ignored (fly at node)", "{}", self.id);
        let cast = match self.word("init") {
            "upstream" => Cast::Up,
            "downstream" => Cast::Down,
            other => panic!("{}: {other} is no way to land", self.id),
        };
        let (tackle, stream) = (given.tackle_without_tags(), given.stream());
        let lead = Lead::Speed(speed(self.number("top_speed")));
        let led = drift(&tackle, &stream, Under::Length(metres(self.number("L"))), lead);
        let longest = Time::new::<second>(12.0);
        let sunk = sink(&tackle, &stream, &led.expect("it drifts"), cast, 0.99, longest);
        let time = sunk.reaches(metres(self.number("depth_m")));
        time.expect("it gets there").value
    }

    fn sag(&self, quantity: &str) -> f64 {
        let tip = self.inputs.get("H").and_then(Value::as_f64).unwrap_or(0.0);
        let strand = Strand::new(
            metres(1.0),
            metres(self.number("d_mm") * 1e-3),
            density(self.number("density")),
        );
        let air = Air::new(&[strand], From::Tip, metres(self.number("D")), metres(tip));
        let air = air.expect("there is line in the air");
        let with_length = || -> Curve {
            let curve = air.with_length(metres(self.number("L")));
            curve.expect("the line is longer than its chord")
        };
        match quantity {
            "Th_N" => with_length().pull.get::<newton>(),
            "V_tip_N" => with_length().at_tip.get::<newton>(),
            "sag_m" => {
                let curve = air.under(Force::new::<newton>(self.number("Th")));
                curve.expect("it spans").sag.get::<meter>()
            }
            other => panic!("{}: nothing judges {other} of a sag", self.id),
        }
    }

    fn load(&self, quantity: &str) -> f64 {
        let sections: Vec<[f64; 5]> =
            serde_json::from_value(self.inputs["secs"].clone()).expect("five numbers each");
        let springs = sections.iter().map(|[length, diameter, modulus, ..]| {
            let area = Area::new::<square_meter>(PI / 4.0 * diameter * diameter);
            Spring::of_line(metres(*length), area, Pressure::new::<pascal>(*modulus)).expect("it has a size")
        });
        let spring = Spring::in_series(springs).expect("there is line");
        let strengths = sections.iter().map(|[.., test, knot]| {
            let share = |value: f64| Ratio::new::<ratio>(value);
            load::knotted(Force::new::<newton>(*test), share(1.0), share(*knot))
        });
        match (quantity, self.id.as_str()) {
            ("N/m", "k_series") => spring.stiffness().value,
            ("N", "break") => load::weakest(strengths).expect("there is line").1.value,
            ("N", "shock") => {
                let (run, fish) = (speed(self.number("v")), Mass::new::<kilogram>(self.number("m")));
                spring
                    .jolt(run, fish, Force::new::<newton>(self.number("T0")))
                    .value
            }
            (other, id) => panic!("{id}: nothing judges {other} of a load"),
        }
    }
}

fn speed(speed: f64) -> Velocity {
    Velocity::new::<meter_per_second>(speed)
}

fn fluid(celsius: f64) -> Fluid {
    Fluid::at(ThermodynamicTemperature::new::<degree_celsius>(celsius))
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

/// How many grains deep water of a mean over a surface speed is.
fn grains_deep(mean_over_surface: f64) -> f64 {
    let over = |grains: f64| Profile::mean_to_surface(metres(grains), metres(1.0)).value - mean_over_surface;
    halved(1.0, 1000.0, over, |grains| grains)
}

/// What is made of the place where a growing function is nothing.
fn halved<T>(mut low: f64, mut high: f64, of: impl Fn(f64) -> f64, made: impl Fn(f64) -> T) -> T {
    for _ in 0..60 {
        let middle = (low + high) / 2.0;
        if of(middle) < 0.0 {
            low = middle;
        } else {
            high = middle;
        }
    }
    made((low + high) / 2.0)
}
