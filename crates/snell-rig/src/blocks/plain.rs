//! Rods, waters, beds, materials, knots and dressings.

use super::{Lines, Size, constant, named};
use crate::fit::{Fit, Given};
use crate::keywords::Take;
use crate::project::BlockId;
use crate::value::{Faults, Lack, Outcome};
use crate::world::World;
use snell_syntax::{BlockKind, Joint};

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
    pub(super) fn read(lines: &Lines<'_, '_>) -> Self {
        Self {
            length: lines.value("length", Take::Length),
            weight: lines
                .get("weight")
                .and_then(|given| given.get(Take::LineWeight))
                .and_then(Size::read),
            bends: lines.value("bends", Take::Mass),
        }
    }
}

/// A rod by its essentials: `rod 10 ft #2`.
pub(crate) fn rod_essentials(given: &Given<'_>, faults: &Faults) -> Rod {
    let place = Some(given.line.whole());
    let lack = |what: &str| Err(Lack::need(what, place));
    let length = given.get(Take::Length).map(|fit| constant(faults, fit));
    Rod {
        length: length.unwrap_or_else(|| lack("the length of the rod")),
        weight: given.get(Take::LineWeight).and_then(Size::read),
        bends: lack("how the rod `bends`"),
    }
}

/// Which speed of a water was given.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SpeedOf {
    /// The surface's.
    Surface,
    /// The mean over the depth.
    Mean,
}

/// A water.
#[derive(Clone, Debug)]
pub struct Water {
    /// Its depth.
    pub depth: Outcome,
    /// Its speed, and which speed that is.
    pub speed: (Outcome, SpeedOf),
    /// The bed, where it is named.
    pub bed: Option<BlockId>,
    /// The size of the bed's grain, where it is given.
    pub grain: Option<Outcome>,
    /// Its temperature.
    pub temperature: Outcome,
    /// The length of its drift.
    pub run: Outcome,
}

impl Water {
    pub(super) fn read(lines: &Lines<'_, '_>) -> Self {
        let bed = lines.get("bed");
        lines.exclusive("surface", "mean");
        let speed = match lines.get("mean") {
            Some(_) if lines.get("surface").is_none() => (lines.value("mean", Take::Speed), SpeedOf::Mean),
            _ => (lines.value("surface", Take::Speed), SpeedOf::Surface),
        };
        Self {
            depth: lines.value("depth", Take::Depth),
            speed,
            bed: bed
                .and_then(|given| given.get(Take::Name(BlockKind::Bed)))
                .and_then(|fit| lines.named(fit)),
            grain: bed
                .and_then(|given| given.get(Take::Length))
                .map(|fit| lines.constant(fit)),
            temperature: lines.value("temperature", Take::Temperature),
            run: lines.value("run", Take::Length),
        }
    }
}

/// A water by its essentials: `water 2 ft to 3 ft at 2.2 ft/s over cobble`.
pub(crate) fn water_essentials(given: &Given<'_>, world: &World<'_>, faults: &Faults) -> Water {
    let place = Some(given.line.whole());
    let or_lack = |fit: Option<Fit<'_>>, what: &str| {
        fit.map_or_else(|| Err(Lack::need(what, place)), |fit| constant(faults, fit))
    };
    let which = given.fits.iter().find(|fit| matches!(fit.take, Take::Word(_)));
    let mean = which.is_some_and(|fit| fit.line.written(fit.expr.span).eq_ignore_ascii_case("mean"));
    let bed = given.within(Joint::Over, Take::Name(BlockKind::Bed));
    let grain = given.within(Joint::Over, Take::Length);
    Water {
        depth: or_lack(given.get(Take::Depth), "the depth of the water"),
        speed: (
            or_lack(given.within(Joint::At, Take::Speed), "the speed of the water"),
            if mean { SpeedOf::Mean } else { SpeedOf::Surface },
        ),
        bed: bed.and_then(|fit| named(world, fit, BlockKind::Bed)),
        grain: grain.map(|fit| constant(faults, fit)),
        temperature: or_lack(None, "the temperature of the water"),
        run: or_lack(None, "the run of the water"),
    }
}

/// What a bed is made of.
#[derive(Clone, Debug)]
pub struct Bed {
    /// The size of its grain.
    pub grain: Outcome,
}

impl Bed {
    pub(super) fn read(lines: &Lines<'_, '_>) -> Self {
        Self {
            grain: lines.value("grain", Take::Length),
        }
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
    pub(super) fn read(lines: &Lines<'_, '_>) -> Self {
        Self {
            density: lines.value("density", Take::Density),
            strength: lines.value("strength", Take::Stress),
            modulus: lines.value("modulus", Take::Stress),
            stretch: lines.value("stretch", Take::Share),
            wet: lines.value("wet", Take::Share),
        }
    }
}

/// A knot.
#[derive(Clone, Debug)]
pub struct Knot {
    /// What it joins, as words of the table.
    pub joins: Vec<String>,
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
    pub(super) fn read(lines: &Lines<'_, '_>) -> Self {
        let words = lines.get("joins").map(|given| {
            let fits = given.fits.iter();
            fits.map(|fit| fit.line.written(fit.expr.span).to_lowercase())
                .collect()
        });
        Self {
            joins: words.unwrap_or_default(),
            strength: lines.value("strength", Take::Share),
            range: lines.value("range", Take::Share),
            uses: lines.value("uses", Take::Length),
            step: lines.value("step", Take::Plain),
        }
    }
}

/// How a fly is dressed.
#[derive(Clone, Debug)]
pub struct Dressing {
    /// The sphericity of the dressed fly.
    pub roundness: Outcome,
    /// What it adds to the fly's mass.
    pub adds: Outcome,
}

impl Dressing {
    pub(super) fn read(lines: &Lines<'_, '_>) -> Self {
        Self {
            roundness: lines.value("roundness", Take::Plain),
            adds: lines.value("adds", Take::Mass),
        }
    }
}
