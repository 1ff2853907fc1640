//! Runs that are ended in the middle, find a full disk, or meet each other:
//! every file is what it was or what it is to become, and nothing is left
//! beside it.

use super::folder;
use serde_json::json;
use snell_tests::{Build, Client, top};
use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

/// How often each command is ended; `SNELL_ENDS` asks for more.
const ENDS: u32 = 40;

/// Commands that write, each with the names of the files that it may write.
const WRITING: [&[&str]; 6] = [
    &["tidy", "."],
    &["fill", "."],
    &["check", "--mend", "mend.rig"],
    &["cut", "--take", "--in", "cut.rig", "low"],
    &["fit", "--write", "--in", "fit.rig", "low"],
    &["start", "--no-git", "new"],
];

/// Files for every command: one laid out badly, a page with an old figure, a fault with a sure mend, a spool to
/// cut from, a rig to fit.
fn files() -> Vec<(PathBuf, String)> {
    let example = |name: &str| fs::read_to_string(top().join("examples").join(name)).unwrap();
    let page = example("evening-on-the-weir.md").replace("into evening", "into other");
    let untidy = "rig untidy\n   tippet    1 m of 6X fluoro\n".repeat(40);
    let spool = "spool six\n  size 6X\n  material fluoro\n  left 17 m\n\n";
    let rig = "rig low\n  method tight-line\n  rod 10 ft #3\n  water 4 ft at 2.5 ft/s over cobble\n  butt 12 ft of 0.25 mm nylon\n  \
               sighter 15 in of 0.20 mm nylon, pink\n  ring 2 mm\n  tippet 3 ft of six\n  point #14 2.8 mm tungsten, slim\n";
    let rig = rig.replace(", slim", "");
    vec![
        ("untidy.rig".into(), untidy),
        ("page.md".into(), page),
        (
            "mend.rig".into(),
            "rig mend\n  tippet 1 m of 6 X fluoro\n  point #14 2.8 mm tungsten\n".into(),
        ),
        ("cut.rig".into(), format!("{spool}{rig}")),
        ("fit.rig".into(), format!("{spool}{rig}")),
    ]
}

fn laid(files: &[(PathBuf, String)]) -> tempfile::TempDir {
    let folder = folder();
    for (path, text) in files {
        fs::write(folder.path().join(path), text).unwrap();
    }
    folder
}

/// Every file below a folder, with its text.
fn state(folder: &Path) -> BTreeMap<PathBuf, Vec<u8>> {
    let mut found = BTreeMap::new();
    let mut open = vec![folder.to_owned()];
    while let Some(next) = open.pop() {
        for entry in fs::read_dir(next).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                open.push(path);
            } else {
                found.insert(
                    path.strip_prefix(folder).unwrap().to_owned(),
                    fs::read(&path).unwrap(),
                );
            }
        }
    }
    found
}

fn is_stray(path: &Path) -> bool {
    path.file_name().unwrap().to_string_lossy().starts_with(".snell-")
}

fn command(folder: &Path, arguments: &[&str]) -> Command {
    let mut command = Command::new(Build::AsTests.program());
    command
        .args(arguments)
        .current_dir(folder)
        .stdin(Stdio::null())
        .stdout(Stdio::null())
        .stderr(Stdio::null());
    command
}

#[test]
fn whatever_ends_a_run_no_file_is_half_written() {
    let files = files();
    let before = state(laid(&files).path());
    let ends: u32 = std::env::var("SNELL_ENDS").map_or(ENDS, |ends| ends.parse().unwrap());
    let mut ended = 0;
    for arguments in WRITING {
        let whole = laid(&files);
        let started = Instant::now();
        command(whole.path(), arguments).status().unwrap();
        let took = started.elapsed();
        let after = state(whole.path());
        assert_ne!(after, before, "{arguments:?} writes something");
        for end in 0..ends {
            let killed = laid(&files);
            let mut child = command(killed.path(), arguments).spawn().unwrap();
            // Spread over the run, and more closely where files are written: towards its end.
            let share = f64::from(end + 1) / f64::from(ends);
            std::thread::sleep(Duration::from_secs_f64(
                took.as_secs_f64() * (0.2 + 0.9 * share.sqrt()),
            ));
            child.kill().unwrap();
            ended += u32::from(!child.wait().unwrap().success());
            for (path, text) in state(killed.path()) {
                let whole =
                    is_stray(&path) || before.get(&path) == Some(&text) || after.get(&path) == Some(&text);
                assert!(
                    whole,
                    "{arguments:?}, end {end}: {} is neither old nor new",
                    path.display()
                );
            }
            // The same again: it does what is left to do, and clears away what lies beside.
            command(killed.path(), arguments).status().unwrap();
            let left = state(killed.path());
            let written: Vec<_> = after
                .iter()
                .filter(|(path, text)| before.get(*path) != Some(text))
                .collect();
            let folders: Vec<_> = written.iter().map(|(path, _)| path.parent()).collect();
            let strays = left
                .keys()
                .filter(|path| is_stray(path) && folders.contains(&path.parent()));
            // A run that finds all done writes nothing, and has nothing to clear away.
            let all_done = written.iter().all(|(path, text)| left.get(*path) == Some(text));
            assert!(
                all_done || strays.count() == 0,
                "{arguments:?}, end {end}: something is left lying"
            );
        }
    }
    println!(
        "{ended} of {} runs were ended before they were done",
        ends as usize * WRITING.len()
    );
}

#[test]
fn a_full_disk_leaves_every_file_as_it_was() {
    let files = files();
    let before = state(laid(&files).path());
    for arguments in WRITING {
        let full = laid(&files);
        let words: Vec<String> = arguments.iter().map(|word| format!("'{word}'")).collect();
        // No file may grow: writing fails as it does on a full disk. Source: getrlimit(2), RLIMIT_FSIZE.
        let script = format!(
            "trap '' XFSZ; ulimit -f 0; exec '{}' {} 2>&1 | cat",
            Build::AsTests.program().display(),
            words.join(" ")
        );
        let told = Command::new("sh")
            .args(["-c", &script])
            .current_dir(full.path())
            .output()
            .unwrap();
        let told = String::from_utf8_lossy(&told.stdout).into_owned();
        assert!(told.contains("was not written"), "{arguments:?}: {told}");
        assert_eq!(state(full.path()), before, "{arguments:?}");
    }
}

#[test]
fn two_runs_at_once_lose_nothing() {
    let files = files();
    let whole = laid(&files);
    command(whole.path(), &["tidy", "."]).status().unwrap();
    let after = state(whole.path());
    for _ in 0..40 {
        let both = laid(&files);
        let mut runs: Vec<_> = (0..4)
            .map(|_| command(both.path(), &["tidy", "."]).spawn().unwrap())
            .collect();
        runs.iter_mut().for_each(|run| assert!(run.wait().is_ok()));
        assert_eq!(state(both.path()), after);
    }
}

#[test]
fn a_folder_that_vanishes_is_told() {
    let gone = laid(&files());
    let path = gone.path().to_owned();
    drop(gone);
    let output = Command::new(Build::AsTests.program())
        .arg("tidy")
        .arg(&path)
        .output()
        .unwrap();
    assert_eq!(output.status.code(), Some(2));
}

/// The other end of the pipe is held by the test, as a wrapper of an editor may hold it.
#[test]
fn a_server_ends_with_its_editor_though_the_pipe_stays_open() {
    let mut editor = Command::new("sleep").arg("600").spawn().unwrap();
    let mut client = Client::start(Build::AsTests);
    client.answer(
        "initialize",
        json!({ "processId": editor.id(), "capabilities": {} }),
    );
    client.tell("initialized", json!({}));
    let asked = json!({ "textDocument": { "uri": "file:///nowhere/a.rig" } });
    assert!(
        client.ask("textDocument/codeLens", asked).is_object(),
        "it works while the editor runs"
    );
    editor.kill().unwrap();
    editor.wait().unwrap();
    assert_eq!(client.ended(), Some(1));
}
