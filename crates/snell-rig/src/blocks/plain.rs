//! Rods, beds, materials, knots and dressings.

use super::line_size::Size;
use super::lines::Lines;
use super::value::constant;
use crate::faults::Faults;
use crate::fit::Given;
use crate::keywords::{BedKey, DressingKey, Joined, KnotKey, MaterialKey, RodKey, Take};
use crate::lack::Outcome;
use crate::missing::{Missing, Unsaid};
use crate::thing::Thing;

/// A rod.
#[derive(Clone, Debug)]
pub struct Rod {
    /// Its length.
    pub length: Outcome,
    /// The line weight that it is built for.
    pub weight: Option<Size>,
    /// The mass that pulls its tip down by a third of its length.
    pub bends: Outcome,
}

impl Rod {
    pub(super) fn read(lines: &Lines<'_, '_, RodKey>) -> Self {
        let mut rod = Self {
            length: lines.unsaid(RodKey::Length),
            weight: None,
            bends: lines.unsaid(RodKey::Bends),
        };
        for (key, given) in lines.each() {
            match key {
                RodKey::Length => rod.length = lines.value(given, Take::Length),
                RodKey::Weight => rod.weight = given.get(Take::LineWeight).and_then(Size::read),
                RodKey::Bends => rod.bends = lines.value(given, Take::Mass),
            }
        }
        rod
    }
}

/// A rod by its essentials: `rod 10 ft #2`.
pub(crate) fn rod_essentials(given: &Given<'_>, faults: &Faults) -> Rod {
    let lacks = |what| {
        let missing = Missing::new(what).of_thing(Thing::Rod);
        Err(missing.at(given.line.whole()).into())
    };
    let length = given.get(Take::Length).map(|fit| constant(faults, fit));
    Rod {
        length: length.unwrap_or_else(|| lacks(Unsaid::Length)),
        weight: given.get(Take::LineWeight).and_then(Size::read),
        bends: lacks(Unsaid::Bends),
    }
}

/// What a bed is made of.
#[derive(Clone, Debug)]
pub struct Bed {
    /// The size of its grain.
    pub grain: Outcome,
}

impl Bed {
    pub(super) fn read(lines: &Lines<'_, '_, BedKey>) -> Self {
        let mut bed = Self {
            grain: lines.unsaid(BedKey::Grain),
        };
        for (key, given) in lines.each() {
            match key {
                BedKey::Grain => bed.grain = lines.value(given, Take::Length),
                BedKey::Source => {}
            }
        }
        bed
    }
}

/// A material.
#[derive(Clone, Debug)]
pub struct Material {
    /// Mass by volume.
    pub density: Outcome,
    /// The stress at which it breaks.
    pub strength: Outcome,
    /// Its modulus of elasticity.
    pub modulus: Outcome,
    /// How far it stretches before it breaks, as a share.
    pub stretch: Outcome,
    /// Its wet strength as a share of its dry.
    pub wet: Outcome,
}

impl Material {
    pub(super) fn read(lines: &Lines<'_, '_, MaterialKey>) -> Self {
        let mut material = Self {
            density: lines.unsaid(MaterialKey::Density),
            strength: lines.unsaid(MaterialKey::Strength),
            modulus: lines.unsaid(MaterialKey::Modulus),
            stretch: lines.unsaid(MaterialKey::Stretch),
            wet: lines.unsaid(MaterialKey::Wet),
        };
        for (key, given) in lines.each() {
            match key {
                MaterialKey::Density => material.density = lines.value(given, Take::Density),
                MaterialKey::Strength => material.strength = lines.value(given, Take::Stress),
                MaterialKey::Modulus => material.modulus = lines.value(given, Take::Stress),
                MaterialKey::Stretch => material.stretch = lines.value(given, Take::Share),
                MaterialKey::Wet => material.wet = lines.value(given, Take::Share),
                MaterialKey::Source => {}
            }
        }
        material
    }
}

/// A knot.
#[derive(Clone, Debug)]
pub struct Knot {
    /// What it joins.
    pub joins: Vec<Joined>,
    /// Its strength as a share of the line's.
    pub strength: Outcome,
    /// What testers found, as a spread.
    pub range: Outcome,
    /// The line that it takes on each side.
    pub uses: Outcome,
    /// The largest ratio of diameters that it joins well.
    pub step: Outcome,
}

impl Knot {
    pub(super) fn read(lines: &Lines<'_, '_, KnotKey>) -> Self {
        let mut knot = Self {
            joins: Vec::new(),
            strength: lines.unsaid(KnotKey::Strength),
            range: lines.unsaid(KnotKey::Range),
            uses: lines.unsaid(KnotKey::Uses),
            step: lines.unsaid(KnotKey::Step),
        };
        for (key, given) in lines.each() {
            match key {
                KnotKey::Joins => {
                    let words = given.fits.iter().map(|fit| fit.line.written(fit.expr.span));
                    knot.joins = words.filter_map(Joined::of).collect();
                }
                KnotKey::Strength => knot.strength = lines.value(given, Take::Share),
                KnotKey::Range => knot.range = lines.value(given, Take::Share),
                KnotKey::Uses => knot.uses = lines.value(given, Take::Length),
                KnotKey::Step => knot.step = lines.value(given, Take::Plain),
                KnotKey::Unsuited | KnotKey::Source => {}
            }
        }
        knot
    }
}

/// How a fly is dressed.
#[derive(Clone, Debug)]
pub struct Dressing {
    /// What it adds to the thickness of the body, in gapes of the hook.
    pub bulk: Outcome,
    /// The share of the body that is no trapped water.
    pub solid: Outcome,
    /// The area of its free fibres, in squares of the gape.
    pub fibres: Outcome,
}

impl Dressing {
    pub(super) fn read(lines: &Lines<'_, '_, DressingKey>) -> Self {
        let mut dressing = Self {
            bulk: lines.unsaid(DressingKey::Bulk),
            solid: lines.unsaid(DressingKey::Solid),
            fibres: lines.unsaid(DressingKey::Fibres),
        };
        for (key, given) in lines.each() {
            match key {
                DressingKey::Bulk => dressing.bulk = lines.value(given, Take::Plain),
                DressingKey::Solid => dressing.solid = lines.value(given, Take::Share),
                DressingKey::Fibres => dressing.fibres = lines.value(given, Take::Plain),
                DressingKey::Source => {}
            }
        }
        dressing
    }
}
