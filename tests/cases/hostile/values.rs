//! Values and rigs that need one another without end, numbers beyond measure,
//! and texts that are hardly texts.

use super::{checked, ended, ended_plainly, folder, says, snell};

/// Each value needs the next, to the last: thousands deep, and in a circle.
#[test]
fn values_that_need_one_another_in_a_long_row() {
    let row = |count: usize| {
        (0..count)
            .map(|number| format!("  let l{number} = l{}\n", number + 1))
            .collect::<String>()
    };
    ended_plainly(&format!(
        "rig a\n{}  let l20000 = 1 m\n  tippet l0 of 6X\n",
        row(20_000)
    ));
    says(
        &checked(format!("rig a\n{}  let l20000 = l0\n", row(20_000))),
        1,
        "l0",
    );
}

/// Each value is the sum of four of the next, so the last is used sixteen million times.
#[test]
fn values_that_are_sums_of_sums() {
    let sums: String = (0..12)
        .map(|number| format!("  let l{number} = l{0} + l{0} + l{0} + l{0}\n", number + 1))
        .collect();
    ended_plainly(&format!(
        "rig a\n  tippet 1 m of 6X as start\n{sums}  let l12 = start\n"
    ));
}

#[test]
fn rigs_made_from_one_another_ten_thousand_deep() {
    let steps: String = (1..10_000)
        .map(|number| format!("\nrig r{number} from r{}\n  change tippet to 2 m\n", number - 1))
        .collect();
    says(
        &checked(format!("rig r0\n  tippet 1 m of 6X\n{steps}")),
        1,
        "made from one another",
    );
}

#[test]
fn rigs_made_from_one_another_in_a_circle() {
    let circle = |count: usize| {
        (0..count)
            .map(|number| format!("rig r{number} from r{}\n\n", (number + 1) % count))
            .collect::<String>()
    };
    for count in [2, 50, 10_000] {
        says(&checked(circle(count)), 1, "made from");
    }
}

#[test]
fn what_is_no_text() {
    says(
        &checked(b"rig a\n  tippet 1 m of 6X // gr\xFC\xDFe\n"),
        1,
        "UTF-8",
    );
    says(&checked(b"\xFF\xFEr\0i\0g\0 \0a\0"), 1, "UTF-8");
    let folder = folder();
    let (ran, _) = ended(snell(folder.path(), &["check", "-"]).input(b"rig a\n  note \"\xFC\"\n".as_slice()));
    assert_ne!(ran.status, Some(0));
    assert!(ran.told().contains("UTF-8"), "{}", ran.told());
}

#[test]
fn little_or_nothing() {
    for nothing in [
        "",
        "\u{FEFF}",
        "\n",
        "\r\n\r\n",
        "   \t",
        "// nothing",
        "\u{FEFF}// nothing",
    ] {
        assert_eq!(checked(nothing).status, Some(0), "{nothing:?}");
    }
    assert_eq!(checked("\0").status, Some(1));
    assert_eq!(checked("rig a\n  tippet 1 m\0 of 6X\n").status, Some(1));
    assert_eq!(
        checked("\u{FEFF}\u{FEFF}rig a\n\u{FEFF}  tippet 1 m of 6X\n").status,
        Some(0)
    );
    assert_eq!(checked(vec![0; 1_000_000]).status, Some(1));
}

#[test]
fn numbers_beyond_all_measure() {
    let nines = "9".repeat(400);
    for number in [
        "1e309",
        &nines,
        &format!("{nines}/{nines}"),
        &format!("{nines}.{nines}"),
    ] {
        assert_eq!(
            checked(format!("rig a\n  tippet {number} m of 6X\n")).status,
            Some(1),
            "{number}"
        );
    }
    ended_plainly(&format!("rig a\n  tippet 0.{nines} m of 6X\n"));
    let large = "9".repeat(200);
    ended_plainly(&format!(
        "rig a\n  let b = {large} m times {large} m\n  tippet b / {large} m of 6X\n  expect total at least 1 m\n"
    ));
    ended_plainly(
        "rig a\n  tippet 0.00000000000000000000000000001 mm of 6X\n  water 0 m at 0 m/s\n  expect tippet-ratio over 1\n",
    );
    ended_plainly(&format!(
        "fly a\n  hook #{nines}\n\nrig b\n  tippet 1 m of #{nines}\n  point a\n  expect weight over 1 g\n"
    ));
}
