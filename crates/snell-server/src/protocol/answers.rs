//! Answers to what an editor asks of one open text, in the protocol's words.

use super::hello::Manner;
use crate::texts::{Open, Texts};
use snell_analysis::Notebook;
use snell_finding::Finding;
use snell_ide::{Paint, Snapshot};
use snell_text::{Span, TextId};
use tower_lsp_server::ls_types::*;

/// One open text that is asked about, and all that it takes to answer.
pub struct Asked<'a> {
    /// The text.
    pub open: &'a Open,
    /// The same, with all that it uses.
    pub snapshot: &'a Snapshot,
    /// How the editor wants to be answered.
    pub manner: Manner,
    /// All open texts.
    pub texts: &'a Texts,
    /// Whether nobody waits for the answer any more.
    pub stop: &'a (dyn Fn() -> bool + Sync),
}

impl<'a> Asked<'a> {
    /// The text as a notebook.
    pub fn notebook(&self) -> &'a Notebook {
        self.snapshot.notebook()
    }

    /// The findings of the text, unless nobody waits for them any more.
    pub fn diagnostics(&self) -> Option<Vec<Diagnostic>> {
        let findings = self.snapshot.findings(self.stop)?;
        Some(self.told(&findings))
    }

    /// Findings in the protocol's words.
    pub fn told(&self, findings: &[Finding]) -> Vec<Diagnostic> {
        let Some(uri) = super::say::address(&self.open.path, self.texts) else {
            return Vec::new();
        };
        let told = |finding| {
            self.manner
                .diagnostic(self.notebook(), &uri, self.open, finding, self.texts)
        };
        findings.iter().map(told).collect()
    }

    pub fn hover(&self, position: Position) -> Option<Hover> {
        let (manner, open, notebook) = (self.manner, self.open, self.notebook());
        let at = manner.offset(open, position);
        let hover = snell_ide::hover(notebook, at)?;
        let picture = manner.pictures.then(|| snell_ide::pictured(notebook, at));
        Some(manner.hover(open, hover, picture.flatten().as_deref()))
    }

    pub fn completions(&self, position: Position) -> Vec<CompletionItem> {
        let (manner, open) = (self.manner, self.open);
        let offers = snell_ide::complete(self.notebook(), manner.offset(open, position));
        let numbered = offers.into_iter().enumerate();
        numbered
            .map(|(number, offer)| manner.completion(open, number, offer))
            .collect()
    }

    pub fn formatting(&self) -> Vec<TextEdit> {
        let (manner, open) = (self.manner, self.open);
        let edits = snell_ide::tidied(self.notebook());
        let told = |edit: snell_finding::Edit| TextEdit::new(manner.own(open, edit.place.span), edit.new);
        edits.into_iter().map(told).collect()
    }

    pub fn outline(&self) -> Vec<DocumentSymbol> {
        let (manner, open) = (self.manner, self.open);
        let symbols = snell_ide::outline(self.notebook());
        symbols
            .into_iter()
            .map(|symbol| manner.symbol(open, symbol))
            .collect()
    }

    pub fn definition(&self, position: Position) -> Option<Location> {
        let (manner, open, texts) = (self.manner, self.open, self.texts);
        let notebook = self.notebook();
        let place = snell_ide::definition(notebook, TextId(0), manner.offset(open, position))?;
        manner.location(notebook, place, texts)
    }

    /// Every mention in the folder; `whole` notebook given by the caller.
    pub fn references(&self, whole: &Notebook, position: Position, with_definition: bool) -> Vec<Location> {
        let Some(id) = self.id_in(whole) else {
            return Vec::new();
        };
        let places = snell_ide::places(whole, id, self.manner.offset(self.open, position));
        let wanted = places.into_iter().filter(|one| with_definition || !one.defines);
        wanted
            .filter_map(|one| self.manner.location(whole, one.place, self.texts))
            .collect()
    }

    pub fn highlights(&self, position: Position) -> Vec<DocumentHighlight> {
        let (manner, open) = (self.manner, self.open);
        let at = manner.offset(open, position);
        let own = snell_ide::places(self.notebook(), TextId(0), at)
            .into_iter()
            .filter(|one| one.place.text == TextId(0));
        own.map(|one| DocumentHighlight {
            range: manner.own(open, one.place.span),
            kind: Some(if one.defines {
                DocumentHighlightKind::WRITE
            } else {
                DocumentHighlightKind::READ
            }),
        })
        .collect()
    }

    /// # Errors
    /// Why the name cannot be changed.
    pub fn changeable(&self, position: Position) -> Result<Option<Range>, snell_ide::Unnamed> {
        let (manner, open) = (self.manner, self.open);
        let at = manner.offset(open, position);
        let place = snell_ide::changeable(self.notebook(), TextId(0), at)?;
        Ok(Some(manner.own(open, place.span)))
    }

    /// # Errors
    /// Why the name cannot be changed.
    pub fn renamed(
        &self,
        whole: &Notebook,
        position: Position,
        new: &str,
    ) -> Result<Option<WorkspaceEdit>, snell_ide::Unnamed> {
        let Some(id) = self.id_in(whole) else {
            return Ok(None);
        };
        let edits = snell_ide::renamed(whole, id, self.manner.offset(self.open, position), new)?;
        Ok(self.manner.workspace_edit(whole, &edits, self.texts))
    }

    /// The text's number in the notebook of the folder.
    fn id_in(&self, whole: &Notebook) -> Option<TextId> {
        let mut documents = whole.documents().iter();
        documents
            .find(|document| document.real.as_ref() == Some(&self.open.path))
            .map(|document| document.id)
    }

    pub fn tokens(&self) -> SemanticTokens {
        let (manner, open) = (self.manner, self.open);
        let painted = snell_ide::tokens(self.notebook());
        let mut data = Vec::with_capacity(painted.len());
        let mut last = Position::new(0, 0);
        for one in painted {
            let range = manner.own(open, one.place);
            let line = range.start.line - last.line;
            data.push(SemanticToken {
                delta_line: line,
                delta_start: if line == 0 {
                    range.start.character - last.character
                } else {
                    range.start.character
                },
                length: range.end.character - range.start.character,
                token_type: Paint::ALL
                    .iter()
                    .position(|paint| *paint == one.paint)
                    .unwrap_or(0) as u32,
                token_modifiers_bitset: 0,
            });
            last = range.start;
        }
        SemanticTokens {
            result_id: None,
            data,
        }
    }

    pub fn folds(&self) -> Vec<FoldingRange> {
        let (manner, open) = (self.manner, self.open);
        let folds = snell_ide::folds(self.notebook());
        let fold = |span: Span| {
            let range = manner.own(open, span);
            FoldingRange {
                start_line: range.start.line,
                end_line: range.end.line,
                kind: Some(FoldingRangeKind::Region),
                ..FoldingRange::default()
            }
        };
        folds.into_iter().map(fold).collect()
    }

    pub fn selection(&self, position: Position) -> SelectionRange {
        let (manner, open) = (self.manner, self.open);
        let at = manner.offset(open, position);
        let spans = snell_ide::grown(self.notebook(), at);
        let mut grown: Option<SelectionRange> = None;
        for span in spans.into_iter().rev() {
            grown = Some(SelectionRange {
                range: manner.own(open, span),
                parent: grown.map(Box::new),
            });
        }
        grown.unwrap_or(SelectionRange {
            range: Range::new(position, position),
            parent: None,
        })
    }

    pub fn links(&self) -> Vec<DocumentLink> {
        let (manner, open, texts) = (self.manner, self.open, self.texts);
        let links = snell_ide::links(self.notebook());
        let link = |(span, path): (Span, std::path::PathBuf)| DocumentLink {
            range: manner.own(open, span),
            target: super::say::address(&path, texts),
            tooltip: None,
            data: None,
        };
        links.into_iter().map(link).collect()
    }

    pub fn hints(&self, range: Range) -> Vec<InlayHint> {
        let (manner, open) = (self.manner, self.open);
        let within = manner.span(open, range);
        let hints = snell_ide::hints(self.notebook(), within);
        let told = |hint: snell_ide::Hint| InlayHint {
            position: manner.own(open, Span::empty(hint.at)).start,
            label: InlayHintLabel::String(hint.text),
            kind: None,
            text_edits: None,
            tooltip: Some(InlayHintTooltip::String(hint.about.to_owned())),
            padding_left: Some(true),
            padding_right: Some(false),
            data: None,
        };
        hints.into_iter().map(told).collect()
    }

    pub fn lenses(&self) -> Vec<CodeLens> {
        let (manner, open) = (self.manner, self.open);
        let lenses = snell_ide::lenses(self.notebook());
        let told = |lens: snell_ide::Lens| CodeLens {
            range: manner.own(open, lens.place),
            command: Some(Command {
                title: lens.text,
                command: String::new(),
                arguments: None,
            }),
            data: None,
        };
        lenses.into_iter().map(told).collect()
    }
}

/// The blocks of a folder that people look for.
pub fn found(whole: &Notebook, asked: &str, manner: Manner, texts: &Texts) -> Vec<WorkspaceSymbol> {
    let told = |symbol: snell_ide::Symbol| {
        Some(WorkspaceSymbol {
            name: symbol.name,
            kind: super::say::symbol_kind(symbol.kind.is_none()),
            tags: None,
            container_name: Some(symbol.detail),
            location: OneOf::Left(manner.location(whole, symbol.place, texts)?),
            data: None,
        })
    };
    snell_ide::find(whole, asked)
        .into_iter()
        .filter_map(told)
        .collect()
}
