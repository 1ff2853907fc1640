//! What a list takes from each spool, how often it could be cut from what is
//! left, and what it costs.

use crate::written::{Units, Written, in_units};
use serde::Serialize;
use snell_rig::blocks::Spool;
use snell_rig::cut::{Piece, length};
use snell_rig::value::Value;
use snell_rig::{BlockId, Evaluation, World};
use snell_units::System;

/// What is cut from a spool, or from line that none is named for.
#[derive(Debug, Serialize)]
pub struct CutSpool {
    /// The spool's name, or the line as the rigs write it.
    pub name: String,
    /// Whether it is a spool of the notebook.
    pub spool: bool,
    /// How much is cut from it.
    pub takes: Written,
    /// How much is left on it before.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub left: Option<Written>,
    /// How often the whole list can be cut from that.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub leaders: Option<u64>,
    /// What that length costs; a plain number.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub cost: Option<f64>,
}

/// A length taken from one source.
pub(super) struct Used {
    pub spool: Option<BlockId>,
    name: String,
    pub metres: f64,
    system: System,
}

impl Used {
    /// Adds a piece to what is taken from its source.
    pub(super) fn add(all: &mut Vec<Self>, evaluation: &Evaluation<'_, '_>, piece: &Piece<'_, '_>) {
        let Some(metres) = piece.cut() else { return };
        let spool = piece.stuff.spool;
        let name = match spool {
            Some(id) => evaluation.world.name(id).to_owned(),
            None => super::pieces::of(evaluation, &piece.makes),
        };
        let known = all.iter_mut().find(|one| match spool {
            Some(_) => one.spool == spool,
            None => one.spool.is_none() && one.name == name,
        });
        match known {
            Some(one) => one.metres += metres,
            None => all.push(Self {
                spool,
                name,
                metres,
                system: evaluation.system(),
            }),
        }
    }

    pub(super) fn of<'w>(&self, world: &'w World<'_>) -> Option<&'w Spool<'w>> {
        world.read(self.spool?).spool()
    }

    /// What is left on its spool before.
    pub(super) fn left(&self, world: &World<'_>) -> Option<Value> {
        self.of(world)?.left.clone().ok()
    }

    /// Its share of the price of a full spool.
    pub(super) fn cost(&self, world: &World<'_>) -> Option<f64> {
        let spool = self.of(world)?;
        let (price, holds) = (spool.price.as_ref().ok()?.si(), spool.holds.as_ref().ok()?.si());
        (holds > 0.0).then(|| price * self.metres / holds)
    }

    pub(super) fn show(&self, world: &World<'_>, units: Units) -> CutSpool {
        let left = self.left(world);
        // A hair's breadth is no reason to call a spool short.
        let times = left
            .as_ref()
            .map(|left| ((left.si() / self.metres) + 1e-9).floor().max(0.0) as u64);
        CutSpool {
            name: self.name.clone(),
            spool: self.spool.is_some(),
            takes: in_units(&length(self.metres, self.system), units, self.system),
            left: left.map(|left| {
                let system = left.system.unwrap_or(self.system);
                in_units(&left, units, system)
            }),
            leaders: times,
            cost: self.cost(world),
        }
    }
}
