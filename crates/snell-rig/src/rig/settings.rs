//! What a rig says but for its parts.

use crate::blocks::{Rod, Water, named, rod_essentials, water_essentials};
use crate::faults::Faults;
use crate::fit::{Fit, Given};
use crate::keywords::{Blows, Cast, Method, Setting, Stands, Take};
use crate::project::BlockId;
use crate::world::World;
use snell_finding::{Code, Finding};
use snell_syntax::{BlockKind, Joint};
use snell_text::Place;

/// A setting and the line that makes it.
#[derive(Clone, Debug)]
pub struct Stated<T> {
    /// What was set.
    pub value: T,
    /// Where.
    pub place: Place,
    /// The block that was named, where one was.
    pub block: Option<BlockId>,
}

/// The settings of a rig; what it leaves unsaid is `None`.
#[derive(Debug, Default)]
pub struct Settings<'p> {
    /// The method.
    pub method: Option<Stated<Method>>,
    /// The rod.
    pub rod: Option<Stated<Rod>>,
    /// The water.
    pub water: Option<Stated<Water>>,
    /// Rulebooks in order.
    pub rules: Vec<(BlockId, Place)>,
    /// From the rod tip to where the leader meets the water.
    pub reach: Option<Fit<'p>>,
    /// Where the rod tip is, seen from there.
    pub stands: Option<Stands>,
    /// The speed of the wind, and which way it blows.
    pub wind: Option<(Fit<'p>, Blows)>,
    /// The rod tip's height over the water.
    pub tip: Option<Fit<'p>>,
    /// How far off the bed the point is to ride.
    pub off_bed: Option<Fit<'p>>,
    /// The speed at which the rig is held or led, or its share of the surface's; free where there is none.
    pub drift: Option<Fit<'p>>,
    /// The pull at which the reel gives line.
    pub drag: Option<Fit<'p>>,
    /// How the flies are laid on the water.
    pub cast: Option<Stated<Cast>>,
    /// Notes for people, in order.
    pub notes: Vec<&'p str>,
    /// Whether the run that its water leaves unsaid, and the strength that its labels do, are taken to be the usual ones: so
    /// it is where one rig is looked at, and not where a whole notebook is checked.
    pub takes_usual: bool,
}

impl<'p> Settings<'p> {
    /// Whether this is its method.
    pub fn is_for(&self, method: Method) -> bool {
        self.method.as_ref().is_some_and(|stated| stated.value == method)
    }

    pub(crate) fn take(&mut self, world: &World<'p>, faults: &Faults, setting: Setting, given: &Given<'p>) {
        match setting {
            Setting::Method => self.method = word(given, Method::of),
            Setting::Cast => self.cast = word(given, Cast::of),
            Setting::Rod => self.rod = rod(world, faults, given),
            Setting::Water => self.water = completed(self.water.take(), water(world, faults, given), faults),
            Setting::Rules => self.rules = rulebooks(world, given),
            Setting::Reach => {
                self.reach = given.get(Take::Length);
                self.stands = word_among(given, Stands::of);
            }
            Setting::Wind => self.wind = given.get(Take::Speed).zip(word_among(given, Blows::of)),
            Setting::Tip => self.tip = given.get(Take::Length),
            Setting::OffBed => self.off_bed = given.get(Take::Length),
            Setting::Drag => self.drag = given.get(Take::Force),
            Setting::Drift => self.drift = given.within(Joint::At, Take::Lead),
            Setting::Note => self.notes.extend(given.text.map(|text| given.line.text(text))),
        }
    }
}

fn stated<T>(value: T, given: &Given<'_>, block: Option<BlockId>) -> Stated<T> {
    Stated {
        value,
        place: given.line.whole(),
        block,
    }
}

fn word<T>(given: &Given<'_>, of: impl Fn(&str) -> Option<T>) -> Option<Stated<T>> {
    let fit = given.fits.first()?;
    Some(Stated {
        value: of(fit.line.written(fit.expr.span))?,
        place: fit.place(),
        block: None,
    })
}

/// The first value that is one of some words.
fn word_among<T>(given: &Given<'_>, of: impl Fn(&str) -> Option<T>) -> Option<T> {
    given
        .fits
        .iter()
        .find_map(|fit| of(fit.line.written(fit.expr.span)))
}

fn rod<'p>(world: &World<'p>, faults: &Faults, given: &Given<'p>) -> Option<Stated<Rod>> {
    let Some(fit) = given.get(Take::Name(BlockKind::Rod)) else {
        return Some(stated(rod_essentials(given, faults), given, None));
    };
    let id = named(&world.names, fit, BlockKind::Rod)?;
    Some(stated(world.read(id).rod()?.clone(), given, Some(id)))
}

fn water<'p>(world: &World<'p>, faults: &Faults, given: &Given<'p>) -> Option<Stated<Water>> {
    let Some(fit) = given.get(Take::Name(BlockKind::Water)) else {
        let water = water_essentials(given, &world.names, faults);
        return Some(stated(water, given, None));
    };
    let id = named(&world.names, fit, BlockKind::Water)?;
    Some(stated(world.read(id).water()?.clone(), given, Some(id)))
}

/// The water of a line before, with what another line says of it: `depth 2 ft` and `speed 2 ft/s`. What both say is a fault.
fn completed(
    first: Option<Stated<Water>>,
    more: Option<Stated<Water>>,
    faults: &Faults,
) -> Option<Stated<Water>> {
    let (first, mut more) = match (first, more) {
        (Some(first), Some(more)) => (first, more),
        (first, more) => return first.or(more),
    };
    let is_twice = first.block.is_some() || more.block.is_some() || first.value.says_what(&more.value);
    if is_twice {
        let finding = Finding::fault(
            Code::LineTwice,
            more.place,
            "another line says this of the water already",
        );
        faults.report(finding.label(first.place, "the first").help("keep one of them"));
        return Some(first);
    }
    more.value.complete(first.value);
    Some(more)
}

fn rulebooks<'p>(world: &World<'p>, given: &Given<'p>) -> Vec<(BlockId, Place)> {
    let named = |fit: &Fit<'p>| Some((named(&world.names, *fit, BlockKind::Rulebook)?, fit.place()));
    given.fits.iter().filter_map(named).collect()
}
