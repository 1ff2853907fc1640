//! Pictures as a reader of SVG sees them: lengths measured in the picture are
//! those of the rig, no text lies over another, and nothing is cut off.
//!
//! Text is measured by the library that paints it, not by the layout's own sums.

#![allow(clippy::unwrap_used, reason = "a test may stop at what it did not expect")]

use resvg::usvg;
use roxmltree::{Document, Node};
use serde_json::Value;
use snell_tests::{Build, Run, top};
use std::collections::BTreeMap;
use std::fs;
use std::path::Path;
use std::sync::Arc;

/// Rigs that nobody fishes, for the look of them.
const MADE: &str = r#"
rig two
  tippet 4 ft of 5X fluoro
  point #14 2.8 mm tungsten

rig ten "ten flies"
  line of 0.55 mm
  butt 2 m of 0.30 mm nylon
  tippet 45 cm of 4X nylon
  dropper 12 cm with #12 2 mm tungsten
  tippet 45 cm of 4X nylon
  dropper 12 cm with #14
  tippet 45 cm of 4X nylon
  dropper 10 cm with #10
  tippet 45 cm of 4X nylon
  dropper 12 cm with #12 2 mm tungsten
  tippet 45 cm of 4X nylon
  dropper 90 cm with #12 2 mm tungsten
  tippet 5 cm of 4X nylon
  dropper 12 cm with #12 2 mm tungsten
  tippet 5 cm of 5X nylon
  dropper 12 cm with #12 2 mm tungsten
  tippet 20 cm of 5X nylon
  dropper 12 cm with #12 2 mm tungsten
  tippet 20 cm of 5X nylon
  dropper 12 cm with #12 2 mm tungsten
  tippet 45 cm of 5X nylon
  point #8 4 mm brass

rig unequal "a mile and a hair, in <b>bold</b> & a title that goes on for much longer than the picture is wide"
  butt 1600 m of 0.5 mm nylon
  tippet 1 cm of 6X fluoro as averyverylongnamethatnobodywouldgiveapieceoflinebutmighttypebyleaningonakey
  tippet 2 ft of 20 lb nylon
  point #14
"#;

/// Rigs as unlike as rigs can be.
const GALLERY: &str = "tests/data/gallery.rig";

/// A picture as it was written, and what `show` says of the same rig.
struct Picture {
    name: String,
    svg: String,
    rig: Value,
}

fn pictures() -> Vec<Picture> {
    let folder = tempfile::tempdir().unwrap();
    let made = folder.path().join("made.rig");
    fs::write(&made, MADE).unwrap();
    let mut all = of(&top().join("examples"), &folder.path().join("a.svg"));
    all.extend(of(&made, &folder.path().join("b.svg")));
    all.extend(of(&top().join(GALLERY), &folder.path().join("c.svg")));
    assert!(all.len() > 20, "only {} pictures", all.len());
    all
}

fn of(path: &Path, out: &Path) -> Vec<Picture> {
    let path = path.to_str().unwrap();
    let run = |arguments: &[&str]| Run::new(Build::AsTests, arguments).within(&top()).finish();
    let shown = run(&["show", path, "--form", "json"]);
    let shown: Value = serde_json::from_str(&shown.out).unwrap();
    run(&["draw", path, "-o", out.to_str().unwrap()]);
    let rigs = shown["rigs"].as_array().unwrap();
    let pictures = rigs.iter().map(|rig| {
        let name = rig["name"].as_str().unwrap().to_owned();
        let stem = out.file_stem().unwrap().to_str().unwrap();
        let file = out.with_file_name(format!("{stem}-{name}.svg"));
        let svg = fs::read_to_string(&file).unwrap_or_else(|error| panic!("{}: {error}", file.display()));
        Picture {
            name,
            svg,
            rig: rig.clone(),
        }
    });
    pictures.collect()
}

/// Rigs in their water, and what `drift` says of each; also of those that cannot drift.
fn in_water() -> Vec<Picture> {
    let folder = tempfile::tempdir().unwrap();
    let drawn = |path: &str, stem: &str| {
        let out = folder.path().join(format!("{stem}.svg"));
        let run = |arguments: &[&str]| Run::new(Build::AsTests, arguments).within(&top()).finish();
        let drifts = run(&["drift", path, "--form", "json"]);
        let drifts: Value = serde_json::from_str(&drifts.out).unwrap();
        run(&["draw", path, "--in-water", "-o", out.to_str().unwrap()]);
        let rigs = drifts["rigs"].as_array().unwrap().clone();
        let read = |rig: Value| {
            let name = rig["name"].as_str().unwrap().to_owned();
            let svg = fs::read_to_string(out.with_file_name(format!("{stem}-{name}.svg"))).ok()?;
            Some(Picture { name, svg, rig })
        };
        rigs.into_iter().filter_map(read).collect::<Vec<_>>()
    };
    let mut all = drawn("examples", "a");
    all.extend(drawn("tests/data/in-water.rig", "b"));
    all.extend(drawn(GALLERY, "c"));
    assert!(all.len() > 30, "only {} pictures", all.len());
    all
}

/// Cards of the gallery's rigs, with few cells, for each costs drifts.
fn cards() -> Vec<Picture> {
    let folder = tempfile::tempdir().unwrap();
    let out = folder.path().join("a.svg");
    let grid = ["--depths", "1 ft", "3 ft", "5 ft", "--speeds", "1 ft/s", "4 ft/s"];
    let mut arguments = vec!["card", GALLERY, "-o", out.to_str().unwrap()];
    arguments.extend(grid);
    Run::new(Build::AsTests, &arguments).within(&top()).finish();
    let files = fs::read_dir(folder.path())
        .unwrap()
        .map(|file| file.unwrap().path());
    let card = |path: std::path::PathBuf| Picture {
        name: path.display().to_string(),
        svg: fs::read_to_string(path).unwrap(),
        rig: Value::Null,
    };
    let all: Vec<Picture> = files.map(card).collect();
    assert!(all.len() > 20, "only {} cards", all.len());
    all
}

/// The polylines of a picture that are dashed so, each as its points.
fn dashed(picture: &Document<'_>, dashes: &str) -> Vec<Vec<(f64, f64)>> {
    let lines = picture
        .descendants()
        .filter(|node| node.attribute("stroke-dasharray") == Some(dashes));
    lines.map(points).collect()
}

/// Depths, bars and line of every rig that drifts, measured from the surface by the picture's own bar.
#[test]
fn depths_in_the_picture_are_those_of_the_drift() {
    let mut compared = 0;
    for picture in in_water() {
        let document = Document::parse(&picture.svg).unwrap();
        let Some(flies) = picture.rig["steady"]["flies"].as_array() else {
            continue;
        };
        let (parts, metre) = measured(&document);
        let stretched = picture.svg.contains("depths are drawn");
        if stretched {
            continue;
        }
        let agree = |drawn: f64, metres: f64, what: &str| {
            let near = (drawn - metres).abs() < 0.03 / metre + metres.abs() * 1e-3;
            assert!(near, "{} {what}: {drawn} for {metres}", picture.name);
        };
        let surface = dashed(&document, "9 4")[0][0].1;
        let of = |part: &Value, name: &str| part[name]["value"].as_f64().unwrap();
        // The rig's own speed is drawn from the surface to the bed.
        let speed = &dashed(&document, "5 3")[0];
        agree(
            (speed[1].1 - speed[0].1) / metre,
            of(&flies[0], "rides") + of(&flies[0], "off_bed"),
            "depth of the water",
        );
        let under = parts.iter().find(|(name, _)| name == "under water").unwrap().1;
        let submerged = of(&picture.rig["steady"], "submerged");
        assert!(
            (under / submerged - 1.0).abs() < 0.01,
            "{}: {under} for {submerged}",
            picture.name
        );
        let entry = part_points(&document, "under water").last().copied().unwrap();
        // The point is drawn last, and each fly by its hook, which begins at its eye; those of the key stand behind the scale.
        let hooks: Vec<(f64, f64)> = document
            .descendants()
            .take_while(|node| node.attribute("data-part") != Some("scale"))
            .filter_map(|node| node.attribute("d"))
            .map(|path| pair(path[1..].split(' ').next().unwrap()))
            .collect();
        let hooked = flies.iter().filter(|fly| fly["name"] != "shot");
        for (fly, hook) in hooked.zip(hooks.iter().rev()) {
            let name = fly["name"].as_str().unwrap();
            agree((hook.1 - surface) / metre, of(fly, "rides"), name);
            agree((hook.0 - entry.0) / metre, of(fly, "ahead"), name);
            compared += 1;
        }
        let upright = |node: Node<'_, '_>| {
            let name = node.attribute("data-part")?;
            if name == "under water" || name.ends_with("over the water") {
                return None;
            }
            let points = points(node.children().find(|node| node.attribute("points").is_some())?);
            let depth = |point: (f64, f64)| (point.1 - surface) / metre;
            (points[0].0 == points[1].0).then(|| (depth(points[0]), depth(points[1])))
        };
        let bars: Vec<(f64, f64)> = document.descendants().filter_map(upright).collect();
        assert_eq!(bars.len(), flies.len(), "{}", picture.name);
        for (bar, fly) in bars.iter().zip(flies) {
            agree(bar.0, fly["between"][0].as_f64().unwrap(), "upper end of a bar");
            agree(bar.1, fly["between"][1].as_f64().unwrap(), "lower end of a bar");
        }
    }
    assert!(compared > 30, "only {compared} depths were compared");
}

fn part_points(picture: &Document<'_>, name: &str) -> Vec<(f64, f64)> {
    let group = picture
        .descendants()
        .find(|node| node.attribute("data-part") == Some(name))
        .unwrap();
    points(
        group
            .children()
            .find(|node| node.attribute("points").is_some())
            .unwrap(),
    )
}

fn pair(point: &str) -> (f64, f64) {
    let (x, y) = point.split_once(',').unwrap();
    (x.parse().unwrap(), y.parse().unwrap())
}

fn points(shape: Node<'_, '_>) -> Vec<(f64, f64)> {
    shape.attribute("points").unwrap().split(' ').map(pair).collect()
}

/// What the name of a part ends with on the strip.
const IN_THE_WHOLE: &str = " in the whole";

/// How long parts are drawn, in metres by the picture's own scale bar, and how long a metre is drawn.
fn measured(picture: &Document<'_>) -> (Vec<(String, f64)>, f64) {
    let groups: Vec<Node<'_, '_>> = picture
        .descendants()
        .filter(|node| node.attribute("data-part").is_some())
        .collect();
    let metre_of = |name: &str| {
        let bar = groups
            .iter()
            .find(|node| node.attribute("data-part") == Some(name))?;
        let metres: f64 = bar.attribute("data-metres").unwrap().parse().unwrap();
        Some(drawn(*bar) / metres)
    };
    let metre = metre_of("scale").expect("there is a scale bar");
    // What stands on the strip with the whole rig has a scale of its own.
    let of_whole = metre_of("scale of the whole").unwrap_or(metre);
    let part = |node: &Node<'_, '_>| {
        let name = node.attribute("data-part").unwrap();
        let metre = if name.ends_with(IN_THE_WHOLE) {
            of_whole
        } else {
            metre
        };
        (!name.starts_with("scale")).then(|| (name.to_owned(), drawn(*node) / metre))
    };
    (groups.iter().filter_map(part).collect(), metre)
}

/// The length of a group's line, or of the middle of its wedge.
fn drawn(group: Node<'_, '_>) -> f64 {
    let shape = group
        .children()
        .find(|node| node.attribute("points").is_some())
        .unwrap();
    let points = points(shape);
    if shape.has_tag_name("polygon") {
        return points[2].1 - points[1].1;
    }
    points
        .windows(2)
        .map(|pair| (pair[1].0 - pair[0].0).hypot(pair[1].1 - pair[0].1))
        .sum()
}

#[test]
fn lengths_in_the_picture_are_those_of_the_rig() {
    let mut compared = 0;
    for picture in pictures() {
        let document = Document::parse(&picture.svg).unwrap();
        let mut drawn: BTreeMap<String, Vec<f64>> = BTreeMap::new();
        let (measured, metre) = measured(&document);
        // Places are written to a hundredth of a unit, and the bar is at least 60 units long.
        let agree = |drawn: f64, metres: f64| (drawn - metres).abs() < 0.03 / metre + metres * 3e-4;
        for (name, metres) in measured {
            drawn.entry(name).or_default().push(metres);
        }
        let parts = |kind: &str| picture.rig[kind].as_array().unwrap().clone();
        let length = |part: &Value| part["measures"]["length"]["value"].as_f64();
        for section in parts("sections") {
            let name = section["name"].as_str().unwrap();
            let Some(metres) = length(&section).filter(|_| !name.starts_with("line")) else {
                continue;
            };
            let own = drawn.get(name);
            let whole = drawn.get(&format!("{name}{IN_THE_WHOLE}"));
            assert!(
                own.is_some() || whole.is_some(),
                "{} {name} is not drawn",
                picture.name
            );
            let drawn = own.or(whole).unwrap()[0];
            assert!(
                agree(drawn, metres) || own.is_none() && (drawn / metres - 1.0).abs() < 5e-3,
                "{} {name}: {drawn} for {metres}",
                picture.name
            );
            compared += 1;
        }
        let tags: Vec<f64> = parts("droppers").iter().filter_map(length).collect();
        let drawn_tags = drawn.get("tag").cloned().unwrap_or_default();
        for metres in &tags {
            let near = drawn_tags.iter().any(|drawn| agree(*drawn, *metres));
            assert!(near, "{}: no tag of {metres} among {drawn_tags:?}", picture.name);
            compared += 1;
        }
    }
    assert!(compared > 120, "only {compared} lengths were compared");
}

fn painter() -> usvg::Options<'static> {
    let mut options = usvg::Options::default();
    let fonts = Arc::make_mut(&mut options.fontdb);
    fonts.load_font_data(dejavu::sans::regular().to_vec());
    fonts.load_font_data(dejavu::sans::bold().to_vec());
    options
}

/// Every text of a tree with its box as it is painted.
fn texts(group: &usvg::Group, found: &mut Vec<(String, usvg::Rect)>) {
    for node in group.children() {
        match node {
            usvg::Node::Group(group) => texts(group, found),
            usvg::Node::Text(text) => {
                let said: String = text.chunks().iter().map(|chunk| chunk.text()).collect();
                found.push((said, text.abs_bounding_box()));
            }
            _ => {}
        }
    }
}

#[test]
fn no_text_lies_over_another_and_none_is_cut_off() {
    let options = painter();
    for picture in pictures().into_iter().chain(in_water()).chain(cards()) {
        let tree = usvg::Tree::from_str(&picture.svg, &options).unwrap();
        let mut found = Vec::new();
        texts(tree.root(), &mut found);
        assert!(found.len() >= 5, "{}: {found:?}", picture.name);
        let (width, height) = (tree.size().width(), tree.size().height());
        for (index, (said, one)) in found.iter().enumerate() {
            let inside =
                one.left() >= 0.0 && one.top() >= 0.0 && one.right() <= width && one.bottom() <= height;
            assert!(inside, "{}: `{said}` is cut off: {one:?}", picture.name);
            for (other_said, other) in &found[..index] {
                let over = one.left() < other.right()
                    && other.left() < one.right()
                    // Line boxes hold room above and below the letters that no letter here fills.
                    && one.top() + 2.0 < other.bottom()
                    && other.top() + 2.0 < one.bottom();
                assert!(!over, "{}: `{said}` lies over `{other_said}`", picture.name);
            }
        }
        let whole = tree.root().abs_bounding_box();
        let inside = whole.left() > -0.01
            && whole.top() > -0.01
            && whole.right() < width + 0.01
            && whole.bottom() < height + 0.01;
        assert!(inside, "{}: something is cut off: {whole:?}", picture.name);
    }
}

/// WAI-ARIA and SVG 2 ask for a role and a name that is found by its id.
#[test]
fn a_picture_can_be_heard() {
    for picture in pictures().into_iter().chain(in_water()) {
        let document = Document::parse(&picture.svg).unwrap();
        let root = document.root_element();
        assert_eq!(root.attribute("role"), Some("img"));
        let ids: Vec<&str> = root.attribute("aria-labelledby").unwrap().split(' ').collect();
        assert_eq!(ids.len(), 2);
        for id in ids {
            let named = document
                .descendants()
                .find(|node| node.attribute("id") == Some(id))
                .unwrap();
            assert!(!named.text().unwrap().is_empty(), "{}", picture.name);
        }
        let about = document
            .descendants()
            .find(|node| node.has_tag_name("desc"))
            .unwrap()
            .text()
            .unwrap();
        let flies = picture.rig["flies"].as_array();
        for fly in flies
            .or(picture.rig["steady"]["flies"].as_array())
            .into_iter()
            .flatten()
        {
            let name = fly["name"].as_str().unwrap();
            assert!(
                about.contains(name),
                "{}: `{name}` is not told in: {about}",
                picture.name
            );
        }
    }
}
