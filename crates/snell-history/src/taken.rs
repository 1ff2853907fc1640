//! Which state of a rig was fished on a day.

use super::line::{Stands, stands};
use crate::stood::Seen;
use crate::story::{Commit, Event, Happened, RigStory};
use snell_rig::day::Day;

/// Which state of a rig is taken for that of an outing; states as their numbers.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Taken {
    /// The outing was written down in this state, on its day.
    OnTheDay(usize),
    /// The outing was written down later; by its author's date this was the last state of that day.
    AsItStood(usize),
    /// The rig itself was written down only later: as it was written first.
    WrittenLater(usize),
    /// The history has no such rig: as the last state has it.
    Unknown,
}

impl Taken {
    /// The state that the rig is taken from; nothing where no state is as old as the outing.
    pub fn commit(self) -> Option<usize> {
        match self {
            Self::OnTheDay(commit) | Self::AsItStood(commit) => Some(commit),
            Self::WrittenLater(_) | Self::Unknown => None,
        }
    }

    /// The state that is looked at, as old as the outing or not.
    pub(super) fn state(self) -> Option<usize> {
        match self {
            Self::OnTheDay(commit) | Self::AsItStood(commit) | Self::WrittenLater(commit) => Some(commit),
            Self::Unknown => None,
        }
    }

    /// The word for it.
    pub fn word(self) -> &'static str {
        match self {
            Self::OnTheDay(_) => "written-on-the-day",
            Self::AsItStood(_) => "as-it-stood",
            Self::WrittenLater(_) => "rig-written-later",
            Self::Unknown => "as-it-is-now",
        }
    }
}

/// The states of a history, and where each stands.
pub(super) struct States<'c> {
    commits: &'c [Commit],
    stands: Vec<Stands>,
}

impl<'c> States<'c> {
    pub fn of(commits: &'c [Commit]) -> Self {
        Self {
            commits,
            stands: stands(commits),
        }
    }

    /// The state that joined the branch that a state is of; nothing on the line.
    pub fn joined(&self, commit: usize) -> Option<usize> {
        match self.stands[commit] {
            Stands::OnLine => None,
            Stands::Beside { joined } => Some(joined),
        }
    }

    /// The states of a branch, from one of them back to where it left the line; and the state of the line there.
    fn branch(&self, from: usize) -> (Vec<usize>, Option<usize>) {
        let mut branch = Vec::new();
        let mut next = Some(from);
        while let Some(at) = next.filter(|at| self.joined(*at).is_some()) {
            branch.push(at);
            next = self.commits[at].parents.first().copied();
        }
        (branch, next)
    }

    /// The state of a rig that was fished on a day; `written` is the state that the outing was written down in.
    pub fn taken(&self, day: Day, written: usize, story: &RigStory) -> Taken {
        let day = day.to_string();
        let first = story.stood.iter().find(|stood| stood.rig.is_some());
        let is_there = |at: usize| self.rig(story, at).is_some();
        if self.commits[written].day() == day && is_there(written) {
            return Taken::OnTheDay(written);
        }
        let by_then = |at: &usize| self.commits[*at].day() <= day.as_str();
        let (branch, _) = self.branch(written);
        // Nearest first: an outing of a branch was fished with what the branch had by then.
        if let Some(at) = branch.into_iter().find(by_then).filter(|at| is_there(*at)) {
            return Taken::AsItStood(at);
        }
        let line = (0..self.commits.len()).filter(|at| self.stands[*at] == Stands::OnLine);
        let last = line
            .filter(by_then)
            .max_by_key(|at| (self.commits[*at].time, *at));
        match (first, last) {
            (None, _) => Taken::Unknown,
            (Some(first), Some(last)) if first.commit <= last => Taken::AsItStood(last),
            (Some(first), Some(_) | None) => Taken::WrittenLater(first.commit),
        }
    }

    /// The rig as it could be found last, up to a state, with the state that it was read in.
    pub fn rig<'s>(&self, story: &'s RigStory, commit: usize) -> Option<(usize, &'s Seen)> {
        let (branch, line) = self.branch(commit);
        // The last that happened to it on the branch; where it was dropped there, there was none.
        let happened = |at: &usize| {
            let mut events = story.sides.iter().flat_map(|side| &side.events);
            // What cannot be read is taken to be as it was.
            let is_read = |event: &&Event| !matches!(event.what, Happened::Unreadable);
            let last = events.rfind(|event| event.commit == *at && is_read(event))?;
            Some((!matches!(last.what, Happened::Dropped)).then_some((last.commit, &*last.rig)))
        };
        branch.iter().find_map(happened).unwrap_or_else(|| {
            let line = line?;
            let up_to = story.stood.iter().rev().filter(|stood| stood.commit <= line);
            up_to
                .into_iter()
                .find_map(|stood| Some((stood.commit, stood.rig.as_deref()?)))
        })
    }
}
