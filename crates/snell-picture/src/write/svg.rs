//! A scene as SVG that needs nothing else: text is text, a title and a
//! description are read out, and the colours follow light, dark and print.
//!
//! Every element carries its colour for light ground, and a class: viewers that
//! know no style sheets show that, the others what the reader's system asks for.

use super::bands::bands;
#[cfg(feature = "png")]
use super::letters::outlines;
use super::literal::number;
use super::paint::{edged, fill, points, safe, stroke};
use super::signs::mark;
use crate::colours::{Colour, Ink};
#[cfg(feature = "png")]
use crate::medium::Medium;
use crate::scene::{Ground, Item, Line, LineRole, Point, Run, Scene, Side, Stroke, Text, TextRole, at};
use std::fmt::Write;
use unicode_bidi::{BidiClass, bidi_class};

/// Fonts that systems come with; the last is the one that text was measured in.
const FONTS: &str = "system-ui, 'Segoe UI', Roboto, 'Helvetica Neue', Arial, 'DejaVu Sans', sans-serif";

/// Whether a letter runs from right to left, as those of Hebrew and Arabic do (Unicode, UAX #9).
pub fn runs_left(letter: char) -> bool {
    matches!(bidi_class(letter), BidiClass::R | BidiClass::AL)
}

/// Writes a scene. `id` tells it from others on the same page: letters, digits and hyphens.
pub fn svg(scene: &Scene, id: &str) -> String {
    document(scene, id, text)
}

#[cfg(feature = "png")]
/// The same with every letter as an outline in the font that is carried along.
pub(super) fn in_outlines(scene: &Scene) -> String {
    document(scene, "picture", outlined)
}

/// `lettering` writes a line of text.
fn document(scene: &Scene, id: &str, lettering: fn(&mut String, &Text)) -> String {
    let (width, height) = (number(scene.width), number(scene.height));
    let mut svg = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"{}\" role=\"img\" \
         aria-labelledby=\"{id}-title {id}-about\" viewBox=\"0 0 {width} {height}\" width=\"{width}\" \
         height=\"{height}\" font-family=\"{FONTS}\">\n<title id=\"{id}-title\">{}</title>\n\
         <desc id=\"{id}-about\">{}</desc>\n<style>\n{}</style>\n\
         <rect {} width=\"{width}\" height=\"{height}\" rx=\"6\"/>\n",
        match scene.ground {
            Ground::Screen => "snell",
            Ground::Paper => "snell paper",
        },
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

/// The colours of dark ground and of print; classes keep to this picture's own kind. Those of paper go before the others,
/// for several pictures may stand on one page.
fn style(ground: Ground) -> String {
    let rules = |kind: &str, look: fn(Ink) -> &'static str| {
        let rule = |ink: Ink| {
            format!(
                "{kind} .fill-{0}{{fill:{1}}}{kind} .line-{0}{{stroke:{1}}}",
                ink.word(),
                look(ink)
            )
        };
        Ink::ALL.into_iter().map(rule).collect::<String>()
    };
    if ground == Ground::Paper {
        return format!("{}\n", rules(".snell.paper", Ink::print));
    }
    format!(
        "@media screen and (prefers-color-scheme:dark){{{}}}\n@media print{{{}}}\n",
        rules(".snell", Ink::dark),
        rules(".snell", Ink::print)
    )
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
    shape(svg, line);
    svg.push_str(close);
}

fn shape(svg: &mut String, line: &Line) {
    let (ink, more) = match line.role {
        LineRole::Piece if line.thick.0 != line.thick.1 => return wedge(svg, line),
        LineRole::Piece | LineRole::Beyond => return piece(svg, line),
        LineRole::Water => return outline(svg, line, &fill(Ink::Water)),
        LineRole::Free => return outline(svg, line, &fill(Ink::Paper)),
        LineRole::Stone => return outline(svg, line, &edged(Ink::Faint, Ink::Quiet)),
        LineRole::Unmeasured => (Ink::Ink, " stroke-dasharray=\"7 3\""),
        LineRole::Way(strokes) => (Ink::Ink, dashes(strokes)),
        LineRole::Tag => (Ink::Ink, ""),
        LineRole::Pointer | LineRole::Ruler => (Ink::Faint, ""),
        LineRole::Bar | LineRole::Bed | LineRole::Speed => (Ink::Quiet, ""),
        LineRole::BedEnd => (Ink::Quiet, " stroke-dasharray=\"6 3\""),
        LineRole::Hatch => (Ink::Faint, ""),
        LineRole::Surface => (Ink::Faint, " stroke-dasharray=\"9 4\""),
        LineRole::Path => (Ink::Ink, dashes(Stroke::Dashed)),
        LineRole::Between => (Ink::Fly, ""),
        LineRole::Anywhere => (Ink::Fly, " stroke-dasharray=\"3 3\""),
        LineRole::Weed | LineRole::Flow => (Ink::Quiet, ROUND),
        LineRole::Chord => (Ink::Faint, " stroke-dasharray=\"2 3\""),
        LineRole::Rod => (Ink::Ink, ROUND),
    };
    polyline(svg, &line.points, &stroke(ink), line.thick.0, more);
}

const fn dashes(strokes: Stroke) -> &'static str {
    match strokes {
        Stroke::Solid => "",
        Stroke::Dashed => " stroke-dasharray=\"5 3\"",
        Stroke::Dotted => " stroke-dasharray=\"1.5 2.5\"",
        Stroke::Mixed => " stroke-dasharray=\"7 2.5 1.5 2.5\"",
    }
}

/// A piece of line in its own colours, or else in ink.
fn piece(svg: &mut String, line: &Line) {
    let thick = line.thick.0;
    if line.colours.is_empty() {
        return polyline(svg, &line.points, &stroke(Ink::Ink), thick, "");
    }
    // An edge of ink keeps pale line apart from light ground, and dark line from dark.
    polyline(svg, &line.points, &stroke(Ink::Ink), thick + 3.0, "");
    for (points, colour) in bands(line) {
        polyline(svg, &points, &own_stroke(colour), thick + 0.6, "");
    }
}

fn own_stroke(colour: Colour) -> String {
    format!("stroke=\"{}\"", colour.hex)
}

fn polyline(svg: &mut String, places: &[Point], paint: &str, thick: f64, more: &str) {
    let _ = write!(
        svg,
        "<polyline points=\"{}\" fill=\"none\" {paint} stroke-width=\"{}\"{more}/>",
        points(places),
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

/// A piece that falls in diameter, as the outline of a thin wedge; in its own colours where it has some.
fn wedge(svg: &mut String, line: &Line) {
    let (Some(from), Some(to)) = (line.points.first(), line.points.last()) else {
        return;
    };
    let corner = |share: f64, side: f64| {
        let half = (line.thick.0 + (line.thick.1 - line.thick.0) * share) / 2.0;
        at(
            from.x + (to.x - from.x) * share + half * side,
            from.y + (to.y - from.y) * share,
        )
    };
    let mut polygon = |from: f64, to: f64, paint: &str| {
        let corners = [
            corner(from, -1.0),
            corner(from, 1.0),
            corner(to, 1.0),
            corner(to, -1.0),
        ];
        let _ = write!(svg, "<polygon points=\"{}\" {paint}/>", points(&corners));
    };
    if line.colours.is_empty() {
        return polygon(0.0, 1.0, &fill(Ink::Ink));
    }
    polygon(
        0.0,
        1.0,
        &format!("fill=\"none\" {} stroke-width=\"2.4\"", stroke(Ink::Ink)),
    );
    let count = line.colours.len() as f64;
    for (index, colour) in line.colours.iter().enumerate() {
        let own = format!("fill=\"{}\"", colour.hex);
        polygon(index as f64 / count, (index + 1) as f64 / count, &own);
    }
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
        // Figures behind a name in Hebrew or Arabic belong to the text around it.
        let isolated = if run.text.chars().any(runs_left) {
            " unicode-bidi=\"isolate\""
        } else {
            ""
        };
        let _ = write!(
            svg,
            "<tspan {} font-size=\"{}\"{weight}{isolated}>{}</tspan>",
            fill(ink(run)),
            number(run.role.size()),
            safe(&run.text)
        );
    }
    svg.push_str("</text>\n");
}

#[cfg(feature = "png")]
fn outlined(svg: &mut String, text: &Text) {
    let mut from = at(text.bounds().from.x, baseline(text));
    for run in &text.runs {
        let path = outlines(run.role, &run.text, from);
        let _ = writeln!(svg, "<path d=\"{path}\" {}/>", fill(ink(run)));
        from.x += Medium::Page.width(run.role, &run.text);
    }
}
