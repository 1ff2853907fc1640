//! Inside a crate, files do not import one another in a circle.
//!
//! A file imports another where it names an item that the other defines. A file that only hands on what its
//! folder holds is passed through, so that a folder's face is no part of a circle.

#![allow(clippy::unwrap_used, reason = "a test may stop at what it did not expect")]

use snell_tests::top;
use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};

/// The crates that keep to it.
const HELD: &[&str] = &["snell-finding", "snell-rig", "snell-text"];

type Module = Vec<String>;

/// The files of one crate by module, with their text as code: no comments, no tests.
fn modules(source: &Path) -> BTreeMap<Module, String> {
    let mut all = BTreeMap::new();
    let mut open = vec![source.to_owned()];
    while let Some(folder) = open.pop() {
        for entry in fs::read_dir(&folder).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                open.push(path);
            } else if path.extension().is_some_and(|ending| ending == "rs") {
                all.insert(module(source, &path), code(&fs::read_to_string(&path).unwrap()));
            }
        }
    }
    all
}

fn module(source: &Path, path: &Path) -> Module {
    let inside: PathBuf = path.strip_prefix(source).unwrap().with_extension("");
    let mut names: Module = inside
        .iter()
        .map(|name| name.to_str().unwrap().to_owned())
        .collect();
    if matches!(names.last().map(String::as_str), Some("mod" | "lib" | "main")) {
        names.pop();
    }
    names
}

fn code(text: &str) -> String {
    let text = text.split("#[cfg(test)]\nmod ").next().unwrap();
    let lines = text.lines().filter(|line| !line.trim_start().starts_with("//"));
    // Who may see an item is no import.
    let lines = lines.map(|line| line.replace("pub(in crate::", "pub(in "));
    lines.collect::<Vec<_>>().join("\n")
}

/// Every path that a text names from `crate`, `super` or `self` on, and what `use` lines bring in from a child.
fn paths(text: &str) -> Vec<Vec<String>> {
    let mut found = Vec::new();
    for (at, _) in text.match_indices("::") {
        let before = &text[..at];
        let start = before
            .rfind(|letter: char| !(letter.is_alphanumeric() || letter == '_'))
            .map_or(0, |index| index + 1);
        let from_start = !before[..start].ends_with("::");
        let first = &before[start..];
        let in_use = before[..start].ends_with("use ");
        if from_start && (matches!(first, "crate" | "super" | "self") || in_use) {
            tree(&text[start..], &mut Vec::new(), &mut found);
        }
    }
    found
}

/// The paths of a use tree: `a::{b, c::d}`.
fn tree<'t>(text: &'t str, before: &mut Vec<String>, found: &mut Vec<Vec<String>>) -> &'t str {
    let text = text.trim_start();
    if let Some(mut rest) = text.strip_prefix('{') {
        while !rest.trim_start().starts_with('}') {
            rest = tree(rest, &mut before.clone(), found).trim_start();
            rest = rest.strip_prefix(',').unwrap_or(rest);
        }
        return &rest.trim_start()[1..];
    }
    let end = text
        .find(|letter: char| !(letter.is_alphanumeric() || letter == '_'))
        .unwrap_or(text.len());
    before.push(text[..end].to_owned());
    let rest = &text[end..];
    match rest.strip_prefix("::") {
        Some(more) if end > 0 && more.starts_with(|letter: char| letter.is_alphabetic() || letter == '{') => {
            tree(more, before, found)
        }
        _ => {
            found.push(before.clone());
            let alias = rest.trim_start().strip_prefix("as ");
            alias.map_or(rest, |alias| {
                alias.trim_start_matches(|letter: char| letter.is_alphanumeric() || letter == '_')
            })
        }
    }
}

/// The module that a path leads to from `at`, and the item of it that is named.
fn walk(all: &BTreeMap<Module, String>, at: &Module, path: &[String]) -> Option<(Module, Option<String>)> {
    let mut here = at.clone();
    for (index, name) in path.iter().enumerate() {
        match name.as_str() {
            "crate" => here = Vec::new(),
            "self" => {}
            "super" => {
                here.pop();
            }
            name => {
                let mut below = here.clone();
                below.push(name.to_owned());
                if all.contains_key(&below) {
                    here = below;
                } else if index == 0 {
                    return None;
                } else {
                    return Some((here, Some(name.to_owned())));
                }
            }
        }
    }
    Some((here, None))
}

/// The file that defines what a path names: faces of folders are passed through.
fn home(all: &BTreeMap<Module, String>, at: &Module, path: &[String]) -> Option<Module> {
    let (mut module, mut item) = walk(all, at, path)?;
    // No item is handed on through more files than a crate has.
    for _ in 0..all.len() {
        let Some(wanted) = &item else { break };
        let handed_on = paths(&all[&module]).into_iter().find_map(|other| {
            let (home, named) = walk(all, &module, &other)?;
            (other.last() == Some(wanted) && home != module).then_some((home, named))
        });
        match handed_on {
            Some(next) => (module, item) = next,
            None => break,
        }
    }
    Some(module)
}

/// The files that lie on a circle.
fn on_circles(all: &BTreeMap<Module, String>) -> Vec<String> {
    let mut edges: BTreeMap<&Module, BTreeSet<Module>> = BTreeMap::new();
    for (module, text) in all {
        let homes = paths(text)
            .into_iter()
            .filter_map(|path| home(all, module, &path));
        edges.insert(module, homes.filter(|home| home != module).collect());
    }
    let reaches = |from: &Module| {
        let mut seen = BTreeSet::new();
        let mut open: Vec<Module> = edges[from].iter().cloned().collect();
        while let Some(next) = open.pop() {
            if seen.insert(next.clone()) {
                open.extend(edges[&next].iter().cloned());
            }
        }
        seen.contains(from)
    };
    let circled = all.keys().filter(|module| reaches(module));
    circled.map(|module| module.join("::")).collect()
}

#[test]
fn files_do_not_import_one_another_in_a_circle() {
    for name in HELD {
        let all = modules(&top().join("crates").join(name).join("src"));
        assert!(all.len() > 2, "{name} has files");
        assert_eq!(on_circles(&all), Vec::<String>::new(), "{name}");
    }
}

#[test]
fn a_circle_is_found() {
    let text = |module: &str, text: &str| {
        (
            module.split("::").map(str::to_owned).collect::<Module>(),
            text.to_owned(),
        )
    };
    let all = BTreeMap::from([
        text("a", "mod b; mod c; pub use b::{B, One}; pub use c::C;"),
        text("a::b", "use super::c::C; pub struct B; pub struct One;"),
        text("a::c", "use crate::a::B; pub struct C;"),
        text("d", "use crate::a::C;"),
    ]);
    assert_eq!(on_circles(&all), ["a::b", "a::c"]);
    let face = BTreeMap::from([
        text("a", "mod b; mod c; pub use b::B; pub use c::C;"),
        text("a::b", "pub struct B;"),
        text("a::c", "use super::B; pub struct C;"),
    ]);
    assert_eq!(on_circles(&face), Vec::<String>::new());
}
