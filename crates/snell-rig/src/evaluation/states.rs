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
        let step = Step::new(Key::State(TypeId::of::<S>()), Subject::Measure(S::NAME));
        self.by_need(step, || {
            let solved = Rc::new(S::solve(self)?);
            self.states.borrow_mut().insert(TypeId::of::<S>(), solved);
            Ok(Value::count(1))
        })?;
        let mut at = self;
        loop {
            let solved = at.states.borrow().get(&TypeId::of::<S>()).cloned();
            match (solved, &at.supposed) {
                (Some(solved), _) => return solved.downcast::<S>().map_err(|_| Lack::Faulty),
                // The state is that of the rig as it is: it does not hang on what is supposed.
                (None, Some(supposed)) => at = supposed.of,
                (None, None) => return Err(Lack::Faulty),
            }
        }
    }
}
