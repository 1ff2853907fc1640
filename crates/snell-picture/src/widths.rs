//! How wide the letters of DejaVu Sans are, regular and bold, as a share of the
//! font's size.
//!
//! The table is made from the font, so that a layout needs no font: the same
//! picture comes out where none is carried, as in a browser.

use std::sync::LazyLock;

/// For each weight its name and the units of its size, then stretches of letters that follow one another: the first
/// one's number, and their widths, of which `*` repeats one. `cargo refresh` makes it.
const TABLE: &str = include_str!("widths.txt");

/// Letters that follow one another.
struct Stretch {
    first: u32,
    widths: Vec<u16>,
}

/// A weight of the font.
#[derive(Default)]
struct Weight {
    size: f64,
    /// By the letters' numbers.
    stretches: Vec<Stretch>,
}

static WEIGHTS: LazyLock<[Weight; 2]> = LazyLock::new(|| {
    let mut weights = [Weight::default(), Weight::default()];
    let mut into = 0;
    for line in TABLE.lines() {
        let mut words = line.split(' ');
        match words.next().unwrap_or_default() {
            name @ ("regular" | "bold") => {
                into = usize::from(name == "bold");
                weights[into].size = words.next().and_then(|size| size.parse().ok()).unwrap_or(1.0);
            }
            first => {
                let first = u32::from_str_radix(first, 16).unwrap_or_default();
                let widths = words.flat_map(repeated).collect();
                weights[into].stretches.push(Stretch { first, widths });
            }
        }
    }
    weights
});

/// `1229*3` is three letters of one width.
fn repeated(word: &str) -> impl Iterator<Item = u16> {
    let (width, times) = word.split_once('*').unwrap_or((word, "1"));
    let (width, times) = (width.parse().unwrap_or(0), times.parse().unwrap_or(0));
    std::iter::repeat_n(width, times)
}

/// The width of a letter as a share of the font's size. A letter that the font lacks is drawn by another one, and none is
/// broader than a square.
pub(crate) fn advance(bold: bool, letter: char) -> f64 {
    let weight = &WEIGHTS[usize::from(bold)];
    let number = u32::from(letter);
    let after = weight
        .stretches
        .partition_point(|stretch| stretch.first <= number);
    let known = || {
        let stretch = weight.stretches.get(after.checked_sub(1)?)?;
        stretch.widths.get((number - stretch.first) as usize)
    };
    known().map_or(1.0, |width| f64::from(*width) / weight.size)
}
