//! A scene as PNG, painted from its SVG in the font that is carried in the
//! program, so that a picture is the same on every machine.

use super::letters::missing;
use super::svg::in_outlines;
use crate::scene::Scene;
use resvg::{tiny_skia, usvg};

/// Why there is no PNG.
#[derive(Debug, thiserror::Error)]
pub enum Unpainted {
    /// The picture is too large to be painted point by point.
    #[error("the picture is too large for PNG; write it as SVG")]
    TooLarge,
    /// The painter did not take it.
    #[error("the picture could not be painted: {0}")]
    Painter(String),
}

/// Points to a unit: sharp on a phone, and on paper at 150 mm across over 200 to the inch.
const SHARPNESS: f32 = 3.0;
/// The most points that are painted, in all: 160 MB of them.
const MOST: f32 = 40e6;

/// The letters of a scene for which PNG has none but a box: the font that is carried holds Latin, Greek, Cyrillic,
/// Hebrew, Arabic and their like, and in SVG the reader's own fonts stand.
pub fn unlettered(scene: &Scene) -> Vec<char> {
    let mut found = Vec::new();
    for run in scene.texts().flat_map(|text| &text.runs) {
        missing(run.role, &run.text, &mut found);
    }
    found
}

/// Paints a scene on light ground.
///
/// # Errors
/// It is too large, or the painter refuses it.
pub fn png(scene: &Scene) -> Result<Vec<u8>, Unpainted> {
    let painter = |error: &dyn std::fmt::Display| Unpainted::Painter(error.to_string());
    let (width, height) = (scene.width as f32 * SHARPNESS, scene.height as f32 * SHARPNESS);
    if !(width * height).is_finite() || width * height > MOST {
        return Err(Unpainted::TooLarge);
    }
    let tree = usvg::Tree::from_str(&in_outlines(scene), &usvg::Options::default())
        .map_err(|error| painter(&error))?;
    let mut points =
        tiny_skia::Pixmap::new(width.ceil() as u32, height.ceil() as u32).ok_or(Unpainted::TooLarge)?;
    let scale = tiny_skia::Transform::from_scale(SHARPNESS, SHARPNESS);
    resvg::render(&tree, scale, &mut points.as_mut());
    points.encode_png().map_err(|error| painter(&error))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_too_large_is_refused_before_it_takes_memory() {
        let scene = Scene {
            title: String::new(),
            about: String::new(),
            width: 420.0,
            height: 1e7,
            metre: None,
            ground: crate::scene::Ground::Screen,
            items: Vec::new(),
        };
        assert!(matches!(png(&scene), Err(Unpainted::TooLarge)));
    }
}
