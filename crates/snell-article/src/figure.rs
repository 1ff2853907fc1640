//! One figure for running prose: a measure of a rig or of one of its parts, in
//! words that own up to an estimate.

use super::spoken::{PartWord, RigWord, Sayer};
use super::words::{Said, Side, Told};
use snell_finding::{Code, Finding, Fix};
use snell_rig::Evaluation;
use snell_rig::keywords::PartKind;
use snell_rig::lack::Lack;
use snell_rig::measure::{self, Get, Kind, Measure, Thing};
use snell_rig::value::Value;
use snell_text::{Place, TextId};
use snell_units::{Quantity, Resolved};
use snell_view::Units;

/// Why there is no figure: something to tell, or a fault of the rig that is told already.
pub(super) type NoFigure = Option<Box<Finding>>;

/// A figure that is asked for.
pub(super) struct Asked<'t> {
    pub text: TextId,
    pub measure: Said<'t>,
    pub part: Option<(Side, Said<'t>)>,
    pub told: Told<'t>,
}

impl Asked<'_> {
    /// The figure.
    ///
    /// # Errors
    /// There is no such part or measure, it cannot be told, or not in that unit.
    pub fn of(&self, sayer: &Sayer<'_, '_, '_>) -> Result<String, NoFigure> {
        let evaluation = sayer.evaluation;
        if let Some(word) = self.word(sayer)? {
            return Ok(word);
        }
        let (measure, thing) = self.found(evaluation)?;
        let unit = self.unit(measure)?;
        if let Get::Words(_) = measure.get {
            let words = measure.words(evaluation, thing);
            return if words.is_empty() {
                Err(self.unknown(evaluation, &[]))
            } else {
                Ok(words.join(", "))
            };
        }
        match evaluation.measure(measure, thing) {
            Ok(value) => Ok(self.written(evaluation, measure, thing, &value, unit.as_ref())),
            Err(Lack::Faulty) => Err(None),
            Err(Lack::Unknown(needs)) => {
                let needs = evaluation.words_of_all(&needs);
                let needs: Vec<String> = needs.iter().map(ToString::to_string).collect();
                Err(self.unknown(evaluation, &needs))
            }
        }
    }

    /// The word of a rig or of a part that is asked for, where it is one.
    fn word(&self, sayer: &Sayer<'_, '_, '_>) -> Result<Option<String>, NoFigure> {
        let name = snell_syntax::fold(self.measure.text);
        let units = match self.told {
            Told::System(units) => units,
            Told::Unit(_) => Units::Author,
        };
        let said = match self.part {
            None => match RigWord::named(&name) {
                Some(word) => sayer.of_rig(word, units),
                None => return Ok(None),
            },
            Some((Side::Itself, part)) => match PartWord::named(&name) {
                Some(word) => sayer.of_part(word, &self.things(sayer.evaluation, part)?),
                None => return Ok(None),
            },
            Some((Side::Above | Side::Below, _)) => return Ok(None),
        };
        if let Told::Unit(unit) = self.told {
            let place = Place::new(self.text, unit.span);
            let message = format!("`{}` is told in no unit", self.measure.text);
            let finding = Finding::fault(Code::MarkerUnit, place, message);
            return Err(Some(Box::new(finding.help("leave the unit out"))));
        }
        said.map(Some).ok_or_else(|| self.unknown(sayer.evaluation, &[]))
    }

    /// The measure and what it is of.
    fn found(&self, evaluation: &Evaluation<'_, '_>) -> Result<(&'static Measure, Thing), NoFigure> {
        let name = snell_syntax::fold(self.measure.text);
        let things: Vec<Thing> = match self.part {
            None => vec![Thing::Rig],
            Some((Side::Itself, part)) => self.things(evaluation, part)?,
            Some((side, part)) => self.joins(evaluation, side, part)?,
        };
        let found = things
            .iter()
            .find_map(|thing| Some((measure::of(thing.kind(), &name)?, *thing)));
        found.ok_or_else(|| {
            let what = match self.part {
                None => "a rig".to_owned(),
                Some((Side::Itself, part)) => format!("`{}`", part.text),
                Some((Side::Above | Side::Below, _)) => "a join".to_owned(),
            };
            let known = things
                .iter()
                .flat_map(|thing| measure::all_of(thing.kind()))
                .map(|measure| measure.name)
                .chain(match self.part {
                    None => RigWord::names(),
                    Some((Side::Itself, _)) => PartWord::names(),
                    Some((Side::Above | Side::Below, _)) => Vec::new(),
                });
            let message = format!("`{}` is no measure of {what}", self.measure.text);
            Some(Box::new(near(
                Finding::fault(
                    Code::MarkerMeasure,
                    Place::new(self.text, self.measure.span),
                    message,
                ),
                &name,
                known,
                "`snell why` explains every measure; the reference lists them",
            )))
        })
    }

    /// Where a part meets the one above it or below it.
    fn joins(
        &self,
        evaluation: &Evaluation<'_, '_>,
        side: Side,
        part: Said<'_>,
    ) -> Result<Vec<Thing>, NoFigure> {
        let chain = &evaluation.rig.chain;
        let near = |thing: Thing| match (thing, side) {
            (Thing::Section(id), Side::Below) => chain.join_below(id).map(Thing::Join),
            (Thing::Section(id), Side::Above | Side::Itself) => {
                chain.joins().find(|join| join.lower() == id).map(Thing::Join)
            }
            // A ring is tied with one knot on either side, and a fly with one above it.
            (Thing::Join(_), _) | (Thing::Fly(_), Side::Above) => Some(thing),
            (Thing::Dropper(id), Side::Above) => Some(Thing::Join(chain.dropper(id).join)),
            (Thing::Dropper(id), Side::Below) => Some(Thing::Fly(chain.dropper(id).fly)),
            (Thing::Fly(_) | Thing::Dropper(_) | Thing::Rig | Thing::Gap(_), _) => None,
            (Thing::Shot(_) | Thing::Rod | Thing::Water, _) => None,
        };
        let joins: Vec<Thing> = self
            .things(evaluation, part)?
            .into_iter()
            .filter_map(near)
            .collect();
        if joins.is_empty() {
            let message = format!("nothing is tied there: `{}` has no knot on that side", part.text);
            let finding = Finding::fault(Code::MarkerPart, Place::new(self.text, part.span), message);
            return Err(Some(Box::new(
                finding.help("a piece of line has one where it meets another"),
            )));
        }
        Ok(joins)
    }

    /// The parts of a name: a fly and its dropper may share one.
    fn things(&self, evaluation: &Evaluation<'_, '_>, part: Said<'_>) -> Result<Vec<Thing>, NoFigure> {
        let plain = |name: &str| {
            let words: Vec<&str> = name.split_whitespace().collect();
            snell_syntax::fold(&words.join(" ")).into_owned()
        };
        let all = parts(evaluation);
        let wanted = plain(part.text);
        let things: Vec<Thing> = all
            .iter()
            .filter(|(name, _)| plain(name) == wanted)
            .map(|(_, thing)| *thing)
            .collect();
        if !things.is_empty() {
            return Ok(things);
        }
        let message = format!("the rig `{}` has no part `{}`", evaluation.rig.name, part.text);
        let finding = Finding::fault(Code::MarkerPart, Place::new(self.text, part.span), message);
        let known = all.iter().map(|(name, _)| name.as_str());
        let help = "parts are named as `snell show` names them, by label or role";
        Err(Some(Box::new(near(finding, &wanted, known, help))))
    }

    /// The unit that is asked for, where it fits.
    fn unit(&self, measure: &Measure) -> Result<Option<Resolved>, NoFigure> {
        let Told::Unit(said) = self.told else {
            return Ok(None);
        };
        let fits = |unit: &Resolved| {
            let weight = measure.dimension == snell_units::Dimension::FORCE
                && unit.dimension == snell_units::Dimension::MASS;
            unit.dimension == measure.dimension || weight
        };
        let is_words = matches!(measure.get, Get::Words(_));
        match snell_units::resolve(said.text) {
            Ok(unit) if fits(&unit) && !is_words => Ok(Some(unit)),
            found => {
                let message = match found {
                    Ok(_) => format!("`{}` is not told in `{}`", measure.name, said.text),
                    Err(_) => format!("`{}` is no unit", said.text),
                };
                let fitting: Vec<String> = snell_units::fitting(measure.dimension)
                    .iter()
                    .map(|unit| format!("`{unit}`"))
                    .collect();
                let help = if fitting.is_empty() {
                    "leave the unit out".to_owned()
                } else {
                    format!(
                        "write `in metric`, `in imperial`, or one of {}",
                        fitting.join(", ")
                    )
                };
                let place = Place::new(self.text, said.span);
                Err(Some(Box::new(
                    Finding::fault(Code::MarkerUnit, place, message).help(help),
                )))
            }
        }
    }

    fn unknown(&self, evaluation: &Evaluation<'_, '_>, needs: &[String]) -> NoFigure {
        let place = Place::new(self.text, self.measure.span);
        let of = self
            .part
            .map_or_else(String::new, |(_, part)| format!(" of `{}`", part.text));
        let message = format!(
            "`{}`{of} of `{}` is not known",
            self.measure.text, evaluation.rig.name
        );
        let finding = Finding::fault(Code::MarkerUnknown, place, message);
        Some(Box::new(if needs.is_empty() {
            finding
        } else {
            finding.help(format!("the rig would have to say: {}", needs.join(", ")))
        }))
    }

    fn written(
        &self,
        evaluation: &Evaluation<'_, '_>,
        measure: &Measure,
        thing: Thing,
        value: &Value,
        unit: Option<&Resolved>,
    ) -> String {
        let units = match self.told {
            Told::System(units) => units,
            Told::Unit(_) => Units::Author,
        };
        let told = snell_view::written(evaluation, measure, thing, value, units);
        let about = if told.estimate { "about " } else { "" };
        let Some(unit) = unit else {
            return match &told.between {
                Some(_) => told.told(),
                None => format!("{about}{}", told.text),
            };
        };
        let figure = |si| Quantity::new(si, value.dimension());
        if let Some(between) = &told.between {
            return snell_view::in_unit(figure(value.si()), (between.low, between.high), unit);
        }
        let in_unit = |si| snell_units::write_as(figure(si), unit);
        if value.low() == value.high() {
            format!("{about}{}", in_unit(value.si()))
        } else {
            format!("{about}{} to {}", in_unit(value.low()), in_unit(value.high()))
        }
    }
}

/// Whether a text is a figure and nothing else: numbers, units, and the words between them.
pub(super) fn is_figure(text: &str) -> bool {
    let is_mark = |letter: char| letter.is_whitespace() || "(),".contains(letter);
    let is_number = |word: &str| {
        let mut letters = word.chars();
        letters.any(|letter| letter.is_numeric())
            && word
                .chars()
                .all(|letter| letter.is_numeric() || "./#".contains(letter))
    };
    let joins = |word: &str| matches!(word, "about" | "to" | "times");
    let mut words = text.split(is_mark).filter(|word| !word.is_empty()).peekable();
    words.peek().is_some()
        && text.contains(char::is_numeric)
        && words.all(|word| is_number(word) || joins(word) || snell_units::resolve(word).is_ok())
}

/// Every part of a rig by the name that it is shown under, the rod and the water among them.
fn parts(evaluation: &Evaluation<'_, '_>) -> Vec<(String, Thing)> {
    let rig = evaluation.rig;
    let chain = &rig.chain;
    let sections = chain.sections().map(|(id, _)| Thing::Section(id));
    let droppers = chain.droppers().map(Thing::Dropper);
    let flies = chain.flies().map(|(id, _)| Thing::Fly(id));
    let gaps = chain.gaps().map(Thing::Gap);
    let joins = chain.joins().map(Thing::Join);
    let things = sections.chain(droppers).chain(flies).chain(gaps).chain(joins);
    let mut parts: Vec<(String, Thing)> = things.map(|thing| (rig.name_of(thing), thing)).collect();
    let mut gaps = chain.gaps();
    if let (1, Some(gap)) = (gaps.len(), gaps.next()) {
        parts.push((Kind::Gap.word().to_owned(), Thing::Gap(gap)));
    }
    let ringed = |of: &dyn Fn(&snell_rig::rig::Join<'_>) -> bool, word: &str| {
        let joins: Vec<_> = chain.joins().filter(|id| of(&chain.join(*id))).collect();
        let named = |(number, id): (usize, &snell_rig::thing::JoinId)| {
            let name = match joins.len() {
                1 => word.to_owned(),
                _ => format!("{word} {}", number + 1),
            };
            (name, Thing::Join(*id))
        };
        joins.iter().enumerate().map(named).collect::<Vec<_>>()
    };
    parts.extend(ringed(&|join| join.ring.is_some(), PartKind::Ring.word()));
    parts.extend(ringed(&|join| join.swivel.is_some(), PartKind::Swivel.word()));
    let point = chain.point().map(Thing::Fly);
    parts.extend(point.map(|point| (PartKind::Point.word().to_owned(), point)));
    let around = [Kind::Rod, Kind::Water]
        .into_iter()
        .zip([Thing::Rod, Thing::Water]);
    parts.extend(around.map(|(kind, thing)| (kind.word().to_owned(), thing)));
    parts
}

/// The finding with the nearest name that would do, else with other help.
fn near<'k>(finding: Finding, name: &str, known: impl Iterator<Item = &'k str>, help: &str) -> Finding {
    let place = finding.place();
    match snell_units::nearest(name, known) {
        Some(near) => finding.here(format!("did you mean `{near}`?")).fix(Fix::offered(
            format!("write `{near}`"),
            place,
            near,
        )),
        None => finding.help(help),
    }
}

#[cfg(test)]
mod tests {
    use super::is_figure;

    #[test]
    fn figures_are_told_from_words() {
        for text in [
            "5 m",
            "15 ft 10 in",
            "about 0.117 g",
            "26 in (23 to 26 in)",
            "1 1/2 in",
            "132.1 cm",
        ] {
            assert!(is_figure(text), "{text}");
        }
        for text in [
            "",
            "old",
            "5 m or so",
            "m",
            "about",
            "not 5 m",
            "5 m\n\n![a](b.png)",
            "**5 m**",
        ] {
            assert!(!is_figure(text), "{text}");
        }
    }
}
