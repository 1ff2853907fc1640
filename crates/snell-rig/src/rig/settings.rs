//! What a rig says but for its parts.

use crate::blocks::{self, Read, Rod, Water};
use crate::fit::{Fit, Fitting, Given};
use crate::keywords::Take;
use crate::project::BlockId;
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
    /// The method, a word of the table.
    pub method: Option<Stated<String>>,
    /// The rod.
    pub rod: Option<Stated<Rod>>,
    /// The water.
    pub water: Option<Stated<Water>>,
    /// Rulebooks in order.
    pub rules: Vec<(BlockId, Place)>,
    /// From the rod tip to where the leader meets the water.
    pub reach: Option<Fit<'p>>,
    /// The rod tip's height over the water.
    pub tip: Option<Fit<'p>>,
    /// How far off the bed the point is to ride.
    pub off_bed: Option<Fit<'p>>,
    /// The speed at which the rig is held or led; free where there is none.
    pub drift: Option<Fit<'p>>,
    /// The pull at which the reel gives line.
    pub drag: Option<Fit<'p>>,
    /// How the flies are laid on the water.
    pub cast: Option<Stated<String>>,
    /// Notes for people, in order.
    pub notes: Vec<&'p str>,
}

impl<'p> Settings<'p> {
    /// Whether this is its method.
    pub fn is_for(&self, method: &str) -> bool {
        self.method.as_ref().is_some_and(|stated| stated.value == method)
    }

    pub(super) fn take(&mut self, fitting: &Fitting<'_, 'p>, given: &Given<'p>) {
        let length = given.get(Take::Length);
        match given.row.key {
            "method" => self.method = word(given),
            "cast" => self.cast = word(given),
            "rod" => self.rod = rod(fitting, given),
            "water" => self.water = water(fitting, given),
            "rules" => self.rules = rulebooks(fitting, given),
            "reach" => self.reach = length,
            "tip" => self.tip = length,
            "off-bed" => self.off_bed = length,
            "drag" => self.drag = given.get(Take::Force),
            "drift" => self.drift = given.within(Joint::At, Take::Speed),
            "note" => self.notes.extend(given.text.map(|text| given.line.text(text))),
            _ => {}
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

fn word(given: &Given<'_>) -> Option<Stated<String>> {
    let fit = given.fits.first()?;
    let word = fit.line.written(fit.expr.span).to_lowercase();
    Some(Stated {
        value: word,
        place: fit.place(),
        block: None,
    })
}

fn rod<'p>(fitting: &Fitting<'_, 'p>, given: &Given<'p>) -> Option<Stated<Rod>> {
    let Some(named) = given.get(Take::Name(BlockKind::Rod)) else {
        return Some(stated(blocks::rod_essentials(given, fitting.faults), given, None));
    };
    let id = blocks::named(fitting.world, named, BlockKind::Rod)?;
    match fitting.world.read(id) {
        Read::Rod(rod) => Some(stated(rod.clone(), given, Some(id))),
        _ => None,
    }
}

fn water<'p>(fitting: &Fitting<'_, 'p>, given: &Given<'p>) -> Option<Stated<Water>> {
    let Some(named) = given.get(Take::Name(BlockKind::Water)) else {
        let water = blocks::water_essentials(given, fitting.world, fitting.faults);
        return Some(stated(water, given, None));
    };
    let id = blocks::named(fitting.world, named, BlockKind::Water)?;
    match fitting.world.read(id) {
        Read::Water(water) => Some(stated(water.clone(), given, Some(id))),
        _ => None,
    }
}

fn rulebooks<'p>(fitting: &Fitting<'_, 'p>, given: &Given<'p>) -> Vec<(BlockId, Place)> {
    let named = |fit: &Fit<'p>| {
        Some((
            blocks::named(fitting.world, *fit, BlockKind::Rulebook)?,
            fit.place(),
        ))
    };
    given.fits.iter().filter_map(named).collect()
}
