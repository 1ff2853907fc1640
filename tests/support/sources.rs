//! The sources of the crates as text: which file imports which, and where the
//! text of a line is searched.
//!
//! It reads Rust by the letter, which is enough for how these sources are
//! written.

use crate::top;
use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::Path;

/// A crate's files below `src`, with comments, the insides of strings and inline tests taken out.
pub struct Crate {
    pub name: String,
    pub files: BTreeMap<String, String>,
}

/// Every crate of the workspace.
pub fn crates() -> Vec<Crate> {
    let folders = fs::read_dir(top().join("crates")).into_iter().flatten().flatten();
    let mut found: Vec<Crate> = folders
        .map(|folder| {
            let mut files = Vec::new();
            gather(&folder.path().join("src"), "", &mut files);
            Crate::of(&folder.file_name().to_string_lossy(), files)
        })
        .collect();
    found.sort_by(|one, other| one.name.cmp(&other.name));
    assert!(found.len() > 10, "the crates are found");
    found
}

fn gather(folder: &Path, below: &str, files: &mut Vec<(String, String)>) {
    for entry in fs::read_dir(folder).into_iter().flatten().flatten() {
        let name = entry.file_name().to_string_lossy().into_owned();
        if entry.path().is_dir() {
            gather(&entry.path(), &format!("{below}{name}/"), files);
        } else if name.ends_with(".rs")
            && let Ok(text) = fs::read_to_string(entry.path())
        {
            files.push((format!("{below}{name}"), text));
        }
    }
}

impl Crate {
    /// A crate of some files, by their paths below `src`.
    pub fn of(name: &str, files: impl IntoIterator<Item = (String, String)>) -> Self {
        let files = files.into_iter().map(|(path, text)| (path, bare(&text)));
        Self {
            name: name.to_owned(),
            files: files.collect(),
        }
    }

    /// Whether it looks at lines of rig files, and is not the crate that reads them.
    pub fn reads_lines(&self) -> bool {
        let kinds = ["rig", "rules", "analysis", "ide", "view", "history"];
        kinds.iter().any(|kind| self.name == format!("snell-{kind}"))
    }

    /// The files that can be reached from themselves by way of their imports.
    pub fn circles(&self) -> Vec<&str> {
        let modules: BTreeMap<Vec<&str>, &str> = self
            .files
            .keys()
            .map(|path| (module(path), path.as_str()))
            .collect();
        let imports: BTreeMap<&str, BTreeSet<&str>> = modules
            .iter()
            .map(|(module, path)| (*path, imports(module, &self.files[*path], &modules)))
            .collect();
        let in_circle = |start: &str| {
            let mut met = BTreeSet::new();
            let mut open: Vec<&str> = imports[start].iter().copied().collect();
            while let Some(path) = open.pop() {
                if met.insert(path) {
                    open.extend(&imports[path]);
                }
            }
            met.contains(start)
        };
        imports.keys().copied().filter(|path| in_circle(path)).collect()
    }
}

/// A file's module: `["faults", "find"]` for `faults/find.rs`.
fn module(path: &str) -> Vec<&str> {
    let mut parts: Vec<&str> = path.trim_end_matches(".rs").split('/').collect();
    if matches!(parts.last(), Some(&("mod" | "lib" | "main"))) {
        parts.pop();
    }
    parts
}

fn imports<'f>(own: &[&'f str], text: &str, modules: &BTreeMap<Vec<&'f str>, &'f str>) -> BTreeSet<&'f str> {
    let file = |path: String| {
        let mut names = path.split("::").peekable();
        let mut at: Vec<&str> = own.to_vec();
        match names.peek().copied() {
            Some("crate") => {
                at.clear();
                names.next();
            }
            Some("self" | "super") => {
                while let Some(up) = names.next_if(|name| matches!(*name, "self" | "super")) {
                    if up == "super" {
                        at.pop();
                    }
                }
            }
            // Any other path begins with a module below this one, or leads out of the crate.
            first => {
                at.extend(first);
                if !modules.contains_key(&at) {
                    return None;
                }
                names.next();
            }
        }
        for name in names {
            at.push(name);
            if !modules.contains_key(&at) {
                at.pop();
                break;
            }
        }
        modules.get(&at).copied().filter(|_| at != own)
    };
    paths(text).into_iter().filter_map(file).collect()
}

/// Every path of a file that leads to another: those of its `use` lines, and those written out.
fn paths(text: &str) -> Vec<String> {
    let mut found = Vec::new();
    let mut rest = text;
    while let Some(at) = rest.find("use ") {
        let begins = rest[..at]
            .chars()
            .next_back()
            .is_none_or(|c| !c.is_alphanumeric() && c != '_');
        rest = &rest[at + 4..];
        let end = rest.find(';').unwrap_or(rest.len());
        if begins {
            expand("", &rest[..end].replace(char::is_whitespace, ""), &mut found);
        }
    }
    let of_path = |c: char| c.is_alphanumeric() || c == '_' || c == ':';
    // What goes on in braces was read above.
    let written = text
        .split(|c: char| !of_path(c))
        .filter(|word| word.contains("::") && !word.ends_with("::"));
    found.extend(written.map(|word| word.trim_matches(':').to_owned()));
    found
}

/// `a::{b, c::{d, e}}` as `a::b`, `a::c::d`, `a::c::e`.
fn expand(before: &str, tree: &str, found: &mut Vec<String>) {
    let Some((head, inside)) = tree.split_once('{') else {
        found.push(format!("{before}{tree}"));
        return;
    };
    let head = format!("{before}{head}");
    let inside = inside.strip_suffix('}').unwrap_or(inside);
    let (mut depth, mut from) = (0, 0);
    for (at, c) in inside.char_indices() {
        match c {
            '{' => depth += 1,
            '}' => depth -= 1,
            ',' if depth == 0 => {
                expand(&head, &inside[from..at], found);
                from = at + 1;
            }
            _ => {}
        }
    }
    expand(&head, &inside[from..], found);
}

/// The ways in which the text at a span is searched.
const SEARCHES: [&str; 21] = [
    "find",
    "rfind",
    "split",
    "split_once",
    "split_at",
    "split_whitespace",
    "rsplit",
    "chars",
    "char_indices",
    "bytes",
    "as_bytes",
    "contains",
    "starts_with",
    "ends_with",
    "strip_prefix",
    "strip_suffix",
    "trim",
    "trim_start",
    "trim_end",
    "matches",
    "match_indices",
];

/// How the texts that `written(span)` and `of(text)` give are searched, at once or by the name that they are given.
pub fn searches(text: &str) -> Vec<&'static str> {
    let mut found = Vec::new();
    for (at, _) in text.match_indices(".written(").chain(text.match_indices(".of(")) {
        let open = at + text[at..].find('(').unwrap_or_default() + 1;
        let Some(close) = closing(&text[open..]).map(|length| open + length) else {
            continue;
        };
        let asked = text[open..close].trim();
        let of_text = ["text", "written", "line"]
            .iter()
            .any(|word| asked.contains(word));
        if asked.is_empty() || text[at..].starts_with(".of(") && !of_text {
            continue;
        }
        found.extend(search_of(&text[close + 1..]));
        let statement = text[..at].rfind([';', '{', '}']).map_or(0, |end| end + 1);
        let named = text[statement..at].trim_start().strip_prefix("let ");
        let name = named.and_then(|rest| {
            rest.split(|c: char| !c.is_alphanumeric() && c != '_')
                .find(|word| !word.is_empty())
        });
        // To the end of the function.
        let body = &text[close..];
        let body = &body[..body.find("\n}").unwrap_or(body.len())];
        for (after, _) in name.into_iter().flat_map(|name| body.match_indices(name)) {
            let name = name.unwrap_or_default();
            let whole = !body[..after].ends_with(|c: char| c.is_alphanumeric() || c == '_' || c == '.');
            found.extend(search_of(&body[after + name.len()..]).filter(|_| whole));
        }
    }
    found.sort_unstable();
    found.dedup();
    found
}

/// The search that is made of what stands before.
fn search_of(rest: &str) -> Option<&'static str> {
    if rest.starts_with('[') {
        return Some("[");
    }
    let call = rest.trim_start().strip_prefix('.')?;
    let name = call.split(|c: char| !c.is_alphanumeric() && c != '_').next()?;
    SEARCHES.into_iter().find(|search| *search == name)
}

/// The length up to the parenthesis that closes one that is open.
fn closing(text: &str) -> Option<usize> {
    let mut depth = 1;
    text.char_indices().find_map(|(at, c)| {
        match c {
            '(' => depth += 1,
            ')' => depth -= 1,
            _ => {}
        }
        (depth == 0).then_some(at)
    })
}

/// A file without its inline tests and comments, its strings empty.
fn bare(text: &str) -> String {
    let text = text.split("#[cfg(test)]\nmod tests {").next().unwrap_or_default();
    let mut made = String::with_capacity(text.len());
    let mut characters = text.chars().peekable();
    let mut last = ' ';
    while let Some(c) = characters.next() {
        match c {
            '/' if characters.peek() == Some(&'/') => while characters.next_if(|c| *c != '\n').is_some() {},
            // A quote within single ones opens no string.
            '"' if last != '\'' || characters.peek() != Some(&'\'') => {
                while let Some(inner) = characters.next() {
                    match inner {
                        '\\' => _ = characters.next(),
                        '"' => break,
                        _ => {}
                    }
                }
                made.push_str("\"\"");
            }
            _ => made.push(c),
        }
        last = c;
    }
    without_visibilities(&made)
}

/// `pub(in crate::measure)` names a file, but takes nothing from it.
fn without_visibilities(text: &str) -> String {
    let mut parts = text.split("pub(in ");
    let mut made = parts.next().unwrap_or_default().to_owned();
    for part in parts {
        made.push_str("pub ");
        made.push_str(part.split_once(')').map_or(part, |(_, rest)| rest));
    }
    made
}
