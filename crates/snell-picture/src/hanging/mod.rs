//! The first picture: a rig to scale, hung up as a card is read, the rod at the
//! top and the point at the bottom.
//!
//! A leader of five to nine metres is some forty thousand times as long as it is
//! thick. Upright it may be as long as it needs: a phone scrolls it, a page holds
//! it, and each part has a line of its own beside it. Lengths are true; how
//! thick line is drawn, and marks, are not.

mod drawing;
mod frame;
mod key;
mod layout;
mod places;
mod read;
mod strip;
mod subject;
mod words;

use subject::Hung;

use crate::medium::Medium;
use crate::scene::Scene;
use snell_rig::Evaluation;
use snell_rig::value::Value;
use snell_units::System;

/// The picture of a rig, with values written by `written` and rulers in a system of units. `None` where the rig has
/// no line at all.
pub fn scene(
    evaluation: &Evaluation<'_, '_>,
    written: &dyn Fn(&Value) -> String,
    system: System,
    medium: Medium,
) -> Option<Scene> {
    let hung = Hung::read(evaluation, written, system)?;
    Some(layout::lay_out(&hung, medium))
}
