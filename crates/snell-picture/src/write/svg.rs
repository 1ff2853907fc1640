//! A scene as SVG that needs nothing else: text is text, a title and a
//! description are read out, and the colours follow light, dark and print.
//!
//! Every element carries its colour for light ground, and a class: viewers that
//! know no style sheets show that, the others what the reader's system asks for.

use super::letters::outlines;
use super::literal::{held, number};
use crate::colours::Ink;
use crate::medium::Medium;
use crate::scene::{
    Ground, Item, Line, LineRole, Mark, MarkKind, Point, Run, Scene, Side, Text, TextRole, at,
};
use quick_xml::escape::escape;
use std::fmt::Write;

/// Fonts that systems come with; the last is the one that text was measured in.
const FONTS: &str = "system-ui, 'Segoe UI', Roboto, 'Helvetica Neue', Arial, 'DejaVu Sans', sans-serif";

/// Writes a scene. `id` tells it from others on the same page: letters, digits and hyphens.
pub fn svg(scene: &Scene, id: &str) -> String {
    document(scene, id, text, 1.0)
}

/// The same at `scale` times its size.
pub fn svg_scaled(scene: &Scene, id: &str, scale: f64) -> String {
    document(scene, id, text, scale)
}

/// The same with every letter as an outline in the font that is carried along.
pub(super) fn in_outlines(scene: &Scene) -> String {
    document(scene, "picture", outlined, 1.0)
}

/// `lettering` writes a line of text.
fn document(scene: &Scene, id: &str, lettering: fn(&mut String, &Text), scale: f64) -> String {
    let (width, height) = (number(scene.width), number(scene.height));
    let (wide, high) = (number(scene.width * scale), number(scene.height * scale));
    let mut svg = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"snell\" role=\"img\" \
         aria-labelledby=\"{id}-title {id}-about\" viewBox=\"0 0 {width} {height}\" width=\"{wide}\" \
         height=\"{high}\" font-family=\"{FONTS}\">\n<title id=\"{id}-title\">{}</title>\n\
         <desc id=\"{id}-about\">{}</desc>\n<style>\n{}</style>\n\
         <rect {} width=\"{width}\" height=\"{height}\" rx=\"6\"/>\n",
        safe(&scene.title),
        safe(&scene.about),
        style(scene.ground),
        fill(Ink::Paper),
    );
    for item in &scene.items {
        match item {
            Item::Line(one) => line(&mut svg, one),
            Item::Text(one) => lettering(&mut svg, one),
            Item::Mark(one) => mark(&mut svg, one),
        }
    }
    svg.push_str("</svg>\n");
    svg
}

/// The colours of dark ground and of print; classes keep to this picture's own kind.
fn style(ground: Ground) -> String {
    let rules = |look: fn(Ink) -> &'static str| {
        let rule = |ink: Ink| {
            format!(
                ".snell .fill-{0}{{fill:{1}}}.snell .line-{0}{{stroke:{1}}}",
                ink.word(),
                look(ink)
            )
        };
        Ink::ALL.into_iter().map(rule).collect::<String>()
    };
    if ground == Ground::Paper {
        return format!("{}\n", rules(Ink::print));
    }
    format!(
        "@media screen and (prefers-color-scheme:dark){{{}}}\n@media print{{{}}}\n",
        rules(Ink::dark),
        rules(Ink::print)
    )
}

fn fill(ink: Ink) -> String {
    format!("class=\"fill-{}\" fill=\"{}\"", ink.word(), ink.light())
}

fn stroke(ink: Ink) -> String {
    format!("class=\"line-{}\" stroke=\"{}\"", ink.word(), ink.light())
}

/// Filled with one ink and edged with another.
fn edged(inside: Ink, edge: Ink) -> String {
    format!(
        "class=\"fill-{} line-{}\" fill=\"{}\" stroke=\"{}\"",
        inside.word(),
        edge.word(),
        inside.light(),
        edge.light()
    )
}

/// A text as XML can hold it.
fn safe(text: &str) -> String {
    escape(held(text).as_str()).into_owned()
}

fn points(points: &[Point]) -> String {
    let one = |point: &Point| format!("{},{}", number(point.x), number(point.y));
    points.iter().map(one).collect::<Vec<_>>().join(" ")
}

fn line(svg: &mut String, line: &Line) {
    let (open, close) = match &line.stands {
        Some(stands) => (
            format!(
                "<g data-part=\"{}\" data-metres=\"{}\"><title>{}</title>",
                safe(&stands.name),
                stands.metres,
                safe(&stands.told)
            ),
            "</g>\n",
        ),
        None => ("<g>".to_owned(), "</g>\n"),
    };
    svg.push_str(&open);
    let thick = line.thick.0;
    match line.role {
        LineRole::Piece if line.thick.0 != line.thick.1 => tapered(svg, line),
        LineRole::Piece | LineRole::Beyond => {
            if let Some(colour) = line.colour {
                // An edge of ink keeps white and yellow apart from the paper.
                polyline(svg, line, &stroke(Ink::Ink), thick + 3.0, "");
                let own = format!("stroke=\"{}\"", colour.hex);
                polyline(svg, line, &own, thick + 0.6, "");
            } else {
                polyline(svg, line, &stroke(Ink::Ink), thick, "");
            }
        }
        LineRole::Unmeasured => polyline(svg, line, &stroke(Ink::Ink), thick, " stroke-dasharray=\"7 3\""),
        LineRole::Tag | LineRole::PointPath => polyline(svg, line, &stroke(Ink::Ink), thick, ""),
        LineRole::Pointer | LineRole::Ruler => polyline(svg, line, &stroke(Ink::Faint), thick, ""),
        LineRole::Bar | LineRole::Bed | LineRole::Speed => {
            polyline(svg, line, &stroke(Ink::Quiet), thick, "");
        }
        LineRole::Surface => polyline(svg, line, &stroke(Ink::Faint), thick, " stroke-dasharray=\"9 4\""),
        LineRole::Path => polyline(svg, line, &stroke(Ink::Ink), thick, " stroke-dasharray=\"5 3\""),
        LineRole::Between => polyline(svg, line, &stroke(Ink::Fly), thick, ""),
        LineRole::Water => outline(svg, line, &fill(Ink::Water)),
        LineRole::Stone => outline(svg, line, &edged(Ink::Faint, Ink::Quiet)),
        LineRole::Weed => polyline(svg, line, &stroke(Ink::Quiet), thick, ROUND),
        LineRole::Flow => polyline(svg, line, &stroke(Ink::Quiet), thick, ROUND),
        LineRole::Chord => polyline(svg, line, &stroke(Ink::Faint), thick, " stroke-dasharray=\"2 3\""),
        LineRole::Rod => polyline(svg, line, &stroke(Ink::Ink), thick, ROUND),
    }
    svg.push_str(close);
}

fn polyline(svg: &mut String, line: &Line, paint: &str, thick: f64, more: &str) {
    let _ = write!(
        svg,
        "<polyline points=\"{}\" fill=\"none\" {paint} stroke-width=\"{}\"{more}/>",
        points(&line.points),
        number(thick)
    );
}

/// Ends and corners without an edge.
const ROUND: &str = " stroke-linecap=\"round\" stroke-linejoin=\"round\"";

/// A closed outline.
fn outline(svg: &mut String, line: &Line, paint: &str) {
    let _ = write!(
        svg,
        "<polygon points=\"{}\" {paint} stroke-width=\"{}\"/>",
        points(&line.points),
        number(line.thick.0)
    );
}

/// A piece that falls in diameter, as the outline of a thin wedge.
fn tapered(svg: &mut String, line: &Line) {
    let (Some(from), Some(to)) = (line.points.first(), line.points.last()) else {
        return;
    };
    let corner = |at: &Point, half: f64| Point {
        x: at.x + half,
        y: at.y,
    };
    let (upper, lower) = (line.thick.0 / 2.0, line.thick.1 / 2.0);
    let outline = [
        corner(from, -upper),
        corner(from, upper),
        corner(to, lower),
        corner(to, -lower),
    ];
    let paint = match line.colour {
        Some(colour) => format!(
            "{} fill=\"{}\" stroke-width=\"1.2\"",
            stroke(Ink::Ink),
            colour.hex
        ),
        None => fill(Ink::Ink),
    };
    let _ = write!(svg, "<polygon points=\"{}\" {paint}/>", points(&outline));
}

/// The middle of small letters lies about a third of their size above the baseline.
fn baseline(text: &Text) -> f64 {
    let largest = text.runs.iter().map(|run| run.role.size()).fold(0.0, f64::max);
    text.at.y + largest * 0.34
}

fn ink(run: &Run) -> Ink {
    match run.role {
        TextRole::Title | TextRole::Name | TextRole::Figure | TextRole::Strong => Ink::Ink,
        TextRole::Detail | TextRole::Tick => Ink::Quiet,
    }
}

fn text(svg: &mut String, text: &Text) {
    let anchor = match text.side {
        Side::Begins => "",
        Side::Ends => " text-anchor=\"end\"",
    };
    let _ = write!(
        svg,
        "<text x=\"{}\" y=\"{}\"{anchor} xml:space=\"preserve\">",
        number(text.at.x),
        number(baseline(text))
    );
    for run in &text.runs {
        let weight = if run.role.is_bold() {
            " font-weight=\"bold\""
        } else {
            ""
        };
        let _ = write!(
            svg,
            "<tspan {} font-size=\"{}\"{weight}>{}</tspan>",
            fill(ink(run)),
            number(run.role.size()),
            safe(&run.text)
        );
    }
    svg.push_str("</text>\n");
}

fn outlined(svg: &mut String, text: &Text) {
    let mut from = at(text.bounds().from.x, baseline(text));
    for run in &text.runs {
        let path = outlines(run.role, &run.text, from);
        let _ = writeln!(svg, "<path d=\"{path}\" {}/>", fill(ink(run)));
        from.x += Medium::Page.width(run.role, &run.text);
    }
}

fn mark(svg: &mut String, mark: &Mark) {
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
        MarkKind::Float => format!(
            "<ellipse cx=\"{0}\" cy=\"{1}\" rx=\"{2}\" ry=\"{3}\" {4} stroke-width=\"1.6\"/>\
             <polyline points=\"{5},{1} {6},{1}\" fill=\"none\" {7} stroke-width=\"1.6\"/>",
            number(x),
            number(y),
            number(size * 0.7),
            number(size),
            edged(Ink::Paper, Ink::Ink),
            number(x - size * 0.7),
            number(x + size * 0.7),
            stroke(Ink::Ink)
        ),
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
        MarkKind::BeadedFly | MarkKind::PlainFly | MarkKind::FloatingFly => fly(mark),
    };
    svg.push_str(&shape);
    svg.push('\n');
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
        | MarkKind::KeepOut => String::new(),
    };
    let body = relative(mark, &[(0.0, 0.3), (0.17, 0.5), (0.0, 0.95), (-0.17, 0.5)]);
    format!("{hook}<polygon points=\"{body}\" {}/>{head}", fill(Ink::Fly))
}
