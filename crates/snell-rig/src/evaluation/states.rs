//! States of a rig in its water, each solved once and only by need.

use super::core::{Evaluation, Key, Step, Subject};
use crate::lack::Lack;
use crate::value::Value;
use std::any::TypeId;
use std::rc::Rc;

/// A state of a rig: its drift, its sink, its line in the air.
pub trait State: Sized + 'static {
    /// What it is called where a loop is told.
    const NAME: &'static str;

    /// Solves it.
    ///
    /// # Errors
    /// What is unsaid, or why there is no such state.
    fn solve(evaluation: &Evaluation<'_, '_>) -> Result<Self, Lack>;
}

impl Evaluation<'_, '_> {
    /// A state, solved the first time that it is asked for. One that needs itself is told as a loop, as any
    /// other value is.
    ///
    /// # Errors
    /// As for solving it.
    pub fn state<S: State>(&self) -> Result<Rc<S>, Lack> {
        let step = Step {
            key: Key::State(TypeId::of::<S>()),
            subject: Subject::Measure(S::NAME),
        };
        self.by_need(step, || {
            let solved = Rc::new(S::solve(self)?);
            self.states.borrow_mut().insert(TypeId::of::<S>(), solved);
            Ok(Value::count(1))
        })?;
        let solved = self.states.borrow().get(&TypeId::of::<S>()).cloned();
        let solved = solved.and_then(|solved| solved.downcast::<S>().ok());
        solved.ok_or(Lack::Faulty)
    }
}
