//! The parts of a rig as one chain, from the reel to the point.
//!
//! Sections, joins, droppers, gaps, flies and shots are looked up in it. Only the places of each kind are
//! kept beside the parts, so that a number finds its part at once.

use super::part::{Part, Tied, What};
use super::seat::{Below, Seat};
use super::stuff::Stuff;
use crate::fit::Fit;
use crate::keywords::{SectionRole, SitsOver};
use crate::project::{BlockId, LineRef};
use crate::thing::{DropperId, FloatId, FlyId, GapId, JoinId, SectionId, ShotId, Thing};
use snell_syntax::Word;

/// A rig's parts, in the order in which they lie on the line. What cannot lie there is not in it: the first
/// part is a piece of line, and knots, rings and droppers have one above and below.
#[derive(Debug, Default)]
pub struct Chain<'p> {
    parts: Vec<Part<'p>>,
    sections: Vec<usize>,
    droppers: Vec<usize>,
    flies: Vec<usize>,
    shots: Vec<usize>,
    floats: Vec<usize>,
}

/// A piece of line.
#[derive(Clone, Copy, Debug)]
pub struct Section<'a, 'p> {
    /// Its part.
    pub part: &'a Part<'p>,
    /// Its role.
    pub role: SectionRole,
    /// What it is made of.
    pub stuff: &'a Stuff<'p>,
    /// The knot that ties its upper end, where its own line says it.
    pub knot: Option<BlockId>,
}

/// Where two pieces meet.
#[derive(Clone, Copy, Debug, Default)]
pub struct Join<'p> {
    /// The knot that is named.
    pub knot: Option<BlockId>,
    /// The length at which its cut ends are left.
    pub tags: Option<Fit<'p>>,
    /// The ring, where one joins.
    pub ring: Option<Ring<'p>>,
    /// The swivel, where one joins.
    pub swivel: Option<Swivel<'p>>,
    /// Its dropper.
    pub dropper: Option<DropperId>,
    /// The fly that sits on the line here.
    pub inline: Option<FlyId>,
}

/// A ring.
#[derive(Clone, Copy, Debug)]
pub struct Ring<'p> {
    /// Its outer size, where it is said.
    pub size: Option<Fit<'p>>,
}

/// A swivel.
#[derive(Clone, Copy, Debug)]
pub struct Swivel<'p> {
    /// Its length, where it is said.
    pub size: Option<Fit<'p>>,
    /// Its mass, where it is known.
    pub mass: Option<Fit<'p>>,
}

/// A tag with a fly.
#[derive(Clone, Copy, Debug)]
pub struct Dropper<'a, 'p> {
    /// Its part.
    pub part: &'a Part<'p>,
    /// What the tag is made of, where it is said.
    pub stuff: Option<&'a Stuff<'p>>,
    /// Its join.
    pub join: JoinId,
    /// Its fly.
    pub fly: FlyId,
}

/// A fly on the rig.
#[derive(Clone, Copy, Debug)]
pub struct FlyOn<'a, 'p> {
    /// Its part.
    pub part: &'a Part<'p>,
    /// Where it is tied.
    pub at: FlyAt,
    /// The piece that begins at its place; the one above carries it.
    pub place: SectionId,
    /// The fly and its knot.
    pub tied: &'a Tied<'p>,
}

/// Where a fly is tied.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum FlyAt {
    /// On the tag of a dropper.
    Dropper(DropperId),
    /// On the line itself.
    Inline,
    /// At the end.
    Point,
}

/// A shot.
#[derive(Clone, Copy, Debug)]
pub struct Shot<'a, 'p> {
    /// Its part.
    pub part: &'a Part<'p>,
    /// The piece that begins at its place.
    pub place: SectionId,
    /// Its mass.
    pub mass: Option<Fit<'p>>,
    /// What it is made of, where it is said.
    pub material: Option<BlockId>,
    /// How far it sits over what is below it, where it is said.
    pub seat: Option<(Seat<'p>, Below)>,
}

/// A float.
#[derive(Clone, Copy, Debug)]
pub struct Float<'a, 'p> {
    /// Its part.
    pub part: &'a Part<'p>,
    /// The piece that begins at its place.
    pub place: SectionId,
    /// Its diameter.
    pub size: Option<Fit<'p>>,
    /// What it is made of, where it is said.
    pub material: Option<BlockId>,
    /// How far it sits over what is below it, where it is said.
    pub seat: Option<(Seat<'p>, Below)>,
}

/// What a part of the chain is, with its number.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum PartId {
    /// A piece of line.
    Section(SectionId),
    /// The knot of a join.
    Knot(JoinId),
    /// The ring of a join.
    Ring(JoinId),
    /// The swivel of a join.
    Swivel(JoinId),
    /// A tag with its fly.
    Dropper(DropperId),
    /// A fly on the line itself.
    Inline(FlyId),
    /// The fly at the end.
    Point(FlyId),
    /// A shot.
    Shot(ShotId),
    /// A float.
    Float(FloatId),
}

impl<'p> Chain<'p> {
    /// The chain of some parts, which lie as [`Chain`] says.
    pub(super) fn new(parts: Vec<Part<'p>>) -> Self {
        let mut chain = Self::default();
        for (at, part) in parts.iter().enumerate() {
            match &part.what {
                What::Section { .. } => chain.sections.push(at),
                What::Dropper { .. } => {
                    chain.droppers.push(at);
                    chain.flies.push(at);
                }
                What::Inline(_) | What::Point(_) => chain.flies.push(at),
                What::Shot { .. } => chain.shots.push(at),
                What::Float { .. } => chain.floats.push(at),
                What::Knot { .. } | What::Ring { .. } | What::Swivel { .. } => {}
            }
        }
        chain.parts = parts;
        chain
    }

    /// Every part from the reel down, with what it is.
    pub fn parts(&self) -> impl Iterator<Item = (PartId, &Part<'p>)> {
        let parts = self.parts.iter().enumerate();
        parts.map(|(at, part)| (self.id_at(at, part), part))
    }

    fn id_at(&self, at: usize, part: &Part<'p>) -> PartId {
        let join = || JoinId::at(self.place(at).number().saturating_sub(1));
        let fly = || FlyId::at(number(&self.flies, at));
        match &part.what {
            What::Section { .. } => PartId::Section(self.place(at)),
            What::Knot { .. } => PartId::Knot(join()),
            What::Ring { .. } => PartId::Ring(join()),
            What::Swivel { .. } => PartId::Swivel(join()),
            What::Dropper { .. } => PartId::Dropper(DropperId::at(number(&self.droppers, at))),
            What::Inline(_) => PartId::Inline(fly()),
            What::Point(_) => PartId::Point(fly()),
            What::Shot { .. } => PartId::Shot(ShotId::at(number(&self.shots, at))),
            What::Float { .. } => PartId::Float(FloatId::at(number(&self.floats, at))),
        }
    }

    /// The piece that begins at the place of a part.
    fn place(&self, at: usize) -> SectionId {
        SectionId::at(number(&self.sections, at))
    }

    /// Every piece of line.
    pub fn sections(
        &self,
    ) -> impl DoubleEndedIterator<Item = (SectionId, Section<'_, 'p>)> + ExactSizeIterator {
        let ids = (0..self.sections.len()).map(SectionId::at);
        ids.map(|id| (id, self.section(id)))
    }

    /// A piece of line.
    pub fn section(&self, id: SectionId) -> Section<'_, 'p> {
        let part = &self.parts[self.sections[id.number()]];
        let (role, stuff) = part.what.section().expect("the place is that of a piece of line");
        let knot = part.what.upper_knot();
        Section {
            part,
            role,
            stuff,
            knot,
        }
    }

    /// The end of the line.
    pub fn end(&self) -> SectionId {
        SectionId::at(self.sections.len())
    }

    /// Every join.
    pub fn joins(&self) -> impl DoubleEndedIterator<Item = JoinId> + ExactSizeIterator + use<> {
        (0..self.sections.len().saturating_sub(1)).map(JoinId::at)
    }

    /// The join at the lower end of a piece, where another follows.
    pub fn join_below(&self, id: SectionId) -> Option<JoinId> {
        (id.below() < self.end()).then(|| id.join())
    }

    /// What lies where two pieces meet.
    pub fn join(&self, id: JoinId) -> Join<'p> {
        let (upper, lower) = (self.sections[id.number()], self.sections[id.number() + 1]);
        let mut join = Join::default();
        for (at, part) in self.parts[..lower].iter().enumerate().skip(upper + 1) {
            match &part.what {
                What::Knot { knot, tags } => (join.knot, join.tags) = (*knot, *tags),
                What::Ring { size } => join.ring = Some(Ring { size: *size }),
                What::Swivel { size, mass } => {
                    join.swivel = Some(Swivel {
                        size: *size,
                        mass: *mass,
                    });
                }
                What::Dropper { join: knot, .. } => {
                    join.dropper = Some(DropperId::at(number(&self.droppers, at)));
                    join.knot = join.knot.or(*knot);
                }
                What::Inline(_) => join.inline = join.inline.or(Some(FlyId::at(number(&self.flies, at)))),
                What::Section { .. } | What::Point(_) | What::Shot { .. } | What::Float { .. } => {}
            }
        }
        // A knot on a line of its own stands before one that the dropper or the piece below names.
        join.knot = join.knot.or(self.section(id.lower()).knot);
        join
    }

    /// Every tag.
    pub fn droppers(&self) -> impl DoubleEndedIterator<Item = DropperId> + ExactSizeIterator + use<> {
        (0..self.droppers.len()).map(DropperId::at)
    }

    /// A tag.
    pub fn dropper(&self, id: DropperId) -> Dropper<'_, 'p> {
        let at = self.droppers[id.number()];
        let part = &self.parts[at];
        Dropper {
            part,
            stuff: part.what.tag_stuff(),
            join: JoinId::at(self.place(at).number().saturating_sub(1)),
            fly: FlyId::at(number(&self.flies, at)),
        }
    }

    /// Every fly, the point last.
    pub fn flies(&self) -> impl DoubleEndedIterator<Item = (FlyId, FlyOn<'_, 'p>)> + ExactSizeIterator {
        let ids = (0..self.flies.len()).map(FlyId::at);
        ids.map(|id| (id, self.fly(id)))
    }

    /// A fly.
    pub fn fly(&self, id: FlyId) -> FlyOn<'_, 'p> {
        let at = self.flies[id.number()];
        let part = &self.parts[at];
        FlyOn {
            part,
            at: match part.what {
                What::Dropper { .. } => FlyAt::Dropper(DropperId::at(number(&self.droppers, at))),
                What::Inline(_) => FlyAt::Inline,
                What::Section { .. }
                | What::Knot { .. }
                | What::Ring { .. }
                | What::Swivel { .. }
                | What::Point(_)
                | What::Shot { .. }
                | What::Float { .. } => FlyAt::Point,
            },
            place: self.place(at),
            tied: part.what.tied().expect("the place is that of a fly"),
        }
    }

    /// The fly at a place, to be tied on anew.
    pub fn tied_mut(&mut self, id: FlyId) -> &mut Tied<'p> {
        let part = &mut self.parts[self.flies[id.number()]];
        part.what.tied_mut().expect("the place is that of a fly")
    }

    /// The point fly.
    pub fn point(&self) -> Option<FlyId> {
        let mut flies = self.flies();
        flies.find_map(|(id, fly)| (fly.at == FlyAt::Point).then_some(id))
    }

    /// Every gap between two flies.
    pub fn gaps(&self) -> impl DoubleEndedIterator<Item = GapId> + ExactSizeIterator + use<> {
        (0..self.flies.len().saturating_sub(1)).map(GapId::at)
    }

    /// The gap below a fly, where another follows.
    pub fn gap_below(&self, id: FlyId) -> Option<GapId> {
        (id.number() + 1 < self.flies.len()).then(|| id.gap())
    }

    /// Every shot.
    pub fn shots(&self) -> impl DoubleEndedIterator<Item = ShotId> + ExactSizeIterator + use<> {
        (0..self.shots.len()).map(ShotId::at)
    }

    /// A shot.
    pub fn shot(&self, id: ShotId) -> Shot<'_, 'p> {
        let at = self.shots[id.number()];
        let part = &self.parts[at];
        let (mass, material) = part.what.shot().expect("the place is that of a shot");
        Shot {
            part,
            place: self.place(at),
            mass,
            material,
            seat: self.seat(at),
        }
    }

    /// How far the part at a place in the order sits over what is below it, where it says so.
    fn seat(&self, at: usize) -> Option<(Seat<'p>, Below)> {
        let seat = self.parts[at].what.seat()?;
        let next = |places: &[usize]| places.iter().copied().find(|place| *place > at);
        let place = |next: Option<usize>| next.map(|next| Below::Place(self.place(next)));
        let below = match seat.over {
            SitsOver::Point => None,
            SitsOver::Fly => place(next(&self.flies)),
            SitsOver::Dropper => place(next(&self.droppers)),
            SitsOver::Shot => {
                next(&self.shots).map(|next| Below::Shot(ShotId::at(number(&self.shots, next))))
            }
        };
        Some((seat, below.unwrap_or(Below::Place(self.end()))))
    }

    /// Every float.
    pub fn floats(&self) -> impl DoubleEndedIterator<Item = FloatId> + ExactSizeIterator + use<> {
        (0..self.floats.len()).map(FloatId::at)
    }

    /// A float.
    pub fn float(&self, id: FloatId) -> Float<'_, 'p> {
        let at = self.floats[id.number()];
        let part = &self.parts[at];
        let (size, material) = part.what.float().expect("the place is that of a float");
        Float {
            part,
            place: self.place(at),
            size,
            material,
            seat: self.seat(at),
        }
    }

    /// Every label and the line that gives it.
    pub fn labels(&self) -> impl Iterator<Item = (LineRef<'p>, &'p Word)> {
        self.parts.iter().filter_map(Part::label)
    }

    /// The part that writes a thing; of a join the piece below it, of a gap its upper fly.
    pub fn part_of(&self, thing: Thing) -> Option<&Part<'p>> {
        match thing {
            Thing::Section(id) => Some(self.section(id).part),
            Thing::Join(id) => Some(self.section(id.lower()).part),
            Thing::Dropper(id) => Some(self.dropper(id).part),
            Thing::Gap(id) => Some(self.fly(id.upper()).part),
            Thing::Fly(id) => Some(self.fly(id).part),
            Thing::Shot(id) => Some(self.shot(id).part),
            Thing::Rig | Thing::Rod | Thing::Water => None,
        }
    }

    /// What a section is called: its label, or its role, numbered where there are several.
    pub fn section_name(&self, id: SectionId) -> String {
        let section = self.section(id);
        if let Some((_, label)) = section.part.label() {
            return label.folded.to_string();
        }
        let alike = self.sections().filter(|(_, other)| other.role == section.role);
        let (above, below): (Vec<_>, Vec<_>) = alike.map(|(other, _)| other).partition(|other| *other <= id);
        match above.len() + below.len() {
            1 => section.role.word().to_owned(),
            _ => format!("{} {}", section.role.word(), above.len()),
        }
    }

    /// What a join is called: by the sections above and below it.
    pub fn join_name(&self, id: JoinId) -> String {
        format!(
            "{} to {}",
            self.section_name(id.upper()),
            self.section_name(id.lower())
        )
    }

    /// What a gap is called: by the flies above and below it.
    pub fn gap_name(&self, id: GapId) -> String {
        format!("{} to {}", self.fly_name(id.upper()), self.fly_name(id.lower()))
    }

    /// What a fly is called: its label, or its name as the line writes it.
    pub fn fly_name(&self, id: FlyId) -> String {
        let fly = self.fly(id);
        // The label of a dropper is the tag's.
        let label = match fly.at {
            FlyAt::Dropper(_) => None,
            FlyAt::Inline | FlyAt::Point => fly.part.label(),
        };
        label.map_or_else(|| fly.tied.name.clone(), |(_, label)| label.folded.to_string())
    }

    /// What a dropper is called: its label, or its number where there are several.
    pub fn dropper_name(&self, id: DropperId) -> String {
        match self.dropper(id).part.label() {
            Some((_, label)) => label.folded.to_string(),
            None if self.droppers.len() > 1 => format!("dropper {}", id.number() + 1),
            None => "dropper".to_owned(),
        }
    }
}

/// How many of some places lie above one.
fn number(places: &[usize], at: usize) -> usize {
    places.partition_point(|place| *place < at)
}
