//! What can be tied to the point at the bank: the flies of the box, or the
//! trade's bead sizes on the rig's own point fly.
//!
//! Whether any of it fishes is not known here.

use snell_rig::World;
use snell_rig::blocks::{Bead, Fly};
use snell_rig::fly_box::{self, Choice};
use snell_rig::keywords::Method;
use snell_rig::project::BlockId;
use snell_rig::rig::{Rig, Tied};
use snell_rig::value::Value;
use snell_units::{Dimension, Quantity, System};

/// Something that can be tied to the point.
#[derive(Clone, Debug)]
pub(crate) struct AtHand<'p> {
    /// What it is called.
    pub name: String,
    /// Its title, or what it is, where that says more than its name.
    pub what: Option<String>,
    /// Its block, where it has one.
    pub block: Option<BlockId>,
    /// The fly.
    pub fly: Fly<'p>,
}

impl<'p> AtHand<'p> {
    /// Ties it to the point of a rig.
    pub fn tie(&self, rig: &mut Rig<'p>) {
        if let Some(id) = rig.chain.point() {
            let tied = rig.chain.tied_mut(id);
            tied.fly = self.fly.clone();
            tied.block = self.block;
            tied.name.clone_from(&self.name);
        }
    }
}

/// The fly on the point, where there is one that sinks: another can take its place.
fn point<'r, 'p>(rig: &'r Rig<'p>) -> Option<&'r Tied<'p>> {
    let sinking = rig.chain.point().filter(|id| !rig.rides_afloat(*id));
    sinking.map(|id| rig.chain.fly(id).tied)
}

/// The flies of the box: every fly in sight of the rig that sinks, and the one on its point; none where the rig
/// has no point that sinks.
pub(crate) fn of_box<'p>(world: &World<'p>, rig: &Rig<'p>) -> Vec<AtHand<'p>> {
    let Some(on) = point(rig) else {
        return Vec::new();
    };
    let seen = fly_box::flies(world, rig.block.id.file).into_iter();
    let seen = seen.filter(|seen| seen.fly.floats.is_none());
    let mut all: Vec<AtHand<'p>> = seen.map(|choice| of_block(world, choice)).collect();
    if !all.is_empty() && on.block.is_none() {
        all.push(AtHand {
            name: on.name.clone(),
            what: None,
            block: None,
            fly: on.fly.clone(),
        });
    }
    all
}

/// Those of some flies that have been named; all where none was.
///
/// # Errors
/// One that was named is not among them.
pub(crate) fn only<'p>(flies: Vec<AtHand<'p>>, named: &[String]) -> Result<Vec<AtHand<'p>>, String> {
    if named.is_empty() {
        return Ok(flies);
    }
    let same = |name: &str, fly: &AtHand<'_>| name.to_lowercase() == fly.name.to_lowercase();
    let missing = named.iter().find(|name| !flies.iter().any(|fly| same(name, fly)));
    if let Some(name) = missing {
        let near = snell_units::nearest(name, flies.iter().map(|fly| fly.name.as_str()));
        let meant = near.map(|near| format!("; did you mean `{near}`?"));
        return Err(format!(
            "no fly `{name}` that sinks is in sight{}",
            meant.unwrap_or_default()
        ));
    }
    let wanted = |fly: &AtHand<'p>| named.iter().any(|name| same(name, fly));
    Ok(flies.into_iter().filter(wanted).collect())
}

/// Those of some flies that a rig's method fishes, and which were left out: a rig that is held in touch with its flies
/// wants them weighted. Where none of them is, all are kept.
pub(crate) fn of_method<'p>(flies: Vec<AtHand<'p>>, rig: &Rig<'p>) -> (Vec<AtHand<'p>>, Option<String>) {
    let method = rig.settings.method.as_ref().map(|method| method.value);
    let wants_weight = match method {
        None | Some(Method::TightLine | Method::Float | Method::DryDropper) => true,
        Some(Method::Team | Method::Dry | Method::Streamer) => false,
    };
    let weighted = |fly: &AtHand<'p>| fly.fly.bead.is_some() || fly.fly.wire.is_some();
    if !wants_weight || !flies.iter().any(weighted) {
        return (flies, None);
    }
    let (kept, others): (Vec<_>, Vec<_>) = flies.into_iter().partition(weighted);
    let names: Vec<&str> = others.iter().map(|fly| fly.name.as_str()).collect();
    let left_out = (!names.is_empty()).then(|| {
        let method = method.unwrap_or(Method::TightLine).word();
        format!("{}: {method} wants a bead or wire", names.join(", "))
    });
    (kept, left_out)
}

fn of_block<'p>(world: &World<'p>, choice: Choice<'p>) -> AtHand<'p> {
    let block = choice.block.map(|id| world.project.block(id));
    AtHand {
        name: block.map_or(choice.words, snell_rig::rig::name),
        what: block.and_then(|block| block.title().map(str::to_owned)),
        block: choice.block,
        fly: choice.fly,
    }
}

/// The trade's bead sizes, each on the rig's own point fly; none where that floats or is not there.
pub(crate) fn of_beads<'p>(world: &World<'p>, rig: &Rig<'p>) -> Vec<AtHand<'p>> {
    let Some(on) = point(rig) else {
        return Vec::new();
    };
    let material = fly_box::bead_material(world, &on.fly);
    let slotted = on.fly.bead.as_ref().is_some_and(|bead| bead.slotted);
    let beaded = |(millimetres, _): &(f64, _)| {
        let size = millimetres * 1e-3;
        let name = snell_units::write(Quantity::new(size, Dimension::LENGTH), System::Metric);
        let of = material.map_or("", |id| world.name(id));
        AtHand {
            what: Some(format!("a {name} {of} bead on {}", on.name)),
            name,
            block: None,
            fly: Fly {
                bead: Some(Bead {
                    size: Ok(Value::plain(size, Dimension::LENGTH)),
                    material,
                    slotted,
                }),
                // What was weighed and timed had another bead.
                mass: None,
                sinks: None,
                ..on.fly.clone()
            },
        }
    };
    fly_box::BEADS.iter().map(beaded).collect()
}
