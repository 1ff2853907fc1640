//! A piece of line in its colours: one after the other, each over as much of it.

use crate::colours::Colour;
use crate::scene::{Line, Point, at};
use crate::way::parts;

/// The stretches of a line with the colour of each.
pub(super) fn bands(line: &Line) -> impl Iterator<Item = (Vec<Point>, Colour)> + '_ {
    let way: Vec<(f64, f64)> = line.points.iter().map(|point| (point.x, point.y)).collect();
    let places = |part: Vec<(f64, f64)>| part.into_iter().map(|(x, y)| at(x, y)).collect();
    let parts = parts(&way, line.colours.len()).into_iter().map(places);
    parts.zip(line.colours.iter().copied())
}
