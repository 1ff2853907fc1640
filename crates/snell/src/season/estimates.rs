//! What estimates of a history lie between. Each takes a hundred draws, so that
//! only those are asked for that are told: steps that are felt, and changes that
//! nothing but an estimate shows.

use super::reader::Reader;
use snell_history::{Happened, RigStory, Seen, Series, drawn, whole};
use snell_view::compare::{Figure, RigChange, changed};
use std::path::Path;

/// Follows figures of a rig, and tells what changes of other files did to its estimates. Of a rig that is not told by
/// itself nothing is drawn.
pub fn follow(story: &mut RigStory, reader: &Reader<'_>, figures: &[Figure], is_told: bool) {
    let series = figures.iter().enumerate().map(|(number, figure)| {
        Series::of(
            &story.stood,
            number,
            figure.clone(),
            &mut |figure, commit, rig| {
                if !is_told {
                    return None;
                }
                let notebook = reader.anew(Path::new(&rig.called.file), commit)?;
                drawn(&notebook, rig, figure)
            },
        )
    });
    story.series = series.collect();
    weigh(story, reader);
}

/// Whether an estimate moved by more than it may be off by, where that is all that is told of a change.
fn weigh(story: &mut RigStory, reader: &Reader<'_>) {
    let anew = |commit: usize, rig: &Seen| {
        let notebook = reader.anew(Path::new(&rig.called.file), commit)?;
        whole(&notebook, rig)
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
            let was = anew(before.commit, before.rig.as_deref()?)?;
            Some((was, anew(event.commit, &event.rig)?))
        });
        if let Some((was, now)) = states
            && let Some(RigChange::Changed { measures: told, .. }) = changed(&was, &now)
        {
            *measures = told;
        }
    }
}
