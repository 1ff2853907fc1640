//! The pieces of an evaluated rig, taken from the reel to the point.

use super::{Detail, Piece, Trait, TraitKind};
use snell_rig::Evaluation;
use snell_rig::blocks::{Fly, LineSize};
use snell_rig::evaluation::JoinKind;
use snell_rig::project::BlockId;
use snell_rig::rig::{FlyAt, FlyOn, OnLineKind, Part, Stuff};
use snell_rig::value::Outcome;

/// The pieces of a rig from the reel to the point.
pub fn pieces(evaluation: &Evaluation<'_, '_>) -> Vec<Piece> {
    let layout = &evaluation.rig.layout;
    let mut pieces = Vec::new();
    at(evaluation, 0, &mut pieces);
    for (index, section) in layout.sections.iter().enumerate() {
        let mut traits = Vec::new();
        traits.extend(length(evaluation, evaluation.section_length(index)));
        traits.push(stuff(evaluation, &section.part, &section.stuff));
        traits.extend(join(evaluation, index));
        pieces.push(Piece {
            role: section.role,
            label: label(&section.part),
            name: layout.section_name(index),
            traits,
        });
        at(evaluation, index + 1, &mut pieces);
    }
    pieces
}

fn label(part: &Part<'_>) -> Option<String> {
    part.label().map(|(line, word)| line.spelled(word).to_owned())
}

/// What sits below `above` sections.
fn at(evaluation: &Evaluation<'_, '_>, above: usize, pieces: &mut Vec<Piece>) {
    let layout = &evaluation.rig.layout;
    for item in layout.on_line.iter().filter(|item| item.above == above) {
        let role = match item.kind {
            OnLineKind::Shot => "shot",
            OnLineKind::Float => "float",
        };
        pieces.push(plain(role, item.given.written_values()));
    }
    let join = above.checked_sub(1).and_then(|join| layout.joins.get(join));
    if let Some(ring) = join.and_then(|join| join.ring) {
        let mut piece = plain("ring", ring.line.written(ring.expr.span).to_owned());
        if let Ok(size) = evaluation.value(ring) {
            piece.traits[0].value = Some(size.si());
        }
        pieces.push(piece);
    }
    for (index, fly) in layout
        .flies
        .iter()
        .enumerate()
        .filter(|(_, fly)| fly.above == above)
    {
        pieces.push(tied(evaluation, index, fly));
    }
}

fn plain(role: &'static str, text: String) -> Piece {
    Piece {
        role,
        label: None,
        name: role.to_owned(),
        traits: vec![text_only(TraitKind::Size, text, true)],
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
fn join(evaluation: &Evaluation<'_, '_>, index: usize) -> Vec<Trait> {
    let Some(join) = evaluation.rig.layout.joins.get(index) else {
        return Vec::new();
    };
    let mut traits = Vec::new();
    let stated = join.knot.is_some();
    let text = match evaluation.join_kind(index) {
        Some(JoinKind::Through) => Some("through".to_owned()),
        Some(JoinKind::Knot(id) | JoinKind::Ring(id)) => Some(evaluation.world.name(id).to_owned()),
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

fn tied(evaluation: &Evaluation<'_, '_>, index: usize, fly: &FlyOn<'_>) -> Piece {
    let layout = &evaluation.rig.layout;
    let mut traits = Vec::new();
    let (role, name) = match fly.at {
        FlyAt::Dropper(dropper) => {
            traits.extend(length(evaluation, evaluation.dropper_length(dropper)));
            let own = &layout.droppers[dropper];
            traits.extend(own.stuff.as_ref().map(|made| stuff(evaluation, &own.part, made)));
            ("dropper", layout.dropper_name(dropper))
        }
        FlyAt::Inline => ("inline", "inline".to_owned()),
        FlyAt::Point => ("point", "point".to_owned()),
    };
    traits.push(Trait {
        kind: TraitKind::Fly,
        text: called(evaluation, fly),
        value: None,
        details: of_fly(evaluation, fly.block, &fly.fly),
        stated: true,
        system: None,
    });
    let knot = evaluation.fly_knot(index);
    traits.extend(knot.map(|id| {
        let name = evaluation.world.name(id).to_owned();
        text_only(TraitKind::FlyKnot, name, fly.knot.is_some())
    }));
    let label = label(&fly.part);
    Piece {
        role,
        name: label.clone().unwrap_or(name),
        label,
        traits,
    }
}

/// A fly's title, or its name, or its essentials as they are written.
fn called(evaluation: &Evaluation<'_, '_>, fly: &FlyOn<'_>) -> String {
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
