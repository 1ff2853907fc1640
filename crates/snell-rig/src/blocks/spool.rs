//! Spools of line.

use super::line_size::LineSize;
use super::lines::Lines;
use crate::keywords::{SpoolKey, Take};
use crate::lack::Outcome;
use crate::project::BlockId;
use snell_syntax::BlockKind;

/// A spool of line.
#[derive(Clone, Debug)]
pub struct Spool<'p> {
    /// The size on its label.
    pub size: Option<LineSize>,
    /// What it is made of.
    pub material: Option<BlockId>,
    /// The diameter as measured.
    pub measured: Option<Outcome>,
    /// The strength that the label claims; a mass stands for its weight.
    pub rated: Outcome,
    /// The strength as tested wet.
    pub test: Outcome,
    /// How far it stretches before it breaks.
    pub stretch: Outcome,
    /// Its colours as written.
    pub colours: Vec<&'p str>,
    /// The line that is left on it.
    pub left: Outcome,
    /// What a full spool costs.
    pub price: Outcome,
    /// The line that a full spool holds.
    pub holds: Outcome,
}

impl<'p> Spool<'p> {
    pub(super) fn read(lines: &Lines<'_, 'p, SpoolKey>) -> Self {
        let mut spool = Self {
            size: None,
            material: None,
            measured: None,
            rated: lines.unsaid(SpoolKey::Rated),
            test: lines.unsaid(SpoolKey::Test),
            stretch: lines.unsaid(SpoolKey::Stretch),
            colours: Vec::new(),
            left: lines.unsaid(SpoolKey::Left),
            price: lines.unsaid(SpoolKey::Price),
            holds: lines.unsaid(SpoolKey::Holds),
        };
        for (key, given) in lines.each() {
            match key {
                SpoolKey::Size => {
                    let size = given.get(Take::LineSize);
                    spool.size = size.map(|fit| LineSize::read(lines.faults, fit));
                }
                SpoolKey::Material => spool.material = lines.named(given, BlockKind::Material),
                SpoolKey::Measured => spool.measured = Some(lines.value(given, Take::Diameter)),
                SpoolKey::Rated => spool.rated = lines.value(given, Take::Force),
                SpoolKey::Test => spool.test = lines.value(given, Take::Force),
                SpoolKey::Stretch => spool.stretch = lines.value(given, Take::Share),
                SpoolKey::Colour => {
                    let words = given.fits.iter().map(|fit| fit.line.written(fit.expr.span));
                    spool.colours = words.collect();
                }
                SpoolKey::Left => spool.left = lines.value(given, Take::Length),
                SpoolKey::Price => spool.price = lines.value(given, Take::Plain),
                SpoolKey::Holds => spool.holds = lines.value(given, Take::Length),
                SpoolKey::Source => {}
            }
        }
        spool
    }
}
