//! The verdict on a rig in its water: whether it fishes there, where it parts, how often its flies can be changed, and
//! what is dangerous. The answer stands first; the figures behind it are for those who ask.

mod casts;
pub(crate) mod chances;
pub(crate) mod shown;

use self::shown::{
    ShownBreak, ShownCastBy, ShownChance, ShownFishes, ShownLeft, ShownParting, ShownReason, ShownVerdict,
};
use crate::need::needs_of;
use crate::rounding::to_tenths;
use crate::shower::written;
use crate::written::Units;
use snell_rig::Evaluation;
use snell_rig::keywords::{Decides, Method};
use snell_rig::measure::{self, Break, Kind, PartsAt, Thing, drifting, parting};
use snell_rig::thing::{DropperId, FlyId};
use snell_rules::{Books, Deciding, Found, Verdict};
use snell_units::in_order;

/// The verdict on a rig.
pub fn verdict<'p>(books: &Books<'_, 'p>, evaluation: &Evaluation<'_, 'p>, units: Units) -> ShownVerdict {
    let chances = |deciding: &Deciding<'p>| chances::shown(evaluation, &deciding.chances(evaluation));
    of(books, evaluation, units, chances)
}

/// The verdict on a rig in at most three lines, without chances, which take long to draw.
pub fn in_short<'p>(books: &Books<'_, 'p>, evaluation: &Evaluation<'_, 'p>, units: Units) -> Vec<String> {
    of(books, evaluation, units, |_| Vec::new()).answer
}

/// Whether a rig fishes in its water; nothing where that cannot be told, or where no rule asks it of such a rig.
pub fn fishes<'p>(books: &Books<'_, 'p>, evaluation: &Evaluation<'_, 'p>) -> Option<bool> {
    against(books, evaluation).map(|against| against.is_none())
}

/// What stands against a rig in its water first, if anything does; nothing where that cannot be told.
pub(crate) fn against<'p>(books: &Books<'_, 'p>, evaluation: &Evaluation<'_, 'p>) -> Option<Option<String>> {
    if evaluation.rig.broken {
        return None;
    }
    match fishing(books, evaluation).verdict(evaluation) {
        Verdict::Holds => Some(None),
        Verdict::Breaks(found) => Some(found.first().map(|found| found.finding.message.clone())),
        Verdict::Untold(_) | Verdict::Unasked => None,
    }
}

/// The rules on which it hangs whether a rig fishes.
pub(crate) fn fishing<'p>(books: &Books<'_, 'p>, evaluation: &Evaluation<'_, 'p>) -> Deciding<'p> {
    let (world, rig) = (evaluation.world, evaluation.rig);
    let deciding = Deciding::of(books, world, rig, Decides::Fishing);
    match rig.settings.method {
        Some(_) => deciding,
        // They say that it lacks a method.
        None => deciding.with_those_of(books, world, rig, Method::TightLine, Decides::Fishing),
    }
}

fn of<'p>(
    books: &Books<'_, 'p>,
    evaluation: &Evaluation<'_, 'p>,
    units: Units,
    chances: impl FnOnce(&Deciding<'p>) -> Vec<ShownChance>,
) -> ShownVerdict {
    let rig = evaluation.rig;
    if rig.broken {
        return ShownVerdict::default();
    }
    let deciding = fishing(books, evaluation);
    let fishes = match deciding.verdict(evaluation) {
        Verdict::Holds => Some((Some(true), Vec::new(), Vec::new())),
        Verdict::Breaks(found) => Some((Some(false), reasons(&found), Vec::new())),
        Verdict::Untold(lack) => Some((None, Vec::new(), needs_of(evaluation, &lack))),
        Verdict::Unasked => None,
    };
    let danger = match Deciding::of(books, evaluation.world, rig, Decides::Standing).verdict(evaluation) {
        Verdict::Breaks(found) => reasons(&found),
        Verdict::Holds | Verdict::Untold(_) | Verdict::Unasked => Vec::new(),
    };
    let mut shown = ShownVerdict {
        fishes: fishes.map(|(yes, reasons, needs)| ShownFishes {
            yes,
            how: how_it_rides(evaluation, units),
            chances: chances(&deciding),
            reasons,
            needs: needs.iter().map(ToString::to_string).collect(),
        }),
        parts: rig
            .chain
            .flies()
            .filter_map(|(id, _)| parts(evaluation, id))
            .collect(),
        casts: casts::shown(evaluation),
        left: rig
            .chain
            .droppers()
            .filter_map(|id| left(evaluation, id))
            .collect(),
        danger,
        answer: Vec::new(),
    };
    shown.answer = answer(evaluation, &shown);
    shown
}

fn reasons(found: &[Found]) -> Vec<ShownReason> {
    let reason = |found: &Found| ShownReason {
        rule: found.finding.code.to_string(),
        message: found.finding.message.clone(),
    };
    found.iter().map(reason).collect()
}

fn parts(evaluation: &Evaluation<'_, '_>, id: FlyId) -> Option<ShownParting> {
    let parting = parting(evaluation, id).ok()?;
    let names = |flies: &[FlyId]| flies.iter().map(|id| fly_name(evaluation, *id)).collect();
    let shown = |one: &Break| ShownBreak {
        place: match one.at {
            PartsAt::OwnKnot => "at its own knot".to_owned(),
            PartsAt::Join(join) => {
                let name = |id| evaluation.rig.chain.section_name(id);
                format!("where {} meets {}", name(join.upper()), name(join.lower()))
            }
        },
        lost: names(&one.lost),
    };
    Some(ShownParting {
        snagged: fly_name(evaluation, id),
        at: parting.at.iter().map(shown).collect(),
        sure: parting.at.len() == 1,
    })
}

fn left(evaluation: &Evaluation<'_, '_>, id: DropperId) -> Option<ShownLeft> {
    let changes = measure::of(Kind::Dropper, "changes")?;
    let changes = evaluation.measure(changes, Thing::Dropper(id)).ok()?;
    let mut flies = evaluation.rig.chain.flies();
    let (fly, _) = flies.find(|(_, fly)| fly.at == snell_rig::rig::FlyAt::Dropper(id))?;
    Some(ShownLeft {
        fly: fly_name(evaluation, fly),
        changes: changes.si().max(0.0) as u32,
    })
}

fn fly_name(evaluation: &Evaluation<'_, '_>, id: FlyId) -> String {
    evaluation.rig.name_of(Thing::Fly(id))
}

/// At most three lines: whether it fishes, where it parts, and the danger or what is left on the tags.
fn answer(evaluation: &Evaluation<'_, '_>, shown: &ShownVerdict) -> Vec<String> {
    let fishes = shown
        .fishes
        .as_ref()
        .and_then(|fishes| whether_it_fishes(evaluation, fishes));
    let point = evaluation.rig.chain.point().map(|id| fly_name(evaluation, id));
    let snagged = shown
        .parts
        .iter()
        .find(|parting| Some(&parting.snagged) == point.as_ref());
    let last = shown
        .dangerous()
        .or_else(|| uncarried(shown))
        .or_else(|| tags(&shown.left));
    fishes
        .into_iter()
        .chain(snagged.map(snagged_point))
        .chain(last)
        .collect()
}

fn whether_it_fishes(evaluation: &Evaluation<'_, '_>, fishes: &ShownFishes) -> Option<String> {
    let name = &evaluation.rig.name;
    match (fishes.yes, fishes.reasons.as_slice()) {
        (Some(true), _) => {
            let told = [fishes.how.clone(), chances::told(&fishes.chances)];
            let told: Vec<String> = told.into_iter().flatten().collect();
            Some(match told.is_empty() {
                true => format!("{name} fishes here"),
                false => format!("{name} fishes here: {}", told.join("; ")),
            })
        }
        (Some(false), [first, others @ ..]) => {
            let others = match others {
                [] => String::new(),
                others => format!(" (and {} more)", others.len()),
            };
            let likely = chances::told(&fishes.chances).map(|chance| format!("; {chance}"));
            let likely = likely.unwrap_or_default();
            Some(format!(
                "{name} does not fish here: {}{others}{likely}",
                first.message
            ))
        }
        (Some(false), []) => None,
        (None, _) => {
            // Without a water nobody asks.
            evaluation.rig.settings.water.as_ref()?;
            Some(format!(
                "whether {name} fishes here cannot be told; it needs {}",
                fishes.needs.join(", ")
            ))
        }
    }
}

/// `the point is down in about 1.9 s, 4 in off the bed; slate rides at 15 in`
fn how_it_rides(evaluation: &Evaluation<'_, '_>, units: Units) -> Option<String> {
    let told = |kind, name, thing| {
        let measure = measure::of(kind, name)?;
        let value = evaluation.measure(measure, thing).ok()?;
        Some(to_tenths(
            &written(evaluation, measure, thing, &value, units).text,
        ))
    };
    let mut said = Vec::new();
    if let Some(time) = told(Kind::Rig, "sink-time", Thing::Rig) {
        said.push(format!("the point is down in about {time}"));
    }
    let on_bed = drifting(evaluation).is_ok_and(|state| state.is_on_bed());
    let point = evaluation.rig.chain.point();
    if on_bed {
        said.push("on the bed".to_owned());
    } else if let Some(height) = point.and_then(|id| told(Kind::Fly, "off-bed", Thing::Fly(id))) {
        said.push(format!("{height} off the bed"));
    }
    let others = evaluation.rig.chain.flies().filter(|(id, _)| Some(*id) != point);
    let others = others.filter_map(|(id, _)| {
        let depth = told(Kind::Fly, "rides", Thing::Fly(id))?;
        Some(format!("{} at {depth}", fly_name(evaluation, id)))
    });
    let others: Vec<String> = others.collect();
    let told = [said.join(", "), others.join(", ")];
    let told: Vec<String> = told.into_iter().filter(|words| !words.is_empty()).collect();
    (!told.is_empty()).then(|| told.join("; "))
}

impl ShownVerdict {
    /// Whether it fishes, as far as that can be told.
    pub(crate) fn is_fishing(&self) -> bool {
        self.fishes
            .as_ref()
            .is_some_and(|fishes| fishes.yes == Some(true))
    }

    /// How its flies ride, where it drifts.
    pub(crate) fn how(&self) -> Option<&str> {
        self.fishes.as_ref()?.how.as_deref()
    }

    /// What is dangerous about standing there, first.
    pub(crate) fn dangerous(&self) -> Option<String> {
        let danger = self.danger.first()?;
        Some(match self.is_fishing() {
            true => format!("right for the fish, not for you: {}", danger.message),
            false => danger.message.clone(),
        })
    }
}

/// That nothing carries the cast, where that is so.
fn uncarried(shown: &ShownVerdict) -> Option<String> {
    let cast = shown.casts.as_ref()?;
    (cast.by == ShownCastBy::Neither).then(|| format!("the cast: {}", cast.text))
}

/// `a snagged point parts at its own knot: one fly lost`
fn snagged_point(parting: &ShownParting) -> String {
    let places: Vec<&str> = parting.at.iter().map(|one| one.place.as_str()).collect();
    let mut counts: Vec<usize> = parting.at.iter().map(|one| one.lost.len()).collect();
    in_order(&mut counts, Ord::cmp);
    counts.dedup();
    let flies = if counts == [1] { "fly" } else { "flies" };
    let counts = match counts.as_slice() {
        [least, .., most] if counts.len() > 2 => format!("{least} to {most}"),
        few => {
            let few: Vec<String> = few.iter().map(usize::to_string).collect();
            few.join(" or ")
        }
    };
    format!(
        "a snagged point parts {}: {counts} {flies} lost",
        places.join(", or ")
    )
}

fn tags(left: &[ShownLeft]) -> Option<String> {
    let changes = |left: &ShownLeft| match left.changes {
        1 => "1 change left".to_owned(),
        several => format!("{several} changes left"),
    };
    if let [first, _, ..] = left
        && left.iter().all(|one| one.changes == first.changes)
    {
        return Some(format!("{} on each of its {} tags", changes(first), left.len()));
    }
    let one = |left: &ShownLeft| format!("{} on the tag of {}", changes(left), left.fly);
    let told: Vec<String> = left.iter().map(one).collect();
    (!told.is_empty()).then(|| told.join(", "))
}
