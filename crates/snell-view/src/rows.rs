//! The rig as rows from rod to fly.

use super::{Shower, Written};
use snell_rig::evaluation::JoinKind;
use snell_rig::measure::{self, Kind, Thing};
use snell_rig::rig::{FlyAt, OnLineKind};
use snell_rig::value::Outcome;

/// What a row shows.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Place {
    /// A piece of line.
    Section,
    /// What sits between pieces: a ring, a shot, a float.
    Between,
    /// A tag or a fly.
    Fly,
}

/// One row.
#[derive(Clone, Debug)]
pub struct Row {
    /// What it shows.
    pub place: Place,
    /// Its name.
    pub part: String,
    /// Its finished length.
    pub length: Option<Written>,
    /// From its lower end along the line to the point.
    pub to_point: Option<Written>,
    /// Its diameter.
    pub diameter: Option<Written>,
    /// What its label claims.
    pub rated: Option<Written>,
    /// What it is, in the author's words.
    pub what: String,
    /// The knot at its lower end.
    pub knot: String,
}

pub(super) fn rows(shower: &Shower<'_, '_, '_>) -> Vec<Row> {
    let evaluation = shower.evaluation;
    let layout = &evaluation.rig.layout;
    let mut rows = Vec::new();
    for (index, section) in layout.sections.iter().enumerate() {
        let get = |name| written(shower, Thing::Section(index), Kind::Section, name);
        rows.push(Row {
            place: Place::Section,
            part: layout.section_name(index),
            length: get("length"),
            to_point: get("to-point"),
            diameter: get("diameter"),
            rated: get("rated"),
            what: section.part.written_stuff(),
            knot: below(shower, index),
        });
        rows.extend(at(shower, index + 1));
    }
    rows
}

/// What sits below `above` sections.
fn at(shower: &Shower<'_, '_, '_>, above: usize) -> Vec<Row> {
    let evaluation = shower.evaluation;
    let layout = &evaluation.rig.layout;
    let to_point = written(shower, Thing::Section(above - 1), Kind::Section, "to-point");
    let row = |place, part: String, length: Option<Written>, what: String, knot: String| Row {
        place,
        part,
        length,
        to_point: to_point.clone(),
        diameter: None,
        rated: None,
        what,
        knot,
    };
    let mut rows = Vec::new();
    for item in layout.on_line.iter().filter(|item| item.above == above) {
        let part = match item.kind {
            OnLineKind::Shot => "shot",
            OnLineKind::Float => "float",
        };
        rows.push(row(
            Place::Between,
            part.to_owned(),
            None,
            item.given.written_values(),
            String::new(),
        ));
    }
    if let Some(ring) = layout.joins.get(above - 1).and_then(|join| join.ring) {
        let what = ring.line.written(ring.expr.span).to_owned();
        rows.push(row(Place::Between, "ring".to_owned(), None, what, String::new()));
    }
    for (index, fly) in layout
        .flies
        .iter()
        .enumerate()
        .filter(|(_, fly)| fly.above == above)
    {
        let (part, length) = match fly.at {
            FlyAt::Dropper(dropper) => {
                let length = evaluation.dropper_length(dropper);
                (layout.dropper_name(dropper), shower.written(&length))
            }
            FlyAt::Inline => ("inline".to_owned(), None),
            FlyAt::Point => ("point".to_owned(), None),
        };
        let knot = evaluation
            .fly_knot(index)
            .map_or("", |id| evaluation.world.name(id));
        rows.push(row(
            Place::Fly,
            part,
            length,
            fly.described(evaluation.world),
            knot.to_owned(),
        ));
    }
    rows
}

/// The knot below a section.
fn below(shower: &Shower<'_, '_, '_>, index: usize) -> String {
    let evaluation = shower.evaluation;
    if index >= evaluation.rig.layout.joins.len() {
        return String::new();
    }
    match evaluation.join_kind(index) {
        Some(JoinKind::Through) => "goes through".to_owned(),
        Some(JoinKind::Ring(id) | JoinKind::Knot(id)) => evaluation.world.name(id).to_owned(),
        None => String::new(),
    }
}

fn written(shower: &Shower<'_, '_, '_>, thing: Thing, kind: Kind, name: &str) -> Option<Written> {
    let measure = measure::of(kind, name)?;
    let outcome: Outcome = shower.evaluation.measure(measure, thing);
    shower.written(&outcome)
}
