//! What changed from one state of a rig to another.

use super::align::{Step, same_label};
use super::pieces::{Piece, Trait, TraitKind, by_word};
use schemars::JsonSchema;
use serde::Serialize;
use snell_rig::keywords::PartKind;

/// One thing that changed.
#[derive(Clone, Debug, Serialize, JsonSchema, PartialEq)]
#[serde(tag = "change", rename_all = "kebab-case")]
pub enum Change {
    /// A setting, note or claim.
    Says {
        /// Its key.
        key: String,
        /// What it said.
        #[serde(skip_serializing_if = "Option::is_none")]
        was: Option<String>,
        /// What it says.
        #[serde(skip_serializing_if = "Option::is_none")]
        now: Option<String>,
    },
    /// A part was put in.
    Added {
        /// The part.
        part: Piece,
        /// The part above it.
        #[serde(skip_serializing_if = "Option::is_none")]
        below: Option<String>,
    },
    /// A part was left out.
    Removed {
        /// The part.
        part: Piece,
    },
    /// A part sits at another place.
    Moved {
        /// The part.
        part: String,
        /// What it was below.
        #[serde(skip_serializing_if = "Option::is_none")]
        was_below: Option<String>,
        /// What it is below.
        #[serde(skip_serializing_if = "Option::is_none")]
        now_below: Option<String>,
    },
    /// One piece became several.
    Split {
        /// The piece as it was.
        part: Piece,
        /// What it became.
        into: Vec<Piece>,
    },
    /// Several pieces became one.
    Joined {
        /// What they were.
        parts: Vec<Piece>,
        /// What they became.
        into: Piece,
    },
    /// A part has another role.
    Role {
        /// The part as it was called.
        part: String,
        /// Its role.
        was: &'static str,
        /// Its role now.
        now: &'static str,
    },
    /// A part has another label.
    Label {
        /// The part as it was called.
        part: String,
        /// Its label.
        #[serde(skip_serializing_if = "Option::is_none")]
        was: Option<String>,
        /// Its label now.
        #[serde(skip_serializing_if = "Option::is_none")]
        now: Option<String>,
    },
    /// One side of a part is another.
    Altered {
        /// The part as it is called now.
        part: String,
        /// What it is.
        #[serde(serialize_with = "by_word")]
        #[schemars(with = "String")]
        role: PartKind,
        /// Which side.
        side: TraitKind,
        /// As it was.
        #[serde(skip_serializing_if = "Option::is_none")]
        was: Option<Trait>,
        /// As it is.
        #[serde(skip_serializing_if = "Option::is_none")]
        now: Option<Trait>,
    },
}

/// What changed in the parts, from rod to fly; `steps` lead from the pieces of the one to those of the other.
pub(super) fn parts(was: &[Piece], now: &[Piece], steps: &[Step]) -> Vec<Change> {
    let moves = moves(was, now, steps);
    let mut changes = Vec::new();
    // What became of a knot is told behind what became of the ring and the flies at it.
    let mut knots = Vec::new();
    for step in steps {
        match step {
            Step::Kept(at, to) => {
                if now[*to].is_section() {
                    changes.append(&mut knots);
                }
                let same_join = goes_on(was, now, steps, *at, *to);
                let sides = sides(&was[*at], &now[*to], same_join);
                let (at_the_knot, others): (Vec<_>, Vec<_>) = sides.into_iter().partition(is_of_the_knot);
                changes.extend(others);
                knots.extend(at_the_knot);
            }
            Step::Gone(at) if moves.iter().any(|(from, _)| from == at) => {}
            Step::Gone(at) => changes.push(Change::Removed {
                part: was[*at].clone(),
            }),
            Step::New(to) => changes.extend(came(was, now, &moves, *to)),
            Step::Split(at, range) => {
                changes.push(Change::Split {
                    part: was[*at].clone(),
                    into: now[range.clone()]
                        .iter()
                        .filter(|piece| piece.is_section())
                        .cloned()
                        .collect(),
                });
                let between = range.clone().filter(|to| !now[*to].is_section());
                changes.extend(between.flat_map(|to| came(was, now, &moves, to)));
            }
            Step::Joined(range, to) => {
                let gone = range.clone().filter(|at| !was[*at].is_section());
                let gone = gone.filter(|at| !moves.iter().any(|(from, _)| from == at));
                changes.push(Change::Joined {
                    parts: was[range.clone()]
                        .iter()
                        .filter(|piece| piece.is_section())
                        .cloned()
                        .collect(),
                    into: now[*to].clone(),
                });
                changes.extend(gone.map(|at| Change::Removed {
                    part: was[at].clone(),
                }));
            }
        }
    }
    changes.append(&mut knots);
    changes
}

fn is_of_the_knot(change: &Change) -> bool {
    matches!(
        change,
        Change::Altered {
            side: TraitKind::Knot | TraitKind::Tags,
            ..
        }
    )
}

/// A piece that is new at its place: moved there, or put in.
fn came(was: &[Piece], now: &[Piece], moves: &[(usize, usize)], to: usize) -> Vec<Change> {
    let above = |pieces: &[Piece], at: usize| at.checked_sub(1).map(|above| pieces[above].name.clone());
    match moves.iter().find(|(_, there)| *there == to) {
        Some((from, _)) => {
            let mut changes = vec![Change::Moved {
                part: now[to].name.clone(),
                was_below: above(was, *from),
                now_below: above(now, to),
            }];
            changes.extend(sides(&was[*from], &now[to], false));
            changes
        }
        None => vec![Change::Added {
            part: now[to].clone(),
            below: above(now, to),
        }],
    }
}

/// Pieces that left one place and turned up at another: by their label, or by being the very same.
pub(super) fn moves(was: &[Piece], now: &[Piece], steps: &[Step]) -> Vec<(usize, usize)> {
    let mut gone = Vec::new();
    let mut new = Vec::new();
    for step in steps {
        match step {
            Step::Gone(at) => gone.push(*at),
            Step::New(to) => new.push(*to),
            Step::Split(_, range) => new.extend(range.clone().filter(|to| !now[*to].is_section())),
            Step::Joined(range, _) => gone.extend(range.clone().filter(|at| !was[*at].is_section())),
            Step::Kept(..) => {}
        }
    }
    let mut moves = Vec::new();
    let by_label = |one: &Piece, other: &Piece| {
        let labels = one.label.as_ref().zip(other.label.as_ref());
        one.role == other.role && labels.is_some_and(|(one, other)| same_label(one, other))
    };
    let by_all = |one: &Piece, other: &Piece| one.label == other.label && one.equals(other);
    for same in [&by_label as &dyn Fn(&Piece, &Piece) -> bool, &by_all] {
        gone.retain(|at| match new.iter().position(|to| same(&was[*at], &now[*to])) {
            Some(there) => {
                moves.push((*at, new.remove(there)));
                false
            }
            None => true,
        });
    }
    moves
}

/// Whether the section below is the same in both. Where it is another, the knot between is another join's.
fn goes_on(was: &[Piece], now: &[Piece], steps: &[Step], at: usize, to: usize) -> bool {
    let next = |pieces: &[Piece], from: usize| (from + 1..pieces.len()).find(|at| pieces[*at].is_section());
    let (Some(at), Some(to)) = (next(was, at), next(now, to)) else {
        return false;
    };
    steps.iter().any(|step| match step {
        Step::Kept(one, other) => (*one, *other) == (at, to),
        Step::Split(one, others) => (*one, others.start) == (at, to),
        Step::Joined(ones, other) => (ones.start, *other) == (at, to),
        Step::Gone(_) | Step::New(_) => false,
    })
}

/// What differs between two states of a piece; its lower knot only where that is the same join.
fn sides(was: &Piece, now: &Piece, knots: bool) -> Vec<Change> {
    let mut changes = Vec::new();
    if was.role != now.role {
        changes.push(Change::Role {
            part: was.name.clone(),
            was: was.role.word(),
            now: now.role.word(),
        });
    }
    let labels = match (&was.label, &now.label) {
        (Some(one), Some(other)) => same_label(one, other),
        (one, other) => one == other,
    };
    if !labels {
        changes.push(Change::Label {
            part: was.name.clone(),
            was: was.label.clone(),
            now: now.label.clone(),
        });
    }
    let other = TraitKind::ALL
        .into_iter()
        .filter(|side| knots || !matches!(side, TraitKind::Knot | TraitKind::Tags))
        .filter(|side| !was.same(now, *side));
    changes.extend(other.map(|side| Change::Altered {
        part: now.name.clone(),
        role: now.role,
        side,
        was: was.get(side).cloned(),
        now: now.get(side).cloned(),
    }));
    changes
}
