//! Signs as SVG: knots, rings, shots, floats, flies and warnings.

use super::literal::number;
use super::paint::{edged, fill, points, stroke};
use crate::colours::Ink;
use crate::scene::{Mark, MarkKind, Point};

/// Writes a sign.
pub(super) fn mark(svg: &mut String, mark: &Mark) {
    let (x, y, size) = (mark.at.x, mark.at.y, mark.size);
    let shape = match mark.kind {
        MarkKind::Knot => diamond(mark, &edged(Ink::Ink, Ink::Paper)),
        MarkKind::UsualKnot => diamond(mark, &edged(Ink::Paper, Ink::Ink)),
        MarkKind::Ring => circle(x, y, size, &edged(Ink::Paper, Ink::Ink), 2.0),
        MarkKind::Swivel => {
            let eye = |y| circle(x, y, size * 0.55, &edged(Ink::Paper, Ink::Ink), 1.6);
            eye(y - size * 0.6) + &eye(y + size * 0.6)
        }
        MarkKind::Shot => circle(x, y, size, &edged(Ink::Ink, Ink::Paper), 1.0),
        MarkKind::Float => float(mark),
        MarkKind::Break => format!(
            "<polygon points=\"{}\" {}/><polyline points=\"{2}\" fill=\"none\" {3} stroke-width=\"1.3\"/>\
             <polyline points=\"{4}\" fill=\"none\" {3} stroke-width=\"1.3\"/>",
            relative(mark, &[(-1.2, 0.1), (1.2, -0.7), (1.2, 0.1), (-1.2, 0.9)]),
            fill(Ink::Paper),
            relative(mark, &[(-1.2, 0.1), (1.2, -0.7)]),
            stroke(Ink::Ink),
            relative(mark, &[(-1.2, 0.9), (1.2, 0.1)]),
        ),
        MarkKind::HardWater => triangle(mark, &edged(Ink::Paper, Ink::Ink)),
        MarkKind::KeepOut => triangle(mark, &edged(Ink::Ink, Ink::Ink)),
        MarkKind::OwnWater => circle(x, y, size, &edged(Ink::Ink, Ink::Paper), 1.0),
        MarkKind::BeadedFly | MarkKind::PlainFly | MarkKind::FloatingFly => fly(mark),
    };
    svg.push_str(&shape);
    svg.push('\n');
}

/// A body with a waterline, in its own colour where it has one.
fn float(mark: &Mark) -> String {
    let (x, y, size) = (mark.at.x, mark.at.y, mark.size);
    let paint = match mark.colour {
        Some(colour) => format!("fill=\"{}\" {}", colour.hex, stroke(Ink::Ink)),
        None => edged(Ink::Paper, Ink::Ink),
    };
    format!(
        "<ellipse cx=\"{0}\" cy=\"{1}\" rx=\"{2}\" ry=\"{3}\" {paint} stroke-width=\"1.6\"/>\
         <polyline points=\"{4},{1} {5},{1}\" fill=\"none\" {6} stroke-width=\"1.6\"/>",
        number(x),
        number(y),
        number(size * 0.7),
        number(size),
        number(x - size * 0.7),
        number(x + size * 0.7),
        stroke(Ink::Ink)
    )
}

fn relative(mark: &Mark, by: &[(f64, f64)]) -> String {
    let shifted = by.iter().map(|(x, y)| Point {
        x: mark.at.x + x * mark.size,
        y: mark.at.y + y * mark.size,
    });
    points(&shifted.collect::<Vec<_>>())
}

fn diamond(mark: &Mark, paint: &str) -> String {
    let corners = relative(mark, &[(0.0, -1.0), (1.0, 0.0), (0.0, 1.0), (-1.0, 0.0)]);
    format!("<polygon points=\"{corners}\" {paint} stroke-width=\"1.2\"/>")
}

fn triangle(mark: &Mark, paint: &str) -> String {
    let corners = relative(mark, &[(0.0, -0.9), (1.0, 0.8), (-1.0, 0.8)]);
    format!("<polygon points=\"{corners}\" {paint} stroke-width=\"1.1\" stroke-linejoin=\"round\"/>")
}

fn circle(x: f64, y: f64, radius: f64, paint: &str, thick: f64) -> String {
    format!(
        "<circle cx=\"{}\" cy=\"{}\" r=\"{}\" {paint} stroke-width=\"{}\"/>",
        number(x),
        number(y),
        number(radius),
        number(thick)
    )
}

/// A hook that hangs by its eye, with its bead, its body, or the hackle that bears it up.
fn fly(mark: &Mark) -> String {
    let (x, y, size) = (mark.at.x, mark.at.y, mark.size);
    let hook = format!(
        "<path d=\"M{0},{1} v{2} a{3},{3} 0 0 1 -{4},0 v-{5}\" fill=\"none\" {6} stroke-width=\"1.6\" \
         stroke-linecap=\"round\"/>",
        number(x),
        number(y),
        number(size * 0.95),
        number(size * 0.27),
        number(size * 0.54),
        number(size * 0.22),
        stroke(Ink::Fly)
    );
    let head = match mark.kind {
        MarkKind::BeadedFly => circle(x, y + size * 0.2, size * 0.28, &edged(Ink::Fly, Ink::Paper), 1.0),
        MarkKind::FloatingFly => {
            let fan = [
                (-0.5, 0.0),
                (0.0, 0.3),
                (0.5, 0.0),
                (0.0, 0.3),
                (-0.6, 0.32),
                (0.6, 0.32),
                (0.0, 0.3),
                (-0.5, 0.6),
                (0.0, 0.3),
                (0.5, 0.6),
            ];
            format!(
                "<polyline points=\"{}\" fill=\"none\" {} stroke-width=\"1.1\"/>",
                relative(mark, &fan),
                stroke(Ink::Fly)
            )
        }
        MarkKind::PlainFly
        | MarkKind::Knot
        | MarkKind::UsualKnot
        | MarkKind::Ring
        | MarkKind::Swivel
        | MarkKind::Shot
        | MarkKind::Float
        | MarkKind::Break
        | MarkKind::HardWater
        | MarkKind::KeepOut
        | MarkKind::OwnWater => String::new(),
    };
    let body = relative(mark, &[(0.0, 0.3), (0.17, 0.5), (0.0, 0.95), (-0.17, 0.5)]);
    format!("{hook}<polygon points=\"{body}\" {}/>{head}", fill(Ink::Fly))
}
