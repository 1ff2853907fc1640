//! What a dotted name means in a rig: a let, a label, a measure, a thing and
//! its neighbours, the rod and the water.

use super::core::{Evaluation, Get, Measure};
use crate::evaluate::no_value;
use crate::faults::Faults;
use crate::keywords::{PartKind, SectionRole};
use crate::lack::{Lack, Outcome};
use crate::missing::{Missing, Noun, Unsaid};
use crate::project::LineRef;
use crate::rig::PartId;
use crate::thing::{Kind, Thing};
use snell_finding::{Code, Finding, Fix, Level};
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
                    let what = "is told in words, which cannot be reckoned with";
                    Err(no_value(&self.faults, line, span, what))
                }
            },
            Meaning::Thing(Thing::Section(id)) => self.section_length(id),
            Meaning::Thing(Thing::Dropper(id)) => self.dropper_length(id),
            Meaning::Thing(thing) => {
                let what = format!(
                    "is a {}; name one of its measures, such as `{}`",
                    thing.kind().word(),
                    self.example(thing)
                );
                Err(no_value(&self.faults, line, span, &what))
            }
        }
    }

    fn example(&self, thing: Thing) -> &'static str {
        let mut measures = self.measures.all_of(thing.kind());
        measures.next().map_or("length", |measure| measure.name)
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
            at = match self.next(faults, line, &at, word) {
                Some(next) => next,
                None => return Err(faults.lack(self.unknown_step(line, &path[index - 1], word, &at))),
            };
        }
        Ok(at)
    }

    /// What a name means to a rule: a measure of the rig, its rod, its water, or its only thing of a kind.
    ///
    /// # Errors
    /// It means nothing, which has been reported; or the rig has several such things, or none.
    pub fn named(&self, faults: &Faults, line: LineRef<'_>, word: &Word) -> Result<Meaning, Lack> {
        if let Some(measure) = self.measure_by(faults, line, Kind::Rig, word) {
            return Ok(Meaning::Measure(measure, Thing::Rig));
        }
        let missing = |what| Err(Missing::new(what).at(self.rig.place()).into());
        match (self.only(&word.folded), Noun::of(&word.folded)) {
            (Only::One(thing), _) => Ok(Meaning::Thing(thing)),
            (Only::Many(_), Some(noun)) => missing(Unsaid::Which(noun)),
            (Only::None, Some(noun)) => missing(Unsaid::None(noun)),
            (Only::None | Only::Many(_), None) => {
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
        if let Some(measure) = self.measure_by(&self.faults, line, Kind::Rig, word) {
            return Ok(Meaning::Measure(measure, Thing::Rig));
        }
        match self.only(folded) {
            Only::One(thing) => Ok(Meaning::Thing(thing)),
            Only::Many(count) => Err(self.which(line, word, count)),
            Only::None => Err(self.unknown_name(line, word)),
        }
    }

    /// The measure that a word names. One that it named before is told by its new name.
    fn measure_by(
        &self,
        faults: &Faults,
        line: LineRef<'_>,
        kind: Kind,
        word: &Word,
    ) -> Option<&'static Measure> {
        if let Some(measure) = self.measures.of(kind, &word.folded) {
            return Some(measure);
        }
        let measure = self.measures.formerly(kind, &word.folded)?;
        let (place, new) = (line.place(word.span), measure.name);
        let message = format!("`{}` is called `{new}` now", line.spelled(word));
        faults.report(
            Finding::new(Code::NameFormer, Level::Advice, place, message).fix(Fix::sure(
                format!("write `{new}`"),
                place,
                new,
            )),
        );
        Some(measure)
    }

    /// The section, dropper or fly that has a label.
    fn labelled(&self, label: &str) -> Option<Thing> {
        let mut parts = self.rig.chain.parts();
        parts.find_map(|(id, part)| {
            let (_, word) = part.label()?;
            match id {
                _ if *word.folded != *label => None,
                PartId::Section(id) => Some(Thing::Section(id)),
                PartId::Dropper(id) => Some(Thing::Dropper(id)),
                PartId::Inline(id) | PartId::Point(id) => Some(Thing::Fly(id)),
                PartId::Knot(_)
                | PartId::Ring(_)
                | PartId::Swivel(_)
                | PartId::Shot(_)
                | PartId::Float(_) => None,
            }
        })
    }

    /// A thing that may be named by its kind or role, because the rig has only one.
    fn only(&self, word: &str) -> Only {
        let chain = &self.rig.chain;
        if let Some(kind) = PartKind::of(word) {
            return match kind {
                PartKind::Line => self.only_section(SectionRole::Line),
                PartKind::Butt => self.only_section(SectionRole::Butt),
                PartKind::Leader => self.only_section(SectionRole::Leader),
                PartKind::Taper => self.only_section(SectionRole::Taper),
                PartKind::Sighter => self.only_section(SectionRole::Sighter),
                PartKind::Tippet => self.only_section(SectionRole::Tippet),
                PartKind::Dropper => only(chain.droppers().map(Thing::Dropper)),
                PartKind::Fly => only(chain.flies().map(|(id, _)| Thing::Fly(id))),
                PartKind::Point => chain.point().map_or(Only::None, |id| Only::One(Thing::Fly(id))),
                PartKind::Knot
                | PartKind::Ring
                | PartKind::Swivel
                | PartKind::Inline
                | PartKind::Shot
                | PartKind::Float => Only::None,
            };
        }
        let kinds = [Kind::Gap, Kind::Fly, Kind::Join, Kind::Rod, Kind::Water];
        match kinds.into_iter().find(|kind| kind.word() == word) {
            Some(Kind::Gap) => only(chain.gaps().map(Thing::Gap)),
            Some(Kind::Fly) => only(chain.flies().map(|(id, _)| Thing::Fly(id))),
            Some(Kind::Join) => only(chain.joins().map(Thing::Join)),
            Some(Kind::Rod) => Only::One(Thing::Rod),
            Some(Kind::Water) => Only::One(Thing::Water),
            Some(Kind::Rig | Kind::Section | Kind::Dropper | Kind::Shot) | None => Only::None,
        }
    }

    fn only_section(&self, role: SectionRole) -> Only {
        let sections = self.rig.chain.sections();
        let of_role: Vec<Thing> = sections
            .filter(|(_, section)| section.role == role)
            .map(|(id, _)| Thing::Section(id))
            .collect();
        only(of_role.into_iter())
    }

    /// One step along a dotted name.
    fn next(&self, faults: &Faults, line: LineRef<'_>, at: &Meaning, word: &Word) -> Option<Meaning> {
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
            (Meaning::Thing(thing), _) => match self.measure_by(faults, line, thing.kind(), word) {
                Some(measure) => Some(Meaning::Measure(measure, *thing)),
                None => self.neighbour(*thing, folded).map(Meaning::Thing),
            },
            _ => None,
        }
    }

    /// What lies next to a thing.
    pub fn neighbour(&self, thing: Thing, word: &str) -> Option<Thing> {
        let chain = &self.rig.chain;
        match (thing, word) {
            (Thing::Join(id), "above") => Some(Thing::Section(id.upper())),
            (Thing::Join(id), "below") => Some(Thing::Section(id.lower())),
            (Thing::Gap(id), "upper") => Some(Thing::Fly(id.upper())),
            (Thing::Gap(id), "lower") => Some(Thing::Fly(id.lower())),
            (Thing::Dropper(id), "join") => Some(Thing::Join(chain.dropper(id).join)),
            (Thing::Dropper(id), "fly") => Some(Thing::Fly(chain.dropper(id).fly)),
            (Thing::Dropper(id), "gap") => chain.gap_below(chain.dropper(id).fly).map(Thing::Gap),
            (Thing::Fly(id), "section") => chain.fly(id).place.above().map(Thing::Section),
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
        let labels: Vec<_> = self.rig.chain.labels().map(|(_, word)| &*word.folded).collect();
        let measures = self.measures.all_of(Kind::Rig).map(|measure| measure.name);
        let known = lets.chain(labels).chain(measures);
        self.faults.lack(match snell_units::nearest(&word.folded, known) {
            Some(near) => finding
                .here(format!("did you mean `{near}`?"))
                .fix(Fix::offered(format!("write `{near}`"), place, near)),
            None => finding.help("values are this rig's lets, its labels, measures such as `total`, `rod.length` and `water.depth`"),
        })
    }

    /// A step of a dotted name that leads nowhere.
    fn unknown_step(&self, line: LineRef<'_>, before: &Word, word: &Word, at: &Meaning) -> Finding {
        let place = line.place(word.span);
        let message = format!("`{}` has no `{}`", line.spelled(before), line.spelled(word));
        let finding = Finding::fault(Code::NameUnknown, place, message);
        let known: Vec<&str> = match at {
            Meaning::Thing(thing) => {
                let measures = self.measures.all_of(thing.kind());
                measures.map(|measure| measure.name).collect()
            }
            Meaning::Value(_) | Meaning::Measure(..) => vec!["low", "high"],
        };
        let listed: Vec<String> = known.iter().map(|name| format!("`{name}`")).collect();
        let finding = finding.help(format!("it has {}", listed.join(", ")));
        match snell_units::nearest(&word.folded, known) {
            Some(near) => finding.fix(Fix::offered(format!("write `{near}`"), place, near)),
            None => finding,
        }
    }
}

/// How many things a word may mean.
enum Only {
    None,
    One(Thing),
    Many(usize),
}

/// The only one of some things, if there is only one.
fn only(mut things: impl ExactSizeIterator<Item = Thing>) -> Only {
    match (things.len(), things.next()) {
        (1, Some(thing)) => Only::One(thing),
        (0, _) | (_, None) => Only::None,
        (many, Some(_)) => Only::Many(many),
    }
}
