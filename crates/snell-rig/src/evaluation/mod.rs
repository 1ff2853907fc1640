//! A rig evaluated: lengths, lets and measures by need, each computed once.
//!
//! A value that needs itself is one fault that names the members of the loop.

mod claims;
mod conditions;
mod joins;
mod paths;
mod solved;
mod written;

pub use conditions::{Answer, Subjects, Verdict, verdict};
pub use joins::JoinKind;
pub use paths::Meaning;
pub(crate) use solved::{Solved, States};
pub use written::Written;

use crate::blocks::wrong_dimension;
use crate::evaluate::{Scope, evaluate};
use crate::faults;
use crate::fit::Fit;
use crate::keywords::Take;
use crate::measure::{Get, Measure, Thing};
use crate::project::{BlockId, LineRef};
use crate::rig::{Part, Rig};
use crate::value::{Assumed, Faults, Lack, Outcome, Value};
use crate::world::World;
use rustc_hash::{FxBuildHasher, FxHashMap};
use snell_finding::Finding;
use snell_syntax::Word;
use snell_text::{Place, Span};
use snell_units::{Dimension, System};
use std::cell::RefCell;
use std::rc::Rc;
use written::Numbers;

/// A rig with what is known of its values so far.
#[derive(Debug)]
pub struct Evaluation<'w, 'p> {
    /// The blocks that it stands on.
    pub world: &'w World<'p>,
    /// The rig.
    pub rig: &'w Rig<'p>,
    faults: Faults,
    known: RefCell<FxHashMap<Key, Known>>,
    open: RefCell<Vec<Step>>,
    /// The written values on which all that was asked from outside hangs.
    asked: RefCell<Written>,
    numbers: Rc<Numbers>,
    /// What this only supposes to be otherwise.
    supposed: Option<Supposed<'w, 'p>>,
    joined: RefCell<FxHashMap<usize, Option<JoinKind>>>,
    tied: RefCell<FxHashMap<usize, Option<BlockId>>>,
    assumed: RefCell<Vec<Assumed>>,
    states: States,
}

/// A value that is known, and the written values that it hangs on.
#[derive(Clone, Debug)]
struct Known {
    outcome: Outcome,
    on: Written,
}

/// The rig as it is, and which of its values are supposed to be others.
#[derive(Debug)]
struct Supposed<'w, 'p> {
    of: &'w Evaluation<'w, 'p>,
    others: Written,
}

/// About how many values a rig has, so that their map need not grow.
const USUAL: usize = 96;

/// How many values may hang on one another in a row: far beyond what a person writes, and a bound for hostile
/// texts, since each takes room on the stack.
const DEEPEST: usize = 64;

/// What is computed once.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
enum Key {
    /// The expression at a place.
    At(Place),
    /// A measure of a thing.
    /// By where its name lies, which is quicker to compare than the name.
    Measure(usize, Thing),
    /// A state of the rig in its water.
    State(Solved),
}

/// A value that is being computed.
#[derive(Clone, Debug)]
struct Step {
    key: Key,
    subject: Subject,
    /// The written values that were asked for so far.
    on: Written,
}

impl Step {
    fn new(key: Key, subject: Subject) -> Self {
        Self {
            key,
            subject,
            on: Written::default(),
        }
    }
}

/// What a value is of, for those who have to name it.
#[derive(Clone, Copy, Debug)]
enum Subject {
    Section(usize),
    Dropper(usize),
    Let(usize),
    Written,
    Measure(&'static str),
}

impl<'w, 'p> Evaluation<'w, 'p> {
    /// An evaluation in which nothing is known yet.
    pub fn new(world: &'w World<'p>, rig: &'w Rig<'p>) -> Self {
        Self {
            world,
            rig,
            faults: Faults::default(),
            known: RefCell::new(FxHashMap::with_capacity_and_hasher(USUAL, FxBuildHasher)),
            open: RefCell::default(),
            joined: RefCell::default(),
            tied: RefCell::default(),
            assumed: RefCell::default(),
            states: States::default(),
            asked: RefCell::default(),
            numbers: Rc::default(),
            supposed: None,
        }
    }

    /// Evaluates all that the rig says: every length and setting, lets, joins and claims.
    pub fn run(&self) {
        let layout = &self.rig.layout;
        for (index, section) in layout.sections.iter().enumerate() {
            if section.part.length().is_some() {
                let _ = self.section_length(index);
            }
        }
        for index in 0..layout.droppers.len() {
            let _ = self.dropper_length(index);
        }
        let joins = layout.joins.iter().flat_map(|join| [join.tags, join.ring]);
        let settings = &self.rig.settings;
        let stated = [
            settings.reach,
            settings.tip,
            settings.off_bed,
            settings.drift,
            settings.drag,
        ];
        for fit in joins.chain(stated).flatten() {
            let _ = self.value(fit);
        }
        for item in &layout.on_line {
            for fit in item
                .given
                .fits
                .iter()
                .filter(|fit| fit.take.dimension().is_some())
            {
                let _ = self.value(*fit);
            }
        }
        for index in 0..self.rig.lets.len() {
            let _ = self.let_value(index);
        }
        for (line, claim) in &self.rig.expects {
            claims::judge(self, *line, claim);
        }
    }

    /// Where the claims stand that do not hold.
    pub fn broken_claims(&self) -> Vec<Place> {
        let broken = self
            .rig
            .expects
            .iter()
            .filter(|(line, claim)| verdict(self, *line, claim).is_ok_and(|verdict| !verdict.holds));
        broken.map(|(line, _)| line.whole()).collect()
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
        let mut other = Evaluation::new(self.world, self.rig);
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

    /// The units that the rig is written in: those of its first length.
    pub fn system(&self) -> System {
        let sections = 0..self.rig.layout.sections.len();
        let mut lengths = sections.filter_map(|index| self.section_length(index).ok()?.system);
        lengths.next().unwrap_or(System::Metric)
    }

    /// A value as the author of the rig would write it. What comes from sizes and figures alone is metric if
    /// it is a diameter or a mass, for those are written so even by people who count in feet.
    pub fn written(&self, value: &Value) -> String {
        value.written_in(self.system_of(value))
    }

    /// The units in which to write a value of this rig.
    pub fn system_of(&self, value: &Value) -> System {
        let fine = value.dimension() != Dimension::LENGTH || (value.si() != 0.0 && value.si().abs() < 0.005);
        let own = || if fine { System::Metric } else { self.system() };
        value.system.unwrap_or_else(own)
    }

    /// A measure of a thing.
    pub fn measure(&self, measure: &'static Measure, thing: Thing) -> Outcome {
        let Get::Value(get) = measure.get else {
            return Err(Lack::Faulty);
        };
        let key = Key::Measure(measure.name.as_ptr().addr(), thing);
        let step = Step::new(key, Subject::Measure(measure.name));
        self.by_need(step, || get(self, thing))
    }

    /// The value in a place of one of the rig's lines.
    pub fn value(&self, fit: Fit<'p>) -> Outcome {
        self.value_of(fit, Subject::Written)
    }

    fn value_of(&self, fit: Fit<'p>, subject: Subject) -> Outcome {
        let place = fit.place();
        let mut step = Step::new(Key::At(place), subject);
        step.on.add(self.numbers.of(place));
        self.by_need(step, || {
            let value = evaluate(self, fit.line, fit.expr)?;
            match fit.take.dimension() {
                Some(dimension) if dimension != value.dimension() => {
                    Err(self.faults.lack(wrong_dimension(fit, &value)))
                }
                _ if fit.take == Take::PartLength && value.si() <= 0.0 => {
                    let message = format!("this length comes to {}", value.written());
                    let finding = Finding::fault(faults::LENGTH_NOT_POSITIVE, fit.place(), message);
                    let finding = finding.help("a part has a length of more than nothing");
                    Err(self.faults.lack(crate::evaluate::with_causes(finding, &value)))
                }
                _ => Ok(value),
            }
        })
    }

    /// A section's finished length.
    pub fn section_length(&self, index: usize) -> Outcome {
        let part = &self.rig.layout.sections[index].part;
        match part.length() {
            Some(fit) => self.value_of(fit, Subject::Section(index)),
            None => Err(self.no_length(&self.rig.layout.section_name(index), part)),
        }
    }

    /// A dropper's length from its knot to the fly's eye.
    pub fn dropper_length(&self, index: usize) -> Outcome {
        let part = &self.rig.layout.droppers[index].part;
        match part.length() {
            Some(fit) => self.value_of(fit, Subject::Dropper(index)),
            None => Err(self.no_length(&self.rig.layout.dropper_name(index), part)),
        }
    }

    fn no_length(&self, name: &str, part: &Part<'p>) -> Lack {
        Lack::need(format!("the length of the {name}"), Some(part.given.line.whole()))
    }

    fn let_value(&self, index: usize) -> Outcome {
        let (line, bind) = self.rig.lets[index];
        let place = line.place(bind.name.span);
        let step = Step::new(Key::At(place), Subject::Let(index));
        self.by_need(step, || evaluate(self, line, &bind.value))
    }

    /// Computes a value once, and tells a loop.
    fn by_need(&self, step: Step, compute: impl FnOnce() -> Outcome) -> Outcome {
        let key = step.key;
        if let Some(known) = self.known.borrow().get(&key) {
            self.hang_on(&known.on);
            return known.outcome.clone();
        }
        if let Some(known) = self.as_it_is(key) {
            self.hang_on(&known.on);
            return known.outcome;
        }
        let start = self.open.borrow().iter().position(|open| open.key == key);
        if let Some(start) = start {
            return Err(self.tell_loop(start));
        }
        if self.open.borrow().len() >= DEEPEST {
            return Err(self.tell_depth());
        }
        self.open.borrow_mut().push(step);
        let outcome = compute();
        let on = self
            .open
            .borrow_mut()
            .pop()
            .map(|step| step.on)
            .unwrap_or_default();
        self.hang_on(&on);
        let mut known = self.known.borrow_mut();
        known.entry(key).or_insert(Known { outcome, on }).outcome.clone()
    }

    /// Notes that what is being asked hangs on some written values.
    pub fn hang_on(&self, written: &Written) {
        match self.open.borrow_mut().last_mut() {
            Some(step) => step.on.join(written),
            None => self.asked.borrow_mut().join(written),
        }
    }

    /// A value of the rig as it is, where it does not hang on what is supposed.
    fn as_it_is(&self, key: Key) -> Option<Known> {
        let Supposed { of, others } = self.supposed.as_ref()?;
        let known = of.known.borrow().get(&key).cloned();
        known
            .or_else(|| of.as_it_is(key))
            .filter(|known| !known.on.meets(others))
    }

    fn tell_depth(&self) -> Lack {
        let place = self.open.borrow().iter().find_map(|step| match step.key {
            Key::At(place) => Some(place),
            Key::Measure(..) | Key::State(_) => None,
        });
        let message = format!("more than {DEEPEST} values hang on one another here");
        let finding = Finding::fault(
            faults::VALUE_DEEP,
            place.unwrap_or_else(|| self.rig.place()),
            message,
        );
        self.faults
            .lack(finding.help("write one of them as a plain value"))
    }

    fn tell_loop(&self, start: usize) -> Lack {
        let open = self.open.borrow();
        let members = &open[start..];
        for member in members {
            let known = Known {
                outcome: Err(Lack::Faulty),
                on: member.on.clone(),
            };
            self.known.borrow_mut().insert(member.key, known);
        }
        let names: Vec<String> = members
            .iter()
            .map(|member| format!("`{}`", self.name_of(member)))
            .collect();
        let message = match names.as_slice() {
            [one] => format!("{one} needs itself to be computed"),
            _ => format!("{} need one another to be computed", names.join(" and ")),
        };
        let place_of = |(member, name): (&Step, _)| match member.key {
            Key::At(place) => Some((place, name)),
            Key::Measure(..) | Key::State(_) => None,
        };
        let mut places: Vec<_> = members.iter().zip(&names).filter_map(place_of).collect();
        places.sort();
        let first = places
            .first()
            .map_or_else(|| self.rig.place(), |(place, _)| *place);
        let mut finding = Finding::fault(faults::LOOP, first, message);
        for (place, name) in places.into_iter().skip(1) {
            finding = finding.label(place, name.as_str());
        }
        self.faults
            .lack(finding.help("write one of them as a plain value"))
    }

    fn name_of(&self, step: &Step) -> String {
        let layout = &self.rig.layout;
        match step.subject {
            Subject::Section(index) => layout.section_name(index),
            Subject::Dropper(index) => layout.dropper_name(index),
            Subject::Let(index) => self.rig.lets[index].1.name.folded.to_string(),
            Subject::Measure(name) => name.to_owned(),
            Subject::Written => "a value of this rig".to_owned(),
        }
    }
}

impl Scope for Evaluation<'_, '_> {
    fn path(&self, line: LineRef<'_>, path: &[Word], span: Span) -> Outcome {
        self.path_value(line, path, span)
    }

    fn faults(&self) -> &Faults {
        &self.faults
    }
}

/// Whether two dimensions may be compared: a mass stands for its weight beside a force.
pub(crate) fn comparable(left: Dimension, right: Dimension) -> bool {
    let weights = [Dimension::MASS, Dimension::FORCE];
    left == right || (weights.contains(&left) && weights.contains(&right))
}
