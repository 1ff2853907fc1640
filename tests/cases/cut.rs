//! The tying list against sums worked by hand, and spools from which is taken.

#![allow(clippy::unwrap_used, reason = "a test may stop at what it did not expect")]

use serde_json::Value;
use snell_tests::{Build, Ran, Run, top};
use std::fs;
use std::path::Path;

fn snell(within: &Path, arguments: &[&str]) -> Ran {
    Run::new(Build::AsTests, arguments).within(within).finish()
}

fn listed(text: &str, rig: &str) -> Value {
    let folder = tempfile::tempdir().unwrap();
    fs::write(folder.path().join("a.rig"), text).unwrap();
    let ran = snell(folder.path(), &["cut", rig, "--form", "json"]);
    serde_json::from_str(&ran.out).unwrap_or_else(|error| panic!("{error}: {}", ran.told()))
}

/// Name, what to cut and what is finished of every piece of the first rig, in centimetres.
fn pieces(list: &Value) -> Vec<(String, f64, f64)> {
    let pieces = list["rigs"][0]["pieces"].as_array().unwrap().iter();
    let centimetres = |value: &Value| value["value"].as_f64().unwrap() * 100.0;
    pieces
        .map(|piece| {
            let name = piece["name"].as_str().unwrap().to_owned();
            (name, centimetres(&piece["cut"]), centimetres(&piece["finished"]))
        })
        .collect()
}

/// The sums below were worked by hand, in centimetres (1 in is 2.54 cm), with what the shipped knots take a side:
/// nail 20, blood 11, clinch 7, three-turn surgeon 17. Each is then rounded up to half an inch.
#[test]
fn the_example_rig_agrees_with_a_sum_worked_by_hand() {
    let by_hand = [
        // 60 in finished, a nail above, a blood below.
        ("butt", 152.4, 152.4 + 20.0 + 11.0, 72.5),
        // 24 in between two bloods.
        ("taper 1", 60.96, 60.96 + 11.0 + 11.0, 33.0),
        ("taper 2", 60.96, 60.96 + 11.0 + 11.0, 33.0),
        // 15 in between two bloods, the lower with its end left 1 in.
        ("sighter 1", 38.1, 38.1 + 11.0 + 11.0 + 2.54, 25.0),
        // 15 in, the end above left 1 in, a clinch at the ring.
        ("sighter 2", 38.1, 2.54 + 11.0 + 38.1 + 7.0, 23.5),
        // 32 in, a clinch at the ring, a surgeon below whose end is the 8 in tag with its fly on a clinch.
        ("upper", 81.28, 7.0 + 81.28 + 17.0 + 20.32 + 7.0, 52.5),
        // 20 in, the surgeon above, a clinch at the point.
        ("tippet 2", 50.8, 17.0 + 50.8 + 7.0, 29.5),
    ];
    let text = fs::read_to_string(top().join("examples/harrow.rig")).unwrap();
    let list = listed(&text, "harrow-low");
    let pieces = pieces(&list);
    assert_eq!(pieces.len(), by_hand.len());
    for ((name, cut, finished), (by_name, by_finished, sum, inches)) in pieces.iter().zip(by_hand) {
        assert_eq!(name, by_name);
        assert!(
            (finished - by_finished).abs() < 1e-6,
            "{name}: {finished} cm finished"
        );
        assert!(
            (cut - inches * 2.54).abs() < 1e-6,
            "{name}: {cut} cm cut for {sum} cm"
        );
        assert!(
            *cut >= sum && cut - sum < 1.27,
            "{name}: {cut} cm is not {sum} cm rounded up"
        );
    }
    // 52.5 in and 29.5 in come off the same line.
    let spools = list["spools"].as_array().unwrap();
    let fluoro = spools.iter().find(|spool| spool["name"] == "6X fluoro").unwrap();
    assert!((fluoro["takes"]["value"].as_f64().unwrap() - 82.0 * 0.0254).abs() < 1e-9);
}

/// What is cut, less what knots, ends and tags take, is the finished rig; together the pieces make its total.
#[test]
fn the_tied_rig_comes_out_at_its_finished_lengths() {
    let examples = top().join("examples");
    let ran = snell(&top(), &["cut", "examples", "--form", "json"]);
    let list: Value = serde_json::from_str(&ran.out).unwrap();
    let shown = snell(&top(), &["show", "examples", "--form", "json"]);
    let shown: Value = serde_json::from_str(&shown.out).unwrap();
    let mut compared = 0;
    for rig in list["rigs"].as_array().unwrap() {
        let same = |other: &&Value| other["name"] == rig["name"] && other["file"] == rig["file"];
        let measures = &shown["rigs"].as_array().unwrap().iter().find(same).unwrap()["measures"];
        let pieces = rig["pieces"].as_array().unwrap();
        let finished: f64 = pieces
            .iter()
            .map(|piece| piece["finished"]["value"].as_f64().unwrap())
            .sum();
        let total = measures["total"]["value"].as_f64().unwrap();
        assert!(
            (finished - total).abs() < 1e-9,
            "{}: {finished} of {total}",
            rig["name"]
        );
        for piece in pieces {
            let added: f64 = piece["allowances"]
                .as_array()
                .unwrap()
                .iter()
                .filter_map(|one| one["length"]["value"].as_f64())
                .sum();
            let over = piece["cut"]["value"].as_f64().unwrap()
                - added
                - piece["finished"]["value"].as_f64().unwrap();
            assert!(
                (-1e-6..0.0127).contains(&over),
                "{}: {over} m over",
                piece["name"]
            );
            compared += 1;
        }
    }
    assert!(compared > 80, "only {compared} pieces in {}", examples.display());
}

#[test]
fn what_goes_through_is_cut_in_one() {
    let text = "rig a\n  tippet 60 cm of 5X fluoro as top\n  float 13 mm foam\n  tippet 90 cm of 5X fluoro as upper\n  \
                shot 0.2 g tin\n  tippet 40 cm of 5X fluoro as lower\n  point #14\n";
    // 190 cm and the clinch at the point; nothing is said to tie its upper end to.
    assert_eq!(
        round(pieces(&listed(text, "a"))),
        [("top + upper + lower".to_owned(), 197, 190)]
    );
    let knotted = text.replace("  shot", "  knot blood\n  shot");
    let two = [("top + upper".to_owned(), 161, 150), ("lower".to_owned(), 58, 40)];
    assert_eq!(round(pieces(&listed(&knotted, "a"))), two);
}

#[test]
fn a_tag_of_its_own_stuff_is_a_piece_of_its_own() {
    let text = "rig a\n  tippet 60 cm of 5X fluoro as upper\n  dropper 20 cm of 4X nylon with #16 on uni\n  \
                tippet 50 cm of 5X fluoro as lower\n  point #14\n";
    // The three-turn surgeon takes 17 cm of each of the three, the uni 9 and the clinch 7.
    let by_hand = [
        ("upper".to_owned(), 77, 60),
        ("dropper".to_owned(), 46, 20),
        ("lower".to_owned(), 74, 50),
    ];
    assert_eq!(round(pieces(&listed(text, "a"))), by_hand);
}

#[test]
fn a_fly_on_the_line_is_tied_to_on_both_sides() {
    let text = "rig a\n  tippet 60 cm of 5X fluoro as upper\n  inline #12 off bend\n  \
                tippet 50 cm of 5X fluoro as lower\n  point #14\n";
    let list = listed(text, "a");
    let by_hand = [("upper".to_owned(), 67, 60), ("lower".to_owned(), 64, 50)];
    assert_eq!(round(pieces(&list)), by_hand);
    let assumed = list["rigs"][0]["assumed"].to_string();
    assert!(
        !assumed.contains("surgeon") && !assumed.contains("blood"),
        "{assumed}"
    );
}

/// To whole centimetres, in which these rigs are cut.
fn round(pieces: Vec<(String, f64, f64)>) -> Vec<(String, i64, i64)> {
    let whole = |metres: f64| metres.round() as i64;
    pieces
        .into_iter()
        .map(|(name, cut, finished)| (name, whole(cut), whole(finished)))
        .collect()
}

const SPOOLS: &str = "// Line on the nail.\r\n\r\nspool six \"the 6X\"\r\n  size  6X\r\n  material fluoro\r\n  left  \
                      3 m // by the door\r\n  price 10\r\n  holds 30 m\r\n";
const RIG: &str = "use \"spools.rig\"\n\nrig a\n  tippet 80 cm of six as upper\n  dropper 20 cm with #16\n  \
                   tippet 50 cm of six as lower\n  point #14\n";

#[test]
fn what_is_taken_lowers_what_is_left_and_nothing_else() {
    let folder = tempfile::tempdir().unwrap();
    let spools = folder.path().join("spools.rig");
    fs::write(&spools, SPOOLS).unwrap();
    fs::write(folder.path().join("a.rig"), RIG).unwrap();
    // 80 + 17 + 20 + 7 = 124 cm and 17 + 50 + 7 = 74 cm: 198 cm of 3 m, once; 10 / 30 m for each metre.
    let ran = snell(folder.path(), &["cut", "a", "--form", "json"]);
    let list: Value = serde_json::from_str(&ran.out).unwrap();
    let six = &list["spools"][0];
    assert!(
        (six["takes"]["value"].as_f64().unwrap() - 1.98).abs() < 1e-9,
        "{six}"
    );
    assert_eq!(six["leaders"], 1);
    assert!((list["cost"].as_f64().unwrap() - 0.66).abs() < 1e-9);
    assert_eq!(
        fs::read_to_string(&spools).unwrap(),
        SPOOLS,
        "without --take nothing is written"
    );

    let ran = snell(folder.path(), &["cut", "a", "--take"]);
    assert_eq!(ran.status, Some(0), "{}", ran.told());
    assert!(
        ran.out
            .ends_with("took what is cut off the spools in spools.rig\n"),
        "{}",
        ran.out
    );
    assert_eq!(
        fs::read_to_string(&spools).unwrap(),
        SPOOLS.replace("3 m //", "1.02 m //")
    );

    // Now there is too little: the list says so, and nothing more is taken.
    let ran = snell(folder.path(), &["cut", "a"]);
    assert_eq!(ran.status, Some(1));
    assert!(ran.out.contains("too little"), "{}", ran.out);
    let ran = snell(folder.path(), &["cut", "a", "--take"]);
    assert_eq!(ran.status, Some(2));
    assert!(
        ran.err
            .contains("nothing was taken: the spool `six` has 1.02 m left, and 1.98 m are wanted"),
        "{}",
        ran.err
    );
    assert_eq!(
        fs::read_to_string(&spools).unwrap(),
        SPOOLS.replace("3 m //", "1.02 m //")
    );
}

#[test]
fn nothing_is_taken_where_not_all_is_known() {
    let folder = tempfile::tempdir().unwrap();
    let spools = folder.path().join("spools.rig");
    fs::write(folder.path().join("a.rig"), RIG.replace("50 cm", "50")).unwrap();
    for (text, why) in [
        (SPOOLS.to_owned(), "not all lengths are known"),
        (SPOOLS.replace("left  3 m //", "//"), "not all lengths are known"),
    ] {
        fs::write(&spools, &text).unwrap();
        let ran = snell(folder.path(), &["cut", "a", "--take"]);
        assert_eq!(ran.status, Some(2));
        assert!(ran.err.contains(why), "{}", ran.err);
        assert_eq!(fs::read_to_string(&spools).unwrap(), text);
    }
    fs::write(folder.path().join("a.rig"), RIG).unwrap();
    for (text, why) in [
        (SPOOLS.replace("left  3 m //", "//"), "says how much is `left`"),
        (
            SPOOLS.replace("left  3 m", "left  30 m - 20 m"),
            "not written as one plain length",
        ),
    ] {
        fs::write(&spools, &text).unwrap();
        let ran = snell(folder.path(), &["cut", "a", "--take"]);
        assert_eq!(ran.status, Some(2), "{}", ran.told());
        assert!(ran.err.contains(why), "{}", ran.err);
        assert_eq!(fs::read_to_string(&spools).unwrap(), text);
    }
}
