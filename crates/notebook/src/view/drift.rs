//! A rig's drift and its sink as they are shown: the water that was taken, the
//! steady state, and the depths of the flies over time.
//!
//! Another depth, speed or temperature than the rig's may be asked for; it is
//! read as the language reads it.

use super::{ShownAssumed, Units, Written, file_of};
use crate::check::rigs;
use crate::load::Notebook;
use indexmap::IndexMap;
use picture::sinking::{self, Sunk, SunkFly};
use picture::{Medium, Scene};
use report::Finding;
use rig::blocks::{Read, SpeedOf, Water};
use rig::measure::{self, Drifting, Sinking, Thing};
use rig::project::{BlockRef, Project, Source};
use rig::rig::{Rig, Stated};
use rig::value::{Faults, Lack, Value};
use rig::{Evaluation, World};
use serde::Serialize;
use std::sync::Arc;
use text::TextId;
use units::{Dimension, System};

/// What to take instead of what the rig says, each as the language writes it.
#[derive(Clone, Debug, Default)]
pub struct Instead {
    /// Another depth of the water.
    pub depth: Option<String>,
    /// Another speed of its surface.
    pub speed: Option<String>,
    /// Another temperature.
    pub temperature: Option<String>,
    /// Another way to lay the flies on the water.
    pub cast: Option<&'static str>,
}

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

/// The block in which what was asked for is read.
const HEAD: &str = "water asked-for\n";

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
    let (project, text) = beside(notebook, instead);
    let (world, findings) = World::new(&project);
    let head = HEAD.len() as u32;
    let reading = project
        .files()
        .flat_map(|file| &project.source(file).file.findings);
    let all = reading.chain(&findings);
    let wrong = |finding: &&Finding| finding.place().text == text && finding.place().span.start >= head;
    if let Some(finding) = all.into_iter().find(wrong) {
        return Err(told(finding));
    }
    let water = other_water(&world, text);
    let own = rigs(&world)
        .into_iter()
        .filter(|block| block.source.file.text != text);
    let picked = own.filter(|block| wanted(&rig::rig::name(*block), &file_of(notebook, *block)));
    Ok(picked
        .map(|block| one(notebook, &world, block, units, water, instead.cast))
        .collect())
}

/// The project with a water beside it that says what the command line says.
fn beside(notebook: &Notebook, instead: &Instead) -> (Project, TextId) {
    let mut project = notebook.project().clone();
    let text = TextId(notebook.documents().len() as u32);
    let mut lines = HEAD.to_owned();
    let said = [
        ("depth", &instead.depth),
        ("surface", &instead.speed),
        ("temperature", &instead.temperature),
    ];
    for (key, value) in said {
        if let Some(value) = value {
            lines.push_str(&format!("  {key} {}\n", value.replace(['\n', '\r'], " ")));
        }
    }
    let lines: Arc<str> = lines.into();
    let file = syntax::read(&lines, text, &syntax::whole(&lines));
    project.add(Source {
        name: "the command line".to_owned(),
        text: lines,
        file,
        uses: Vec::new(),
    });
    (project, text)
}

/// A finding in one line, without its place.
fn told(finding: &Finding) -> String {
    let help = finding.help.as_deref().map(|help| format!("; {help}"));
    format!("{}{}", finding.message, help.unwrap_or_default())
}

/// The water that was asked for.
fn other_water<'w>(world: &'w World<'_>, text: TextId) -> Option<&'w Water> {
    let project = world.project;
    let file = project
        .files()
        .find(|file| project.source(*file).file.text == text)?;
    project.blocks(file).find_map(|block| match world.read(block.id) {
        Read::Water(water) => Some(water),
        _ => None,
    })
}

/// Puts what was asked for in the place of what the rig says.
fn instead_of(rig: &mut Rig<'_>, other: Option<&Water>, cast: Option<&str>) {
    let place = rig.place();
    if let Some(cast) = cast {
        let value = cast.to_owned();
        rig.settings.cast = Some(Stated {
            value,
            place,
            block: None,
        });
    }
    let Some(other) = other else { return };
    if [&other.depth, &other.speed.0, &other.temperature]
        .iter()
        .all(|said| said.is_err())
    {
        return;
    }
    let own = rig.settings.water.take();
    let (block, mut value) = own.map_or_else(|| (None, other.clone()), |own| (own.block, own.value));
    if other.depth.is_ok() {
        value.depth = other.depth.clone();
    }
    if other.speed.0.is_ok() {
        value.speed = (other.speed.0.clone(), SpeedOf::Surface);
    }
    if other.temperature.is_ok() {
        value.temperature = other.temperature.clone();
    }
    rig.settings.water = Some(Stated { value, place, block });
}

fn one(
    notebook: &Notebook,
    world: &World<'_>,
    block: BlockRef<'_>,
    units: Units,
    water: Option<&Water>,
    cast: Option<&str>,
) -> ShownDrift {
    let faults = Faults::default();
    let mut rig = rig::rig::read(world, block, &faults);
    instead_of(&mut rig, water, cast);
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
        Err(lack) => (None, None, needs(lack)),
    };
    let inputs = teller.inputs(solved.as_deref().ok());
    ShownDrift {
        name: rig.name.clone(),
        title: rig.title().map(str::to_owned),
        file: file_of(notebook, block),
        inputs,
        steady,
        sink,
        assumed: evaluation.assumed().into_iter().map(ShownAssumed::from).collect(),
        needs,
        system: evaluation.system(),
    }
}

impl ShownDrift {
    /// Its picture; nothing where there is no drift.
    pub fn scene(&self, medium: Medium) -> Option<Scene> {
        let (steady, sink) = self.steady.as_ref().zip(self.sink.as_ref())?;
        let fly = |(index, ride): (usize, &ShownRide)| SunkFly {
            name: ride.name.clone(),
            rides: ride.told(),
            depth: ride.rides.value.unwrap_or_default(),
            between: ride.between,
            path: sink
                .moments
                .iter()
                .map(|moment| {
                    let (depth, along) = moment.flies[index];
                    (along, depth)
                })
                .collect(),
        };
        let flies: Vec<SunkFly> = steady.flies.iter().enumerate().map(fly).collect();
        let told = steady
            .flies
            .iter()
            .map(|ride| format!("{} rides {}", ride.name, ride.told()));
        let sunk = Sunk {
            name: self.name.clone(),
            system: self.system,
            depth: steady.profile.last().map_or(0.0, |(height, _)| *height),
            profile: steady.profile.clone(),
            surface: steady.surface.text.clone(),
            flies,
            about: format!("An estimate. {}.", told.collect::<Vec<_>>().join("; ")),
        };
        sinking::scene(&sunk, medium)
    }
}

impl ShownRide {
    /// How deep it rides, with the depths between which it may be.
    pub fn told(&self) -> String {
        format!("{} ({} to {})", self.rides.text, self.shallowest, self.deepest)
    }
}

fn needs(lack: &Lack) -> Vec<String> {
    match lack {
        Lack::Unknown(needs) => needs.iter().map(|need| need.what.clone()).collect(),
        Lack::Faulty => vec!["a fault to be mended".to_owned()],
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

    fn steady(&self, state: &Drifting) -> Steady {
        let between = state.depths_between(self.evaluation);
        let depth = state.stream.depth().value;
        let name = |thing: &Thing| match thing {
            Thing::Fly(index) => self.evaluation.rig.layout.fly_name(*index),
            _ => "shot".to_owned(),
        };
        let ride = |((thing, ride), between): ((&Thing, &water::drift::Ride), &(f64, f64))| {
            let length = |si| self.coarse(si);
            ShownRide {
                name: name(thing),
                rides: length(ride.depth.value.min(depth)),
                between: *between,
                shallowest: length(between.0).text,
                deepest: length(between.1).text,
                off_bed: length(ride.off_bed.value.max(0.0)),
                ahead: length(ride.ahead.value),
                lag: self.speed(ride.lag(state.drift.speed).value.abs()),
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
        let moment = |(_, moment): (usize, &water::sink::Moment)| ShownMoment {
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
                water::sink::Cast::Tuck => "tuck",
                water::sink::Cast::Up => "up",
                water::sink::Cast::Down => "down",
            },
            down: sunk.down.map(time),
            half_straight_down: self.straight_down(state).map(time),
            moments: kept.map(moment).collect(),
        }
    }

    /// Half way down by the closed form, where it holds.
    fn straight_down(&self, state: &Drifting) -> Option<f64> {
        let depth = state.drift.rides.first()?.depth * 0.5;
        let form = water::sink::closed_form(&state.tackle, &state.stream, depth, state.drift.submerged)?;
        form.holds.then_some(form.time.value)
    }
}
