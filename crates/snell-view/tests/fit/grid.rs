//! Every change on a coarse grid, as lines of the language, and the rigs that a
//! few of them make.

use super::{PAIRS, codes};
use snell_finding::Finding;
use std::collections::BTreeMap;

/// The flies of the box that go to the bottom with a bead.
const NYMPHS: [&str; 4] = ["slip", "mid", "plummet", "keg"];
const BEADS: [&str; 6] = [
    "#18 2 mm tungsten",
    "#16 2.4 mm tungsten",
    "#14 2.8 mm tungsten",
    "#12 3.3 mm tungsten",
    "#10 3.8 mm tungsten",
    "#8 4.6 mm tungsten",
];

/// The lines that one change may be, by the part that it changes.
fn changes(rig: &str) -> BTreeMap<&'static str, Vec<String>> {
    let lengths = |part: &str| {
        (1..=16)
            .map(|step| format!("change {part} to {} cm", 20 * step))
            .collect()
    };
    let tags = |part: &str| {
        (8..=22)
            .step_by(2)
            .map(|cm| format!("change {part} to {cm} cm"))
            .collect()
    };
    let nymphs = || NYMPHS.iter().chain(&BEADS);
    let points = || nymphs().map(|fly| format!("change point to {fly}")).collect();
    let casts = || ["tuck", "up", "down"].map(|cast| format!("cast {cast}")).to_vec();
    let tied = |part: &str| {
        nymphs()
            .map(|fly| format!("change {part} to with {fly}"))
            .collect()
    };
    match rig {
        "single" | "laid-down" | "laid-light" => [
            ("tippet", lengths("tippet")),
            ("point", points()),
            ("cast", casts()),
        ]
        .into(),
        "under-a-float" => [
            ("over-float", lengths("over-float")),
            ("upper", lengths("upper")),
            ("lower", lengths("lower")),
            ("point", points()),
            ("cast", casts()),
        ]
        .into(),
        "hop" => [
            ("tippet", lengths("tippet 1")),
            ("drop", lengths("drop")),
            ("point", points()),
            ("cast", casts()),
        ]
        .into(),
        "team" => [
            ("top-run", lengths("top-run")),
            ("mid-run", lengths("mid-run")),
            ("low-run", lengths("low-run")),
            ("tag 1", tags("dropper 1")),
            ("tag 2", tags("dropper 2")),
            ("dropper 1", tied("dropper 1")),
            ("dropper 2", tied("dropper 2")),
            ("point", points()),
            ("cast", casts()),
        ]
        .into(),
        _ => [
            ("upper", lengths("upper")),
            ("lower", lengths("lower")),
            ("tag", tags("dropper")),
            ("dropper", tied("dropper")),
            ("point", points()),
            ("cast", casts()),
        ]
        .into(),
    }
}

/// Every set of so many changes to different parts.
fn sets(rig: &str, count: usize) -> Vec<Vec<String>> {
    let mut sets: Vec<(usize, Vec<String>)> = vec![(0, Vec::new())];
    let parts: Vec<Vec<String>> = changes(rig).into_values().collect();
    for _ in 0..count {
        let mut longer = Vec::new();
        for (from, set) in &sets {
            for (part, changes) in parts.iter().enumerate().skip(*from) {
                let with = |change: &String| [set.as_slice(), std::slice::from_ref(change)].concat();
                longer.extend(changes.iter().map(|change| (part + 1, with(change))));
            }
        }
        sets = longer;
    }
    sets.into_iter().map(|(_, set)| set).collect()
}

/// What is found above advice of the rig with each set of changes made, the rig's own sums left out.
fn found(text: &str, rig: &str, water: &str, sets: &[Vec<String>]) -> Vec<Vec<String>> {
    let mut lines = text.to_owned();
    for (index, set) in sets.iter().enumerate() {
        lines.push_str(&format!("\nrig tried-{index} from {rig}\n  water {water}\n"));
        set.iter()
            .for_each(|change| lines.push_str(&format!("  {change}\n")));
    }
    let mut by_rig = super::found(&lines);
    let of = |index: usize| by_rig.remove(&format!("tried-{index}")).unwrap_or_default();
    let all: Vec<Vec<Finding>> = (0..sets.len()).map(of).collect();
    let is_sum = |finding: &Finding| finding.code == "expect" && finding.message.contains("`total`");
    all.into_iter()
        .map(|found| {
            let kept: Vec<Finding> = found.into_iter().filter(|finding| !is_sum(finding)).collect();
            codes(&kept).into_iter().map(str::to_owned).collect()
        })
        .collect()
}

/// How many rigs are read at once: more than are told of one text.
const AT_ONCE: usize = 100;

/// The first set of so many changes that leaves nothing but what may stay.
pub fn first_right(text: &str, rig: &str, water: &str, count: usize, stays: &[&str]) -> Option<Vec<String>> {
    let sets = sets(rig, count);
    sets.chunks(AT_ONCE).find_map(|chunk| {
        let found = found(text, rig, water, chunk);
        let right = |found: &Vec<String>| found.iter().all(|code| stays.contains(&&**code));
        let mut right = chunk.iter().zip(&found).filter(|(_, found)| right(found));
        // A rig without a method is held against no rule that tells whether it reaches the bed.
        right
            .find(|(set, _)| reaches(rig, water, set))
            .map(|(set, _)| set.clone())
    })
}

/// Every set of one change or none that leaves nothing but what may stay.
pub fn all_right(text: &str, rig: &str, water: &str, stays: &[&str]) -> Vec<Vec<String>> {
    let sets = [sets(rig, 0), sets(rig, 1)].concat();
    let of_some = |chunk: &[Vec<String>]| {
        let found = found(text, rig, water, chunk);
        let right = |found: &Vec<String>| found.iter().all(|code| stays.contains(&&**code));
        let right = chunk.iter().zip(&found).filter(|(_, found)| right(found));
        right.map(|(set, _)| set.clone()).collect::<Vec<_>>()
    };
    sets.chunks(AT_ONCE).flat_map(of_some).collect()
}

/// A single change that removes something which is said to stay.
pub fn removes_any(text: &str, rig: &str, water: &str, stays: &[&str]) -> Option<Vec<String>> {
    let sets = sets(rig, 1);
    sets.chunks(AT_ONCE).find_map(|chunk| {
        let found = found(text, rig, water, chunk);
        let removes = |found: &Vec<String>| stays.iter().any(|code| !found.iter().any(|other| other == code));
        let index = found.iter().position(removes)?;
        Some(chunk[index].clone())
    })
}

/// Whether the line of a rig with changes reaches down, by what the language tells of it.
fn reaches(rig: &str, water: &str, changes: &[String]) -> bool {
    if rig != "plain-four" {
        return true;
    }
    let mut lines = format!("{PAIRS}\nrig asked from {rig}\n  water {water}\n");
    changes
        .iter()
        .for_each(|change| lines.push_str(&format!("  {change}\n")));
    lines.push_str("  expect tippet at least tippet-needed / 1.1\n");
    !super::found(&lines)["asked"]
        .iter()
        .any(|finding| finding.code == "expect")
}
