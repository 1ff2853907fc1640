//! Values of a drift as they are written.

use crate::drift::shown::{HangsOn, ShownMoment, ShownRide, ShownSink, Steady};
use crate::shower::written;
use crate::verdict::chances::remedy;
use crate::written::{Units, Written};
use indexmap::IndexMap;
use snell_picture::scene::MarkKind;
use snell_rig::Evaluation;
use snell_rig::keywords::{PartKind, SpeedOf};
use snell_rig::measure::{self, Drifting, Sinking, Thing};
use snell_rig::value::Value;
use snell_units::{Dimension, System};

/// Writes the figures of one evaluation.
pub(super) struct Teller<'e, 'w, 'p> {
    pub(super) evaluation: &'e Evaluation<'w, 'p>,
    pub(super) units: Units,
}

impl Teller<'_, '_, '_> {
    /// The system of units that is shown.
    pub(super) fn system(&self) -> System {
        self.units.shown(self.evaluation.system())
    }

    pub(super) fn written(&self, value: &Value) -> Written {
        Written::of(value, self.units, self.evaluation)
    }

    pub(super) fn plain(&self, si: f64, dimension: Dimension) -> Written {
        self.written(&Value::plain(si, dimension))
    }

    /// A length as finely as a drift can be told: to a centimetre or half an inch.
    pub(super) fn coarse(&self, si: f64) -> Written {
        let step = match self.system() {
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
    pub(super) fn speed(&self, si: f64) -> Written {
        let water = self.evaluation.rig.settings.water.as_ref();
        let like = water.and_then(|water| water.value.speed.0.clone().ok());
        let value = Value::plain(si, Dimension::SPEED);
        self.written(&like.map_or(value, |like| like.with(si, Dimension::SPEED)))
    }

    pub(super) fn measured(&self, name: &str, thing: Thing) -> Option<Written> {
        let measure = measure::of(thing.kind(), name)?;
        let value = self.evaluation.measure(measure, thing).ok()?;
        Some(written(self.evaluation, measure, thing, &value, self.units))
    }

    pub(super) fn inputs(&self, state: Option<&Drifting>) -> IndexMap<&'static str, Written> {
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
    pub(super) fn name(&self, thing: Thing) -> String {
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

    fn hangs_on(&self, name: &'static str) -> Option<HangsOn> {
        let drawn = measure::of_rig(name)?.drawn(self.evaluation, Thing::Rig)?;
        let (input, share) = drawn.dominated_by()?;
        Some(HangsOn {
            measure: name,
            remedy: remedy(input),
            share,
        })
    }

    /// Its sign in a picture.
    pub(super) fn kind(&self, thing: Thing) -> MarkKind {
        match thing {
            Thing::Fly(id) if self.evaluation.rig.chain.fly(id).tied.fly.bead.is_some() => {
                MarkKind::BeadedFly
            }
            Thing::Fly(_) => MarkKind::PlainFly,
            Thing::Join(_) => MarkKind::Swivel,
            Thing::Shot(_)
            | Thing::Rig
            | Thing::Section(_)
            | Thing::Dropper(_)
            | Thing::Gap(_)
            | Thing::Rod
            | Thing::Water => MarkKind::Shot,
        }
    }

    /// How each fly rides, the point first.
    pub(super) fn rides(&self, state: &Drifting) -> Vec<ShownRide> {
        let between = measure::depths_between(self.evaluation, state);
        let depth = state.rig.stream.depth().value;
        let ride = |((thing, ride), between): ((&Thing, &snell_water::drift::Ride), &(f64, f64))| {
            let length = |si| self.coarse(si);
            ShownRide {
                name: self.name(*thing),
                kind: self.kind(*thing),
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
        let rides = state.things.iter().zip(&state.drift.rides).zip(&between);
        rides.map(ride).collect()
    }

    /// The line from the point to the surface, in metres: downstream of its entry, and depth.
    pub(super) fn line(&self, state: &Drifting) -> Vec<(f64, f64)> {
        let depth = state.rig.stream.depth().value;
        let line = state.drift.line.iter();
        line.map(|(along, height)| (along.value, depth - height.value))
            .collect()
    }

    /// The steady drift with its measures, whose draws cost far more than its picture.
    pub(super) fn steady(&self, state: &Drifting) -> Steady {
        let depth = state.rig.stream.depth().value;
        let told = ["tippet-needed", "sighter-out", "sink-time", "sink-run"];
        let measures = told
            .into_iter()
            .filter_map(|name| Some((name, self.measured(name, Thing::Rig)?)));
        let at = |step: usize| {
            let height = state.rig.stream.depth() * (step as f64 / PROFILE as f64);
            (height.value, state.rig.stream.profile.at(height).value)
        };
        Steady {
            speed: self.speed(state.drift.speed.value),
            surface: self.speed(state.rig.stream.profile.surface().value),
            submerged: self.coarse(state.drift.submerged.value),
            on_bed: state.is_on_bed(),
            others: state
                .settled
                .others()
                .filter_map(|other| other.drift.rides.first())
                .map(|point| self.coarse(point.depth.value.min(depth)))
                .collect(),
            measures: measures.collect(),
            hangs_on: ["tippet-needed", "sink-time"]
                .into_iter()
                .filter_map(|name| self.hangs_on(name))
                .collect(),
            flies: self.rides(state),
            line: self.line(state),
            profile: (0..=PROFILE).map(at).collect(),
        }
    }

    pub(super) fn sink(&self, state: &Drifting, sunk: &Sinking) -> ShownSink {
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
        let form = snell_water::sink::closed_form(
            &state.rig.tackle,
            &state.rig.stream,
            depth,
            state.drift.submerged,
        )?;
        form.holds.then_some(form.time.value)
    }
}

/// Heights at which the water's speed is told.
pub(super) const PROFILE: usize = 20;

/// Moments that are shown.
pub(super) const MOMENTS: usize = 120;
