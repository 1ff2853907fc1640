//! The picture put together: what is told, the air, the water, the figures of
//! each fly, and the scales.

use super::frame::{Frame, Scale};
use super::sheet::Sheet;
use super::{bed, beside, over, table, under, unridden};
use crate::drifting::drifted::{Drifted, Rigged};
use crate::medium::Medium;
use crate::scene::{Ground, Scene};

pub(super) fn lay_out(drifted: &Drifted, medium: Medium) -> Option<Scene> {
    let frame = Frame::of(medium);
    let lanes = beside::lanes(drifted);
    let room = beside::room_for(&lanes, &frame);
    let mut sheet = Sheet {
        drifted,
        medium,
        frame,
        scale: Scale::of(drifted, &frame, room)?,
        items: Vec::new(),
    };
    let top = sheet.header();
    let surface = top + over::height(&sheet);
    sheet.scale = sheet.scale.below(if medium.is_cells() {
        (surface / crate::medium::ROW).ceil() * crate::medium::ROW
    } else {
        surface
    });
    let ground = bed::thickness(&sheet);
    under::water(&mut sheet, ground);
    bed::draw(&mut sheet);
    over::draw(&mut sheet, top);
    let low = match &drifted.rig {
        Rigged::Rides(riding) => under::rig(&mut sheet, riding, &lanes),
        Rigged::Unknown(flies) => unridden::draw(&mut sheet, flies, &lanes),
    };
    let low = low.max(sheet.scale.ground + ground);
    let foot = sheet.scale.ground + ground;
    let low = under::caption(&mut sheet, (foot, low)).max(low);
    let low = table::draw(&mut sheet, low + frame.space);
    let low = over::sentences(&mut sheet, low);
    let height = sheet.footer(low + frame.space);
    let even = sheet.scale.stretch() < 1.001;
    Some(Scene {
        title: format!("{} in its water", drifted.name),
        about: drifted.about.clone(),
        width: frame.width,
        height,
        metre: even.then_some(sheet.scale.under.0),
        ground: Ground::Screen,
        items: sheet.items,
    })
}
