//! What the rigs of the reference come to.

use serde::Deserialize;
use serde_json::Value;

#[derive(Deserialize)]
pub struct Solved {
    pub water: Water,
    pub profile: Profile,
    pub flies: Vec<Fly>,
    pub line: Vec<Line>,
    pub steady: Steady,
    pub transient: Option<Sink>,
    pub air: Option<Air>,
    pub sag: Option<Sag>,
    pub load: Option<Load>,
    pub spread: Option<Value>,
}

#[derive(Deserialize)]
pub struct Water {
    pub density: f64,
    pub viscosity: f64,
}

#[derive(Deserialize)]
pub struct Profile {
    pub mean: f64,
    pub at: Vec<At>,
}

#[derive(Deserialize)]
pub struct At {
    pub depth_ratio: f64,
    pub u: f64,
}

#[derive(Deserialize)]
pub struct Fly {
    pub gape_m: Option<f64>,
    pub shank_m: Option<f64>,
    pub wire_m: Option<f64>,
    pub body_diameter_m: Option<f64>,
    pub body_length_m: Option<f64>,
    pub hook_mass_kg: Option<f64>,
    pub bead_mass_kg: Option<f64>,
    pub dressing_mass_kg: Option<f64>,
    pub mass_kg: f64,
    pub volume_m3: f64,
    #[serde(rename = "wet_weight_N")]
    pub wet_weight: f64,
    #[serde(rename = "wet_weight_behind_bead_N")]
    pub behind_bead: f64,
    pub cos_psi: f64,
    pub drag_area_broadside_m2: f64,
    pub drag_area_headfirst_m2: f64,
    pub drag_scale: f64,
    pub terminal_mps: f64,
}

#[derive(Deserialize)]
pub struct Line {
    #[serde(rename = "wet_N_per_m")]
    pub wet: f64,
    #[serde(rename = "air_N_per_m")]
    pub in_air: f64,
}

#[derive(Deserialize)]
pub struct Steady {
    pub zf: f64,
    pub c_mps: f64,
    #[serde(rename = "bed_reaction_N")]
    pub borne: f64,
    pub submerged_length_m: f64,
    #[serde(rename = "H_top_N")]
    pub pull: f64,
    #[serde(rename = "V_top_N")]
    pub load: f64,
    pub flies: Vec<SteadyFly>,
    pub kind: String,
    pub float: Option<Afloat>,
    #[serde(default)]
    pub states: Vec<State>,
}

#[derive(Deserialize)]
pub struct SteadyFly {
    pub depth_m: f64,
    pub offset_from_entry_m: f64,
}

#[derive(Deserialize)]
pub struct Afloat {
    pub immersed_m: f64,
    pub lift_used: f64,
    pub drowned: bool,
    pub slip: f64,
}

#[derive(Deserialize)]
pub struct State {
    pub kind: String,
    pub stable: bool,
    pub zf: f64,
    pub c_mps: f64,
    #[serde(rename = "H_top_N")]
    pub pull: f64,
    #[serde(rename = "V_top_N")]
    pub load: f64,
    #[serde(rename = "bed_reaction_N")]
    pub borne: f64,
}

#[derive(Deserialize)]
pub struct Sink {
    pub targets: Vec<Target>,
    #[serde(default)]
    pub simple: Vec<Target>,
}

#[derive(Deserialize)]
pub struct Target {
    pub depth_m: f64,
    /// Nothing where it does not get there.
    pub time_s: Option<f64>,
}

#[derive(Deserialize)]
pub struct Air {
    pub led: Option<Led>,
    pub still: Option<Still>,
    pub across: Option<Across>,
    pub wind: Option<Value>,
}

#[derive(Deserialize)]
pub struct Led {
    pub point_depth_m: Option<f64>,
    pub c_mps: Option<f64>,
    #[serde(rename = "H_N")]
    pub pull: Option<f64>,
    #[serde(rename = "V_N")]
    pub load: Option<f64>,
    pub kind: Option<String>,
    pub line_in_air_m: Option<f64>,
    #[serde(default)]
    pub sink: Vec<Target>,
}

#[derive(Deserialize)]
pub struct Still {
    pub point_depth_m: Option<f64>,
    #[serde(rename = "H_N")]
    pub pull: Option<f64>,
    pub kind: Option<String>,
    pub comes_to_rest_downstream_m: Option<f64>,
}

#[derive(Deserialize)]
pub struct Across {
    pub speed_mps: Option<f64>,
    pub point_depth_m: Option<f64>,
}

#[derive(Deserialize)]
pub struct Sag {
    #[serde(rename = "Th_N")]
    pub pull: f64,
    pub length_m: f64,
    pub lateral: Lateral,
}

#[derive(Deserialize)]
pub struct Lateral {
    pub speed_mps: f64,
    pub point_depth_m: f64,
}

#[derive(Deserialize)]
pub struct Load {
    pub k_series: f64,
    pub weakest: usize,
    #[serde(rename = "break_N")]
    pub break_newton: f64,
    #[serde(rename = "shock_T_N")]
    pub shock: f64,
    pub elongation_at_break_m: f64,
    #[serde(rename = "energy_to_break_J")]
    pub energy_to_break: f64,
    pub v_break_mps: f64,
}
