//! A way put into its file as a rig of its own: where its lines go, and whether
//! it is there what was promised.

use super::bring::Teller;
use super::lines;
use super::water::{Asked, WrittenWater};
use crate::fit::added::{Added, Addition, Unwritable};
use crate::fit::fitting::Fitting;
use snell_analysis::Notebook;
use snell_analysis::{Disk, Wanted, examine};
use snell_analysis::{Document, Kind};
use snell_finding::{Edit, Level};
use snell_rig::rig::Rig;
use snell_rules::fit::{Bank, Way};
use snell_syntax::BlockKind;
use snell_text::{Place, Span};
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
    put(document, head.offset() as usize, lines)
}

/// The edit that puts lines behind those of a file, or of the fence in which a place stands.
fn put(document: &Document, at: usize, lines: &str) -> Result<Edit, Unwritable> {
    let text = &*document.text;
    let (end, margin) = match document.kind {
        Kind::Rig => (text.len(), ""),
        Kind::Markdown => end_of_fence(text, at).ok_or(Unwritable::Misread)?,
    };
    let line_end = if text.contains("\r\n") { "\r\n" } else { "\n" };
    let mut new = String::new();
    if !text[..end].ends_with('\n') {
        new.push_str(line_end);
    }
    for line in std::iter::once("").chain(lines.lines()) {
        let line = format!("{margin}{line}");
        new.push_str(line.trim_end());
        new.push_str(line_end);
    }
    // A fence's last line keeps the end that it had.
    let new = match document.kind {
        Kind::Rig => new,
        Kind::Markdown => new.strip_suffix(line_end).map_or(new.clone(), str::to_owned),
    };
    Ok(Edit {
        place: Place::new(document.id, Span::empty(end as u32)),
        new,
    })
}

/// The end of the last line of the fence in which a place stands, and what stands before each of its lines.
fn end_of_fence(text: &str, at: usize) -> Option<(usize, &str)> {
    let fences = snell_text::fences(text);
    let holds = |span: &Span| (span.start as usize..=span.end as usize).contains(&at);
    let fence = fences.iter().find(|fence| fence.lines.iter().any(holds))?;
    let last = fence.lines.last()?;
    let end = text[last.end as usize..]
        .find(['\n', '\r'])
        .map_or(text.len(), |more| last.end as usize + more);
    let start = text[..at].rfind(['\n', '\r']).map_or(0, |end| end + 1);
    let margin = &text[start..at];
    let plain = margin.chars().all(|letter| matches!(letter, ' ' | '\t' | '>'));
    plain.then_some((end, margin))
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
        names.sort();
        expected.sort();
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
