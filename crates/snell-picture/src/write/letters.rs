//! A line of text as the outlines of its letters, for a painter that knows no
//! fonts.
//!
//! Letters are set one by one by the widths that the layout measured. Hebrew
//! and Arabic run from right to left, but the letters of Arabic are not joined.

use super::fonts::face;
use super::literal::{held, number};
use crate::scene::{Point, TextRole};
use crate::widths::advance;
use std::fmt::Write;
use ttf_parser::{GlyphId, OutlineBuilder};
use unicode_bidi::BidiInfo;

/// The outlines of a text that begins at a point of its baseline, as the data of an SVG path.
pub(super) fn outlines(role: TextRole, text: &str, from: Point) -> String {
    let face = face(role.is_bold());
    let mut pen = Pen {
        path: String::new(),
        from,
        scale: face.map_or(0.0, |face| role.size() / f64::from(face.units_per_em())),
    };
    for letter in in_sight_order(&held(text)).chars() {
        if let Some(face) = face {
            // The first glyph of a font stands for every letter that it lacks.
            let glyph = face.glyph_index(letter).unwrap_or(GlyphId(0));
            face.outline_glyph(glyph, &mut pen);
        }
        pen.from.x += advance(role.is_bold(), letter) * role.size();
    }
    pen.path
}

/// The letters of a text that the font has none for, each once.
pub(super) fn missing(role: TextRole, text: &str, found: &mut Vec<char>) {
    let Some(face) = face(role.is_bold()) else { return };
    for letter in held(text).chars() {
        // What only joins its neighbours is never seen.
        let seen =
            !letter.is_whitespace() && !matches!(letter, '\u{200b}'..='\u{200f}' | '\u{fe0e}' | '\u{fe0f}');
        if seen && face.glyph_index(letter).is_none() && !found.contains(&letter) {
            found.push(letter);
        }
    }
}

/// The letters from left to right, as they are seen.
fn in_sight_order(text: &str) -> String {
    let directions = BidiInfo::new(text, None);
    let paragraphs = directions.paragraphs.iter();
    paragraphs
        .map(|paragraph| directions.reorder_line(paragraph, paragraph.range.clone()))
        .collect()
}

/// Draws what a font holds in its own units, with y upwards.
struct Pen {
    path: String,
    from: Point,
    scale: f64,
}

impl Pen {
    fn go(&mut self, deed: char, points: &[(f32, f32)]) {
        self.path.push(deed);
        for (x, y) in points {
            let x = self.from.x + f64::from(*x) * self.scale;
            let y = self.from.y - f64::from(*y) * self.scale;
            let _ = write!(self.path, "{},{} ", number(x), number(y));
        }
    }
}

impl OutlineBuilder for Pen {
    fn move_to(&mut self, x: f32, y: f32) {
        self.go('M', &[(x, y)]);
    }

    fn line_to(&mut self, x: f32, y: f32) {
        self.go('L', &[(x, y)]);
    }

    fn quad_to(&mut self, x1: f32, y1: f32, x: f32, y: f32) {
        self.go('Q', &[(x1, y1), (x, y)]);
    }

    fn curve_to(&mut self, x1: f32, y1: f32, x2: f32, y2: f32, x: f32, y: f32) {
        self.go('C', &[(x1, y1), (x2, y2), (x, y)]);
    }

    fn close(&mut self) {
        self.path.push('Z');
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::medium::Medium;
    use crate::scene::at;

    /// The leftmost and the rightmost point of a path.
    fn ends(path: &str) -> (f64, f64) {
        let points = path
            .split([' ', 'M', 'L', 'Q', 'C', 'Z'])
            .filter(|point| !point.is_empty());
        let x = points.filter_map(|point| point.split_once(',')?.0.parse::<f64>().ok());
        x.fold((f64::INFINITY, f64::NEG_INFINITY), |(left, right), x| {
            (left.min(x), right.max(x))
        })
    }

    #[test]
    fn letters_stay_within_their_measured_width() {
        let role = TextRole::Title;
        let (left, right) = ends(&outlines(role, "tippet 32 in", at(100.0, 50.0)));
        let width = Medium::Page.width(role, "tippet 32 in");
        assert!(
            left >= 100.0 && right <= 100.0 + width,
            "{left} to {right} of {width}"
        );
        assert!(right - left > width * 0.9, "{left} to {right} of {width}");
    }

    #[test]
    fn a_letter_stands_on_its_baseline() {
        let path = outlines(TextRole::Detail, "H", at(0.0, 50.0));
        assert!(path.contains(",50 "), "{path}");
        // The height of capitals of DejaVu Sans 2.37 is 1493 of 2048, by the font's own `OS/2` table.
        assert!(path.contains(",42.71 "), "{path}");
    }

    #[test]
    fn letters_that_the_font_lacks_are_found_once() {
        let mut found = Vec::new();
        missing(TextRole::Detail, "川虫 and 川, 2 ± 1 mm", &mut found);
        assert_eq!(found, ['川', '虫']);
    }

    #[test]
    fn hebrew_runs_from_right_to_left() {
        assert_eq!(in_sight_order("קן 2"), "2 ןק");
        assert_eq!(in_sight_order("bracken"), "bracken");
    }
}
