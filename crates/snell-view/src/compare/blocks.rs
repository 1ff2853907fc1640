//! Blocks other than rigs, line by line: what a change of a fly or a spool says
//! where no rig shows it.

use crate::compare::change::Change;
use crate::compare::place::place;
use schemars::JsonSchema;
use serde::Serialize;
use snell_analysis::Notebook;
use snell_rig::World;
use snell_rig::blocks::{line_key, lineage, merged};
use snell_rig::faults::Faults;
use snell_rig::project::BlockRef;
use snell_syntax::BlockKind;
use std::path::Path;

/// A block that is no rig.
#[derive(Clone, Debug, PartialEq)]
pub struct OtherBlock {
    /// The word that opens it.
    pub kind: &'static str,
    /// Its name.
    pub name: String,
    /// Its title for people.
    pub title: Option<String>,
    /// The file that it stands in.
    pub file: String,
    lines: Vec<(String, String)>,
    sound: bool,
}

impl OtherBlock {
    /// Its first line.
    pub fn head(&self) -> String {
        let title = self
            .title
            .as_ref()
            .map_or_else(String::new, |title| format!(" \"{title}\""));
        format!("{} {}{title}", self.kind, self.name)
    }

    /// Its lines, those of its bases too, each as key and text.
    pub fn lines(&self) -> impl Iterator<Item = String> + '_ {
        self.lines
            .iter()
            .map(|(key, text)| format!("{key} {text}").trim_end().to_owned())
    }
}

/// What happened to a block.
#[derive(Clone, Debug, Serialize, JsonSchema, PartialEq)]
pub struct BlockChange {
    /// The word that opens it.
    pub kind: &'static str,
    /// Its name.
    pub name: String,
    /// Its title for people.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub title: Option<String>,
    /// Whether it is `new`, `gone` or `changed`.
    pub what: &'static str,
    /// What could not be read whole; no line is told then.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub partly_read: Option<Partly>,
    /// The lines that changed; none of a block that is new, gone or not read whole.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub lines: Vec<Line>,
}

/// A line of a block that changed.
#[derive(Clone, Debug, Serialize, JsonSchema, PartialEq)]
pub struct Line {
    /// Its key.
    pub key: String,
    /// What it said.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub was: Option<String>,
    /// What it says.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub now: Option<String>,
}

/// Every block of a notebook's own that is no rig.
pub fn other_blocks(notebook: &Notebook) -> Vec<OtherBlock> {
    let world = World::new(notebook.project());
    let project = world.project;
    let own = project.files().filter(|file| !project.ships(*file));
    own.flat_map(|file| project.blocks(file))
        .filter_map(|block| other(notebook, &world, block))
        .collect()
}

fn other<'p>(notebook: &Notebook, world: &World<'p>, block: BlockRef<'p>) -> Option<OtherBlock> {
    let head = block.head().filter(|head| head.kind != BlockKind::Rig)?;
    let bases = lineage(&world.names, block).unwrap_or_else(|_| vec![block]);
    let lines = merged(&bases, &Faults::default()).into_iter().map(|line| {
        let key = line_key(line).0.to_owned();
        (key, line.behind_key())
    });
    Some(OtherBlock {
        kind: head.kind.word(),
        name: head.name.folded.to_string(),
        title: block.title().map(str::to_owned),
        file: notebook
            .document(block.source.file.text)
            .map(|document| document.path.display().to_string())
            .unwrap_or_default(),
        lines: lines.collect(),
        sound: bases.iter().all(|block| !block.block.broken),
    })
}

/// Blocks, and the file or folder that they were found below.
type Below<'s> = (&'s [OtherBlock], &'s Path);

/// The earlier block of each later one: of one name in one file, else of one name in any.
fn befores(was: Below<'_>, now: Below<'_>) -> Vec<Option<usize>> {
    let mut befores: Vec<Option<usize>> = vec![None; now.0.len()];
    let same_place =
        |one: &OtherBlock, other: &OtherBlock| place(&one.file, was.1) == place(&other.file, now.1);
    for in_one_file in [true, false] {
        for (to, block) in now.0.iter().enumerate() {
            if befores[to].is_some() {
                continue;
            }
            befores[to] = was.0.iter().enumerate().position(|(at, other)| {
                (other.kind, &other.name) == (block.kind, &block.name)
                    && (!in_one_file || same_place(other, block))
                    && !befores.contains(&Some(at))
            });
        }
    }
    befores
}

pub(super) fn compare(was: Below<'_>, now: Below<'_>) -> Vec<BlockChange> {
    let befores = befores(was, now);
    let told = |block: &OtherBlock, what| BlockChange {
        kind: block.kind,
        name: block.name.clone(),
        title: block.title.clone(),
        what,
        partly_read: None,
        lines: Vec::new(),
    };
    let mut changes = Vec::new();
    for (block, before) in now.0.iter().zip(&befores) {
        match before.map(|at| &was.0[at]) {
            None => changes.push(told(block, "new")),
            Some(before) => {
                let partly_read = Partly::of(before.sound, block.sound);
                let lines = match partly_read {
                    None => lines(before, block),
                    Some(_) => Vec::new(),
                };
                if !lines.is_empty() || before.sound != block.sound {
                    changes.push(BlockChange {
                        partly_read,
                        lines,
                        ..told(block, "changed")
                    });
                }
            }
        }
    }
    let gone = was.0.iter().enumerate();
    let gone = gone.filter(|(at, _)| !befores.contains(&Some(*at)));
    changes.extend(gone.map(|(_, block)| told(block, "gone")));
    changes
}

fn lines(was: &OtherBlock, now: &OtherBlock) -> Vec<Line> {
    let mut gone: Vec<_> = was
        .lines
        .iter()
        .filter(|line| !now.lines.contains(line))
        .collect();
    let new = now.lines.iter().filter(|line| !was.lines.contains(line));
    let mut lines = Vec::new();
    for (key, text) in new {
        let before = gone.iter().position(|(other, _)| other == key);
        lines.push(Line {
            key: key.clone(),
            was: before.map(|at| gone.remove(at).1.clone()),
            now: Some(text.clone()),
        });
    }
    lines.extend(gone.into_iter().map(|(key, text)| Line {
        key: key.clone(),
        was: Some(text.clone()),
        now: None,
    }));
    if was.title != now.title {
        lines.push(Line {
            key: "title".to_owned(),
            was: was.title.clone(),
            now: now.title.clone(),
        });
    }
    lines
}

/// Which states of a rig could not be read whole. What such a state lacks may be there all the same, so it is not
/// told as put in or left out, nor are measures told.
#[derive(Clone, Copy, Debug, Serialize, JsonSchema, PartialEq, Eq)]
#[serde(rename_all = "kebab-case")]
pub enum Partly {
    /// As it was.
    Was,
    /// As it is.
    Now,
    /// Neither.
    Both,
}

impl Partly {
    pub(super) fn of(was_sound: bool, now_sound: bool) -> Option<Self> {
        match (was_sound, now_sound) {
            (true, true) => None,
            (false, true) => Some(Self::Was),
            (true, false) => Some(Self::Now),
            (false, false) => Some(Self::Both),
        }
    }

    /// Whether what one of the two states seems to lack may be there unread.
    fn hides(self, lacks_was: bool, lacks_now: bool) -> bool {
        lacks_was && self != Self::Now || lacks_now && self != Self::Was
    }

    pub(super) fn hides_change(self, change: &Change) -> bool {
        match change {
            Change::Added { .. } => self.hides(true, false),
            Change::Removed { .. } => self.hides(false, true),
            Change::Says { was, now, .. } => self.hides(was.is_none(), now.is_none()),
            Change::Moved { .. }
            | Change::Split { .. }
            | Change::Joined { .. }
            | Change::Role { .. }
            | Change::Label { .. }
            | Change::Altered { .. } => false,
        }
    }
}
