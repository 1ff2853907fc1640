//! What a dotted name means in a rig: a let, a label, a measure, a thing and
//! its neighbours, the rod and the water.

use super::Evaluation;
use crate::measure::{self, Get, Kind, Measure, Thing};
use crate::project::LineRef;
use crate::value::{Faults, Lack, Outcome};
use snell_finding::{Code, Finding, Fix};
use snell_syntax::Word;
use snell_text::Span;

/// What a dotted name means.
#[derive(Clone, Debug)]
pub enum Meaning {
    /// A value, or why there is none.
    Value(Outcome),
    /// A measure of a thing.
    Measure(&'static Measure, Thing),
    /// A thing itself.
    Thing(Thing),
}

impl Evaluation<'_, '_> {
    /// The value of a dotted name.
    pub(super) fn path_value(&self, line: LineRef<'_>, path: &[Word], span: Span) -> Outcome {
        match self.meaning(line, path)? {
            Meaning::Value(outcome) => outcome,
            Meaning::Measure(measure, thing) => match measure.get {
                Get::Value(_) => self.measure(measure, thing),
                Get::Words(_) => {
                    Err(self.no_value(line, span, "is told in words, which cannot be reckoned with"))
                }
            },
            Meaning::Thing(Thing::Section(index)) => self.section_length(index),
            Meaning::Thing(Thing::Dropper(index)) => self.dropper_length(index),
            Meaning::Thing(thing) => {
                let what = format!(
                    "is a {}; name one of its measures, such as `{}`",
                    thing.kind().word(),
                    example(thing)
                );
                Err(self.no_value(line, span, &what))
            }
        }
    }

    fn no_value(&self, line: LineRef<'_>, span: Span, what: &str) -> Lack {
        crate::evaluate::no_value(&self.faults, line, span, what)
    }

    /// What a dotted name means.
    ///
    /// # Errors
    /// It means nothing, which has been reported.
    pub fn meaning(&self, line: LineRef<'_>, path: &[Word]) -> Result<Meaning, Lack> {
        let start = self.first(line, path)?;
        self.follow(&self.faults, line, start, path)
    }

    /// The steps of a dotted name behind its first.
    ///
    /// # Errors
    /// A step leads nowhere, which has been reported.
    pub fn follow(
        &self,
        faults: &Faults,
        line: LineRef<'_>,
        start: Meaning,
        path: &[Word],
    ) -> Result<Meaning, Lack> {
        let mut at = start;
        for (index, word) in path.iter().enumerate().skip(1) {
            at = match self.next(&at, word) {
                Some(next) => next,
                None => return Err(faults.lack(unknown_step(line, &path[index - 1], word, &at))),
            };
        }
        Ok(at)
    }

    /// What a name means to a rule: a measure of the rig, its rod, its water, or its only thing of a kind.
    ///
    /// # Errors
    /// It means nothing, which has been reported; or the rig has several such things, or none.
    pub fn named(&self, faults: &Faults, line: LineRef<'_>, word: &Word) -> Result<Meaning, Lack> {
        let folded = &*word.folded;
        if let Some(measure) = measure::of_rig(folded) {
            return Ok(Meaning::Measure(measure, Thing::Rig));
        }
        match self.only(folded) {
            Only::One(thing) => Ok(Meaning::Thing(thing)),
            Only::Many(_) => Err(Lack::need(
                format!("which {folded} is meant"),
                Some(self.rig.place()),
            )),
            Only::None if Kind::of(folded).is_some() || crate::keywords::is_part(folded) => {
                Err(Lack::without(format!("a {folded}"), Some(self.rig.place())))
            }
            Only::None => {
                let message = format!("`{}` is no value here", line.spelled(word));
                let finding = Finding::fault(Code::NameUnknown, line.place(word.span), message);
                Err(faults.lack(
                    finding.help("a rule names its own limits, the thing that it looks at, and measures"),
                ))
            }
        }
    }

    fn first(&self, line: LineRef<'_>, path: &[Word]) -> Result<Meaning, Lack> {
        let word = &path[0];
        let folded = &*word.folded;
        let lets = &self.rig.lets;
        if let Some(index) = lets.iter().position(|(_, bind)| bind.name.folded == word.folded) {
            return Ok(Meaning::Value(self.let_value(index)));
        }
        if let Some(thing) = self.labelled(folded) {
            return Ok(Meaning::Thing(thing));
        }
        if let Some(measure) = measure::of_rig(folded) {
            return Ok(Meaning::Measure(measure, Thing::Rig));
        }
        match self.only(folded) {
            Only::One(thing) => Ok(Meaning::Thing(thing)),
            Only::Many(count) => Err(self.which(line, word, count)),
            Only::None => Err(self.unknown_name(line, word)),
        }
    }

    /// The section or dropper that has a label.
    fn labelled(&self, label: &str) -> Option<Thing> {
        let layout = &self.rig.layout;
        let has = |part: &crate::rig::Part<'_>| part.label().is_some_and(|(_, word)| &*word.folded == label);
        let section = layout
            .sections
            .iter()
            .position(|section| has(&section.part))
            .map(Thing::Section);
        let dropper = || {
            layout
                .droppers
                .iter()
                .position(|dropper| has(&dropper.part))
                .map(Thing::Dropper)
        };
        let fly = || layout.flies.iter().position(|fly| has(&fly.part)).map(Thing::Fly);
        section.or_else(dropper).or_else(fly)
    }

    /// A thing that may be named by its kind or role, because the rig has only one.
    fn only(&self, word: &str) -> Only {
        let layout = &self.rig.layout;
        let one = |count: usize, thing: fn(usize) -> Thing| match count {
            0 => Only::None,
            1 => Only::One(thing(0)),
            _ => Only::Many(count),
        };
        match word {
            "rod" => Only::One(Thing::Rod),
            "water" => Only::One(Thing::Water),
            "gap" => one(layout.flies.len().saturating_sub(1), Thing::Gap),
            "dropper" => one(layout.droppers.len(), Thing::Dropper),
            "fly" => one(layout.flies.len(), Thing::Fly),
            "join" => one(layout.joins.len(), Thing::Join),
            "point" => match layout
                .flies
                .iter()
                .position(|fly| fly.at == crate::rig::FlyAt::Point)
            {
                Some(index) => Only::One(Thing::Fly(index)),
                None => Only::None,
            },
            role => {
                let of_role = |(index, section): (usize, &crate::rig::Section<'_>)| {
                    (section.role == role).then_some(index)
                };
                let all: Vec<usize> = layout.sections.iter().enumerate().filter_map(of_role).collect();
                match all.as_slice() {
                    [] => Only::None,
                    [index] => Only::One(Thing::Section(*index)),
                    many => Only::Many(many.len()),
                }
            }
        }
    }

    /// One step along a dotted name.
    fn next(&self, at: &Meaning, word: &Word) -> Option<Meaning> {
        let folded = &*word.folded;
        let end = |outcome: Outcome, high: bool| {
            Meaning::Value(outcome.map(|value| {
                let si = if high { value.high() } else { value.low() };
                value.at(si)
            }))
        };
        match (at, folded) {
            (Meaning::Value(outcome), "low" | "high") => Some(end(outcome.clone(), folded == "high")),
            (Meaning::Measure(measure, thing), "low" | "high") => {
                Some(end(self.measure(measure, *thing), folded == "high"))
            }
            (Meaning::Thing(thing), _) => match measure::of(thing.kind(), folded) {
                Some(measure) => Some(Meaning::Measure(measure, *thing)),
                None => self.neighbour(*thing, folded).map(Meaning::Thing),
            },
            _ => None,
        }
    }

    /// What lies next to a thing.
    pub fn neighbour(&self, thing: Thing, word: &str) -> Option<Thing> {
        let layout = &self.rig.layout;
        match (thing, word) {
            (Thing::Join(index), "above") => Some(Thing::Section(index)),
            (Thing::Join(index), "below") => Some(Thing::Section(index + 1)),
            (Thing::Gap(index), "upper") => Some(Thing::Fly(index)),
            (Thing::Gap(index), "lower") => Some(Thing::Fly(index + 1)),
            (Thing::Dropper(index), "join") => Some(Thing::Join(layout.droppers[index].join)),
            (Thing::Dropper(index), "fly") => Some(Thing::Fly(layout.droppers[index].fly)),
            (Thing::Dropper(index), "gap") => {
                let fly = layout.droppers[index].fly;
                (fly + 1 < layout.flies.len()).then_some(Thing::Gap(fly))
            }
            (Thing::Fly(index), "section") => layout.flies[index].above.checked_sub(1).map(Thing::Section),
            _ => None,
        }
    }

    fn which(&self, line: LineRef<'_>, word: &Word, count: usize) -> Lack {
        let written = line.spelled(word);
        let message = format!("this rig has {count} of `{written}`");
        let finding =
            Finding::fault(Code::NameUnknown, line.place(word.span), message).here("which of them?");
        self.faults
            .lack(finding.help("give the one that is meant a label with `as`, and write the label"))
    }

    fn unknown_name(&self, line: LineRef<'_>, word: &Word) -> Lack {
        // The name may be that of a part that could not be read.
        if self.rig.broken {
            return Lack::Faulty;
        }
        let place = line.place(word.span);
        let written = line.spelled(word);
        let message = format!("`{written}` is no value here");
        let finding = Finding::fault(Code::NameUnknown, place, message);
        let lets = self.rig.lets.iter().map(|(_, bind)| &*bind.name.folded);
        let labels: Vec<_> = self.rig.layout.labels().map(|(_, word)| &*word.folded).collect();
        let measures = measure::MEASURES
            .iter()
            .filter(|measure| measure.of == Kind::Rig)
            .map(|measure| measure.name);
        let known = lets.chain(labels).chain(measures);
        self.faults.lack(match snell_units::nearest(&word.folded, known) {
            Some(near) => finding
                .here(format!("did you mean `{near}`?"))
                .fix(Fix::offered(format!("write `{near}`"), place, near)),
            None => finding.help("values are this rig's lets, its labels, measures such as `total`, `rod.length` and `water.depth`"),
        })
    }
}

/// A step of a dotted name that leads nowhere.
fn unknown_step(line: LineRef<'_>, before: &Word, word: &Word, at: &Meaning) -> Finding {
    let place = line.place(word.span);
    let message = format!("`{}` has no `{}`", line.spelled(before), line.spelled(word));
    let finding = Finding::fault(Code::NameUnknown, place, message);
    let known: Vec<&str> = match at {
        Meaning::Thing(thing) => measure::all_of(thing.kind())
            .map(|measure| measure.name)
            .collect(),
        _ => vec!["low", "high"],
    };
    let listed: Vec<String> = known.iter().map(|name| format!("`{name}`")).collect();
    let finding = finding.help(format!("it has {}", listed.join(", ")));
    match snell_units::nearest(&word.folded, known) {
        Some(near) => finding.fix(Fix::offered(format!("write `{near}`"), place, near)),
        None => finding,
    }
}

/// How many things a word may mean.
enum Only {
    None,
    One(Thing),
    Many(usize),
}

fn example(thing: Thing) -> &'static str {
    measure::all_of(thing.kind())
        .next()
        .map_or("length", |measure| measure.name)
}
