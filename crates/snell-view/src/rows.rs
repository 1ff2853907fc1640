//! The rig as rows from rod to fly.

use crate::shower::Shower;
use crate::shown::Place;
use crate::shown::Row;
use crate::written::Written;
use snell_rig::evaluation::JoinKind;
use snell_rig::lack::Outcome;
use snell_rig::measure::{self, Kind, Thing};
use snell_rig::rig::{Part, PartId};
use snell_rig::thing::{FlyId, SectionId};

pub(super) fn rows(shower: &Shower<'_, '_, '_>) -> Vec<Row> {
    let chain = &shower.evaluation.rig.chain;
    let mut to_point = None;
    let mut rows = Vec::new();
    for (id, part) in chain.parts() {
        let row = match id {
            PartId::Section(id) => {
                let row = section(shower, id);
                to_point.clone_from(&row.to_point);
                row
            }
            PartId::Shot(_) | PartId::Float(_) | PartId::Ring(_) | PartId::Swivel(_) => {
                between(part, to_point.clone())
            }
            PartId::Dropper(id) => {
                let length = shower.written(&shower.evaluation.dropper_length(id));
                let name = chain.dropper_name(id);
                tied(shower, chain.dropper(id).fly, name, length, to_point.clone())
            }
            PartId::Inline(id) | PartId::Point(id) => {
                let name = part.kind().word().to_owned();
                tied(shower, id, name, None, to_point.clone())
            }
            // It is told at the piece above it.
            PartId::Knot(_) => continue,
        };
        rows.push(row);
    }
    rows
}

fn section(shower: &Shower<'_, '_, '_>, id: SectionId) -> Row {
    let chain = &shower.evaluation.rig.chain;
    let get = |name| written(shower, Thing::Section(id), Kind::Section, name);
    Row {
        place: Place::Section,
        part: chain.section_name(id),
        length: get("length"),
        to_point: get("to-point"),
        diameter: get("diameter"),
        rated: get("rated"),
        what: chain.section(id).part.written_stuff(),
        knot: below(shower, id),
    }
}

/// What sits on the line or joins two pieces of it.
fn between(part: &Part<'_>, to_point: Option<Written>) -> Row {
    Row {
        place: Place::Between,
        part: part.kind().word().to_owned(),
        length: None,
        to_point,
        diameter: None,
        rated: None,
        what: part.given.written_values(),
        knot: String::new(),
    }
}

fn tied(
    shower: &Shower<'_, '_, '_>,
    id: FlyId,
    part: String,
    length: Option<Written>,
    to_point: Option<Written>,
) -> Row {
    let evaluation = shower.evaluation;
    let knot = evaluation.fly_knot(id);
    Row {
        place: Place::Fly,
        part,
        length,
        to_point,
        diameter: None,
        rated: None,
        what: evaluation.rig.chain.fly(id).tied.described(evaluation.world),
        knot: knot.map_or("", |id| evaluation.world.name(id)).to_owned(),
    }
}

/// The knot below a section.
fn below(shower: &Shower<'_, '_, '_>, id: SectionId) -> String {
    let evaluation = shower.evaluation;
    let join = evaluation.rig.chain.join_below(id);
    match join.and_then(|join| evaluation.join_kind(join)) {
        Some(JoinKind::Through) => "goes through".to_owned(),
        Some(JoinKind::Ring(id) | JoinKind::Swivel(id) | JoinKind::Knot(id)) => {
            evaluation.world.name(id).to_owned()
        }
        None => String::new(),
    }
}

fn written(shower: &Shower<'_, '_, '_>, thing: Thing, kind: Kind, name: &str) -> Option<Written> {
    let measure = measure::of(kind, name)?;
    let outcome: Outcome = shower.evaluation.measure(measure, thing);
    shower.written(&outcome)
}
