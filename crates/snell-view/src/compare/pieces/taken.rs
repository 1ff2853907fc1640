//! The pieces of an evaluated rig, taken from the reel to the point.

use crate::compare::pieces::piece::{Detail, Piece, Trait, TraitKind};
use snell_rig::Evaluation;
use snell_rig::blocks::{Fly, LineSize};
use snell_rig::evaluation::JoinKind;
use snell_rig::lack::Outcome;
use snell_rig::project::BlockId;
use snell_rig::rig::{FlyAt, Part, PartId, Stuff, Tied, What};
use snell_rig::thing::{FlyId, SectionId};

/// The pieces of a rig from the reel to the point.
pub fn pieces<'p>(evaluation: &Evaluation<'_, 'p>) -> Vec<Piece> {
    let chain = &evaluation.rig.chain;
    let piece = |(id, part): (PartId, &Part<'p>)| match id {
        PartId::Section(id) => Some(section(evaluation, id)),
        PartId::Dropper(id) => Some(tied(evaluation, chain.dropper(id).fly)),
        PartId::Inline(id) | PartId::Point(id) => Some(tied(evaluation, id)),
        PartId::Ring(_) | PartId::Swivel(_) | PartId::Shot(_) | PartId::Float(_) => {
            Some(plain(evaluation, part))
        }
        // It is a side of the piece above it.
        PartId::Knot(_) => None,
    };
    chain.parts().filter_map(piece).collect()
}

fn section(evaluation: &Evaluation<'_, '_>, id: SectionId) -> Piece {
    let section = evaluation.rig.chain.section(id);
    let mut traits = Vec::new();
    traits.extend(length(evaluation, evaluation.section_length(id)));
    traits.push(stuff(evaluation, section.part, section.stuff));
    traits.extend(join(evaluation, id));
    Piece {
        role: section.part.kind(),
        label: label(section.part),
        name: evaluation.rig.chain.section_name(id),
        traits,
    }
}

fn label(part: &Part<'_>) -> Option<String> {
    part.label().map(|(line, word)| line.spelled(word).to_owned())
}

/// A part that is told by its size alone.
fn plain<'p>(evaluation: &Evaluation<'_, 'p>, part: &Part<'p>) -> Piece {
    let mut size = text_only(TraitKind::Size, part.given.written_values(), true);
    if let What::Ring { size: Some(fit) } = part.what {
        size.value = evaluation.value(fit).ok().map(|size| size.si());
    }
    Piece {
        role: part.kind(),
        label: None,
        name: part.kind().word().to_owned(),
        traits: vec![size],
    }
}

fn text_only(kind: TraitKind, text: String, stated: bool) -> Trait {
    Trait {
        kind,
        text,
        value: None,
        details: Vec::new(),
        stated,
        system: None,
    }
}

fn length(evaluation: &Evaluation<'_, '_>, outcome: Outcome) -> Option<Trait> {
    let value = outcome.ok()?;
    Some(Trait {
        kind: TraitKind::Length,
        text: evaluation.written(&value),
        value: Some(value.si()),
        details: Vec::new(),
        stated: true,
        system: Some(evaluation.system_of(&value)),
    })
}

/// The knot below a section, and how long its ends are left.
fn join(evaluation: &Evaluation<'_, '_>, id: SectionId) -> Vec<Trait> {
    let Some(id) = evaluation.rig.chain.join_below(id) else {
        return Vec::new();
    };
    let join = evaluation.rig.chain.join(id);
    let mut traits = Vec::new();
    let stated = join.knot.is_some();
    let text = match evaluation.join_kind(id) {
        Some(JoinKind::Through) => Some("through".to_owned()),
        Some(JoinKind::Knot(id) | JoinKind::Ring(id) | JoinKind::Swivel(id)) => {
            Some(evaluation.world.name(id).to_owned())
        }
        None => None,
    };
    traits.extend(text.map(|text| text_only(TraitKind::Knot, text, stated)));
    let tags = join.tags.map(|fit| evaluation.value(fit));
    if let Some(mut tags) = tags.and_then(|tags| length(evaluation, tags)) {
        tags.kind = TraitKind::Tags;
        traits.push(tags);
    }
    traits
}

fn tied(evaluation: &Evaluation<'_, '_>, id: FlyId) -> Piece {
    let chain = &evaluation.rig.chain;
    let fly = chain.fly(id);
    let mut traits = Vec::new();
    let name = match fly.at {
        FlyAt::Dropper(tag) => {
            traits.extend(length(evaluation, evaluation.dropper_length(tag)));
            let own = chain.dropper(tag);
            traits.extend(own.stuff.map(|made| stuff(evaluation, own.part, made)));
            chain.dropper_name(tag)
        }
        FlyAt::Inline | FlyAt::Point => fly.part.kind().word().to_owned(),
    };
    let tied = fly.tied;
    traits.push(Trait {
        kind: TraitKind::Fly,
        text: called(evaluation, tied),
        value: None,
        details: of_fly(evaluation, tied.block, &tied.fly),
        stated: true,
        system: None,
    });
    let knot = evaluation.fly_knot(id);
    traits.extend(knot.map(|id| {
        let name = evaluation.world.name(id).to_owned();
        text_only(TraitKind::FlyKnot, name, tied.knot.is_some())
    }));
    let label = label(fly.part);
    Piece {
        role: fly.part.kind(),
        name: label.clone().unwrap_or(name),
        label,
        traits,
    }
}

/// A fly's title, or its name, or its essentials as they are written.
fn called(evaluation: &Evaluation<'_, '_>, fly: &Tied<'_>) -> String {
    let title = fly
        .block
        .and_then(|id| evaluation.world.project.block(id).title());
    title.map_or_else(|| fly.name.clone(), str::to_owned)
}

fn detail(name: &'static str, text: String) -> Detail {
    let same = text.to_lowercase();
    Detail { name, text, same }
}

fn figure(evaluation: &Evaluation<'_, '_>, name: &'static str, outcome: &Outcome) -> Detail {
    match outcome {
        Ok(value) => Detail {
            name,
            text: evaluation.written(value),
            same: format!("{:.6e} {:.6e}", value.low(), value.high()),
        },
        Err(_) => detail(name, "unknown".to_owned()),
    }
}

fn named(evaluation: &Evaluation<'_, '_>, name: &'static str, id: Option<BlockId>) -> Option<Detail> {
    id.map(|id| detail(name, evaluation.world.name(id).to_owned()))
}

fn stuff(evaluation: &Evaluation<'_, '_>, part: &Part<'_>, stuff: &Stuff<'_>) -> Trait {
    let figure = |name, outcome: &Outcome| figure(evaluation, name, outcome);
    let mut details = Vec::new();
    match (&stuff.measured, &stuff.size) {
        (Some(measured), _) => details.push(figure("diameter", measured)),
        (None, Some(LineSize::Level(size))) => details.push(figure("diameter", size)),
        (None, Some(LineSize::Tapered(upper, lower))) => {
            details.extend([figure("upper diameter", upper), figure("lower diameter", lower)]);
        }
        (None, Some(LineSize::FlyLine(size))) => details.push(detail("weight", format!("#{}", size.written))),
        (None, None) => {}
    }
    details.extend(stuff.rated.as_ref().map(|rated| figure("rated", rated)));
    details.extend(stuff.test.as_ref().map(|test| figure("test", test)));
    details.extend(named(evaluation, "material", stuff.material));
    let colours = stuff.colours.join(" ");
    details.extend((!colours.is_empty()).then(|| detail("colour", colours)));
    details.extend(named(evaluation, "spool", stuff.spool));
    Trait {
        kind: TraitKind::Stuff,
        text: part.written_stuff(),
        value: None,
        details,
        stated: true,
        system: None,
    }
}

fn of_fly(evaluation: &Evaluation<'_, '_>, block: Option<BlockId>, fly: &Fly<'_>) -> Vec<Detail> {
    let figure = |name, outcome: &Outcome| figure(evaluation, name, outcome);
    let mut details = Vec::new();
    details.extend(named(evaluation, "fly", block));
    details.extend(
        fly.hook
            .as_ref()
            .map(|hook| detail("hook", format!("#{}", hook.written))),
    );
    if let Some(bead) = &fly.bead {
        details.push(figure("bead", &bead.size));
        details.extend(named(evaluation, "bead material", bead.material));
        details.extend(bead.slotted.then(|| detail("bead shape", "slotted".to_owned())));
    }
    if let Some(wire) = &fly.wire {
        details.extend(wire.diameter.as_ref().map(|wire| figure("wire", wire)));
        details.extend(named(evaluation, "wire material", wire.material));
        details.extend(wire.turns.as_ref().map(|turns| figure("turns of wire", turns)));
    }
    details.extend(named(evaluation, "dressing", fly.dressing));
    details.extend(fly.mass.as_ref().map(|mass| figure("mass", mass)));
    details.extend(fly.floats.as_ref().map(|floats| figure("lift", floats)));
    details.extend(fly.sinks.as_ref().map(|sinks| figure("sinking speed", sinks)));
    details.extend(fly.barbless.then(|| detail("barb", "none".to_owned())));
    details
}
