//! Cards as anglers write them, read by the program: no line is refused, and every fact is the one that was meant.
//!
//! `data/cards.json` was written by anglers who had seen one example rig, with what they meant; `data/own-cards.json` in
//! the same form by people who had seen the code. Each card is read, laid out, and read once more.

#![allow(clippy::unwrap_used, reason = "a test may stop at what it did not expect")]

use serde_json::Value;
use snell_tests::{Build, Run, top};
use std::fs;
use std::path::Path;

/// What is written otherwise and means the same.
const SAME: [(&str, &str); 18] = [
    ("mono", "nylon"),
    ("monofilament", "nylon"),
    ("fluoro", "fluorocarbon"),
    ("triple surgeon's", "triple surgeon"),
    ("double surgeon's", "double surgeon"),
    ("surgeon's", "surgeon"),
    ("overhand", "overhand"),
    ("3 turn water", "three turn surgeon"),
    ("four turn water", "four turn surgeon"),
    ("tucked half blood", "improved clinch"),
    ("half blood", "clinch"),
    ("no name", ""),
    ("wire", "steel"),
    // What flies on a team are fished as.
    ("wet", "team"),
    ("swing", "team"),
    ("loop", "knot"),
    ("ptn", "pheasant tail nymph"),
    ("wt", "weight"),
];

/// A word without its case, its hyphens, and the word `knot`.
fn plain(word: &str) -> String {
    let word = word.to_lowercase().replace('-', " ");
    let word = word.trim_end_matches(" knot");
    let same = SAME.iter().find(|(written, _)| *written == word);
    same.map_or(word, |(_, plain)| plain).to_owned()
}

/// What a float is called that has no other name.
const FLOATS: [&str; 5] = ["float", "indicator", "bobber", "bung", "strike indicator"];

/// A name without the colours and hook kinds that are told besides: whether they belong to it is a matter of taste.
fn bare(name: Option<&str>, told: &[String]) -> String {
    let name = plain(name.unwrap_or_default());
    let words = name
        .split(' ')
        .filter(|word| !told.iter().any(|told| told == word));
    words.collect::<Vec<_>>().join(" ")
}

/// Whether a bead in 64ths of an inch is sold by another size in millimetres, which is a little larger or smaller.
fn is_sold_as(got: f64, meant: f64) -> bool {
    const MOST: f64 = 0.045;
    let parts = meant / 25.4 * 64.0;
    (parts - parts.round()).abs() < 1e-4 && (got - meant).abs() <= MOST * meant
}

fn cards(file: &str) -> Vec<Value> {
    let text = fs::read_to_string(top().join("tests/data").join(file)).unwrap();
    serde_json::from_str(&text).unwrap()
}

/// The texts of a list; none where it is no list.
fn texts(list: &Value) -> impl Iterator<Item = &str> {
    list.as_array().into_iter().flatten().filter_map(Value::as_str)
}

/// The facts of a card in which a program and its author differ, one line each.
struct Difference(Vec<String>);

impl Difference {
    fn word(&mut self, what: &str, got: Option<&str>, meant: Option<&str>) {
        if got.map(plain) != meant.map(plain) {
            self.0.push(format!("{what}: {got:?}, and {meant:?} was meant"));
        }
    }

    fn number(&mut self, what: &str, got: Option<f64>, meant: Option<f64>) {
        let same = match (got, meant) {
            (Some(got), Some(meant)) => (got - meant).abs() <= 1e-3 * meant.abs(),
            (None, None) => true,
            (Some(_), None) | (None, Some(_)) => false,
        };
        if !same {
            self.0.push(format!("{what}: {got:?}, and {meant:?} was meant"));
        }
    }

    fn part(&mut self, got: &Value, meant: &Value) {
        let kind = meant["kind"].as_str().unwrap();
        let what = |fact: &str| format!("{kind}, {fact}");
        let value = |name: &str| got["values"][name].as_f64();
        let thousandth = |of: Option<f64>| of.map(|of| of * 1e3);
        self.word("kind", got["kind"].as_str(), Some(kind));
        self.number(&what("length"), value("length"), meant["length_m"].as_f64());
        let diameter = value("diameter").or(value("lower"));
        self.number(
            &what("diameter"),
            thousandth(diameter),
            meant["diameter_mm"].as_f64(),
        );
        self.number(&what("strength"), value("rated"), meant["strength_N"].as_f64());
        let (bead, meant_bead) = (thousandth(value("bead")), meant["bead_mm"].as_f64());
        if !bead
            .zip(meant_bead)
            .is_some_and(|(got, meant)| is_sold_as(got, meant))
        {
            self.number(&what("bead"), bead, meant_bead);
        }
        if let Some(butt) = meant["butt_mm"].as_f64() {
            self.number(&what("upper end"), thousandth(value("upper")), Some(butt));
        }
        self.word(&what("hook"), got["hook"].as_str(), meant["hook"].as_str());
        let words: Vec<&str> = texts(&got["words"]).collect();
        let material = meant["material"].as_str().or(meant["bead_material"].as_str());
        // How a piece is made may stand for what it is made of, and a fly without a bead be of foam.
        let is_made_so = material.is_some_and(|material| words.contains(&material));
        let has_bead =
            bead.is_some() || material.is_some() || !["inline", "point", "dropper"].contains(&kind);
        if kind != "float" && !is_made_so && has_bead {
            self.word(&what("material"), got["material"].as_str(), material);
        }
        self.names(got, meant);
        self.word(&what("knot"), got["knot"].as_str(), meant["knot"].as_str());
        if let Some(count) = meant["count"].as_f64() {
            self.number(&what("count"), got["count"].as_f64(), Some(count));
        }
        if let Some(hook) = meant["hook_kind"].as_str() {
            let said = words.contains(&hook).then_some(hook);
            self.word(&what("hook's kind"), said, Some(hook));
        }
    }

    /// What a part is called, and its colours. A colour of its name may be told as one of its own, or not.
    fn names(&mut self, got: &Value, meant: &Value) {
        let kind = meant["kind"].as_str().unwrap();
        let words = || texts(&got["words"]);
        let meant_name = meant["name"].as_str();
        let own = got["name"].as_str();
        let name = match kind {
            "line" | "swivel" => own.or_else(|| words().find(|word| Some(*word) == meant_name)),
            "float" if meant_name.is_none() => own.filter(|own| !FLOATS.contains(own)),
            _ => own,
        };
        // Which number a swivel has and what a line weighs are figures, told by their own.
        let is_figure = |name: &&str| {
            let figure = name
                .trim_start_matches(['#'])
                .trim_start_matches("size ")
                .trim_end_matches(" wt");
            matches!(kind, "line" | "swivel") && figure.parse::<u8>().is_ok()
        };
        let meant_name = meant_name.filter(|name| !(own.is_none() && is_figure(name)));
        let told: Vec<String> = texts(&got["colours"])
            .chain(texts(&meant["colours"]))
            .chain(words())
            .map(plain)
            .flat_map(|told| told.split(' ').map(str::to_owned).collect::<Vec<_>>())
            .collect();
        let is_whole = kind == "line" || kind == "swivel";
        if is_whole || bare(name, &told) != bare(meant_name, &told) {
            self.word(&format!("{kind}, name"), name, meant_name);
        }
        let both = format!(
            "{} {}",
            plain(name.unwrap_or_default()),
            plain(meant_name.unwrap_or_default())
        );
        let of_name: Vec<&str> = both.split(' ').collect();
        let list = |colours: &Value| -> String {
            let colours = texts(colours).map(plain);
            let apart = colours.filter(|colour| !colour.split(' ').all(|word| of_name.contains(&word)));
            apart.collect::<Vec<_>>().join(", ")
        };
        let (got, meant) = (list(&got["colours"]), list(&meant["colours"]));
        self.word(&format!("{kind}, colours"), Some(&got), Some(&meant));
    }

    fn rig(&mut self, got: &Value, meant: &Value) {
        let (parts, meant_parts) = (
            got["parts"].as_array().unwrap(),
            meant["parts"].as_array().unwrap(),
        );
        self.number("parts", Some(parts.len() as f64), Some(meant_parts.len() as f64));
        for (got, meant) in parts.iter().zip(meant_parts) {
            self.part(got, meant);
        }
        if let Some(total) = meant["total_leader_m"].as_f64() {
            self.number("total", got["measures"]["total"]["value"].as_f64(), Some(total));
        }
        if let Some(method) = meant["method"].as_str() {
            self.word("method", got["settings"]["method"].as_str(), Some(method));
        }
    }
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
}

#[track_caller]
fn score(file: &str) -> Score {
    let (mut silently_wrong, mut wrong) = (Vec::new(), Vec::new());
    let (mut whole, mut lines, mut refused_lines) = (0, 0, 0);
    let cards = cards(file);
    for card in &cards {
        let (id, text) = (card["id"].as_str().unwrap(), card["text"].as_str().unwrap());
        let folder = tempfile::tempdir().unwrap();
        fs::write(folder.path().join("card.rig"), text).unwrap();
        let (rig, refused) = read(folder.path());
        let mut difference = Difference(Vec::new());
        difference.rig(&rig, &card["meaning"]);
        lines += text.lines().count();
        refused_lines += refused;
        whole += usize::from(refused == 0 && difference.0.is_empty());
        if refused == 0 {
            silently_wrong.extend(difference.0.iter().map(|what| format!("{id}: {what}")));
        }
        wrong.extend(difference.0.iter().map(|what| format!("{id}: {what}")));

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
    most_lines_are_read("fresh-cards-19.json", 0);
}

/// By others again. First tried, no line of 14 of 20 cards was refused, and 176 of 190 lines were read. One has its float
/// above all line.
#[test]
fn a_twentieth_set_of_fresh_cards_is_read() {
    most_lines_are_read("fresh-cards-20.json", 1);
}

/// By others again. First tried, no line of 14 of 20 cards was refused, and 158 of 170 lines were read. One says in a remark
/// that its lengths are in centimetres, and is asked for the unit of each.
#[test]
fn a_twenty_first_set_of_fresh_cards_is_read() {
    most_lines_are_read("fresh-cards-21.json", 6);
}

/// By others again. First tried, no line of 17 of 20 cards was refused, and 167 of 170 lines were read.
#[test]
fn a_twenty_second_set_of_fresh_cards_is_read() {
    most_lines_are_read("fresh-cards-22.json", 0);
}

/// By others again, after the four sets before it were mended. First tried, no line of 18 of 20 cards was refused or read in
/// part, 181 of 183 lines were read, and no fact was wrong.
#[test]
fn a_twenty_third_set_of_fresh_cards_is_read() {
    most_lines_are_read("fresh-cards-23.json", 0);
}
