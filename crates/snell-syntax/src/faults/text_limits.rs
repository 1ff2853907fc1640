//! Faults as they stand in their text, and what is said of a text that has too
//! many of something.

use snell_finding::{Code, Edit, Finding, Level};
use snell_text::{Place, TextId};

/// A finding of one line as it stands in `text`, the line beginning at `offset`.
pub(crate) fn placed(finding: &Finding, text: TextId, offset: u32) -> Finding {
    let mut finding = finding.clone();
    let put = |place: &mut Place| *place = Place::new(text, place.span.shifted(offset));
    finding.labels.iter_mut().for_each(|label| put(&mut label.place));
    let edits = finding.fixes.iter_mut().flat_map(|fix| &mut fix.edits);
    edits.for_each(|edit: &mut Edit| put(&mut edit.place));
    finding
}

/// Words of a line that is read but for them, or a whole line.
pub(crate) fn unread(place: Place, is_whole: bool) -> Finding {
    let told = if is_whole {
        "This line is not understood, and is kept as a note."
    } else {
        "This is not understood, and is kept as a note; the rest of the line is read."
    };
    Finding::new(Code::WordsUnread, Level::Caution, place, told)
        .help("write it in other words, or behind // where it is only a note")
}

/// How many more faults there are than are shown.
pub(crate) fn too_many(place: Place, more: usize) -> Finding {
    let lines = if more == 1 { "line" } else { "lines" };
    Finding::fault(
        Code::FaultsLeftOut,
        place,
        format!("{more} more {lines} of this text could not be read; the faults above are the first."),
    )
    .help("mend the first ones and check again")
}

/// More of something than is read.
pub(crate) fn overfull(place: Place, limit: usize, what: &str) -> Finding {
    Finding::fault(
        Code::TextOverfull,
        place,
        format!("This text has more than {limit} {what}; from here on it is not read."),
    )
    .help("split it into several files")
}
