//! Files that are no files, links that lead out, places that a page may not
//! write to, and names that would steer a terminal.

use super::{ended, folder, says, snell};
use std::fs;
use std::os::unix::fs::{PermissionsExt, symlink};
use std::path::Path;
use std::process::Command;
use tempfile::TempDir;

const RIG: &str = "rig a\n   tippet 1 m of 6X fluoro\n";

/// A project with a file outside of it that nobody may see or change.
fn project() -> TempDir {
    let folder = folder();
    fs::create_dir_all(folder.path().join("project/.git/hooks")).unwrap();
    fs::write(
        folder.path().join("outside.rig"),
        "rig secret\n   tippet 1 m of 6X\n",
    )
    .unwrap();
    folder
}

#[test]
fn a_pipe_is_no_file() {
    let folder = folder();
    let pipe = folder.path().join("p.rig");
    assert!(Command::new("mkfifo").arg(&pipe).status().unwrap().success());
    for command in ["check", "show", "tidy", "draw"] {
        says(
            &ended(snell(folder.path(), &[command, "p.rig"])).0,
            2,
            "it is no plain file",
        );
    }
    ended(snell(folder.path(), &["check", "."]));
    fs::write(folder.path().join("a.rig"), format!("use \"p.rig\"\n{RIG}")).unwrap();
    says(
        &ended(snell(folder.path(), &["check", "a.rig"])).0,
        1,
        "it is no plain file",
    );
}

#[test]
fn a_link_that_leads_out_is_not_read_unless_it_is_named() {
    let folder = project();
    let project = folder.path().join("project");
    symlink("../outside.rig", project.join("x.rig")).unwrap();
    symlink("/proc/self/environ", project.join("y.rig")).unwrap();
    symlink("inner/z.rig", project.join("z.rig")).unwrap();
    fs::create_dir(project.join("inner")).unwrap();
    fs::write(project.join("inner/z.rig"), RIG).unwrap();
    let before = fs::read_to_string(folder.path().join("outside.rig")).unwrap();
    for arguments in [
        &["check", "."][..],
        &["tidy", "--diff", "."],
        &["tidy", "."],
        &["show", "--in", "."],
    ] {
        let (ran, _) = ended(snell(&project, arguments));
        assert!(
            !ran.told().contains("secret") && !ran.told().contains("PATH="),
            "{}",
            ran.told()
        );
        assert!(
            ran.told().contains("x.rig"),
            "that it is left out is said: {}",
            ran.told()
        );
    }
    assert_eq!(
        fs::read_to_string(folder.path().join("outside.rig")).unwrap(),
        before
    );
    let (ran, _) = ended(snell(&project, &["show", "--in", "x.rig"]));
    assert!(
        ran.out.contains("secret"),
        "what is named is read: {}",
        ran.told()
    );
}

#[test]
fn a_page_draws_only_below_its_own_folder() {
    let folder = project();
    let project = folder.path().join("project");
    fs::create_dir(folder.path().join("elsewhere")).unwrap();
    symlink("../elsewhere", project.join("pictures")).unwrap();
    for into in [
        "pictures/a.svg",
        ".git/hooks/a.svg",
        ".vscode/a.svg",
        "../elsewhere/a.svg",
    ] {
        let page = format!(
            "# A\n\n```rig\n{RIG}  point #14 2.8 mm tungsten\n```\n\n<!-- rig: picture of a into \"{into}\" -->\n<!-- rig: end -->\n"
        );
        fs::write(project.join("a.md"), &page).unwrap();
        let (ran, _) = ended(snell(&project, &["fill", "a.md"]));
        assert_ne!(ran.status, Some(0), "{into}: {}", ran.told());
        assert_eq!(fs::read_to_string(project.join("a.md")).unwrap(), page, "{into}");
    }
    assert_eq!(fs::read_dir(folder.path().join("elsewhere")).unwrap().count(), 0);
    assert_eq!(fs::read_dir(project.join(".git/hooks")).unwrap().count(), 0);
    assert!(!project.join(".vscode").exists());
}

/// What steers a terminal: clearing, titles, the reading direction, eight-bit controls.
const STEERING: &str = "\u{1b}[2J\u{1b}]0;x\u{7}\u{202e}\u{9b}31m\u{8}";

#[track_caller]
fn steers_nothing(folder: &Path, arguments: &[&str]) {
    let (ran, _) = ended(snell(folder, arguments));
    let told = ran.told();
    let steers = |letter: &char| letter.is_control() && !"\n\t".contains(*letter) || *letter == '\u{202e}';
    let found: Vec<char> = told.chars().filter(steers).collect();
    assert!(found.is_empty(), "{arguments:?} prints {found:?}: {told:?}");
}

#[test]
fn nothing_that_a_name_or_a_text_says_reaches_the_terminal() {
    let folder = folder();
    let name = format!("n{STEERING}.rig");
    let text = format!(
        "rig a \"t{STEERING}\"\n   tippet 1 m of 6X fluoro // {STEERING}\n  point #14 2.8 mm {STEERING}\n"
    );
    for arguments in [
        &["check"][..],
        &["check", "--form", "lines"],
        &["tidy", "--check"],
        &["tidy", "--diff"],
        &["tidy"],
        &["show", "--in"],
        &["cut", "--in"],
        &["draw", "--in"],
        &["drift", "--in"],
    ] {
        fs::write(folder.path().join(&name), &text).unwrap();
        let all: Vec<&str> = arguments.iter().copied().chain([name.as_str()]).collect();
        steers_nothing(folder.path(), &all);
    }
    steers_nothing(folder.path(), &["start", &format!("s{STEERING}")]);
    steers_nothing(folder.path(), &["show", STEERING]);
    fs::write(
        folder.path().join("b.rig"),
        format!("{RIG}  point #14 2.8 mm tungsten\n"),
    )
    .unwrap();
    let picture = format!("p{STEERING}.svg");
    steers_nothing(folder.path(), &["draw", "--in", "b.rig", "-o", &picture]);
}

/// What `start` prints to be pasted runs nothing, whatever the folder is called.
#[test]
fn a_command_to_paste_runs_only_snell() {
    let folder = folder();
    let name = "a$(touch ran)`touch ran`'b;touch ran";
    let (ran, _) = ended(snell(folder.path(), &["start", "--no-git", name]));
    assert_eq!(ran.status, Some(0), "{}", ran.told());
    let pasted = ran
        .out
        .lines()
        .find_map(|line| line.strip_prefix("  snell check"))
        .unwrap();
    let told = Command::new("sh")
        .args(["-c", &format!("printf %s{pasted}")])
        .current_dir(folder.path())
        .output()
        .unwrap();
    assert_eq!(String::from_utf8_lossy(&told.stdout), name);
    assert!(!folder.path().join("ran").exists());
}

#[test]
fn modes_owners_and_other_names_are_kept() {
    let folder = folder();
    let path = folder.path().join("a.rig");
    fs::write(&path, RIG).unwrap();
    fs::set_permissions(&path, fs::Permissions::from_mode(0o640)).unwrap();
    let _ = std::os::unix::fs::chown(&path, Some(1234), Some(1234));
    let known = fs::metadata(&path).unwrap();
    ended(snell(folder.path(), &["tidy", "a.rig"]));
    let now = fs::metadata(&path).unwrap();
    use std::os::unix::fs::MetadataExt;
    assert_ne!(fs::read_to_string(&path).unwrap(), RIG, "it was laid out");
    assert_eq!(
        (now.mode(), now.uid(), now.gid()),
        (known.mode(), known.uid(), known.gid())
    );
    fs::write(&path, RIG).unwrap();
    fs::hard_link(&path, folder.path().join("b.rig")).unwrap();
    says(
        &ended(snell(folder.path(), &["tidy", "a.rig"])).0,
        2,
        "several names",
    );
    assert_eq!(fs::read_to_string(folder.path().join("b.rig")).unwrap(), RIG);
}
