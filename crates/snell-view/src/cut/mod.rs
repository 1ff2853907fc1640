//! The tying list: what to cut for some rigs, and what it leaves on each spool.
//! How a piece adds up is for `snell_rig::cut`.

mod pieces;
mod spools;
mod take;

pub use pieces::{Allowance, CutPiece, CutRig};
pub use spools::CutSpool;
pub use take::{Taking, Untakable};

use crate::names::file_of;
use crate::written::Units;
use serde::Serialize;
use snell_analysis::Notebook;
use snell_analysis::rigs;
use snell_rig::faults::Faults;
use snell_rig::project::BlockRef;
use snell_rig::{Evaluation, World};
use spools::Used;

/// What to cut for some rigs.
#[derive(Debug, Serialize)]
pub struct Cuts {
    /// The rigs, each with its pieces in tying order.
    pub rigs: Vec<CutRig>,
    /// What is cut from each spool, and from line without one, for all rigs together.
    pub spools: Vec<CutSpool>,
    /// What all of it costs, where every spool in it has a price; a plain number.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub cost: Option<f64>,
    /// The new text of every `left` that goes down by this, or why it cannot be taken.
    #[serde(skip)]
    pub take: Result<Vec<Taking>, Untakable>,
}

/// What to cut for every rig that `wanted` picks by its name and file.
pub fn cut(notebook: &Notebook, units: Units, wanted: impl Fn(&str, &str) -> bool) -> Cuts {
    let world = World::new(notebook.project());
    let picked = rigs(&world)
        .into_iter()
        .filter(|block| wanted(&snell_rig::rig::name(*block), &file_of(notebook, *block)));
    cuts_of(notebook, &picked.collect::<Vec<_>>(), units, &world)
}

/// What to cut for some rigs.
pub fn cuts_of<'p>(notebook: &Notebook, blocks: &[BlockRef<'p>], units: Units, world: &World<'p>) -> Cuts {
    let mut shown = Vec::new();
    let mut used = Vec::new();
    let mut open = false;
    for block in blocks {
        let rig = snell_rig::read(world, *block, &Faults::default());
        let evaluation = Evaluation::new(world, &rig);
        let pieces = snell_rig::cut::pieces(&evaluation);
        open |= rig.broken || pieces.iter().any(|piece| piece.cut().is_none());
        shown.push(pieces::show(
            &evaluation,
            &pieces,
            units,
            file_of(notebook, *block),
        ));
        for piece in &pieces {
            Used::add(&mut used, &evaluation, piece);
        }
    }
    let costs: Vec<Option<f64>> = used.iter().map(|one| one.cost(world)).collect();
    let take = take::take(notebook, world, &used, open);
    Cuts {
        rigs: shown,
        cost: costs
            .iter()
            .copied()
            .sum::<Option<f64>>()
            .filter(|_| !costs.is_empty()),
        spools: used.iter().map(|one| one.show(world, units)).collect(),
        take,
    }
}
