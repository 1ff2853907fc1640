//! What is varied and to what: a part or a line of the rig, or a figure of its water.

use crate::fit::{ToWater, target_of};
use snell_rig::Evaluation;
use snell_rig::keywords::Setting;
use snell_rig::measure::{self, Kind, Thing};
use snell_rig::rig::{Chain, FlyAt};
use snell_rig::thing::{FlyId, SectionId};
use snell_units::Dimension;

/// What a command line asks for, each as the language writes it.
#[derive(Clone, Debug, Default)]
pub struct Vary {
    /// The part, the line of the rig, or the figure of its water.
    pub target: String,
    /// What it is to be, one after the other.
    pub values: Vec<String>,
}

/// What one value makes of a rig.
pub(super) enum Made {
    /// A rig made from it, with these lines.
    Lines(Vec<String>),
    /// The same rig in another water.
    Water(ToWater),
}

/// A figure of the water: its name, and the water with it.
type OfWater = (&'static str, fn(String) -> ToWater);

/// Figures of a water that may be varied.
const OF_WATER: [OfWater; 4] = [
    ("depth", |depth| ToWater {
        depth: Some(depth),
        ..ToWater::default()
    }),
    ("speed", |speed| ToWater {
        speed: Some(speed),
        ..ToWater::default()
    }),
    ("temperature", |temperature| ToWater {
        temperature: Some(temperature),
        ..ToWater::default()
    }),
    ("bed", |bed| ToWater {
        bed: Some(bed),
        ..ToWater::default()
    }),
];

/// What is shorter is a bead's diameter or a line's, and no length of a piece, m. Source: common practice, no source.
const BEADS_END: f64 = 0.01;

impl Vary {
    /// What the words of a command line ask for: `5X 6X`, `2.4 mm 2.8 mm`, `"#14 2.8 mm tungsten"`. A number and the unit
    /// behind it are one value.
    pub fn of_words(target: &str, words: &[String]) -> Self {
        let mut values: Vec<String> = Vec::new();
        let mut number = None;
        for word in words {
            match number.take() {
                Some(number) if snell_units::resolve(word).is_ok() => values.push(format!("{number} {word}")),
                earlier => {
                    values.extend(earlier);
                    match is_number(word) {
                        true => number = Some(word.clone()),
                        false => values.push(word.clone()),
                    }
                }
            }
        }
        values.extend(number);
        Self {
            target: target.to_lowercase(),
            values,
        }
    }

    /// What each value makes of a rig.
    ///
    /// # Errors
    /// The rig has no such part.
    pub(super) fn made(&self, evaluation: &Evaluation<'_, '_>) -> Result<Vec<(String, Made)>, String> {
        let made = |value: &String| Ok((value.clone(), self.one(evaluation, value)?));
        self.values.iter().map(made).collect()
    }

    fn one(&self, evaluation: &Evaluation<'_, '_>, value: &str) -> Result<Made, String> {
        let target = self.target.as_str();
        if let Some((_, water)) = OF_WATER.iter().find(|(name, _)| *name == target) {
            return Ok(Made::Water(water(value.to_owned())));
        }
        if Setting::of(target).is_some() {
            return Ok(Made::Lines(vec![format!("{target} {value}")]));
        }
        let lines = part_lines(evaluation, target, value);
        if lines.is_empty() {
            return Err(unknown(evaluation, target));
        }
        Ok(Made::Lines(lines))
    }
}

fn is_number(word: &str) -> bool {
    let starts = word.starts_with(|letter: char| letter.is_ascii_digit() || "½¼¾.".contains(letter));
    starts
        && word
            .chars()
            .all(|letter| letter.is_ascii_digit() || "½¼¾.,/".contains(letter))
}

/// The `change` lines that give every part of a name a value.
fn part_lines(evaluation: &Evaluation<'_, '_>, target: &str, value: &str) -> Vec<String> {
    let chain = &evaluation.rig.chain;
    let sections = chain
        .sections()
        .filter(|(id, section)| chain.section_name(*id) == target || section.role.word() == target);
    let sections = sections.map(|(id, _)| {
        let stuff = with_material(evaluation, id, value);
        format!("change {} to {stuff}", chain.section_name(id))
    });
    let flies = chain
        .flies()
        .filter(|(id, _)| names_of(chain, *id).contains(&target.to_owned()));
    let flies = flies.map(|(id, on)| match on.at {
        FlyAt::Dropper(tag) if is_tag_length(value) => {
            format!("change {} to {value}", chain.dropper_name(tag))
        }
        FlyAt::Dropper(tag) => {
            format!(
                "change {} to with {}",
                chain.dropper_name(tag),
                fly(evaluation, id, value)
            )
        }
        FlyAt::Point | FlyAt::Inline => {
            format!(
                "change {} to {}",
                target_of(evaluation.rig, id),
                fly(evaluation, id, value)
            )
        }
    });
    sections.chain(flies).collect()
}

/// How a person may name a fly: by its place, or as the rig calls it.
fn names_of(chain: &Chain<'_>, id: FlyId) -> Vec<String> {
    let place = match chain.fly(id).at {
        FlyAt::Point => vec!["point".to_owned()],
        FlyAt::Dropper(tag) => vec![chain.dropper_name(tag), "dropper".to_owned()],
        FlyAt::Inline => vec!["inline".to_owned()],
    };
    place
        .into_iter()
        .chain([chain.fly_name(id).to_lowercase()])
        .collect()
}

/// A size keeps the material of the piece; a length, or what names its own material, stands as it is.
fn with_material(evaluation: &Evaluation<'_, '_>, id: SectionId, value: &str) -> String {
    let is_size = value.ends_with(['X', 'x']) && !value.contains(' ') || thin(value).is_some();
    let material =
        measure::of(Kind::Section, "material").map(|measure| measure.words(evaluation, Thing::Section(id)));
    match material.as_deref() {
        Some([material, ..]) if is_size => format!("{value} {material}"),
        _ => value.to_owned(),
    }
}

/// A bead keeps the hook and the metal of the fly; all else is a fly.
fn fly(evaluation: &Evaluation<'_, '_>, id: FlyId, value: &str) -> String {
    let fly = &evaluation.rig.chain.fly(id).tied.fly;
    if thin(value).is_none() {
        return value.to_owned();
    }
    let hook = fly.hook.as_ref().map(|hook| format!("#{} ", hook.written));
    let metal = snell_rig::fly_box::bead_material(evaluation.world, fly);
    let metal = metal.map(|metal| format!(" {}", evaluation.world.name(metal)));
    format!("{}{value}{}", hook.unwrap_or_default(), metal.unwrap_or_default())
}

fn is_tag_length(value: &str) -> bool {
    length(value).is_some_and(|length| length > BEADS_END)
}

fn thin(value: &str) -> Option<f64> {
    length(value).filter(|length| *length <= BEADS_END)
}

/// A value that is nothing but a length, in metres.
fn length(value: &str) -> Option<f64> {
    let (number, unit) = value.split_once(' ')?;
    let quantity = snell_units::resolve(unit).ok()?.quantity(number.parse().ok()?);
    (quantity.dimension == Dimension::LENGTH).then_some(quantity.si)
}

fn unknown(evaluation: &Evaluation<'_, '_>, target: &str) -> String {
    let chain = &evaluation.rig.chain;
    let mut known: Vec<String> = chain.sections().map(|(id, _)| chain.section_name(id)).collect();
    known.extend(chain.flies().map(|(id, _)| names_of(chain, id).swap_remove(0)));
    let roles = chain
        .sections()
        .map(|(_, section)| section.role.word().to_owned());
    for role in roles {
        if !known.contains(&role) {
            known.push(role);
        }
    }
    known.extend(Setting::ALL.iter().map(|setting| setting.word().to_owned()));
    known.extend(OF_WATER.iter().map(|(name, _)| (*name).to_owned()));
    let near = snell_units::nearest(target, known.iter().map(String::as_str));
    let help = near.map_or_else(
        || format!("there are {}", known.join(", ")),
        |near| format!("did you mean `{near}`?"),
    );
    format!(
        "`{}` has no `{target}` that could be varied; {help}",
        evaluation.rig.name
    )
}
