//! The sure mends of files: made in memory and judged there, then written.
//!
//! A mend is taken where it is its finding's only one and needs no choice. It
//! is kept only if what it mends is gone; one that a rule proposes must raise
//! nothing anywhere. How a finding comes to its mend is not known here.

mod memory;

use crate::trouble::Trouble;
use memory::Memory;
use snell_analysis::{Notebook, Wanted};
use snell_article::examine;
use snell_finding::{Edit, Finding, Fix};
use snell_text::{Place, Span, TextId};
use std::collections::{BTreeMap, HashMap, HashSet};
use std::path::{Path, PathBuf};

/// A mend may show the next slip; after so many rounds what is left is left.
const ROUNDS: usize = 32;

/// What came of mending.
#[derive(Debug, Default)]
pub struct Mended {
    /// The files that were changed, and how many mends went into each.
    pub files: Vec<(PathBuf, usize)>,
    /// Mends that were not made, each with why.
    pub left: Vec<String>,
    /// Files that could not be changed.
    pub troubles: Vec<Trouble>,
}

/// Mends files and those that they use.
///
/// # Errors
/// A file is not there or is refused. Nothing was changed then.
pub fn mend(files: &[PathBuf]) -> Result<Mended, Trouble> {
    let memory = Memory::default();
    let mut state = State::read(files, &memory)?;
    let mut left: Vec<(Slip, String)> = Vec::new();
    let mut rounds = 0;
    while rounds < ROUNDS {
        let mends = state.mends(&left);
        if mends.is_empty() {
            break;
        }
        let mut share = mends.as_slice();
        let next = loop {
            let before = memory.make(&state.notebook, share.iter().map(|chosen| chosen.fix));
            let after = State::read(files, &memory)?;
            match objection(&state, &after, share) {
                None => break Some(after),
                Some(objection) => {
                    memory.put_back(before);
                    let blamed = if share.len() == 1 {
                        vec![(0, objection.why)]
                    } else {
                        objection.blamed
                    };
                    if !blamed.is_empty() {
                        left.extend(
                            blamed
                                .into_iter()
                                .map(|(index, why)| (share[index].slip.clone(), why)),
                        );
                        break None;
                    }
                }
            }
            // Some of them are to blame: the others must not suffer for it.
            share = &share[..share.len().div_ceil(2)];
        };
        if let Some(after) = next {
            state = after;
            rounds += 1;
        }
    }
    let mut mended = memory.write();
    mended.left = left
        .into_iter()
        .map(|(slip, why)| format!("{slip}, {why}"))
        .collect();
    Ok(mended)
}

/// What a mend is for, told apart from all others whatever its place.
#[derive(Clone, PartialEq, Eq, Hash, Debug)]
struct Slip {
    file: PathBuf,
    rig: Option<String>,
    code: String,
    message: String,
    title: String,
}

impl std::fmt::Display for Slip {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "`{}` was not made in {}", self.title, self.file.display())
    }
}

/// A mend that is to be made.
struct Chosen<'f> {
    slip: Slip,
    fix: &'f Fix,
    /// Whether a rule proposes it, not a reader of the text.
    by_rule: bool,
}

/// Files as they stand in memory, with what was found in them.
struct State {
    notebook: Notebook,
    findings: Vec<Finding>,
}

impl State {
    fn read(files: &[PathBuf], memory: &Memory) -> Result<Self, Trouble> {
        let notebook = Notebook::open(files, memory)?;
        let findings = examine(&notebook, Wanted::Found).findings;
        Ok(Self { notebook, findings })
    }

    fn file(&self, finding: &Finding) -> PathBuf {
        let document = self.notebook.document(finding.place().text);
        document.map(|document| document.path.clone()).unwrap_or_default()
    }

    /// The mends of one round, none on a line that another one touches. What can be read wrong goes first:
    /// a rule judges what is left. Of the mends that rules propose each rig gets one, since each was found alone.
    fn mends(&self, left: &[(Slip, String)]) -> Vec<Chosen<'_>> {
        let sure = self
            .findings
            .iter()
            .filter_map(|finding| match finding.fixes.as_slice() {
                [fix] if fix.sure && self.may_change(fix) => Some((finding, fix)),
                _ => None,
            });
        let chosen = sure.map(|(finding, fix)| Chosen {
            slip: Slip {
                file: self.file(finding),
                rig: finding.rig.clone(),
                code: finding.code.to_string(),
                message: finding.message.clone(),
                title: fix.title.clone(),
            },
            fix,
            by_rule: finding.code.known().is_none(),
        });
        let (by_rules, by_reading): (Vec<_>, Vec<_>) = chosen
            .filter(|chosen| !left.iter().any(|(slip, _)| *slip == chosen.slip))
            .partition(|chosen| chosen.by_rule);
        let mut lines = HashSet::new();
        let mut rigs = HashSet::new();
        let round = if by_reading.is_empty() {
            by_rules
        } else {
            by_reading
        };
        let free = |chosen: &Chosen<'_>| {
            let touched: Vec<_> = chosen
                .fix
                .edits
                .iter()
                .flat_map(|edit| self.lines(edit))
                .collect();
            let free = !touched.iter().any(|line| lines.contains(line));
            let rig = (chosen.slip.file.clone(), chosen.slip.rig.clone());
            let free = free && (!chosen.by_rule || rigs.insert(rig));
            if free {
                lines.extend(touched);
            }
            free
        };
        round.into_iter().filter(free).collect()
    }

    /// Whether all edits lie in files of the user's.
    fn may_change(&self, fix: &Fix) -> bool {
        let known = |edit: &Edit| self.notebook.document(edit.place.text).is_some();
        !fix.edits.is_empty() && fix.edits.iter().all(known)
    }

    fn lines(&self, edit: &Edit) -> Vec<(TextId, u32)> {
        let id = edit.place.text;
        let lines = self.notebook.document(id).map(|document| {
            let index = document.index();
            index.line_at(edit.place.span.start)..=index.line_at(edit.place.span.end)
        });
        lines.into_iter().flatten().map(|line| (id, line)).collect()
    }

    /// How many findings there are of each kind, by file and rig.
    fn counts(&self) -> HashMap<Kind<'_>, usize> {
        let mut counts = HashMap::new();
        for finding in &self.findings {
            *counts.entry(self.kind(finding)).or_default() += 1;
        }
        counts
    }

    fn kind<'f>(&self, finding: &'f Finding) -> Kind<'f> {
        (&finding.code, finding.rig.as_deref(), self.file(finding))
    }

    /// How many findings say the same of the same file.
    fn says(&self, slip: &Slip) -> usize {
        let same = |finding: &&Finding| {
            *finding.code == slip.code && finding.message == slip.message && self.file(finding) == slip.file
        };
        self.findings.iter().filter(same).count()
    }
}

/// A finding's name, rig and file.
type Kind<'f> = (&'f str, Option<&'f str>, PathBuf);

/// Why mends should not be kept, and those of them that are alone to blame for something.
struct Objection {
    why: String,
    blamed: Vec<(usize, String)>,
}

fn objection(before: &State, after: &State, made: &[Chosen<'_>]) -> Option<Objection> {
    let mut by_slip: HashMap<(&Path, &str, &str), (usize, &Slip)> = HashMap::new();
    for Chosen { slip, .. } in made {
        let same = (&*slip.file, &*slip.code, &*slip.message);
        by_slip.entry(same).or_insert((0, slip)).0 += 1;
    }
    let stays = |(count, slip): &(usize, &Slip)| after.says(slip) + count > before.says(slip);
    if by_slip.values().any(stays) {
        let (why, blamed) = ("since it would not mend what it should".to_owned(), Vec::new());
        return Some(Objection { why, blamed });
    }
    // What a slip of writing hid comes to light when it is mended, and is no fault of the mend's.
    if !made.iter().all(|chosen| chosen.by_rule) {
        return None;
    }
    let (old, new) = (before.counts(), after.counts());
    let raised = |finding: &&Finding| {
        let kind = after.kind(finding);
        old.get(&kind).copied().unwrap_or(0) < new.get(&kind).copied().unwrap_or(0)
    };
    let raised: Vec<&Finding> = after.findings.iter().filter(raised).collect();
    let why = told(raised.first()?);
    let places = places_after(&before.notebook, made);
    let mut blamed: BTreeMap<usize, String> = BTreeMap::new();
    for finding in raised {
        let touches = |place: &Place| finding.labels.iter().any(|label| meet(label.place, *place));
        let mut met = places
            .iter()
            .filter(|(place, _)| touches(place))
            .map(|(_, index)| *index);
        if let (Some(index), None) = (met.next(), met.next()) {
            blamed.entry(index).or_insert_with(|| told(finding));
        }
    }
    let blamed = blamed.into_iter().collect();
    Some(Objection { why, blamed })
}

fn meet(one: Place, other: Place) -> bool {
    one.text == other.text && one.span.start <= other.span.end && other.span.start <= one.span.end
}

fn told(raised: &Finding) -> String {
    let within = raised
        .rig
        .as_ref()
        .map_or_else(String::new, |rig| format!(" in rig {rig}"));
    format!("since it would raise `{}`{within}", raised.code)
}

/// Where each edit's words stand once all are made, with the number of its mend.
fn places_after(notebook: &Notebook, made: &[Chosen<'_>]) -> Vec<(Place, usize)> {
    let numbered = made.iter().enumerate();
    let mut edits: Vec<(&Edit, usize)> = numbered
        .flat_map(|(index, chosen)| chosen.fix.edits.iter().map(move |edit| (edit, index)))
        .collect();
    edits.sort_by_key(|(edit, _)| edit.place);
    let mut places: Vec<(Place, usize)> = Vec::with_capacity(edits.len());
    let (mut text, mut moved) = (None, 0_i64);
    for (edit, index) in edits {
        let Some(document) = notebook.document(edit.place.text) else {
            continue;
        };
        if text.replace(document.id) != Some(document.id) {
            moved = 0;
        }
        let length = memory::with_line_ends(edit, &document.text).len() as u32;
        let start = (i64::from(edit.place.span.start) + moved) as u32;
        moved += i64::from(length) - i64::from(edit.place.span.len());
        places.push((Place::new(document.id, Span::new(start, start + length)), index));
    }
    places
}
