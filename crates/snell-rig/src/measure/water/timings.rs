//! What the timed flies of the box tell of the untimed ones that are dressed alike.
//!
//! The box is the flies that the rig's file sees. A timing is a fly's own line: what a fly has from the one that it is made
//! from was measured on that one.

use super::stream::fluid;
use crate::evaluation::{Evaluation, State};
use crate::lack::Lack;
use crate::measure::tied;
use crate::project::BlockId;
use snell_units::in_order;
use snell_water::Fluid;
use snell_water::fly::{Calibration, Fly, Parts, Timed, WORTH_IT};
use uom::si::f64::Velocity;
use uom::si::velocity::meter_per_second;

/// Dressings of which enough flies were timed.
struct Timings(Vec<(BlockId, Calibration)>);

impl State for Timings {
    const NAME: &'static str = "the timed flies of the box";

    fn solve(evaluation: &Evaluation<'_, '_>) -> Result<Self, Lack> {
        let water = fluid(evaluation)?;
        let mut flies = timed(evaluation, &water);
        in_order(&mut flies, |(one, _), (other, _)| one.cmp(other));
        let alike = flies.chunk_by(|one, other| one.0 == other.0);
        let known = alike.filter_map(|flies| {
            let found = Calibration::of(flies.iter().map(|(_, fly)| fly), &water)?;
            Some((flies.first()?.0, found))
        });
        Ok(Self(known.collect()))
    }
}

/// What the timed flies of a dressing tell, where there are enough of them.
pub(super) fn of_dressing(
    evaluation: &Evaluation<'_, '_>,
    dressing: BlockId,
) -> Result<Option<Calibration>, Lack> {
    if in_box(evaluation).len() < WORTH_IT {
        return Ok(None);
    }
    let timings = evaluation.state::<Timings>()?;
    let of = timings.0.iter().find(|(of, _)| *of == dressing);
    Ok(of.map(|(_, found)| found.clone()))
}

fn in_box(evaluation: &Evaluation<'_, '_>) -> Vec<BlockId> {
    evaluation.world.names.timed_flies(evaluation.rig.block.id.file)
}

/// Each timed fly with its dressing. One that does not hold together is its own block's to report.
fn timed(evaluation: &Evaluation<'_, '_>, water: &Fluid) -> Vec<(BlockId, Fly)> {
    let flies = in_box(evaluation).into_iter();
    let timed = flies.filter_map(|id| {
        let fly = evaluation.world.read(id).fly()?;
        let speed = fly.sinks.as_ref()?.as_ref().ok()?.si();
        let made = tied::made_in_box(evaluation, id, fly).ok()?;
        let parts = Parts {
            timed: Some(Timed {
                speed: Velocity::new::<meter_per_second>(speed),
                water: *water,
            }),
            ..made.parts
        };
        Some((made.dressing, Fly::tied(&parts).ok()?))
    });
    timed.collect()
}
