//! Cards as anglers write them, read by the program: no line is refused, and every fact is the one that was meant.
//!
//! `data/cards.json` was written by anglers who had seen one example rig, with what they meant; `data/own-cards.json` in
//! the same form by people who had seen the code. Each card is read, laid out, and read once more.

#![allow(clippy::unwrap_used, reason = "a test may stop at what it did not expect")]

mod difference;

use difference::Difference;
use serde_json::Value;
use snell_tests::{Build, Run, top};
use std::fs;
use std::path::Path;

fn cards(file: &str) -> Vec<Value> {
    let text = fs::read_to_string(top().join("tests/data").join(file)).unwrap();
    serde_json::from_str(&text).unwrap()
}

/// What the program writes, run in a folder.
fn run(folder: &Path, arguments: &[&str]) -> String {
    Run::new(Build::AsTests, arguments).within(folder).finish().out
}

/// The rig that the program reads in a file, and the lines that it refuses.
fn read(folder: &Path) -> (Value, usize) {
    let out = run(folder, &["check", "--form", "json", "card.rig"]);
    let report: Value = serde_json::from_str(&out).unwrap();
    let findings = report["findings"].as_array().unwrap();
    // What a rule says of a water is no fault of the card.
    let refused = findings
        .iter()
        .filter(|found| found["level"] == "fault" && found["rule"] != "wading-danger");
    let refused = refused.count();
    let out = run(folder, &["export", "card.rig"]);
    let shown: Value = serde_json::from_str(&out).unwrap();
    (shown["rigs"][0].clone(), refused)
}

/// How well a set of cards is read.
struct Score {
    whole: usize,
    refused_lines: usize,
    told: String,
    /// Facts that are wrong though no line of their card is refused.
    silently_wrong: Vec<String>,
    /// Those of them that are figures.
    wrong_figures: Vec<String>,
}

#[track_caller]
fn score(file: &str) -> Score {
    let (mut silently_wrong, mut wrong_figures, mut wrong) = (Vec::new(), Vec::new(), Vec::new());
    let (mut whole, mut lines, mut refused_lines) = (0, 0, 0);
    let cards = cards(file);
    for card in &cards {
        let (id, text) = (card["id"].as_str().unwrap(), card["text"].as_str().unwrap());
        let folder = tempfile::tempdir().unwrap();
        fs::write(folder.path().join("card.rig"), text).unwrap();
        let (rig, refused) = read(folder.path());
        let mut difference = Difference::default();
        difference.rig(&rig, &card["meaning"]);
        lines += text.lines().count();
        refused_lines += refused;
        whole += usize::from(refused == 0 && difference.all.is_empty());
        if refused == 0 {
            silently_wrong.extend(difference.all.iter().map(|what| format!("{id}: {what}")));
            wrong_figures.extend(difference.figures.iter().map(|what| format!("{id}: {what}")));
        }
        wrong.extend(difference.all.iter().map(|what| format!("{id}: {what}")));

        run(folder.path(), &["tidy", "card.rig"]);
        let strict = fs::read_to_string(folder.path().join("card.rig")).unwrap();
        let (again, _) = read(folder.path());
        assert_eq!(rig["parts"], again["parts"], "{id} laid out:\n{strict}");
        assert_eq!(rig["measures"], again["measures"], "{id} laid out:\n{strict}");
        run(folder.path(), &["tidy", "card.rig"]);
        assert_eq!(
            fs::read_to_string(folder.path().join("card.rig")).unwrap(),
            strict,
            "{id}"
        );
    }
    let told = format!(
        "{whole} of {} cards whole, {refused_lines} of {lines} lines refused\n{}",
        cards.len(),
        wrong.join("\n")
    );
    Score {
        whole,
        refused_lines,
        told,
        silently_wrong,
        wrong_figures,
    }
}

#[track_caller]
fn every_card_is_read(file: &str) {
    let score = score(file);
    assert!(
        score.whole == cards(file).len() && score.refused_lines == 0,
        "{}",
        score.told
    );
}

/// So many cards are read whole, so few lines refused, and what is read is what was meant.
#[track_caller]
fn most_cards_are_read(file: &str, least_whole: usize, most_refused: usize) {
    let score = score(file);
    assert!(
        score.whole >= least_whole && score.refused_lines <= most_refused,
        "{}",
        score.told
    );
    assert!(score.silently_wrong.is_empty(), "{:?}", score.silently_wrong);
}

#[test]
fn every_card_of_others_is_read_as_it_was_meant() {
    every_card_is_read("cards.json");
}

#[test]
fn every_card_of_our_own_is_read_as_it_was_meant() {
    every_card_is_read("own-cards.json");
}

// Each of these was written before it was tried, as twenty-four unlike anglers would write. Read as they then were, the
// first gave 16 cards whole and 190 of 197 lines, the second 18 and 182 of 190, the third 21 and 177 of 189, and the
// fourth, of forty, 22 and 301 of 333. The fifth, of twenty-four again, gave 20 and 191 of 194. The sixth, of forty, was
// written by somebody who had seen the first example of the read-me alone: it gave 6 and 264 of 335.

#[test]
fn a_first_set_of_fresh_cards_is_read() {
    most_cards_are_read("fresh-cards.json", 24, 0);
}

#[test]
fn a_second_set_of_fresh_cards_is_read() {
    most_cards_are_read("fresh-cards-2.json", 24, 0);
}

#[test]
fn a_third_set_of_fresh_cards_is_read() {
    most_cards_are_read("fresh-cards-3.json", 24, 0);
}

/// One of them cuts a tapered leader back, and is asked how thick it is there.
#[test]
fn a_fourth_set_of_fresh_cards_is_read() {
    most_cards_are_read("fresh-cards-4.json", 39, 1);
}

#[test]
fn a_fifth_set_of_fresh_cards_is_read() {
    most_cards_are_read("fresh-cards-5.json", 24, 0);
}

/// Some hold lines that no part can be told from.
#[test]
fn a_sixth_set_of_fresh_cards_is_read() {
    most_cards_are_read("fresh-cards-6.json", 36, 3);
}

/// Not blind: written as six unlike anglers by somebody who knew the reader, before it was tried on them. First tried, it gave 6
/// cards whole and 261 of 305 lines. One has its float above all line, one asks which bead.
#[test]
fn a_seventh_set_of_cards_is_read() {
    most_cards_are_read("fresh-cards-7.json", 38, 2);
}

/// By somebody who had seen the first example of the read-me alone. First tried, it gave 23 cards whole and 334 of 353
/// lines. One leader only "came with the reel", and one bead is told in a fraction of an inch that is sold for two sizes.
#[test]
fn an_eighth_set_of_fresh_cards_is_read() {
    most_cards_are_read("fresh-cards-8.json", 38, 2);
}

/// So few lines are refused. What is read is not held against what was meant: these authors put a line's number into its
/// name and count a wire's metal among the colours, which the form of a meaning leaves open.
#[track_caller]
fn most_lines_are_read(file: &str, most_refused: usize) {
    let score = score(file);
    assert!(score.refused_lines <= most_refused, "{}", score.told);
}

/// The same, and every figure that is read is the one that was meant, but for these.
#[track_caller]
fn lines_and_figures_are_read(file: &str, most_refused: usize, otherwise: &[&str]) {
    let score = score(file);
    assert!(score.refused_lines <= most_refused, "{}", score.told);
    assert_eq!(score.wrong_figures, otherwise);
}

/// By others again who had seen that example alone. First tried, no line of 31 cards was refused, and 334 of 352 lines
/// were read. One loop stands above all line, and `line double taper, floating` is taken for a line called `double`.
#[test]
fn a_ninth_set_of_fresh_cards_is_read() {
    most_lines_are_read("fresh-cards-9.json", 2);
}

/// By others again. First tried, no line of 26 cards was refused, and 332 of 354 lines were read.
#[test]
fn a_tenth_set_of_fresh_cards_is_read() {
    most_lines_are_read("fresh-cards-10.json", 3);
}

/// By four others, each with four unlike hands, who had seen that example alone. First tried, no line of 11 cards was
/// refused, and 348 of 399 lines were read; 8 cards were whole.
#[test]
fn an_eleventh_set_of_fresh_cards_is_read() {
    most_lines_are_read("fresh-cards-11.json", 2);
}

/// By four more. First tried, no line of 30 cards was refused, and 381 of 398 lines were read.
#[test]
fn a_twelfth_set_of_fresh_cards_is_read() {
    most_lines_are_read("fresh-cards-12.json", 8);
}

/// By four others. First tried, no line of 18 cards was refused, and 292 of 374 lines were read. Two cards leave the units of
/// their lengths out, which is asked.
#[test]
fn a_thirteenth_set_of_fresh_cards_is_read() {
    most_lines_are_read("fresh-cards-13.json", 12);
}

/// By four more. First tried, no line of 20 cards was refused, and 317 of 393 lines were read.
#[test]
fn a_fourteenth_set_of_fresh_cards_is_read() {
    most_lines_are_read("fresh-cards-14.json", 0);
}

/// By four more, tried once the two sets before were mended by. First tried, no line of 27 cards was refused, and 343 of 363
/// lines were read. What is left are pieces that are told in words alone, and parts whose figures lack their units.
#[test]
fn a_fifteenth_set_of_fresh_cards_is_read() {
    most_lines_are_read("fresh-cards-15.json", 6);
}

/// By four hands more. First tried, 89 of the 99 lines of ten cards that tell sentences and numbers in words were read, and
/// all but two of the others'.
#[test]
fn a_sixteenth_set_of_fresh_cards_is_read() {
    most_lines_are_read("fresh-cards-16.json", 1);
}

/// By four more, tried once that set was mended by. First tried, no line of 15 of 20 cards was refused, and 212 of 221 lines were
/// read.
#[test]
fn a_seventeenth_set_of_fresh_cards_is_read() {
    most_lines_are_read("fresh-cards-17.json", 0);
}

/// By four more, tried once those before were mended by. First tried, no line of 16 of 20 cards was refused, and 206 of 213 lines
/// were read.
#[test]
fn an_eighteenth_set_of_fresh_cards_is_read() {
    most_lines_are_read("fresh-cards-18.json", 2);
}

/// By others again, of no more than ordinary hands. First tried, no line of 18 of 20 cards was refused, and 174 of 177 lines
/// were read.
#[test]
fn a_nineteenth_set_of_fresh_cards_is_read() {
    lines_and_figures_are_read("fresh-cards-19.json", 0, &[]);
}

/// By others again. First tried, no line of 14 of 20 cards was refused, and 176 of 190 lines were read. One has its float
/// above all line; the two lengths of one sighter are told as their sum.
#[test]
fn a_twentieth_set_of_fresh_cards_is_read() {
    lines_and_figures_are_read(
        "fresh-cards-20.json",
        1,
        &["20b5: sighter, count: None, and Some(2.0) was meant"],
    );
}

/// By others again. First tried, no line of 14 of 20 cards was refused, and 158 of 170 lines were read. One says in a remark
/// that its lengths are in centimetres, and is asked for the unit of each.
#[test]
fn a_twenty_first_set_of_fresh_cards_is_read() {
    lines_and_figures_are_read(
        "fresh-cards-21.json",
        6,
        &[
            // How heavy the one is, is asked for, and so is the length of a sighter that is built in.
            "21a5: shot, count: None, and Some(1.0) was meant",
            "21b7: total: None, and Some(4.6228) was meant",
        ],
    );
}

/// By others again. First tried, no line of 17 of 20 cards was refused, and 167 of 170 lines were read.
#[test]
fn a_twenty_second_set_of_fresh_cards_is_read() {
    lines_and_figures_are_read(
        "fresh-cards-22.json",
        0,
        &[
            // How heavy the two are is asked for.
            "22a5: shot, count: None, and Some(2.0) was meant",
        ],
    );
}

/// By others again, after the four sets before it were mended. First tried, no line of 18 of 20 cards was refused or read in
/// part, 181 of 183 lines were read, and no fact was wrong.
#[test]
fn a_twenty_third_set_of_fresh_cards_is_read() {
    lines_and_figures_are_read("fresh-cards-23.json", 0, &[]);
}
