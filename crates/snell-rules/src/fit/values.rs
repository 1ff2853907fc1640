//! What a target may be changed to: lengths at even steps and those solved for,
//! the flies at hand, the other casts.

use super::asks::{Against, Asks};
use super::bank::{Bank, Piece};
use super::change::{Change, Target, To};
use crate::length;
use snell_rig::keywords::Cast;
use snell_units::{System, in_order};
use std::ops::RangeInclusive;

/// How many even lengths are tried of one piece.
const EVEN: u32 = 15;

/// Everything that a target may become but for lengths that are solved for.
pub(super) fn even(bank: &Bank<'_, '_, '_>, target: Target) -> Vec<To> {
    match target {
        Target::Section(_) | Target::Tag(_) => bank.piece(target).map_or_else(Vec::new, |piece| {
            let own = piece.steps(piece.value.si());
            let span = span(bank, piece);
            let stride = stride(&span, piece);
            let steps = span.step_by(stride as usize);
            steps.filter(|steps| *steps != own).map(To::Length).collect()
        }),
        Target::Fly(fly) => (0..bank.choices(fly).len()).map(To::Fly).collect(),
        Target::Cast => {
            // A rig that does not say is cast by the first of them.
            let own = bank.with(&[], |evaluation| {
                let cast = evaluation.rig.settings.cast.as_ref();
                cast.map_or(Cast::Tuck, |cast| cast.value)
            });
            let others = Cast::ALL.iter().filter(|cast| **cast != own);
            others.map(|cast| To::Cast(*cast)).collect()
        }
    }
}

/// From the least to the greatest length that is tried, in steps.
pub(super) fn span(bank: &Bank<'_, '_, '_>, piece: &Piece) -> RangeInclusive<u32> {
    if let Target::Tag(_) = piece.target {
        return whole(piece, 3, 8)..=whole(piece, 9, 22);
    }
    if bank.is_butt(piece.target) {
        let least = whole(piece, 12, 30);
        return least..=piece.steps(piece.value.si()).max(least) + whole(piece, 12, 30);
    }
    let depth = bank.with(&[], |evaluation| {
        let water = evaluation.rig.settings.water.as_ref()?;
        water.value.depth.as_ref().ok().map(snell_rig::value::Value::high)
    });
    // Twice the depth and some more is beyond what any tippet has.
    let most = piece.value.si().max(2.2 * depth.unwrap_or_default()) * 1.1;
    let least = whole(piece, 6, 15);
    least..=piece.steps(most).max(least + whole(piece, 2, 5))
}

/// The steps between two lengths that are tried.
fn stride(span: &RangeInclusive<u32>, piece: &Piece) -> u32 {
    match piece.target {
        Target::Tag(_) => whole(piece, 1, 2),
        Target::Section(_) | Target::Fly(_) | Target::Cast => {
            let stride = whole(piece, 2, 5);
            let even = (span.end() - span.start()) / EVEN;
            even.next_multiple_of(stride).max(stride)
        }
    }
}

/// Whole inches or centimetres as steps.
const fn whole(piece: &Piece, imperial: u32, metric: u32) -> u32 {
    match piece.system {
        System::Imperial => 2 * imperial,
        System::Metric => metric,
    }
}

/// How many steps make a length that is easy to lay off: an inch, five centimetres; of a tag one.
pub(super) const fn even_steps(piece: &Piece) -> u32 {
    match (piece.target, piece.system) {
        (_, System::Imperial) => 2,
        (Target::Tag(_), System::Metric) => 1,
        (_, System::Metric) => 5,
    }
}

/// The lengths of a piece at which what stands against the rig is mended, or just holds.
pub(super) fn solved<'p>(
    bank: &Bank<'_, '_, 'p>,
    asks: &Asks<'p>,
    changes: &[Change],
    against: &Against,
    piece: &Piece,
) -> Vec<To> {
    let count = bank.with(changes, |evaluation| asks.offs(against, evaluation).len());
    let roots = (0..count).filter_map(|which| root(bank, asks, changes, against, piece, which));
    let cuts = roots.flat_map(|root| length::cuts(root, piece.system));
    let mut solved: Vec<To> = cuts.map(|cut| To::Length(piece.steps(cut))).collect();
    in_order(&mut solved, Ord::cmp);
    solved.dedup();
    solved
}

/// The length of a piece at which one figure of what stands against the rig comes to what would do.
pub(super) fn root<'p>(
    bank: &Bank<'_, '_, 'p>,
    asks: &Asks<'p>,
    changes: &[Change],
    against: &Against,
    piece: &Piece,
    which: usize,
) -> Option<f64> {
    length::root(piece.value.si(), |length| {
        let offs = bank.with_length(changes, piece, length, |evaluation| {
            asks.offs(against, evaluation)
        });
        offs.get(which).copied().flatten()
    })
}
