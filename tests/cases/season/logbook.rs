//! A season as a logbook: small changes told as one, branches with what they
//! caught, fish by species and size, and what the outings suggest.

use crate::repository::Repository;
use std::fmt::Write;

const WATERS: &str = "water tail \"tail of the long pool\"\n  depth 3 ft\n";

fn rig(upper: u32, lower: &str) -> String {
    format!(
        "rig card \"two on a card\"\n  butt 9 ft of 0.25 mm nylon\n  tippet {upper} in of 6X fluoro as upper\n  \
         dropper 8 in with #16\n  tippet 20 in of {lower} fluoro as lower\n  point #14 2.8 mm tungsten\n"
    )
}

fn outings(all: &[(&str, &str)]) -> String {
    let mut text = "use \"card.rig\"\nuse \"waters.rig\"\n".to_owned();
    for (day, lines) in all {
        // A string takes whatever is written to it.
        let _ = write!(
            text,
            "\nouting day-{day}\n  day {day}\n  rig card\n  water tail\n{lines}"
        );
    }
    text
}

#[test]
fn small_changes_one_after_the_other_are_told_as_one() {
    let repository = Repository::new();
    for (day, upper) in [
        ("2026-05-01", 30),
        ("2026-05-02", 32),
        ("2026-05-04", 35),
        ("2026-05-07", 40),
    ] {
        repository.commit(day, "longer", &[("card.rig", &rig(upper, "6X"))]);
    }
    repository.commit("2026-05-09", "shorter again", &[("card.rig", &rig(38, "6X"))]);
    let told = repository.told(&["season"]);
    let wanted = "  2026-05-02  changed    upper crept up from 30 in to 40 in, in 3 steps over 5 days\n  \
        2026-05-09  changed    upper is 2 in shorter: 38 in, was 40 in\n";
    assert!(told.contains(wanted), "{told}");
    // Programs are given each step.
    let season = repository.json(&["season", "--form", "json"]);
    assert_eq!(season["rigs"][0]["events"].as_array().map(Vec::len), Some(5));
}

#[test]
fn rigs_that_nothing_happened_to_are_named_in_one_line() {
    let repository = Repository::new();
    let other = |name: &str| rig(30, "5X").replace("rig card", &format!("rig {name}"));
    let all = [rig(30, "6X"), other("other"), other("third"), other("fourth")].join("\n");
    repository.commit("2026-05-01", "four", &[("card.rig", &all)]);
    repository.commit(
        "2026-05-02",
        "one",
        &[("card.rig", &all.replacen("30 in", "36 in", 1))],
    );
    let told = repository.told(&["season"]);
    assert!(
        told.ends_with("\n3 rigs stand as they were written down\n  other, third, fourth\n"),
        "{told}"
    );
    // Who asks for it is told of it.
    let told = repository.told(&["season", "--rig", "other"]);
    assert!(
        told.contains("other  two on a card\n  card.rig\n  2026-05-01  born       in card.rig\n"),
        "{told}"
    );
}

/// The day on the branch was fished with the branch's rig, which the line did not keep.
#[test]
fn a_branch_is_told_with_what_it_caught() {
    let repository = Repository::new();
    let day = |day, lines| outings(&[(day, lines)]);
    repository.commit(
        "2026-05-01",
        "a rig",
        &[
            ("card.rig", &rig(30, "6X")),
            ("waters.rig", WATERS),
            (
                "out/may.rig",
                "rig unfished\n  tippet 4 ft of 5X fluoro\n  point #14\n",
            ),
        ],
    );
    repository.git(&["checkout", "-q", "-b", "longer"]);
    repository.commit("2026-05-03", "much longer", &[("card.rig", &rig(48, "5X"))]);
    repository.commit(
        "2026-05-03",
        "fished",
        &[(
            "branch.rig",
            &day("2026-05-03", "  caught 3 on point\n  lost 1\n"),
        )],
    );
    repository.git(&["checkout", "-q", "main"]);
    repository.commit(
        "2026-05-04",
        "fished too",
        &[("line.rig", &day("2026-05-04", "  caught 1 on point\n"))],
    );
    repository.git(&["merge", "-q", "--no-ff", "--no-commit", "longer"]);
    repository.git(&["checkout", "-q", "HEAD", "--", "card.rig"]);
    repository.commit("2026-05-06", "only its outing", &[]);
    let told = repository.told(&["season"]);
    assert!(
        told.contains("  on a branch, joined 2026-05-06, not kept; 1 outing, 3 fish, 1 lost:\n"),
        "{told}"
    );
    let season = repository.json(&["season", "--form", "json"]);
    assert_eq!(
        season["outings"][0]["branch"],
        season["rigs"][0]["branches"][0]["joined"]
    );
    assert!(season["outings"][1]["branch"].is_null());
    let upper = |day: usize| {
        season["outings"][day]["measures"]["total"]["text"]
            .as_str()
            .map(str::to_owned)
    };
    assert_eq!(upper(0).as_deref(), Some("14 ft 8 in"), "as the branch had it");
    assert_eq!(upper(1).as_deref(), Some("13 ft 2 in"), "as the line had it");
}

#[test]
fn fish_are_summed_by_species_hour_and_size() {
    let repository = Repository::new();
    let days = outings(&[
        (
            "2026-05-02",
            "  caught 2 on point \"grayling, 31 and 34 cm, at 10:40\"\n  caught 1 on dropper \"brown 14 in\"\n  lost 1 on point \"trout\"\n",
        ),
        ("2026-05-03", "  caught 1 on point \"grayling 12 in at 10:05\"\n"),
    ]);
    repository.commit(
        "2026-05-01",
        "all",
        &[
            ("card.rig", &rig(30, "6X")),
            ("waters.rig", WATERS),
            ("days.rig", &days),
        ],
    );
    let told = repository.told(&["season"]);
    for wanted in [
        "2 outings, 4 fish, 1 lost\n",
        "2 on #14 2.8 mm tungsten (grayling, 31 cm,\n              34 cm, 10:40)",
        "  species      outings  fish  lost  longest\n  grayling           2     3     0  34 cm\n  brown trout        1     1     0  14 in\n",
        "  hour   outings  fish  longest\n  10:00        2     3  34 cm\n",
    ] {
        assert!(told.contains(wanted), "{wanted}\n{told}");
    }
    let csv = repository.told(&["season", "--form", "csv", "--measure", "total"]);
    let mut lines = csv.lines();
    let columns = lines.next().map(|heading| heading.split(',').count());
    assert_eq!(columns, Some(18));
    for wanted in [
        "born,2026-05-01,card,card.rig,",
        ",13 ft 2 in,total,4.0132,m,",
        "#14 2.8 mm tungsten,2,0,grayling,0.31 0.34,10:40",
        "#14 2.8 mm tungsten,0,1,trout,,",
    ] {
        assert!(csv.contains(wanted), "{wanted}\n{csv}");
    }
}

/// Twelve days on each tippet at one water with one point. Whether that is told hangs on how the fish came.
#[test]
fn what_is_suggested_says_how_sure_that_is() {
    let season = |fine: &dyn Fn(usize) -> usize, stout: &dyn Fn(usize) -> usize, days: usize| {
        let repository = Repository::new();
        let text = |day: usize, fish: usize| {
            (
                format!("2026-05-{:02}", day + 1),
                format!("  caught {fish} on point\n"),
            )
        };
        let mut all: Vec<(String, String)> = (0..days).map(|day| text(day, fine(day))).collect();
        all.extend((0..days).map(|day| text(days + day, stout(day))));
        let borrowed: Vec<(&str, &str)> = all
            .iter()
            .map(|(day, lines)| (day.as_str(), lines.as_str()))
            .collect();
        repository.commit(
            "2026-05-01",
            "fine",
            &[("card.rig", &rig(30, "6X")), ("waters.rig", WATERS)],
        );
        let changed = format!("2026-05-{:02}", days + 1);
        repository.commit(&changed, "stout", &[("card.rig", &rig(30, "5X"))]);
        repository.commit("2026-05-30", "days", &[("days.rig", &outings(&borrowed))]);
        let told = repository.told(&["season"]);
        let (_, suggested) = told.split_once("What the outings suggest\n").expect("it is told");
        suggested.split_whitespace().collect::<Vec<_>>().join(" ")
    };
    let told = season(&|day| 3 + day % 2, &|day| day % 2, 8);
    assert!(
        told.starts_with(
            "28 fish on 6X fluoro in 8 outings, 4 on 5X fluoro in 8, at the same water with the same point: \
             6X fluoro caught more: chance alone would seldom do that (1 time in 64"
        ),
        "{told}"
    );
    let told = season(&|day| day % 4, &|day| (day + 1) % 4, 8);
    assert!(told.contains("no difference to be told"), "{told}");
    let told = season(&|_| 4, &|_| 1, 3);
    assert!(told.contains("too few outings to tell"), "{told}");
}
