//! A solved card as it is shown: written figures, coarse where they are estimates.

use super::at_hand::AtHand;
use super::cell::{Asks, At, Estimate, Fished, Open};
use super::solve::{Answer, Cell};
use crate::card::shown::{ShownAnswer, ShownCell, ShownFished, ShownFly, Why};
use crate::shower::written;
use crate::written::{Units, Written};
use indexmap::IndexMap;
use snell_rig::Evaluation;
use snell_rig::lack::Lack;
use snell_rig::measure::{self, Kind, Measure, Thing};
use snell_rig::value::Value;
use snell_rules::Applied;
use snell_units::{Dimension, Quantity, System};

/// What a person cuts to, in metres: half an inch, a centimetre.
const HALF_INCH: f64 = 0.0127;
const CENTIMETRE: f64 = 0.01;

/// Writes the figures of one card.
pub(super) struct Teller<'e, 'w, 'p> {
    own: &'e Evaluation<'w, 'p>,
    units: Units,
    pub system: System,
}

/// The rule that stands against all flies in a cell.
fn why(asks: Option<&Asks<'_>>, rule: usize) -> Why {
    Why::rule(asks.and_then(|asks| asks.fishing.rules().get(rule)))
}

/// A measure of the point fly, with what it is a measure of.
pub(super) fn of_point(
    evaluation: &Evaluation<'_, '_>,
    name: &str,
) -> Result<(Value, (&'static Measure, Thing)), Lack> {
    let point = evaluation.rig.chain.point().ok_or(Lack::Faulty)?;
    let thing = Thing::Fly(point);
    let measure = measure::of(Kind::Fly, name).ok_or(Lack::Faulty)?;
    Ok((evaluation.measure(measure, thing)?, (measure, thing)))
}

impl<'e, 'w, 'p> Teller<'e, 'w, 'p> {
    pub fn new(own: &'e Evaluation<'w, 'p>, units: Units) -> Self {
        let system = units.shown(own.system());
        Self { own, units, system }
    }

    pub fn written(&self, value: &Value) -> Written {
        Written::of(value, self.units, self.own)
    }

    /// What the card stands on besides depth and speed.
    pub fn inputs(&self, open: &Open<'_, 'p>) -> IndexMap<&'static str, Written> {
        let water = &open.water;
        let mut inputs = IndexMap::new();
        if let Some(bed) = water.bed {
            let name = open.world.name(bed).to_owned();
            let grain = open.world.read(bed).bed().and_then(|bed| bed.grain.as_ref().ok());
            let words = Written::words(&[name]);
            let si = grain.map(Value::si);
            let unit = si.map(|_| "m".to_owned());
            inputs.insert(
                "bed",
                Written {
                    value: si,
                    unit,
                    ..words
                },
            );
        }
        let grain = water.grain.as_ref().map(|grain| ("bed", grain));
        let others = [("temperature", &water.temperature), ("run", &water.run)];
        for (name, outcome) in grain.into_iter().chain(others) {
            if let Ok(value) = outcome {
                inputs.insert(name, self.written(value));
            }
        }
        let own = self.own.rig.settings.cast.as_ref().map(|cast| cast.value);
        if let Some(cast) = open.cast.or(own) {
            inputs.insert("cast", Written::words(&[cast.word().to_owned()]));
        }
        inputs
    }

    /// The limits that the rules set, as this rig's rulebooks have them.
    pub fn limits(
        &self,
        open: &Open<'_, 'p>,
        asks: &Asks<'p>,
        at: Option<At<'_>>,
    ) -> IndexMap<&'static str, Written> {
        let Some(at) = at else { return IndexMap::new() };
        let rig = open.rigged(None, at);
        let evaluation = Evaluation::new(open.world, &rig);
        let most = |rule: &Applied<'p>| rule.limit(&evaluation, "most").ok();
        let run = open.water.run.as_ref().ok();
        // The rule's figure is a share of the run; what a person can see on the water is a length.
        let deciding = |name| asks.deciding(name).and_then(most);
        let late = deciding("sink-late")
            .zip(run)
            .map(|(share, run)| run.clone().with(share.si() * run.si(), Dimension::LENGTH));
        let all = [
            ("sink-late", late),
            (
                "fly-drags",
                deciding("fly-drags").map(|most| self.like_ours(most)),
            ),
            ("wading", most(&asks.hard).map(|most| self.like_ours(most))),
            ("wading-danger", most(&asks.out).map(|most| self.like_ours(most))),
        ];
        let told = |(rule, limit): (&'static str, Option<Value>)| Some((rule, self.written(&limit?)));
        all.into_iter().filter_map(told).collect()
    }

    /// A rule's figure in the units of the card.
    fn like_ours(&self, mut value: Value) -> Value {
        if value.system != Some(self.system) {
            (value.unit, value.system) = (None, Some(self.system));
        }
        value
    }

    pub fn flies(&self, open: &Open<'_, 'p>, flies: &[AtHand<'p>], at: At<'_>) -> Vec<ShownFly> {
        let shown = |fly: &AtHand<'p>| {
            let rig = open.rigged(Some(fly), at);
            let evaluation = Evaluation::new(open.world, &rig);
            let figure = |name| {
                let (value, (measure, thing)) = of_point(&evaluation, name).ok()?;
                let value = match name {
                    "sinks" => self.like_ours(value),
                    // Flies are weighed in grams, whatever their wire was measured in.
                    _ => Value::plain(value.si(), value.dimension()),
                };
                Some(written(&evaluation, measure, thing, &value, self.units))
            };
            Some(ShownFly {
                name: fly.name.clone(),
                what: fly.what.clone(),
                mass: figure("mass")?,
                sinks: figure("sinks"),
            })
        };
        flies.iter().filter_map(shown).collect()
    }

    pub fn cells(
        &self,
        cells: &[Vec<Cell>],
        flies: &[AtHand<'p>],
        asks: Option<&Asks<'p>>,
    ) -> Vec<Vec<ShownCell>> {
        let shown = |cell: &Cell| ShownCell {
            answer: match &cell.answer {
                Answer::Fly(index, fished) => {
                    ShownAnswer::Fished(Box::new(self.fished(&flies[*index], fished)))
                }
                Answer::Breaks(rule) => ShownAnswer::Unfished(why(asks, *rule)),
                Answer::Nowhere(_) => ShownAnswer::Unfished(Why::no_drift()),
            },
            wading: cell.wading,
        };
        cells.iter().map(|row| row.iter().map(shown).collect()).collect()
    }

    fn fished(&self, fly: &AtHand<'p>, fished: &Fished) -> ShownFished {
        ShownFished {
            fly: fly.name.clone(),
            tippet: self.cut(&fished.tippet.value),
            needed: self.estimate(&fished.tippet),
            sink_time: self.estimate(&fished.sink_time),
            sink_run: self.estimate(&fished.sink_run),
        }
    }

    /// In the rig's own units: what the water's are says nothing of how tippet is cut.
    fn estimate(&self, estimate: &Estimate) -> Written {
        let value = self.like_ours(estimate.value.clone());
        let written = self.written(&value);
        match estimate.between {
            Some(between) => written.between(between, &value, self.units, self.own),
            None => written.estimated(),
        }
    }

    /// A length rounded up to what a person cuts, in inches or centimetres however long it is: figures of one
    /// card are compared at a glance.
    fn cut(&self, length: &Value) -> Written {
        let (step, unit) = match self.system {
            System::Imperial => (HALF_INCH, "in"),
            System::Metric => (CENTIMETRE, "cm"),
        };
        let si = (length.si() / step - 1e-6).ceil() * step;
        let quantity = Quantity::new(si, Dimension::LENGTH);
        let text = snell_units::resolve(unit).map_or_else(
            |_| snell_units::write(quantity, self.system),
            |unit| snell_units::write_as(quantity, &unit),
        );
        Written {
            text,
            ..self.written(&Value::plain(si, Dimension::LENGTH))
        }
        .estimated()
    }
}
