//! One cell of a card: which of the flies at hand fishes a depth at a speed.
//!
//! The rules of a tight line are asked, on the rig as it would be with that
//! fly in that water; nothing is judged here a second time.

use super::at_hand::AtHand;
use crate::drift::instead::instead_of;
use crate::need::{Need, needs_of};
use snell_rig::blocks::Water;
use snell_rig::faults::Faults;
use snell_rig::keywords::{Cast, Decides, Method, SpeedOf};
use snell_rig::lack::{Lack, Outcome};
use snell_rig::measure::{self, Between, Kind, Thing, under_sighter};
use snell_rig::missing::{Missing, Unsaid};
use snell_rig::project::BlockRef;
use snell_rig::rig::{Rig, Stated};
use snell_rig::thing::FlyId;
use snell_rig::value::Value;
use snell_rig::{Evaluation, World};
use snell_rules::{Against, Applied, Books, Deciding};
use snell_text::Place;
use snell_units::Dimension;

/// The method whose questions a card asks.
pub(super) const METHOD: Method = Method::TightLine;

/// Tippet enough for any water that is fished, in metres: what a cell wants of it is what it tells.
const LONG: f64 = 100.0;

/// The rules that are asked, as the rig's rulebooks have them.
pub(super) struct Asks<'p> {
    /// Those that decide whether it fishes, with those of the method.
    pub fishing: Deciding<'p>,
    /// Is there less tippet than the water wants?
    pub short: Applied<'p>,
    /// Is it hard water to stand in?
    pub hard: Applied<'p>,
    /// Is it water to stay out of?
    pub out: Applied<'p>,
}

impl<'p> Asks<'p> {
    /// What is asked of a rig; nothing where what ships was broken.
    pub fn of(books: &Books<'_, 'p>, rig: &Rig<'p>) -> Option<Self> {
        let rule = |name| books.of_rig_or_shipped(rig, name);
        let own = Deciding::of(books, books.world(), rig, Decides::Fishing);
        Some(Self {
            fishing: own.with_those_of(books, books.world(), rig, METHOD, Decides::Fishing),
            short: rule("tippet-short-for-water")?,
            hard: rule("wading")?,
            out: rule("wading-danger")?,
        })
    }

    /// A rule that decides whether it fishes, where it is asked.
    pub fn deciding(&self, name: &str) -> Option<&Applied<'p>> {
        self.fishing
            .rules()
            .iter()
            .find(|applied| applied.rule.name == name)
    }
}

/// A depth and a speed.
pub(super) type At<'v> = (&'v Value, &'v Value);

/// A rig whose point and water are open.
pub(super) struct Open<'w, 'p> {
    pub world: &'w World<'p>,
    pub block: BlockRef<'p>,
    /// All that is known of the water but its depth and speed.
    pub water: Water,
    /// How the flies are laid on the water, where that was asked for.
    pub cast: Option<Cast>,
}

/// How a fly does in a cell.
#[derive(Clone, Debug)]
pub(super) enum Tried {
    /// It fishes.
    Fishes(Box<Fished>),
    /// A rule stands against it, by its place among those that decide.
    Breaks(usize),
    /// It has no drift there.
    Nowhere(Vec<Need>),
}

/// What a fly that fishes wants and does.
#[derive(Clone, Debug)]
pub(super) struct Fished {
    pub tippet: Estimate,
    pub sink_time: Estimate,
    pub sink_run: Estimate,
}

/// A figure, and between what it lies where that was asked.
#[derive(Clone, Debug)]
pub(super) struct Estimate {
    pub value: Value,
    pub between: Option<Between>,
}

/// How hard a water is to stand in.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default, serde::Serialize, schemars::JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Wading {
    /// Within the limits of the rule `wading`, which is no promise.
    #[default]
    Within,
    /// Over them.
    Hard,
    /// Water to stay out of.
    KeepOut,
}

impl<'w, 'p> Open<'w, 'p> {
    /// The rig with a fly, where there is one, in a water.
    pub fn rigged(&self, fly: Option<&AtHand<'p>>, (depth, speed): At<'_>) -> Rig<'p> {
        let mut rig = snell_rig::read(self.world, self.block, &Faults::default());
        if let Some(fly) = fly {
            fly.tie(&mut rig);
        }
        let place = rig.place();
        let mut water = self.water.clone();
        water.depth = Ok(depth.clone());
        water.speed = (Ok(speed.clone()), SpeedOf::Surface);
        rig.settings.water = Some(Stated {
            value: water,
            place,
            block: None,
        });
        instead_of(&mut rig, None, self.cast);
        // What its own method has on the surface stays there.
        let flies = rig.chain.flies().map(|(id, _)| id);
        let afloat: Vec<FlyId> = flies.filter(|id| rig.rides_afloat(*id)).collect();
        for id in afloat {
            let floats = &mut rig.chain.tied_mut(id).fly.floats;
            floats.get_or_insert_with(|| Err(Missing::new(Unsaid::Lift).of_thing(Thing::Fly(id)).into()));
        }
        rig.settings.method = Some(Stated {
            value: METHOD,
            place,
            block: None,
        });
        rig
    }

    /// How a fly does at a depth and a speed.
    pub fn tries(&self, asks: &Asks<'p>, fly: &AtHand<'p>, at: At<'_>) -> Tried {
        let rig = self.rigged(Some(fly), at);
        let as_it_is = Evaluation::new(self.world, &rig);
        let evaluation = as_it_is.supposing_all(reaching(asks, &as_it_is));
        match tried(asks, &evaluation) {
            Ok(tried) => tried,
            Err(lack) => Tried::Nowhere(needs_of(&evaluation, &lack)),
        }
    }

    /// What a fly that fishes does at a depth and a speed, with what each figure lies between.
    pub fn draws(&self, asks: &Asks<'p>, fly: &AtHand<'p>, at: At<'_>, fished: &mut Fished) {
        let rig = self.rigged(Some(fly), at);
        let as_it_is = Evaluation::new(self.world, &rig);
        let evaluation = as_it_is.supposing_all(reaching(asks, &as_it_is));
        for (name, estimate) in [
            ("tippet-needed", &mut fished.tippet),
            ("sink-time", &mut fished.sink_time),
            ("sink-run", &mut fished.sink_run),
        ] {
            let measure = measure::of(Kind::Rig, name);
            estimate.between =
                measure.and_then(|measure| measure.between(&evaluation, Thing::Rig, &estimate.value));
        }
    }

    /// How hard the water is to stand in.
    pub fn wading(&self, asks: &Asks<'p>, at: At<'_>) -> Wading {
        let rig = self.rigged(None, at);
        let evaluation = Evaluation::new(self.world, &rig);
        // What cannot be judged is no promise either way.
        let broken = |rule: &Applied<'p>| rule.is_broken_by(&evaluation).unwrap_or_default();
        if broken(&asks.out) {
            Wading::KeepOut
        } else if broken(&asks.hard) {
            Wading::Hard
        } else {
            Wading::Within
        }
    }
}

fn tried<'p>(asks: &Asks<'p>, evaluation: &Evaluation<'_, 'p>) -> Result<Tried, Lack> {
    let tippet = estimate(evaluation, "tippet-needed")?;
    match asks.fishing.first(evaluation)? {
        Some(Against::Rule(index)) => return Ok(Tried::Breaks(index)),
        Some(Against::Water(lack)) => return Err(lack),
        None => {}
    }
    Ok(Tried::Fishes(Box::new(Fished {
        tippet,
        sink_time: estimate(evaluation, "sink-time")?,
        sink_run: estimate(evaluation, "sink-run")?,
    })))
}

/// Tippet that is long enough, where the rig's own is too short for the water.
fn reaching<'p>(asks: &Asks<'p>, as_it_is: &Evaluation<'_, 'p>) -> Option<(Place, Value)> {
    match asks.short.is_broken_by(as_it_is) {
        Ok(false) => None,
        Ok(true) | Err(_) => long_tippet(as_it_is),
    }
}

fn long_tippet(evaluation: &Evaluation<'_, '_>) -> Option<(Place, Value)> {
    let rig = evaluation.rig;
    let first = under_sighter(evaluation);
    let first = (first < rig.chain.end()).then(|| rig.chain.section(first))?;
    let fit = first.part.length()?;
    Some((fit.place(), Value::plain(LONG, Dimension::LENGTH)))
}

fn estimate(evaluation: &Evaluation<'_, '_>, name: &str) -> Result<Estimate, Lack> {
    let value = of_rig(evaluation, name)?;
    Ok(Estimate { value, between: None })
}

/// A measure of the rig.
pub(super) fn of_rig(evaluation: &Evaluation<'_, '_>, name: &str) -> Outcome {
    let measure = measure::of(Kind::Rig, name).ok_or(Lack::Faulty)?;
    evaluation.measure(measure, Thing::Rig)
}
