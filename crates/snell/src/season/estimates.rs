//! What estimates of a history lie between. Each takes a hundred draws, so that
//! only those are asked for that are told: steps that are felt, and changes that
//! nothing but an estimate shows.

use super::reader::Reader;
use snell_history::{Happened, RigStory, Series, drawn, whole};
use snell_view::compare::{Card, Figure, RigChange, changed};
use std::path::Path;

/// Follows figures of a rig, and tells what changes of other files did to its estimates. Of a rig that is not told by
/// itself nothing is drawn.
pub fn follow(story: &mut RigStory, reader: &Reader<'_>, figures: &[Figure], is_told: bool) {
    let series = figures.iter().map(|figure| {
        Series::of(&story.stood, figure.clone(), &mut |figure, stood, card| {
            if !is_told {
                return None;
            }
            let notebook = reader.anew(Path::new(&card.shown.file), stood.commit)?;
            drawn(&notebook, card, figure)
        })
    });
    story.series = series.collect();
    weigh(story, reader);
}

/// Whether an estimate moved by more than it may be off by, where that is all that is told of a change.
fn weigh(story: &mut RigStory, reader: &Reader<'_>) {
    let anew = |commit: usize, card: &Card| {
        let notebook = reader.anew(Path::new(&card.shown.file), commit)?;
        whole(&notebook, card)
    };
    for event in &mut story.events {
        let Happened::Changed {
            renamed: None,
            changes,
            measures,
            ..
        } = &mut event.what
        else {
            continue;
        };
        let is_estimate =
            |moved: &snell_view::compare::Moved| moved.now.as_ref().is_some_and(|now| now.estimate);
        if !changes.is_empty() || !measures.iter().any(is_estimate) {
            continue;
        }
        let before = story.stood.iter().rfind(|stood| stood.commit < event.commit);
        let states = before.and_then(|before| {
            let was = anew(before.commit, before.card.as_deref()?)?;
            Some((was, anew(event.commit, &event.card)?))
        });
        if let Some((was, now)) = states
            && let Some(RigChange::Changed { measures: told, .. }) = changed(&was, &now)
        {
            *measures = told;
        }
    }
}
