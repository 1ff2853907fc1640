//! States of a rig in its water, each solved once and only by need.
//!
//! How they are solved is for the measures to know.

use super::{Evaluation, Key, Step, Subject};
use crate::measure::{Drifting, Hanging, Sinking};
use crate::value::{Lack, Value};
use std::cell::RefCell;
use std::rc::Rc;

/// Which state.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub(crate) enum Solved {
    /// The steady drift.
    Drift,
    /// The sink.
    Sink,
    /// The line in the air.
    Air,
}

impl Solved {
    fn name(self) -> &'static str {
        match self {
            Self::Drift => "the drift",
            Self::Sink => "the sink",
            Self::Air => "the line in the air",
        }
    }
}

/// The states that are solved so far.
#[derive(Debug, Default)]
pub(crate) struct States {
    pub drift: RefCell<Option<Rc<Drifting>>>,
    pub sink: RefCell<Option<Rc<Sinking>>>,
    pub air: RefCell<Option<Rc<Hanging>>>,
}

impl Evaluation<'_, '_> {
    /// A state, solved the first time that it is asked for. One that needs itself is told as a loop, as any
    /// other value is.
    pub(crate) fn solved<T>(
        &self,
        state: Solved,
        kept: impl Fn(&States) -> &RefCell<Option<Rc<T>>>,
        solve: impl FnOnce(&Self) -> Result<T, Lack>,
    ) -> Result<Rc<T>, Lack> {
        let step = Step::new(Key::State(state), Subject::Measure(state.name()));
        self.by_need(step, || {
            let solved = solve(self)?;
            *kept(&self.states).borrow_mut() = Some(Rc::new(solved));
            Ok(Value::count(1))
        })?;
        let mut at = self;
        loop {
            match (kept(&at.states).borrow().clone(), &at.supposed) {
                (Some(state), _) => return Ok(state),
                // The state is that of the rig as it is: it does not hang on what is supposed.
                (None, Some(supposed)) => at = supposed.of,
                (None, None) => return Err(Lack::Faulty),
            }
        }
    }
}
