//! A finding: its name, level, labelled places, words and fixes.

use crate::code::{Code, FindingCode};
use crate::fix::Fix;
use snell_text::Place;

/// How much a finding weighs, lightest first.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug, Hash)]
pub enum Level {
    /// Worth knowing.
    Advice,
    /// An expert would stop here.
    Caution,
    /// The text does not hold together, or a limit of safety is broken.
    Fault,
}

impl Level {
    /// Every level, lightest first.
    pub const ALL: [Self; 3] = [Self::Advice, Self::Caution, Self::Fault];

    /// The word for it in the language and in every report.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Advice => "advice",
            Self::Caution => "caution",
            Self::Fault => "fault",
        }
    }
}

/// A place with what is to be said of it.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Label {
    /// Where.
    pub place: Place,
    /// What; may be empty where the message says it all.
    pub text: String,
}

/// One thing to be said. The first label is the main one.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Finding {
    /// What it goes by: a code, or the name of the rule that found it.
    pub code: FindingCode,
    /// Its weight.
    pub level: Level,
    /// The rig that it concerns, where it concerns one.
    pub rig: Option<String>,
    /// What is wrong, in one sentence.
    pub message: String,
    /// Where: the main place first, then what contributed.
    pub labels: Vec<Label>,
    /// More to know.
    pub note: Option<String>,
    /// What to do.
    pub help: Option<String>,
    /// Ways out that a program can take.
    pub fixes: Vec<Fix>,
}

impl Finding {
    /// A finding at one place.
    pub fn new(code: impl Into<FindingCode>, level: Level, place: Place, message: impl Into<String>) -> Self {
        Self {
            code: code.into(),
            level,
            rig: None,
            message: message.into(),
            labels: vec![Label {
                place,
                text: String::new(),
            }],
            note: None,
            help: None,
            fixes: Vec::new(),
        }
    }

    /// A finding of level fault.
    pub fn fault(code: Code, place: Place, message: impl Into<String>) -> Self {
        Self::new(code, Level::Fault, place, message)
    }

    /// Words at the main place.
    #[must_use]
    pub fn here(mut self, text: impl Into<String>) -> Self {
        self.labels[0].text = text.into();
        self
    }

    /// A further place.
    #[must_use]
    pub fn label(mut self, place: Place, text: impl Into<String>) -> Self {
        self.labels.push(Label {
            place,
            text: text.into(),
        });
        self
    }

    /// More to know.
    #[must_use]
    pub fn note(mut self, note: impl Into<String>) -> Self {
        self.note = Some(note.into());
        self
    }

    /// What to do.
    #[must_use]
    pub fn help(mut self, help: impl Into<String>) -> Self {
        self.help = Some(help.into());
        self
    }

    /// A way out that a program can take.
    #[must_use]
    pub fn fix(mut self, fix: Fix) -> Self {
        self.fixes.push(fix);
        self
    }

    /// The rig that it concerns.
    #[must_use]
    pub fn rig(mut self, name: impl Into<String>) -> Self {
        self.rig = Some(name.into());
        self
    }

    /// Looks at every place that it names, those of its fixes among them.
    pub fn each_place(&mut self, look: &mut dyn FnMut(&mut Place)) {
        self.labels.iter_mut().for_each(|label| look(&mut label.place));
        let edits = self.fixes.iter_mut().flat_map(|fix| &mut fix.edits);
        edits.for_each(|edit| look(&mut edit.place));
    }

    /// The main place.
    pub fn place(&self) -> Place {
        self.labels[0].place
    }
}
