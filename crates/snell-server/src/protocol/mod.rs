//! The Language Server Protocol: the one module with its types.
//!
//! Opening, changing and closing store the text before anything is awaited, and
//! no handler awaits a question to the editor.

mod actions;
mod answers;
mod capabilities;
mod hello;
mod preview;
mod publisher;
mod say;
mod server;

pub use server::Server;

use crate::{client, folder, work};
use answers::Asked;
use hello::Manner;
use publisher::ToEditor;
use server::{kind_of, path_of};
use snell_analysis::Notebook;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::PathBuf;

use tower_lsp_server::LanguageServer;
use tower_lsp_server::jsonrpc::{Error, Result};
use tower_lsp_server::ls_types::*;

/// What the server can do, for the documentation.
pub fn told() -> serde_json::Value {
    serde_json::to_value(capabilities::capabilities(PositionEncodingKind::UTF8)).unwrap_or_default()
}

impl LanguageServer for Server {
    async fn initialize(&self, params: InitializeParams) -> Result<InitializeResult> {
        if let Some(editor) = params.process_id {
            client::end_after(editor);
        }
        let (encoding, kind) = hello::encoding(&params.capabilities);
        let options = params.initialization_options.as_ref();
        let _ = self
            .manner
            .set(hello::manner(&params.capabilities, options, encoding));
        #[allow(deprecated, reason = "older editors know no other way to tell their folder")]
        let root = params.root_uri.iter().map(path_of).collect();
        let folders = params.workspace_folders.map_or(root, |folders| {
            folders.iter().map(|folder| path_of(&folder.uri)).collect()
        });
        if let Ok(mut known) = self.folders.write() {
            *known = folders;
        }
        let editor = ToEditor::new(self.client.clone(), self.manner(), self.shared.clone());
        work::start(&self.shared, editor);
        Ok(InitializeResult {
            capabilities: capabilities::capabilities(kind),
            server_info: Some(ServerInfo {
                name: "snell".to_owned(),
                version: Some(env!("CARGO_PKG_VERSION").to_owned()),
            }),
            ..InitializeResult::default()
        })
    }

    async fn initialized(&self, _: InitializedParams) {
        if self.manner().watches {
            self.watch();
        }
    }

    async fn shutdown(&self) -> Result<()> {
        self.shared.shut_down();
        Ok(())
    }

    async fn did_open(&self, params: DidOpenTextDocumentParams) {
        let document = params.text_document;
        let path = path_of(&document.uri);
        let kind = kind_of(&document.language_id, &path);
        let address = document.uri.as_str();
        self.shared
            .texts
            .open(address, path, kind, document.version, document.text);
        self.shared.changed(address);
    }

    async fn did_change(&self, params: DidChangeTextDocumentParams) {
        let document = params.text_document;
        let changes = Manner::changes(params.content_changes);
        let address = document.uri.as_str();
        let encoding = self.manner().encoding;
        // What cannot be made of a text costs its changes, and nothing else.
        let change = || {
            self.shared
                .texts
                .change(address, document.version, changes, encoding)
        };
        if catch_unwind(AssertUnwindSafe(change)).is_ok() {
            self.shared.changed(address);
        }
    }

    async fn did_close(&self, params: DidCloseTextDocumentParams) {
        let address = params.text_document.uri.as_str();
        if let Some(path) = self.shared.texts.close(address) {
            self.shared.closed(address, &path);
        }
    }

    async fn did_save(&self, _: DidSaveTextDocumentParams) {
        self.look_again();
    }

    async fn did_change_watched_files(&self, params: DidChangeWatchedFilesParams) {
        self.disk_changed(params.changes.iter().map(|change| path_of(&change.uri)).collect());
    }

    async fn did_change_workspace_folders(&self, params: DidChangeWorkspaceFoldersParams) {
        let event = params.event;
        if let Ok(mut known) = self.folders.write() {
            let removed: Vec<PathBuf> = event.removed.iter().map(|folder| path_of(&folder.uri)).collect();
            known.retain(|folder| !removed.contains(folder));
            known.extend(event.added.iter().map(|folder| path_of(&folder.uri)));
        }
    }

    async fn diagnostic(&self, params: DocumentDiagnosticParams) -> Result<DocumentDiagnosticReportResult> {
        let items = self
            .ask(&params.text_document.uri, |asked| asked.diagnostics())
            .await?
            .ok_or_else(server::ask_once_more)?;
        let report = RelatedFullDocumentDiagnosticReport {
            related_documents: None,
            full_document_diagnostic_report: FullDocumentDiagnosticReport {
                result_id: None,
                items,
            },
        };
        Ok(DocumentDiagnosticReport::Full(report).into())
    }

    async fn hover(&self, params: HoverParams) -> Result<Option<Hover>> {
        let at = params.text_document_position_params;
        self.ask(&at.text_document.uri, move |asked| asked.hover(at.position))
            .await
    }

    async fn completion(&self, params: CompletionParams) -> Result<Option<CompletionResponse>> {
        let at = params.text_document_position;
        let items = self
            .ask(&at.text_document.uri, move |asked| asked.completions(at.position))
            .await?;
        Ok(Some(CompletionResponse::Array(items)))
    }

    async fn code_action(&self, params: CodeActionParams) -> Result<Option<CodeActionResponse>> {
        let only = params.context.only;
        let mut actions = self
            .ask(&params.text_document.uri, move |asked| {
                asked.actions(params.range)
            })
            .await?;
        if let Some(only) = only {
            actions.retain(|action| match action {
                CodeActionOrCommand::CodeAction(CodeAction { kind: Some(kind), .. }) => only
                    .iter()
                    .any(|wanted| kind.as_str().starts_with(wanted.as_str())),
                _ => false,
            });
        }
        Ok(Some(actions))
    }

    async fn formatting(&self, params: DocumentFormattingParams) -> Result<Option<Vec<TextEdit>>> {
        self.ask(&params.text_document.uri, |asked| asked.formatting())
            .await
            .map(Some)
    }

    async fn document_symbol(&self, params: DocumentSymbolParams) -> Result<Option<DocumentSymbolResponse>> {
        let symbols = self
            .ask(&params.text_document.uri, |asked| asked.outline())
            .await?;
        Ok(Some(DocumentSymbolResponse::Nested(symbols)))
    }

    async fn symbol(&self, params: WorkspaceSymbolParams) -> Result<Option<WorkspaceSymbolResponse>> {
        let folders = self.folders.read().map(|known| known.clone()).unwrap_or_default();
        let (shared, manner) = (self.shared.clone(), self.manner());
        let work = move || -> std::result::Result<_, folder::Unwalked> {
            let mut files = Vec::new();
            for folder in &folders {
                files.extend(folder::below(folder)?);
            }
            let whole = server::whole(&shared, &files)?;
            Ok(answers::found(&whole, &params.query, manner, &shared.texts))
        };
        let symbols = tokio::task::spawn_blocking(work)
            .await
            .map_err(|_| Error::internal_error())?
            .map_err(|why| server::refused(&why))?;
        Ok(Some(WorkspaceSymbolResponse::Nested(symbols)))
    }

    async fn goto_definition(&self, params: GotoDefinitionParams) -> Result<Option<GotoDefinitionResponse>> {
        let at = params.text_document_position_params;
        let found = self
            .ask(&at.text_document.uri, move |asked| asked.definition(at.position))
            .await?;
        Ok(found.map(GotoDefinitionResponse::Scalar))
    }

    async fn references(&self, params: ReferenceParams) -> Result<Option<Vec<Location>>> {
        let at = params.text_document_position;
        let definition = params.context.include_declaration;
        let ask = move |asked: &Asked<'_>, whole: &Notebook| asked.references(whole, at.position, definition);
        self.ask_folder(&at.text_document.uri, ask).await.map(Some)
    }

    async fn document_highlight(
        &self,
        params: DocumentHighlightParams,
    ) -> Result<Option<Vec<DocumentHighlight>>> {
        let at = params.text_document_position_params;
        self.ask(&at.text_document.uri, move |asked| asked.highlights(at.position))
            .await
            .map(Some)
    }

    async fn prepare_rename(
        &self,
        params: TextDocumentPositionParams,
    ) -> Result<Option<PrepareRenameResponse>> {
        let at = params.position;
        let range = self
            .ask(&params.text_document.uri, move |asked| asked.changeable(at))
            .await?;
        let range = range.map_err(|unnamed| Error::invalid_params(unnamed.to_string()))?;
        Ok(range.map(PrepareRenameResponse::Range))
    }

    async fn rename(&self, params: RenameParams) -> Result<Option<WorkspaceEdit>> {
        let (at, new) = (params.text_document_position, params.new_name);
        let ask = move |asked: &Asked<'_>, whole: &Notebook| asked.renamed(whole, at.position, &new);
        let edit = self.ask_folder(&at.text_document.uri, ask).await?;
        edit.map_err(|unnamed| Error::invalid_params(unnamed.to_string()))
    }

    async fn semantic_tokens_full(
        &self,
        params: SemanticTokensParams,
    ) -> Result<Option<SemanticTokensResult>> {
        let tokens = self
            .ask(&params.text_document.uri, |asked| asked.tokens())
            .await?;
        Ok(Some(SemanticTokensResult::Tokens(tokens)))
    }

    async fn folding_range(&self, params: FoldingRangeParams) -> Result<Option<Vec<FoldingRange>>> {
        self.ask(&params.text_document.uri, |asked| asked.folds())
            .await
            .map(Some)
    }

    async fn selection_range(&self, params: SelectionRangeParams) -> Result<Option<Vec<SelectionRange>>> {
        let positions = params.positions;
        let ask = move |asked: &Asked<'_>| positions.into_iter().map(|at| asked.selection(at)).collect();
        self.ask(&params.text_document.uri, ask).await.map(Some)
    }

    async fn document_link(&self, params: DocumentLinkParams) -> Result<Option<Vec<DocumentLink>>> {
        self.ask(&params.text_document.uri, |asked| asked.links())
            .await
            .map(Some)
    }

    async fn inlay_hint(&self, params: InlayHintParams) -> Result<Option<Vec<InlayHint>>> {
        self.ask(&params.text_document.uri, move |asked| asked.hints(params.range))
            .await
            .map(Some)
    }

    async fn code_lens(&self, params: CodeLensParams) -> Result<Option<Vec<CodeLens>>> {
        self.ask(&params.text_document.uri, |asked| asked.lenses())
            .await
            .map(Some)
    }
}
