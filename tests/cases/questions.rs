//! Twenty questions of an evening at the water, each by one command, against what a guide would say.
//!
//! The answers of the guide were written down before the program was asked; sixteen of them were met at once. Two were right
//! and the program was not (a tippet that is shorter than the deep end of the water), one was asked of a rig of one size above
//! and below its dropper, where both flies may be lost, and one was a slip of the question. A range is common practice, no source, but where
//! one is named. An answer stands in the first paragraph and takes at most three lines.

use snell_tests::{Build, Run, top};

/// What is asked, how, and what a guide would say.
struct Question {
    asked: &'static str,
    command: &'static [&'static str],
    says: Says,
}

/// What a guide would say.
enum Says {
    /// These words stand in the answer.
    Words(&'static str),
    /// The number behind some words lies between two others; in the unit that stands behind it.
    Number(&'static str, &'static str, f64, f64),
}

use Says::{Number, Words};

const RIG: &str = "examples/harrow.rig:harrow-low";
/// A rig that says its reach and the height of its tip.
const PAIR: &str = "crates/snell-view/lore/the-pair.rig:the-pair";
const FLOAT: &str = "crates/snell-view/tests/fit/pairs.rig:under-a-float";

const QUESTIONS: [Question; 20] = [
    Question {
        asked: "Does it fish at the tail of the long pool?",
        command: &["show", RIG],
        says: Words("fishes here"),
    },
    Question {
        asked: "How long do I count until the point is down in knee-deep water, with a tuck?",
        command: &["drift", RIG, "--depth", "20 in"],
        says: Number("down in about ", " s", 0.5, 2.0),
    },
    Question {
        asked: "And in four feet?",
        command: &["drift", RIG, "--depth", "4 ft"],
        says: Number("down in about ", " s", 1.5, 4.0),
    },
    Question {
        asked: "How high over the stones does the point ride?",
        command: &["show", RIG],
        says: Number("s, ", " in off the bed", 2.0, 8.0),
    },
    Question {
        asked: "How deep is the upper fly, 20 in above the point on an 8 in tag, in two to three feet?",
        command: &["show", RIG],
        says: Number("slate at ", " in", 8.0, 18.0),
    },
    Question {
        asked: "I stand at a pool of four to five feet: what do I change?",
        command: &["fit", RIG, "--depth", "4 ft to 5 ft", "--speed", "1.5 ft/s"],
        says: Words("lengthen the upper tippet"),
    },
    Question {
        asked: "How much longer?",
        command: &["fit", RIG, "--depth", "4 ft to 5 ft", "--speed", "1.5 ft/s"],
        says: Number("lengthen the upper tippet to ", " in", 36.0, 56.0),
    },
    Question {
        asked: "The next run is like this one, a little faster: do I change anything?",
        command: &["fit", RIG, "--speed", "2.4 ft/s"],
        says: Words("nothing to change"),
    },
    Question {
        // Source: depth times speed of 10 ft2/s, Rantz and others 1982, USGS Water-Supply Paper 2175.
        asked: "May I wade four feet at three feet a second?",
        command: &["drift", RIG, "--depth", "4 ft", "--speed", "3 ft/s"],
        says: Words("keep out of it"),
    },
    Question {
        asked: "My point is stuck, on a size finer than above the dropper: what do I lose?",
        command: &["show", "examples/evening-on-the-weir.md:weir-up"],
        says: Words("1 fly lost"),
    },
    Question {
        asked: "How often can I change the fly on an 8 in tag?",
        command: &["show", RIG],
        says: Number("\n  ", " changes left", 2.0, 4.0),
    },
    Question {
        asked: "Does 7X get down sooner than 5X?",
        command: &["vary", PAIR, "tippet", "7X"],
        says: Number("7X: bears ", " lb less", 0.3, 1.0),
    },
    Question {
        asked: "Does a tuck get down sooner than a straight cast up the stream? A second or two.",
        command: &["vary", PAIR, "cast", "up"],
        says: Number("up: is down ", " s later", 0.5, 3.0),
    },
    Question {
        asked: "What does the next bead up do? It is down about a quarter sooner, of a second and a half.",
        command: &["vary", PAIR, "point", "3.3 mm"],
        says: Number("is down ", " s sooner", 0.15, 0.6),
    },
    Question {
        asked: "I leave the 0.55 mm level line on at twelve feet: do the flies lift? Half a foot and more.",
        command: &["vary", PAIR, "butt", "0.55 mm"],
        says: Number("point rides ", " in higher", 4.0, 16.0),
    },
    Question {
        asked: "I come three feet nearer: how much less line does it take? Half a foot.",
        command: &["vary", PAIR, "reach", "9 ft"],
        says: Number("9 ft: needs ", " in less line", 3.0, 12.0),
    },
    Question {
        asked: "What do I cut from the spool of 6X for 68 in of tippet and a 6 in tag? Seven or eight feet with the knots.",
        command: &["cut", "crates/snell-view/lore/the-pair.rig:the-pair"],
        says: Number("nylon pink, ", " ft of 6X", 6.0, 9.0),
    },
    Question {
        asked: "The day goes from the tail to the stepping stones to the weir: what do I start with?",
        command: &["plan", "harrow-low", "tail", "stones", "weir", "--in", "examples"],
        says: Words("no knot to tie"),
    },
    Question {
        asked: "Under a float, from the slow pool into the shallow glide: how many knots? One, for line is only trimmed.",
        command: &["plan", FLOAT, "tarn", "glide"],
        says: Words("one knot to tie"),
    },
    Question {
        asked: "Which fly of my box for two to three feet?",
        command: &[
            "card", RIG, "--depths", "2 ft", "3 ft", "--speeds", "1 ft/s", "2 ft/s",
        ],
        says: Words("4 are fished: 4 with slate"),
    },
];

/// The first paragraph behind the title, as it is printed.
fn answer(out: &str) -> String {
    let mut paragraphs = out.split("\n\n").map(|paragraph| format!("\n{paragraph}\n"));
    let is_answer =
        |paragraph: &String| paragraph.starts_with("\n  ") && !paragraph.starts_with("\n  examples");
    let indented = paragraphs.clone().find(is_answer);
    // A list of what to cut begins with its answer.
    let first = paragraphs.next().unwrap_or_default();
    if first.contains(" to cut: ") {
        return first;
    }
    indented.unwrap_or_default()
}

fn number(text: &str, before: &str, unit: &str) -> Option<f64> {
    text.match_indices(before).find_map(|(at, _)| {
        let behind = &text[at + before.len()..];
        let end = behind.find(|letter: char| !letter.is_ascii_digit() && letter != '.')?;
        let rest = &behind[end..];
        rest.starts_with(unit)
            .then(|| behind[..end].parse().ok())
            .flatten()
    })
}

#[test]
fn a_guide_would_say_so() {
    let mut wrong = Vec::new();
    for question in QUESTIONS {
        let ran = Run::new(Build::AsTests, question.command).within(&top()).finish();
        let answer = answer(&ran.out);
        let lines = answer
            .lines()
            .filter(|line| line.starts_with("  ") && !line.starts_with("    "))
            .count();
        let plain = answer.replace("\n    ", " ");
        let plain = if plain.contains(" to cut: ") {
            plain.replace('\n', " ")
        } else {
            plain
        };
        let right = match question.says {
            Words(words) => plain.contains(words),
            Number(before, unit, low, high) => {
                number(&plain, before, unit).is_some_and(|found| (low..=high).contains(&found))
            }
        };
        if !right || lines > 3 {
            wrong.push(format!("{}\n{}", question.asked, ran.out));
        }
    }
    assert!(
        wrong.is_empty(),
        "{} of 20 are not answered so:\n{}",
        wrong.len(),
        wrong.join("\n")
    );
}
