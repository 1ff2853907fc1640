//! Flies, whether they have a block of their own or only their essentials on
//! a rig's line.

use super::line_size::Size;
use super::lines::Lines;
use super::value::{constant, named};
use crate::faults::Faults;
use crate::fit::{Fit, Given};
use crate::keywords::{FLY_WORDS, FlyKey, SLOTTED, Take};
use crate::lack::Outcome;
use crate::names::Names;
use crate::project::BlockId;
use crate::value::Value;
use snell_finding::{Code, Finding, Fix};
use snell_syntax::{BlockKind, Joint};
use snell_units::Dimension;

/// A fly.
#[derive(Clone, Debug, Default)]
pub struct Fly<'p> {
    /// The hook's size.
    pub hook: Option<Size>,
    /// Its bead.
    pub bead: Option<Bead>,
    /// Wire under its dressing.
    pub wire: Option<Wire>,
    /// How it is dressed.
    pub dressing: Option<BlockId>,
    /// The mass that it carries afloat; a fly without one sinks.
    pub floats: Option<Outcome>,
    /// Whether its hook has no barb.
    pub barbless: bool,
    /// Its mass as weighed.
    pub mass: Option<Outcome>,
    /// Its speed of sinking as measured.
    pub sinks: Option<Outcome>,
    /// Where its bead is written, for those who point at it.
    pub bead_fit: Option<Fit<'p>>,
}

/// A bead.
#[derive(Clone, Debug)]
pub struct Bead {
    /// Its diameter.
    pub size: Outcome,
    /// What it is made of.
    pub material: Option<BlockId>,
    /// Whether it has a slot instead of a bore.
    pub slotted: bool,
}

/// Wire under a fly's dressing.
#[derive(Clone, Debug)]
pub struct Wire {
    /// Its diameter.
    pub diameter: Option<Outcome>,
    /// What it is made of.
    pub material: Option<BlockId>,
    /// How many turns of it.
    pub turns: Option<Outcome>,
}

/// Inch labels of beads and the sizes that they stand for; they do not convert.
/// Source: common practice; every pair stands in a shop's chart of bead sizes.
const INCH_LABELS: &[(u32, u32, f64)] = &[
    (1, 16, 1.5e-3),
    (5, 64, 2.0e-3),
    (3, 32, 2.4e-3),
    (7, 64, 2.8e-3),
    (1, 8, 3.3e-3),
    (3, 16, 4.6e-3),
    (7, 32, 5.5e-3),
];

/// The label that is sold for two sizes.
const TWO_SIZES: (u32, u32) = (5, 32);

impl<'p> Fly<'p> {
    /// Whether it has a bead or wire.
    pub fn is_weighted(&self) -> bool {
        self.bead.is_some() || self.wire.is_some()
    }

    pub(super) fn read(lines: &Lines<'_, 'p, FlyKey>) -> Self {
        let mut fly = Self::default();
        for (key, given) in lines.each() {
            match key {
                FlyKey::Hook => fly.hook = given.get(Take::HookSize).and_then(Size::read),
                FlyKey::Bead => {
                    fly.bead_fit = given.get(Take::BeadSize);
                    fly.bead = fly.bead_fit.map(|fit| Bead {
                        size: bead_size(lines.faults, fit),
                        material: lines.named(given, BlockKind::Material),
                        slotted: slotted(given, None),
                    });
                }
                FlyKey::Wire => fly.wire = Some(wire(lines, given)),
                FlyKey::Dressed => fly.dressing = lines.named(given, BlockKind::Dressing),
                FlyKey::Floats => fly.floats = Some(lines.value(given, Take::Mass)),
                FlyKey::Barbless => fly.barbless = true,
                FlyKey::Mass => fly.mass = Some(lines.value(given, Take::Mass)),
                FlyKey::Sinks => fly.sinks = Some(lines.value(given, Take::Speed)),
            }
        }
        fly
    }
}

/// Where a rig's line writes a fly: before the first clause or in one.
pub(crate) struct Essentials<'a, 'p> {
    pub(crate) given: &'a Given<'p>,
    pub(crate) joint: Option<Joint>,
}

impl<'p> Essentials<'_, 'p> {
    fn fit(&self, take: Take) -> Option<Fit<'p>> {
        self.given.all(self.joint, take).next()
    }

    /// The block that is named, if one is.
    pub(crate) fn block(&self, names: &Names<'p>) -> Option<BlockId> {
        self.fit(Take::Name(BlockKind::Fly))
            .and_then(|fit| named(names, fit, BlockKind::Fly))
    }

    /// Whether one of the words that are said of flies stands there.
    pub(crate) fn says(&self, word: &str) -> bool {
        let words = self.given.all(self.joint, Take::Word(FLY_WORDS));
        words
            .into_iter()
            .any(|fit| fit.line.written(fit.expr.span).eq_ignore_ascii_case(word))
    }

    /// The fly as the line says it.
    pub(crate) fn fly(&self, names: &Names<'p>, faults: &Faults) -> Fly<'p> {
        let bead_fit = self.fit(Take::BeadSize);
        let material = self.fit(Take::Name(BlockKind::Material));
        Fly {
            hook: self.fit(Take::HookSize).and_then(Size::read),
            bead: bead_fit.map(|fit| Bead {
                size: bead_size(faults, fit),
                material: material.and_then(|fit| named(names, fit, BlockKind::Material)),
                slotted: slotted(self.given, self.joint),
            }),
            mass: self.fit(Take::Mass).map(|fit| constant(faults, fit)),
            barbless: self.says("barbless"),
            bead_fit,
            ..Fly::default()
        }
    }
}

fn slotted(given: &Given<'_>, joint: Option<Joint>) -> bool {
    given
        .fits
        .iter()
        .any(|fit| fit.joint == joint && fit.take == Take::Word(SLOTTED))
}

fn wire<'p>(lines: &Lines<'_, 'p, FlyKey>, given: &Given<'p>) -> Wire {
    let either = |take| given.get(take).or_else(|| given.within(Joint::Of, take));
    Wire {
        diameter: either(Take::Diameter).map(|fit| lines.constant(fit)),
        material: either(Take::Name(BlockKind::Material))
            .and_then(|fit| named(lines.names, fit, BlockKind::Material)),
        turns: given.get(Take::Turns).map(|fit| lines.constant(fit)),
    }
}

/// A bead's diameter; an inch label stands for the size that is sold under it.
fn bead_size(faults: &Faults, fit: Fit<'_>) -> Outcome {
    let value = constant(faults, fit)?;
    let Some(label) = inch_label(fit) else {
        return Ok(value);
    };
    if label == TWO_SIZES {
        let message = format!(
            "`{}` is sold for beads of 3.8 mm and of 4.0 mm",
            fit.line.written(fit.expr.span)
        );
        let finding = Finding::fault(Code::NumberDoubtful, fit.place(), message)
            .help("measure it, and write `3.8 mm` or `4 mm`")
            .fix(Fix::offered("write `3.8 mm`", fit.place(), "3.8 mm"))
            .fix(Fix::offered("write `4 mm`", fit.place(), "4 mm"));
        return Err(faults.lack(finding));
    }
    let known = INCH_LABELS
        .iter()
        .find(|(over, under, _)| (*over, *under) == label);
    Ok(match known {
        Some((_, _, metres)) => labelled(value, *metres),
        None => value,
    })
}

fn labelled(value: Value, metres: f64) -> Value {
    let mut value = value.with(metres, Dimension::LENGTH);
    value.system = Some(snell_units::System::Metric);
    value
}

/// The fraction of `5/64 in`, where the bead is written so.
fn inch_label(fit: Fit<'_>) -> Option<(u32, u32)> {
    let single = fit.expr.single()?;
    let (number, unit) = (single.number()?, single.unit()?);
    let inches = snell_units::resolve(&unit.plain).is_ok_and(|unit| unit.plain == "in");
    inches.then(|| snell_syntax::fraction(fit.line.written(number.span)))?
}
