//! The table of how wide the letters of the pictures' font are, out of the font.

use std::fmt::Write;
use ttf_parser::Face;

/// Where it stands below the top folder.
pub const WIDTHS: &str = "crates/snell-picture/src/widths.txt";

/// The table: letters that follow one another on one line, and `*` where neighbours are equally wide.
///
/// # Panics
/// The font cannot be read.
pub fn widths() -> String {
    let mut table = String::new();
    for (name, font) in [
        ("regular", dejavu::sans::regular()),
        ("bold", dejavu::sans::bold()),
    ] {
        // The font comes with its crate; one that cannot be read is another crate.
        #[expect(clippy::unwrap_used)]
        let face = Face::parse(font, 0).unwrap();
        let _ = write!(table, "{name} {}", face.units_per_em());
        let width = |letter: char| face.glyph_hor_advance(face.glyph_index(letter)?);
        let letters = ('\0'..=char::MAX).filter_map(|letter| Some((u32::from(letter), width(letter)?)));
        let mut last: Option<(u32, u16, usize)> = None;
        for (number, width) in letters {
            last = Some(match last {
                Some((before, same, times)) if before + 1 == number && same == width => {
                    (number, width, times + 1)
                }
                Some((before, other, times)) => {
                    repeat(&mut table, other, times);
                    if before + 1 != number {
                        let _ = write!(table, "\n{number:x}");
                    }
                    (number, width, 1)
                }
                None => {
                    let _ = write!(table, "\n{number:x}");
                    (number, width, 1)
                }
            });
        }
        if let Some((_, width, times)) = last {
            repeat(&mut table, width, times);
        }
        table.push('\n');
    }
    table
}

fn repeat(table: &mut String, width: u16, times: usize) {
    let _ = match times {
        1 => write!(table, " {width}"),
        _ => write!(table, " {width}*{times}"),
    };
}
