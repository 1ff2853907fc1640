//! Stories that were told wrong once, each as small as it can be.

use crate::repository::Repository;
use serde_json::Value;

const WATER: &str = "  water 3 ft at 2 ft/s over cobble\n";

fn rig(name: &str, upper: u32, point: &str) -> String {
    format!(
        "rig {name}\n{WATER}  butt 9 ft of 0.25 mm nylon\n  tippet {upper} in of 6X fluoro as upper\n  dropper 8 in with #16\n  \
         tippet 20 in of 6X fluoro\n  point {point}\n"
    )
}

const FLIES: &str = "fly bracken \"bracken nymph\"\n  hook #14\n  bead 2.8 mm tungsten\n\nfly slate \"slate spider\"\n  hook #16\n";

fn file(rigs: &str) -> String {
    format!("use \"flies.rig\"\n\n{rigs}")
}

fn started(rigs: &str) -> Repository {
    let repository = Repository::new();
    repository.commit(
        "2026-04-01",
        "rigs",
        &[("flies.rig", FLIES), ("card.rig", &file(rigs))],
    );
    repository
}

fn last(season: &Value, rig: usize, measure: &str) -> String {
    let points = season["rigs"][rig]["measures"][measure]
        .as_array()
        .expect("points");
    points.last().expect("a point")["measure"]["text"]
        .as_str()
        .expect("a text")
        .to_owned()
}

/// The branch is joined, but the line keeps what it had: the season ends where `show` does.
#[test]
fn a_branch_that_was_not_kept_is_no_part_of_the_line() {
    let repository = started(&rig("card", 32, "bracken"));
    repository.git(&["checkout", "-q", "-b", "side"]);
    repository.commit(
        "2026-04-05",
        "try longer",
        &[("card.rig", &file(&rig("card", 48, "slate")))],
    );
    repository.git(&["checkout", "-q", "main"]);
    repository.commit(
        "2026-04-06",
        "a little",
        &[("card.rig", &file(&rig("card", 34, "bracken")))],
    );
    repository.git(&["merge", "-q", "-s", "ours", "-m", "keep ours", "side"]);
    let season = repository.json(&["season", "--form", "json"]);
    assert_eq!(last(&season, 0, "total"), "13 ft 6 in");
    let branch = &season["rigs"][0]["branches"][0];
    assert_eq!(
        (&branch["kept"], &branch["events"][0]["subject"]),
        (&false.into(), &"try longer".into())
    );
    let told = repository.told(&["season"]);
    assert!(told.contains("  on a branch, joined "), "{told}");
    // What was caught after the branch was left is on the fly that the line has.
    let outing = "use \"card.rig\"\n\nouting may\n  day 2026-05-01\n  rig card\n  caught 2 on point\n";
    repository.commit("2026-05-02", "a day", &[("days.rig", outing)]);
    let season = repository.json(&["season", "--form", "json"]);
    assert_eq!(season["by_fly"][0]["name"], "bracken nymph");
}

/// What a branch did is told on the branch, and once where it was brought.
#[test]
fn a_clean_merge_is_told_as_what_it_brought() {
    let repository = started(&format!(
        "{}\n{}",
        rig("card", 32, "bracken"),
        rig("pair", 30, "slate")
    ));
    repository.git(&["checkout", "-q", "-b", "side"]);
    for (day, upper) in [("2026-04-05", 40), ("2026-04-07", 44)] {
        let text = file(&format!(
            "{}\n{}",
            rig("card", upper, "bracken"),
            rig("pair", 30, "slate")
        ));
        repository.commit(day, "longer", &[("card.rig", &text)]);
    }
    repository.git(&["checkout", "-q", "main"]);
    repository.commit("2026-04-06", "else", &[("other.rig", &rig("other", 20, "#14"))]);
    repository.git(&["merge", "-q", "--no-ff", "-m", "longer", "side"]);
    let season = repository.json(&["season", "--form", "json"]);
    let card = &season["rigs"][0];
    let events: Vec<(&str, bool)> = card["events"]
        .as_array()
        .expect("events")
        .iter()
        .map(|event| (event["what"].as_str().expect("a word"), event["merge"] == true))
        .collect();
    assert_eq!(events, [("born", false), ("changed", true)]);
    assert_eq!(card["branches"][0]["events"].as_array().map(Vec::len), Some(2));
    assert_eq!(card["branches"][0]["kept"], true);
    assert_eq!(last(&season, 0, "total"), "14 ft 4 in");
}

/// The line goes on through merges even where its own commits changed no rig.
#[test]
fn a_line_without_rigs_of_its_own_stays_the_line() {
    let repository = Repository::new();
    repository.commit("2026-04-01", "words", &[("README.txt", "rigs\n")]);
    repository.git(&["checkout", "-q", "-b", "side"]);
    repository.commit(
        "2026-04-02",
        "rigs",
        &[
            ("flies.rig", FLIES),
            ("card.rig", &file(&rig("card", 32, "bracken"))),
        ],
    );
    repository.git(&["checkout", "-q", "main"]);
    repository.commit("2026-04-03", "more words", &[("README.txt", "more rigs\n")]);
    repository.git(&["merge", "-q", "--no-ff", "-m", "bring rigs", "side"]);
    let season = repository.json(&["season", "--form", "json"]);
    let born = &season["rigs"][0]["events"][0];
    assert_eq!((&born["what"], &born["merge"]), (&"born".into(), &true.into()));
    assert_eq!(season["rigs"][0]["branches"][0]["events"][0]["what"], "born");
}

#[test]
fn swapped_names_do_not_exchange_histories() {
    let (card, pair) = (rig("card", 32, "bracken"), rig("pair", 50, "slate"));
    let repository = started(&format!("{card}\n{pair}"));
    let swapped = format!("{}\n{}", rig("pair", 32, "bracken"), rig("card", 50, "slate"));
    repository.commit("2026-04-05", "better names", &[("card.rig", &file(&swapped))]);
    let season = repository.json(&["season", "--form", "json"]);
    let told: Vec<String> = (0..2).map(|rig| last(&season, rig, "total")).collect();
    assert_eq!(told, ["13 ft 4 in", "14 ft 10 in"]);
    for rig in 0..2 {
        let event = &season["rigs"][rig]["events"][1];
        assert_eq!(event["what"], "renamed");
        assert!(event["changes"].is_null(), "{event}");
    }
}

/// A rig that was broken from its first day is there, and what is wrong with it is said.
#[test]
fn a_rig_that_never_read_is_told() {
    let repository = started("rig card\n  tippet 40 of 6X fluoro\n  point bracken\n");
    let told = repository.told(&["season"]);
    assert!(told.contains("card\n") && told.contains("born"), "{told}");
    assert!(told.contains("not all of it could be read"), "{told}");
}

const OUTING: &str = "use \"card.rig\"\nuse \"flies.rig\"\n\nouting april\n  day 2026-04-10\n  rig card\n  change upper to 40 in\n  \
                      caught 2 on point\n";

/// The rig was changed after the day: the outing keeps the fly and the lengths of its day, with the change of its day.
#[test]
fn an_outing_with_a_change_keeps_the_rig_of_its_day() {
    let repository = started(&rig("card", 32, "bracken"));
    repository.commit("2026-04-10", "a day", &[("days.rig", OUTING)]);
    repository.git(&["mv", "card.rig", "year.rig"]);
    let later = OUTING
        .replace("card.rig", "year.rig")
        .replace("rig card", "rig evening");
    let later = later.as_str();
    let rigs = file(&rig("evening", 32, "bracken"));
    repository.commit(
        "2026-05-01",
        "a better name",
        &[("year.rig", &rigs), ("days.rig", later)],
    );
    let rigs = file(&rig("evening", 60, "slate").replace("20 in", "30 in"));
    repository.commit(
        "2026-06-01",
        "a summer's rig",
        &[("year.rig", &rigs), ("days.rig", later)],
    );
    let season = repository.json(&["season", "--form", "json"]);
    let day = &season["outings"][0];
    assert_eq!(day["taken"], "written-on-the-day");
    assert_eq!(day["measures"]["total"]["text"], "14 ft", "9 ft, 40 in and 20 in");
    assert_eq!(day["caught"][0]["fly"], "bracken nymph");
    assert_eq!(day["fits"], true);
}

/// Written down weeks after the day: the rig is the one that stood then by its author's date.
#[test]
fn an_outing_that_was_written_later_takes_the_rig_as_it_stood() {
    let repository = started(&rig("card", 32, "bracken"));
    repository.commit(
        "2026-06-01",
        "a summer's rig",
        &[("card.rig", &file(&rig("card", 60, "slate")))],
    );
    repository.commit("2026-07-01", "days", &[("days.rig", OUTING)]);
    let season = repository.json(&["season", "--form", "json"]);
    let day = &season["outings"][0];
    assert_eq!(day["taken"], "as-it-stood");
    assert_eq!(day["caught"][0]["fly"], "bracken nymph");
    assert_eq!(day["measures"]["total"]["text"], "14 ft");
    let told = repository.told(&["season", "card.rig"]);
    assert!(!told.contains("fit the rig"), "{told}");
}

/// A path picks rigs and outings; one that never was is a fault.
#[test]
fn a_path_is_honoured_and_one_that_never_was_is_a_fault() {
    let repository = started(&rig("card", 32, "bracken"));
    repository.commit(
        "2026-04-02",
        "else",
        &[("low/other.rig", &rig("other", 20, "#14"))],
    );
    let told = repository.told(&["season", "low/other.rig"]);
    assert!(told.starts_with("other\n") && !told.contains("card"), "{told}");
    let ran = repository.snell(&["season", "nowhere.rig"]);
    assert_eq!(ran.status.code(), Some(2));
    assert!(ran.stdout.is_empty());
    let told = String::from_utf8_lossy(&ran.stderr).into_owned();
    assert!(
        told.contains("neither the working tree nor the history has a rig there"),
        "{told}"
    );
    // A file that is gone: its rigs left it for another.
    repository.git(&["mv", "card.rig", "year.rig"]);
    repository.commit("2026-04-03", "another name", &[]);
    let told = repository.told(&["season", "card.rig"]);
    assert!(told.starts_with("card\n  year.rig\n"), "{told}");
    let file = repository.folder().join("low");
    let told = repository
        .command("snell", &["season", "other.rig"])
        .current_dir(&file)
        .output()
        .expect("snell starts");
    assert!(String::from_utf8_lossy(&told.stdout).starts_with("other\n"));
}

/// A clone without its older commits says so, and a linked working tree and one on no branch tell what the first does.
#[test]
fn clones_and_working_trees_of_every_kind_tell_the_truth() {
    let repository = started(&rig("card", 32, "bracken"));
    repository.commit(
        "2026-04-05",
        "longer",
        &[("card.rig", &file(&rig("card", 40, "bracken")))],
    );
    let whole = repository.told(&["season"]);
    let elsewhere = tempfile::tempdir().expect("a folder");
    let place = |name: &str| elsewhere.path().join(name).display().to_string();
    let season = |folder: &str| {
        let ran = repository
            .command("snell", &["season"])
            .current_dir(folder)
            .output()
            .expect("snell starts");
        String::from_utf8_lossy(&ran.stdout).into_owned()
    };
    let source = format!("file://{}", repository.folder().display());
    repository.git(&["clone", "-q", "--depth", "1", &source, &place("shallow")]);
    let told = season(&place("shallow"));
    assert!(
        told.starts_with("This clone begins on 2026-04-05: older commits were left out"),
        "{told}"
    );
    repository.git(&["worktree", "add", "-q", "--detach", &place("linked")]);
    assert_eq!(season(&place("linked")), whole);
    repository.git(&[
        "init",
        "-q",
        "-b",
        "main",
        "--object-format=sha256",
        &place("sha256"),
    ]);
    let told = season(&place("sha256"));
    assert!(told.is_empty(), "it has no commit: {told}");
    for (from, to) in [("flies.rig", "flies.rig"), ("card.rig", "card.rig")] {
        std::fs::copy(
            repository.folder().join(from),
            elsewhere.path().join("sha256").join(to),
        )
        .expect("a file");
    }
    repository.git(&["-C", &place("sha256"), "add", "-A"]);
    repository.git(&["-C", &place("sha256"), "commit", "-q", "-m", "rigs"]);
    assert!(
        season(&place("sha256")).contains("  total "),
        "{}",
        season(&place("sha256"))
    );
}
