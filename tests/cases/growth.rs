//! Twice as much takes twice the work, and not four times: counted in values
//! worked out, so that it does not depend on the machine.

use snell_analysis::{Analysis, Kind, LocalDisk, Wanted, examine};
use snell_tests::hard;
use std::path::Path;

/// How much more than in proportion a text may take.
const SLACK: f64 = 1.3;

/// The values that a check with mends works out.
fn checked(texts: &[String]) -> usize {
    let analysis = Analysis::default();
    for (number, text) in texts.iter().enumerate() {
        let path = format!("{number}.rig");
        let notebook = analysis.of_text(Path::new(&path), Kind::Rig, text.as_str(), &LocalDisk);
        let checked = examine(&notebook, Wanted::Found);
        assert!(!checked.findings.is_empty(), "there is something to mend");
    }
    analysis.values_worked_out()
}

fn grows_in_proportion(what: &str, of: impl Fn(usize) -> Vec<String>, size: usize) {
    let [once, twice] = [size, 2 * size].map(|size| checked(&of(size)) as f64);
    assert!(
        twice <= 2.0 * once * SLACK,
        "{what}: {size} take {once}, and {} take {twice}",
        2 * size
    );
}

#[test]
fn parts() {
    grows_in_proportion(
        "pairs of tippet and dropper",
        |pairs| vec![hard::pairs(pairs, 0)],
        20,
    );
}

#[test]
fn variants() {
    grows_in_proportion("variants of a rig", |variants| vec![hard::pairs(5, variants)], 50);
}

#[test]
fn rules() {
    grows_in_proportion("rules", |rules| vec![hard::rules(rules)], 40);
}

#[test]
fn flies() {
    grows_in_proportion("flies", |flies| vec![hard::unknown_flies(flies, 20)], 200);
}

#[test]
fn files() {
    grows_in_proportion("files", |files| vec![hard::with_findings(3, "20 cm"); files], 10);
}

/// A rig among others is worked out as if it stood alone.
#[test]
fn one_rig_of_many_is_asked_for_alone() {
    let worked = |rigs: usize| {
        let analysis = Analysis::default();
        let text = hard::rigs(rigs);
        let notebook = analysis.of_text(Path::new("a.rig"), Kind::Rig, text, &LocalDisk);
        notebook.ask(|query| {
            let first = query.world.project.own_blocks().next().expect("there is a rig");
            query.findings_of(&[first]);
        });
        (analysis.worked_out(), analysis.values_worked_out())
    };
    assert_eq!(worked(1), worked(100));
    assert_eq!(worked(1).0, 1);
}

/// In a chain of rigs made from one another every rig has all the others to think of, and no more than that.
#[test]
fn a_finding_has_a_bound() {
    let mut text = hard::pairs(3, 1);
    for number in 1..60 {
        text.push_str(&format!(
            "rig v{number} from v{}\n  change tippet 2 to 9 in\n\n",
            number - 1
        ));
    }
    let [short, long] = [30, 60].map(|count| {
        let blocks: Vec<&str> = text.split("\n\n").take(count).collect();
        checked(&[blocks.join("\n\n") + "\n"])
    });
    assert!(long <= 5 * short, "{short} and {long}");
}
