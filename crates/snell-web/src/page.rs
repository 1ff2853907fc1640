//! A page: its files, and what is asked of them.

use crate::answers::{Change, Ends, Found, Hovered, Judged, Look, Offer, Rig, Way, Word};
use crate::files::Files;
use serde::Serialize;
use snell_analysis::{Analysis, Notebook, ordered};
use snell_finding::{Edit, Finding, Fix};
use snell_ide::{Paint, Sort, Which};
use snell_rig::project::BlockRef;
use snell_text::{Span, TextId, Utf16};
use std::path::PathBuf;
use std::rc::Rc;

/// The file that is asked about is the first of its notebook.
pub(crate) const ASKED: TextId = TextId(0);

/// Why there is no answer, in words for people.
pub type Refused = String;

/// Answers as JSON.
pub(crate) type Told = Result<String, Refused>;

/// The files of a page, and what was learnt of them.
#[derive(Default)]
pub struct Page {
    files: Files,
    analysis: Analysis,
    /// The notebook that was asked last, by its file.
    last: Option<(String, Rc<Notebook>)>,
}

/// One file of a page as it is asked.
pub(crate) struct Asking {
    pub(crate) notebook: Rc<Notebook>,
    utf16: Utf16,
}

impl Page {
    /// Puts a file there, or its next state.
    pub fn put(&mut self, file: &str, text: &str) {
        if self.files.put(file, text) {
            self.last = None;
        }
    }

    /// Takes a file away.
    pub fn remove(&mut self, file: &str) {
        self.files.remove(file);
        self.last = None;
    }

    pub(crate) fn notebook(&mut self, file: &str) -> Result<Rc<Notebook>, Refused> {
        if let Some((_, notebook)) = self.last.as_ref().filter(|(last, _)| last == file) {
            return Ok(notebook.clone());
        }
        let paths = [PathBuf::from(file)];
        let notebook = self.analysis.open(&paths, &self.files);
        let notebook = Rc::new(notebook.map_err(|(_, unread)| format!("`{file}` is not read: {unread}"))?);
        self.last = Some((file.to_owned(), notebook.clone()));
        Ok(notebook)
    }

    /// A notebook of all files, the asked one first; refused where one of them cannot be read.
    #[cfg(feature = "editor")]
    pub(crate) fn whole(&self, file: &str) -> Result<Notebook, Refused> {
        let others = self.files.names().filter(|name| name != file);
        let paths: Vec<PathBuf> = std::iter::once(file.to_owned())
            .chain(others)
            .map(PathBuf::from)
            .collect();
        let (notebook, left_out) = self.analysis.of_those_that_can_be_read(&paths, &self.files);
        match left_out.first() {
            Some((path, unread)) => Err(format!("`{}` is not read: {unread}", path.display())),
            None => Ok(notebook),
        }
    }

    pub(crate) fn ask(&mut self, file: &str) -> Result<Asking, Refused> {
        let notebook = self.notebook(file)?;
        let text = notebook.document(ASKED).map_or("", |document| &document.text);
        let utf16 = Utf16::new(text);
        Ok(Asking { notebook, utf16 })
    }

    /// What a card shows at once: of the rig of a name, or else the first that begins within a stretch of the file.
    ///
    /// # Errors
    /// There is no such file.
    pub fn look(&mut self, file: &str, rig: Option<&str>, within: (u32, u32)) -> Told {
        let asking = self.ask(file)?;
        told(&asking.look(asking.which(rig, within)))
    }

    /// What a card says of the same rig once it is worked out.
    ///
    /// # Errors
    /// There is no such file.
    pub fn judge(&mut self, file: &str, rig: Option<&str>, within: (u32, u32)) -> Told {
        let asking = self.ask(file)?;
        told(&asking.judge(asking.which(rig, within)))
    }

    /// What the word at a place means; `null` where nothing is to be told.
    ///
    /// # Errors
    /// There is no such file.
    pub fn hover(&mut self, file: &str, at: u32) -> Told {
        let asking = self.ask(file)?;
        let hover = snell_ide::hover(&asking.notebook, asking.byte(at));
        told(&hover.map(|hover| {
            let (from, to) = asking.units(hover.place);
            Hovered {
                from,
                to,
                text: [hover.text, hover.more].join("\n\n").trim().to_owned(),
            }
        }))
    }

    /// What may stand at a place.
    ///
    /// # Errors
    /// There is no such file.
    pub fn complete(&mut self, file: &str, at: u32) -> Told {
        let asking = self.ask(file)?;
        let offers = snell_ide::complete(&asking.notebook, asking.byte(at));
        let offers = offers.into_iter().map(|offer| {
            let (from, to) = asking.units(offer.place);
            Offer {
                word: offer.word,
                sort: sort(offer.sort),
                detail: offer.detail,
                about: offer.about,
                from,
                to,
            }
        });
        told(&offers.collect::<Vec<_>>())
    }

    /// Every word of the file that has a colour.
    ///
    /// # Errors
    /// There is no such file.
    pub fn words(&mut self, file: &str) -> Told {
        let asking = self.ask(file)?;
        let painted = snell_ide::tokens(&asking.notebook);
        let words = painted.into_iter().map(|painted| {
            let (from, to) = asking.units(painted.place);
            Word {
                from,
                to,
                paint: paint(painted.paint),
            }
        });
        told(&words.collect::<Vec<_>>())
    }

    /// The change that moves the quantity at a place to another value; `null` where none stands there.
    ///
    /// # Errors
    /// There is no such file.
    pub fn slide(&mut self, file: &str, from: u32, to: u32, value: f64) -> Told {
        let asking = self.ask(file)?;
        let place = asking.span(from, to);
        let edit = snell_ide::slid(&asking.notebook, place, value);
        told(&edit.map(|edit| asking.change(&edit)))
    }

    /// The findings that touch a stretch of the file, with all ways out.
    ///
    /// # Errors
    /// There is no such file.
    pub fn ways(&mut self, file: &str, from: u32, to: u32) -> Told {
        let asking = self.ask(file)?;
        let place = asking.span(from, to);
        let near = snell_ide::found_near(&asking.notebook, place);
        told(
            &near
                .iter()
                .map(|finding| asking.found(finding))
                .collect::<Vec<_>>(),
        )
    }
}

impl Asking {
    fn text(&self) -> &str {
        self.notebook
            .document(ASKED)
            .map_or("", |document| &document.text)
    }

    pub(crate) fn byte(&self, unit: u32) -> u32 {
        self.utf16.byte(self.text(), unit)
    }

    pub(crate) fn span(&self, from: u32, to: u32) -> Span {
        Span::new(self.byte(from), self.byte(to.max(from)))
    }

    pub(crate) fn units(&self, span: Span) -> (u32, u32) {
        (self.utf16.unit(span.start), self.utf16.unit(span.end))
    }

    /// The rig of a name, or else the first that begins within a stretch.
    fn which<'n>(&self, rig: Option<&'n str>, within: (u32, u32)) -> Which<'n> {
        rig.map_or_else(|| Which::Within(self.span(within.0, within.1)), Which::Named)
    }

    /// What is wrong, without the mends that rules propose.
    pub(crate) fn findings(&self) -> Vec<Finding> {
        snell_ide::findings(&self.notebook, &|| false).unwrap_or_default()
    }

    pub(crate) fn look(&self, which: Which<'_>) -> Look {
        let notebook = &*self.notebook;
        let live = snell_ide::chosen(notebook, which).map(|rig| snell_ide::live(notebook, rig));
        let mut look = Look {
            rigs: snell_ide::rigs(notebook.project())
                .map(|rig| self.rig(rig))
                .collect(),
            rig: None,
            title: None,
            picture: None,
            undrawn: None,
            findings: ordered(self.findings())
                .iter()
                .map(|finding| self.found(finding))
                .collect(),
            sliders: Vec::new(),
        };
        let Some(live) = live else { return look };
        look.rig = Some(live.name);
        look.title = live.title;
        match live.picture {
            Ok(picture) => look.picture = Some(picture),
            Err(why) => look.undrawn = Some(why),
        }
        let sliders = live.sliders.into_iter();
        look.sliders = sliders
            .map(|slider| slider.counted(|span| self.ends(span)))
            .collect();
        look
    }

    pub(crate) fn judge(&self, which: Which<'_>) -> Judged {
        let rig = snell_ide::chosen(&self.notebook, which);
        Judged {
            rig: rig.map(snell_rig::rig::name),
            verdict: rig.map_or_else(Vec::new, |rig| snell_ide::verdict(&self.notebook, rig)),
        }
    }

    fn rig(&self, block: BlockRef<'_>) -> Rig {
        let start = block.name_place().span;
        let end = block
            .lines()
            .last()
            .map_or(start.end, |line| line.whole().span.end);
        let (from, to) = self.units(Span::new(start.start, end.max(start.end)));
        Rig {
            name: snell_rig::rig::name(block),
            from,
            to,
        }
    }

    fn ends(&self, span: Span) -> Ends {
        let (from, to) = self.units(span);
        Ends { from, to }
    }

    fn found(&self, finding: &Finding) -> Found {
        let place = finding.place();
        let (from, to) = match place.text == ASKED {
            true => self.units(place.span),
            false => (0, 0),
        };
        Found {
            rule: finding.code.to_string(),
            level: finding.level.word(),
            message: finding.message.clone(),
            note: finding.note.clone(),
            help: finding.help.clone(),
            from,
            to,
            label: finding
                .labels
                .first()
                .map_or_else(String::new, |label| label.text.clone()),
            ways: finding.fixes.iter().filter_map(|fix| self.way(fix)).collect(),
        }
    }

    /// A way out that changes this file and no other.
    fn way(&self, fix: &Fix) -> Option<Way> {
        let here = fix.edits.iter().all(|edit| edit.place.text == ASKED);
        here.then(|| Way {
            title: fix.title.clone(),
            sure: fix.sure,
            changes: self.changes(&fix.edits),
        })
    }

    pub(crate) fn changes(&self, edits: &[Edit]) -> Vec<Change> {
        edits.iter().map(|edit| self.change(edit)).collect()
    }

    fn change(&self, edit: &Edit) -> Change {
        let (from, to) = self.units(edit.place.span);
        Change {
            from,
            to,
            insert: edit.new.clone(),
        }
    }
}

pub(crate) fn told<T: Serialize>(answer: &T) -> Told {
    serde_json::to_string(answer).map_err(|error| error.to_string())
}

const fn sort(sort: Sort) -> &'static str {
    match sort {
        Sort::Keyword => "keyword",
        Sort::Block => "block",
        Sort::Local => "local",
        Sort::Unit => "unit",
        Sort::Measure => "measure",
        Sort::Word => "word",
    }
}

const fn paint(paint: Paint) -> &'static str {
    match paint {
        Paint::Keyword => "keyword",
        Paint::Opener => "opener",
        Paint::Given => "given",
        Paint::Name => "name",
        Paint::Number => "number",
        Paint::Unit => "unit",
        Paint::Text => "text",
        Paint::Comment => "comment",
    }
}
