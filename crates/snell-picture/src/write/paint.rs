//! How inks and places are written in SVG: classes for style sheets, with the
//! colours of light ground for those who read none.

use super::literal::{held, number};
use crate::colours::Ink;
use crate::scene::Point;
use quick_xml::escape::escape;

pub(super) fn fill(ink: Ink) -> String {
    format!("class=\"fill-{}\" fill=\"{}\"", ink.word(), ink.light())
}

pub(super) fn stroke(ink: Ink) -> String {
    format!("class=\"line-{}\" stroke=\"{}\"", ink.word(), ink.light())
}

/// Filled with one ink and edged with another.
pub(super) fn edged(inside: Ink, edge: Ink) -> String {
    format!(
        "class=\"fill-{} line-{}\" fill=\"{}\" stroke=\"{}\"",
        inside.word(),
        edge.word(),
        inside.light(),
        edge.light()
    )
}

/// A text as XML can hold it.
pub(super) fn safe(text: &str) -> String {
    escape(held(text).as_str()).into_owned()
}

pub(super) fn points(points: &[Point]) -> String {
    let one = |point: &Point| format!("{},{}", number(point.x), number(point.y));
    points.iter().map(one).collect::<Vec<_>>().join(" ")
}
