//! How likely a rig does what it is to do, in words: `in time 7 of 10 (time the point fly to know)`.

use super::shown::ShownChance;
use snell_rig::Evaluation;
use snell_rig::measure::{Input, Thing};
use snell_rules::Chance;

/// What is likelier goes without saying.
const SURE: f64 = 0.95;

pub(super) fn shown(evaluation: &Evaluation<'_, '_>, chances: &[Chance]) -> Vec<ShownChance> {
    let one = |chance: &Chance| ShownChance {
        measure: chance.measure.name,
        of: match chance.thing {
            Thing::Rig => None,
            thing => Some(evaluation.rig.name_of(thing)),
        },
        chance: chance.holds,
        hangs_on: chance.moved_by.map(remedy),
    };
    chances.iter().map(one).collect()
}

/// The least likely thing that is asked of the rig as a whole, in words; nothing where all is sure. How a fly drags in water
/// that is shallower than it was told hangs on line that anybody would take in, so that is left to the figures.
pub(super) fn told(chances: &[ShownChance]) -> Option<String> {
    let of_rig = chances.iter().find(|chance| chance.of.is_none());
    let least = of_rig.filter(|chance| chance.chance < SURE)?;
    let tenths = (least.chance * 10.0).round();
    let remedy = least
        .hangs_on
        .map_or_else(String::new, |remedy| format!(" ({remedy} to know)"));
    Some(format!("in time {tenths} of 10{remedy}"))
}

/// What to do about an input that is not known well.
pub(crate) const fn remedy(input: Input) -> &'static str {
    match input {
        Input::PointDrag => "time the point fly in still water",
        Input::OtherDrag => "time the upper fly in still water",
        Input::HookAndDressing => "weigh the flies",
        Input::Bead => "measure the bead",
        Input::Grain => "say what lies on the bed",
        Input::Speed => "time the surface over ten paces",
        Input::Depth => "sound the depth",
        Input::LineDrag | Input::LineDiameter => "measure the tippet",
    }
}
