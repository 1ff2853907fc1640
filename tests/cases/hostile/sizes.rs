//! Too much of something: letters, parentheses, blocks, lines, findings.

use super::{LARGEST, checked, ended, ended_plainly, folder, head, says, snell, within};
use snell_tests::Build;
use std::fs::File;
use std::io::{BufWriter, Write};

/// Two hundred million letters and no end of line.
fn long_line(to: &mut dyn Write) -> std::io::Result<()> {
    let letters = vec![b'a'; 1_000_000];
    (0..200).try_for_each(|_| to.write_all(&letters))
}

#[test]
fn a_line_of_two_hundred_megabytes_in_a_file() {
    let folder = folder();
    long_line(&mut File::create(folder.path().join("long.rig")).unwrap()).unwrap();
    let (ran, peak) = ended(snell(folder.path(), &["check", "long.rig"]));
    says(&ran, 1, "larger than");
    within(peak, LARGEST);
    let (ran, _) = ended(snell(folder.path(), &["check", "."]));
    says(&ran, 1, "larger than");
    let (ran, _) = ended(snell(folder.path(), &["show", "long.rig"]));
    assert_ne!(ran.status, Some(0), "there is no rig to show");
    let (ran, _) = ended(snell(folder.path(), &["tidy", "long.rig"]));
    assert_ne!(ran.status, Some(0), "there is nothing to lay out");
}

#[test]
fn a_line_of_two_hundred_megabytes_on_standard_input() {
    let folder = folder();
    let (ran, peak) = ended(snell(folder.path(), &["check", "-"]).writes(long_line));
    assert_ne!(ran.status, Some(0));
    assert!(ran.told().contains("larger than"), "{}", head(&ran.told()));
    within(peak, LARGEST);
}

#[test]
fn a_line_as_long_as_a_file_may_be() {
    says(&checked(vec![b'a'; LARGEST as usize - 1]), 1, "longer than");
}

#[test]
fn a_million_parentheses() {
    let many = "(".repeat(1_000_000);
    says(&checked(format!("rig a\n  let b = {many}\n")), 1, "longer than");
    says(
        &checked(format!(
            "rig a\n  let b = {}1 m{}\n",
            &many[..8000],
            ")".repeat(8000)
        )),
        1,
        "parenthes",
    );
    says(
        &checked(format!("rig a\n  let b = {}\n", &many[..16_000])),
        1,
        "parenthes",
    );
}

fn blocks(count: usize) -> String {
    (1..=count).map(|number| format!("rig r{number}\n\n")).collect()
}

#[test]
fn a_million_blocks() {
    says(&checked(blocks(1_000_000)), 1, "larger than");
    // As many as a file can hold: more than are read.
    let most = blocks(LARGEST as usize / 14);
    assert!((most.len() as u64) < LARGEST);
    says(&checked(most), 1, "blocks");
}

#[test]
fn a_million_faulty_lines() {
    says(&checked("?\n".repeat(1_000_000)), 1, "?");
    let hooks: String = (0..300_000)
        .map(|number| format!("fly f{number}\n  hook 1\n"))
        .collect();
    says(&checked(hooks), 1, "#1");
    assert_eq!(checked("rig a\nrig b\n".repeat(500_000)).status, Some(1));
}

fn lines(line: fn(usize) -> String) -> String {
    (0..100_000).map(line).collect()
}

#[test]
fn a_rig_of_very_many_parts() {
    ended_plainly(&format!(
        "rig a\n{}",
        lines(|number| format!("  tippet 1 m of 6X as l{number}\n"))
    ));
}

#[test]
fn a_rig_of_very_many_values() {
    ended_plainly(&format!(
        "rig a\n{}",
        lines(|number| format!("  let l{number} = 1 m\n"))
    ));
}

#[test]
fn a_rig_of_very_many_claims() {
    ended_plainly(&format!(
        "rig a\n  tippet 1 m of 6X\n{}",
        lines(|_| "  expect total at least 2 m\n".to_owned())
    ));
}

#[test]
fn a_fly_of_very_many_lines() {
    ended_plainly(&format!("fly a\n{}", lines(|_| "  hook #14\n".to_owned())));
}

#[test]
fn a_file_that_uses_very_many() {
    ended_plainly(&lines(|number| {
        format!("use \"asked.rig\"\nuse \"no-{number}.rig\"\n")
    }));
}

/// A reader that goes away in the middle, such as `head`, is no reason for a panic.
#[test]
fn an_output_that_nobody_reads_to_the_end() {
    let folder = folder();
    let mut file = BufWriter::new(File::create(folder.path().join("asked.rig")).unwrap());
    for number in 0..5000 {
        writeln!(file, "fly f{number}\n  hook 1\n").unwrap();
    }
    drop(file);
    let mut child = std::process::Command::new(Build::Shipped.program())
        .args(["check", "asked.rig"])
        .current_dir(folder.path())
        .stdout(std::process::Stdio::piped())
        .stderr(std::process::Stdio::piped())
        .spawn()
        .unwrap();
    drop(child.stdout.take());
    let out = child.wait_with_output().unwrap();
    let told = String::from_utf8_lossy(&out.stderr);
    assert!(!told.contains("panicked"), "{told}");
}

/// Each rulebook takes in the next one twice: two to the thousandth turns, if each were taken.
#[test]
fn a_chain_of_rulebooks_that_doubles() {
    let books: String = (0..1_000)
        .map(|number| {
            format!(
                "rulebook r{number}\n  with r{next}, r{next}\n\n",
                next = number + 1
            )
        })
        .collect();
    let rig = "rig a\n  rules r0\n  tippet 2 m of 6X\n";
    says(
        &checked(format!("{books}{rig}")),
        1,
        "rulebooks take one another in",
    );
}
