//! The rig of a day: what was changed at the bank is made to the rig as a state
//! of the history has it, with the files of that same state.

use super::reader::Reader;
use crate::git::{Repository, Tree, TreeDisk, from_top, in_tree};
use snell_analysis::{Disk, Kind, Unread};
use snell_history::{Commit, FileRead, Outed, RigsOfDays, Seen, bare};
use snell_text::Markup;
use snell_view::compare::Card;
use std::collections::HashMap;
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// Works rigs of days out; the files of each state are asked for once.
pub struct Days<'d> {
    repository: &'d Repository,
    reader: &'d Reader<'d>,
    commits: &'d [Commit],
    /// The files of the last state: an outing may use what was written down after its day.
    last: &'d Tree,
    trees: HashMap<usize, Tree>,
}

impl<'d> Days<'d> {
    /// Days of a history.
    pub fn new(
        repository: &'d Repository,
        reader: &'d Reader<'d>,
        commits: &'d [Commit],
        last: &'d Tree,
    ) -> Self {
        Self {
            repository,
            reader,
            commits,
            last,
            trees: HashMap::new(),
        }
    }
}

impl RigsOfDays for Days<'_> {
    fn stood(&mut self, commit: usize, rig: &Seen) -> Option<Arc<Card>> {
        let notebook = self.reader.anew(Path::new(&rig.called.file), commit)?;
        bare(&notebook, rig)
    }

    /// Nothing where the state's files cannot be had.
    fn edited(&mut self, outing: &Outed, commit: usize, rig: &Seen) -> Option<Arc<Card>> {
        if !self.trees.contains_key(&commit) {
            let tree = self.repository.tree(&self.commits[commit].id).ok()?;
            self.trees.insert(commit, tree);
        }
        let tree = &self.trees[&commit];
        let path = PathBuf::from(&rig.called.file);
        let kind = Kind::of(&path)?;
        let text = self.reader.blobs.text(tree.get(&path)?).ok()?;
        let disk = DayDisk {
            path: path.clone(),
            day: TreeDisk::new(tree, self.reader.blobs),
            later: TreeDisk::new(self.last, self.reader.blobs),
        };
        let text = with_outing(&text, kind, outing, &rig.called.name, &path);
        let notebook = self.reader.analysis.of_text(&path, kind, text, &disk);
        let read = FileRead::of(&notebook);
        Some(read.outings.last()?.fished.clone())
    }
}

/// The text of a rig's file with an outing of the rig behind it, and with the files that the outing uses.
fn with_outing(text: &str, kind: Kind, outing: &Outed, rig: &str, path: &Path) -> String {
    let mut block = format!("outing {}\n  rig {rig}\n", outing.name);
    for line in &outing.lines {
        block.push_str(&format!("  {line}\n"));
    }
    match kind {
        Kind::Page(Markup::Markdown | Markup::Mdx | Markup::Quarto) => {
            format!("{text}\n\n```rig\n{block}```\n")
        }
        Kind::Page(Markup::AsciiDoc) => format!("{text}\n\n[source,rig]\n----\n{block}----\n"),
        Kind::Page(Markup::Restructured) => {
            let code: String = block.lines().map(|line| format!("   {line}\n")).collect();
            format!("{text}\n\n.. code-block:: rig\n\n{code}")
        }
        Kind::Published => format!("{text}\n<pre class=\"rig\">\n{block}</pre>\n"),
        Kind::Rig => {
            let used = outing.uses.iter().filter(|used| **used != outing.rig_file);
            let uses: String = used
                .filter(|used| Path::new(used) != path)
                .map(|used| format!("use \"{}\"\n", from_beside(path, used)))
                .collect();
            format!("{uses}{text}\n\n{block}")
        }
    }
}

/// A path from the top as a file says it.
fn from_beside(file: &Path, path: &str) -> String {
    let above = file.components().count().saturating_sub(1);
    format!("{}{}", "../".repeat(above), path.replace('\\', "/"))
}

/// The files of a state; what it has not yet, as the last state has it.
struct DayDisk<'t> {
    /// The file that is read with the outing.
    path: PathBuf,
    day: TreeDisk<'t>,
    later: TreeDisk<'t>,
}

impl Disk for DayDisk<'_> {
    fn read(&self, path: &Path) -> Result<String, Unread> {
        self.day.read(path).or_else(|_| self.later.read(path))
    }

    fn real(&self, path: &Path) -> Result<PathBuf, Unread> {
        let asked = from_top(path);
        if Some(asked.as_path()) == self.path.parent() {
            return Ok(in_tree(&asked));
        }
        self.day.real(path).or_else(|_| self.later.real(path))
    }

    fn project(&self, real: &Path) -> PathBuf {
        self.day.project(real)
    }
}
