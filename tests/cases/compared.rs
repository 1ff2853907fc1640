//! Laws of comparing: a rig is like itself, and an edit script is told as the
//! script that it is.

use proptest::prelude::*;
use snell_analysis::{Kind, LocalDisk, Notebook};
use snell_tests::generated_notebook;
use snell_view::compare::{Change, Comparison, RigChange, State, TraitKind, compare, for_people, told_moved};
use std::path::Path;

fn state(text: &str) -> State {
    let book = Notebook::of_text(Path::new("made.rig"), Kind::Rig, text.to_owned(), &LocalDisk);
    State::of(book, |_, _| true)
}

#[test]
fn a_notebook_is_the_same_as_itself() {
    let text = generated_notebook(40);
    let (one, other) = (state(&text), state(&text));
    let told = compare(&one, &other);
    assert!(told.is_empty(), "{:#?}", told.rigs.first());
    assert!(told.same > 30, "only {} rigs", told.same);
}

#[test]
fn a_bead_is_told_with_what_it_is_made_of() {
    let point = |bead: &str| {
        state(&format!(
            "rig made\n  tippet 2 ft of 6X fluoro\n  point #14 {bead} \"red tag\"\n"
        ))
    };
    let told = |was: &str, now: &str| {
        let told = compare(&point(was), &point(now));
        let RigChange::Changed { changes, .. } = &told.rigs[0] else {
            panic!("{told:#?}");
        };
        changes.iter().map(snell_view::compare::told).collect::<Vec<_>>()
    };
    assert_eq!(
        told("3 mm tungsten", ""),
        ["the point is still red tag, but has no bead any more; it was 3 mm tungsten"]
    );
    assert_eq!(
        told("", "3 mm brass"),
        ["the point is still red tag, but has a bead of 3 mm brass now"]
    );
    assert_eq!(
        told("3 mm tungsten", "3 mm brass"),
        ["the point is still red tag, but its bead is brass, was tungsten"]
    );
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

/// The hook of the point fly is the only thing that tells one fly from another here.
const HOOKS: [u32; 2] = [14, 12];

fn written(sections: &[Section], hook: u32) -> String {
    let mut text = "rig made\n".to_owned();
    for one in sections {
        text.push_str(&format!(
            "  tippet {} in of {} as part-{}\n",
            one.inches, STUFF[one.stuff], one.label
        ));
    }
    text + &format!("  point #{hook} 2.8 mm tungsten\n")
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
        Change::Altered { part, side, .. } if *side == TraitKind::Fly => format!("fly {part}"),
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

fn in_water(depth: &str) -> String {
    format!(
        "rig made\n  method tight-line\n  water {depth} at 2.2 ft/s over cobble\n  sighter 20 in of 0.20 mm nylon pink\n  \
         tippet 60 in of 6X fluoro\n  dropper 8 in with #16 2 mm tungsten\n  tippet 20 in of 6X fluoro\n  \
         point #14 2.8 mm tungsten\n"
    )
}

/// Two feet of water is fished, six with the same tippet is not, and back again it is.
#[test]
fn that_a_rig_fishes_no_more_is_told() {
    let fishes =
        |was: &str, now: &str| match compare(&state(&in_water(was)), &state(&in_water(now))).rigs.pop() {
            Some(RigChange::Changed { fishes, .. }) => fishes.map(|fishes| fishes.to_string()),
            other => panic!("{other:?}"),
        };
    let told = fishes("3 ft", "8 ft").unwrap_or_default();
    assert!(
        told.starts_with("it does not fish in its water any more: the tippet is 6 ft 8 in long"),
        "{told}"
    );
    let told = fishes("8 ft", "3 ft").unwrap_or_default();
    assert!(
        told.starts_with("it fishes in its water now; before, the tippet"),
        "{told}"
    );
    assert_eq!(fishes("3 ft", "38 in"), None);
}

/// An inch of water is less than a depth can be told by, a foot is more.
#[test]
fn an_estimate_is_told_only_as_far_as_it_can_be() {
    let measures =
        |was: &str, now: &str| match compare(&state(&in_water(was)), &state(&in_water(now))).rigs.pop() {
            Some(RigChange::Changed { measures, .. }) => measures,
            other => panic!("{other:?}"),
        };
    let little = measures("3 ft", "37 in");
    let rides = |of: &[&snell_view::compare::Moved]| of.iter().any(|moved| moved.measure == "rides");
    assert!(
        rides(&little.iter().collect::<Vec<_>>()),
        "it moved, and programs are told"
    );
    assert!(!rides(&for_people(&little)), "by less than anybody can tell");
    let told = told_moved(&little).join("; ");
    assert!(told.contains("ride as deep as before, within 2 in"), "{told}");
    let told = told_moved(&measures("3 ft", "4 ft")).join("; ");
    assert!(
        told.contains(" rides about 12 in deeper, at 4") && told.contains(" in (3"),
        "{told}"
    );
    let back = told_moved(&measures("4 ft", "3 ft")).join("; ");
    assert!(back.contains(" rides about 12 in higher, at "), "{back}");
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    #[test]
    fn an_edit_script_is_told_as_it_is(
        lengths in prop::collection::vec((20..60_u32, 0..4_usize), 4..9),
        edits in prop::collection::vec((0..9_usize, edit()), 0..4),
        other_fly in any::<bool>(),
    ) {
        let was: Vec<Section> = lengths
            .iter()
            .enumerate()
            .map(|(label, (inches, stuff))| Section { label, inches: *inches, stuff: *stuff })
            .collect();
        let mut now = was.clone();
        let mut script = Vec::new();
        let mut touched = Vec::new();
        let mut moved = None;
        for (label, edit) in edits {
            // What stands at the top cannot be moved there, and of two moves to the top either may be told.
            let is_move = matches!(edit, Edit::MoveToTop);
            if label >= was.len() || touched.contains(&label) || is_move && (moved.is_some() || label < 3) {
                continue;
            }
            if is_move {
                moved = Some(label);
            }
            touched.push(label);
            script.push(make(&mut now, label, edit));
        }
        // Where one part alone is left of those that were passed, that one may as well have been moved down.
        let passed = |moved: usize| was[..moved].iter().filter(|was| now.iter().any(|now| now.label == was.label)).count();
        prop_assume!(moved.is_none_or(|moved| passed(moved) > 1));
        let hook = HOOKS[usize::from(other_fly)];
        script.extend(other_fly.then(|| "fly point".to_owned()));
        let (before, after) = (written(&was, HOOKS[0]), written(&now, hook));
        let mut told: Vec<String> = of_the_rig(compare(&state(&before), &state(&after)))
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
        let plain = written(&inches, HOOKS[0]);
        let in_feet = plain.replace(" in of", "/12 ft of");
        let told = compare(&state(&plain), &state(&in_feet));
        prop_assert!(told.is_empty(), "{:?}", told);
    }
}
