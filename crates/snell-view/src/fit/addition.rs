//! A way put into its file as a rig of its own: where its lines go, and whether
//! it is there what was promised.

use super::bring::Teller;
use super::lines;
use super::water::{Asked, WrittenWater};
use crate::fit::added::{Added, Addition, Unwritable};
use crate::fit::fitting::Fitting;
use crate::put::put;
use snell_analysis::Document;
use snell_analysis::Notebook;
use snell_analysis::{Disk, Wanted, examine};
use snell_finding::{Edit, Level};
use snell_rig::rig::Rig;
use snell_rules::fit::{Bank, Way};
use snell_syntax::BlockKind;
use std::sync::Arc;

/// The rig that a way makes.
pub(super) fn addition(
    fitting: &Fitting<'_, '_, '_>,
    asked: &Asked,
    bank: &Bank<'_, '_, '_>,
    way: &Way,
    rig: &Rig<'_>,
) -> Option<Addition> {
    let name = match fitting.name {
        Some(name) => name.to_owned(),
        None => format!("{}-{}", rig.name, lines::suffix(fitting.to, asked)),
    };
    let teller = Teller {
        bank,
        units: crate::Units::Author,
    };
    let lines = lines::lines(&name, asked, &teller, way, rig);
    let document = fitting.notebook.document(rig.block.source.file.text)?;
    let place = place(fitting, asked, rig, &name, document, &lines);
    Some(Addition { name, lines, place })
}

/// Where the lines go: at the end of a file, or of the fence in which the rig stands.
fn place(
    fitting: &Fitting<'_, '_, '_>,
    asked: &Asked,
    rig: &Rig<'_>,
    name: &str,
    document: &Document,
    lines: &str,
) -> Result<Edit, Unwritable> {
    if document.path.as_os_str() == "-" {
        return Err(Unwritable::NoFile);
    }
    let Some(head) = rig.block.head_line() else {
        return Err(Unwritable::Nameless);
    };
    if !name.starts_with(char::is_alphabetic) || !name.chars().all(lines::is_of_name) {
        return Err(Unwritable::NoName(name.to_owned()));
    }
    let (world, folded) = (fitting.books.world(), Arc::from(name.to_lowercase()));
    let taken = |kind| world.find(rig.block.id.file, kind, &folded).block().is_some();
    if taken(BlockKind::Rig) || matches!(asked.written, WrittenWater::Varied(..)) && taken(BlockKind::Water) {
        return Err(Unwritable::Taken(name.to_owned()));
    }
    if let WrittenWater::OutOfSight(water, file) = &asked.written {
        let (water, file) = (water.clone(), file.clone());
        return Err(Unwritable::OutOfSight { water, file });
    }
    put(document, head.offset() as usize, lines).ok_or(Unwritable::Misread)
}

impl super::shown::ShownFit {
    /// The rig's file with the rig of a way put into it; read again, and held against what was promised.
    ///
    /// # Errors
    /// Why it goes nowhere.
    pub fn added(&self, notebook: &Notebook, way: usize, disk: &dyn Disk) -> Result<Added, Unwritable> {
        let way = self.ways.get(way);
        let addition = match way {
            Some(way) => way.addition.as_ref(),
            None => self.addition.as_ref(),
        };
        let addition = addition.ok_or(Unwritable::NoFile)?;
        let edit = addition.place.clone()?;
        let document = notebook.document(edit.place.text).ok_or(Unwritable::NoFile)?;
        let now = snell_finding::apply(&document.text, [(edit.place.span, edit.new)]);
        let text = |text: String| Notebook::of_text(&document.path, document.kind, text, disk);
        let (before, after) = (text(document.text.to_string()), text(now.clone()));
        let mut names = crate::names(&before);
        let mut expected = crate::names(&after);
        names.push((addition.name.clone(), self.file.clone()));
        names.sort_unstable();
        expected.sort_unstable();
        if names != expected {
            return Err(Unwritable::Misread);
        }
        let promised = |code: &str| {
            let of_way = way.map(|way| way.leaves.iter().chain(&way.advice));
            let mut known = self.stays.iter().chain(of_way.into_iter().flatten());
            known.any(|finding| finding.rule == code)
        };
        let of_it = |finding: &snell_finding::Finding| finding.rig.as_deref() == Some(&*addition.name);
        let found = examine(&after, Wanted::Bare).findings;
        let known = examine(&before, Wanted::Bare).findings;
        let new = found.iter().find(|finding| {
            let unknown = !known
                .iter()
                .any(|other| other.code == finding.code && other.message == finding.message);
            finding.level > Level::Advice && (of_it(finding) || unknown) && !promised(&finding.code)
        });
        match new {
            Some(finding) => Err(Unwritable::Unpromised(finding.code.to_string())),
            None => Ok(Added {
                path: document.path.clone(),
                read: document.text.clone(),
                now,
            }),
        }
    }
}
