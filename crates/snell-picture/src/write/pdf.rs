//! A scene as a page of PDF for the printer, as large as the picture: black on
//! white, every letter an outline of the font that is carried in the program,
//! with the picture's title and what it shows for those who have it read out.

use super::png::Unpainted;
use super::svg::in_outlines;
use crate::scene::{Ground, Scene};
use pdf_writer::types::{LineCapStyle, LineJoinStyle, StructRole};
use pdf_writer::{Content, Filter, Finish, Name, Pdf, Rect, Ref, TextStr};
use resvg::tiny_skia::PathSegment;
use resvg::usvg::{self, FillRule, LineCap, LineJoin, Node, Paint};
use std::io::Write;

/// Points of PDF to a CSS pixel: 72 and 96 make an inch.
const POINTS: f32 = 0.75;

const CATALOG: Ref = Ref::new(1);
const PAGES: Ref = Ref::new(2);
const PAGE: Ref = Ref::new(3);
const CONTENT: Ref = Ref::new(4);
const STRUCTURE: Ref = Ref::new(5);
const FIGURE: Ref = Ref::new(6);
const INFO: Ref = Ref::new(7);

/// Writes a scene as one page.
///
/// # Errors
/// The reader of SVG refuses it, or it cannot be packed.
pub fn pdf(scene: &Scene) -> Result<Vec<u8>, Unpainted> {
    let painter = |error: &dyn std::fmt::Display| Unpainted::Painter(error.to_string());
    let scene = Scene {
        ground: Ground::Paper,
        ..scene.clone()
    };
    let tree = usvg::Tree::from_str(&in_outlines(&scene), &usvg::Options::default())
        .map_err(|error| painter(&error))?;
    let (width, height) = (tree.size().width() * POINTS, tree.size().height() * POINTS);
    let mut content = Content::new();
    content
        .begin_marked_content_with_properties(Name(b"Figure"))
        .properties()
        .identify(0);
    // PDF counts upwards from the foot.
    content.transform([POINTS, 0.0, 0.0, -POINTS, 0.0, height]);
    group(&mut content, tree.root());
    content.end_marked_content();
    let content = packed(&content.finish()).map_err(|error| painter(&error))?;
    Ok(document(&scene, &content, Rect::new(0.0, 0.0, width, height)))
}

fn packed(content: &[u8]) -> std::io::Result<Vec<u8>> {
    let mut packer = flate2::write::ZlibEncoder::new(Vec::new(), flate2::Compression::default());
    packer.write_all(content)?;
    packer.finish()
}

/// The page with its structure: one figure, which says what it shows.
fn document(scene: &Scene, content: &[u8], paper: Rect) -> Vec<u8> {
    let mut pdf = Pdf::new();
    let mut catalog = pdf.catalog(CATALOG);
    catalog.pages(PAGES).lang(TextStr("en"));
    catalog.mark_info().marked(true);
    catalog.viewer_preferences().display_doc_title(true);
    catalog.pair(Name(b"StructTreeRoot"), STRUCTURE);
    catalog.finish();
    pdf.document_info(INFO).title(TextStr(&scene.title));
    pdf.pages(PAGES).kids([PAGE]).count(1);
    let mut page = pdf.page(PAGE);
    page.parent(PAGES)
        .media_box(paper)
        .contents(CONTENT)
        .struct_parents(0);
    page.resources();
    page.finish();
    pdf.stream(CONTENT, content).filter(Filter::FlateDecode);
    let mut root = pdf
        .indirect(STRUCTURE)
        .start::<pdf_writer::writers::StructTreeRoot<'_>>();
    root.child(FIGURE);
    root.parent_tree().nums().insert(0, FIGURE);
    root.finish();
    let mut figure = pdf
        .indirect(FIGURE)
        .start::<pdf_writer::writers::StructElement<'_>>();
    figure.kind(StructRole::Figure).parent(STRUCTURE).page(PAGE);
    figure.alt(TextStr(&format!("{}. {}", scene.title, scene.about)));
    figure.marked_content_child().marked_content_id(0);
    figure.finish();
    pdf.finish()
}

/// What pictures consist of: paths, in one colour each. They have no shades, pictures, clips or letters.
fn group(content: &mut Content, group: &usvg::Group) {
    for node in group.children() {
        match node {
            Node::Group(inner) => self::group(content, inner),
            Node::Path(path) if path.is_visible() => draw(content, path),
            Node::Path(_) | Node::Image(_) | Node::Text(_) => {}
        }
    }
}

fn draw(content: &mut Content, path: &usvg::Path) {
    let colour = |paint: &Paint| match paint {
        Paint::Color(colour) => {
            Some([colour.red, colour.green, colour.blue].map(|part| f32::from(part) / 255.0))
        }
        Paint::LinearGradient(_) | Paint::RadialGradient(_) | Paint::Pattern(_) => None,
    };
    let fill = path
        .fill()
        .and_then(|fill| Some((colour(fill.paint())?, fill.rule())));
    let stroke = path
        .stroke()
        .and_then(|stroke| Some((colour(stroke.paint())?, stroke)));
    content.save_state();
    let to = path.abs_transform();
    content.transform([to.sx, to.ky, to.kx, to.sy, to.tx, to.ty]);
    if let Some(([red, green, blue], _)) = fill {
        content.set_fill_rgb(red, green, blue);
    }
    if let Some(([red, green, blue], stroke)) = stroke {
        content.set_stroke_rgb(red, green, blue);
        pen(content, stroke);
    }
    outline(content, path);
    match (fill.map(|(_, rule)| rule), stroke) {
        (Some(FillRule::NonZero), Some(_)) => content.fill_nonzero_and_stroke(),
        (Some(FillRule::EvenOdd), Some(_)) => content.fill_even_odd_and_stroke(),
        (Some(FillRule::NonZero), None) => content.fill_nonzero(),
        (Some(FillRule::EvenOdd), None) => content.fill_even_odd(),
        (None, Some(_)) => content.stroke(),
        (None, None) => content.end_path(),
    };
    content.restore_state();
}

fn pen(content: &mut Content, stroke: &usvg::Stroke) {
    content.set_line_width(stroke.width().get());
    content.set_line_cap(match stroke.linecap() {
        LineCap::Butt => LineCapStyle::ButtCap,
        LineCap::Round => LineCapStyle::RoundCap,
        LineCap::Square => LineCapStyle::ProjectingSquareCap,
    });
    content.set_line_join(match stroke.linejoin() {
        LineJoin::Miter | LineJoin::MiterClip => LineJoinStyle::MiterJoin,
        LineJoin::Round => LineJoinStyle::RoundJoin,
        LineJoin::Bevel => LineJoinStyle::BevelJoin,
    });
    content.set_miter_limit(stroke.miterlimit().get());
    if let Some(dashes) = stroke.dasharray() {
        content.set_dash_pattern(dashes.iter().copied(), stroke.dashoffset());
    }
}

fn outline(content: &mut Content, path: &usvg::Path) {
    let mut last = (0.0, 0.0);
    for segment in path.data().segments() {
        match segment {
            PathSegment::MoveTo(to) => {
                content.move_to(to.x, to.y);
                last = (to.x, to.y);
            }
            PathSegment::LineTo(to) => {
                content.line_to(to.x, to.y);
                last = (to.x, to.y);
            }
            // A curve of PDF has two handles, each at two thirds of the way to the one that it stands for.
            PathSegment::QuadTo(by, to) => {
                let handle = |end: (f32, f32)| {
                    (
                        end.0 + (by.x - end.0) * 2.0 / 3.0,
                        end.1 + (by.y - end.1) * 2.0 / 3.0,
                    )
                };
                let (from, into) = (handle(last), handle((to.x, to.y)));
                content.cubic_to(from.0, from.1, into.0, into.1, to.x, to.y);
                last = (to.x, to.y);
            }
            PathSegment::CubicTo(from, into, to) => {
                content.cubic_to(from.x, from.y, into.x, into.y, to.x, to.y);
                last = (to.x, to.y);
            }
            PathSegment::Close => {
                content.close_path();
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_page_is_as_large_as_the_picture_and_says_what_it_shows() {
        let scene = Scene {
            title: "harrow".to_owned(),
            about: "a rig of two flies".to_owned(),
            width: 400.0,
            height: 200.0,
            metre: None,
            ground: Ground::Screen,
            items: Vec::new(),
        };
        let written = pdf(&scene).unwrap();
        let text = String::from_utf8_lossy(&written);
        assert!(text.starts_with("%PDF-1."));
        assert!(text.contains("/MediaBox [0 0 300 150]"), "{text}");
        assert!(text.contains("/Alt (harrow. a rig of two flies)"), "{text}");
    }
}
