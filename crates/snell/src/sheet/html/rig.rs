//! What a rig's page holds.

use crate::sheet::Sheet;
use snell_view::CutRig;

/// A rig on a page of its own: all that is read at the bench and at the water.
pub struct RigPage<'r> {
    /// The rig.
    pub sheet: &'r Sheet,
    /// Its pictures.
    pub pictures: &'r [Drawing],
    /// Where it fishes as it is tied.
    pub waters: Option<&'r Drawing>,
    /// What to cut for it.
    pub cuts: &'r CutRig,
    /// What the rules say against it.
    pub cautions: &'r [String],
}

/// A picture on such a page.
pub struct Drawing {
    /// As SVG.
    pub svg: String,
    /// Its width and height in CSS pixels.
    pub size: (f64, f64),
}
