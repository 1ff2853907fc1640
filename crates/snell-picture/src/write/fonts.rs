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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::widths::advance;

    #[test]
    fn the_table_says_of_every_letter_what_the_font_says() {
        for bold in [false, true] {
            let face = face(bold).expect("the font is carried");
            let units = f64::from(face.units_per_em());
            let letters = (0..=u32::from(char::MAX)).filter_map(char::from_u32);
            for letter in letters {
                let glyph = face.glyph_index(letter);
                let own = glyph.and_then(|glyph| face.glyph_hor_advance(glyph));
                let own = own.map_or(1.0, |own| f64::from(own) / units);
                assert_eq!(advance(bold, letter), own, "{letter:?}");
            }
        }
    }
}
