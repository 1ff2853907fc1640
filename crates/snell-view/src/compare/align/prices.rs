//! What it costs to take one piece of line for another, and several for one
//! that was cut: the less two pieces have in common, the more.

use crate::compare::pieces::{Piece, TraitKind};

/// To put in or leave out a piece.
pub(super) const COMES_OR_GOES: u32 = 160;
/// To take one label for another: with stuff and length changed as well it is another piece.
const OTHER_LABEL: u32 = 190;
/// To give or lose a label.
const NEW_LABEL: u32 = 30;
/// To cut a piece in two, or make two one.
const CUT: u32 = 60;
/// For a length that does not add up where one became several.
const NOT_EVEN: u32 = 70;
/// How far it may be out, as a share.
const MOST_OUT: f64 = 0.1;

/// A label that both rigs have binds its two pieces together.
pub(super) struct Labels<'p> {
    /// The earlier rig.
    pub was: &'p [Piece],
    /// The later one.
    pub now: &'p [Piece],
}

impl Labels<'_> {
    /// What it costs to take one piece for the other; nothing where that cannot be.
    pub fn price(&self, was: &Piece, now: &Piece) -> Option<u32> {
        let label = self.label_price(was, now)?;
        let role = match was.role == now.role {
            true => 0,
            false if was.is_section() && now.is_section() => 150,
            false => return None,
        };
        let sides: u32 = TraitKind::ALL
            .iter()
            .filter(|kind| !was.same(now, **kind))
            .map(|kind| side_price(was, now, *kind))
            .sum();
        Some(label + role + sides)
    }

    fn label_price(&self, was: &Piece, now: &Piece) -> Option<u32> {
        match (&was.label, &now.label) {
            (None, None) => Some(0),
            (Some(one), Some(other)) if same_label(one, other) => Some(0),
            (one, other) => {
                let bound = |label: &Option<String>, pieces: &[Piece]| {
                    label.as_ref().is_some_and(|label| has(pieces, label))
                };
                let tied = bound(one, self.now) || bound(other, self.was);
                let price = if one.is_some() && other.is_some() {
                    OTHER_LABEL
                } else {
                    NEW_LABEL
                };
                (!tied).then_some(price)
            }
        }
    }

    /// What it costs to take several pieces for one that was cut, or the other way round.
    pub fn cut(&self, whole: &Piece, parts: &[Piece], joined: bool) -> Option<u32> {
        let (first, last) = (parts.first()?, parts.last()?);
        if !(whole.is_section() && last.is_section()) || first.role != whole.role {
            return None;
        }
        let (others, own) = if joined {
            (self.now, self.was)
        } else {
            (self.was, self.now)
        };
        // A piece may bring a new label, but one that the other rig has must be the whole's own.
        let bound = |part: &Piece| match (&part.label, &whole.label) {
            (None, _) => true,
            (Some(one), Some(other)) if same_label(one, other) => true,
            (Some(label), _) => !has(others, label),
        };
        let kept = |label: &String| {
            parts
                .iter()
                .any(|part| part.label.as_ref().is_some_and(|other| same_label(label, other)))
        };
        if whole
            .label
            .as_ref()
            .is_some_and(|label| has(own, label) && !kept(label))
        {
            return None;
        }
        let mut sum = 0.0;
        let mut price = CUT;
        for part in parts {
            if !part.is_section() {
                price += COMES_OR_GOES;
                continue;
            }
            let fits = part.role == whole.role && part.same(whole, TraitKind::Stuff);
            // Beside a piece that kept its length another was put in; nothing was cut.
            if !(fits && bound(part)) || part.same(whole, TraitKind::Length) {
                return None;
            }
            sum += part.length()?;
        }
        let length = whole.length()?;
        let out = (sum - length).abs() / length.max(f64::MIN_POSITIVE);
        match out {
            out if out > MOST_OUT => None,
            out if out > 1e-6 => Some(price + NOT_EVEN),
            _ => Some(price),
        }
    }
}

fn has(pieces: &[Piece], label: &str) -> bool {
    pieces
        .iter()
        .any(|piece| piece.label.as_ref().is_some_and(|other| same_label(label, other)))
}

/// Whether two labels are one, however they are written.
pub fn same_label(one: &str, other: &str) -> bool {
    one == other || one.to_lowercase() == other.to_lowercase()
}

fn side_price(was: &Piece, now: &Piece, kind: TraitKind) -> u32 {
    match kind {
        TraitKind::Length => match (was.length(), now.length()) {
            (Some(one), Some(other)) => {
                let share = (one - other).abs() / one.max(other).max(f64::MIN_POSITIVE);
                // A share between nought and one, so it fits.
                40 + (60.0 * share.min(1.0)) as u32
            }
            _ => 70,
        },
        TraitKind::Stuff | TraitKind::Fly | TraitKind::Size => 100,
        TraitKind::FlyKnot | TraitKind::Knot | TraitKind::Tags => 30,
    }
}
