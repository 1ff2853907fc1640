//! What other people wrote of the program: every package that cargo knows for
//! the workspace, and which of them end up in the program as it ships.

use crate::top;
use serde_json::Value;
use std::collections::BTreeSet;
use std::io;
use std::path::PathBuf;
use std::process::Command;

/// The machines that packages of the program are made for. What is only needed elsewhere is in none of them.
const SHIPPED_FOR: [&str; 3] = [
    "x86_64-unknown-linux-gnu",
    "aarch64-apple-darwin",
    "x86_64-pc-windows-msvc",
];

/// Where every package of others must come from.
pub const REGISTRY: &str = "registry+https://github.com/rust-lang/crates.io-index";

/// A package that others wrote.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Dependency {
    pub name: String,
    pub version: String,
    /// As its manifest gives it: an SPDX expression, or one with the old `/` for "or".
    pub licence: String,
    /// As cargo writes it, with the kind in front.
    pub source: String,
    /// Where its files lie.
    pub folder: PathBuf,
}

/// Every package of others that `Cargo.lock` names, for every machine, tests and builds included.
///
/// # Errors
/// Cargo does not tell.
pub fn locked() -> io::Result<Vec<Dependency>> {
    let metadata: Value = serde_json::from_str(&cargo(&["metadata", "--format-version", "1"])?)?;
    let packages = metadata["packages"].as_array().into_iter().flatten();
    let text = |of: &Value| of.as_str().unwrap_or_default().to_owned();
    let mut found: Vec<Dependency> = packages
        .filter(|package| !package["source"].is_null())
        .map(|package| Dependency {
            name: text(&package["name"]),
            version: text(&package["version"]),
            licence: text(&package["license"]),
            source: text(&package["source"]),
            folder: PathBuf::from(text(&package["manifest_path"]))
                .parent()
                .map(PathBuf::from)
                .unwrap_or_default(),
        })
        .collect();
    found.sort();
    Ok(found)
}

/// Those of them that are compiled into the program.
///
/// # Errors
/// Cargo does not tell.
pub fn shipped() -> io::Result<Vec<Dependency>> {
    let mut names = BTreeSet::new();
    for machine in SHIPPED_FOR {
        let tree = cargo(&[
            "tree",
            "--package",
            "snell",
            "--edges",
            "normal,no-proc-macro",
            "--prefix",
            "none",
            "--format",
            "{p}",
            "--target",
            machine,
        ])?;
        names.extend(tree.lines().filter_map(name_and_version));
    }
    let within =
        |dependency: &Dependency| names.contains(&(dependency.name.clone(), dependency.version.clone()));
    Ok(locked()?.into_iter().filter(within).collect())
}

/// Of `libm v0.2.16` or `clap v4.6.9 (*)`.
fn name_and_version(line: &str) -> Option<(String, String)> {
    let mut words = line.split_whitespace();
    let name = words.next()?;
    let version = words.next()?.strip_prefix('v')?;
    Some((name.to_owned(), version.to_owned()))
}

/// What cargo says without the net, and with it only where a package was never fetched.
fn cargo(arguments: &[&str]) -> io::Result<String> {
    let ask = |more: &[&str]| {
        Command::new(std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into()))
            .args(arguments)
            .args(["--locked"])
            .args(more)
            .current_dir(top())
            .output()
    };
    let mut told = ask(&["--offline"])?;
    if !told.status.success() {
        told = ask(&[])?;
    }
    if !told.status.success() {
        return Err(io::Error::other(
            String::from_utf8_lossy(&told.stderr).into_owned(),
        ));
    }
    String::from_utf8(told.stdout).map_err(io::Error::other)
}
