//! Parts, casts and waters in the words that one says at the bank.

use super::water::{Asked, WrittenWater};
use crate::written::{Units, Written};
use snell_rig::keywords::{Cast, SectionRole, SpeedOf};
use snell_rig::rig::{Chain, FlyAt, Rig};
use snell_rig::thing::DropperId;
use snell_rig::{Evaluation, World};
use snell_rules::fit::Target;

pub(super) fn cast(cast: Cast) -> &'static str {
    match cast {
        Cast::Up => "cast straight up the stream",
        Cast::Down => "cast straight down the stream",
        Cast::Tuck => "cast with a tuck, the flies in first",
    }
}

/// What a part is called at the bank.
pub(super) fn part(chain: &Chain<'_>, target: Target) -> String {
    let dropper = |id: DropperId| match chain.dropper(id).part.label() {
        Some((_, label)) => label.folded.to_string(),
        None if chain.droppers().len() > 1 => chain.dropper_name(id),
        None => "the dropper".to_owned(),
    };
    match target {
        Target::Section(id) => match chain.section(id).part.label() {
            Some((_, label)) if label.folded.contains("tippet") => format!("the {}", label.folded),
            Some((_, label)) => format!("the {} tippet", label.folded),
            None if chain.section_name(id) == SectionRole::Tippet.word() => "the tippet".to_owned(),
            None => chain.section_name(id),
        },
        Target::Tag(id) => format!("the tag of {}", dropper(id)),
        Target::Fly(id) => match chain.fly(id).at {
            FlyAt::Point => "the point".to_owned(),
            FlyAt::Dropper(tag) => format!("the fly on {}", dropper(tag)),
            FlyAt::Inline => format!("{} on the line", chain.fly_name(id)),
        },
        Target::Cast => "the cast".to_owned(),
    }
}

/// A water in words: its name, depth, speed and bed.
pub(crate) fn water<'p>(world: &World<'p>, asked: &Asked, units: Units, rig: &Rig<'p>) -> String {
    let Some(stated) = &asked.water else {
        return "no water is said".to_owned();
    };
    let evaluation = Evaluation::new(world, rig);
    let text = |value: &snell_rig::lack::Outcome| {
        let value = value.as_ref().ok()?;
        Some(Written::of(value, units, &evaluation).text)
    };
    let water = &stated.value;
    let which = match water.speed.1 {
        SpeedOf::Surface => "at the surface",
        SpeedOf::Mean => "in the mean",
    };
    let grain = water.grain.as_ref().and_then(text);
    let bed = water.bed.map(|id| world.name(id).to_owned());
    let bed = bed.or_else(|| grain.map(|grain| format!("stones of {grain}")));
    let figures = [
        text(&water.depth).map(|depth| format!("{depth} deep")),
        text(&water.speed.0).map(|speed| format!("{speed} {which}")),
        bed.map(|bed| format!("over {bed}")),
        text(&water.temperature),
    ];
    let figures = figures.into_iter().flatten().collect::<Vec<_>>().join(", ");
    match (name(world, asked), &asked.written) {
        (Some(name), WrittenWater::Varied(..)) => format!("{name}, taken as {figures}"),
        (Some(name), _) => format!("{name}, {figures}"),
        (None, _) => figures,
    }
}

/// What the water is called: by its title, or its name.
fn name(world: &World<'_>, asked: &Asked) -> Option<String> {
    let id = asked.named?;
    let title = world.project.block(id).title();
    Some(title.map_or_else(|| world.name(id).to_owned(), str::to_owned))
}
