//! `snell season` tells the story that a history's maker knows, reads each text
//! once, and joins outings with the rigs as they were.

mod by_hand;
mod drivers;
mod hooks;
mod kinds;
mod line;
mod logbook;
mod made;
mod repository;
mod seen;

use repository::Repository;
use serde_json::Value;
use snell_tests::{True, generated_history};
use std::collections::BTreeSet;

fn told(season: &Value) -> BTreeSet<True> {
    let rigs = season["rigs"].as_array().expect("rigs");
    let mut told = BTreeSet::new();
    for rig in rigs {
        let branches = rig["branches"].as_array().cloned().unwrap_or_default();
        let own = rig["events"].as_array().expect("events").iter();
        let beside = branches
            .iter()
            .flat_map(|branch| branch["events"].as_array().expect("events"));
        for event in own.chain(beside) {
            // What a merge brings is told on the line once more; `line` holds it against checkouts.
            if event["merge"] == true {
                continue;
            }
            let word = |key: &str| event[key].as_str().expect("a word").to_owned();
            let what = [
                "born",
                "changed",
                "renamed",
                "dropped",
                "unreadable",
                "mended",
                "returned",
            ]
            .into_iter()
            .find(|what| *what == word("what"))
            .expect("a known word");
            told.insert(True {
                subject: word("subject"),
                what,
                rig: word("name"),
            });
        }
    }
    told
}

/// The texts that are read are those that the history holds, each once, and a file is worked out once for each
/// state of itself or of the file that it uses: both are counted, at two lengths of history.
#[test]
fn the_true_story_is_told_in_time_linear_in_what_changed() {
    for commits in [100, 400] {
        let history = generated_history(commits);
        let repository = Repository::imported(&history.stream);
        let season = repository.json(&["season", "--form", "json"]);
        let mut truth: BTreeSet<True> = history.truth.iter().cloned().collect();
        truth.retain(|one| !history.merges.contains(&one.subject));
        let told = told(&season);
        let missing: Vec<_> = truth.difference(&told).collect();
        let untrue: Vec<_> = told.difference(&truth).collect();
        assert!(
            missing.is_empty() && untrue.is_empty(),
            "missing {missing:#?}\nuntrue {untrue:#?}"
        );
        assert!(truth.len() > commits / 2, "little happened: {}", truth.len());
        let read = &season["read"];
        assert_eq!(read["texts"].as_u64(), Some(history.texts.len() as u64));
        let files = read["files"].as_u64().expect("a count") as usize;
        let changed = history.file_states + history.stirred;
        assert!(files <= changed, "{files} files were read, {changed} changed");
        // Whatever else its file holds, a rig is worked out only where something happened to it.
        let rigs = read["rigs"].as_u64().expect("a count") as usize;
        let happened = history.truth.len();
        assert!(
            rigs <= happened,
            "{rigs} rigs were worked out, {happened} changed"
        );
        assert!(read["commits"].as_u64().expect("a count") as usize <= history.commits);
    }
}

#[test]
fn every_kind_of_event_happens_in_the_made_up_history() {
    let history = generated_history(400);
    assert!(history.commits >= 400);
    for what in ["born", "changed", "renamed", "dropped", "unreadable", "mended"] {
        let count = history.truth.iter().filter(|one| one.what == what).count();
        assert!(count >= 10, "{what}: {count}");
    }
    let merges = history
        .stream
        .lines()
        .filter(|line| line.starts_with("merge "))
        .count();
    assert!(merges >= 10, "{merges} merges");
}
