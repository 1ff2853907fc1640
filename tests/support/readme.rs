//! The README as a stranger runs it: every line after `$` of its `console`
//! blocks, in a folder with a copy of the examples and the rigs that the page
//! tells its reader to write.

use crate::{Build, top};
use std::path::Path;
use std::process::Command;
use std::{fs, io};
use tempfile::TempDir;

/// What opens a block of commands.
pub const OPEN: &str = "```console\n";
const CLOSE: &str = "```";

/// The page with the output of every command as it is today.
///
/// # Errors
/// The page cannot be read, a block is left open, or no shell starts.
pub fn refreshed() -> io::Result<String> {
    let page = fs::read_to_string(top().join("README.md"))?;
    let folder = examples()?;
    write_named_fences(&page, folder.path())?;
    let mut made = String::new();
    let mut rest = &page[..];
    while let Some(open) = rest.find(OPEN) {
        let start = open + OPEN.len();
        let length = rest[start..].find(CLOSE);
        let end = start + length.ok_or_else(|| io::Error::other("a console block is left open"))?;
        made.push_str(&rest[..start]);
        let commands = rest[start..end]
            .lines()
            .filter_map(|line| line.strip_prefix("$ "));
        for command in commands {
            let output = printed(command, folder.path())?;
            made.push_str(&format!("$ {command}\n{output}"));
            if !output.is_empty() && !output.ends_with('\n') {
                made.push('\n');
            }
        }
        rest = &rest[end..];
    }
    made.push_str(rest);
    Ok(made)
}

/// A folder with the examples in it, so that commands that write leave the project alone.
///
/// # Errors
/// They cannot be copied.
pub fn examples() -> io::Result<TempDir> {
    let folder = tempfile::tempdir()?;
    let copy = folder.path().join("examples");
    fs::create_dir(&copy)?;
    for entry in fs::read_dir(top().join("examples"))? {
        let entry = entry?;
        fs::copy(entry.path(), copy.join(entry.file_name()))?;
    }
    Ok(folder)
}

/// All that a shell prints for a line of a `console` block.
fn printed(line: &str, folder: &Path) -> io::Result<String> {
    let program = Build::AsTests.program().parent().map(Path::to_owned);
    let paths = std::env::var_os("PATH").unwrap_or_default();
    let path = std::env::join_paths(program.into_iter().chain(std::env::split_paths(&paths)));
    let ran = Command::new("sh")
        .args(["-c", &format!("({line}) 2>&1")])
        .env("PATH", path.map_err(io::Error::other)?)
        .env("NO_COLOR", "1")
        .env_remove("COLUMNS")
        .current_dir(folder)
        .output()?;
    let printed = String::from_utf8(ran.stdout).map_err(io::Error::other)?;
    Ok(without_progress(&printed))
}

/// How far a long work is, is told only where the machine is slow.
fn without_progress(printed: &str) -> String {
    let lines = printed.split_inclusive('\n');
    lines
        .filter(|line| !line.trim_end().ends_with(", and going on"))
        .collect()
}

/// Writes every `rig` fence that begins with its file's name in a comment, as the page tells its reader to.
fn write_named_fences(page: &str, folder: &Path) -> io::Result<()> {
    for part in page.split("```rig\n").skip(1) {
        let fence = part.split(CLOSE).next().unwrap_or_default();
        let name = fence.lines().next().and_then(|line| line.strip_prefix("// "));
        if let Some(name) = name.filter(|name| name.ends_with(".rig")) {
            fs::write(folder.join(name), fence)?;
        }
    }
    Ok(())
}
