//! The README shows what the program prints today: every command of its
//! `console` blocks is run, and what it prints is compared with what stands there.
//!
//! `SNELL_REFRESH=1 cargo test -p snell-tests --test readme` writes it anew.

use snell_tests::{Build, top};
use std::fs;
use std::process::Command;

const OPEN: &str = "```console\n";
const CLOSE: &str = "```";

/// Runs a line of a `console` block as a shell does, in a copy of the examples, and gives all that it prints.
fn printed(line: &str, folder: &std::path::Path) -> String {
    let program = Build::AsTests
        .program()
        .parent()
        .expect("a program lies in a folder")
        .to_owned();
    let paths = std::env::var_os("PATH").unwrap_or_default();
    let path = std::env::join_paths([program].into_iter().chain(std::env::split_paths(&paths)))
        .expect("a search path");
    let ran = Command::new("sh")
        .args(["-c", &format!("({line}) 2>&1")])
        .env("PATH", path)
        .env("NO_COLOR", "1")
        .env_remove("COLUMNS")
        .current_dir(folder)
        .output()
        .expect("a shell starts");
    String::from_utf8(ran.stdout).expect("it prints UTF-8")
}

/// The page with the output of every command as it is today.
fn refreshed(page: &str, folder: &std::path::Path) -> String {
    let mut made = String::new();
    let mut rest = page;
    while let Some(open) = rest.find(OPEN) {
        let start = open + OPEN.len();
        let end = start + rest[start..].find(CLOSE).expect("a console block is closed");
        made.push_str(&rest[..start]);
        for line in rest[start..end]
            .lines()
            .filter_map(|line| line.strip_prefix("$ "))
        {
            let output = printed(line, folder);
            made.push_str(&format!("$ {line}\n{output}"));
            if !output.is_empty() && !output.ends_with('\n') {
                made.push('\n');
            }
        }
        rest = &rest[end..];
    }
    made.push_str(rest);
    made
}

/// A folder with the examples in it, so that commands that write leave the project alone.
fn examples() -> tempfile::TempDir {
    let folder = tempfile::tempdir().expect("a folder");
    let copy = folder.path().join("examples");
    fs::create_dir(&copy).expect("a folder");
    for entry in fs::read_dir(top().join("examples")).expect("the examples") {
        let entry = entry.expect("an example");
        fs::copy(entry.path(), copy.join(entry.file_name())).expect("a copy");
    }
    folder
}

/// Writes every `rig` fence that begins with its file's name in a comment, as the page tells its reader to.
fn write_named_fences(page: &str, folder: &std::path::Path) -> usize {
    let named = |fence: &str| {
        let (first, _) = fence.split_once('\n')?;
        let name = first.strip_prefix("// ")?;
        name.ends_with(".rig").then(|| name.to_owned())
    };
    let mut written = 0;
    for part in page.split("```rig\n").skip(1) {
        let fence = part.split(CLOSE).next().unwrap_or_default();
        if let Some(name) = named(fence) {
            fs::write(folder.join(name), fence).expect("a rig is written");
            written += 1;
        }
    }
    written
}

#[test]
fn the_tour_prints_what_it_says() {
    let path = top().join("README.md");
    let page = fs::read_to_string(&path).expect("the README");
    assert!(page.matches(OPEN).count() >= 5, "the README has a tour");
    let folder = examples();
    assert!(
        write_named_fences(&page, folder.path()) > 0,
        "the page has a rig to write"
    );
    let today = refreshed(&page, folder.path());
    if std::env::var_os("SNELL_REFRESH").is_some() {
        fs::write(&path, today).expect("the README is written");
        return;
    }
    similar_asserts(&page, &today);
}

/// Equal, or the first line that differs.
fn similar_asserts(page: &str, today: &str) {
    for (number, (there, now)) in page.lines().zip(today.lines()).enumerate() {
        assert_eq!(
            there,
            now,
            "README.md:{}: run the command at the top of this test to refresh it",
            number + 1
        );
    }
    assert_eq!(
        page.lines().count(),
        today.lines().count(),
        "README.md has lines that are not printed today"
    );
}

#[test]
fn the_two_commands_are_those_that_are_tested() {
    let page = fs::read_to_string(top().join("README.md")).expect("the README");
    for command in [
        "cargo run -q --release -- show examples/harrow.rig",
        "cargo test --workspace",
    ] {
        assert!(page.contains(command), "the README names `{command}`");
    }
    let build = fs::read_to_string(top().join(".ci/run")).expect("the build's script");
    assert!(
        build.contains("cargo test --workspace"),
        "the build runs the README's test command"
    );
}

#[test]
fn every_rig_fence_of_the_pages_is_sound() {
    for page in ["README.md", "grammar/reference.md"] {
        let path = top().join(page);
        let book = snell_analysis::Notebook::open(&[path], &snell_analysis::LocalDisk).expect("the page");
        let faults: Vec<String> = snell_article::check(&book)
            .into_iter()
            .filter(|finding| finding.level == snell_finding::Level::Fault)
            .map(|finding| format!("{}: {}", finding.code, finding.message))
            .collect();
        assert!(faults.is_empty(), "{page}: {faults:?}");
    }
}
