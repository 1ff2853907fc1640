//! Which rig of one state is which of the other: by name, and where a name is
//! gone and another new, by likeness.

use super::cards::Card;
use super::pieces::Piece;
use super::place::place;
use rustc_hash::{FxHashMap, FxHashSet};
use snell_finding::Limit;
use std::path::{Path, PathBuf};

/// Two rigs are as good as one under a new name from this likeness on.
const ALIKE: f64 = 0.7;
/// More pairs than these are not weighed.
const MOST_PAIRS: usize = Limit::ComparedRigs.count();

/// Rigs that belong together.
#[derive(Debug, Default)]
pub struct Pairs {
    forth: FxHashMap<usize, usize>,
    back: FxHashMap<usize, usize>,
}

impl Pairs {
    /// The earlier rig of a later one.
    pub fn before(&self, now: usize) -> Option<usize> {
        self.back.get(&now).copied()
    }

    /// The later rig of an earlier one.
    pub fn after(&self, was: usize) -> Option<usize> {
        self.forth.get(&was).copied()
    }

    fn take(&mut self, was: usize, now: usize) {
        if !self.forth.contains_key(&was) && !self.back.contains_key(&now) {
            self.forth.insert(was, now);
            self.back.insert(now, was);
        }
    }
}

/// Rigs, and the file or folder that they were found below.
type Below<'s> = (&'s [Card], &'s Path);

/// Pairs the rigs of two states: those of one name in one file first, then those of one name, then by likeness.
pub(super) fn pairs(was: Below<'_>, now: Below<'_>) -> Pairs {
    let mut pairs = Pairs::default();
    let name = |card: &Card| card.shown.name.to_lowercase();
    let place = |root: &Path, card: &Card| (name(card), place(&card.shown.file, root).to_owned());
    by(&mut pairs, was, now, place);
    by(&mut pairs, was, now, |_, card| (name(card), PathBuf::new()));
    by_likeness(&mut pairs, was.0, now.0);
    pairs
}

fn by(pairs: &mut Pairs, was: Below<'_>, now: Below<'_>, key: impl Fn(&Path, &Card) -> (String, PathBuf)) {
    let mut known: FxHashMap<(String, PathBuf), Vec<usize>> = FxHashMap::default();
    for (at, card) in was.0.iter().enumerate() {
        if pairs.after(at).is_none() {
            known.entry(key(was.1, card)).or_default().push(at);
        }
    }
    for (to, card) in now
        .0
        .iter()
        .enumerate()
        .filter(|(to, _)| !pairs.back.contains_key(to))
        .collect::<Vec<_>>()
    {
        if let Some(at) = known
            .get_mut(&key(now.1, card))
            .filter(|all| !all.is_empty())
            .map(|all| all.remove(0))
        {
            pairs.take(at, to);
        }
    }
}

fn by_likeness(pairs: &mut Pairs, was: &[Card], now: &[Card]) {
    let gone: Vec<usize> = (0..was.len()).filter(|at| pairs.after(*at).is_none()).collect();
    let new: Vec<usize> = (0..now.len()).filter(|to| pairs.before(*to).is_none()).collect();
    let was: Vec<&Card> = gone.iter().map(|at| &was[*at]).collect();
    let now: Vec<&Card> = new.iter().map(|to| &now[*to]).collect();
    for (at, to) in alike(&was, &now) {
        pairs.take(gone[at], new[to]);
    }
}

/// Which rigs that are gone are as good as new ones under another name, as their numbers: the likest first, each
/// once.
pub fn alike(gone: &[&Card], new: &[&Card]) -> Vec<(usize, usize)> {
    if gone.len().saturating_mul(new.len()) > MOST_PAIRS {
        return Vec::new();
    }
    let mut alike: Vec<(f64, usize, usize)> = Vec::new();
    for (at, was) in gone.iter().enumerate() {
        for (to, now) in new.iter().enumerate() {
            let likeness = likeness(was, now);
            if likeness >= ALIKE {
                alike.push((likeness, at, to));
            }
        }
    }
    alike.sort_unstable_by(|one, other| {
        other
            .0
            .total_cmp(&one.0)
            .then((one.1, one.2).cmp(&(other.1, other.2)))
    });
    let (mut taken_gone, mut taken_new) = (FxHashSet::default(), FxHashSet::default());
    alike.retain(|(_, at, to)| {
        let free = !taken_gone.contains(at) && !taken_new.contains(to);
        if free {
            taken_gone.insert(*at);
            taken_new.insert(*to);
        }
        free
    });
    alike.into_iter().map(|(_, at, to)| (at, to)).collect()
}

/// How alike two rigs are, between nought and one: the share of their pieces that are the same, titles and
/// settings counted as one piece each.
fn likeness(was: &Card, now: &Card) -> f64 {
    let mut rest: Vec<&Piece> = now.pieces.iter().collect();
    let mut same = 0;
    for piece in was.pieces.iter() {
        if let Some(at) = rest
            .iter()
            .position(|other| piece.label == other.label && piece.equals(other))
        {
            rest.remove(at);
            same += 1;
        }
    }
    let said = now.says.iter().filter(|one| was.says.contains(one)).count();
    let title = usize::from(was.shown.title == now.shown.title);
    let all = was.pieces.len().max(now.pieces.len()) + was.says.len().max(now.says.len()) + 1;
    (same + said + title) as f64 / all as f64
}
