//! What the rules say against rigs, in words, for a sheet that is read away
//! from the notebook.

use crate::names::file_of;
use snell_analysis::{Notebook, Query, rigs};
use snell_finding::{Finding, Level};
use snell_rig::faults::Faults;
use snell_rig::project::BlockRef;
use snell_syntax::BlockKind;
use snell_text::Place;

/// Whose water a sheet is of.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum WaterShown {
    /// The rig's own.
    Own,
    /// None: each reader has a water of their own.
    None,
}

/// Of every rig that `wanted` picks by its name and file, in order, what the rules say against it; without a water,
/// nothing of what its water has a part in.
pub fn cautions(
    notebook: &Notebook,
    water: WaterShown,
    wanted: &dyn Fn(&str, &str) -> bool,
) -> Vec<Vec<String>> {
    notebook.ask(|query| {
        let picked = rigs(query.world)
            .into_iter()
            .filter(|block| wanted(&snell_rig::rig::name(*block), &file_of(notebook, *block)));
        picked.map(|block| of_rig(query, block, water)).collect()
    })
}

fn of_rig<'n>(query: &Query<'_, 'n>, block: BlockRef<'n>, water: WaterShown) -> Vec<String> {
    let rig = snell_rig::read(query.world, block, &Faults::default());
    let stated = rig.settings.water.as_ref().map(|water| water.place);
    let mut said = Vec::new();
    for finding in query.findings_of(&[block]) {
        let told = finding.rig.is_some() && finding.level >= Level::Caution;
        let wet = water == WaterShown::None && rests_on_water(query, &finding, stated);
        if told && !wet && !said.contains(&finding.message) {
            said.push(finding.message);
        }
    }
    said
}

/// Whether a water has a part in a finding: one that stands in a block of its own, or on the rig's own line.
fn rests_on_water(query: &Query<'_, '_>, finding: &Finding, stated: Option<Place>) -> bool {
    let project = query.world.project;
    let on_own_line = |place: Place| {
        stated.is_some_and(|stated| {
            place.text == stated.text
                && place.span.start < stated.span.end
                && stated.span.start < place.span.end
        })
    };
    let wet = |place: Place| {
        let block = project.block_above(place).map(|id| project.block(id));
        block.is_some_and(|block| block.kind() == BlockKind::Water) || on_own_line(place)
    };
    finding.labels.iter().any(|label| wet(label.place))
}
