//! The rules of the drift stay sensible where people meet them: over the
//! examples and over a notebook of hundreds of rigs. And `why` explains them.

#![allow(clippy::unwrap_used, reason = "a test may stop at what it did not expect")]

use serde_json::Value;
use snell_analysis::{Kind, LocalDisk, Notebook};
use snell_finding::Level;
use snell_tests::{Build, Ran, Run, top};
use std::path::Path;

const DRIFT_RULES: [&str; 5] = [
    "tippet-short-for-water",
    "sink-late",
    "leader-sag",
    "sag-creep",
    "fly-drags",
];

fn run(arguments: &[&str]) -> Ran {
    Run::new(Build::AsTests, arguments)
        .within(&top().join("examples"))
        .finish()
}

/// The examples, with the spate shallower and a third faster than it stands there.
#[test]
fn the_drift_of_a_faster_spate_is_heard_and_condemns_nothing() {
    let text = std::fs::read_to_string(top().join("examples/harrow.rig")).unwrap();
    let (slow, fast) = ("3 ft to 4 ft at 2.4 ft/s", "2 ft to 2.5 ft at 3.2 ft/s");
    assert!(text.contains(slow), "the water of the spate");
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(folder.path().join("harrow.rig"), text.replace(slow, fast)).unwrap();
    let ran = Run::new(Build::AsTests, ["check", ".", "--bar", "fault", "--form", "json"])
        .within(folder.path())
        .finish();
    assert_eq!(ran.status, Some(0), "{}", ran.told());
    let answer: Value = serde_json::from_str(&ran.out).unwrap();
    let findings = answer["findings"].as_array().unwrap();
    let of_drift: Vec<&Value> = findings
        .iter()
        .filter(|one| DRIFT_RULES.iter().any(|rule| one["rule"] == *rule))
        .collect();
    assert!(
        of_drift.iter().any(|one| one["rule"] == "fly-drags"),
        "the spate drags its flies"
    );
    for one in of_drift {
        assert_ne!(one["level"], "fault", "{one}");
        let said = one["message"].as_str().unwrap();
        assert!(said.contains("estimate"), "{said}");
    }
}

/// A hundred and fifty rigs made by chance: the drift speaks of some, condemns none, and is not the only one heard.
#[test]
fn a_big_notebook_is_not_drowned_in_words() {
    const RIGS: usize = 150;
    let text = snell_tests::generated_notebook(RIGS);
    let book = Notebook::of_text(Path::new("generated.rig"), Kind::Rig, text, &LocalDisk);
    let findings = snell_article::check(&book);
    let of_drift: Vec<_> = findings
        .iter()
        .filter(|one| DRIFT_RULES.contains(&&*one.code))
        .collect();
    let shown = snell_view::show(&book, snell_view::Units::Author, |_, _| true);
    let rides = |rig: &snell_view::ShownRig| rig.flies.iter().any(|fly| fly.measures.contains_key("rides"));
    assert!(
        shown.iter().filter(|rig| rides(rig)).count() > RIGS / 10,
        "the drift can be judged"
    );
    assert!(of_drift.len() * 2 < RIGS, "{} of {RIGS} rigs", of_drift.len());
    for one in of_drift {
        assert!(one.level < Level::Fault, "{}", one.message);
        assert!(one.message.contains("estimate"), "{}", one.message);
    }
}

#[test]
fn why_tells_how_the_figures_of_the_water_are_worked_out() {
    for name in ["sinks", "drift", "sag", "gives", "sink-time"] {
        let ran = run(&["why", name]);
        assert_eq!(ran.status, Some(0), "{}", ran.told());
        let heading = format!("{name}, how it is worked out");
        assert!(ran.out.contains(&heading), "{}", ran.out);
    }
    let told = run(&["why", "drift"]).out;
    let words = told.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        words.contains("A depth in a drift is not a wading depth"),
        "{told}"
    );
    assert!(words.contains("5 to 10 cm"), "{told}");
}

/// A timing that the rule doubts tells nothing of other flies, and one that it believes does.
#[test]
fn a_timing_counts_for_its_dressing_where_the_rule_believes_it() {
    // What #14 with 2.8 mm of tungsten falls at by its parts, m/s: `parts-sink` of it.
    let by_parts = 0.6105;
    for (share, believed) in [(0.47, false), (0.53, true), (1.55, true), (1.65, false)] {
        let text = format!(
            "fly one\n  hook #14\n  bead 2.4 mm tungsten\n  sinks 0.5 m/s\n\nfly two\n  hook #14\n  bead 3.3 mm tungsten\n  \
             sinks 0.7 m/s\n\nfly three\n  hook #14\n  bead 2.8 mm tungsten\n  sinks {:.4} m/s\n\nrig timed\n  tippet 40 in of \
             5X fluoro\n  point three\n\nrig untimed\n  tippet 40 in of 5X fluoro\n  point #14 3 mm tungsten\n",
            by_parts * share
        );
        let notebook = Notebook::of_text(Path::new("asked.rig"), Kind::Rig, text, &LocalDisk);
        let doubted = snell_article::check(&notebook)
            .iter()
            .any(|finding| &*finding.code == "sink-unlikely");
        let shown =
            snell_view::show(&notebook, snell_view::Units::Author, |name, _| name == "untimed").remove(0);
        let counts = shown.assumed.iter().any(|one| one.why.contains("3 timed flies"));
        assert_eq!((doubted, counts), (!believed, believed), "{share}");
    }
}
