//! The fonts that pictures are painted in, which are carried in the program.

use std::sync::LazyLock;
use ttf_parser::Face;

/// DejaVu Sans, regular and bold, as `build.rs` leaves it.
const FONTS: [&[u8]; 2] = [
    include_bytes!(concat!(env!("OUT_DIR"), "/regular.ttf")),
    include_bytes!(concat!(env!("OUT_DIR"), "/bold.ttf")),
];

static FACES: LazyLock<[Option<Face<'static>>; 2]> =
    LazyLock::new(|| FONTS.map(|font| Face::parse(font, 0).ok()));

/// The font of a weight.
pub(crate) fn face(bold: bool) -> Option<&'static Face<'static>> {
    FACES[usize::from(bold)].as_ref()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::widths::advance;
    use ttf_parser::{GlyphId, OutlineBuilder};

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

    /// What a pen is told, word for word.
    #[derive(Default, PartialEq, Debug)]
    struct Strokes(Vec<(char, Vec<f32>)>);

    impl OutlineBuilder for Strokes {
        fn move_to(&mut self, x: f32, y: f32) {
            self.0.push(('M', vec![x, y]));
        }
        fn line_to(&mut self, x: f32, y: f32) {
            self.0.push(('L', vec![x, y]));
        }
        fn quad_to(&mut self, x1: f32, y1: f32, x: f32, y: f32) {
            self.0.push(('Q', vec![x1, y1, x, y]));
        }
        fn curve_to(&mut self, x1: f32, y1: f32, x2: f32, y2: f32, x: f32, y: f32) {
            self.0.push(('C', vec![x1, y1, x2, y2, x, y]));
        }
        fn close(&mut self) {
            self.0.push(('Z', Vec::new()));
        }
    }

    #[test]
    fn every_letter_has_the_outline_that_it_has_in_the_whole_font() {
        for (bold, whole) in [(false, dejavu::sans::regular()), (true, dejavu::sans::bold())] {
            let whole = Face::parse(whole, 0).expect("it is a font");
            let carried = face(bold).expect("the font is carried");
            let outline = |face: &Face<'_>, glyph| {
                let mut strokes = Strokes::default();
                face.outline_glyph(glyph, &mut strokes);
                strokes
            };
            let mut letters = Vec::new();
            for table in whole.tables().cmap.iter().flat_map(|cmap| cmap.subtables) {
                table.codepoints(|letter| letters.extend(char::from_u32(letter)));
            }
            let lacking = outline(&whole, GlyphId(0));
            assert_eq!(outline(carried, GlyphId(0)), lacking);
            let mut drawn = 0;
            for letter in letters {
                let Some(glyph) = whole.glyph_index(letter) else {
                    continue;
                };
                assert_eq!(carried.glyph_index(letter), Some(glyph), "{letter:?}");
                let wanted = outline(&whole, glyph);
                drawn += usize::from(!wanted.0.is_empty());
                assert_eq!(outline(carried, glyph), wanted, "{letter:?}");
            }
            assert!(drawn > 5_000, "{drawn} outlines");
        }
    }
}
