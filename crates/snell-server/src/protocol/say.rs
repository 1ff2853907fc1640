//! From places and findings to the protocol's words, and back.

use super::hello::Manner;
use crate::address::System;
use crate::texts::{Change, Open, Texts};
use base64::prelude::{BASE64_STANDARD, Engine as _};
use snell_analysis::{Document, Notebook};
use snell_finding::{Edit, Finding, Fix, Level};
use snell_ide::{Completion, Sort, Symbol};
use snell_text::{LineIndex, Place, Span, TextId};
use std::collections::BTreeMap;
use std::path::Path;
use tower_lsp_server::ls_types::*;

impl Manner {
    /// A position of the protocol as one of a text.
    pub fn position(position: Position) -> snell_text::Position {
        snell_text::Position {
            line: position.line,
            column: position.character,
        }
    }

    /// The byte of a position.
    pub fn offset(&self, open: &Open, position: Position) -> u32 {
        open.index
            .offset(&open.text, Self::position(position), self.encoding)
    }

    /// The bytes of a range.
    pub fn span(&self, open: &Open, range: Range) -> Span {
        let (start, end) = (self.offset(open, range.start), self.offset(open, range.end));
        Span::new(start.min(end), start.max(end))
    }

    /// The range of a span.
    pub fn range(&self, text: &str, index: &LineIndex, span: Span) -> Range {
        let at = |offset| {
            let position = index.position(text, offset, self.encoding);
            Position::new(position.line, position.column)
        };
        Range::new(at(span.start), at(span.end))
    }

    /// The range of a span of an open text.
    pub fn own(&self, open: &Open, span: Span) -> Range {
        self.range(&open.text, &open.index, span)
    }

    /// The place in a text of a notebook; nothing for what ships.
    pub fn location(&self, notebook: &Notebook, place: Place, texts: &Texts) -> Option<Location> {
        self.within(notebook.document(place.text)?, place, texts)
    }

    /// The place in a text.
    fn within(&self, document: &Document, place: Place, texts: &Texts) -> Option<Location> {
        Some(Location::new(
            address(place_of(document, texts), texts)?,
            self.range(&document.text, document.index(), place.span),
        ))
    }

    /// A finding; its other places as related information.
    pub fn diagnostic(
        &self,
        notebook: &Notebook,
        uri: &Uri,
        open: &Open,
        finding: &Finding,
        texts: &Texts,
    ) -> Diagnostic {
        let said = snell_ide::said(notebook, finding);
        let elsewhere = said.elsewhere.into_iter().filter_map(|(place, message)| {
            let location = match place.text == finding.place().text {
                true => Some(Location::new(uri.clone(), self.own(open, place.span))),
                false => self.within(notebook.document(place.text)?, place, texts),
            };
            Some(DiagnosticRelatedInformation {
                location: location?,
                message,
            })
        });
        let related: Vec<DiagnosticRelatedInformation> = elsewhere.collect();
        Diagnostic {
            range: self.own(open, said.place),
            severity: Some(match finding.level {
                Level::Fault => DiagnosticSeverity::ERROR,
                Level::Caution => DiagnosticSeverity::WARNING,
                Level::Advice => DiagnosticSeverity::INFORMATION,
            }),
            code: Some(NumberOrString::String(finding.code.to_string())),
            source: Some("snell".to_owned()),
            message: said.message,
            related_information: (!related.is_empty()).then_some(related),
            ..Diagnostic::default()
        }
    }

    /// What is told of a place, with a picture in SVG where the editor shows it.
    pub fn hover(&self, open: &Open, hover: snell_ide::Hover, picture: Option<&str>) -> Hover {
        let picture = picture.map(|svg| {
            let data = BASE64_STANDARD.encode(svg);
            format!("![the rig to scale](data:image/svg+xml;base64,{data})")
        });
        let parts = [hover.text, picture.unwrap_or_default(), hover.more];
        let parts: Vec<&str> = parts.iter().map(|part| part.trim()).collect();
        let parts: Vec<&str> = parts.into_iter().filter(|part| !part.is_empty()).collect();
        let value = parts.join("\n\n");
        let value = if self.markdown { value } else { plain(&value) };
        let kind = if self.markdown {
            MarkupKind::Markdown
        } else {
            MarkupKind::PlainText
        };
        Hover {
            contents: HoverContents::Markup(MarkupContent { kind, value }),
            range: Some(self.own(open, hover.place)),
        }
    }

    /// Edits as a change of the workspace; nothing if one is in a text that ships.
    pub fn workspace_edit(
        &self,
        notebook: &Notebook,
        edits: &[Edit],
        texts: &Texts,
    ) -> Option<WorkspaceEdit> {
        let mut by_text: BTreeMap<TextId, Vec<TextEdit>> = BTreeMap::new();
        for edit in edits {
            let document = notebook.document(edit.place.text)?;
            let range = self.range(&document.text, document.index(), edit.place.span);
            by_text
                .entry(edit.place.text)
                .or_default()
                .push(TextEdit::new(range, edit.new.clone()));
        }
        let mut changes = Vec::new();
        for (id, edits) in by_text {
            let document = notebook.document(id)?;
            let path = place_of(document, texts);
            let version = texts.of_path(path).map(|(_, version)| version);
            changes.push((address(path, texts)?, version, edits));
        }
        Some(if self.versioned_edits {
            let edits = changes.into_iter().map(|(uri, version, edits)| TextDocumentEdit {
                text_document: OptionalVersionedTextDocumentIdentifier { uri, version },
                edits: edits.into_iter().map(OneOf::Left).collect(),
            });
            WorkspaceEdit {
                document_changes: Some(DocumentChanges::Edits(edits.collect())),
                ..WorkspaceEdit::default()
            }
        } else {
            WorkspaceEdit {
                changes: Some(changes.into_iter().map(|(uri, _, edits)| (uri, edits)).collect()),
                ..WorkspaceEdit::default()
            }
        })
    }

    /// A way out of a finding.
    pub fn action(&self, fix: &Fix, diagnostic: Diagnostic, edit: WorkspaceEdit) -> CodeAction {
        CodeAction {
            title: fix.title.clone(),
            kind: Some(CodeActionKind::QUICKFIX),
            diagnostics: Some(vec![diagnostic]),
            edit: Some(edit),
            is_preferred: fix.sure.then_some(true),
            ..CodeAction::default()
        }
    }

    /// A word that may stand at a place.
    pub fn completion(&self, open: &Open, number: usize, offer: Completion) -> CompletionItem {
        CompletionItem {
            kind: Some(match offer.sort {
                Sort::Keyword => CompletionItemKind::KEYWORD,
                Sort::Block => CompletionItemKind::REFERENCE,
                Sort::Local => CompletionItemKind::VARIABLE,
                Sort::Unit => CompletionItemKind::UNIT,
                Sort::Measure => CompletionItemKind::PROPERTY,
                Sort::Word => CompletionItemKind::ENUM_MEMBER,
            }),
            detail: (!offer.detail.is_empty()).then_some(offer.detail),
            documentation: (!offer.about.is_empty()).then_some(Documentation::String(offer.about)),
            sort_text: Some(format!("{number:04}")),
            text_edit: Some(CompletionTextEdit::Edit(TextEdit::new(
                self.own(open, offer.place),
                offer.word.clone(),
            ))),
            label: offer.word,
            ..CompletionItem::default()
        }
    }

    /// An entry of the outline.
    pub fn symbol(&self, open: &Open, symbol: Symbol) -> DocumentSymbol {
        let parts: Vec<DocumentSymbol> = symbol
            .parts
            .into_iter()
            .map(|part| self.symbol(open, part))
            .collect();
        #[allow(deprecated, reason = "the field has to be there")]
        DocumentSymbol {
            name: symbol.name,
            detail: Some(symbol.detail),
            kind: symbol_kind(symbol.kind.is_none()),
            tags: None,
            deprecated: None,
            range: self.own(open, symbol.extent),
            selection_range: self.own(open, symbol.place.span),
            children: (!parts.is_empty()).then_some(parts),
        }
    }

    /// The edits of a notification.
    pub fn changes(changes: Vec<TextDocumentContentChangeEvent>) -> Vec<Change> {
        let change = |change: TextDocumentContentChangeEvent| Change {
            places: change
                .range
                .map(|range| (Self::position(range.start), Self::position(range.end))),
            new: change.text,
        };
        changes.into_iter().map(change).collect()
    }
}

/// Markdown without its marks, for editors that show it as it is.
fn plain(markdown: &str) -> String {
    markdown.replace("**", "").replace('`', "")
}

/// Blocks are things, the parts of a rig its fields.
pub fn symbol_kind(part: bool) -> SymbolKind {
    if part {
        SymbolKind::FIELD
    } else {
        SymbolKind::CLASS
    }
}

/// Where a text stands: the path that it is open under, or else its own, without the turns that a `use` line
/// took to it.
fn place_of<'d>(document: &'d Document, texts: &Texts) -> &'d Path {
    match &document.real {
        Some(real) if texts.of_path(&document.path).is_none() => real,
        _ => &document.path,
    }
}

/// The address of a path: that under which its text is open, if it is.
pub fn address(path: &Path, texts: &Texts) -> Option<Uri> {
    match texts.of_path(path) {
        Some((address, _)) => address.parse().ok(),
        None => crate::address::address(&std::path::absolute(path).ok()?.to_string_lossy(), System::HERE)
            .parse()
            .ok(),
    }
}
