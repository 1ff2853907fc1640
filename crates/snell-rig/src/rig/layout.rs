//! The parts of a rig as a line: sections, the joins between them, and the
//! flies, shots and floats on it.
//!
//! A place on the line is a number: how many sections lie above it.

use super::parts::Part;
use crate::blocks::{Fly, LineSize};
use crate::fit::{Fit, Given};
use crate::project::{BlockId, LineRef};
use crate::value::Outcome;
use crate::world::World;
use snell_finding::{Code, Finding};
use snell_syntax::Word;

/// A rig's line.
#[derive(Debug, Default)]
pub struct Layout<'p> {
    /// Pieces of line, from the reel down.
    pub sections: Vec<Section<'p>>,
    /// Where two sections meet: the join at `i` lies below the section `i`.
    pub joins: Vec<Join<'p>>,
    /// Tags with a fly.
    pub droppers: Vec<Dropper<'p>>,
    /// Flies in order, the point last.
    pub flies: Vec<FlyOn<'p>>,
    /// Shots and floats in order.
    pub on_line: Vec<OnLine<'p>>,
}

/// A piece of line.
#[derive(Debug)]
pub struct Section<'p> {
    /// Its role: `line butt taper sighter tippet`.
    pub role: &'static str,
    /// Which of its role it is, from 1.
    pub number: usize,
    /// Its line.
    pub part: Part<'p>,
    /// What it is made of.
    pub stuff: Stuff<'p>,
}

/// What a piece of line is made of; what is unsaid is `None`.
#[derive(Clone, Debug, Default)]
pub struct Stuff<'p> {
    /// The spool that it is cut from.
    pub spool: Option<BlockId>,
    /// Its size as labelled.
    pub size: Option<LineSize>,
    /// Its diameter as measured.
    pub measured: Option<Outcome>,
    /// The strength that its label claims.
    pub rated: Option<Outcome>,
    /// The strength as tested wet.
    pub test: Option<Outcome>,
    /// How far it stretches before it breaks.
    pub stretch: Option<Outcome>,
    /// What it is made of.
    pub material: Option<BlockId>,
    /// Its colours as written.
    pub colours: Vec<&'p str>,
}

/// Where two sections meet.
#[derive(Debug, Default)]
pub struct Join<'p> {
    /// The knot that is named, and where.
    pub knot: Option<(BlockId, Fit<'p>)>,
    /// The length at which its cut ends are left.
    pub tags: Option<Fit<'p>>,
    /// The size of the ring, where one joins.
    pub ring: Option<Fit<'p>>,
    /// Its dropper, as an index.
    pub dropper: Option<usize>,
    /// Whether a fly sits on the line here.
    pub inline: bool,
    /// Its label and that of its ring.
    pub labels: Vec<(LineRef<'p>, &'p Word)>,
}

/// A tag with a fly.
#[derive(Debug)]
pub struct Dropper<'p> {
    /// Its line.
    pub part: Part<'p>,
    /// What the tag is made of, where it is said.
    pub stuff: Option<Stuff<'p>>,
    /// Its join.
    pub join: usize,
    /// Its fly, as an index.
    pub fly: usize,
}

/// A fly on the rig.
#[derive(Debug)]
pub struct FlyOn<'p> {
    /// Where it is tied.
    pub at: FlyAt,
    /// How many sections lie above it.
    pub above: usize,
    /// Its line.
    pub part: Part<'p>,
    /// Its block, where it is named.
    pub block: Option<BlockId>,
    /// The fly itself.
    pub fly: Fly<'p>,
    /// What it is called: its name, or its essentials as written.
    pub name: String,
    /// The knot that ties it, where it is said.
    pub knot: Option<BlockId>,
}

/// Where a fly is tied.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum FlyAt {
    /// On the tag of a dropper.
    Dropper(usize),
    /// On the line itself.
    Inline,
    /// At the end.
    Point,
}

/// A shot or a float.
#[derive(Debug)]
pub struct OnLine<'p> {
    /// Which.
    pub kind: OnLineKind,
    /// How many sections lie above it.
    pub above: usize,
    /// Its line.
    pub given: Given<'p>,
}

/// What sits on the line besides flies.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum OnLineKind {
    /// A shot.
    Shot,
    /// A float.
    Float,
}

impl<'p> Layout<'p> {
    /// Every label and the line that gives it.
    pub fn labels(&self) -> impl Iterator<Item = (LineRef<'p>, &'p Word)> + '_ {
        let sections = self.sections.iter().filter_map(|section| section.part.label());
        let joins = self.joins.iter().flat_map(|join| join.labels.iter().copied());
        let droppers = self.droppers.iter().filter_map(|dropper| dropper.part.label());
        let tied = self
            .flies
            .iter()
            .filter(|fly| !matches!(fly.at, FlyAt::Dropper(_)));
        sections
            .chain(joins)
            .chain(droppers)
            .chain(tied.filter_map(|fly| fly.part.label()))
    }

    /// What a section is called: its label, or its role, numbered where there are several.
    pub fn section_name(&self, index: usize) -> String {
        let section = &self.sections[index];
        if let Some((_, label)) = section.part.label() {
            return label.folded.to_string();
        }
        let many = self
            .sections
            .iter()
            .filter(|other| other.role == section.role)
            .count()
            > 1;
        if many {
            format!("{} {}", section.role, section.number)
        } else {
            section.role.to_owned()
        }
    }

    /// What a join is called: by the sections above and below it.
    pub fn join_name(&self, index: usize) -> String {
        format!("{} to {}", self.section_name(index), self.section_name(index + 1))
    }

    /// What a gap is called: by the flies above and below it.
    pub fn gap_name(&self, index: usize) -> String {
        format!("{} to {}", self.fly_name(index), self.fly_name(index + 1))
    }

    /// What a fly is called: its label, or its name as the line writes it.
    pub fn fly_name(&self, index: usize) -> String {
        let fly = &self.flies[index];
        let label = fly.part.label().filter(|_| !matches!(fly.at, FlyAt::Dropper(_)));
        label.map_or_else(|| fly.name.clone(), |(_, label)| label.folded.to_string())
    }

    /// What a dropper is called: its label, or its number where there are several.
    pub fn dropper_name(&self, index: usize) -> String {
        match self.droppers[index].part.label() {
            Some((_, label)) => label.folded.to_string(),
            None if self.droppers.len() > 1 => format!("dropper {}", index + 1),
            None => "dropper".to_owned(),
        }
    }
}

impl FlyOn<'_> {
    /// Its name, with its title where its block has one.
    pub fn described(&self, world: &World<'_>) -> String {
        let title = self.block.and_then(|id| world.project.block(id).title());
        title.map_or_else(|| self.name.clone(), |title| format!("{}, {title}", self.name))
    }
}

/// A let or label with a name that an expression would read as something else.
pub(super) fn name_taken(line: LineRef<'_>, word: &Word) -> Finding {
    let message = format!(
        "`{}` is the name of a measure or of a kind of part",
        line.spelled(word)
    );
    Finding::fault(Code::NameTaken, line.place(word.span), message).help("choose another name")
}

/// A let or label with the name of another.
pub(super) fn name_twice(line: LineRef<'_>, word: &Word) -> Finding {
    let message = format!("this rig has two things called `{}`", line.spelled(word));
    Finding::fault(Code::NameTwice, line.place(word.span), message)
        .help("choose another name for one of them")
}
