//! One part of a rig: its line, with the changes that derived rigs make to it, and what it puts on the rig.

use super::seat::Seat;
use super::stuff::Stuff;
use crate::blocks::Fly;
use crate::fit::{Fit, Given};
use crate::keywords::{PartKind, SectionRole, Take};
use crate::project::{BlockId, LineRef};
use crate::world::World;
use snell_syntax::{Joint, Word};
use snell_text::Place;

/// A part as lines write it.
#[derive(Clone, Debug)]
pub(crate) struct WrittenPart<'p> {
    pub(super) kind: PartKind,
    pub(super) given: Given<'p>,
    /// How an edit of the rig's own names it, where it comes from a base.
    pub(super) target: Option<String>,
}

/// A part of a rig.
#[derive(Clone, Debug)]
pub struct Part<'p> {
    /// Its line's values; those that were changed stand in the lines that change them.
    pub given: Given<'p>,
    /// How an edit of the rig's own names it, where it comes from a base.
    pub target: Option<String>,
    /// What it is.
    pub what: What<'p>,
}

/// What a part is. A new kind of part is a new row of the keywords and a variant here; whoever has to know
/// parts matches them without a catch-all.
#[derive(Clone, Debug)]
pub enum What<'p> {
    /// A piece of line.
    Section {
        /// Its role.
        role: SectionRole,
        /// What it is made of.
        stuff: Box<Stuff<'p>>,
        /// The knot that ties its upper end, where its own line says it.
        knot: Option<BlockId>,
    },
    /// The knot of a join.
    Knot {
        /// The knot; nothing where its name cannot be had.
        knot: Option<BlockId>,
        /// The length at which its cut ends are left.
        tags: Option<Fit<'p>>,
    },
    /// A ring between two pieces.
    Ring {
        /// Its outer size.
        size: Option<Fit<'p>>,
    },
    /// A swivel between two pieces.
    Swivel {
        /// Its length, where it is said.
        size: Option<Fit<'p>>,
        /// Its mass, where it is known.
        mass: Option<Fit<'p>>,
    },
    /// A tag at a join, with a fly.
    Dropper {
        /// What the tag is made of, where it is said.
        stuff: Option<Box<Stuff<'p>>>,
        /// The knot of its join, where its own line says it.
        join: Option<BlockId>,
        /// Its fly.
        tied: Box<Tied<'p>>,
    },
    /// A fly on the line itself.
    Inline(Box<Tied<'p>>),
    /// The fly at the end.
    Point(Box<Tied<'p>>),
    /// A shot on the line.
    Shot {
        /// Its mass.
        mass: Option<Fit<'p>>,
        /// What it is made of, where it is said.
        material: Option<BlockId>,
        /// How far over the flies it sits, where it is said.
        seat: Option<Seat<'p>>,
    },
    /// A float on the line.
    Float {
        /// Its diameter.
        size: Option<Fit<'p>>,
        /// What it is made of, where it is said.
        material: Option<BlockId>,
        /// How far over the flies it sits, where it is said.
        seat: Option<Seat<'p>>,
    },
}

/// A fly that is tied on.
#[derive(Clone, Debug)]
pub struct Tied<'p> {
    /// Its block, where it is named.
    pub block: Option<BlockId>,
    /// The fly itself.
    pub fly: Fly<'p>,
    /// What it is called: its name, or its essentials as written.
    pub name: String,
    /// The knot that ties it, where it is said.
    pub knot: Option<BlockId>,
}

impl What<'_> {
    /// The kind of part.
    pub const fn kind(&self) -> PartKind {
        match self {
            Self::Section { role, .. } => role.part(),
            Self::Knot { .. } => PartKind::Knot,
            Self::Ring { .. } => PartKind::Ring,
            Self::Swivel { .. } => PartKind::Swivel,
            Self::Dropper { .. } => PartKind::Dropper,
            Self::Inline(_) => PartKind::Inline,
            Self::Point(_) => PartKind::Point,
            Self::Shot { .. } => PartKind::Shot,
            Self::Float { .. } => PartKind::Float,
        }
    }
}

impl<'p> What<'p> {
    /// Of a piece of line, its role and what it is made of.
    pub(super) fn section(&self) -> Option<(SectionRole, &Stuff<'p>)> {
        match self {
            Self::Section { role, stuff, .. } => Some((*role, stuff)),
            Self::Knot { .. }
            | Self::Ring { .. }
            | Self::Swivel { .. }
            | Self::Dropper { .. }
            | Self::Inline(_)
            | Self::Point(_)
            | Self::Shot { .. }
            | Self::Float { .. } => None,
        }
    }

    /// The knot that ties its upper end, where it is a piece of line that says so.
    pub(super) const fn upper_knot(&self) -> Option<BlockId> {
        match self {
            Self::Section { knot, .. } => *knot,
            Self::Knot { .. }
            | Self::Ring { .. }
            | Self::Swivel { .. }
            | Self::Dropper { .. }
            | Self::Inline(_)
            | Self::Point(_)
            | Self::Shot { .. }
            | Self::Float { .. } => None,
        }
    }

    /// What a tag is made of, where it is one and says so.
    pub(super) fn tag_stuff(&self) -> Option<&Stuff<'p>> {
        match self {
            Self::Dropper { stuff, .. } => stuff.as_deref(),
            Self::Section { .. }
            | Self::Knot { .. }
            | Self::Ring { .. }
            | Self::Swivel { .. }
            | Self::Inline(_)
            | Self::Point(_)
            | Self::Shot { .. }
            | Self::Float { .. } => None,
        }
    }

    /// The fly that it carries.
    pub(super) fn tied(&self) -> Option<&Tied<'p>> {
        match self {
            Self::Dropper { tied, .. } | Self::Inline(tied) | Self::Point(tied) => Some(tied),
            Self::Section { .. }
            | Self::Knot { .. }
            | Self::Ring { .. }
            | Self::Swivel { .. }
            | Self::Shot { .. }
            | Self::Float { .. } => None,
        }
    }

    /// The same, to be tied on anew.
    pub(super) fn tied_mut(&mut self) -> Option<&mut Tied<'p>> {
        match self {
            Self::Dropper { tied, .. } | Self::Inline(tied) | Self::Point(tied) => Some(tied),
            Self::Section { .. }
            | Self::Knot { .. }
            | Self::Ring { .. }
            | Self::Swivel { .. }
            | Self::Shot { .. }
            | Self::Float { .. } => None,
        }
    }

    /// Of a shot, its mass and what it is made of.
    pub(super) const fn shot(&self) -> Option<(Option<Fit<'p>>, Option<BlockId>)> {
        match self {
            Self::Shot { mass, material, .. } => Some((*mass, *material)),
            Self::Section { .. }
            | Self::Knot { .. }
            | Self::Ring { .. }
            | Self::Swivel { .. }
            | Self::Dropper { .. }
            | Self::Inline(_)
            | Self::Point(_)
            | Self::Float { .. } => None,
        }
    }

    /// Of a shot or a float, how far over the flies it sits, where it is said.
    pub(super) const fn seat(&self) -> Option<Seat<'p>> {
        match self {
            Self::Shot { seat, .. } | Self::Float { seat, .. } => *seat,
            Self::Section { .. }
            | Self::Knot { .. }
            | Self::Ring { .. }
            | Self::Swivel { .. }
            | Self::Dropper { .. }
            | Self::Inline(_)
            | Self::Point(_) => None,
        }
    }

    /// Of a float, its diameter and what it is made of.
    pub(super) const fn float(&self) -> Option<(Option<Fit<'p>>, Option<BlockId>)> {
        match self {
            Self::Float { size, material, .. } => Some((*size, *material)),
            Self::Section { .. }
            | Self::Knot { .. }
            | Self::Ring { .. }
            | Self::Swivel { .. }
            | Self::Dropper { .. }
            | Self::Inline(_)
            | Self::Point(_)
            | Self::Shot { .. } => None,
        }
    }
}

impl<'p> Part<'p> {
    /// The kind of part.
    pub const fn kind(&self) -> PartKind {
        self.what.kind()
    }

    /// Its label and the line that gives it.
    pub fn label(&self) -> Option<(LineRef<'p>, &'p Word)> {
        label(&self.given)
    }

    /// Its finished length, where it has one.
    pub fn length(&self) -> Option<Fit<'p>> {
        self.given.get(Take::PartLength)
    }

    /// Where its line stands.
    pub fn place(&self) -> Place {
        self.given.line.whole()
    }

    /// What it is made of, as its line writes it.
    pub fn written_stuff(&self) -> String {
        written(self.given.fits.iter().filter(|fit| fit.joint == Some(Joint::Of)))
    }
}

impl<'p> WrittenPart<'p> {
    /// Its label and the line that gives it.
    pub(super) fn label(&self) -> Option<(LineRef<'p>, &'p Word)> {
        label(&self.given)
    }

    /// Takes over what a `change` says: whole clauses, and values by what they are.
    /// A fly, and what a line is made of, is changed as a whole.
    pub(super) fn change(&mut self, change: Given<'p>) {
        let own: Vec<Take> = change
            .fits
            .iter()
            .filter(|fit| fit.joint.is_none())
            .map(|fit| fit.take)
            .collect();
        let whole = self.opens_with_a_fly() && !own.is_empty();
        self.given.fits.retain(|fit| match fit.joint {
            Some(joint) => !change.has(joint),
            None => !whole && !own.contains(&fit.take),
        });
        self.given.fits.extend(change.fits);
        for joint in change.joints {
            if !self.given.has(joint) {
                self.given.joints.push(joint);
            }
        }
    }

    /// Whether the values before its first clause say a fly.
    fn opens_with_a_fly(&self) -> bool {
        match self.kind {
            PartKind::Point | PartKind::Inline | PartKind::Fly => true,
            PartKind::Line
            | PartKind::Butt
            | PartKind::Leader
            | PartKind::Taper
            | PartKind::Sighter
            | PartKind::Tippet
            | PartKind::Dropper
            | PartKind::Knot
            | PartKind::Ring
            | PartKind::Swivel
            | PartKind::Shot
            | PartKind::Float => false,
        }
    }
}

impl Tied<'_> {
    /// Its name, with its title where its block has one.
    pub fn described(&self, world: &World<'_>) -> String {
        let title = self.block.and_then(|id| world.project.block(id).title());
        title.map_or_else(|| self.name.clone(), |title| format!("{}, {title}", self.name))
    }
}

fn label<'p>(given: &Given<'p>) -> Option<(LineRef<'p>, &'p Word)> {
    let fit = given.within(Joint::As, Take::Label)?;
    Some((fit.line, fit.expr.path()?.first()?))
}

/// Values as they are written, one behind the other.
pub(super) fn written<'f, 'p: 'f>(fits: impl Iterator<Item = &'f Fit<'p>>) -> String {
    let words: Vec<&str> = fits.map(|fit| fit.line.written(fit.expr.span)).collect();
    words.join(" ")
}
