//! Input that nobody means well with, through the program as it ships: each
//! ends in a plain message or a plain result, without a panic and with memory
//! in proportion to what was read.

use snell_tests::{Build, Peak, Ran, Run};
use std::fs::{self, File};
use std::io::{BufWriter, Write};
use std::path::Path;
use std::time::Duration;
use tempfile::TempDir;

/// Guards the tests against a program that never ends; no measure of speed.
const LIMIT: Duration = Duration::from_secs(60);

/// What the program holds before it has read anything, with room to spare.
const IDLE: u64 = 24 * 1024 * 1024;

/// How many bytes may be held for each byte that is read: a line's words, its tree, its block.
const A_BYTE: u64 = 24;

/// A file larger than this is not read at all. Source: `notebook::FILE_LIMIT`.
const LARGEST: u64 = notebook::FILE_LIMIT;

fn folder() -> TempDir {
    tempfile::tempdir().unwrap()
}

fn snell(folder: &Path, arguments: &[&str]) -> Run {
    Run::new(Build::Shipped, arguments).within(folder)
}

/// Ends a run and asks what every run must answer: a status of its own, and no panic.
#[track_caller]
fn ended(run: Run) -> (Ran, Peak) {
    let (ran, peak) = run.measured(LIMIT);
    assert!(matches!(ran.status, Some(0..=2)), "{:?}: {}", ran.status, head(&ran.told()));
    assert!(!ran.told().contains("panicked"), "{}", head(&ran.told()));
    assert!(ran.status == Some(0) || !ran.told().trim().is_empty(), "a status of {:?} without a word", ran.status);
    (ran, peak)
}

fn head(told: &str) -> String {
    told.chars().take(2000).collect()
}

#[track_caller]
fn within(peak: Peak, read: u64) {
    let allowed = IDLE + A_BYTE * read;
    let Some(peak) = peak else { return };
    assert!(peak <= allowed, "{} KiB held for {} KiB read, allowed are {}", peak >> 10, read >> 10, allowed >> 10);
}

/// Writes a file, checks it, and holds the memory against its size, or against the largest that is read.
#[track_caller]
fn checked(text: impl AsRef<[u8]>) -> Ran {
    let folder = folder();
    fs::write(folder.path().join("asked.rig"), text.as_ref()).unwrap();
    let (ran, peak) = ended(snell(folder.path(), &["check", "--bar", "fault", "asked.rig"]));
    within(peak, (text.as_ref().len() as u64).min(LARGEST));
    ran
}

#[track_caller]
fn says(ran: &Ran, status: i32, words: &str) {
    assert_eq!(ran.status, Some(status), "{}", head(&ran.told()));
    let told = ran.told().split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(told.contains(words), "`{words}` is not said: {}", head(&told));
}

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
    says(&checked(format!("rig a\n  let b = {}1 m{}\n", &many[..8000], ")".repeat(8000))), 1, "parenthes");
    says(&checked(format!("rig a\n  let b = {}\n", &many[..16_000])), 1, "parenthes");
}

fn blocks(count: usize) -> String {
    (1..=count).map(|number| format!("rig r{number}\n\n")).collect()
}

#[test]
fn a_million_blocks() {
    says(&checked(blocks(1_000_000)), 1, "larger than");
    // As many as a file can hold.
    let most = blocks(LARGEST as usize / 14);
    assert!((most.len() as u64) < LARGEST);
    assert_eq!(checked(most).status, Some(0));
}

#[test]
fn a_million_faulty_lines() {
    says(&checked("?\n".repeat(1_000_000)), 1, "?");
    let hooks: String = (0..300_000).map(|number| format!("fly f{number}\n  hook 1\n")).collect();
    says(&checked(hooks), 1, "#1");
    assert_eq!(checked("rig a\nrig b\n".repeat(500_000)).status, Some(1));
}

fn lines(line: fn(usize) -> String) -> String {
    (0..100_000).map(line).collect()
}

#[test]
fn a_rig_of_very_many_parts() {
    ended_plainly(&format!("rig a\n{}", lines(|number| format!("  tippet 1 m of 6X as l{number}\n"))));
}

#[test]
fn a_rig_of_very_many_values() {
    ended_plainly(&format!("rig a\n{}", lines(|number| format!("  let l{number} = 1 m\n"))));
}

#[test]
fn a_rig_of_very_many_claims() {
    ended_plainly(&format!("rig a\n  tippet 1 m of 6X\n{}", lines(|_| "  expect total at least 2 m\n".to_owned())));
}

#[test]
fn a_fly_of_very_many_lines() {
    ended_plainly(&format!("fly a\n{}", lines(|_| "  hook #14\n".to_owned())));
}

#[test]
fn a_file_that_uses_very_many() {
    ended_plainly(&lines(|number| format!("use \"asked.rig\"\nuse \"no-{number}.rig\"\n")));
}

#[track_caller]
fn ended_plainly(text: &str) {
    checked(text);
}

/// Each value needs the next, to the last: thousands deep, and in a circle.
#[test]
fn values_that_need_one_another_in_a_long_row() {
    let row = |count: usize| (0..count).map(|number| format!("  let l{number} = l{}\n", number + 1)).collect::<String>();
    ended_plainly(&format!("rig a\n{}  let l20000 = 1 m\n  tippet l0 of 6X\n", row(20_000)));
    says(&checked(format!("rig a\n{}  let l20000 = l0\n", row(20_000))), 1, "l0");
}

/// Each value is the sum of four of the next, so the last is used sixteen million times.
#[test]
fn values_that_are_sums_of_sums() {
    let sums: String = (0..12).map(|number| format!("  let l{number} = l{0} + l{0} + l{0} + l{0}\n", number + 1)).collect();
    ended_plainly(&format!("rig a\n  tippet 1 m of 6X as start\n{sums}  let l12 = start\n"));
}

#[test]
fn rigs_made_from_one_another_ten_thousand_deep() {
    let steps: String = (1..10_000).map(|number| format!("\nrig r{number} from r{}\n  change tippet to 2 m\n", number - 1)).collect();
    says(&checked(format!("rig r0\n  tippet 1 m of 6X\n{steps}")), 1, "made from one another");
}

#[test]
fn rigs_made_from_one_another_in_a_circle() {
    let circle = |count: usize| (0..count).map(|number| format!("rig r{number} from r{}\n\n", (number + 1) % count)).collect::<String>();
    for count in [2, 50, 10_000] {
        says(&checked(circle(count)), 1, "made from");
    }
}

#[test]
fn files_that_use_one_another_in_a_circle() {
    let folder = folder();
    let write = |name: &str, text: &str| fs::write(folder.path().join(name), text).unwrap();
    write("a.rig", "use \"b.rig\"\n\nrig a\n  tippet 1 m of theirs\n\nspool ours\n  size 6X\n  material fluoro\n");
    write("b.rig", "use \"a.rig\"\nuse \"b.rig\"\n\nrig b\n  tippet 1 m of ours\n\nspool theirs\n  size 5X\n  material fluoro\n");
    let (ran, _) = ended(snell(folder.path(), &["check", "a.rig"]));
    assert_eq!(ran.status, Some(0), "a circle of uses is plain: {}", ran.told());
    let (ran, _) = ended(snell(folder.path(), &["show", "a.rig:a", "--form", "json"]));
    assert!(ran.out.contains("1 m"), "{}", ran.told());
}

/// A folder with a project in it and a file outside of the project.
fn project() -> TempDir {
    let folder = folder();
    fs::create_dir_all(folder.path().join("project/.git")).unwrap();
    fs::create_dir_all(folder.path().join("project/inner")).unwrap();
    fs::write(folder.path().join("outside.rig"), "fly secret\n  hook #14\n").unwrap();
    folder
}

fn used(folder: &Path, path: &str) -> Ran {
    fs::write(folder.join("project/asked.rig"), format!("use \"{path}\"\n\nrig a\n  tippet 1 m of 6X\n  point secret\n")).unwrap();
    ended(snell(&folder.join("project"), &["check", "asked.rig"])).0
}

#[test]
fn a_use_that_leaves_the_folder() {
    let folder = project();
    let absolute = folder.path().join("outside.rig");
    let paths = ["../outside.rig", "inner/../../outside.rig", "./../outside.rig", "..\\outside.rig", "/etc/passwd", "C:/outside.rig", ""];
    for path in paths.into_iter().chain(absolute.to_str()) {
        let ran = used(folder.path(), path);
        says(&ran, 1, "cannot be used");
        assert!(ran.told().contains("secret"), "what it would have brought is missing: {}", ran.told());
    }
}

#[cfg(unix)]
#[test]
fn a_use_that_follows_a_link_out() {
    let folder = project();
    let link = |to: &Path, name: &str| std::os::unix::fs::symlink(to, folder.path().join("project").join(name)).unwrap();
    link(&folder.path().join("outside.rig"), "link.rig");
    link(folder.path(), "up");
    link(Path::new("loop.rig"), "loop.rig");
    for path in ["link.rig", "up/outside.rig"] {
        says(&used(folder.path(), path), 1, "cannot be used: a link leads it out of the project folder");
    }
    says(&used(folder.path(), "loop.rig"), 1, "cannot be used");
}

#[test]
fn a_use_of_what_is_no_file() {
    let folder = project();
    fs::create_dir(folder.path().join("project/folder.rig")).unwrap();
    fs::write(folder.path().join("project/latin.rig"), b"fly secret\n  hook #14 // gr\xFC\xDFe\n").unwrap();
    fs::write(folder.path().join("project/page.md"), "```rig\nfly secret\n  hook #14\n```\n").unwrap();
    for path in ["folder.rig", "inner", ".", "nowhere.rig", "latin.rig", "page.md", "outside.rig\0", "*.rig"] {
        says(&used(folder.path(), path), 1, "cannot be used");
    }
}

#[test]
fn a_file_that_is_a_folder() {
    let folder = folder();
    fs::create_dir(folder.path().join("trap.rig")).unwrap();
    fs::write(folder.path().join("sound.rig"), "rig a\n  tippet 1 m of 6X\n").unwrap();
    let (ran, _) = ended(snell(folder.path(), &["check", "."]));
    assert_eq!(ran.status, Some(0), "a folder of that name is only a folder: {}", ran.told());
    ended(snell(folder.path(), &["check", "trap.rig"]));
    let (ran, _) = ended(snell(folder.path(), &["check", "sound.rig/inner.rig"]));
    assert_eq!(ran.status, Some(2), "{}", ran.told());
    let (ran, _) = ended(snell(folder.path(), &["check", "nowhere.rig"]));
    says(&ran, 2, "nowhere.rig");
}

#[test]
fn what_is_no_text() {
    says(&checked(b"rig a\n  tippet 1 m of 6X // gr\xFC\xDFe\n"), 1, "UTF-8");
    says(&checked(b"\xFF\xFEr\0i\0g\0 \0a\0"), 1, "UTF-8");
    let folder = folder();
    let (ran, _) = ended(snell(folder.path(), &["check", "-"]).input(b"rig a\n  note \"\xFC\"\n".as_slice()));
    assert_ne!(ran.status, Some(0));
    assert!(ran.told().contains("UTF-8"), "{}", ran.told());
}

#[test]
fn little_or_nothing() {
    for nothing in ["", "\u{FEFF}", "\n", "\r\n\r\n", "   \t", "// nothing", "\u{FEFF}// nothing"] {
        assert_eq!(checked(nothing).status, Some(0), "{nothing:?}");
    }
    assert_eq!(checked("\0").status, Some(1));
    assert_eq!(checked("rig a\n  tippet 1 m\0 of 6X\n").status, Some(1));
    assert_eq!(checked("\u{FEFF}\u{FEFF}rig a\n\u{FEFF}  tippet 1 m of 6X\n").status, Some(0));
    assert_eq!(checked(vec![0; 1_000_000]).status, Some(1));
}

#[test]
fn numbers_beyond_all_measure() {
    let nines = "9".repeat(400);
    for number in ["1e309", &nines, &format!("{nines}/{nines}"), &format!("{nines}.{nines}")] {
        assert_eq!(checked(format!("rig a\n  tippet {number} m of 6X\n")).status, Some(1), "{number}");
    }
    ended_plainly(&format!("rig a\n  tippet 0.{nines} m of 6X\n"));
    let large = "9".repeat(200);
    ended_plainly(&format!("rig a\n  let b = {large} m times {large} m\n  tippet b / {large} m of 6X\n  expect total at least 1 m\n"));
    ended_plainly("rig a\n  tippet 0.00000000000000000000000000001 mm of 6X\n  water 0 m at 0 m/s\n  expect tippet-ratio over 1\n");
    ended_plainly(&format!("fly a\n  hook #{nines}\n\nrig b\n  tippet 1 m of #{nines}\n  point a\n  expect weight over 1 g\n"));
}

#[test]
fn folders_a_hundred_deep() {
    let folder = folder();
    let inner: String = (0..100).map(|_| "deep/").collect();
    fs::create_dir_all(folder.path().join(&inner)).unwrap();
    let text = "rig a\n  tippet 1 m of 6X\n  point #14\n  expect flies at least 2\n";
    fs::write(folder.path().join(&inner).join("asked.rig"), text).unwrap();
    let (ran, _) = ended(snell(folder.path(), &["check", "."]));
    says(&ran, 1, "asked.rig");
    let far = "x/".repeat(5000);
    fs::write(folder.path().join("asked.rig"), format!("use \"{far}y.rig\"\n")).unwrap();
    says(&ended(snell(folder.path(), &["check", "asked.rig"])).0, 1, "cannot be used");
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
