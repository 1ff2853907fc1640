//! Slips of the pen in cards: none changes a number without a word, and what `check --mend` mends is less to mend.
//!
//! A few hundred lines are tried in every run. `SNELL_SLIPS=200` tries so many for each card, and `SNELL_MANGLED=20000`
//! mangles so many cards.

#![allow(clippy::unwrap_used, reason = "a test may stop at what it did not expect")]

use serde_json::Value;
use snell_tests::{Build, Run, top};
use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;
use std::fs;
use std::path::Path;

/// Numbers that look random and are the same in every run.
struct Dice(u64);

impl Dice {
    fn roll(&mut self, sides: usize) -> usize {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) as usize % sides
    }
}

fn cards() -> Vec<String> {
    let text = fs::read_to_string(top().join("tests/data/cards.json")).unwrap();
    let cards: Vec<Value> = serde_json::from_str(&text).unwrap();
    cards
        .iter()
        .map(|card| card["text"].as_str().unwrap().to_owned())
        .collect()
}

fn asked_for(variable: &str, usual: usize) -> usize {
    std::env::var(variable).map_or(usual, |count| count.parse().unwrap())
}

fn swapped(line: &str, at: usize) -> String {
    let mut words: Vec<&str> = line.split_whitespace().collect();
    words.swap(at, at + 1);
    format!("  {}", words.join(" "))
}

/// A line with one slip: a letter, a unit that is left out, or two words in each other's place.
fn slip(line: &str, kind: usize, dice: &mut Dice) -> Option<String> {
    let letters: Vec<usize> = line
        .char_indices()
        .filter(|(_, c)| c.is_ascii_alphabetic())
        .map(|(at, _)| at)
        .collect();
    match kind {
        0 => {
            let at = *letters.get(dice.roll(letters.len().max(1)))?;
            let (head, tail) = (&line[..at], &line[at + 1..]);
            let letter = (b'a' + dice.roll(26) as u8) as char;
            Some(match dice.roll(3) {
                0 => format!("{head}{letter}{tail}"),
                1 => format!("{head}{tail}"),
                _ => format!("{}{letter}{}", &line[..=at], tail),
            })
        }
        1 => {
            let units = ["ft", "in", "cm", "mm", "m", "lb", "X"];
            let places: Vec<(usize, usize)> = units
                .iter()
                .flat_map(|unit| line.match_indices(unit).map(|(at, unit)| (at, unit.len())))
                .filter(|(at, length)| {
                    let before = line[..*at].trim_end().ends_with(|c: char| c.is_ascii_digit());
                    before && !line[at + length..].starts_with(char::is_alphanumeric)
                })
                .collect();
            let (at, length) = *places.get(dice.roll(places.len().max(1)))?;
            Some(format!("{}{}", line[..at].trim_end(), &line[at + length..]))
        }
        _ => {
            let words = line.split_whitespace().count();
            (words > 2).then(|| swapped(line, dice.roll(words - 1)))
        }
    }
}

/// What a program finds in a page of cards, and the rigs on it, by the lines on which the cards begin.
fn of_page(texts: &[String]) -> Vec<(Option<Value>, bool)> {
    let (mut page, mut starts) = (String::new(), Vec::new());
    for text in texts {
        starts.push(page.lines().count() as u64 + 1);
        writeln!(page, "```rig alone\n{}\n```\n", text.trim_end()).unwrap();
    }
    starts.push(u64::MAX);
    let folder = tempfile::tempdir().unwrap();
    fs::write(folder.path().join("page.md"), page).unwrap();
    let run = |arguments: &[&str]| -> Value {
        let out = Run::new(Build::AsTests, arguments)
            .within(folder.path())
            .finish()
            .out;
        serde_json::from_str(&out).unwrap()
    };
    let shown = run(&["export", "page.md"]);
    let found = run(&["check", "--form", "json", "page.md"]);
    let within = |line: u64, card: usize| starts[card] <= line && line < starts[card + 1];
    let rig = |card| {
        let rigs = shown["rigs"].as_array().unwrap();
        rigs.iter()
            .find(|rig| within(rig["line"].as_u64().unwrap(), card))
            .cloned()
    };
    // A length that nobody could cast, or a depth that nobody fishes, is asked about by a rule.
    let is_fault = |finding: &&Value| {
        finding["level"] == "fault" && finding["rule"] != "wading-danger"
            || finding["rule"].as_str().is_some_and(|rule| {
                // A length or a mass that a slip has taken away is asked for, and what is not understood is told.
                rule.ends_with("-unlikely")
                    || ["length-unsaid", "mass-unsaid", "words-unread"].contains(&rule)
            })
    };
    let faults: Vec<u64> = found["findings"]
        .as_array()
        .unwrap()
        .iter()
        .filter(is_fault)
        .map(|finding| finding["labels"][0]["line"].as_u64().unwrap())
        .collect();
    (0..texts.len())
        .map(|card| (rig(card), faults.iter().any(|line| within(*line, card))))
        .collect()
}

/// The numbers of a rig and of its water.
fn numbers(rig: &Value) -> String {
    let parts = rig["parts"].as_array().unwrap();
    let of_part = |part: &Value| {
        format!(
            "{} {} {} {}",
            part["kind"], part["values"], part["hook"], part["count"]
        )
    };
    let parts: Vec<String> = parts.iter().map(of_part).collect();
    format!("{} {}", parts.join("\n"), rig["measures"]["depth"]["value"])
}

/// What a rig says but for what things are called.
fn words(rig: &Value) -> String {
    let parts = rig["parts"].as_array().unwrap();
    let of_part = |part: &Value| {
        // What is said of a hook is said in any order.
        let said = part["words"].as_array().into_iter().flatten();
        let said: BTreeSet<String> = said.map(Value::to_string).collect();
        format!(
            "{} {} {} {said:?}",
            part["material"], part["knot"], part["colours"]
        )
    };
    let parts: Vec<String> = parts.iter().map(of_part).collect();
    format!("{} {}", parts.join("\n"), rig["settings"]["method"])
}

#[test]
fn a_slip_changes_no_number_without_a_word() {
    let each = asked_for("SNELL_SLIPS", 40);
    let mut dice = Dice(7);
    let (mut tried, mut number, mut word) = (0, Vec::new(), Vec::new());
    for card in cards() {
        let lines: Vec<&str> = card.lines().collect();
        let (mut texts, mut slips) = (vec![card.clone()], vec![String::new()]);
        while texts.len() <= each {
            let at = 1 + dice.roll(lines.len() - 1);
            let Some(slipped) = slip(lines[at], texts.len() % 3, &mut dice) else {
                continue;
            };
            let mut text: Vec<&str> = lines.clone();
            text[at] = &slipped;
            texts.push(text.join("\n"));
            slips.push(format!("{} => {slipped}", lines[at].trim()));
        }
        let found = of_page(&texts);
        let sound = found[0].0.clone().unwrap();
        for ((rig, is_faulty), slipped) in found.iter().zip(&slips).skip(1) {
            tried += 1;
            let Some(rig) = rig.as_ref().filter(|_| !is_faulty) else {
                continue;
            };
            if numbers(rig) != numbers(&sound) {
                number.push(slipped.clone());
            } else if words(rig) != words(&sound) {
                word.push(slipped.clone());
            }
        }
    }
    assert!(number.is_empty(), "{}", number.join("\n"));
    // One in a hundred; where few are tried, the same line may slip twice.
    let most = if each < 100 { 2 } else { 1 };
    assert!(
        word.len() * 100 <= tried * most,
        "{} of {tried}:\n{}",
        word.len(),
        word.join("\n")
    );
}

/// A card with one or two lines spoilt.
fn mangled(card: &str, dice: &mut Dice) -> String {
    let mut lines: Vec<String> = card.lines().map(str::to_owned).collect();
    for _ in 0..=dice.roll(2) {
        let at = 1 + dice.roll(lines.len() - 1);
        let line = &lines[at];
        let places: Vec<usize> = line.char_indices().map(|(at, _)| at).collect();
        let place = places[dice.roll(places.len())];
        let sign = [
            " ", ".", ",", ";", ":", "#", "/", "X", "\"", "'", "(", ")", "0", "5", "-", "=", "@",
        ];
        let mut words: Vec<&str> = line.split(' ').collect();
        let spoilt = match dice.roll(5) {
            0 => format!(
                "{}{}{}",
                &line[..place],
                sign[dice.roll(sign.len())],
                &line[place..]
            ),
            1 => line.replacen(
                [" of ", " with ", " at ", " over ", " on ", "mm", " in"][dice.roll(7)],
                " ",
                1,
            ),
            2 => line
                .chars()
                .take(place)
                .chain(line.chars().skip(place + 1))
                .collect(),
            3 => {
                let word = dice.roll(words.len());
                words.insert(word, words[word]);
                words.join(" ")
            }
            _ => {
                words.remove(dice.roll(words.len()));
                words.join(" ")
            }
        };
        if spoilt.trim() != "" {
            lines[at] = spoilt;
        }
    }
    format!("{}\n", lines.join("\n"))
}

/// What is found in each of some files: of which lines, and how many faults of writing, and of all kinds.
fn found(folder: &Path, files: &[String]) -> BTreeMap<String, (BTreeSet<u64>, usize, usize)> {
    let mut arguments = vec!["check", "--form", "json"];
    arguments.extend(files.iter().map(String::as_str));
    let out = Run::new(Build::AsTests, &arguments).within(folder).finish().out;
    let report: Value = serde_json::from_str(&out).unwrap();
    let mut all: BTreeMap<String, (BTreeSet<u64>, usize, usize)> = BTreeMap::new();
    // The danger of wading in a water is no slip: it is told as soon as the water can be read.
    let findings = report["findings"].as_array().unwrap().iter();
    for finding in findings.filter(|finding| finding["rule"] != "wading-danger") {
        let labels = finding["labels"].as_array().unwrap();
        let file = labels[0]["file"].as_str().unwrap().to_owned();
        let of = all.entry(file).or_default();
        of.0.extend(labels.iter().filter_map(|label| label["line"].as_u64()));
        let mends = finding["mends"].as_array().into_iter().flatten();
        of.0.extend(
            mends
                .flat_map(|mend| mend["edits"].as_array().into_iter().flatten())
                .filter_map(|edit| edit["line"].as_u64()),
        );
        of.1 += usize::from(finding["level"] == "fault");
        of.2 += 1;
    }
    all
}

/// A line without its figures: what a rule asks for once a card can be read changes a length.
fn plain_words(line: &str) -> Vec<&str> {
    let units = ["m", "cm", "mm", "ft", "in"];
    let words = line.split(|c: char| !c.is_alphabetic());
    words
        .filter(|word| !word.is_empty() && !units.contains(word))
        .collect()
}

#[test]
fn a_sure_mend_leaves_less_to_mend_and_every_sound_line_as_it_was() {
    let count = asked_for("SNELL_MANGLED", 300);
    let mut dice = Dice(5);
    let cards = cards();
    let mut mended = 0;
    for share in 0..count.div_ceil(100) {
        let folder = tempfile::tempdir().unwrap();
        let names: Vec<String> = (0..100.min(count - share * 100))
            .map(|at| format!("{at:03}.rig"))
            .collect();
        let texts: Vec<String> = names
            .iter()
            .map(|_| mangled(&cards[dice.roll(cards.len())], &mut dice))
            .collect();
        for (name, text) in names.iter().zip(&texts) {
            fs::write(folder.path().join(name), text).unwrap();
        }
        let before = found(folder.path(), &names);
        let mut arguments = vec!["check", "--mend"];
        arguments.extend(names.iter().map(String::as_str));
        Run::new(Build::AsTests, &arguments)
            .within(folder.path())
            .finish();
        let after = found(folder.path(), &names);
        for (name, text) in names.iter().zip(&texts) {
            let now = fs::read_to_string(folder.path().join(name)).unwrap();
            if now == *text {
                continue;
            }
            mended += 1;
            let none = Default::default();
            let (old, new) = (
                before.get(name).unwrap_or(&none),
                after.get(name).unwrap_or(&none),
            );
            let told = format!("{text}\nbecame\n{now}");
            assert!(
                new.1 < old.1 || new.1 == old.1 && new.2 < old.2,
                "{} {} {} {} {told}",
                old.1,
                old.2,
                new.1,
                new.2
            );
            assert_eq!(now.lines().count(), text.lines().count(), "{told}");
            for (at, (old_line, new_line)) in text.lines().zip(now.lines()).enumerate() {
                assert!(
                    plain_words(old_line) == plain_words(new_line) || old.0.contains(&(at as u64 + 1)),
                    "line {}: {told}",
                    at + 1
                );
            }
        }
    }
    assert!(mended > 0, "nothing was mended");
}
