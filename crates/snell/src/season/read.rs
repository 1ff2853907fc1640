//! Goes through the history of a repository, and tells what is asked of it.

use super::ahead::Ahead;
use super::day::Days;
use super::estimates;
use super::reader::Reader;
use super::state::{State, States};
use crate::git::{Blobs, Repository};
use crate::progress::Progress;
use crate::trouble::Trouble;
use schemars::JsonSchema;
use serde::Serialize;
use snell_history::{
    Commit, Entered, Fished, Followed, History, OnDay, Outed, RigStory, Suggested, fished, suggested,
};
use std::collections::HashMap;
use std::path::Path;
use std::thread;

/// What the history says of rigs.
#[derive(Debug)]
pub struct Season {
    /// The commits that changed a rig file or a page, and the merges that join them.
    pub commits: Vec<Commit>,
    /// What became of each rig.
    pub rigs: Vec<RigStory>,
    /// The outings of the last commit.
    pub fished: Fished,
    /// What those outings suggest.
    pub suggested: Vec<Suggested>,
    /// Whether rigs are told that nothing happened to since they were written down.
    every: bool,
    /// What it took.
    pub counted: Counted,
    /// Whether the clone lacks older commits, so that what is told as born may be older.
    pub cut_short: bool,
    /// Whether commits stand for others that were committed, so that the history is told as they have it.
    pub grafted: bool,
}

/// What reading took.
#[derive(Clone, Copy, Debug, Default, Serialize, JsonSchema)]
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

/// So few rigs are all told, whether something happened to them or not.
const FEW: usize = 3;

/// What is asked of a history.
#[derive(Debug)]
pub struct Wanted<'w> {
    /// The file or folder whose rigs are told, from the top of the working tree.
    pub below: &'w Path,
    /// The rigs that are told, by any name that they had; all where none is named.
    pub rigs: &'w [String],
    /// What is followed of them.
    pub followed: Followed<'w>,
}

/// Reads the history that ends at a revision; of the rigs, those whose file lies, or lay last, below a path.
///
/// # Errors
/// Git says no, a text cannot be had, or there is no such rig.
pub fn read(repository: &Repository, revision: &str, wanted: &Wanted<'_>) -> Result<Season, Trouble> {
    let steps = repository.history(revision)?;
    let blobs = Blobs::of(repository)?;
    let commits: Vec<Commit> = steps.iter().map(|step| step.commit.clone()).collect();
    let mut reader = Reader::new(&blobs);
    let mut history = History::of(&commits, wanted.followed);
    let mut entered: HashMap<(String, String), (usize, Outed)> = HashMap::new();
    let mut progress = Progress::new();
    let last = thread::scope(|scope| {
        let ahead = Ahead::of(scope, &blobs, (&steps, &commits), reader.analysis.clone());
        let mut states = States::of(&commits);
        for (number, step) in steps.iter().enumerate() {
            progress.tell(number, steps.len(), "commits read");
            let mut state = states.first_parent(&step.commit);
            let opened = ahead.as_ref().map(Ahead::next).unwrap_or_default();
            let changed = reader.step(&mut state, step, opened)?;
            history.step(number, &step.commit, &changed);
            reader.keep(number, history.on_line(number), &state, &changed);
            let read = changed.files.values().flatten();
            for outing in read.flat_map(|read| &read.outings) {
                let first = || (number, outing.clone());
                entered.entry(key(outing)).or_insert_with(first);
            }
            states.put(number, &step.commit, state);
        }
        Ok::<State, Trouble>(states.last(steps.len().saturating_sub(1)))
    });
    let last = last?;
    let counted = Counted {
        commits: steps.len(),
        texts: blobs.count(),
        files: reader.files,
        rigs: reader.analysis.worked_out(),
    };
    let rigs = history.finish(&commits);
    let read = last
        .read
        .iter()
        .filter(|(path, _)| path.starts_with(wanted.below));
    let outings = read.flat_map(|(_, known)| known.read.outings.iter().cloned());
    let outings = outings.map(|outing| {
        // What the last state has, some state brought.
        let first = entered.get(&key(&outing)).cloned();
        let (commit, first) = first.unwrap_or_else(|| (steps.len() - 1, outing.clone()));
        Entered {
            outing,
            commit,
            called: first.rig,
            stood_in: first.rig_file,
        }
    });
    let mut rigs_of_days = Days::new(repository, &reader, &commits, &last.ids);
    let days = fished(outings, &rigs, &commits, &mut rigs_of_days);
    let mut season = Season {
        suggested: suggested(&days),
        every: false,
        fished: Fished::of(days, &rigs),
        commits,
        rigs,
        counted,
        cut_short: repository.is_shallow()?,
        grafted: repository.is_grafted()?,
    };
    season.lies_below(wanted.below);
    season.choose(wanted.rigs)?;
    season.every = !wanted.rigs.is_empty() || season.rigs.len() <= FEW;
    let told: Vec<bool> = season.rigs.iter().map(|rig| season.is_told(rig)).collect();
    for (at, (story, is_told)) in season.rigs.iter_mut().zip(&told).enumerate() {
        progress.tell(at, told.len(), "rigs followed");
        estimates::follow(story, &reader, wanted.followed.figures, *is_told);
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

    /// Whether a rig is told by itself; of the others a line is enough.
    pub fn is_told(&self, story: &RigStory) -> bool {
        let is_read = story.last().is_none_or(|rig| rig.sound);
        self.every || story.has_changed() || !story.alive || !is_read
    }

    /// Leaves the rigs whose file lies below a path. A file that is gone still tells the rigs that left it for another.
    fn lies_below(&mut self, below: &Path) {
        let lies = |path: &str| Path::new(path).starts_with(below);
        let lay = |story: &RigStory| story.all_events().any(|event| lies(&event.rig.called.file));
        match self.rigs.iter().any(|story| lies(&story.file)) {
            true => self.leave(|story| lies(&story.file)),
            false => self.leave(lay),
        }
    }

    /// Leaves the rigs that are named, by any name that they had, and their outings.
    fn choose(&mut self, wanted: &[String]) -> Result<(), Trouble> {
        if wanted.is_empty() {
            return Ok(());
        }
        let same = |one: &str, other: &str| one.to_lowercase() == other.to_lowercase();
        for name in wanted {
            let names = || self.rigs.iter().flat_map(RigStory::names);
            if !names().any(|other| same(other, name)) {
                return Err(Trouble::Unknown {
                    what: "rig",
                    name: name.clone(),
                    places: "the history".to_owned(),
                    near: snell_units::nearest(name, names()).map(str::to_owned),
                });
            }
        }
        let is_named = |story: &RigStory| {
            let names = story.names();
            names
                .iter()
                .any(|other| wanted.iter().any(|name| same(other, name)))
        };
        let named: Vec<bool> = self.rigs.iter().map(is_named).collect();
        let days = std::mem::take(&mut self.fished).days.into_iter();
        let days: Vec<OnDay> = days.filter(|day| day.rig.is_some_and(|rig| named[rig])).collect();
        self.suggested = suggested(&days);
        self.fished = Fished::of(days, &self.rigs);
        self.leave(is_named);
        Ok(())
    }

    /// Leaves the rigs that are wanted. Outings name rigs by number, and those are made anew.
    fn leave(&mut self, wanted: impl Fn(&RigStory) -> bool) {
        let mut next = 0;
        let number = |story: &RigStory| {
            wanted(story).then(|| {
                next += 1;
                next - 1
            })
        };
        let numbers: Vec<Option<usize>> = self.rigs.iter().map(number).collect();
        for day in &mut self.fished.days {
            day.rig = day.rig.and_then(|rig| numbers[rig]);
        }
        self.rigs.retain(wanted);
    }
}
