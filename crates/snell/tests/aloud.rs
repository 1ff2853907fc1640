//! Twenty changes of one rig, each beside what a friend at the bank would say of
//! it. Read them aloud when the snapshot changes.

mod program;

use program::run;
use std::fs;

const BEFORE: &str = "\
fly bracken \"bracken nymph\"
  hook #14
  bead 2.8 mm tungsten

fly slate \"slate spider\"
  hook #16

spool fine \"6X\"
  size 6X
  material fluoro
  rated 3.4 lb

water tail \"the tail\"
  depth 3 ft
  surface 2 ft/s
  bed cobble
  run 20 ft

rig pair \"two on a card\"
  water tail
  butt 9 ft of 0.25 mm nylon
  sighter 16 in of 0.20 mm nylon pink
  tippet 36 in of fine as upper
  dropper 8 in with slate
  tippet 20 in of fine as lower
  point bracken
  note \"made in March\"
";

const ANOTHER: &str = "\
rig pair \"two on a card\"
  water tail
  line 0.55 mm nylon
  leader 7 ft of 0.35 mm nylon
  tippet 30 in of 0.22 mm nylon
  ring 2 mm
  tippet 5 ft of 4X fluoro
  dropper 5 in with #12
  tippet 16 in of 4X nylon
  dropper 6 in with #10
  tippet 18 in of 3X nylon
  point #8 4 mm tungsten
";

/// What a friend would say, and what is written otherwise for it: all of the old, by the new.
const CHANGES: &[(&str, &[[&str; 2]])] = &[
    ("I put four inches on it.", &[["36 in", "40 in"]]),
    ("I hardly touched it.", &[["36 in", "36.5 in"]]),
    (
        "I went finer below the dropper; it fishes the same.",
        &[["20 in of fine", "20 in of 7X fluoro"]],
    ),
    ("A bigger bead: it's down sooner.", &[["2.8 mm", "3.3 mm"]]),
    ("A shade more bead; you won't notice.", &[["2.8 mm", "2.9 mm"]]),
    (
        "A spider on the point: it takes ages to get down.",
        &[["point bracken", "point slate"]],
    ),
    ("I took the dropper off.", &[["  dropper 8 in with slate\n", ""]]),
    (
        "I hung a second dropper above the point.",
        &[[
            "  tippet 20 in of fine as lower",
            "  tippet 10 in of fine\n  dropper 6 in with slate\n  tippet 20 in of fine as lower",
        ]],
    ),
    (
        "There's a ring below the sighter now.",
        &[["  tippet 36", "  ring 2 mm\n  tippet 36"]],
    ),
    ("The water's up a foot.", &[["depth 3 ft", "depth 4 ft"]]),
    ("The water's faster.", &[["2 ft/s", "3 ft/s"]]),
    (
        "I cut the upper piece in two.",
        &[[
            "  tippet 36 in of fine as upper",
            "  tippet 16 in of fine as upper\n  tippet 20 in of fine",
        ]],
    ),
    ("That spool isn't what it was.", &[["3.4 lb", "3 lb"]]),
    (
        "I swapped the flies round.",
        &[["with slate", "with bracken"], ["point bracken", "point slate"]],
    ),
    (
        "I'm on the shallow run now.",
        &[["  water tail\n", "  water 18 in at 3 ft/s over gravel\n"]],
    ),
    ("Only the note.", &[["in March", "in April"]]),
    ("Same rig, better name.", &[["rig pair", "rig evening"]]),
    (
        "I weighed the bracken at last.",
        &[["  bead 2.8 mm tungsten", "  bead 2.8 mm tungsten\n  mass 0.24 g"]],
    ),
    ("A longer, finer butt.", &[["9 ft of 0.25", "12 ft of 0.20"]]),
    ("That's another rig.", &[]),
];

#[test]
fn what_is_told_is_what_a_friend_would_say() {
    let folder = tempfile::tempdir().expect("a folder");
    let place = |name: &str, text: &str| {
        let path = folder.path().join(name);
        fs::write(&path, text).expect("a file");
        path.display().to_string()
    };
    let was = place("was.rig", BEFORE);
    let mut told = String::new();
    for (friend, edits) in CHANGES {
        let mut text = match edits {
            [] => {
                let (blocks, _) = BEFORE.split_once("rig pair").expect("the rig");
                format!("{blocks}{ANOTHER}")
            }
            [_, ..] => BEFORE.to_owned(),
        };
        for [old, new] in *edits {
            assert!(text.contains(old), "{old}");
            text = text.replacen(old, new, 1);
        }
        let ran = run(&["compare", &was, &place("now.rig", &text)]);
        assert_eq!((ran.status, ran.err.as_str()), (1, ""), "{friend}");
        told.push_str(&format!("\"{friend}\"\n{}\n", ran.out));
    }
    insta::assert_snapshot!(told);
}
