//! Laws of comparing: a rig is like itself, and an edit script is told as the
//! script that it is.

use notebook::compare::{Change, Comparison, RigChange, State, TraitKind, compare};
use notebook::{Kind, LocalDisk, Notebook};
use proptest::prelude::*;
use snell_tests::generated_notebook;
use std::path::Path;

fn state(text: &str) -> State {
    let book = Notebook::of_text(Path::new("made.rig"), Kind::Rig, text.to_owned(), &LocalDisk);
    State::of(&book, |_, _| true)
}

#[test]
fn a_notebook_is_the_same_as_itself() {
    let text = generated_notebook(40);
    let (one, other) = (state(&text), state(&text));
    let told = compare(&one, &other);
    assert!(told.is_empty(), "{:#?}", told.rigs.first());
    assert!(told.same > 30, "only {} rigs", told.same);
}

/// A section of a made-up rig; its number is its label.
#[derive(Clone, Debug)]
struct Section {
    label: usize,
    inches: u32,
    stuff: usize,
}

/// The last is only for pieces that are put in.
const STUFF: [&str; 5] = [
    "0.22 mm nylon",
    "5X fluoro",
    "6X fluoro",
    "0.20 mm nylon pink",
    "0.30 mm nylon",
];

fn written(sections: &[Section]) -> String {
    let mut text = "rig made\n".to_owned();
    for one in sections {
        text.push_str(&format!(
            "  tippet {} in of {} as part-{}\n",
            one.inches, STUFF[one.stuff], one.label
        ));
    }
    text + "  point #14 2.8 mm tungsten\n"
}

#[derive(Clone, Copy, Debug)]
enum Edit {
    Longer(u32),
    Stuff,
    Remove,
    Add,
    Split,
    MoveToTop,
}

fn edit() -> impl Strategy<Value = Edit> {
    prop_oneof![
        (1..20_u32).prop_map(Edit::Longer),
        Just(Edit::Stuff),
        Just(Edit::Remove),
        Just(Edit::Add),
        Just(Edit::Split),
        Just(Edit::MoveToTop),
    ]
}

/// Makes an edit at the section with a label, and says what it is.
fn make(sections: &mut Vec<Section>, label: usize, edit: Edit) -> String {
    let at = sections
        .iter()
        .position(|one| one.label == label)
        .expect("labels stay");
    match edit {
        Edit::Longer(by) => {
            sections[at].inches += by;
            format!("length part-{label}")
        }
        Edit::Stuff => {
            sections[at].stuff = (sections[at].stuff + 1) % 4;
            format!("stuff part-{label}")
        }
        Edit::Remove => {
            sections.remove(at);
            format!("removed part-{label}")
        }
        Edit::Add => {
            let new = Section {
                label: label + 100,
                inches: 3,
                stuff: 4,
            };
            sections.insert(at + 1, new);
            format!("added part-{}", label + 100)
        }
        Edit::Split => {
            let half = sections[at].inches / 2;
            let lower = Section {
                label: label + 200,
                inches: sections[at].inches - half,
                stuff: sections[at].stuff,
            };
            sections[at].inches = half;
            sections.insert(at + 1, lower);
            format!("split part-{label}")
        }
        Edit::MoveToTop => {
            let one = sections.remove(at);
            sections.insert(0, one);
            format!("moved part-{label}")
        }
    }
}

fn named(change: &Change) -> String {
    match change {
        Change::Altered { part, side, .. } if *side == TraitKind::Length => format!("length {part}"),
        Change::Altered { part, side, .. } if *side == TraitKind::Stuff => format!("stuff {part}"),
        Change::Removed { part } => format!("removed {}", part.name),
        Change::Added { part, .. } => format!("added {}", part.name),
        Change::Split { part, .. } => format!("split {}", part.name),
        Change::Moved { part, .. } => format!("moved {part}"),
        other => format!("{other:?}"),
    }
}

fn of_the_rig(told: Comparison) -> Vec<Change> {
    match told.rigs.into_iter().next() {
        Some(RigChange::Changed { changes, .. }) => changes,
        None => Vec::new(),
        other => panic!("{other:?}"),
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    #[test]
    fn an_edit_script_is_told_as_it_is(
        lengths in prop::collection::vec((20..60_u32, 0..4_usize), 4..9),
        edits in prop::collection::vec((0..9_usize, edit()), 0..4),
    ) {
        let was: Vec<Section> = lengths
            .iter()
            .enumerate()
            .map(|(label, (inches, stuff))| Section { label, inches: *inches, stuff: *stuff })
            .collect();
        let mut now = was.clone();
        let mut script = Vec::new();
        let mut touched = Vec::new();
        let mut moved = false;
        for (label, edit) in edits {
            // What stands at the top cannot be moved there, and of two moves to the top either may be told.
            let is_move = matches!(edit, Edit::MoveToTop);
            if label >= was.len() || touched.contains(&label) || is_move && (moved || label < 3) {
                continue;
            }
            moved |= is_move;
            touched.push(label);
            script.push(make(&mut now, label, edit));
        }
        let mut told: Vec<String> = of_the_rig(compare(&state(&written(&was)), &state(&written(&now))))
            .iter()
            .map(named)
            .collect();
        told.sort();
        script.sort();
        prop_assert_eq!(told, script);
    }

    #[test]
    fn any_rig_is_like_itself_however_its_lengths_are_written(
        lengths in prop::collection::vec((2..60_u32, 0..4_usize), 1..9),
    ) {
        let inches: Vec<Section> = lengths
            .iter()
            .enumerate()
            .map(|(label, (inches, stuff))| Section { label, inches: *inches, stuff: *stuff })
            .collect();
        let plain = written(&inches);
        let in_feet = plain.replace(" in of", "/12 ft of");
        let told = compare(&state(&plain), &state(&in_feet));
        prop_assert!(told.is_empty(), "{:?}", told);
    }
}
