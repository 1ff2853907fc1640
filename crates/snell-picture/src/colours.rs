//! The colours of pictures: those of line as rigs name them, and those of
//! paper and ink in light and dark.
//!
//! Nothing is told by colour alone: coloured line is drawn with an edge of ink,
//! and its label says the word.

/// A colour that line comes in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Colour {
    /// The word for it.
    pub word: &'static str,
    /// As hexadecimal red, green and blue.
    pub hex: &'static str,
}

/// The words that have a colour; any other is told by its label only.
pub const COLOURS: &[Colour] = &[
    colour("pink", "#f0619c"),
    colour("yellow", "#f4cf2b"),
    colour("orange", "#f08a24"),
    colour("red", "#d5402b"),
    colour("white", "#ffffff"),
    colour("green", "#4f9d55"),
    colour("chartreuse", "#b9dc3a"),
    colour("blue", "#3d83c9"),
    colour("purple", "#8a5cb8"),
    colour("brown", "#8a6242"),
    colour("olive", "#7f8436"),
    colour("grey", "#8d9694"),
    colour("gray", "#8d9694"),
    colour("black", "#111615"),
];

const fn colour(word: &'static str, hex: &'static str) -> Colour {
    Colour { word, hex }
}

impl Colour {
    /// Its red, green and blue.
    pub fn channels(self) -> [u8; 3] {
        channels(self.hex)
    }

    /// Whether it is lost on white or on black ground, unless something stands between.
    pub fn wants_ground(self) -> bool {
        const SEEN: f64 = 1.6;
        contrast(self.hex, "#ffffff") < SEEN || contrast(self.hex, "#000000") < SEEN
    }
}

fn channels(hex: &str) -> [u8; 3] {
    [1, 3, 5].map(|at| u8::from_str_radix(hex.get(at..at + 2).unwrap_or("00"), 16).unwrap_or(0))
}

/// Contrast of two colours. Source: WCAG 2.2, relative luminance and contrast ratio.
fn contrast(one: &str, other: &str) -> f64 {
    let luminance = |hex: &str| {
        let light = channels(hex).map(|byte| {
            let share = f64::from(byte) / 255.0;
            if share <= 0.04045 {
                share / 12.92
            } else {
                ((share + 0.055) / 1.055).powf(2.4)
            }
        });
        0.2126 * light[0] + 0.7152 * light[1] + 0.0722 * light[2]
    };
    let (one, other) = (luminance(one), luminance(other));
    (one.max(other) + 0.05) / (one.min(other) + 0.05)
}

/// The colour that a word names.
pub fn named(word: &str) -> Option<Colour> {
    let word = word.to_lowercase();
    COLOURS.iter().copied().find(|colour| colour.word == word)
}

/// The colours that words name, in their order; a word that names none is told by its label only.
pub fn of_words(words: &[&str]) -> Vec<Colour> {
    words.iter().filter_map(|word| named(word)).collect()
}

/// What paints a part of a picture.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ink {
    /// The ground.
    Paper,
    /// Line, knots and names.
    Ink,
    /// What is read second.
    Quiet,
    /// Rulers and pointers.
    Faint,
    /// Flies.
    Fly,
    /// The body of water.
    Water,
}

impl Ink {
    /// Every ink.
    pub const ALL: [Self; 6] = [
        Self::Paper,
        Self::Ink,
        Self::Quiet,
        Self::Faint,
        Self::Fly,
        Self::Water,
    ];

    /// Its word in style sheets.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Paper => "paper",
            Self::Ink => "ink",
            Self::Quiet => "quiet",
            Self::Faint => "faint",
            Self::Fly => "fly",
            Self::Water => "water",
        }
    }

    /// On light ground.
    pub const fn light(self) -> &'static str {
        match self {
            Self::Paper => "#fbfaf6",
            Self::Ink => "#1d2b2a",
            Self::Quiet => "#52615d",
            Self::Faint => "#9aa6a0",
            Self::Fly => "#a8431c",
            Self::Water => "#e3edef",
        }
    }

    /// On dark ground.
    pub const fn dark(self) -> &'static str {
        match self {
            Self::Paper => "#16201f",
            Self::Ink => "#e2e8e3",
            Self::Quiet => "#a9b8b1",
            Self::Faint => "#62736e",
            Self::Fly => "#f0a06c",
            Self::Water => "#1d2e33",
        }
    }

    /// On paper out of a printer.
    pub const fn print(self) -> &'static str {
        match self {
            Self::Paper | Self::Water => "#ffffff",
            Self::Ink | Self::Fly => "#000000",
            Self::Quiet => "#333333",
            Self::Faint => "#888888",
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// WCAG 2.2, 1.4.3: 4.5 for text.
    #[test]
    fn text_can_be_read_in_light_dark_and_print() {
        for look in [Ink::light, Ink::dark, Ink::print] {
            for ink in [Ink::Ink, Ink::Quiet, Ink::Fly] {
                for ground in [Ink::Paper, Ink::Water] {
                    assert!(contrast(look(ink), look(ground)) >= 4.5, "{ink:?} on {ground:?}");
                }
            }
        }
    }

    /// How a colour is seen by those who lack the red, the green or the blue cones. Source: Viénot, Brettel and Mollon,
    /// Digital video colourmaps for checking the legibility of displays by dichromats, 1999, for red and green; for blue
    /// the same construction; coefficients from memory.
    fn seen_without(cones: usize, hex: &str) -> String {
        const LACKING: [[[f64; 3]; 3]; 3] = [
            [[0.112, 0.888, 0.0], [0.112, 0.888, 0.0], [0.004, -0.004, 1.0]],
            [[0.293, 0.707, 0.0], [0.293, 0.707, 0.0], [-0.022, 0.022, 1.0]],
            [[1.0, 0.152, -0.152], [0.0, 0.867, 0.133], [0.0, 0.867, 0.133]],
        ];
        let linear = channels(hex).map(|byte| (f64::from(byte) / 255.0).powf(2.2));
        let seen = LACKING[cones].map(|row| {
            let sum: f64 = row.iter().zip(linear).map(|(share, light)| share * light).sum();
            (sum.clamp(0.0, 1.0).powf(1.0 / 2.2) * 255.0).round() as u8
        });
        format!("#{:02x}{:02x}{:02x}", seen[0], seen[1], seen[2])
    }

    #[test]
    fn text_can_be_read_and_flies_be_seen_whatever_cones_are_lacking() {
        for look in [Ink::light, Ink::dark, Ink::print] {
            for cones in 0..3 {
                for ink in [Ink::Ink, Ink::Quiet, Ink::Fly] {
                    for ground in [Ink::Paper, Ink::Water] {
                        let (ink_seen, ground_seen) =
                            (seen_without(cones, look(ink)), seen_without(cones, look(ground)));
                        let contrast = contrast(&ink_seen, &ground_seen);
                        assert!(
                            contrast >= 4.5,
                            "{ink:?} on {ground:?} without cones {cones}: {contrast}"
                        );
                    }
                }
            }
        }
    }

    #[test]
    fn pale_and_dark_line_wants_ground() {
        let lost: Vec<&str> = COLOURS
            .iter()
            .filter(|colour| colour.wants_ground())
            .map(|one| one.word)
            .collect();
        assert_eq!(lost, ["yellow", "white", "chartreuse", "black"]);
    }

    #[test]
    fn a_word_is_met_in_any_case() {
        assert_eq!(named("Pink").map(|colour| colour.word), Some("pink"));
        assert_eq!(named("mauve"), None);
    }
}
