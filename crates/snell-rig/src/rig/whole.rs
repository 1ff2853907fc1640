//! A rig as a whole.

use super::chain::{Chain, FlyAt};
use super::settings::Settings;
use crate::fit::Given;
use crate::keywords::Method;
use crate::project::{BlockRef, LineRef};
use crate::thing::{FlyId, Thing};
use snell_syntax::{Bind, Claim};

/// A rig as it is written, bases and edits put together.
#[derive(Debug)]
pub struct Rig<'p> {
    /// Its block.
    pub block: BlockRef<'p>,
    /// Its name as written.
    pub name: String,
    /// The name of the rig that it is made from.
    pub base: Option<&'p str>,
    /// What it says but for its parts.
    pub settings: Settings<'p>,
    /// Its `let` lines.
    pub lets: Vec<(LineRef<'p>, &'p Bind)>,
    /// Its `expect` lines.
    pub expects: Vec<(LineRef<'p>, &'p Claim)>,
    /// Its `allow` lines.
    pub allows: Vec<Given<'p>>,
    /// Its parts.
    pub chain: Chain<'p>,
    /// Whether a line of it, or of a base, could not be read: not all that it says is known.
    pub broken: bool,
    /// Whether that line may be one of a part: what counts its parts or runs along its line is not known.
    pub holes: bool,
}

/// A block's name as written; of lines before any block, the file's.
pub fn name(block: BlockRef<'_>) -> String {
    match (block.head(), block.head_line()) {
        (Some(head), Some(line)) => line.spelled(&head.name).to_owned(),
        _ => block.source.name.clone(),
    }
}

impl<'p> Rig<'p> {
    /// Whether a fly rides on the surface: because it says so, or because its method has it there and nothing is
    /// known to sink it. Of `dry` that is every fly, of `dry-dropper` the uppermost.
    pub fn rides_afloat(&self, id: FlyId) -> bool {
        let on = self.chain.fly(id);
        let fly = &on.tied.fly;
        let sunk = fly.is_weighted() || fly.mass.is_some() || fly.sinks.is_some();
        let uppermost = id.number() == 0 && on.at != FlyAt::Point;
        let meant =
            self.settings.is_for(Method::Dry) || self.settings.is_for(Method::DryDropper) && uppermost;
        fly.floats.is_some() || meant && !sunk
    }

    /// What a thing of it is called.
    pub fn name_of(&self, thing: Thing) -> String {
        match thing {
            Thing::Rig => self.name.clone(),
            Thing::Section(id) => self.chain.section_name(id),
            Thing::Join(id) => self.chain.join_name(id),
            Thing::Dropper(id) => self.chain.dropper_name(id),
            Thing::Gap(id) => self.chain.gap_name(id),
            Thing::Fly(id) => self.chain.fly_name(id),
            Thing::Shot(_) => "the shot".to_owned(),
            Thing::Rod => "the rod".to_owned(),
            Thing::Water => "the water".to_owned(),
        }
    }

    /// Where its name stands.
    pub fn place(&self) -> snell_text::Place {
        self.block.name_place()
    }

    /// Whether a line stands in its own block, and not in one that it is made from.
    pub fn owns(&self, line: LineRef<'_>) -> bool {
        let own = self.block.block.body.iter();
        line.file == self.block.id.file
            && own
                .into_iter()
                .any(|own| own.offset == line.line.offset && line.start == self.block.start)
    }

    /// Whether a place lies on a line of its own block.
    pub fn owns_place(&self, place: snell_text::Place) -> bool {
        self.block
            .lines()
            .any(|line| line.text_id() == place.text && line.whole().span.holds(place.span))
    }

    /// Its title for people.
    pub fn title(&self) -> Option<&'p str> {
        self.block.title()
    }
}
