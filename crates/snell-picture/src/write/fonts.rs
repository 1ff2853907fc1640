//! The fonts that pictures are painted in, which are carried in the program.

use std::sync::LazyLock;
use ttf_parser::Face;

/// DejaVu Sans, regular and bold.
static FACES: LazyLock<[Option<Face<'static>>; 2]> =
    LazyLock::new(|| [dejavu::sans::regular(), dejavu::sans::bold()].map(|font| Face::parse(font, 0).ok()));

/// The font of a weight.
pub(crate) fn face(bold: bool) -> Option<&'static Face<'static>> {
    FACES[usize::from(bold)].as_ref()
}
