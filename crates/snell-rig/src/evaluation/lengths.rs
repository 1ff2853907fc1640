//! The values that a rig's own lines give: lengths, settings, lets.

use super::core::{Evaluation, Key, Step, Subject};
use crate::blocks::wrong_dimension;
use crate::evaluate::{Scope, evaluate, with_causes};
use crate::faults::Faults;
use crate::fit::Fit;
use crate::keywords::Take;
use crate::lack::{Lack, Outcome};
use crate::missing::{Missing, Unsaid};
use crate::project::LineRef;
use crate::rig::Part;
use crate::thing::{DropperId, SectionId, Thing};
use snell_finding::{Code, Finding};
use snell_syntax::Word;
use snell_text::Span;

impl<'p> Evaluation<'_, 'p> {
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
            if !fit.take.takes(value.dimension()) {
                return Err(self.faults.lack(wrong_dimension(fit, &value)));
            }
            if fit.take == Take::PartLength && value.si() <= 0.0 {
                let message = format!("this length comes to {}", value.written());
                let finding = Finding::fault(Code::LengthNotPositive, fit.place(), message);
                let finding = finding.help("a part has a length of more than nothing");
                return Err(self.faults.lack(with_causes(finding, &value)));
            }
            Ok(value)
        })
    }

    /// A section's finished length.
    pub fn section_length(&self, id: SectionId) -> Outcome {
        let part = self.rig.chain.section(id).part;
        match part.length() {
            Some(fit) => self.value_of(fit, Subject::Section(id)),
            None => Err(no_length(Thing::Section(id), part)),
        }
    }

    /// A dropper's length from its knot to the fly's eye.
    pub fn dropper_length(&self, id: DropperId) -> Outcome {
        let part = self.rig.chain.dropper(id).part;
        match part.length() {
            Some(fit) => self.value_of(fit, Subject::Dropper(id)),
            None => Err(no_length(Thing::Dropper(id), part)),
        }
    }

    pub(super) fn let_value(&self, index: usize) -> Outcome {
        let (line, bind) = self.rig.lets[index];
        let place = line.place(bind.name.span);
        let step = Step::new(Key::At(place), Subject::Let(index));
        self.by_need(step, || evaluate(self, line, &bind.value))
    }
}

fn no_length(thing: Thing, part: &Part<'_>) -> Lack {
    Missing::new(Unsaid::Length)
        .of_thing(thing)
        .at(part.place())
        .into()
}

impl Scope for Evaluation<'_, '_> {
    fn path(&self, line: LineRef<'_>, path: &[Word], span: Span) -> Outcome {
        self.path_value(line, path, span)
    }

    fn faults(&self) -> &Faults {
        &self.faults
    }
}
