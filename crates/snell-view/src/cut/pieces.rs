//! Pieces as they are shown: what each makes, how long it is cut, and what that
//! length is made up of.

use crate::need::{ShownAssumed, told_needs};
use crate::rounding::to_tenths;
use crate::written::{Units, Written};
use serde::Serialize;
use snell_rig::Evaluation;
use snell_rig::cut::{Makes, Part, Piece, Takes, length};

/// A rig with what to cut for it.
#[derive(Debug, Serialize)]
pub struct CutRig {
    /// Its name.
    pub name: String,
    /// Its title for people.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub title: Option<String>,
    /// The file that it stands in.
    pub file: String,
    /// Its pieces in tying order.
    pub pieces: Vec<CutPiece>,
    /// Whether a part of it has a fault, so that something to cut is not in the list.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    pub incomplete: bool,
    /// What was taken because the rig leaves it unsaid.
    pub assumed: Vec<ShownAssumed>,
}

/// A piece to cut.
#[derive(Debug, Serialize)]
pub struct CutPiece {
    /// What it makes: a part, or several that go through in one.
    pub name: String,
    /// What it is cut from, as the rig writes it.
    pub of: String,
    /// How long to cut it, rounded up to what a person cuts.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub cut: Option<Written>,
    /// The finished length of what it makes.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub finished: Option<Written>,
    /// What comes to the finished length, from the upper end down.
    pub allowances: Vec<Allowance>,
    /// What is missing: without it the piece must be longer than `cut` says.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub lacks: Vec<String>,
}

/// What is added to a finished length.
#[derive(Debug, Serialize)]
pub struct Allowance {
    /// For what.
    #[serde(rename = "for")]
    pub purpose: String,
    /// How much, where it is known.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub length: Option<Written>,
}

pub(super) fn show(
    evaluation: &Evaluation<'_, '_>,
    pieces: &[Piece<'_, '_>],
    units: Units,
    file: String,
) -> CutRig {
    let pieces = pieces
        .iter()
        .map(|piece| shown(evaluation, piece, units))
        .collect();
    CutRig {
        name: evaluation.rig.name.clone(),
        title: evaluation.rig.title().map(str::to_owned),
        file,
        pieces,
        incomplete: evaluation.rig.holes,
        assumed: ShownAssumed::all(evaluation),
    }
}

fn shown(evaluation: &Evaluation<'_, '_>, piece: &Piece<'_, '_>, units: Units) -> CutPiece {
    let system = evaluation.system();
    let written = |metres: f64| Written::of(&length(metres, system), units, evaluation);
    let added = piece.parts.iter().filter(|part| part.takes != Takes::Finished);
    CutPiece {
        name: name(evaluation, &piece.makes),
        of: of(evaluation, &piece.makes),
        cut: piece.cut().map(written),
        finished: piece.finished().map(written),
        allowances: added.map(|part| allowance(evaluation, part, &written)).collect(),
        lacks: piece
            .lacks()
            .into_iter()
            .flat_map(|lack| told_needs(evaluation, lack))
            .collect(),
    }
}

fn allowance(evaluation: &Evaluation<'_, '_>, part: &Part, written: &dyn Fn(f64) -> Written) -> Allowance {
    let knot =
        |id: Option<snell_rig::BlockId>| id.map_or("a knot", |id| evaluation.world.name(id)).to_owned();
    Allowance {
        purpose: match part.takes {
            Takes::Finished => String::new(),
            Takes::Knot(id) => knot(id),
            Takes::FlyKnot(id) => format!("{} at the fly", knot(id)),
            Takes::End => "cut end".to_owned(),
            Takes::Tag(id) => {
                let chain = &evaluation.rig.chain;
                format!("tag of {}", chain.fly_name(chain.dropper(id).fly))
            }
        },
        length: part
            .length
            .as_ref()
            .ok()
            .map(|length| told(part, written(length.si()))),
    }
}

/// What a knot takes is no finer than hands are, and its table is in centimetres.
fn told(part: &Part, length: Written) -> Written {
    match part.takes {
        Takes::Knot(_) | Takes::FlyKnot(_) => Written {
            text: to_tenths(&length.text),
            ..length
        },
        Takes::Finished | Takes::End | Takes::Tag(_) => length,
    }
}

fn name(evaluation: &Evaluation<'_, '_>, makes: &Makes) -> String {
    let chain = &evaluation.rig.chain;
    match makes {
        Makes::Sections(first, last) => {
            let sections = first.down_to(last.below());
            let names: Vec<String> = sections.map(|id| chain.section_name(id)).collect();
            names.join(" + ")
        }
        Makes::Tag(id) => chain.dropper_name(*id),
    }
}

/// What a piece is cut from where its line does not say.
const UNSAID: &str = "line of unknown size";

/// What a piece is cut from, as its first line writes it.
pub(super) fn of(evaluation: &Evaluation<'_, '_>, makes: &Makes) -> String {
    let chain = &evaluation.rig.chain;
    let written = match makes {
        Makes::Sections(first, _) => chain.section(*first).part.written_stuff(),
        Makes::Tag(id) => chain.dropper(*id).part.written_stuff(),
    };
    if written.is_empty() {
        UNSAID.to_owned()
    } else {
        written
    }
}
