//! What a piece of line is made of: as its line says, and what its spool says.

use crate::blocks::{LineSize, Spool, constant, named};
use crate::faults::Faults;
use crate::fit::{Fit, Given};
use crate::keywords::{SAME, Take};
use crate::lack::Outcome;
use crate::project::BlockId;
use crate::value::Value;
use crate::world::World;
use snell_finding::{Code, Finding};
use snell_syntax::{BlockKind, Joint};

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

impl<'p> Stuff<'p> {
    /// What the `of` of a line says; `above` is what the piece above is made of.
    pub(super) fn read(world: &World<'p>, faults: &Faults, given: &Given<'p>, above: Option<&Self>) -> Self {
        let within = |take| given.within(Joint::Of, take);
        let spool =
            within(Take::Name(BlockKind::Spool)).and_then(|fit| named(&world.names, fit, BlockKind::Spool));
        let mut stuff = match spool.and_then(|id| world.read(id).spool()) {
            Some(read) => Self::from_spool(spool, read),
            None => match (within(Take::Word(SAME)), above) {
                (Some(_), Some(above)) => above.in_size(
                    within(Take::LineSize).map(|fit| LineSize::read(faults, fit)),
                    within(Take::Diameter).is_some(),
                ),
                (Some(same), None) => {
                    let message = "there is no piece above that this could be the same as";
                    let finding = Finding::fault(Code::PartUnattached, same.place(), message);
                    faults.report(finding.help("write what it is made of"));
                    Self::default()
                }
                (None, _) => Self::default(),
            },
        };
        let own = |take| within(take).map(|fit| constant(faults, fit));
        if let Some(fit) = within(Take::LineSize) {
            stuff.size = Some(LineSize::read(faults, fit));
        }
        if let Some(fit) = within(Take::Name(BlockKind::Material)) {
            stuff.material = named(&world.names, fit, BlockKind::Material);
        }
        let measured = own(Take::Diameter);
        if let (Some(size), Some(Ok(measured)), Some(fit)) = (&stuff.size, &measured, within(Take::Diameter))
        {
            contradiction(faults, size, measured, fit);
        }
        stuff.measured = measured.or(stuff.measured);
        if let Some(rated) = own(Take::Force) {
            // A strength on the rig's own line is a claim about this piece; the spool's test is of another.
            stuff.rated = Some(rated);
            stuff.test = None;
        }
        let colours = given.all(Some(Joint::Of), Take::Colour);
        let colours: Vec<&str> = colours.map(|fit| fit.line.written(fit.expr.span)).collect();
        if !colours.is_empty() {
            stuff.colours = colours;
        }
        stuff
    }

    /// The same stuff, and only what does not hang on how thick it is where a line says another size.
    fn in_size(&self, size: Option<LineSize>, is_measured: bool) -> Self {
        let level = |size: &Option<LineSize>| match size {
            Some(LineSize::Level(Ok(size))) => Some(size.si()),
            Some(LineSize::Level(Err(_)) | LineSize::Tapered(..) | LineSize::FlyLine(_)) | None => None,
        };
        let is_as_thick = size.is_none() || level(&size).is_some() && level(&size) == level(&self.size);
        if is_as_thick && !is_measured {
            return self.clone();
        }
        Self {
            material: self.material,
            colours: self.colours.clone(),
            ..Self::default()
        }
    }

    fn from_spool(id: Option<BlockId>, spool: &Spool<'p>) -> Self {
        Self {
            spool: id,
            size: spool.size.clone(),
            measured: spool.measured.clone(),
            rated: Some(spool.rated.clone()),
            test: spool.test.clone().ok().map(Ok),
            stretch: spool.stretch.clone().ok().map(Ok),
            material: spool.material,
            colours: spool.colours.clone(),
        }
    }
}

/// The greatest ratio of a diameter and its label that a spool can have; beyond it one of the two is a slip.
/// Source: common practice, no source.
const GREATEST_RATIO: f64 = 1.5;

/// `5X 0.30 mm`: a measured diameter so far off the label that it is none of the same line.
fn contradiction(faults: &Faults, size: &LineSize, measured: &Value, fit: Fit<'_>) {
    let LineSize::Level(Ok(label)) = size else {
        return;
    };
    let (label, measured) = (label.si(), measured.si());
    let ratio = label.max(measured) / label.min(measured);
    if ratio > GREATEST_RATIO {
        let message = format!(
            "this is {:.3} mm thick by its size and {:.3} mm by its diameter",
            label * 1e3,
            measured * 1e3
        );
        faults.report(
            Finding::fault(Code::SizesContradict, fit.place(), message)
                .help("one of the two is a slip: keep the one that you measured"),
        );
    }
}
