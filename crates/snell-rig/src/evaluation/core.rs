//! An evaluation, and the measures that it can be asked: a measure is a function of an evaluation, so one
//! cannot be told without the other.

use super::join_kind::JoinKind;
use super::written::{Numbers, Written};
use crate::assumed::Assumed;
use crate::faults::Faults;
use crate::lack::Outcome;
use crate::project::BlockId;
use crate::rig::Rig;
use crate::thing::{DropperId, FlyId, GapId, JoinId, Kind, SectionId, ShotId, Thing};
use crate::value::Value;
use crate::world::World;
use rustc_hash::{FxBuildHasher, FxHashMap};
use snell_finding::Finding;
use snell_text::Place;
use snell_units::Dimension;
use snell_water::spread::Drawn;
use std::any::{Any, TypeId};
use std::cell::RefCell;
use std::rc::Rc;

/// A rig with what is known of its values so far.
pub struct Evaluation<'w, 'p> {
    /// The blocks that it stands on.
    pub world: &'w World<'p>,
    /// The rig.
    pub rig: &'w Rig<'p>,
    /// The measures that names may mean.
    pub(super) measures: &'static Measures,
    pub(super) faults: Faults,
    pub(super) known: RefCell<FxHashMap<Key, Known>>,
    pub(super) open: RefCell<Vec<Step>>,
    /// The written values on which all that was asked from outside hangs.
    pub(super) asked: RefCell<Written>,
    pub(super) numbers: Rc<Numbers>,
    /// What this only supposes to be otherwise.
    pub(super) supposed: Option<Supposed<'w, 'p>>,
    pub(super) joined: RefCell<FxHashMap<JoinId, Option<JoinKind>>>,
    pub(super) tied: RefCell<FxHashMap<FlyId, Option<BlockId>>>,
    pub(super) states: RefCell<FxHashMap<TypeId, Rc<dyn Any>>>,
    assumed: RefCell<Vec<Assumed>>,
}

/// A value that is known, and the written values that it hangs on.
#[derive(Clone, Debug)]
pub(super) struct Known {
    pub(super) outcome: Outcome,
    pub(super) on: Written,
}

/// The rig as it is, and which of its values are supposed to be others.
pub(super) struct Supposed<'w, 'p> {
    pub(super) of: &'w Evaluation<'w, 'p>,
    pub(super) others: Written,
}

/// About how many values a rig has, so that their map need not grow.
const USUAL: usize = 96;

/// What is computed once.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub(super) enum Key {
    /// The expression at a place.
    At(Place),
    /// A measure of a thing; by where its row lies, which is quicker to compare than its name.
    Measure(usize, Thing),
    /// A state of the rig in its water.
    State(TypeId),
}

/// A value that is being computed.
#[derive(Clone, Debug)]
pub(super) struct Step {
    pub(super) key: Key,
    pub(super) subject: Subject,
    /// The written values that were asked for so far.
    pub(super) on: Written,
}

impl Step {
    pub(super) fn new(key: Key, subject: Subject) -> Self {
        Self {
            key,
            subject,
            on: Written::default(),
        }
    }
}

/// What a value is of, for those who have to name it.
#[derive(Clone, Copy, Debug)]
pub(super) enum Subject {
    Section(SectionId),
    Dropper(DropperId),
    Let(usize),
    Written,
    Measure(&'static str),
}

/// A row of the table of measures.
#[derive(Debug)]
pub struct Measure {
    /// What it is of.
    pub of: Kind,
    /// Its name.
    pub name: &'static str,
    /// Its dimension; plain numbers and words have none.
    pub dimension: Dimension,
    /// One line of documentation.
    pub about: &'static str,
    /// How wrong it may be, over what the figures that it is made of are.
    pub error: Error,
    /// How it is had.
    pub get: Get,
}

/// A function that answers a measure.
#[derive(Clone, Copy, Debug)]
pub enum Get {
    /// In a quantity.
    Value(OfThing),
    /// In words that `is` asks for.
    Words(WordsOf),
}

type Asked = fn(&Evaluation<'_, '_>) -> Outcome;
type AskedOf<Id> = fn(&Evaluation<'_, '_>, Id) -> Outcome;

/// A quantity of one kind of thing.
#[derive(Clone, Copy, Debug)]
pub enum OfThing {
    /// Of the rig, its rod or its water.
    Rig(Asked),
    /// Of a piece of line.
    Section(AskedOf<SectionId>),
    /// Of a join.
    Join(AskedOf<JoinId>),
    /// Of a dropper.
    Dropper(AskedOf<DropperId>),
    /// Of a gap.
    Gap(AskedOf<GapId>),
    /// Of a fly.
    Fly(AskedOf<FlyId>),
    /// Of a shot.
    Shot(AskedOf<ShotId>),
}

/// What is called with each word that a measure tells.
pub type Told<'t> = dyn FnMut(&str) + 't;

type ToldOf<Id> = fn(&Evaluation<'_, '_>, Id, &mut Told<'_>);

/// Words of one kind of thing.
#[derive(Clone, Copy, Debug)]
pub enum WordsOf {
    /// Of the rig.
    Rig(fn(&Evaluation<'_, '_>, &mut Told<'_>)),
    /// Of a piece of line.
    Section(ToldOf<SectionId>),
    /// Of a join.
    Join(ToldOf<JoinId>),
    /// Of a fly.
    Fly(ToldOf<FlyId>),
    /// Of a shot.
    Shot(ToldOf<ShotId>),
}

/// Between what a figure lies: eight times out of ten where it comes from draws.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Between {
    /// In SI.
    pub low: f64,
    /// See `low`.
    pub high: f64,
}

/// Draws of what a measure is made of.
#[derive(Clone, Copy, Debug)]
pub enum Draws {
    /// Of the rig.
    Rig(fn(&Evaluation<'_, '_>) -> Option<Drawn>),
    /// Of a fly.
    Fly(fn(&Evaluation<'_, '_>, FlyId) -> Option<Drawn>),
}

/// How wrong a measure may be in a real stream.
#[derive(Clone, Copy, Debug)]
pub enum Error {
    /// No more than the figures that it is made of.
    None,
    /// It is an estimate, and nobody can say by how much it is off.
    Unsaid,
    /// The same, unless every fly that it is of was weighed.
    Unweighed,
    /// By a share of itself.
    Share(f64),
    /// By what draws of flies, line and water, each as well as it is known, come to.
    Drawn(Draws),
}

/// A table of measures, by kind of thing and name.
#[derive(Debug)]
pub(crate) struct Measures {
    by_name: FxHashMap<(Kind, &'static str), &'static Measure>,
    /// By the names that they had before.
    by_former: FxHashMap<(Kind, &'static str), &'static Measure>,
    in_words: FxHashMap<Kind, Vec<&'static Measure>>,
    pub(super) rows: &'static [Measure],
}

impl Measures {
    pub(crate) fn new(
        rows: &'static [Measure],
        former: &'static [(Kind, &'static str, &'static str)],
    ) -> Self {
        let mut in_words: FxHashMap<Kind, Vec<_>> = FxHashMap::default();
        for measure in rows.iter().filter(|row| matches!(row.get, Get::Words(_))) {
            in_words.entry(measure.of).or_default().push(measure);
        }
        let by_name: FxHashMap<_, _> = rows.iter().map(|row| ((row.of, row.name), row)).collect();
        let renamed = former.iter().filter_map(|(kind, old, new)| {
            let measure: &&Measure = by_name.get(&(*kind, *new))?;
            Some(((*kind, *old), *measure))
        });
        Self {
            by_former: renamed.collect(),
            by_name,
            in_words,
            rows,
        }
    }

    /// The measure of a kind of thing with a name.
    pub(crate) fn of(&self, kind: Kind, name: &str) -> Option<&'static Measure> {
        self.by_name.get(&(kind, name)).copied()
    }

    /// The measure of a kind of thing that had a name before it had the one that it has.
    pub(crate) fn formerly(&self, kind: Kind, name: &str) -> Option<&'static Measure> {
        self.by_former.get(&(kind, name)).copied()
    }

    /// The measures of a kind of thing that are told in words.
    pub(crate) fn in_words(&self, kind: Kind) -> &[&'static Measure] {
        self.in_words.get(&kind).map_or(&[], Vec::as_slice)
    }

    /// Every measure of a kind of thing.
    pub(crate) fn all_of(&self, kind: Kind) -> impl Iterator<Item = &'static Measure> {
        self.rows.iter().filter(move |measure| measure.of == kind)
    }
}

impl<'w, 'p> Evaluation<'w, 'p> {
    /// An evaluation in which nothing is known yet.
    pub(crate) fn with(world: &'w World<'p>, rig: &'w Rig<'p>, measures: &'static Measures) -> Self {
        Self {
            world,
            rig,
            measures,
            faults: Faults::default(),
            known: RefCell::new(FxHashMap::with_capacity_and_hasher(USUAL, FxBuildHasher)),
            open: RefCell::default(),
            joined: RefCell::default(),
            tied: RefCell::default(),
            states: RefCell::default(),
            assumed: RefCell::default(),
            asked: RefCell::default(),
            numbers: Rc::default(),
            supposed: None,
        }
    }

    /// The findings so far.
    pub fn into_findings(self) -> Vec<Finding> {
        self.faults.into_inner()
    }

    /// What was assumed so far, in order.
    pub fn assumed(&self) -> Vec<Assumed> {
        self.assumed.borrow().clone()
    }

    /// Notes something that was taken because the rig leaves it unsaid.
    pub fn assume(&self, assumed: impl FnOnce() -> Assumed) {
        // Nobody reads what was assumed to ask what would be.
        if self.supposed.is_some() {
            return;
        }
        let assumed = assumed();
        let mut all = self.assumed.borrow_mut();
        if !all.contains(&assumed) {
            all.push(assumed);
        }
    }

    /// The same rig with the value at a place replaced, to ask what would be.
    #[must_use]
    pub fn supposing<'s>(&'s self, place: Place, value: Value) -> Evaluation<'s, 'p> {
        self.supposing_all([(place, value)])
    }

    /// The same rig with the values at several places replaced. What does not hang on them is taken from this one.
    #[must_use]
    pub fn supposing_all<'s>(
        &'s self,
        values: impl IntoIterator<Item = (Place, Value)>,
    ) -> Evaluation<'s, 'p> {
        let mut other = Evaluation::with(self.world, self.rig, self.measures);
        other.numbers = self.numbers.clone();
        let mut others = Written::default();
        for (place, value) in values {
            let on = self.numbers.known(place);
            others.join(&on);
            let known = Known {
                outcome: Ok(value),
                on,
            };
            other.known.get_mut().insert(Key::At(place), known);
        }
        other.supposed = Some(Supposed { of: self, others });
        other
    }

    /// Asks something, and tells which written values the answer hangs on.
    pub fn hanging_on<T>(&self, ask: impl FnOnce() -> T) -> (T, Written) {
        let before = self.asked.take();
        let answer = ask();
        let on = self.asked.replace(before);
        self.asked.borrow_mut().join(&on);
        (answer, on)
    }

    /// The value at a place as a set of itself.
    pub fn written_at(&self, place: Place) -> Written {
        self.numbers.known(place)
    }

    /// How many states of the rig in its water were asked for so far: each takes far longer than all that is
    /// only added up.
    pub fn states_asked(&self) -> usize {
        let known = self.known.borrow();
        known.keys().filter(|key| matches!(key, Key::State(_))).count()
    }

    /// How many values were worked out so far; of what is only supposed, those that hang on it.
    pub fn worked_out(&self) -> usize {
        self.known.borrow().len()
    }
}
