//! What was found of all blocks put together, in the order in which a check of
//! the whole text tells it.

use super::super::walk::ASKED;
use super::Live;
use super::chunk::{Chunk, ChunkId, chunk_of, each_place, text_of};
use super::look::{Seen, alike};
use snell_analysis::{capped, ordered};
use snell_finding::Finding;
use snell_rules::Found;
use snell_text::Place;

/// A text with more findings is not followed: a check leaves some of them out.
pub const MOST_FINDINGS: usize = 1_000;

/// Every finding of the text, with its place in the text as it is now.
pub fn gather(live: &Live) -> Vec<Finding> {
    let start = |id: ChunkId| live.weave.index(id).map(|index| live.chunks[index].span.start);
    let mut found: Vec<Finding> = Vec::new();
    let mut order: Vec<&Chunk> = live.chunks.iter().collect();
    // Fences that see only themselves come behind the page's own file.
    order.sort_by_key(|chunk| chunk.file);
    for chunk in &order {
        found.extend(chunk.findings.iter().map(|finding| {
            let mut finding = finding.clone();
            each_place(&mut finding, &mut |place| {
                *place = Place::new(text_of(chunk.id), place.span)
            });
            finding
        }));
    }
    found.extend(live.of_uses.iter().cloned());
    let seen: Vec<&Seen> = order
        .iter()
        .filter_map(|chunk| live.seen.get(&chunk.id))
        .collect();
    let parts: [fn(&Seen) -> &Vec<Finding>; 4] = [
        |seen| &seen.named,
        |seen| &seen.read,
        |seen| &seen.replaces,
        |seen| &seen.rule,
    ];
    for part in parts {
        found.extend(seen.iter().flat_map(|seen| part(seen)).cloned());
    }
    found.extend(live.rulebooks.iter().cloned());
    found.extend(seen.iter().flat_map(|seen| &seen.outing).cloned());
    found.extend(seen.iter().flat_map(|seen| &seen.rig).cloned());
    for seen in &seen {
        let own = seen.found.iter().filter(|found| !repeats(live, seen, found));
        found.extend(own.map(|found| found.finding.clone()));
    }
    for finding in &mut found {
        each_place(finding, &mut |place| {
            if let Some(start) = chunk_of(place.text).and_then(start) {
                *place = Place::new(ASKED, place.span.shifted(start));
            }
        });
    }
    found.retain(|finding| finding.place().text == ASKED);
    capped(ordered(found))
}

/// Whether a rig that this one is made from shows the same, with every cause there.
fn repeats(live: &Live, seen: &Seen, found: &Found) -> bool {
    let bases = seen.bases.iter().filter_map(|base| live.seen.get(base));
    found.inherited
        && bases
            .into_iter()
            .any(|base| base.found.iter().any(|other| alike(found, other)))
}
