//! A rig's drift and its sink as they are shown: the water that was taken, the
//! steady state, and the depths of the flies over time.
//!
//! Another depth, speed or temperature than the rig's may be asked for; it is
//! read as the language reads it.

mod in_water;
pub mod instead;
mod picture;

pub use in_water::draw_in_water;
pub use instead::Instead;

use super::{ShownAssumed, Units, Written, file_of, told_needs};
use indexmap::IndexMap;
use serde::Serialize;
use snell_analysis::Notebook;
use snell_analysis::rigs;
use snell_rig::blocks::Water;
use snell_rig::faults::Faults;
use snell_rig::keywords::{Cast, PartKind, SpeedOf};
use snell_rig::measure::{self, Drifting, Sinking, Thing};
use snell_rig::project::BlockRef;
use snell_rig::value::Value;
use snell_rig::{Evaluation, World};
use snell_units::{Dimension, System};

/// A rig in its water.
#[derive(Clone, Debug, Serialize)]
pub struct ShownDrift {
    /// The rig's name.
    pub name: String,
    /// Its title for people.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub title: Option<String>,
    /// The file that it stands in.
    pub file: String,
    /// What was taken of the water and the rig.
    pub inputs: IndexMap<&'static str, Written>,
    /// How it comes to drift; nothing where it does not.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub steady: Option<Steady>,
    /// How it gets there; nothing where there is no drift.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub sink: Option<ShownSink>,
    /// What was taken because the rig leaves it unsaid.
    pub assumed: Vec<ShownAssumed>,
    /// What is missing where there is no drift.
    pub needs: Vec<String>,
    /// The units that the rig is written in.
    #[serde(skip)]
    pub system: System,
}

/// The steady drift.
#[derive(Clone, Debug, Serialize)]
pub struct Steady {
    /// How fast the whole rig goes down the stream.
    pub speed: Written,
    /// The water's speed at the surface.
    pub surface: Written,
    /// Line under water.
    pub submerged: Written,
    /// The rig's own measures of the drift.
    pub measures: IndexMap<&'static str, Written>,
    /// The flies and shots, the point first.
    pub flies: Vec<ShownRide>,
    /// The line from the point to the surface, in metres: downstream of its entry, and depth.
    pub line: Vec<(f64, f64)>,
    /// The water, in metres and metres a second: height over the bed, and speed there.
    pub profile: Vec<(f64, f64)>,
}

/// How one fly rides.
#[derive(Clone, Debug, Serialize)]
pub struct ShownRide {
    /// Its name.
    pub name: String,
    /// Its depth.
    pub rides: Written,
    /// The depths between which it is with what is not known of drag and stream, in metres.
    pub between: (f64, f64),
    /// The lesser of them as it is written.
    #[serde(skip)]
    pub shallowest: String,
    /// The greater of them as it is written.
    #[serde(skip)]
    pub deepest: String,
    /// How high over the bed.
    pub off_bed: Written,
    /// Downstream of where the line enters the water; below nothing where upstream.
    pub ahead: Written,
    /// Its speed against the water beside it.
    pub lag: Written,
    /// Whether it is slower than that water; else it is dragged ahead.
    #[serde(skip)]
    pub slower: bool,
}

/// The sink.
#[derive(Clone, Debug, Serialize)]
pub struct ShownSink {
    /// How the flies were laid on the water.
    pub cast: &'static str,
    /// When the point is at nine tenths of its depth, where it gets there.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub down: Option<Written>,
    /// When it would be half way down if the flies sank straight, where that may be believed: a check of the
    /// series by another way.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub half_straight_down: Option<Written>,
    /// The series, in SI.
    pub moments: Vec<ShownMoment>,
}

/// A moment of the sink, in seconds and metres.
#[derive(Clone, Debug, Serialize)]
pub struct ShownMoment {
    /// Since the flies landed.
    pub time: f64,
    /// How far the line's entry has gone down the stream.
    pub entry: f64,
    /// Of each fly, in the order of the rides: its depth, and how far down the stream it is.
    pub flies: Vec<(f64, f64)>,
}

/// Heights at which the water's speed is told.
const PROFILE: usize = 20;
/// The sink is shown until the point is at this share of its depth.
const SHOWN_TO: f64 = 0.97;
/// Moments that are shown.
const MOMENTS: usize = 120;

/// The drifts of all rigs that `wanted` picks by name and file.
///
/// # Errors
/// What was wrong with what stands in [`Instead`].
pub fn drifts(
    notebook: &Notebook,
    units: Units,
    instead: &Instead,
    wanted: impl Fn(&str, &str) -> bool,
) -> Result<Vec<ShownDrift>, String> {
    let (project, text) = instead::beside(notebook, instead);
    let world = World::new(&project);
    if let Some(wrong) = instead::wrong(&world, text) {
        return Err(wrong);
    }
    let water = instead::other_water(&world, text);
    let own = rigs(&world)
        .into_iter()
        .filter(|block| block.source.file.text != text);
    let picked = own.filter(|block| wanted(&snell_rig::rig::name(*block), &file_of(notebook, *block)));
    Ok(picked
        .map(|block| one(notebook, &world, block, units, water, instead.cast))
        .collect())
}

/// The drift of one rig as it is written.
pub fn drift_of<'p>(notebook: &Notebook, world: &World<'p>, block: BlockRef<'p>, units: Units) -> ShownDrift {
    one(notebook, world, block, units, None, None)
}

fn one<'p>(
    notebook: &Notebook,
    world: &World<'p>,
    block: BlockRef<'p>,
    units: Units,
    water: Option<&Water>,
    cast: Option<Cast>,
) -> ShownDrift {
    let faults = Faults::default();
    let mut rig = snell_rig::rig::read(world, block, &faults);
    instead::instead_of(&mut rig, water, cast);
    let evaluation = Evaluation::new(world, &rig);
    let teller = Teller {
        evaluation: &evaluation,
        units,
    };
    let solved = measure::drifting(&evaluation);
    let (steady, sink, needs) = match &solved {
        Ok(state) => {
            let sunk = measure::sinking_of(&evaluation, state, SHOWN_TO);
            (
                Some(teller.steady(state)),
                Some(teller.sink(state, &sunk)),
                Vec::new(),
            )
        }
        Err(lack) => (None, None, told_needs(&evaluation, lack)),
    };
    let inputs = teller.inputs(solved.as_deref().ok());
    ShownDrift {
        name: rig.name.clone(),
        title: rig.title().map(str::to_owned),
        file: file_of(notebook, block),
        inputs,
        steady,
        sink,
        assumed: ShownAssumed::all(&evaluation),
        needs,
        system: evaluation.system(),
    }
}

/// Writes the figures of one evaluation.
struct Teller<'e, 'w, 'p> {
    evaluation: &'e Evaluation<'w, 'p>,
    units: Units,
}

impl Teller<'_, '_, '_> {
    fn written(&self, value: &Value) -> Written {
        Written::of(value, self.units, self.evaluation)
    }

    fn plain(&self, si: f64, dimension: Dimension) -> Written {
        self.written(&Value::plain(si, dimension))
    }

    /// A length as finely as a drift can be told: to a centimetre or half an inch.
    fn coarse(&self, si: f64) -> Written {
        let step = match self.evaluation.system() {
            System::Metric => 0.01,
            System::Imperial => 0.0127,
        };
        let text = self.plain((si / step).round() * step, Dimension::LENGTH).text;
        Written {
            text,
            ..self.plain(si, Dimension::LENGTH)
        }
    }

    /// A speed in the units that the water's is written in.
    fn speed(&self, si: f64) -> Written {
        let water = self.evaluation.rig.settings.water.as_ref();
        let like = water.and_then(|water| water.value.speed.0.clone().ok());
        let value = Value::plain(si, Dimension::SPEED);
        self.written(&like.map_or(value, |like| like.with(si, Dimension::SPEED)))
    }

    fn measured(&self, name: &str, thing: Thing) -> Option<Written> {
        let measure = measure::of(thing.kind(), name)?;
        let value = self.evaluation.measure(measure, thing).ok()?;
        let written = self.written(&value);
        Some(match measure.off(self.evaluation, thing, &value) {
            Some(off) => written.within(off, &value, self.units, self.evaluation),
            None => written,
        })
    }

    fn inputs(&self, state: Option<&Drifting>) -> IndexMap<&'static str, Written> {
        let mut inputs = IndexMap::new();
        if let Some(water) = self
            .evaluation
            .rig
            .settings
            .water
            .as_ref()
            .map(|water| &water.value)
        {
            inputs.extend(
                water
                    .depth
                    .as_ref()
                    .ok()
                    .map(|depth| ("depth", self.written(depth))),
            );
            let which = match water.speed.1 {
                SpeedOf::Surface => "surface",
                SpeedOf::Mean => "mean",
            };
            inputs.extend(
                water
                    .speed
                    .0
                    .as_ref()
                    .ok()
                    .map(|speed| (which, self.written(speed))),
            );
            let temperature = water.temperature.as_ref().ok();
            inputs.extend(temperature.map(|temperature| ("temperature", self.written(temperature))));
        }
        if let Some(state) = state {
            inputs.insert("line", self.written(&state.line));
        }
        inputs
    }

    /// What a thing that hangs in the water is called.
    fn name(&self, thing: Thing) -> String {
        match thing {
            Thing::Fly(id) => self.evaluation.rig.chain.fly_name(id),
            Thing::Join(_) => PartKind::Swivel.word().to_owned(),
            Thing::Shot(_)
            | Thing::Rig
            | Thing::Section(_)
            | Thing::Dropper(_)
            | Thing::Gap(_)
            | Thing::Rod
            | Thing::Water => thing.kind().word().to_owned(),
        }
    }

    fn steady(&self, state: &Drifting) -> Steady {
        let between = state.depths_between(self.evaluation);
        let depth = state.stream.depth().value;
        let ride = |((thing, ride), between): ((&Thing, &snell_water::drift::Ride), &(f64, f64))| {
            let length = |si| self.coarse(si);
            ShownRide {
                name: self.name(*thing),
                rides: length(ride.depth.value.min(depth)),
                between: *between,
                shallowest: length(between.0).text,
                deepest: length(between.1).text,
                off_bed: length(ride.off_bed.value.max(0.0)),
                ahead: length(ride.ahead.value),
                lag: self.speed(ride.lag(state.drift.speed).value.abs()),
                slower: ride.lag(state.drift.speed).value > 0.0,
            }
        };
        let rides = state
            .things
            .iter()
            .zip(&state.drift.rides)
            .zip(&between)
            .map(ride);
        let told = ["tippet-needed", "sighter-clear", "sink-time", "sink-run"];
        let measures = told
            .into_iter()
            .filter_map(|name| Some((name, self.measured(name, Thing::Rig)?)));
        let at = |step: usize| {
            let height = state.stream.depth() * (step as f64 / PROFILE as f64);
            (height.value, state.stream.profile.at(height).value)
        };
        Steady {
            speed: self.speed(state.drift.speed.value),
            surface: self.speed(state.stream.profile.surface().value),
            submerged: self.coarse(state.drift.submerged.value),
            measures: measures.collect(),
            flies: rides.collect(),
            line: state
                .drift
                .line
                .iter()
                .map(|(along, height)| (along.value, depth - height.value))
                .collect(),
            profile: (0..=PROFILE).map(at).collect(),
        }
    }

    fn sink(&self, state: &Drifting, sunk: &Sinking) -> ShownSink {
        let every = sunk.sink.moments.len().div_ceil(MOMENTS).max(1);
        let last = sunk.sink.moments.len().saturating_sub(1);
        let kept = sunk
            .sink
            .moments
            .iter()
            .enumerate()
            .filter(|(index, _)| index % every == 0 || *index == last);
        let moment = |(_, moment): (usize, &snell_water::sink::Moment)| ShownMoment {
            time: moment.time.value,
            entry: moment.entry.value,
            flies: moment
                .depths
                .iter()
                .zip(&moment.along)
                .map(|(depth, along)| (depth.value, along.value))
                .collect(),
        };
        let time = |si| self.plain(si, Dimension::TIME);
        ShownSink {
            cast: match sunk.cast {
                snell_water::sink::Cast::Tuck => "tuck",
                snell_water::sink::Cast::Up => "up",
                snell_water::sink::Cast::Down => "down",
            },
            down: sunk.down.map(time),
            half_straight_down: self.straight_down(state).map(time),
            moments: kept.map(moment).collect(),
        }
    }

    /// Half way down by the closed form, where it holds.
    fn straight_down(&self, state: &Drifting) -> Option<f64> {
        let depth = state.drift.rides.first()?.depth * 0.5;
        let form =
            snell_water::sink::closed_form(&state.tackle, &state.stream, depth, state.drift.submerged)?;
        form.holds.then_some(form.time.value)
    }
}
