//! Pictures as a terminal shows them: the rows of a scene, painted.

use crate::terminal::Terminal;
use owo_colors::Style;
use snell_picture::Scene;
use snell_picture::colours::Colour;
use snell_picture::write::{Painted, rows};

/// A scene for a terminal.
pub fn painted(scene: &Scene, terminal: &Terminal) -> String {
    written(scene, terminal.unicode, |text, paint| match paint {
        Painted::Strong => terminal.strong(text),
        Painted::Plain => text.to_owned(),
        Painted::Quiet => terminal.quiet(text),
        Painted::Fly => terminal.paint(text, Style::new().yellow()),
        Painted::Coloured(colour) => terminal.paint(text, style(colour)),
    })
}

/// A scene as plain text.
pub fn plain(scene: &Scene) -> String {
    written(scene, true, |text, _| text.to_owned())
}

fn written(scene: &Scene, unicode: bool, paint: impl Fn(&str, Painted) -> String) -> String {
    let row = |runs: Vec<(String, Painted)>| {
        let row: String = runs.iter().map(|(text, painted)| paint(text, *painted)).collect();
        format!("{row}\n")
    };
    let text: String = rows(scene, unicode).into_iter().map(row).collect();
    format!("{}\n", text.trim_end())
}

/// The true colour where the picture knows it: terminals bring it to the nearest that they have.
fn style(colour: Colour) -> Style {
    let channel = |at: usize| u8::from_str_radix(colour.hex.get(at..at + 2).unwrap_or("00"), 16).unwrap_or(0);
    Style::new().truecolor(channel(1), channel(3), channel(5))
}
