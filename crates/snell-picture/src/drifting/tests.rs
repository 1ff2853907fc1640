//! Whatever drifts, no text lies over another, and nothing is cut off.

use super::scene;
use crate::drifting::drifted::{
    Air, Bed, BedEnd, Drifted, Dry, Led, Over, Piece, Ride, Riding, Rigged, Unridden, Water,
};
use crate::medium::{Medium, ROW};
use crate::scene::{Item, LineRole, MarkKind, Scene};
use proptest::prelude::*;
use snell_units::System;

fn ride(index: usize, share: f64, depth: f64, lean: f64) -> Ride {
    let at = (lean * (1.0 - share), depth * share * 0.95);
    let names = [
        "slate",
        "#14 2.8 mm tungsten",
        "a fly with a long name of its own",
    ];
    Ride {
        name: names[index % names.len()].to_owned(),
        kind: MarkKind::BeadedFly,
        at,
        up_the_line: depth * (1.0 - share),
        between: ((at.1 - 0.08).max(0.0), (at.1 + 0.08).min(depth)),
        rides: "1.25 m".to_owned(),
        may_be: "1.17 m to 1.33 m".to_owned(),
        off_bed: "10 cm".to_owned(),
        against: "0.081 m/s slower".to_owned(),
    }
}

fn led(reach: Option<(f64, f64)>) -> Led {
    let piece = |name: &str, reach, sighter| Piece {
        name: name.to_owned(),
        reach,
        colours: Vec::new(),
        sighter,
    };
    Led {
        pieces: vec![
            piece("tippet", (0.0, 0.4), false),
            piece("sighter", (0.4, 0.9), true),
        ],
        dry: vec![Dry {
            name: "peat".to_owned(),
            kind: MarkKind::PlainFly,
            up: 0.2,
        }],
        sighter: Some("40 cm ± 8 cm over the water".to_owned()),
        air: reach
            .ok_or_else(|| "its reach is not said".to_owned())
            .map(|(far, tip)| Air {
                curve: (0..=20)
                    .map(|step| f64::from(step) / 20.0)
                    .map(|share| (far * share, tip * share * share))
                    .collect(),
                tip: "1.8 m up, reach 6 m".to_owned(),
                sag: "26.6 cm ± 4 cm".to_owned(),
            }),
    }
}

fn ends(depth: f64, spread: f64) -> [BedEnd; 2] {
    [
        (1.0 - spread, "2 ft: the bed at the shallow end"),
        (1.0 + spread, "3 ft: the bed at the deep end"),
    ]
    .map(|(share, told)| BedEnd {
        depth: depth * share,
        told: told.to_owned(),
    })
}

/// As it rides, or with its flies only.
fn rigged(known: bool, shares: &[f64], riding: Riding) -> Rigged {
    if known {
        return Rigged::Rides(Box::new(riding));
    }
    let unridden = shares.iter().zip(&riding.flies).map(|(share, fly)| Unridden {
        name: fly.name.clone(),
        kind: fly.kind,
        up_the_line: (*share > 0.1).then_some(fly.up_the_line),
    });
    Rigged::Unknown(unridden.collect())
}

fn drifted() -> impl Strategy<Value = Drifted> {
    let shares = proptest::collection::vec(0.05..1.0f64, 1..11);
    let reach = proptest::option::of((1.0..10.0f64, 0.5..3.0f64));
    (
        0.001..4.0f64,
        shares,
        -6.0..6.0f64,
        reach,
        0.0005..0.8f64,
        any::<bool>(),
        any::<bool>(),
        proptest::option::of(0.0..0.6f64),
        any::<bool>(),
    )
        .prop_map(
            |(depth, shares, lean, reach, grain, weed, imperial, spread, known)| Drifted {
                name: "harrow-low".to_owned(),
                title: Some("Harrow Beck, low and clear".to_owned()),
                told: vec!["All of it is an estimate: each fly may ride anywhere along its bar.".to_owned()],
                system: if imperial {
                    System::Imperial
                } else {
                    System::Metric
                },
                water: Water {
                    depth,
                    ends: spread.map(|spread| ends(depth, spread)),
                    profile: (0..=10)
                        .map(|step| (depth * f64::from(step) / 10.0, f64::from(step)))
                        .collect(),
                    surface: "2.2 ft/s".to_owned(),
                    bed: if weed {
                        Bed::Weed(grain)
                    } else {
                        Bed::Stones(grain)
                    },
                },
                rig: rigged(
                    known,
                    &shares,
                    Riding {
                        speed: 7.0,
                        drifts: "1.83 ft/s".to_owned(),
                        line: vec![(-lean * 0.1, depth * 0.95), (lean, depth * 0.4), (0.0, 0.0)],
                        submerged: depth,
                        flies: shares
                            .iter()
                            .enumerate()
                            .map(|(index, share)| ride(index, *share, depth, lean))
                            .collect(),
                        over: Over::Led(led(reach)),
                    },
                ),
                about: "An estimate.".to_owned(),
            },
        )
}

fn is_sound(scene: &Scene, medium: Medium) -> Result<(), TestCaseError> {
    let texts: Vec<_> = scene.texts().collect();
    for (index, text) in texts.iter().enumerate() {
        let one = text.bounds();
        let inside = one.from.x >= -1e-6
            && one.from.y >= -1e-6
            && one.to.x <= scene.width + 1e-6
            && one.to.y <= scene.height + 1e-6;
        prop_assert!(inside, "`{}` is cut off: {one:?}", text.plain());
        for other in &texts[..index] {
            let other_box = other.bounds();
            let beside = one.to.x <= other_box.from.x || other_box.to.x <= one.from.x;
            let apart = if medium.is_cells() {
                (text.at.y / ROW).floor() != (other.at.y / ROW).floor()
            } else {
                // Line boxes hold room above and below the letters.
                one.to.y.min(other_box.to.y) - one.from.y.max(other_box.from.y) < 2.0
            };
            let over = !beside && !apart;
            prop_assert!(!over, "`{}` lies over `{}`", text.plain(), other.plain());
        }
    }
    for line in scene.items.iter().filter_map(|item| match item {
        Item::Line(line) => Some(line),
        _ => None,
    }) {
        for point in &line.points {
            let inside = point.x >= -1e-6
                && point.x <= scene.width + 1e-6
                && point.y >= -1e-6
                && point.y <= scene.height + 1e-6;
            prop_assert!(inside, "{:?} leaves the picture at {point:?}", line.role);
        }
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(96))]

    #[test]
    fn nothing_is_cut_off_and_no_text_lies_over_another(drifted in drifted()) {
        for medium in [Medium::Page, Medium::Cells(80), Medium::Cells(40)] {
            let scene = scene(&drifted, medium).expect("it has a depth");
            is_sound(&scene, medium)?;
        }
    }

    /// What stands for a length is drawn as long as it is, by the scale that the picture tells.
    #[test]
    fn bars_are_as_long_as_the_depths_between_which_flies_ride(drifted in drifted()) {
        let scene = scene(&drifted, Medium::Page).expect("it has a depth");
        let Some(metre) = scene.metre else { return Ok(()) };
        let bars = scene.lines().filter(|line| line.role == LineRole::Between);
        for bar in bars {
            let Some(stands) = &bar.stands else { continue };
            let drawn = (bar.points[1].y - bar.points[0].y) / metre;
            prop_assert!((drawn - stands.metres).abs() < 1e-9, "{drawn} for {}", stands.metres);
        }
    }
}

#[test]
fn water_without_a_depth_has_no_picture() {
    let water = Water {
        depth: 0.0,
        ends: None,
        profile: Vec::new(),
        surface: String::new(),
        bed: Bed::Stones(0.1),
    };
    let drifted = Drifted {
        name: "dry".to_owned(),
        title: None,
        told: Vec::new(),
        system: System::Metric,
        water,
        rig: Rigged::Unknown(Vec::new()),
        about: String::new(),
    };
    assert_eq!(scene(&drifted, Medium::Page), None);
}
