//! What a rig bears of a fish: the sudden run that it stops, and the reel's drag
//! against its weakest place.
//!
//! Line is taken as a spring that stays straight, which misses its energy to break by
//! 30 % either way. It knows nothing of how strong a knot is.

use super::{section, strength};
use crate::assumed::{Assumed, Taken, Usual};
use crate::evaluation::Evaluation;
use crate::keywords::SectionRole;
use crate::lack::{Lack, Outcome, all};
use crate::missing::{Missing, Of, Unsaid};
use crate::thing::{SectionId, Thing};
use snell_units::{Dimension, Quantity};
use snell_water::load::Spring;
use snell_water::rod::{self, Rod};
use uom::si::area::square_meter;
use uom::si::f64::{Area, Force, Length, Mass, Pressure};
use uom::si::force::newton;
use uom::si::length::meter;
use uom::si::mass::kilogram;
use uom::si::pressure::pascal;

/// The fish of the sudden run, in kilograms.
const FISH: f64 = 1.0;

/// The mass that bends a long soft nymph rod by a third of its length, by its line weight from #0 to #8, in kilograms.
/// Source: from memory; no nymph rod was found measured. It is 14 to 30 % under what casting rods of the number take
/// (#1 43, #4 93, #6 127, #8 169 g): T. Salmi, rod test table after W. Hanneman, RodMaker 2003.
const BENDS: [f64; 9] = [0.030, 0.037, 0.045, 0.055, 0.065, 0.080, 0.095, 0.115, 0.140];

/// A section as a spring.
fn leader_spring(evaluation: &Evaluation<'_, '_>, id: SectionId) -> Result<Spring, Lack> {
    let piece = evaluation.rig.chain.section(id);
    let missing = |what| {
        Missing::new(what)
            .of_thing(Thing::Section(id))
            .at(piece.part.place())
    };
    let modulus = match strength::material(evaluation, piece.stuff) {
        Some(material) => material.modulus.clone(),
        None => Err(missing(Unsaid::Material).into()),
    };
    let parts = all([
        evaluation.section_length(id),
        section::area(evaluation, id),
        modulus,
    ])?;
    Spring::of_line(
        Length::new::<meter>(parts[0].si()),
        Area::new::<square_meter>(parts[1].si()),
        Pressure::new::<pascal>(parts[2].si()),
    )
    .ok_or_else(|| missing(Unsaid::LengthAndThickness).into())
}

/// The rod as it bends.
fn bending_rod(evaluation: &Evaluation<'_, '_>) -> Result<Rod, Lack> {
    let Some(rod) = &evaluation.rig.settings.rod else {
        return Err(Missing::new(Unsaid::Rod).at(evaluation.rig.place()).into());
    };
    let length = rod.value.length.clone()?.si();
    let mass = match (&rod.value.bends, &rod.value.weight) {
        (Ok(bends), _) => bends.si(),
        (Err(Lack::Faulty), _) => return Err(Lack::Faulty),
        (Err(lack), weight) => {
            let usual = weight
                .as_ref()
                .and_then(|weight| BENDS.get(weight.whole? as usize).copied());
            let mass = usual.ok_or_else(|| lack.clone())?;
            evaluation.assume(|| Assumed {
                what: Usual::Bends,
                of: Of::Rig,
                value: Taken::Figure(Quantity::new(mass, Dimension::MASS)),
            });
            mass
        }
    };
    Rod::new(Length::new::<meter>(length), Mass::new::<kilogram>(mass))
        .ok_or_else(|| Missing::new(Unsaid::BendingRod).at(rod.place).into())
}

/// All of the leader as a spring.
fn whole_leader(evaluation: &Evaluation<'_, '_>) -> Result<Spring, Lack> {
    let sections = evaluation.rig.chain.sections();
    let of_leader = sections.filter(|(_, section)| section.role != SectionRole::Line);
    let springs: Vec<Spring> = of_leader
        .map(|(id, _)| leader_spring(evaluation, id))
        .collect::<Result<_, _>>()?;
    Spring::in_series(springs).ok_or(Lack::Faulty)
}

/// How far rod and leader give until the weakest place breaks, the reel held.
pub(super) fn gives(evaluation: &Evaluation<'_, '_>) -> Outcome {
    let (_, weakest) = strength::weakest_place(evaluation)?;
    let (rod, leader) = (bending_rod(evaluation)?, whole_leader(evaluation)?);
    let strength = Force::new::<newton>(weakest.si());
    let given = rod.gives(strength) + leader.stretch(strength);
    Ok(weakest.with(given.value, Dimension::LENGTH))
}

/// The speed of a fish's sudden run that the weakest place just bears with the reel held, from a slack line.
pub(super) fn run_borne(evaluation: &Evaluation<'_, '_>) -> Outcome {
    let (_, weakest) = strength::weakest_place(evaluation)?;
    let (rod, leader) = (bending_rod(evaluation)?, whole_leader(evaluation)?);
    evaluation.assume(|| Assumed {
        what: Usual::Fish,
        of: Of::Rig,
        value: Taken::Figure(Quantity::new(FISH, Dimension::MASS)),
    });
    let strength = Force::new::<newton>(weakest.si());
    let speed = rod::run_borne(Some(&rod), &leader, strength, Mass::new::<kilogram>(FISH));
    Ok(weakest.with(speed.value, Dimension::SPEED))
}

/// The pull at which the reel gives line.
pub(super) fn drag(evaluation: &Evaluation<'_, '_>) -> Outcome {
    match evaluation.rig.settings.drag {
        Some(fit) => evaluation.value(fit).map(section::as_force),
        None => Err(Missing::new(Unsaid::Drag).at(evaluation.rig.place()).into()),
    }
}

/// The reel's drag over the weakest place.
pub(super) fn drag_share(evaluation: &Evaluation<'_, '_>) -> Outcome {
    let drag = drag(evaluation)?;
    let (_, weakest) = strength::weakest_place(evaluation)?;
    let mut share = drag
        .clone()
        .joined(&weakest)
        .with(drag.si() / weakest.si(), Dimension::NONE);
    share.system = None;
    Ok(share)
}
