//! Pictures as a terminal shows them: the rows of a scene, painted.

use crate::terminal::{Palette, Terminal};
use owo_colors::{AnsiColors, Style, XtermColors};
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
        Painted::Coloured(colour) => coloured(text, colour, terminal),
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

/// Line in a colour that is lost on white or black is drawn on grey, and thin enough to see the grey.
fn coloured(text: &str, colour: Colour, terminal: &Terminal) -> String {
    if !terminal.colour || !colour.wants_ground() {
        return terminal.paint(text, nearest(colour.channels(), terminal.palette).ink());
    }
    let ground = nearest(GROUND, terminal.palette);
    let style = nearest(colour.channels(), terminal.palette).ink();
    terminal.paint(&text.replace('█', "┃"), ground.behind(style))
}

/// Between white and black: 4.5 to 1 against either.
const GROUND: [u8; 3] = [0x76, 0x76, 0x76];

/// A colour as a terminal is told it.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Told {
    Sixteen(AnsiColors),
    Cube(u8),
    Any([u8; 3]),
}

impl Told {
    fn ink(self) -> Style {
        match self {
            Self::Sixteen(colour) => Style::new().color(colour),
            Self::Cube(index) => Style::new().color(XtermColors::from(index)),
            Self::Any([red, green, blue]) => Style::new().truecolor(red, green, blue),
        }
    }

    fn behind(self, style: Style) -> Style {
        match self {
            Self::Sixteen(colour) => style.on_color(colour),
            Self::Cube(index) => style.on_color(XtermColors::from(index)),
            Self::Any([red, green, blue]) => style.on_truecolor(red, green, blue),
        }
    }
}

/// The sixteen as terminals usually come with them. Source: the defaults of xterm.
const SIXTEEN: [(AnsiColors, [u8; 3]); 16] = [
    (AnsiColors::Black, [0, 0, 0]),
    (AnsiColors::Red, [205, 0, 0]),
    (AnsiColors::Green, [0, 205, 0]),
    (AnsiColors::Yellow, [205, 205, 0]),
    (AnsiColors::Blue, [0, 0, 238]),
    (AnsiColors::Magenta, [205, 0, 205]),
    (AnsiColors::Cyan, [0, 205, 205]),
    (AnsiColors::White, [229, 229, 229]),
    (AnsiColors::BrightBlack, [127, 127, 127]),
    (AnsiColors::BrightRed, [255, 0, 0]),
    (AnsiColors::BrightGreen, [0, 255, 0]),
    (AnsiColors::BrightYellow, [255, 255, 0]),
    (AnsiColors::BrightBlue, [92, 92, 255]),
    (AnsiColors::BrightMagenta, [255, 0, 255]),
    (AnsiColors::BrightCyan, [0, 255, 255]),
    (AnsiColors::BrightWhite, [255, 255, 255]),
];

/// The nearest colour of a palette.
fn nearest(wanted: [u8; 3], palette: Palette) -> Told {
    let apart = |one: [u8; 3]| -> u32 {
        let pairs = one.into_iter().zip(wanted);
        pairs
            .map(|(one, other)| u32::from(one.abs_diff(other)).pow(2))
            .sum()
    };
    match palette {
        Palette::Any => Told::Any(wanted),
        Palette::Cube => Told::Cube(
            (16..=255)
                .min_by_key(|index| apart(of_cube(*index)))
                .unwrap_or(15),
        ),
        Palette::Sixteen => {
            let nearest = SIXTEEN.into_iter().min_by_key(|(_, own)| apart(*own));
            Told::Sixteen(nearest.map_or(AnsiColors::Default, |(colour, _)| colour))
        }
    }
}

/// A colour of xterm's cube or one of its greys. Source: the tables of xterm, 256colres.
fn of_cube(index: u8) -> [u8; 3] {
    const STEPS: [u8; 6] = [0, 95, 135, 175, 215, 255];
    if index >= 232 {
        return [8 + 10 * (index - 232); 3];
    }
    let place = usize::from(index.saturating_sub(16));
    [place / 36, place / 6 % 6, place % 6].map(|step| STEPS[step])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_colour_is_brought_to_the_nearest_that_there_is() {
        let pink = [240, 97, 156];
        assert_eq!(nearest(pink, Palette::Any), Told::Any(pink));
        // 205 is #ff5faf.
        assert_eq!(nearest(pink, Palette::Cube), Told::Cube(205));
        assert_eq!(nearest([255; 3], Palette::Cube), Told::Cube(231));
        assert_eq!(
            nearest([255; 3], Palette::Sixteen),
            Told::Sixteen(AnsiColors::BrightWhite)
        );
    }
}
