//! Goes through the history of a repository, reading only what changed.
//!
//! A file is read anew where it changed, or one that it uses did. What was read
//! once in the same words, with the same files used, is not read again.

use super::day::Days;
use crate::git::{Blobs, Repository, Step, Tree, TreeDisk};
use crate::progress::Progress;
use crate::trouble::Trouble;
use serde::Serialize;
use snell_analysis::Analysis;
use snell_history::{Changed, Commit, Entered, FileRead, Fished, OnDay, Outed, RigStory, Teller, fished};
use std::collections::{BTreeMap, HashMap};
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// What the history says of rigs.
#[derive(Debug)]
pub struct Season {
    /// The commits that changed a rig file or a page, and the merges that join them.
    pub commits: Vec<Commit>,
    /// What became of each rig.
    pub rigs: Vec<RigStory>,
    /// The outings of the last commit.
    pub fished: Fished,
    /// What it took.
    pub counted: Counted,
    /// Whether the clone lacks older commits, so that what is told as born may be older.
    pub cut_short: bool,
}

/// What reading took.
#[derive(Clone, Copy, Debug, Default, Serialize)]
pub struct Counted {
    /// Commits gone through.
    pub commits: usize,
    /// Texts asked of git.
    pub texts: usize,
    /// Files read: each state of a file and of those that it uses counts once.
    pub files: usize,
    /// Rigs worked out: each state of a rig and of what it stands on counts once.
    pub rigs: usize,
}

/// A file as it was read, and the paths that were asked for on the way.
struct Known {
    read: Arc<FileRead>,
    asked: BTreeMap<PathBuf, Option<String>>,
}

/// The files of one commit.
#[derive(Clone, Default)]
struct State {
    ids: Tree,
    read: BTreeMap<PathBuf, Arc<Known>>,
}

/// Reads the history that ends at a revision; of the rigs, those whose file lies, or lay last, below a path.
///
/// # Errors
/// Git says no, or a text cannot be had.
pub fn read(repository: &Repository, revision: &str, below: &Path) -> Result<Season, Trouble> {
    let steps = repository.history(revision)?;
    let blobs = Blobs::of(repository)?;
    let commits: Vec<Commit> = steps.iter().map(|step| step.commit.clone()).collect();
    let mut reader = Reader {
        blobs: &blobs,
        known: HashMap::new(),
        analysis: Analysis::default(),
        files: 0,
    };
    let mut teller = Teller::of(&commits);
    let mut states = States::of(&commits);
    let mut entered: HashMap<(String, String), usize> = HashMap::new();
    let mut progress = Progress::new();
    for (number, step) in steps.iter().enumerate() {
        progress.tell(number, steps.len(), "commits read");
        let mut state = states.first_parent(&step.commit);
        let changed = reader.step(&mut state, step)?;
        teller.tell(number, &step.commit, &changed);
        if teller.on_line(number) {
            let read = changed.files.values().flatten();
            for outing in read.flat_map(|read| &read.outings) {
                entered.entry(key(outing)).or_insert(number);
            }
        }
        states.put(number, &step.commit, state);
    }
    drop(progress);
    let counted = Counted {
        commits: steps.len(),
        texts: blobs.count(),
        files: reader.files,
        rigs: reader.analysis.worked_out(),
    };
    let last = steps
        .len()
        .checked_sub(1)
        .and_then(|last| states.kept.remove(&last))
        .unwrap_or_default();
    let rigs = teller.finish(&commits);
    let lies = |path: &str| Path::new(path).starts_with(below);
    let read = last.read.iter().filter(|(path, _)| path.starts_with(below));
    let outings = read.flat_map(|(_, known)| known.read.outings.iter().cloned());
    let outings = outings.map(|outing| Entered {
        // What the last state has, some state of the line brought.
        commit: entered.get(&key(&outing)).copied().unwrap_or(steps.len() - 1),
        outing,
    });
    let mut at_the_bank = Days::new(repository, &blobs, &reader.analysis, &commits, &last.ids);
    let days = fished(outings, &rigs, &commits, &mut |outing, commit, rig| {
        at_the_bank.rigged(outing, commit, rig)
    });
    let mut season = Season {
        fished: Fished::of(days, &rigs),
        commits,
        rigs,
        counted,
        cut_short: repository.is_shallow()?,
    };
    let lay = |story: &RigStory| story.all_events().any(|event| lies(&event.card.shown.file));
    let here = season.rigs.iter().any(|story| lies(&story.file));
    // A file that is gone still tells the rigs that left it for another.
    match here {
        true => season.below(|story| lies(&story.file)),
        false => season.below(lay),
    }
    Ok(season)
}

/// What an outing is known by through a history.
fn key(outing: &Outed) -> (String, String) {
    (outing.name.to_lowercase(), outing.day.to_string())
}

impl Season {
    /// The first day of the history and the last; nothing where there is none.
    pub fn span(&self) -> Option<(&str, &str)> {
        let days = || self.commits.iter().map(Commit::day);
        days().min().zip(days().max())
    }

    /// Leaves the rigs that are wanted, and their outings.
    pub fn only(&mut self, wanted: impl Fn(&RigStory) -> bool) {
        let named: Vec<bool> = self.rigs.iter().map(&wanted).collect();
        let days = std::mem::take(&mut self.fished).days.into_iter();
        let days: Vec<OnDay> = days.filter(|day| day.rig.is_some_and(|rig| named[rig])).collect();
        self.fished = Fished::of(days, &self.rigs);
        self.below(wanted);
    }

    /// Leaves the rigs that are wanted. Outings name rigs by number, and those are made anew.
    fn below(&mut self, wanted: impl Fn(&RigStory) -> bool) {
        let mut next = 0;
        let numbers: Vec<Option<usize>> = self
            .rigs
            .iter()
            .map(|story| {
                wanted(story).then(|| {
                    next += 1;
                    next - 1
                })
            })
            .collect();
        for day in &mut self.fished.days {
            day.rig = day.rig.and_then(|rig| numbers[rig]);
        }
        self.rigs.retain(wanted);
    }
}

/// The states that later commits are still to be made from.
struct States {
    kept: HashMap<usize, State>,
    children: Vec<usize>,
}

impl States {
    fn of(commits: &[Commit]) -> Self {
        let mut children = vec![0; commits.len()];
        for parent in commits.iter().flat_map(|commit| &commit.parents) {
            children[*parent] += 1;
        }
        Self {
            kept: HashMap::new(),
            children,
        }
    }

    /// The state that a commit began from: moved where no other commit is to be made from it, so that a long
    /// history is not copied at each of its steps.
    fn first_parent(&mut self, commit: &Commit) -> State {
        let Some(first) = commit.parents.first() else {
            return State::default();
        };
        let state = if self.children[*first] == 1 {
            self.kept.remove(first)
        } else {
            self.kept.get(first).cloned()
        };
        state.unwrap_or_default()
    }

    fn put(&mut self, number: usize, commit: &Commit, state: State) {
        for parent in &commit.parents {
            self.children[*parent] -= 1;
            if self.children[*parent] == 0 {
                self.kept.remove(parent);
            }
        }
        self.kept.insert(number, state);
    }
}

struct Reader<'b> {
    blobs: &'b Blobs,
    /// What was read of a text at a path, once for each set of files that it used.
    known: HashMap<(PathBuf, String), Vec<Arc<Known>>>,
    analysis: Analysis,
    files: usize,
}

impl Reader<'_> {
    /// Makes a commit's changes to the state of its first parent, and tells which files read differently.
    fn step(&mut self, state: &mut State, step: &Step) -> Result<Changed, Trouble> {
        for (path, id) in &step.changed {
            match id {
                Some(id) => state.ids.insert(path.clone(), id.clone()),
                None => state.ids.remove(path),
            };
        }
        let touched = |path: &Path| step.changed.iter().any(|(changed, _)| changed == path);
        let uses = |known: &Known| known.asked.keys().any(|path| touched(path));
        let own = step.changed.iter().map(|(path, _)| path.clone());
        let users = state
            .read
            .iter()
            .filter(|(_, known)| uses(known))
            .map(|(path, _)| path.clone());
        let mut paths: Vec<PathBuf> = own.chain(users).collect();
        paths.sort();
        paths.dedup();
        let mut changed = Changed {
            renames: step.renames.clone(),
            ..Changed::default()
        };
        for path in paths {
            let read = match state.ids.get(&path).cloned() {
                Some(id) => Some(self.file(&state.ids, &path, id)?),
                None => None,
            };
            match &read {
                Some(known) => state.read.insert(path.clone(), known.clone()),
                None => state.read.remove(&path),
            };
            changed.files.insert(path, read.map(|known| known.read.clone()));
        }
        Ok(changed)
    }

    fn file(&mut self, ids: &Tree, path: &Path, id: String) -> Result<Arc<Known>, Trouble> {
        let key = (path.to_owned(), id);
        let as_now = |known: &&Arc<Known>| known.asked.iter().all(|(path, id)| ids.get(path) == id.as_ref());
        if let Some(known) = self.known.get(&key).and_then(|all| all.iter().find(as_now)) {
            return Ok(known.clone());
        }
        let disk = TreeDisk::new(ids, self.blobs);
        let notebook = self.analysis.open(&[path.to_owned()], &disk)?;
        self.files += 1;
        let known = Arc::new(Known {
            read: Arc::new(FileRead::of(&notebook)),
            asked: disk.asked(),
        });
        self.known.entry(key).or_default().push(known.clone());
        Ok(known)
    }
}
