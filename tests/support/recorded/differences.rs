//! Every place in which two folders of answers differ.

use super::files;
use serde_json::Value;
use similar::{Algorithm, DiffOp, capture_diff_slices};
use std::collections::{BTreeMap, BTreeSet};
use std::fmt;
use std::path::{Path, PathBuf};
use std::{fs, io};

/// One place of an answer that is not what it was.
#[derive(Debug, PartialEq)]
pub struct Difference {
    /// The text that was asked about.
    pub file: PathBuf,
    /// Where in the answer, such as `show.out.rigs[2].measures.total.text`.
    pub place: String,
    /// What stood there; nothing where it is new.
    pub was: Option<Value>,
    /// What stands there; nothing where it is gone.
    pub now: Option<Value>,
}

impl fmt::Display for Difference {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(out, "{}: {}: ", self.file.display(), self.place)?;
        match (&self.was, &self.now) {
            (Some(was), Some(now)) => write!(out, "{was} became {now}"),
            (Some(was), None) => write!(out, "{was} is gone"),
            (None, Some(now)) => write!(out, "{now} is new"),
            (None, None) => Ok(()),
        }
    }
}

/// All differences between two folders of answers.
pub fn between(was: &Path, now: &Path) -> io::Result<Vec<Difference>> {
    let all: BTreeSet<PathBuf> = files(was)?.into_iter().chain(files(now)?).collect();
    let mut found = Vec::new();
    for file in all {
        let (was, now) = (read(&was.join(&file))?, read(&now.join(&file))?);
        if was == now {
            continue;
        }
        let file = file.with_extension("");
        compare("", parsed(was)?, parsed(now)?, &mut |place, was, now| {
            let file = file.clone();
            let place = if place.is_empty() {
                "all answers".to_owned()
            } else {
                place
            };
            found.push(Difference {
                file,
                place,
                was,
                now,
            });
        });
    }
    Ok(found)
}

/// How many differences stand in each sort of place: places that differ only in their numbers are one sort.
pub fn by_place(differences: &[Difference]) -> BTreeMap<String, usize> {
    let mut counts = BTreeMap::new();
    for difference in differences {
        let digits = |letter: char| letter.is_ascii_digit();
        let sort = difference
            .place
            .split('[')
            .map(|part| part.trim_start_matches(digits))
            .collect::<Vec<_>>()
            .join("[");
        *counts.entry(sort).or_default() += 1;
    }
    counts
}

/// A file, or nothing where one of the folders has none of this name.
fn read(path: &Path) -> io::Result<Option<String>> {
    match fs::read_to_string(path) {
        Ok(text) => Ok(Some(text)),
        Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(None),
        Err(error) => Err(error),
    }
}

fn parsed(text: Option<String>) -> io::Result<Option<Value>> {
    Ok(text.map(|text| serde_json::from_str(&text)).transpose()?)
}

type Tell<'a> = &'a mut dyn FnMut(String, Option<Value>, Option<Value>);

fn compare(place: &str, was: Option<Value>, now: Option<Value>, tell: Tell<'_>) {
    match (was, now) {
        (was, now) if was == now => {}
        (Some(Value::Object(mut was)), Some(Value::Object(mut now))) => {
            let names: BTreeSet<String> = was.keys().chain(now.keys()).cloned().collect();
            for name in names {
                let dot = if place.is_empty() { "" } else { "." };
                let place = format!("{place}{dot}{name}");
                compare(&place, was.remove(&name), now.remove(&name), tell);
            }
        }
        (Some(Value::Array(was)), Some(Value::Array(now))) => compare_lists(place, was, now, tell),
        (was, now) => tell(place.to_owned(), was, now),
    }
}

/// One entry more or less is one difference, not one of all that follow it.
fn compare_lists(place: &str, was: Vec<Value>, now: Vec<Value>, tell: Tell<'_>) {
    let written = |values: &[Value]| values.iter().map(Value::to_string).collect::<Vec<_>>();
    let steps = capture_diff_slices(Algorithm::Myers, &written(&was), &written(&now));
    let (mut was, mut now) = (was.into_iter(), now.into_iter());
    for step in steps {
        let equal = matches!(step, DiffOp::Equal { .. });
        let (olds, news) = (step.old_range(), step.new_range());
        for at in 0..olds.len().max(news.len()) {
            let old = (at < olds.len()).then(|| was.next()).flatten();
            let new = (at < news.len()).then(|| now.next()).flatten();
            if !equal {
                let number = if at < news.len() {
                    news.start + at
                } else {
                    olds.start + at
                };
                compare(&format!("{place}[{number}]"), old, new, tell);
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::json;

    fn told(was: Value, now: Value) -> Vec<String> {
        let mut found = Vec::new();
        compare("", Some(was), Some(now), &mut |place, was, now| {
            let file = PathBuf::from("a.rig");
            found.push(
                Difference {
                    file,
                    place,
                    was,
                    now,
                }
                .to_string(),
            );
        });
        found
    }

    #[test]
    fn what_is_equal_is_not_told() {
        assert_eq!(
            told(json!({"a": [1, 2]}), json!({"a": [1, 2]})),
            Vec::<String>::new()
        );
    }

    #[test]
    fn a_value_is_told_with_its_place() {
        assert_eq!(
            told(
                json!({"show": {"rigs": [{"total": 1}, {"total": 2}]}}),
                json!({"show": {"rigs": [{"total": 1}, {"total": 3}]}})
            ),
            ["a.rig: show.rigs[1].total: 2 became 3"]
        );
    }

    #[test]
    fn an_entry_more_is_one_difference() {
        assert_eq!(
            told(json!(["a", "b", "c"]), json!(["new", "a", "b", "c"])),
            ["a.rig: [0]: \"new\" is new"]
        );
        assert_eq!(
            told(json!(["a", "b", "c"]), json!(["a", "c"])),
            ["a.rig: [1]: \"b\" is gone"]
        );
    }

    #[test]
    fn places_are_counted_by_sort() {
        let difference = |place: &str| Difference {
            file: PathBuf::new(),
            place: place.to_owned(),
            was: None,
            now: None,
        };
        let counts = by_place(&[
            difference("rigs[1].total"),
            difference("rigs[12].total"),
            difference("rigs[2]"),
        ]);
        assert_eq!(
            counts.into_iter().collect::<Vec<_>>(),
            [("rigs[]".to_owned(), 1), ("rigs[].total".to_owned(), 2)]
        );
    }
}
