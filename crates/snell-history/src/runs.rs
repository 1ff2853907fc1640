//! Changes one after the other that a reader would tell as one: a piece of line
//! that grew, or shrank, from step to step.

use crate::story::{Event, Happened};
use snell_view::compare::{Change, Trait, TraitKind};

/// Fewer steps are told one by one.
const LEAST: usize = 3;

/// What is told of a rig: an event, or a run of them.
#[derive(Clone, Debug)]
pub enum Told<'e> {
    /// An event.
    Event(&'e Event),
    /// Events that are one run.
    Run(Run<'e>),
}

/// A length that moved one way in several events, with nothing else between.
#[derive(Clone, Debug)]
pub struct Run<'e> {
    /// The events, three or more.
    pub events: &'e [Event],
    /// The part, as it was called last.
    pub part: &'e str,
    /// Its length before the first of them.
    pub from: &'e Trait,
    /// Its length after the last of them.
    pub to: &'e Trait,
}

impl Run<'_> {
    /// Whether it became longer.
    pub fn grew(&self) -> bool {
        self.to.value > self.from.value
    }
}

/// One step: a length of one part and nothing else.
struct Step<'e> {
    part: &'e str,
    was: &'e Trait,
    now: &'e Trait,
    longer: bool,
}

impl<'e> Step<'e> {
    fn of(event: &'e Event) -> Option<Self> {
        let Happened::Changed {
            renamed: None,
            changes,
            follows: None,
            ..
        } = &event.what
        else {
            return None;
        };
        let [
            Change::Altered {
                part,
                side: TraitKind::Length,
                was: Some(was),
                now: Some(now),
                ..
            },
        ] = changes.as_slice()
        else {
            return None;
        };
        let longer = now.value? > was.value?;
        (!event.merge).then_some(Self {
            part,
            was,
            now,
            longer,
        })
    }
}

/// The events of a rig, runs of small changes as one.
pub fn told(events: &[Event]) -> Vec<Told<'_>> {
    let mut told = Vec::new();
    let mut at = 0;
    while at < events.len() {
        let end = run_from(events, at);
        let steps = (Step::of(&events[at]), Step::of(&events[end - 1]));
        match steps {
            (Some(first), Some(last)) if end - at >= LEAST => {
                told.push(Told::Run(Run {
                    events: &events[at..end],
                    part: last.part,
                    from: first.was,
                    to: last.now,
                }));
                at = end;
            }
            (Some(_) | None, Some(_) | None) => {
                told.push(Told::Event(&events[at]));
                at += 1;
            }
        }
    }
    told
}

/// Where the steps end that go on as the one that they begin with.
fn run_from(events: &[Event], start: usize) -> usize {
    let Some(first) = Step::of(&events[start]) else {
        return start + 1;
    };
    let goes_on = |event: &Event| {
        Step::of(event).is_some_and(|step| step.part == first.part && step.longer == first.longer)
    };
    let others = events[start + 1..].iter().take_while(|event| goes_on(event));
    start + 1 + others.count()
}
