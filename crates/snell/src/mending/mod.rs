//! The sure mends of files: made in memory and judged there, then written.
//!
//! A mend is taken where it is its finding's only one and needs no choice. It
//! is kept only if what it mends is gone; one that a rule proposes must raise
//! nothing anywhere. How a finding comes to its mend is not known here.

mod drafts;

use crate::trouble::Trouble;
use drafts::Drafts;
pub use drafts::Mended;
use snell_analysis::{Analysis, Notebook, Wanted};
use snell_article::examine;
use snell_finding::{Edit, Finding, Fix, Limit};
use snell_text::{Place, Span, TextId};
use std::cell::RefCell;
use std::collections::{BTreeMap, HashMap, HashSet};
use std::ops::ControlFlow;
use std::path::{Path, PathBuf};

/// A mend may show the next slip; after so many rounds what is left is left.
const ROUNDS: usize = Limit::MendRounds.count();

/// How often what would become of the files is read; each mend that spoils something else takes several.
const ATTEMPTS: usize = Limit::MendAttempts.count();

/// Mends files and those that they use.
///
/// # Errors
/// A file is not there or is refused. Nothing was changed then.
pub fn mend(files: &[PathBuf]) -> Result<Mended, Trouble> {
    let analysis = Analysis::default();
    let mut drafts = Drafts::default();
    let mut state = State::read(files, &analysis, &drafts)?;
    let mut left: Vec<(Slip, String)> = Vec::new();
    let (mut rounds, mut attempts) = (0, 0);
    while rounds < ROUNDS && attempts < ATTEMPTS {
        let mends = state.mends(&left);
        if mends.is_empty() {
            break;
        }
        let mut share = mends.as_slice();
        let next = loop {
            attempts += 1;
            let made = drafts.with(&state.notebook, share.iter().map(|chosen| &chosen.fix));
            let after = State::read(files, &analysis, &made)?;
            match objection(&state, &after, share) {
                None => break Some((after, made)),
                Some(objection) => {
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
            if attempts >= ATTEMPTS {
                break None;
            }
        };
        if let Some((after, made)) = next {
            (state, drafts) = (after, made);
            rounds += 1;
        }
    }
    let untried = attempts >= ATTEMPTS && !state.mends(&left).is_empty();
    let mut mended = drafts.write();
    mended.left = left
        .into_iter()
        .map(|(slip, why)| format!("{slip}, {why}"))
        .collect();
    if untried {
        mended.left.push(format!(
            "after {attempts} attempts, the rest was not tried: check again"
        ));
    }
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
struct Chosen {
    slip: Slip,
    fix: Fix,
    /// Whether a rule proposes it, not a reader of the text.
    by_rule: bool,
}

/// Files as they stand in memory, with what was found in them.
struct State {
    notebook: Notebook,
    findings: Vec<Finding>,
    /// The mends that rules propose, as far as they were looked for, by the finding's number.
    by_rules: RefCell<BTreeMap<usize, Vec<Fix>>>,
}

impl State {
    fn read(files: &[PathBuf], analysis: &Analysis, drafts: &Drafts) -> Result<Self, Trouble> {
        let notebook = analysis.open(files, &drafts.overlay)?;
        let findings = examine(&notebook, Wanted::Bare).findings;
        Ok(Self {
            notebook,
            findings,
            by_rules: RefCell::default(),
        })
    }

    fn file(&self, finding: &Finding) -> PathBuf {
        let document = self.notebook.document(finding.place().text);
        document.map(|document| document.path.clone()).unwrap_or_default()
    }

    /// The mends of one round, none on a line that another one touches. What can be read wrong goes first:
    /// a rule judges what is left.
    fn mends(&self, left: &[(Slip, String)]) -> Vec<Chosen> {
        let mut round = Round {
            state: self,
            left,
            lines: HashSet::new(),
            chosen: Vec::new(),
        };
        for finding in self
            .findings
            .iter()
            .filter(|finding| finding.code.known().is_some())
        {
            round.take(finding, &finding.fixes, false);
        }
        if round.chosen.is_empty() {
            self.mends_by_rules(&mut round);
        }
        round.chosen
    }

    /// Those that rules propose. Each was found alone, so each rig gets one; what was looked for in vain, or refused in
    /// an attempt at this state, is not looked for again.
    fn mends_by_rules(&self, round: &mut Round<'_>) {
        let rig = |index: usize| self.notebook.project().block_above(self.findings[index].place());
        let mut known = self.by_rules.borrow_mut();
        let mut done = HashSet::new();
        for (index, mends) in &*known {
            if !done.contains(&rig(*index)) && round.take(&self.findings[*index], mends, true) {
                done.insert(rig(*index));
            }
        }
        let open = |index: usize| !known.contains_key(&index) && !done.contains(&rig(index));
        let open: Vec<usize> = (0..self.findings.len()).filter(|index| open(*index)).collect();
        let asked: Vec<Finding> = open.iter().map(|index| self.findings[*index].clone()).collect();
        self.notebook.ask(|query| {
            query.each_mends(&asked, &mut |at, mends| {
                let is_taken = round.take(&asked[at], &mends, true);
                known.insert(open[at], mends);
                match is_taken {
                    true => ControlFlow::Break(()),
                    false => ControlFlow::Continue(()),
                }
            });
        });
    }

    /// Whether all edits lie in files of the user's.
    fn may_change(&self, fix: &Fix) -> bool {
        let known = |edit: &Edit| self.notebook.document(edit.place.text).is_some();
        !fix.edits.is_empty() && fix.edits.iter().all(known)
    }

    fn lines(&self, edit: &Edit) -> Vec<(TextId, u32)> {
        self.lines_of(edit.place)
    }

    fn lines_of(&self, place: Place) -> Vec<(TextId, u32)> {
        let id = place.text;
        let lines = self.notebook.document(id).map(|document| {
            let index = document.index();
            index.line_at(place.span.start)..=index.line_at(place.span.end)
        });
        lines.into_iter().flatten().map(|line| (id, line)).collect()
    }

    /// How many faults of writing stand on some lines.
    fn faults_on(&self, lines: &HashSet<(TextId, u32)>) -> usize {
        let on = |finding: &&Finding| {
            finding.code.known().is_some()
                && self
                    .lines_of(finding.place())
                    .iter()
                    .any(|line| lines.contains(line))
        };
        self.findings.iter().filter(on).count()
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

/// Mends that are chosen to be made at once.
struct Round<'s> {
    state: &'s State,
    left: &'s [(Slip, String)],
    /// The lines that they touch.
    lines: HashSet<(TextId, u32)>,
    chosen: Vec<Chosen>,
}

impl Round<'_> {
    /// Takes the mend of a finding, if it is sure and its only one; whether it was.
    fn take(&mut self, finding: &Finding, fixes: &[Fix], by_rule: bool) -> bool {
        let [fix] = fixes else { return false };
        if !fix.sure || !self.state.may_change(fix) {
            return false;
        }
        let slip = Slip {
            file: self.state.file(finding),
            rig: finding.rig.clone(),
            code: finding.code.to_string(),
            message: finding.message.clone(),
            title: fix.title.clone(),
        };
        let touched: Vec<_> = fix.edits.iter().flat_map(|edit| self.state.lines(edit)).collect();
        if self.left.iter().any(|(left, _)| *left == slip)
            || touched.iter().any(|line| self.lines.contains(line))
        {
            return false;
        }
        self.lines.extend(touched);
        self.chosen.push(Chosen {
            slip,
            fix: fix.clone(),
            by_rule,
        });
        true
    }
}

/// A finding's name, rig and file.
type Kind<'f> = (&'f str, Option<&'f str>, PathBuf);

/// Why mends should not be kept, and those of them that are alone to blame for something.
struct Objection {
    why: String,
    blamed: Vec<(usize, String)>,
}

fn objection(before: &State, after: &State, made: &[Chosen]) -> Option<Objection> {
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
    // What a slip of writing hid on other lines comes to light when it is mended, and is no fault of the mend's.
    if !made.iter().all(|chosen| chosen.by_rule) {
        return still_at_fault(before, after, made);
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

/// The mends whose own line has as many faults as before: one slip was changed for another.
fn still_at_fault(before: &State, after: &State, made: &[Chosen]) -> Option<Objection> {
    let places = places_after(&before.notebook, made);
    let left = |(place, index): &(Place, usize)| {
        let edits = &made[*index].fix.edits;
        let lines: HashSet<_> = edits.iter().flat_map(|edit| before.lines(edit)).collect();
        let now: HashSet<_> = after.lines_of(*place).into_iter().collect();
        after.faults_on(&now) >= before.faults_on(&lines)
    };
    let why = "since its line would be at fault as before";
    let blamed: BTreeMap<usize, String> = places
        .iter()
        .filter(|place| left(place))
        .map(|(_, index)| (*index, why.to_owned()))
        .collect();
    let blamed: Vec<(usize, String)> = blamed.into_iter().collect();
    (!blamed.is_empty()).then(|| Objection {
        why: why.to_owned(),
        blamed,
    })
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
fn places_after(notebook: &Notebook, made: &[Chosen]) -> Vec<(Place, usize)> {
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
        let length = drafts::with_line_ends(edit, &document.text).len() as u32;
        let start = (i64::from(edit.place.span.start) + moved) as u32;
        moved += i64::from(length) - i64::from(edit.place.span.len());
        places.push((Place::new(document.id, Span::new(start, start + length)), index));
    }
    places
}
