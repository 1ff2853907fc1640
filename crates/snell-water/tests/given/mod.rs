//! The rigs of the reference as they are written, and as the crate's own parts.

#![allow(dead_code, reason = "each test reads its own part")]

use serde::Deserialize;
use serde::de::DeserializeOwned;
use snell_water::drift::{Drift, Lead, NoDrift, Under, drift};
use snell_water::load::{self, Spring};
use snell_water::sag;
use snell_water::{Fluid, Fly, Hung, Profile, Strand, Stream, Tackle};
use std::f64::consts::PI;
use std::path::{Path, PathBuf};
use std::{env, fs};
use uom::si::area::square_meter;
use uom::si::f64::*;
use uom::si::force::newton;
use uom::si::length::meter;
use uom::si::mass::kilogram;
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::thermodynamic_temperature::degree_celsius;
use uom::si::velocity::meter_per_second;
use uom::si::volume::cubic_meter;

/// Where the reference lies that is kept with the crate.
pub fn own_folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/data")
}

/// Where the reference lies.
pub fn folder() -> PathBuf {
    env::var_os("SNELL_REFERENCE").map_or_else(own_folder, PathBuf::from)
}

/// A file of it.
pub fn read<T: DeserializeOwned>(path: &Path) -> T {
    let text = fs::read_to_string(path).unwrap_or_else(|error| panic!("{}: {error}", path.display()));
    serde_json::from_str(&text).unwrap_or_else(|error| panic!("{}: {error}", path.display()))
}

#[derive(Deserialize)]
pub struct Given {
    pub sections: Vec<Section>,
    pub flies: Vec<GivenFly>,
    pub water: GivenWater,
    pub drift: GivenDrift,
    pub transient: GivenSink,
    pub air: Air,
    pub load: Load,
}

#[derive(Deserialize)]
pub struct Section {
    pub length_m: f64,
    pub diameter_m: f64,
    pub density: f64,
}

#[derive(Deserialize)]
pub struct GivenFly {
    pub position_m: f64,
    pub mass_kg: f64,
    pub volume_m3: f64,
    pub diameter_m: f64,
    pub sphericity: f64,
    pub tag_length_m: Option<f64>,
    pub tag_diameter_m: Option<f64>,
    pub tag_density: Option<f64>,
}

#[derive(Deserialize)]
pub struct GivenWater {
    pub depth_m: f64,
    pub surface_speed_mps: f64,
    pub ks_m: f64,
    pub temp_c: f64,
    pub kind: Option<String>,
}

#[derive(Deserialize)]
pub struct GivenDrift {
    pub submerged_length_m: Option<f64>,
    pub point_depth_m: Option<f64>,
    #[serde(rename = "horizontal_force_N")]
    pub pull: Option<f64>,
    pub c_mps: Option<f64>,
}

#[derive(Deserialize)]
pub struct GivenSink {
    pub nodes: usize,
    pub t_end_s: f64,
    pub init: String,
}

#[derive(Deserialize)]
pub struct Air {
    pub tip_height_m: f64,
    pub entry_distance_m: f64,
    pub allowed_sag_m: f64,
}

#[derive(Deserialize)]
pub struct Load {
    pub sections: Vec<Loaded>,
    pub v_mps: f64,
    pub mass_kg: f64,
    #[serde(rename = "T0_N")]
    pub before: f64,
}

#[derive(Deserialize)]
pub struct Loaded {
    pub length_m: f64,
    pub diameter_m: f64,
    #[serde(rename = "E_Pa")]
    pub modulus: f64,
    #[serde(rename = "test_N")]
    pub test: f64,
    pub knot_eff: f64,
}

#[derive(Deserialize)]
pub struct Solved {
    pub water: SolvedWater,
    pub profile: SolvedProfile,
    pub flies: Vec<SolvedFly>,
    pub steady: Steady,
    pub transient: Transient,
    pub sag: Sag,
    pub load: SolvedLoad,
}

#[derive(Deserialize)]
pub struct SolvedWater {
    pub density: f64,
    pub viscosity: f64,
}

#[derive(Deserialize)]
pub struct SolvedProfile {
    pub mean: f64,
    pub at: Vec<At>,
}

#[derive(Deserialize)]
pub struct At {
    pub depth_ratio: f64,
    pub u: f64,
}

#[derive(Deserialize)]
pub struct SolvedFly {
    #[serde(rename = "wet_weight_N")]
    pub wet_weight_newton: f64,
    pub terminal_mps: f64,
}

#[derive(Deserialize)]
pub struct Steady {
    pub c_mps: f64,
    pub submerged_length_m: f64,
    pub bed_contact: bool,
    #[serde(rename = "H_top_N")]
    pub pull_newton: f64,
    #[serde(rename = "V_top_N")]
    pub load_newton: f64,
    pub flies: Vec<SteadyFly>,
}

#[derive(Deserialize)]
pub struct SteadyFly {
    pub depth_m: f64,
    pub offset_from_entry_m: f64,
}

#[derive(Deserialize)]
pub struct Transient {
    pub targets: Vec<Target>,
    pub simple: Vec<Target>,
}

#[derive(Deserialize)]
pub struct Target {
    pub depth_m: f64,
    pub time_s: f64,
}

#[derive(Deserialize)]
pub struct Sag {
    #[serde(rename = "Th_N")]
    pub pull: f64,
    pub length_m: f64,
    pub sag_m: f64,
    pub lateral: Lateral,
    pub coupled_lateral: Coupled,
    pub coupled_upstream: Coupled,
}

#[derive(Deserialize)]
pub struct Lateral {
    pub speed_mps: f64,
    pub point_depth_m: f64,
}

#[derive(Deserialize)]
pub struct Coupled {
    #[serde(rename = "H_N")]
    pub pull: f64,
    pub drift_speed_mps: f64,
    pub point_depth_m: f64,
    pub line_out_m: f64,
    pub sag_m: f64,
}

#[derive(Deserialize)]
pub struct SolvedLoad {
    pub k_series: f64,
    pub weakest: usize,
    #[serde(rename = "break_N")]
    pub break_newton: f64,
    #[serde(rename = "shock_T_N")]
    pub shock: f64,
    pub elongation_at_break_m: f64,
    #[serde(rename = "energy_to_break_J")]
    pub energy_to_break_joule: f64,
    pub v_break_mps: f64,
}

pub fn metres(length: f64) -> Length {
    Length::new::<meter>(length)
}

pub fn density(density: f64) -> MassDensity {
    MassDensity::new::<kilogram_per_cubic_meter>(density)
}

impl Section {
    pub fn strand(&self) -> Strand {
        Strand::new(
            metres(self.length_m),
            metres(self.diameter_m),
            density(self.density),
        )
    }
}

impl GivenFly {
    pub fn fly(&self) -> Fly {
        let mass = Mass::new::<kilogram>(self.mass_kg);
        let volume = Volume::new::<cubic_meter>(self.volume_m3);
        Fly::new(mass, volume, metres(self.diameter_m), self.sphericity)
    }

    fn tag(&self) -> Option<Strand> {
        let (length, diameter) = self.tag_length_m.zip(self.tag_diameter_m)?;
        (length > 0.0).then(|| {
            Strand::new(
                metres(length),
                metres(diameter),
                density(self.tag_density.unwrap_or(1780.0)),
            )
        })
    }
}

impl Given {
    pub fn stream(&self) -> Stream {
        let water = &self.water;
        let speed = Velocity::new::<meter_per_second>(water.surface_speed_mps);
        let profile = match water.kind.as_deref() {
            Some("uniform") => Profile::even(metres(water.depth_m), speed),
            _ => Profile::over_bed(metres(water.depth_m), speed, metres(water.ks_m)),
        };
        let temperature = ThermodynamicTemperature::new::<degree_celsius>(water.temp_c);
        Stream {
            profile,
            fluid: Fluid::at(temperature),
        }
    }

    pub fn tackle(&self) -> Tackle {
        self.tackle_with(GivenFly::tag)
    }

    pub fn tackle_without_tags(&self) -> Tackle {
        self.tackle_with(|_| None)
    }

    fn tackle_with(&self, tag: impl Fn(&GivenFly) -> Option<Strand>) -> Tackle {
        let (mut above, mut point) = (Vec::new(), None);
        for fly in &self.flies {
            if fly.position_m == 0.0 && point.is_none() {
                point = Some(fly.fly());
            } else {
                above.push(Hung {
                    fly: fly.fly(),
                    above_point: metres(fly.position_m),
                    tag: tag(fly),
                });
            }
        }
        let strands = self.sections.iter().rev().map(Section::strand).collect();
        Tackle::new(point.expect("a rig has a point"), strands, above).expect("its parts have sizes")
    }

    pub fn under(&self) -> Under {
        match (self.drift.submerged_length_m, self.drift.point_depth_m) {
            (Some(length), _) => Under::Length(metres(length)),
            (None, Some(depth)) => Under::PointOffBed(metres(self.water.depth_m - depth)),
            (None, None) => panic!("a drift is given by a length or a depth"),
        }
    }

    pub fn lead(&self) -> Lead {
        match (self.drift.c_mps, self.drift.pull) {
            (Some(speed), _) => Lead::Speed(Velocity::new::<meter_per_second>(speed)),
            (None, Some(pull)) if pull != 0.0 => Lead::Pull(Force::new::<newton>(pull)),
            (None, _) => Lead::Free,
        }
    }

    /// The line in the air, whose sections are counted from the tip.
    pub fn air(&self) -> sag::Air {
        let strands: Vec<Strand> = self.sections.iter().map(Section::strand).collect();
        let (reach, tip) = (metres(self.air.entry_distance_m), metres(self.air.tip_height_m));
        sag::Air::new(&strands, sag::From::Tip, reach, tip).expect("there is line in the air")
    }

    /// All its line as one spring, and its weakest place.
    pub fn springs(&self) -> (Spring, (usize, Force)) {
        let spring = |line: &Loaded| {
            let area = Area::new::<square_meter>(PI / 4.0 * line.diameter_m * line.diameter_m);
            let modulus = Pressure::new::<pascal>(line.modulus);
            Spring::of_line(metres(line.length_m), area, modulus).expect("it has a size")
        };
        let strength = |line: &Loaded| {
            let share = |value: f64| Ratio::new::<ratio>(value);
            load::knotted(Force::new::<newton>(line.test), share(1.0), share(line.knot_eff))
        };
        let lines = &self.load.sections;
        let all = Spring::in_series(lines.iter().map(spring)).expect("there is line");
        (
            all,
            load::weakest(lines.iter().map(strength)).expect("there is line"),
        )
    }

    pub fn drift(&self) -> Result<Drift, NoDrift> {
        drift(&self.tackle(), &self.stream(), self.under(), self.lead())
    }
}
