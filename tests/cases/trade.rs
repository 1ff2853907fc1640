//! Figures of the trade and of handbooks, asked of the language: a rig is
//! written down and its measures are held against the published value.
//!
//! Each check names its source. What is marked "common practice, no source" is
//! what anglers do; what was not looked up says that it is from memory.

use snell_analysis::{Kind, LocalDisk, Notebook};
use snell_view::{Measures, ShownRig, Units, show};
use std::f64::consts::PI;
use std::path::Path;

/// Metres to the inch. Source: NIST SP 811 (2008), appendix B.8, exact.
const INCH: f64 = 0.0254;
/// Kilograms to the grain and to the pound. Source: NIST SP 811 (2008), appendix B.8, exact.
const GRAIN: f64 = 6.479_891e-5;
const POUND: f64 = 0.453_592_37;
/// Standard gravity in m/s2. Source: NIST SP 811 (2008), appendix B.8, exact.
const GRAVITY: f64 = 9.806_65;
const GRAM: f64 = 1e-3;
const MILLIGRAM: f64 = 1e-6;

fn opened(text: &str) -> Notebook {
    Notebook::of_text(Path::new("asked.rig"), Kind::Rig, text.to_owned(), &LocalDisk)
}

/// The one rig of a text without faults.
fn rig(text: &str) -> ShownRig {
    let book = opened(text);
    let faults = snell_article::check(&book)
        .into_iter()
        .filter(|finding| finding.level == snell_finding::Level::Fault);
    let faults: Vec<String> = faults.map(|finding| finding.message).collect();
    assert!(faults.is_empty(), "{text}\n{faults:#?}");
    show(&book, Units::Author, |_, _| true).remove(0)
}

fn si(measures: &Measures, name: &str) -> f64 {
    measures
        .get(name)
        .and_then(|written| written.value)
        .unwrap_or_else(|| panic!("no {name} in {measures:#?}"))
}

/// A measure of the first section of a rig that has this one line of it.
fn of_section(line: &str, measure: &str) -> f64 {
    si(
        &rig(&format!("rig asked\n  {line}\n")).sections[0].measures,
        measure,
    )
}

/// The mass of a fly with these lines.
fn fly(lines: &str) -> f64 {
    let rig = rig(&format!(
        "fly asked\n{lines}\n\nrig asked-of\n  tippet 1 m of 5X fluoro\n  point asked\n"
    ));
    si(&rig.flies[0].measures, "mass")
}

#[track_caller]
fn near(value: f64, wanted: f64, part: f64) {
    assert!(
        (value - wanted).abs() <= part * wanted.abs(),
        "{value} is not within {part} of {wanted}"
    );
}

/// Source: AFFTA fly line weight standard, grains of the first 30 ft by line weight.
#[test]
fn fly_lines_weigh_what_the_standard_says() {
    let table = [
        (1, 60.0),
        (2, 80.0),
        (3, 100.0),
        (4, 120.0),
        (5, 140.0),
        (6, 160.0),
        (7, 185.0),
        (8, 210.0),
        (9, 240.0),
        (10, 280.0),
        (11, 330.0),
        (12, 380.0),
        (13, 450.0),
        (14, 500.0),
        (15, 550.0),
    ];
    for (weight, grains) in table {
        near(
            of_section(&format!("line 30 ft of #{weight}"), "mass"),
            grains * GRAIN,
            1e-9,
        );
    }
}

/// d = (0.011 - X/1000) in, halves too. Source: common practice, no source.
#[test]
fn x_sizes_fall_a_thousandth_of_an_inch_at_a_step() {
    let table = [
        ("0X", 0.011),
        ("1X", 0.010),
        ("3X", 0.008),
        ("5X", 0.006),
        ("5.5X", 0.0055),
        ("6X", 0.005),
        ("7X", 0.004),
        ("8X", 0.003),
    ];
    for (size, inches) in table {
        near(
            of_section(&format!("tippet 1 m of {size} fluoro"), "diameter"),
            inches * INCH,
            1e-12,
        );
    }
}

/// Labels leave the formula there. Source: common practice, no source.
#[test]
fn from_9x_on_a_diameter_is_asked_for() {
    for size in ["9X", "10X", "12X"] {
        let findings = snell_article::check(&opened(&format!("rig asked\n  tippet 1 m of {size} fluoro\n")));
        let codes: Vec<&str> = findings.iter().map(|finding| &*finding.code).collect();
        assert_eq!(codes, ["size-too-fine"], "{size}");
        assert!(
            findings[0]
                .help
                .as_deref()
                .is_some_and(|help| help.contains("diameter")),
            "{findings:#?}"
        );
    }
}

/// By hand: pi/4 x 0.020^2 cm2 x 100 cm = 0.031416 cm3. Nylon of 1.14 g/cm3 makes that 35.8 mg, polyvinylidene
/// fluoride of 1.78 g/cm3 makes it 55.9 mg. Source of the densities: polymer handbooks.
#[test]
fn a_metre_of_line_weighs_what_its_volume_says() {
    near(
        of_section("tippet 1 m of 0.20 mm nylon", "mass"),
        35.8 * MILLIGRAM,
        0.001,
    );
    near(
        of_section("tippet 1 m of 0.20 mm fluoro", "mass"),
        55.9 * MILLIGRAM,
        0.001,
    );
}

/// A cone, by hand: from 0.40 to 0.20 mm over 1 m its volume is pi/12 x (0.04^2 + 0.04 x 0.02 + 0.02^2) x 100
/// = 0.073304 cm3, in nylon 83.6 mg. Source: the volume of a cone's frustum.
#[test]
fn a_tapered_piece_is_a_cone() {
    near(
        of_section("taper 1 m of 0.40 mm to 0.20 mm nylon", "mass"),
        83.6 * MILLIGRAM,
        0.001,
    );
}

/// 18.0 g/cm3 x pi/6 x 0.28^3 x 0.70 = 0.1448 g, with a slot 0.68 in place of 0.70: 0.1407 g. Source of the alloy's
/// density: metals handbooks, range common practice; of what the bore leaves: computed from geometry; of what the slot
/// leaves: from memory.
#[test]
fn a_tungsten_bead_weighs_what_its_ball_less_its_bore_does() {
    let without = fly("  hook #14\n  dressed bare");
    near(
        fly("  hook #14\n  bead 2.8 mm tungsten\n  dressed bare") - without,
        0.1448 * GRAM,
        0.001,
    );
    near(
        fly("  hook #14\n  bead 2.8 mm tungsten, slotted\n  dressed bare") - without,
        0.1407 * GRAM,
        0.001,
    );
}

/// Densities in g/cm3. Source: metals handbooks (brass, lead, steel), materials handbooks (glass); tin 7.3 from
/// memory. A bead of 4 mm holds 0.70 of its ball: 0.70 x pi/6 x 0.4^3 = 0.023457 cm3.
#[test]
fn materials_have_their_handbook_densities() {
    let without = fly("  hook #10\n  dressed bare");
    for (material, density) in [
        ("tungsten", 18.0),
        ("lead", 11.34),
        ("brass", 8.5),
        ("steel", 7.85),
        ("tin", 7.3),
        ("glass", 2.5),
    ] {
        let bead = fly(&format!("  hook #10\n  bead 4 mm {material}\n  dressed bare")) - without;
        near(bead, density * 0.023_457 * GRAM, 0.001);
    }
}

/// Labels of beads in inches stand for sizes and do not convert. Source: common practice, no source.
#[test]
fn inch_labels_of_beads_are_sizes() {
    for (label, millimetres) in [
        ("5/64", 2.0),
        ("3/32", 2.4),
        ("7/64", 2.8),
        ("1/8", 3.3),
        ("3/16", 4.6),
    ] {
        let text = format!("rig asked\n  tippet 1 m of 5X fluoro\n  point #14 {label} in tungsten\n");
        near(
            si(&rig(&text).flies[0].measures, "bead"),
            millimetres * 1e-3,
            1e-9,
        );
    }
    let two = opened("rig asked\n  tippet 1 m of 5X fluoro\n  point #10 5/32 in tungsten\n");
    assert_eq!(
        snell_article::check(&two).len(),
        1,
        "5/32 in is sold for two sizes, so it is asked"
    );
}

/// Grams by hook size, each to within 35 %: hooks of one size differ by as much. Source: computed from geometry.
#[test]
fn bare_hooks_weigh_what_the_table_says() {
    let table = [
        (8, 0.10),
        (10, 0.075),
        (12, 0.057),
        (14, 0.050),
        (16, 0.030),
        (18, 0.020),
        (20, 0.013),
    ];
    for (size, grams) in table {
        near(
            fly(&format!("  hook #{size}\n  dressed bare")),
            grams * GRAM,
            0.35,
        );
    }
}

/// Milligrams to the inch of lead wire by its thickness in inches, tin 0.64 of it. Source: computed from geometry,
/// a cylinder of 11.34 g/cm3. Ten turns on the shank of a #8, 0.75 mm thick
/// (from memory), are 10 x pi x (0.75 mm + d) of wire.
#[test]
fn wire_weighs_what_its_length_does() {
    let without = fly("  hook #8\n  dressed bare");
    for (inches, milligrams) in [
        (0.010, 14.6),
        (0.015, 32.8),
        (0.020, 58.4),
        (0.025, 91.2),
        (0.030, 131.0),
        (0.035, 179.0),
    ] {
        let wound = 10.0 * PI * (0.75e-3 + inches * INCH) / INCH;
        let with = |metal: &str| {
            fly(&format!(
                "  hook #8\n  wire {inches} in {metal}, 10 turns\n  dressed bare"
            )) - without
        };
        near(with("lead"), milligrams * wound * MILLIGRAM, 0.005);
        near(with("tin"), 0.64 * milligrams * wound * MILLIGRAM, 0.01);
    }
}

/// Where a strength is meant, a mass stands for its weight. Source: NIST SP 811, standard gravity; that breaking
/// strength is told so: common practice, no source.
#[test]
fn pounds_of_breaking_strength_are_a_force() {
    near(
        of_section("tippet 1 m of 5X 4 lb fluoro", "rated"),
        4.0 * POUND * GRAVITY,
        1e-12,
    );
    near(
        of_section("tippet 1 m of 5X 1.8 kg fluoro", "rated"),
        1.8 * GRAVITY,
        1e-12,
    );
    near(of_section("tippet 1 m of 5X 20 N fluoro", "rated"), 20.0, 1e-12);
}

/// 52 cm between the knots, a tag of 12 cm that hangs down: 40 cm from eye to eye. Source: computed from geometry.
#[test]
fn a_tag_shortens_the_hung_gap() {
    let rig = rig(
        "rig asked\n  tippet 1 m of 5X fluoro\n  dropper 12 cm with #16 2 mm tungsten\n  tippet 52 cm of 6X fluoro\n  point #14 2.8 mm tungsten\n",
    );
    near(si(&rig.gaps[0].measures, "length"), 0.52, 1e-12);
    near(si(&rig.gaps[0].measures, "hang-apart"), 0.40, 1e-12);
}

/// Retying costs 3 cm of an 8 in tag, which is fished down to 6 cm; by hand (20.32 - 6) / 3 = 4.8. The trade says 2
/// to 4 cm a change, so three to seven changes. Source: common practice, no source.
#[test]
fn a_tag_of_eight_inches_lasts_a_handful_of_changes() {
    let rig = rig(
        "rig asked\n  tippet 40 in of 5X fluoro\n  dropper 8 in with #16 2 mm tungsten\n  tippet 20 in of 6X fluoro\n  point #14 2.8 mm tungsten\n",
    );
    let changes = si(&rig.droppers[0].measures, "changes");
    assert!(
        (3.0..=7.0).contains(&changes) && changes.fract() == 0.0,
        "{changes}"
    );
}
