//! A git repository in a folder that goes away, with none of its user's settings.

use serde_json::Value;
use snell_tests::Build;
use std::fs;
use std::io::Write;
use std::path::Path;
use std::process::{Command, Output, Stdio};

/// A repository.
pub struct Repository {
    folder: tempfile::TempDir,
}

impl Repository {
    /// An empty one.
    pub fn new() -> Self {
        let repository = Self {
            folder: tempfile::tempdir().expect("a folder"),
        };
        repository.git(&["init", "-q", "-b", "main"]);
        repository
    }

    /// One with the history of a stream for `git fast-import`.
    pub fn imported(stream: &str) -> Self {
        let repository = Self::new();
        let mut command = repository.command("git", &["fast-import", "--quiet"]);
        let mut child = command.stdin(Stdio::piped()).spawn().expect("git starts");
        let mut stdin = child.stdin.take().expect("its input is piped");
        stdin.write_all(stream.as_bytes()).expect("git reads");
        drop(stdin);
        assert!(child.wait().expect("git ends").success(), "git takes the stream");
        repository.git(&["reset", "-q", "--hard"]);
        repository
    }

    /// Its working tree.
    pub fn folder(&self) -> &Path {
        self.folder.path()
    }

    /// A program in the working tree, with snell on the search path.
    pub fn command(&self, program: &str, arguments: &[&str]) -> Command {
        let snell = Build::AsTests
            .program()
            .parent()
            .expect("a program lies in a folder")
            .to_owned();
        let paths = std::env::var_os("PATH").unwrap_or_default();
        let path = std::env::join_paths([snell].into_iter().chain(std::env::split_paths(&paths)))
            .expect("a search path");
        let mut command = Command::new(program);
        command
            .args(arguments)
            .current_dir(self.folder())
            .stdin(Stdio::null());
        command
            .env("PATH", path)
            .env("HOME", self.folder())
            .env("NO_COLOR", "1")
            .env("COLUMNS", "100");
        command
            .env("GIT_CONFIG_NOSYSTEM", "1")
            .env("GIT_CONFIG_GLOBAL", "/dev/null")
            .env("GIT_PAGER", "cat");
        for name in ["AUTHOR", "COMMITTER"] {
            command.env(format!("GIT_{name}_NAME"), "An Angler");
            command.env(format!("GIT_{name}_EMAIL"), "angler@valley.example");
        }
        command
    }

    /// What git prints; it must not fail.
    pub fn git(&self, arguments: &[&str]) -> String {
        let output = self.command("git", arguments).output().expect("git starts");
        let err = String::from_utf8_lossy(&output.stderr).into_owned();
        assert!(output.status.success(), "git {arguments:?}: {err}");
        String::from_utf8(output.stdout).expect("it prints UTF-8")
    }

    /// What snell comes to.
    pub fn snell(&self, arguments: &[&str]) -> Output {
        self.command("snell", arguments).output().expect("snell starts")
    }

    /// What snell prints, however it ends but for trouble.
    pub fn told(&self, arguments: &[&str]) -> String {
        let output = self.snell(arguments);
        let err = String::from_utf8_lossy(&output.stderr).into_owned();
        assert_ne!(output.status.code(), Some(2), "snell {arguments:?}: {err}");
        String::from_utf8(output.stdout).expect("it prints UTF-8")
    }

    /// What snell prints as JSON.
    pub fn json(&self, arguments: &[&str]) -> Value {
        serde_json::from_str(&self.told(arguments)).expect("it prints JSON")
    }

    /// Writes a file and commits all there is, on a day.
    pub fn commit(&self, day: &str, subject: &str, files: &[(&str, &str)]) {
        for (name, text) in files {
            let path = self.folder().join(name);
            fs::create_dir_all(path.parent().expect("it lies in a folder")).expect("a folder");
            fs::write(path, text).expect("a file");
        }
        self.git(&["add", "-A"]);
        let when = format!("{day}T12:00:00+00:00");
        let mut command = self.command("git", &["commit", "-q", "--allow-empty", "-m", subject]);
        command
            .env("GIT_AUTHOR_DATE", &when)
            .env("GIT_COMMITTER_DATE", &when);
        assert!(command.status().expect("git starts").success(), "{subject}");
    }
}
