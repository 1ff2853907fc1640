//! The sample of the language page, `examples/harrow.rig`, gives the figures
//! that an angler works out on paper: in the table, and in the form that
//! other programs read.

use serde_json::Value;
use snell_tests::{Build, Ran, Run, top};

fn run(arguments: &[&str]) -> Ran {
    Run::new(Build::AsTests, arguments)
        .within(&top().join("examples"))
        .finish()
}

fn shown(rig: &str) -> Value {
    let ran = run(&["show", &format!("harrow.rig:{rig}"), "--form", "json"]);
    assert_eq!(ran.status, Some(0), "{}", ran.err);
    let answer: Value = serde_json::from_str(&ran.out).expect("the answer is JSON");
    let rigs = answer["rigs"].as_array().expect("it holds rigs");
    assert_eq!(rigs.len(), 1, "one rig was asked for");
    rigs[0].clone()
}

/// A measure's text; its SI value must be within a rounding of `si`.
fn measure<'j>(of: &'j Value, name: &str, si: f64) -> &'j str {
    let measure = &of["measures"][name];
    let value = measure["value"]
        .as_f64()
        .unwrap_or_else(|| panic!("no {name} in {of:#}"));
    assert!(
        (value - si).abs() <= 1e-9 * si.abs(),
        "{name} is {value}, not {si}"
    );
    measure["text"].as_str().expect("a measure has a text")
}

/// Metres to the inch. Source: NIST SP 811 (2008), appendix B.8, exact.
const INCH: f64 = 0.0254;

#[test]
fn it_checks_clean_of_faults() {
    let ran = run(&["check", "harrow.rig", "--bar", "fault"]);
    assert_eq!(ran.status, Some(0), "{}", ran.told());
    let ran = run(&["check", "harrow.rig", "--form", "json"]);
    let answer: Value = serde_json::from_str(&ran.out).expect("the answer is JSON");
    let findings = answer["findings"].as_array().expect("it holds findings");
    assert!(
        findings.iter().all(|finding| finding["level"] != "fault"),
        "{findings:#?}"
    );
}

/// By hand, in inches: butt 60, tapers 24 + 24, sighters 15 + 15, tippets 32 + 20. Sum 190, which is 15 ft 10 in.
/// The tippet is what lies below the sighter: 32 + 20 = 52. The water is 2 to 3 ft, in the middle 30 in deep:
/// 52 / 30 = 1.7333.
#[test]
fn the_low_rig_has_the_figures_worked_out_by_hand() {
    let rig = shown("harrow-low");
    assert_eq!(measure(&rig, "total", 190.0 * INCH), "15 ft 10 in");
    assert_eq!(measure(&rig, "tippet", 52.0 * INCH), "52 in");
    assert_eq!(measure(&rig, "tippet-ratio", 52.0 / 30.0), "1.73");
    assert_eq!(measure(&rig["gaps"][0], "length", 20.0 * INCH), "20 in");
    assert_eq!(measure(&rig["droppers"][0], "length", 8.0 * INCH), "8 in");
    assert_eq!(rig["title"], "Harrow Beck, low and clear");
    assert_eq!(rig["gaps"].as_array().map(Vec::len), Some(1));
    assert_eq!(rig["droppers"].as_array().map(Vec::len), Some(1));
}

/// The rig names one knot and no strength, and does not say how long its line is.
#[test]
fn what_was_assumed_and_what_is_unknown_is_listed() {
    let rig = shown("harrow-low");
    let assumed = rig["assumed"].as_array().expect("a list");
    let about = |what: &str| {
        assumed
            .iter()
            .any(|one| one["what"].as_str().is_some_and(|told| told.contains(what)))
    };
    assert!(
        about("butt to taper 1"),
        "the knot that nobody wrote is assumed: {assumed:#?}"
    );
    assert!(
        !about("sighter 1 to sighter 2"),
        "the knot that is written is not: {assumed:#?}"
    );
    assert!(
        assumed
            .iter()
            .all(|one| one["value"].is_string() && one["why"].is_string())
    );
    let unknown = rig["unknown"].as_array().expect("a list");
    let needs = |one: &Value| one["needs"].as_array().is_some_and(|needs| !needs.is_empty());
    assert!(!unknown.is_empty() && unknown.iter().all(needs), "{unknown:#?}");
    assert!(
        unknown.iter().any(|one| one["measure"] == "rated"),
        "no strength is written: {unknown:#?}"
    );
}

/// By hand: the upper tippet goes from 32 to 44 in, so 190 + 12 = 202 in, which is 16 ft 10 in; the tippet is
/// 44 + 20 = 64 in, over 3 to 4 ft with its middle at 42 in: 1.5238.
#[test]
fn the_rig_made_from_it_has_its_own_figures() {
    let rig = shown("harrow-spate");
    assert_eq!(measure(&rig, "total", 202.0 * INCH), "16 ft 10 in");
    assert_eq!(measure(&rig, "tippet", 64.0 * INCH), "64 in");
    assert_eq!(measure(&rig, "tippet-ratio", 64.0 / 42.0), "1.52");
    assert_eq!(rig["from"], "harrow-low");
    assert_eq!(rig["flies"][1]["name"], "#12 3.3 mm tungsten");
}

#[test]
fn the_table_says_the_same() {
    let ran = run(&["show", "harrow.rig:harrow-low"]);
    assert_eq!(ran.status, Some(0), "{}", ran.err);
    let has = |words: &[&str]| {
        ran.out
            .lines()
            .any(|line| words.iter().all(|word| line.contains(word)))
    };
    assert!(has(&["total", "15 ft 10 in"]), "{}", ran.out);
    assert!(has(&["tippet", "52 in"]), "{}", ran.out);
    assert!(has(&["tippet-ratio", "1.73"]), "{}", ran.out);
    assert!(has(&["dropper", "8 in", "slate"]), "{}", ran.out);
    assert!(ran.out.contains("20 in"), "the gap: {}", ran.out);
    assert!(ran.out.to_lowercase().contains("assumed"), "{}", ran.out);
    assert!(ran.out.to_lowercase().contains("unknown"), "{}", ran.out);
    let spate = run(&["show", "harrow.rig:harrow-spate"]);
    assert!(spate.out.contains("16 ft 10 in"), "{}", spate.out);
}
