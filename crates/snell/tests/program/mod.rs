//! The built binary, run in the project's own folder with a fixed terminal.

#![allow(dead_code, reason = "each test file uses its own part")]

use std::io::{ErrorKind, Write};
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};

/// The top of the project, where examples are found.
pub fn top() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..")
}

/// The binary in an environment that every machine can give it.
pub fn snell(arguments: &[&str]) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_snell"));
    command.args(arguments).current_dir(top()).stdin(Stdio::null());
    command.env_clear().env("LANG", "C.UTF-8").env("COLUMNS", "80");
    command
}

/// Runs it.
pub fn run(arguments: &[&str]) -> Ran {
    Ran::from(snell(arguments).output().expect("the built binary starts"))
}

/// Runs it with a text on standard input.
pub fn run_with(arguments: &[&str], input: &str) -> Ran {
    let mut command = snell(arguments);
    let mut child = command
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("the built binary starts");
    let mut stdin = child.stdin.take().expect("its input is piped");
    match stdin.write_all(input.as_bytes()) {
        // A program that refuses its arguments may end before it has read a word.
        Err(error) if error.kind() == ErrorKind::BrokenPipe => {}
        wrote => wrote.expect("its input takes the text"),
    }
    drop(stdin);
    Ran::from(child.wait_with_output().expect("it ends"))
}

/// What a run came to.
#[derive(Debug)]
pub struct Ran {
    pub status: i32,
    pub out: String,
    pub err: String,
}

impl From<Output> for Ran {
    fn from(output: Output) -> Self {
        let text = |bytes| String::from_utf8(bytes).expect("it writes UTF-8");
        Self {
            status: output.status.code().expect("no signal ends it"),
            out: text(output.stdout),
            err: text(output.stderr),
        }
    }
}
