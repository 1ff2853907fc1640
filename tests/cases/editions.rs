//! What old notebooks mean stays what they meant. `data/editions` holds, for each version that was handed out, the examples as
//! they were and what their rigs came to: every part, and every measure that is no estimate. Estimates may be bettered.
//!
//! A new edition is a folder with its notebooks; the test records what is missing there, and fails that once.

#![allow(clippy::unwrap_used, reason = "a test may stop at what it did not expect")]

use serde_json::{Map, Value, json};
use snell_tests::{Build, Run, top};
use std::fs;
use std::path::Path;

/// Every rig of a folder: where it stands, its settings and parts, and its measures that are no estimates.
fn rigs(folder: &Path) -> Vec<Value> {
    let ran = Run::new(Build::AsTests, ["export", "."]).within(folder).finish();
    let exported: Value =
        serde_json::from_str(&ran.out).unwrap_or_else(|why| panic!("{why}: {}", ran.told()));
    let rigs = exported["rigs"].as_array().unwrap().iter();
    rigs.map(|rig| {
        json!({
            "name": rig["name"],
            "file": rig["file"],
            "settings": rig["settings"],
            "parts": rig["parts"],
            "measures": certain(rig["measures"].as_object().unwrap()),
        })
    })
    .collect()
}

fn certain(measures: &Map<String, Value>) -> Map<String, Value> {
    let certain = measures.iter().filter(|(_, measure)| measure["estimate"] != true);
    certain
        .map(|(name, measure)| (name.clone(), measure["text"].clone()))
        .collect()
}

/// What stands in a record and not in what was found; what is new since does not matter.
fn lost(recorded: &Value, found: &Value, path: &str, told: &mut Vec<String>) {
    match (recorded, found) {
        (Value::Object(recorded), Value::Object(found)) => {
            for (key, value) in recorded {
                let now = found.get(key).unwrap_or(&Value::Null);
                lost(value, now, &format!("{path} {key}"), told);
            }
        }
        (Value::Array(recorded), Value::Array(found)) if recorded.len() == found.len() => {
            for (at, (value, now)) in recorded.iter().zip(found).enumerate() {
                lost(value, now, &format!("{path} {}", at + 1), told);
            }
        }
        _ if recorded == found => {}
        _ => told.push(format!("{path}: {recorded} is {found} now")),
    }
}

#[test]
fn old_notebooks_mean_what_they_meant() {
    let editions = top().join("tests/data/editions");
    let mut count = 0;
    for entry in fs::read_dir(&editions).unwrap() {
        let folder = entry.unwrap().path();
        let found = rigs(&folder);
        let record = folder.join("rigs.json");
        let Ok(text) = fs::read_to_string(&record) else {
            fs::write(&record, format!("{:#}\n", Value::from(found))).unwrap();
            panic!("{} was not there, and is recorded now", record.display());
        };
        let recorded: Vec<Value> = serde_json::from_str(&text).unwrap();
        assert!(
            recorded.len() > 10,
            "{} holds {} rigs",
            record.display(),
            recorded.len()
        );
        let mut told = Vec::new();
        for rig in &recorded {
            let same = |now: &&Value| (&now["name"], &now["file"]) == (&rig["name"], &rig["file"]);
            let now = found.iter().find(same).unwrap_or(&Value::Null);
            lost(rig, now, &format!("{} {}", rig["file"], rig["name"]), &mut told);
        }
        assert!(told.is_empty(), "{}:\n{}", folder.display(), told.join("\n"));
        count += 1;
    }
    assert!(count >= 1, "no edition is kept");
}

/// A record that no difference can fail would hold nothing.
#[test]
fn a_difference_is_told() {
    let mut told = Vec::new();
    lost(
        &json!({"total": "4 ft", "parts": [1]}),
        &json!({"total": "5 ft", "parts": [1], "new": 1}),
        "rig",
        &mut told,
    );
    assert_eq!(told, ["rig total: \"4 ft\" is \"5 ft\" now"]);
    lost(
        &json!({"parts": [1, 2]}),
        &json!({"parts": [1]}),
        "rig",
        &mut told,
    );
    assert_eq!(told.len(), 2);
}
