//! The rigs of the reference as they are written, and as the crate's own parts.

#![allow(dead_code, reason = "each test reads its own part")]

pub mod solved;

use serde::Deserialize;
use serde::de::DeserializeOwned;
use serde_json::Value;
use snell_water::drift::{Lead, Under, drift};
use snell_water::fly::{Bead, Dressing, Hook, Parts, Timed, Wire};
use snell_water::leader::{Air, Reach, Wind};
use snell_water::load::{self, Spring};
use snell_water::sag;
use snell_water::sink::Cast;
use snell_water::{Float, Fluid, Fly, Hung, Profile, Rig, Strand, Stream, Tackle};
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

/// A rig of the reference that is kept with the crate.
pub fn example(name: &str) -> Given {
    read(&own_folder().join(format!("{name}.in.json")))
}

#[derive(Deserialize, Clone)]
pub struct Given {
    pub sections: Vec<Section>,
    pub flies: Vec<GivenFly>,
    pub water: GivenWater,
    pub drift: GivenDrift,
    pub transient: GivenSink,
    pub air: Option<GivenAir>,
    pub load: Option<Load>,
    pub float: Option<GivenFloat>,
    pub spread: Option<GivenSpread>,
}

#[derive(Deserialize, Clone)]
pub struct Section {
    pub length_m: f64,
    pub diameter_m: f64,
    pub density: f64,
}

#[derive(Deserialize, Clone)]
pub struct GivenFly {
    pub name: Option<String>,
    #[serde(default)]
    pub position_m: f64,
    /// A number, or a text such as `2/0`.
    pub hook: Option<Value>,
    pub dressing: Option<GivenDressing>,
    pub bead: Option<GivenBead>,
    pub wire: Option<GivenWire>,
    pub shot: Option<GivenShot>,
    pub mass_kg: Option<f64>,
    pub sinks_mps: Option<f64>,
    pub tag_length_m: Option<f64>,
    pub tag_diameter_m: Option<f64>,
    pub tag_density: Option<f64>,
}

/// By its name, or by its shares.
#[derive(Deserialize, Clone)]
#[serde(untagged)]
pub enum GivenDressing {
    Named(String),
    Shares { bulk: f64, solid: f64, fibres: f64 },
}

#[derive(Deserialize, Clone)]
pub struct GivenBead {
    pub diameter_m: f64,
    pub density: f64,
    pub fill: Option<f64>,
}

#[derive(Deserialize, Clone)]
pub struct GivenWire {
    pub diameter_m: f64,
    pub density: f64,
    pub turns: f64,
}

#[derive(Deserialize, Clone)]
pub struct GivenShot {
    pub mass_kg: f64,
    pub density: f64,
}

#[derive(Deserialize, Clone)]
pub struct GivenWater {
    pub depth_m: f64,
    pub surface_speed_mps: f64,
    pub ks_m: f64,
    pub temp_c: f64,
    pub kind: Option<String>,
}

#[derive(Deserialize, Clone)]
pub struct GivenDrift {
    pub submerged_length_m: Option<f64>,
    pub point_depth_m: Option<f64>,
    #[serde(rename = "horizontal_force_N")]
    pub pull: Option<f64>,
    pub c_mps: Option<f64>,
    pub c_share: Option<f64>,
}

#[derive(Deserialize, Clone)]
pub struct GivenSink {
    pub nodes: usize,
    pub t_end_s: f64,
    pub init: String,
}

#[derive(Deserialize, Clone)]
pub struct GivenAir {
    pub tip_height_m: f64,
    pub entry_distance_m: f64,
    pub allowed_sag_m: Option<f64>,
    pub side: Option<String>,
    pub wind: Option<GivenWind>,
}

#[derive(Deserialize, Clone)]
pub struct GivenWind {
    pub speed_mps: f64,
    pub blows: String,
    pub at_m: Option<f64>,
}

#[derive(Deserialize, Clone)]
#[serde(untagged)]
pub enum GivenFloat {
    Dry { dry: f64 },
    Ball { diameter_m: f64, density: f64 },
}

#[derive(Deserialize, Clone)]
pub struct GivenSpread {
    pub off_bed_m: f64,
    #[serde(default)]
    pub variants: std::collections::BTreeMap<String, serde_json::Map<String, Value>>,
}

#[derive(Deserialize, Clone)]
pub struct Load {
    pub sections: Vec<Loaded>,
    pub v_mps: f64,
    pub mass_kg: f64,
    #[serde(rename = "T0_N")]
    pub before: f64,
}

#[derive(Deserialize, Clone)]
pub struct Loaded {
    pub length_m: f64,
    pub diameter_m: f64,
    #[serde(rename = "E_Pa")]
    pub modulus: f64,
    #[serde(rename = "test_N")]
    pub test: f64,
    pub knot_eff: f64,
}

pub fn metres(length: f64) -> Length {
    Length::new::<meter>(length)
}

pub fn speed(speed: f64) -> Velocity {
    Velocity::new::<meter_per_second>(speed)
}

pub fn force(force: f64) -> Force {
    Force::new::<newton>(force)
}

pub fn grams(mass: f64) -> Mass {
    Mass::new::<kilogram>(mass * 1e-3)
}

pub fn density(density: f64) -> MassDensity {
    MassDensity::new::<kilogram_per_cubic_meter>(density)
}

pub fn fluid(celsius: f64) -> Fluid {
    Fluid::at(ThermodynamicTemperature::new::<degree_celsius>(celsius))
}

pub fn air(celsius: f64) -> Air {
    Air::at(ThermodynamicTemperature::new::<degree_celsius>(celsius))
}

/// A solid ball of lead, which is a fly without any doubt about its shape.
pub fn ball(grams_of_it: f64) -> Fly {
    Fly::shot(grams(grams_of_it), density(11_340.0)).expect("it has a mass")
}

/// A hook by a number, or by a text such as `2/0`.
pub fn hook(size: &Value) -> Hook {
    let text = size.as_str().map_or_else(|| size.to_string(), str::to_owned);
    match text.split_once("/0") {
        Some((noughts, _)) => Hook::of_noughts(noughts.parse().expect("a number of noughts")),
        None => Hook::of_size(text.parse().expect("a size")),
    }
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

impl GivenDressing {
    fn dressing(&self) -> Dressing {
        match self {
            Self::Named(name) => Dressing::named(name).expect("a dressing"),
            Self::Shares { bulk, solid, fibres } => Dressing {
                bulk: *bulk,
                solid: *solid,
                fibres: *fibres,
            },
        }
    }
}

impl GivenFly {
    pub fn fly(&self, water: &Fluid) -> Fly {
        if let Some(shot) = &self.shot {
            return Fly::shot(grams(shot.mass_kg * 1e3), density(shot.density)).expect("it has a mass");
        }
        let parts = Parts {
            hook: self.hook.as_ref().map(hook),
            bead: self.bead.as_ref().map(|bead| Bead {
                diameter: metres(bead.diameter_m),
                density: density(bead.density),
                fill: bead.fill.unwrap_or(Bead::BORED),
            }),
            wire: self.wire.as_ref().map(|wire| Wire {
                diameter: metres(wire.diameter_m),
                density: density(wire.density),
                turns: wire.turns,
            }),
            dressing: self.dressing.as_ref().map(GivenDressing::dressing),
            weighed: self.mass_kg.map(|mass| grams(mass * 1e3)),
            timed: self.sinks_mps.map(|at| Timed {
                speed: speed(at),
                water: *water,
            }),
        };
        Fly::tied(&parts).expect("its parts have sizes")
    }

    fn tag(&self) -> Option<Strand> {
        let (length, diameter) = self.tag_length_m.zip(self.tag_diameter_m)?;
        let material = density(self.tag_density.unwrap_or(1780.0));
        (length > 0.0).then(|| Strand::new(metres(length), metres(diameter), material))
    }
}

impl Given {
    pub fn fluid(&self) -> Fluid {
        fluid(self.water.temp_c)
    }

    pub fn stream(&self) -> Stream {
        let water = &self.water;
        let surface = speed(water.surface_speed_mps);
        let profile = match water.kind.as_deref() {
            Some("uniform") => Profile::even(metres(water.depth_m), surface),
            _ => Profile::over_bed(metres(water.depth_m), surface, metres(water.ks_m)),
        };
        Stream {
            profile,
            fluid: self.fluid(),
        }
    }

    pub fn tackle(&self) -> Tackle {
        self.tackle_with(GivenFly::tag)
    }

    pub fn tackle_without_tags(&self) -> Tackle {
        self.tackle_with(|_| None)
    }

    fn tackle_with(&self, tag: impl Fn(&GivenFly) -> Option<Strand>) -> Tackle {
        let water = self.fluid();
        let (mut above, mut point) = (Vec::new(), None);
        for fly in &self.flies {
            if fly.position_m == 0.0 && point.is_none() {
                point = Some(fly.fly(&water));
            } else {
                above.push(Hung {
                    fly: fly.fly(&water),
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

    pub fn float(&self) -> Option<Float> {
        let water = self.fluid();
        self.float.as_ref().map(|float| match float {
            GivenFloat::Dry { dry } => Float::dry(&Hook::of_size(*dry), &water).expect("it floats"),
            GivenFloat::Ball {
                diameter_m,
                density: of,
            } => Float::ball(metres(*diameter_m), density(*of), &water).expect("it floats"),
        })
    }

    pub fn lead(&self) -> Lead {
        let drift = &self.drift;
        if let Some(float) = self.float() {
            return Lead::Float(float);
        }
        match (drift.c_mps, drift.c_share, drift.pull) {
            (Some(at), _, _) => Lead::Speed(speed(at)),
            (None, Some(share), _) => Lead::Share(Ratio::new::<ratio>(share)),
            (None, None, Some(pull)) if pull != 0.0 => Lead::Pull(force(pull)),
            (None, None, _) => Lead::Free,
        }
    }

    /// The whole of it; by the line that holds its point where it is, if it is given so.
    pub fn rig(&self) -> Rig {
        self.rig_of(self.tackle())
    }

    /// The reference leaves tags out of its sinks: a fly hangs where its tag is tied.
    pub fn rig_without_tags(&self) -> Rig {
        Rig {
            tackle: self.tackle_without_tags(),
            ..self.rig()
        }
    }

    fn rig_of(&self, tackle: Tackle) -> Rig {
        let (stream, lead) = (self.stream(), self.lead());
        let length = match self.under() {
            Under::Length(length) => length,
            off_bed @ Under::PointOffBed(_) => {
                let drift = drift(&tackle, &stream, off_bed, lead).expect("it drifts");
                drift.submerged
            }
        };
        Rig {
            tackle,
            stream,
            length,
            lead,
            cast: self.cast(),
        }
    }

    pub fn cast(&self) -> Cast {
        match self.transient.init.as_str() {
            "pile" => Cast::Tuck,
            "upstream" => Cast::Up,
            "downstream" => Cast::Down,
            other => panic!("{other} is no way to land"),
        }
    }

    /// Where the tip is in the air that does nothing.
    pub fn reach(&self) -> Option<Reach> {
        let air = self.air.as_ref()?;
        let sign = match air.side.as_deref() {
            None | Some("up") => -1.0,
            Some("down") => 1.0,
            Some(other) => panic!("{other} is no side"),
        };
        Some(Reach {
            along: metres(sign * air.entry_distance_m),
            tip: metres(air.tip_height_m),
            wind: None,
        })
    }

    /// The same in the wind that blows so.
    pub fn reach_in(&self, wind: Option<(f64, &str)>) -> Option<Reach> {
        let reach = self.reach()?;
        let wind = wind.map_or(Wind::calm(air(15.0)), |(at, blows)| {
            let [along, across] = match blows {
                "up" => [-1.0, 0.0],
                "down" => [1.0, 0.0],
                "beam" | "in" | "out" => [0.0, 1.0],
                other => panic!("{other} is no way to blow"),
            };
            let height = self.air.as_ref().and_then(|air| air.wind.as_ref()?.at_m);
            let height = height.map_or(reach.tip, metres);
            Wind::new(speed(at * along), speed(at * across), height, air(15.0))
        });
        Some(Reach {
            wind: Some(wind),
            ..reach
        })
    }

    /// The line in the air, whose sections are counted from the tip.
    pub fn line_in_air(&self) -> sag::Air {
        let strands: Vec<Strand> = self.sections.iter().map(Section::strand).collect();
        let air = self.air.as_ref().expect("it has a reach");
        let (reach, tip) = (metres(air.entry_distance_m), metres(air.tip_height_m));
        sag::Air::new(&strands, sag::From::Tip, reach, tip).expect("there is line in the air")
    }
}

impl Load {
    /// All its line as one spring, and its weakest place.
    pub fn springs(&self) -> (Spring, (usize, Force)) {
        let spring = |line: &Loaded| {
            let area = Area::new::<square_meter>(PI / 4.0 * line.diameter_m * line.diameter_m);
            let modulus = Pressure::new::<pascal>(line.modulus);
            Spring::of_line(metres(line.length_m), area, modulus).expect("it has a size")
        };
        let strength = |line: &Loaded| {
            let share = |value: f64| Ratio::new::<ratio>(value);
            load::knotted(force(line.test), share(1.0), share(line.knot_eff))
        };
        let all = Spring::in_series(self.sections.iter().map(spring)).expect("there is line");
        (
            all,
            load::weakest(self.sections.iter().map(strength)).expect("there is line"),
        )
    }
}
