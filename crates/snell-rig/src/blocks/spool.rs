//! Spools of line.

use super::{LineSize, Lines};
use crate::keywords::Take;
use crate::project::BlockId;
use crate::value::Outcome;
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
    pub(super) fn read(lines: &Lines<'_, 'p>) -> Self {
        let size = lines.get("size").and_then(|given| given.get(Take::LineSize));
        let material = lines
            .get("material")
            .and_then(|given| given.get(Take::Name(BlockKind::Material)));
        let colours = lines.get("colour").map(|given| {
            let fits = given.fits.iter();
            fits.map(|fit| fit.line.written(fit.expr.span)).collect()
        });
        Self {
            size: size.map(|fit| LineSize::read(lines.faults, fit)),
            material: material.and_then(|fit| lines.named(fit)),
            measured: lines
                .get("measured")
                .map(|_| lines.value("measured", Take::Diameter)),
            rated: lines.value("rated", Take::Force),
            test: lines.value("test", Take::Force),
            stretch: lines.value("stretch", Take::Share),
            colours: colours.unwrap_or_default(),
            left: lines.value("left", Take::Length),
            price: lines.value("price", Take::Plain),
            holds: lines.value("holds", Take::Length),
        }
    }
}
