//! `snell compare` on pairs of hand-made files: what it says is what an angler
//! would tell a friend.

mod program;

use program::{run, top};
use serde_json::Value;
use std::fs;

const PAIRS: &str = "crates/snell/tests/data/pairs";

#[test]
fn pairs_are_told_as_a_friend_would() {
    let mut pairs: Vec<String> = fs::read_dir(top().join(PAIRS))
        .expect("the pairs")
        .map(|entry| {
            entry
                .expect("a pair")
                .file_name()
                .into_string()
                .expect("a plain name")
        })
        .collect();
    pairs.sort();
    assert!(pairs.len() >= 15, "only {} pairs", pairs.len());
    let mut told = String::new();
    for pair in &pairs {
        let (was, now) = (
            format!("{PAIRS}/{pair}/was.rig"),
            format!("{PAIRS}/{pair}/now.rig"),
        );
        let ran = run(&["compare", &was, &now]);
        assert_eq!(
            ran.status,
            i32::from(pair != "only-the-writing"),
            "{pair}: {}",
            ran.err
        );
        told.push_str(&format!("== {pair}\n{}\n", ran.out));
        let same = run(&["compare", &now, &now]);
        assert_eq!(same.status, 0, "{pair} differs from itself: {}", same.out);
    }
    insta::assert_snapshot!("pairs", told);
}

#[test]
fn one_pair_in_every_form() {
    let pair = |name: &str| format!("{PAIRS}/cut-for-a-dropper/{name}.rig");
    for form in ["table", "markdown", "json"] {
        let ran = run(&["compare", &pair("was"), &pair("now"), "--form", form]);
        assert_eq!((ran.status, ran.err.as_str()), (1, ""));
        let out = if form == "json" { rounded(&ran.out) } else { ran.out };
        insta::assert_snapshot!(form, out);
    }
}

/// JSON with every broken number to four digits: a solved drift may differ in its last ones.
fn rounded(json: &str) -> String {
    fn round(value: &mut Value) {
        match value {
            Value::Number(number) if number.is_f64() => {
                let four = format!("{:.3e}", number.as_f64().expect("it is a float"));
                *value = four.parse::<f64>().expect("a number was written").into();
            }
            Value::Array(values) => values.iter_mut().for_each(round),
            Value::Object(fields) => fields.values_mut().for_each(round),
            _ => {}
        }
    }
    let mut value: Value = serde_json::from_str(json).expect("it prints JSON");
    round(&mut value);
    serde_json::to_string_pretty(&value).expect("JSON is written")
}

#[test]
fn one_rig_of_a_file_is_held_against_another() {
    let file = "examples/harrow.rig";
    let ran = run(&[
        "compare",
        &format!("{file}:harrow-low"),
        &format!("{file}:harrow-spate"),
    ]);
    assert_eq!(ran.status, 1, "{}", ran.err);
    insta::assert_snapshot!("two-rigs-of-a-file", ran.out);
    let ran = run(&["compare", &format!("{file}:harrow-lo"), file]);
    assert_eq!(ran.status, 2);
    assert!(ran.err.contains("there is no rig `harrow-lo`"), "{}", ran.err);
}

#[test]
fn a_word_that_means_nothing_is_told() {
    let ran = run(&["compare", "nowhere.rig", "examples"]);
    assert_eq!((ran.status, ran.out.as_str()), (2, ""));
    assert!(ran.err.contains("nowhere.rig"), "{}", ran.err);
}
