//! The commits of a repository and the rig files that each changed, as one run
//! of `git log` tells them.

use super::program;
use super::tree::is_text;
use crate::git::repository::Repository;
use crate::trouble::Trouble;
use snell_history::Commit;
use std::collections::HashMap;
use std::path::{Path, PathBuf};

/// A commit with what it changed beside its first parent.
#[derive(Debug)]
pub struct Step {
    /// The commit.
    pub commit: Commit,
    /// Rig files and pages that changed: the id of what is there now; nothing where the file is gone.
    pub changed: Vec<(PathBuf, Option<String>)>,
    /// Files that were renamed: the old path and the new.
    pub renames: Vec<(PathBuf, PathBuf)>,
}

/// Opens what is told of a commit; no path and no id begins so.
const OPEN: char = '\u{1}';

/// Files that snell reads, wherever they lie.
const FILES: [&str; 3] = [
    ":(glob,icase)**/*.rig",
    ":(glob,icase)**/*.md",
    ":(glob,icase)**/*.markdown",
];

impl Repository {
    /// Every commit that a revision was made from and that changed a rig file or a page, the first one first, and
    /// the merges that join them. Parents are the nearest such commits.
    ///
    /// # Errors
    /// Git says no.
    pub fn history(&self, revision: &str) -> Result<Vec<Step>, Trouble> {
        let format = "--format=%x01%H%x00%P%x00%aI%x00%an%x00%s%x00";
        let mut command = self.command(["-c", "log.showRoot=true", "-c", "diff.renameLimit=2000", "log"]);
        command.args([
            "--full-history",
            "--parents",
            "--topo-order",
            "--reverse",
            "--no-color",
        ]);
        command.args([
            "--raw",
            "--no-abbrev",
            "-M",
            "-z",
            "--diff-merges=first-parent",
            "--no-ext-diff",
            "--no-textconv",
            "--no-show-signature",
        ]);
        command.args([format, revision, "--"]).args(FILES);
        let told = program::run(command)?.map_err(Trouble::Git)?;
        Ok(steps(&String::from_utf8_lossy(&told)))
    }
}

fn steps(told: &str) -> Vec<Step> {
    let mut steps: Vec<Step> = Vec::new();
    let mut known: HashMap<String, usize> = HashMap::new();
    let mut words = told.split('\0');
    while let Some(word) = words.next() {
        let word = word.trim_start_matches('\n');
        if let Some(id) = word.strip_prefix(OPEN) {
            let mut next = || words.next().unwrap_or_default().to_owned();
            let (parents, when, who, subject) = (next(), next(), next(), next());
            known.insert(id.to_owned(), steps.len());
            let parents = parents.split(' ').filter_map(|parent| known.get(parent).copied());
            steps.push(Step {
                commit: Commit {
                    id: id.to_owned(),
                    parents: parents.collect(),
                    when,
                    who,
                    subject,
                },
                changed: Vec::new(),
                renames: Vec::new(),
            });
        } else if let (Some(about), Some(step)) = (word.strip_prefix(':'), steps.last_mut()) {
            let path = words.next().unwrap_or_default();
            let renamed = about
                .rsplit(' ')
                .next()
                .is_some_and(|status| status.starts_with(['R', 'C']));
            let new = if renamed { words.next() } else { None };
            change(step, about, path, new);
        }
    }
    steps
}

/// One entry: `OLD-MODE NEW-MODE OLD-ID NEW-ID STATUS`, its path, the new path of a renamed one.
/// Source: git-diff(1), RAW OUTPUT FORMAT.
fn change(step: &mut Step, about: &str, path: &str, new: Option<&str>) {
    let mut words = about.split(' ');
    let (Some(_), Some(mode), Some(_), Some(id), Some(status)) = (
        words.next(),
        words.next(),
        words.next(),
        words.next(),
        words.next(),
    ) else {
        return;
    };
    let here = Path::new(new.unwrap_or(path));
    if new.is_some() && status.starts_with('R') {
        step.changed.push((PathBuf::from(path), None));
        step.renames.push((PathBuf::from(path), here.to_owned()));
    }
    let there = !status.starts_with('D') && is_text(mode, here);
    step.changed.push((here.to_owned(), there.then(|| id.to_owned())));
}
