//! Waters, whether they have a block of their own or only their essentials on
//! a rig's line.

use super::lines::Lines;
use super::value::{constant, named};
use crate::faults::Faults;
use crate::fit::{Fit, Given};
use crate::keywords::{SpeedOf, Take, WaterKey};
use crate::lack::{Lack, Outcome};
use crate::missing::{Missing, Unsaid};
use crate::names::Names;
use crate::project::BlockId;
use crate::thing::Thing;
use snell_syntax::{BlockKind, Joint};

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
    pub(super) fn read(lines: &Lines<'_, '_, WaterKey>) -> Self {
        lines.exclusive(WaterKey::Surface, WaterKey::Mean);
        let mut water = Self {
            depth: lines.unsaid(WaterKey::Depth),
            speed: (lines.unsaid(WaterKey::Surface), SpeedOf::Surface),
            bed: None,
            grain: None,
            temperature: lines.unsaid(WaterKey::Temperature),
            run: lines.unsaid(WaterKey::Run),
        };
        for (key, given) in lines.each() {
            match key {
                WaterKey::Depth => water.depth = lines.value(given, Take::Depth),
                WaterKey::Surface => water.speed = (lines.value(given, Take::Speed), SpeedOf::Surface),
                // Of two the surface's stands.
                WaterKey::Mean if lines.get(WaterKey::Surface).is_none() => {
                    water.speed = (lines.value(given, Take::Speed), SpeedOf::Mean);
                }
                WaterKey::Mean => {}
                WaterKey::Bed => {
                    water.bed = lines.named(given, BlockKind::Bed);
                    water.grain = given.get(Take::Length).map(|fit| lines.constant(fit));
                }
                WaterKey::Temperature => water.temperature = lines.value(given, Take::Temperature),
                WaterKey::Run => water.run = lines.value(given, Take::Length),
            }
        }
        water
    }
}

impl Water {
    /// Whether another says one of the things that this one says.
    pub(crate) fn says_what(&self, other: &Self) -> bool {
        let both = |one: &Outcome, other: &Outcome| !is_unsaid(one) && !is_unsaid(other);
        both(&self.depth, &other.depth)
            || both(&self.speed.0, &other.speed.0)
            || self.bed.is_some() && other.bed.is_some()
            || both(&self.temperature, &other.temperature)
    }

    /// Takes from another what it leaves unsaid itself.
    pub(crate) fn complete(&mut self, other: Self) {
        if is_unsaid(&self.depth) {
            self.depth = other.depth;
        }
        if is_unsaid(&self.speed.0) {
            self.speed = other.speed;
        }
        if is_unsaid(&self.temperature) {
            self.temperature = other.temperature;
        }
        self.bed = self.bed.or(other.bed);
        self.grain = self.grain.take().or(other.grain);
    }
}

const fn is_unsaid(outcome: &Outcome) -> bool {
    matches!(outcome, Err(Lack::Unknown(_)))
}

/// A water by its essentials: `water 2 ft to 3 ft 12 C at 2.2 ft/s over cobble`.
pub(crate) fn water_essentials(given: &Given<'_>, names: &Names<'_>, faults: &Faults) -> Water {
    let or_lack = |fit: Option<Fit<'_>>, what| match fit {
        Some(fit) => constant(faults, fit),
        None => {
            let missing = Missing::new(what).of_thing(Thing::Water);
            Err(missing.at(given.line.whole()).into())
        }
    };
    let which = given.fits.iter().find(|fit| matches!(fit.take, Take::Word(_)));
    let speed_of = which.and_then(|fit| SpeedOf::of(fit.line.written(fit.expr.span)));
    let bed = given.within(Joint::Over, Take::Name(BlockKind::Bed));
    let grain = given.within(Joint::Over, Take::Length);
    Water {
        depth: or_lack(given.get(Take::Depth), Unsaid::Depth),
        speed: (
            or_lack(given.within(Joint::At, Take::Speed), Unsaid::Speed),
            speed_of.unwrap_or(SpeedOf::Surface),
        ),
        bed: bed.and_then(|fit| named(names, fit, BlockKind::Bed)),
        grain: grain.map(|fit| constant(faults, fit)),
        temperature: or_lack(given.get(Take::Temperature), Unsaid::Temperature),
        run: or_lack(None, Unsaid::Run),
    }
}
