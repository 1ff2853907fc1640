//! The lines of a block and its bases, each held against its row.

use super::lineage::{is_edit, line_key, lineage, merged};
use super::value::{constant, named};
use crate::faults::Faults;
use crate::fit::{Fit, Fitting, Given};
use crate::keywords::{self, Key, OWN_FORMS, Often, Take};
use crate::lack::{Lack, Outcome};
use crate::missing::{Missing, Of, Unsaid};
use crate::names::Names;
use crate::project::{BlockId, BlockRef, LineRef};
use snell_finding::{Code, Finding, Fix};
use snell_syntax::{BlockKind, Form, Word};
use snell_text::Place;

/// The lines of one block by key; of a key that may stand once only the first.
pub(super) struct Lines<'a, 'p, K> {
    pub(super) names: &'a Names<'p>,
    pub(super) faults: &'a Faults,
    block: BlockRef<'p>,
    given: Vec<(K, Given<'p>)>,
    /// Whether a line is missing because it could not be read.
    holes: bool,
}

impl<'a, 'p, K: Key> Lines<'a, 'p, K> {
    pub(super) fn new(names: &'a Names<'p>, block: BlockRef<'p>, faults: &'a Faults) -> Self {
        let (bases, whole) = match lineage(names, block) {
            Ok(bases) => (bases, true),
            Err(finding) => {
                finding.into_iter().for_each(|finding| faults.report(*finding));
                (vec![block], false)
            }
        };
        let fitting = Fitting {
            names,
            is_value: &|_| false,
            faults,
            partial: false,
        };
        let mut lines = Self {
            names,
            faults,
            block,
            given: Vec::new(),
            holes: !whole || bases.iter().any(|block| block.block.broken),
        };
        // What an outing changes on its rig is for the rig to read.
        let is_rigs = |line: &LineRef<'p>| K::KIND == BlockKind::Outing && is_edit(*line);
        for line in merged(&bases, faults).into_iter().filter(|line| !is_rigs(line)) {
            match fit_line::<K>(&fitting, line) {
                Some((key, given)) if key.row().often == Often::Many || lines.get(key).is_none() => {
                    lines.given.push((key, given));
                }
                Some(_) => {}
                None => lines.holes = true,
            }
        }
        if !lines.holes {
            lines.report_missing();
        }
        lines
    }

    fn report_missing(&self) {
        let needed = K::ALL.iter().filter(|key| key.row().often == Often::Needed);
        for row in needed
            .filter(|key| self.get(**key).is_none())
            .map(|key| key.row())
        {
            let name = self.block.head().map_or("", |head| &head.name.folded);
            let message = format!("the {} `{name}` has no `{}`", K::KIND.word(), row.key);
            let finding = Finding::fault(Code::LineMissing, self.block.name_place(), message);
            self.faults
                .report(finding.help(format!("add a line such as `{}`: {}", row.shape(), row.about)));
        }
    }

    pub(super) fn each(&self) -> impl Iterator<Item = (K, &Given<'p>)> {
        self.given.iter().map(|(key, given)| (*key, given))
    }

    pub(super) fn get(&self, key: K) -> Option<&Given<'p>> {
        self.each()
            .find(|(other, _)| *other == key)
            .map(|(_, given)| given)
    }

    /// The value in a place of a line.
    pub(super) fn value(&self, given: &Given<'p>, take: Take) -> Outcome {
        given
            .get(take)
            .map_or(Err(Lack::Faulty), |fit| self.constant(fit))
    }

    /// What stands for a line that is not there.
    pub(super) fn unsaid(&self, key: K) -> Outcome {
        if self.holes {
            return Err(Lack::Faulty);
        }
        let missing = Missing::new(Unsaid::Line(key.row())).of(Of::Block(self.block.id));
        Err(missing.at(self.block.name_place()).into())
    }

    /// Two lines of which a block says one.
    pub(super) fn exclusive(&self, one: K, other: K) {
        if let (Some(first), Some(second)) = (self.get(one), self.get(other)) {
            let message = format!(
                "a {} says `{}` or `{}`, not both",
                K::KIND.word(),
                one.row().key,
                other.row().key
            );
            let finding = Finding::fault(Code::LineTwice, second.line.whole(), message);
            self.faults.report(
                finding
                    .label(first.line.whole(), "the first")
                    .help("keep the one that was measured"),
            );
        }
    }

    pub(super) fn constant(&self, fit: Fit<'p>) -> Outcome {
        constant(self.faults, fit)
    }

    /// The block that is named in a place of a line.
    pub(super) fn named(&self, given: &Given<'p>, kind: BlockKind) -> Option<BlockId> {
        let fit = given.get(Take::Name(kind))?;
        named(self.names, fit, kind)
    }
}

/// Holds a line against the row of its key; a word that is no key is a fault.
pub(crate) fn fit_line<'p, K: Key>(fitting: &Fitting<'_, 'p>, line: LineRef<'p>) -> Option<(K, Given<'p>)> {
    let Form::Plain(plain) = &*line.line.form else {
        own_form(fitting, K::KIND, line);
        return None;
    };
    let Some(key) = K::of(&plain.key.folded) else {
        fitting.faults.report(key_unknown(K::KIND, line, &plain.key));
        return None;
    };
    let given = fitting.line(line, key.row(), plain.into());
    (!given.faulty).then_some((key, given))
}

/// A line with a form of its own where the block takes none such.
fn own_form(fitting: &Fitting<'_, '_>, kind: BlockKind, line: LineRef<'_>) {
    let (key, place) = line_key(line);
    let form = OWN_FORMS.iter().find(|form| form.key == key);
    if let Some(form) = form.filter(|form| !form.within.contains(&kind)) {
        let kinds: Vec<&str> = form.within.iter().map(|kind| kind.one()).collect();
        let message = format!("`{key}` means nothing in {}", kind.one());
        let finding = Finding::fault(Code::KeyUnknown, place, message);
        fitting
            .faults
            .report(finding.help(format!("it belongs in {}: {}", kinds.join(" or "), form.about)));
    }
}

/// A word that opens no line of its kind of block.
fn key_unknown(kind: BlockKind, line: LineRef<'_>, key: &Word) -> Finding {
    let place: Place = line.place(key.span);
    let written = line.spelled(key);
    let own = OWN_FORMS
        .iter()
        .filter(|form| form.within.contains(&kind))
        .map(|form| form.key);
    let known = keywords::rows(kind).iter().map(|row| row.key).chain(own);
    let says = || {
        let known: Vec<String> = known.clone().map(|key| format!("`{key}`")).collect();
        format!("{} says: {}", kind.one(), known.join(", "))
    };
    // A line in its author's own way may lack its key.
    if place.span.is_empty() {
        let message = format!("this is read as a `{written}` line, and {} has none", kind.one());
        return Finding::fault(Code::KeyUnknown, place, message).help(says());
    }
    let message = format!("no line of {} opens with `{written}`", kind.one());
    let finding = Finding::fault(Code::KeyUnknown, place, message);
    if let Some(form) = OWN_FORMS
        .iter()
        .find(|form| form.key == &*key.folded && form.within.contains(&kind))
    {
        return Finding::fault(
            Code::KeyUnknown,
            line.whole(),
            format!("this `{written}` line is not whole"),
        )
        .help(format!("it reads `{}`", form.shape));
    }
    if BlockKind::of(&key.folded).is_some() {
        return finding.help("leave a blank line before a block, and start it at the margin");
    }
    match snell_units::nearest(&key.folded, known.clone()) {
        Some(near) => finding.here(format!("did you mean `{near}`?")).fix(Fix::offered(
            format!("write `{near}`"),
            place,
            near,
        )),
        None => finding.help(says()),
    }
}
