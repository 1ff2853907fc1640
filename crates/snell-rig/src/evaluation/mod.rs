//! A rig evaluated: lengths, lets and measures by need, each computed once.
//!
//! A value that needs itself is one fault that names the members of the loop.

mod claims;
mod conditions;
mod joins;
mod paths;
mod solved;

pub use conditions::{Answer, Subjects, Verdict, verdict};
pub use joins::JoinKind;
pub use paths::Meaning;
pub(crate) use solved::{Solved, States};

use crate::blocks::wrong_dimension;
use crate::evaluate::{Scope, evaluate};
use crate::fit::Fit;
use crate::keywords::Take;
use crate::measure::{Get, Measure, Thing};
use crate::project::{BlockId, LineRef};
use crate::rig::{Part, Rig};
use crate::value::{Assumed, Faults, Lack, Outcome, Value};
use crate::world::World;
use rustc_hash::{FxBuildHasher, FxHashMap};
use snell_finding::{Code, Finding};
use snell_syntax::Word;
use snell_text::{Place, Span};
use snell_units::{Dimension, System};
use std::cell::RefCell;

/// A rig with what is known of its values so far.
#[derive(Debug)]
pub struct Evaluation<'w, 'p> {
    /// The blocks that it stands on.
    pub world: &'w World<'p>,
    /// The rig.
    pub rig: &'w Rig<'p>,
    faults: Faults,
    known: RefCell<FxHashMap<Key, Outcome>>,
    open: RefCell<Vec<Step>>,
    joined: RefCell<FxHashMap<usize, Option<JoinKind>>>,
    tied: RefCell<FxHashMap<usize, Option<BlockId>>>,
    assumed: RefCell<Vec<Assumed>>,
    states: States,
    /// Whether it only asks what would be, so that nobody will read what was assumed.
    supposes: bool,
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
#[derive(Clone, Copy, Debug)]
struct Step {
    key: Key,
    subject: Subject,
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
            supposes: false,
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
        if self.supposes {
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
    pub fn supposing(&self, place: Place, value: Value) -> Self {
        self.supposing_all([(place, value)])
    }

    /// The same rig with the values at several places replaced.
    #[must_use]
    pub fn supposing_all(&self, values: impl IntoIterator<Item = (Place, Value)>) -> Self {
        let mut other = Self::new(self.world, self.rig);
        other.supposes = true;
        let known = values
            .into_iter()
            .map(|(place, value)| (Key::At(place), Ok(value)));
        other.known.borrow_mut().extend(known);
        other
    }

    /// How many states of the rig in its water were asked for so far: each takes far longer than all that is
    /// only added up.
    pub fn states_asked(&self) -> usize {
        let known = self.known.borrow();
        known.keys().filter(|key| matches!(key, Key::State(_))).count()
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
        let step = Step {
            key: Key::Measure(measure.name.as_ptr().addr(), thing),
            subject: Subject::Measure(measure.name),
        };
        self.by_need(step, || get(self, thing))
    }

    /// The value in a place of one of the rig's lines.
    pub fn value(&self, fit: Fit<'p>) -> Outcome {
        self.value_of(fit, Subject::Written)
    }

    fn value_of(&self, fit: Fit<'p>, subject: Subject) -> Outcome {
        let key = Key::At(fit.place());
        self.by_need(Step { key, subject }, || {
            let value = evaluate(self, fit.line, fit.expr)?;
            match fit.take.dimension() {
                Some(dimension) if dimension != value.dimension() => {
                    Err(self.faults.lack(wrong_dimension(fit, &value)))
                }
                _ if fit.take == Take::PartLength && value.si() <= 0.0 => {
                    let message = format!("this length comes to {}", value.written());
                    let finding = Finding::fault(Code::LengthNotPositive, fit.place(), message);
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
        let step = Step {
            key: Key::At(place),
            subject: Subject::Let(index),
        };
        self.by_need(step, || evaluate(self, line, &bind.value))
    }

    /// Computes a value once, and tells a loop.
    fn by_need(&self, step: Step, compute: impl FnOnce() -> Outcome) -> Outcome {
        let key = step.key;
        if let Some(known) = self.known.borrow().get(&key) {
            return known.clone();
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
        self.open.borrow_mut().pop();
        self.known.borrow_mut().entry(key).or_insert(outcome).clone()
    }

    fn tell_depth(&self) -> Lack {
        let place = self.open.borrow().iter().find_map(|step| match step.key {
            Key::At(place) => Some(place),
            Key::Measure(..) | Key::State(_) => None,
        });
        let message = format!("more than {DEEPEST} values hang on one another here");
        let finding = Finding::fault(
            Code::ValueDeep,
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
            self.known.borrow_mut().insert(member.key, Err(Lack::Faulty));
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
        let mut finding = Finding::fault(Code::Loop, first, message);
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
