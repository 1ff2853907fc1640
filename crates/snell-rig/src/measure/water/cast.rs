//! How the flies are laid on the water.

use crate::assumed::{Assumed, Taken, Usual};
use crate::evaluation::Evaluation;
use crate::keywords;
use crate::missing::Of;
use snell_water::sink::Cast;

pub(super) fn cast(evaluation: &Evaluation<'_, '_>) -> Cast {
    let said = evaluation.rig.settings.cast.as_ref().map(|cast| cast.value);
    if said.is_none() {
        evaluation.assume(|| Assumed {
            what: Usual::Cast,
            of: Of::Rig,
            value: Taken::Cast(keywords::Cast::Tuck),
        });
    }
    match said {
        Some(keywords::Cast::Up) => Cast::Up,
        Some(keywords::Cast::Down) => Cast::Down,
        Some(keywords::Cast::Tuck) | None => Cast::Tuck,
    }
}
