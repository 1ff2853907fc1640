//! The first picture: a rig to scale, hung up as a card is read, the rod at the
//! top and the point at the bottom.
//!
//! A leader of five to nine metres is some forty thousand times as long as it is
//! thick. On a page lengths are true, those of a long leader in its last part and on
//! a strip beside it; how thick line is drawn, and signs, are not. In a terminal each
//! part has a row or more in a column.

mod bar;
mod drawing;
mod frame;
mod layout;
mod places;
mod read;
mod strip;
mod subject;
mod tree;
mod words;

use frame::Paper;
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
    Some(match medium {
        Medium::Page => layout::lay_out(&hung, Paper::Page),
        Medium::Sheet => layout::lay_out(&hung, Paper::Sheet),
        Medium::Hover => layout::lay_out(&hung, Paper::Hover),
        Medium::Cells(columns) => tree::lay_out(&hung, columns),
    })
}
