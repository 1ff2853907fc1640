//! Values by need: each is computed once, and one that needs itself is told.

use super::core::{Evaluation, Key, Known, Step, Subject, Supposed};
use super::written::Written;
use crate::lack::{Lack, Outcome};
use snell_finding::{Code, Finding, Limit};
use snell_units::in_order;

/// How many values may hang on one another in a row: far beyond what a person writes, and a bound for hostile
/// texts, since each takes room on the stack.
const DEEPEST: usize = Limit::Values.count();

impl Evaluation<'_, '_> {
    /// Computes a value once, and tells a loop.
    pub(super) fn by_need(&self, step: Step, compute: impl FnOnce() -> Outcome) -> Outcome {
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

    pub(super) fn tell_depth(&self) -> Lack {
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

    pub(super) fn tell_loop(&self, start: usize) -> Lack {
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
        in_order(&mut places, Ord::cmp);
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
        let chain = &self.rig.chain;
        match step.subject {
            Subject::Section(index) => chain.section_name(index),
            Subject::Dropper(index) => chain.dropper_name(index),
            Subject::Let(index) => self.rig.lets[index].1.name.folded.to_string(),
            Subject::Measure(name) => name.to_owned(),
            Subject::Written => "a value of this rig".to_owned(),
        }
    }
}
