//! Thirty unlike rigs in every picture, read back as a person reads them: colours,
//! units, both beds, what is unknown; and no text that is cut inside a figure or
//! too small to be read.

#![allow(clippy::unwrap_used, reason = "a test may stop at what it did not expect")]

use roxmltree::{Document, Node};
use snell_picture::colours::named;
use snell_tests::{Build, Run, top};
use std::collections::BTreeMap;
use std::fs;
use std::path::Path;
use std::sync::OnceLock;

const GALLERY: &str = "tests/data/gallery.rig";
/// Seven points in CSS pixels, of which 96 make an inch.
const FLOOR: f64 = 7.0 * 96.0 / 72.0;

/// The pictures of a kind by the names of their rigs.
type Pictures = BTreeMap<String, String>;

struct Gallery {
    to_scale: Pictures,
    in_water: Pictures,
    metric: Pictures,
    imperial: Pictures,
    cards: Pictures,
    /// Those of a page, numbered.
    sheets: Pictures,
    /// Whole sheets as one picture.
    whole: Pictures,
    page: String,
}

fn gallery() -> &'static Gallery {
    static DRAWN: OnceLock<Gallery> = OnceLock::new();
    DRAWN.get_or_init(|| {
        let page = Run::new(Build::AsTests, ["show", GALLERY, "--form", "html"])
            .within(&top())
            .finish()
            .out;
        drawn_all(page)
    })
}

fn drawn_all(page: String) -> Gallery {
    Gallery {
        to_scale: drawn(&["draw"]),
        in_water: drawn(&["draw", "--in-water"]),
        whole: drawn(&["draw", "--sheet"]),
        metric: drawn(&["draw", "--in-water", "--units", "metric"]),
        imperial: drawn(&["draw", "--in-water", "--units", "imperial"]),
        // A card costs as many drifts as it has cells, so the gallery's have few.
        cards: drawn(&[
            "card", "--depths", "1 ft", "3 ft", "5 ft", "--speeds", "1 ft/s", "4 ft/s",
        ]),
        sheets: page
            .split("<svg ")
            .skip(1)
            .filter_map(|rest| Some(rest.split_once("</svg>")?.0))
            .enumerate()
            .map(|(number, svg)| (number.to_string(), format!("<svg {svg}</svg>")))
            .collect(),
        page,
    }
}

fn drawn(how: &[&str]) -> Pictures {
    let folder = tempfile::tempdir().unwrap();
    let out = folder.path().join("a.svg");
    let mut arguments = vec![how[0], GALLERY];
    arguments.extend(&how[1..]);
    arguments.extend(["-o", out.to_str().unwrap()]);
    let ran = Run::new(Build::AsTests, &arguments).within(&top()).finish();
    let written = |line: &str| {
        let path = Path::new(line.strip_prefix("wrote ")?.split(".svg").next()?).with_extension("svg");
        let name = path.file_stem()?.to_str()?.strip_prefix("a-")?.to_owned();
        Some((name, fs::read_to_string(path).ok()?))
    };
    ran.out.lines().filter_map(written).collect()
}

fn all() -> impl Iterator<Item = (&'static str, &'static String, &'static String)> {
    let gallery = gallery();
    let kinds = [
        ("to scale", &gallery.to_scale),
        ("in its water", &gallery.in_water),
        ("in metric units", &gallery.metric),
        ("in imperial units", &gallery.imperial),
        ("card", &gallery.cards),
        ("on a sheet", &gallery.sheets),
        ("a whole sheet", &gallery.whole),
    ];
    let of_kind = |(kind, pictures): (&'static str, &'static Pictures)| {
        pictures.iter().map(move |(name, svg)| (kind, name, svg))
    };
    kinds.into_iter().flat_map(of_kind)
}

/// Every line of text in a picture.
fn texts(svg: &str) -> Vec<String> {
    let document = Document::parse(svg).unwrap();
    let texts = document.descendants().filter(|node| node.has_tag_name("text"));
    texts
        .map(|text| {
            text.descendants()
                .filter_map(|node| node.text().filter(|_| node.is_text()))
                .collect()
        })
        .collect()
}

#[test]
fn every_rig_has_its_pictures() {
    let gallery = gallery();
    assert!(gallery.to_scale.len() >= 30, "{:?}", gallery.to_scale.keys());
    assert!(gallery.in_water.len() >= 14, "{:?}", gallery.in_water.keys());
    assert!(gallery.cards.len() >= 20, "{:?}", gallery.cards.keys());
    assert_eq!(gallery.whole.len(), gallery.to_scale.len());
}

#[test]
fn no_letter_is_below_its_floor() {
    for (kind, name, svg) in all() {
        let document = Document::parse(svg).unwrap();
        let sizes = document
            .descendants()
            .filter_map(|node| node.attribute("font-size"));
        for size in sizes.map(|size| size.parse::<f64>().unwrap()) {
            assert!(size >= FLOOR, "{name} {kind}: letters of {size}");
        }
    }
}

/// A sheet's pictures share one page of A4, made smaller where they must be.
#[test]
fn no_letter_is_below_its_floor_on_a_printed_sheet() {
    let mut figures = gallery()
        .page
        .split("<figure style=\"--wide: ")
        .skip(1)
        .peekable();
    assert!(figures.peek().is_some());
    for figure in figures {
        let printed: f64 = figure.split("mm").next().unwrap().parse().unwrap();
        let attribute = |name: &str| -> Vec<f64> {
            let values = figure.split(name).skip(1);
            let value = |rest: &str| rest.split('"').next().unwrap().parse().unwrap();
            values.map(value).collect()
        };
        let drawn = attribute(" width=\"")[0];
        let scale = printed / (drawn * 25.4 / 96.0);
        let least = attribute("font-size=\"")
            .into_iter()
            .fold(f64::INFINITY, f64::min)
            * scale;
        // Widths are written to a tenth of a millimetre.
        assert!(least >= FLOOR * 0.998, "letters of {least} in {}", &figure[..200]);
    }
}

/// What is left out begins with a whole word: no figure without its unit, no unit without its figure.
#[test]
fn no_text_is_cut_inside_a_figure() {
    let mut read = 0;
    for (kind, name, svg) in all() {
        for text in texts(svg) {
            read += 1;
            let kept = text.strip_suffix('…').unwrap_or_default();
            let cut = kept.ends_with(|letter: char| letter.is_ascii_digit());
            assert!(!cut, "{name} {kind}: `{text}`");
            let alone = ["mm", "cm", "m", "in", "ft"].contains(&text.as_str());
            assert!(!alone, "{name} {kind}: `{text}` stands alone");
        }
    }
    assert!(read > 2000, "only {read} texts");
}

#[test]
fn rulers_are_in_the_units_that_are_asked_for() {
    let is_of = |text: &str, units: &[&str]| {
        let parted = text.split_once(' ');
        parted.is_some_and(|(figure, unit)| figure.parse::<f64>().is_ok() && units.contains(&unit))
    };
    let gallery = gallery();
    for (pictures, own, other) in [
        (&gallery.metric, ["cm", "m"], ["in", "ft"]),
        (&gallery.imperial, ["in", "ft"], ["cm", "m"]),
    ] {
        for (name, svg) in pictures {
            let texts = texts(svg);
            assert!(
                texts.iter().any(|text| is_of(text, &own)),
                "{name} has no figure in {own:?}"
            );
            let wrong: Vec<&String> = texts.iter().filter(|text| is_of(text, &other)).collect();
            assert!(wrong.is_empty(), "{name} has {wrong:?}");
        }
    }
}

/// The paints of a part, in the order in which they are laid on.
fn paints(svg: &str, part: &str) -> Vec<String> {
    let document = Document::parse(svg).unwrap();
    let groups = document
        .descendants()
        .filter(|node| node.attribute("data-part") == Some(part));
    let shapes = groups.flat_map(|group| group.children().filter(Node::is_element));
    let paint = |shape: Node<'_, '_>| {
        let own = shape.attribute("class").is_none();
        let paint = shape.attribute("stroke").or(shape.attribute("fill"));
        paint.filter(|_| own).map(str::to_owned)
    };
    shapes.filter_map(paint).collect()
}

#[test]
fn line_has_all_of_its_colours() {
    let hex = |words: &[&str]| -> Vec<String> {
        words
            .iter()
            .map(|word| named(word).unwrap().hex.to_owned())
            .collect()
    };
    let gallery = gallery();
    for (rig, part, colours) in [
        ("euro", "sighter 1", &["yellow", "pink"][..]),
        ("euro", "sighter 2", &["pink"]),
        ("four", "sighter", &["pink", "green"]),
        ("banded", "sighter 4", &["black"]),
        ("white", "tippet", &["white"]),
        ("colours", "sighter 2", &["green", "black"]),
    ] {
        let found = paints(&gallery.to_scale[rig], part);
        assert_eq!(found, hex(colours), "{rig} {part}");
        // Each stands on an edge of ink, so that none is lost on its ground.
        let svg = &gallery.to_scale[rig];
        let edge = svg.split(&format!("data-part=\"{part}\"")).nth(1).unwrap();
        assert!(
            edge.split("</g>").next().unwrap().contains("class=\"line-ink\""),
            "{rig} {part}"
        );
    }
    let orange = named("orange").unwrap().hex;
    for pictures in [&gallery.to_scale, &gallery.in_water] {
        let ellipse = format!("fill=\"{orange}\" class=\"line-ink\"");
        assert!(pictures["float-orange"].contains(&ellipse), "the float is orange");
    }
}

#[test]
fn a_bed_that_lies_between_two_depths_is_drawn_at_both() {
    for name in ["euro", "spread", "four", "thirty"] {
        let svg = &gallery().in_water[name];
        let texts = texts(svg).join(" ");
        for end in ["shallow", "deep"] {
            assert!(
                texts.contains(&format!("the {end}")),
                "{name}: no {end} end in {texts}"
            );
        }
        // The line of the shallow end, and that of the depth that the rig is drawn in.
        assert_eq!(svg.matches("stroke-dasharray=\"6 3\"").count(), 2, "{name}");
    }
    let flat = &gallery().in_water["banded"];
    assert_eq!(flat.matches("stroke-dasharray=\"6 3\"").count(), 0);
}

#[test]
fn what_is_unknown_is_drawn_as_unknown() {
    let gallery = gallery();
    let says = |svg: &str, words: &str| assert!(texts(svg).join(" ").contains(words), "no `{words}`");
    let dashed = |svg: &str, dashes: &str| {
        assert!(
            svg.contains(&format!("stroke-dasharray=\"{dashes}\"")),
            "nothing is dashed"
        );
    };
    let butt = &gallery.to_scale["unsized-butt"];
    says(butt, "size unknown");
    dashed(butt, "7 3");
    says(&gallery.to_scale["unlengthened"], "length unknown");
    let fly = &gallery.in_water["massless"];
    says(fly, "depth unknown");
    dashed(fly, "3 3");
    dashed(fly, "7 3");
    says(&gallery.in_water["on-the-bed"], "off the bed");
}

/// A leader of twenty feet and more is magnified where everything happens, with the whole beside it.
#[test]
fn a_long_leader_has_its_end_magnified() {
    for (name, svg) in &gallery().to_scale {
        let strip = svg.contains("in the whole\"");
        let long = ["euro", "longest", "thirty", "banded", "four", "pool"].contains(&name.as_str());
        let short = ["short", "white", "quarters", "massless"].contains(&name.as_str());
        assert!(strip || !long, "{name} has no strip");
        assert!(!strip || !short, "{name} has a strip");
    }
    // On paper as tall as A4 within its margins.
    let document = Document::parse(&gallery().to_scale["thirty"]).unwrap();
    let height: f64 = document
        .root_element()
        .attribute("height")
        .unwrap()
        .parse()
        .unwrap();
    assert!(height * 25.4 / 96.0 < 277.0, "{height}");
}

/// However long a name is, a card stays as wide as its paper.
#[test]
fn a_long_name_makes_no_card_wider() {
    for (name, svg) in &gallery().cards {
        let document = Document::parse(svg).unwrap();
        let width: f64 = document
            .root_element()
            .attribute("width")
            .unwrap()
            .parse()
            .unwrap();
        assert!(width <= 397.0, "{name}: {width}");
    }
}
