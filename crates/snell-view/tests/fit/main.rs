//! Fits judged from outside: the changed rig is written down, read and checked
//! as anyone would, and every shorter list of changes is tried on a grid of its
//! own, which owes nothing to how ways are searched for.

mod day;
mod grid;
mod laws;

use snell_analysis::{Kind, LocalDisk, Notebook, Wanted};
use snell_finding::{Finding, Level};
use snell_rig::faults::Faults;
use snell_rig::project::BlockRef;
use snell_rig::{Evaluation, World};
use snell_rules::Books;
use snell_syntax::BlockKind;
use snell_view::Units;
use snell_view::fit::{self, Outcome, ShownFit, ToWater};
use std::collections::BTreeMap;
use std::path::Path;
use std::sync::LazyLock;

/// The rigs and waters.
const PAIRS: &str = include_str!("pairs.rig");

fn notebook(text: &str) -> Notebook {
    Notebook::of_text(Path::new("pairs.rig"), Kind::Rig, text.to_owned(), &LocalDisk)
}

fn fitted(text: &str, rig: &str, water: &str) -> ShownFit {
    let to = ToWater {
        name: Some(water.to_owned()),
        ..ToWater::default()
    };
    let wanted = |name: &str, _: &str| name == rig;
    let fits = fit::fit(&notebook(text), Units::Author, &to, None, wanted, &mut |_, _| {});
    fits.expect("the water is there").remove(0)
}

/// What is found above advice of each rig of a text, also what its base shows as well. Texts are read whole.
fn found(text: &str) -> BTreeMap<String, Vec<Finding>> {
    let notebook = notebook(text);
    assert!(notebook.reading().is_empty(), "{:?}", notebook.reading());
    let world = World::new(notebook.project());
    for block in world.project.own_blocks() {
        assert_eq!(world.findings(block.id), []);
    }
    let faults = Faults::default();
    let books = Books::new(&world);
    let files = world.project.files().filter(|file| !world.project.ships(*file));
    let blocks = files.flat_map(|file| world.project.blocks(file));
    let is_rig = |block: &BlockRef<'_>| block.head().is_some_and(|head| head.kind == BlockKind::Rig);
    let mut all = BTreeMap::new();
    for block in blocks.filter(is_rig) {
        let rig = snell_rig::read(&world, block, &faults);
        let evaluation = Evaluation::new(&world, &rig);
        evaluation.run();
        let found = snell_rules::apply(&books, &evaluation, Wanted::Bare).found;
        let by_rules = found.into_iter().map(|found| found.finding);
        let found = by_rules.chain(evaluation.into_findings());
        let heavy = found.filter(|finding| finding.level > Level::Advice).collect();
        all.insert(rig.name.clone(), heavy);
    }
    let faults = faults.into_inner();
    assert!(faults.is_empty(), "{faults:?}");
    all
}

/// The text with a way's rig behind it.
fn with_way(text: &str, fit: &ShownFit, way: usize) -> (String, String) {
    let addition = fit.ways[way].addition.as_ref().expect("it stands in a file");
    (format!("{text}\n{}", addition.lines), addition.name.clone())
}

fn codes(findings: &[Finding]) -> Vec<&str> {
    findings.iter().map(|finding| &*finding.code).collect()
}

/// A rig, a water, and the changes of the best way, as an expert would make them.
type Pair = (&'static str, &'static str, &'static [&'static str]);

const EXPERT: [Pair; 11] = [
    // The flies stand too far apart here; no more is cut than brings them near enough.
    (
        "pair-by-depth",
        "pool",
        &["trim the lower tippet to 76 cm, 20 cm off"],
    ),
    // Fast and short: the fly is not down in time, and line does not help it.
    ("single", "fast", &["change the point to mid"]),
    // Deep and slow: line, for the light fly sinks in time.
    (
        "single",
        "hole",
        &["lengthen the tippet to 6 ft 5.5 in, 27.5 in more"],
    ),
    // Deep and quick: line and a heavier fly.
    (
        "single",
        "chute",
        &[
            "lengthen the tippet to 65.5 in, 15.5 in more",
            "change the point to mid",
        ],
    ),
    // The same laid straight: all three.
    (
        "laid-light",
        "chute",
        &[
            "lengthen the tippet to 65.5 in, 15.5 in more",
            "change the point to mid",
            "cast with a tuck, the flies in first",
        ],
    ),
    // Laid straight a heavy fly swings down late: laid with slack it drops.
    ("laid-down", "fast", &["cast with a tuck, the flies in first"]),
    // Two feet apart, as the rulebook asks, and no more: else the upper fly hangs over this water.
    (
        "match-pair",
        "glide",
        &[
            "trim the upper tippet to 99 cm, 6 cm off",
            "trim the lower tippet to 65 cm, 5 cm off",
        ],
    ),
    // Slow water: the trade's one and a half depths, though the point touches the bed with less.
    (
        "under-a-float",
        "tarn",
        &["lengthen the upper tippet to 1.7 m, 80 cm more"],
    ),
    // The nymph drowns the dry.
    ("hop", "glide", &["change the point to mid"]),
    (
        "team",
        "glide",
        &["lengthen the mid-run tippet to 60 cm, 22 cm more"],
    ),
    (
        "plain-four",
        "torrent",
        &["lengthen the lower tippet to 42.5 in, 22.5 in more"],
    ),
];

/// Every pair, fitted once.
static FITTED: LazyLock<Vec<(Pair, ShownFit)>> = LazyLock::new(|| {
    let fit = |pair: Pair| (pair, fitted(PAIRS, pair.0, pair.1));
    EXPERT.into_iter().map(fit).collect()
});

fn stays(fit: &ShownFit) -> Vec<&str> {
    fit.stays.iter().map(|finding| &*finding.rule).collect()
}

#[test]
fn changes_are_those_that_an_expert_would_make() {
    let best = |fit: &ShownFit| fit.ways.first().map(|way| way.changes.join(", "));
    let unlike: Vec<_> = FITTED
        .iter()
        .filter(|((_, _, changes), fit)| best(fit) != Some(changes.join(", ")))
        .map(|((rig, water, changes), fit)| (rig, water, changes, fit.outcome, best(fit)))
        .collect();
    assert!(unlike.is_empty(), "rig, water, the expert, the fit: {unlike:#?}");
}

/// Deeper, shallower and quicker than its own water; no line is cut or tied where the flies fish.
#[test]
fn what_fishes_in_another_water_is_left_alone() {
    for water in ["pool", "glide", "tarn", "chute"] {
        let fit = fitted(PAIRS, "pair", water);
        assert_eq!((fit.outcome, fit.ways.len()), (Outcome::Right, 0), "{water}");
        assert!(fit.answer[0].starts_with("nothing to change"), "{:?}", fit.answer);
        assert_eq!(
            fit.verdict.fishes.as_ref().and_then(|fishes| fishes.yes),
            Some(true),
            "{water}"
        );
        let kept = fit.addition.as_ref().expect("it can be kept as a variant");
        let text = format!("{PAIRS}\n{}", kept.lines);
        assert_eq!(fitted(&text, &kept.name, water).outcome, Outcome::Right);
    }
}

#[test]
fn the_written_rig_checks_as_promised_and_needs_no_more() {
    for ((rig, water, _), fit) in FITTED.iter() {
        for way in 0..fit.ways.len() {
            let (text, name) = with_way(PAIRS, fit, way);
            let found = &found(&text)[&name];
            let left = codes(found);
            let leaves = |code: &str| fit.ways[way].leaves.iter().any(|finding| finding.rule == code);
            assert!(
                left.iter().all(|code| stays(fit).contains(code) || leaves(code)),
                "{rig}, {water}: {left:?}"
            );
            let again = fitted(&text, &name, water);
            let right = match fit.outcome {
                Outcome::Ways => Outcome::Right,
                other => other,
            };
            assert_eq!(again.outcome, right, "{rig}, {water}: {:?}", again.ways);
            assert!(again.ways.is_empty() && again.restated.is_empty());
        }
    }
}

#[test]
fn no_shorter_list_of_changes_does_it() {
    for ((rig, water, changes), fit) in FITTED.iter() {
        for count in 0..changes.len() {
            let right = grid::first_right(PAIRS, rig, water, count, &stays(fit));
            assert_eq!(right, None, "{rig}, {water}: {count} changes are enough");
        }
        let removed = grid::removes_any(PAIRS, rig, water, &stays(fit));
        assert_eq!(removed, None, "{rig}, {water}: what stays could be removed");
    }
}

#[test]
fn without_a_box_a_bead_is_changed() {
    let flies = PAIRS.find("// The box.").expect("it is there")..PAIRS.find("// Rigs.").expect("it is there");
    let mut text = PAIRS.to_owned();
    text.replace_range(flies, "");
    let rig = text.find("rig laid-down").expect("it is there");
    text.truncate(rig);
    let text = text.replace("point   slip", "point   #16 2 mm tungsten");
    let fit = fitted(&text, "single", "fast");
    assert_eq!(fit.ways[0].changes, ["change the point to #16 2.4 mm tungsten"]);
    let (text, name) = with_way(&text, &fit, 0);
    let left = &found(&text)[&name];
    assert!(
        codes(left).iter().all(|code| stays(&fit).contains(code)),
        "{left:?}"
    );
}

#[test]
fn where_nothing_does_it_the_nearest_says_what_is_left() {
    let card = "\nrulebook thin-water\n  edition \"this spring\"\n  with tight-line, light-flies\n\nrule light-flies\n  \
                for each fly\n  limit most 0.1 g\n  keep fly.mass at most most\n  level fault\n  \
                say \"{fly} weighs {fly.mass}\"\n\nrig by-card from single\n  rules thin-water\n";
    let fit = fitted(&format!("{PAIRS}{card}"), "by-card", "chute");
    assert_eq!(fit.outcome, Outcome::Nearest);
    assert_eq!(
        fit.ways[0].changes,
        ["lengthen the tippet to 6 ft 5.5 in, 27.5 in more"]
    );
    let left: Vec<&str> = fit.ways[0].leaves.iter().map(|finding| &*finding.rule).collect();
    assert_eq!((left, stays(&fit)), (vec!["sink-late"], vec!["wading-danger"]));
}

#[test]
fn where_nothing_comes_near_it_says_so() {
    let fit = fitted(PAIRS, "single", "maelstrom");
    assert_eq!((fit.outcome, fit.ways.len()), (Outcome::Nearest, 0));
    let against: Vec<&str> = fit.against.iter().map(|finding| &*finding.rule).collect();
    assert!(against.contains(&"tippet-short-for-water"), "{against:?}");
}

#[test]
fn a_rig_with_nothing_to_be_told_of_it_says_what_it_lacks() {
    let fit = fitted(&format!("{PAIRS}\nwater still\n  depth 1 m\n"), "single", "still");
    assert_eq!(fit.outcome, Outcome::Untold);
    assert!(
        fit.needs.iter().any(|need| need.contains("surface")),
        "{:?}",
        fit.needs
    );
}

/// Nothing else shortens the leader by as much, and no more of it is cut than must be.
#[test]
fn the_butt_is_cut_where_a_rulebook_asks_for_a_shorter_leader() {
    let text = "fly mid\n  hook #14\n  bead 2.8 mm tungsten\n  barbless\n\nwater there\n  depth 60 cm\n  surface 0.6 m/s\n  \
                bed cobble\n\nrig long\n  method tight-line\n  rules two-rods\n  rod 10 ft #3\n  water there\n  butt 7 m of 0.25 mm \
                nylon\n  sighter 40 cm of 0.20 mm nylon\n  ring 2 mm\n  tippet 90 cm of 6X fluoro\n  point mid\n";
    let fit = fitted(text, "long", "there");
    assert_eq!(fit.ways[0].changes, ["trim butt to 4.79 m, 2.21 m off"]);
}
