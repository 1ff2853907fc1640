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
    /// the commits without parents and the merges that join them. Parents are the nearest such commits.
    ///
    /// Git goes through all commits and leaves out none: what it leaves out by path may be the first parent of a
    /// merge, and then the line that the merge continues would be lost.
    ///
    /// # Errors
    /// Git says no.
    pub fn history(&self, revision: &str) -> Result<Vec<Step>, Trouble> {
        let format = "--format=%x01%H%x00%P%x00%aI%x00%at%x00%an%x00%s%x00";
        let mut command = self.command(["-c", "log.showRoot=true", "-c", "diff.renameLimit=2000", "log"]);
        command.args([
            "--full-history",
            "--sparse",
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
    // What stands for each commit: itself, or the nearest one before it that is kept.
    let mut known: HashMap<String, usize> = HashMap::new();
    let mut words = told.split('\0').peekable();
    while let Some(word) = words.next() {
        let Some(id) = word.trim_start_matches('\n').strip_prefix(OPEN) else {
            continue;
        };
        let mut next = || words.next().unwrap_or_default().to_owned();
        let (parents, when, time, who, subject) = (next(), next(), next(), next(), next());
        let mut step = Step {
            commit: Commit {
                id: id.to_owned(),
                parents: Vec::new(),
                when,
                time: time.parse().unwrap_or_default(),
                who,
                subject,
            },
            changed: Vec::new(),
            renames: Vec::new(),
        };
        for parent in parents.split(' ').filter_map(|parent| known.get(parent)) {
            if !step.commit.parents.contains(parent) {
                step.commit.parents.push(*parent);
            }
        }
        while let Some(about) = words.next_if(|word| !word.trim_start_matches('\n').starts_with(OPEN)) {
            if let Some(about) = about.trim_start_matches('\n').strip_prefix(':') {
                let path = words.next().unwrap_or_default();
                let renamed = about
                    .rsplit(' ')
                    .next()
                    .is_some_and(|status| status.starts_with(['R', 'C']));
                let new = if renamed { words.next() } else { None };
                change(&mut step, about, path, new);
            }
        }
        let same_as = match step.commit.parents.as_slice() {
            [only] if step.changed.is_empty() => Some(*only),
            _ => None,
        };
        known.insert(id.to_owned(), same_as.unwrap_or(steps.len()));
        if same_as.is_none() {
            steps.push(step);
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
