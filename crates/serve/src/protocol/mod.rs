//! The Language Server Protocol: the one module with its types.
//!
//! Opening, changing and closing store the text before anything is awaited, and
//! no handler awaits a question to the editor.

mod answers;
mod capabilities;
mod say;
mod teller;

use crate::folder;
use crate::work::{self, Shared};
use answers::Asked;
use notebook::{Kind, Notebook};
use say::Manner;
use std::path::{Path, PathBuf};
use std::sync::{Arc, OnceLock, RwLock};
use teller::Voice;
use text::Encoding;
use tower_lsp_server::jsonrpc::{Error, Result};
use tower_lsp_server::ls_types::*;
use tower_lsp_server::{Client, LanguageServer};

/// What the server can do, for the documentation.
pub fn told() -> serde_json::Value {
    serde_json::to_value(capabilities::capabilities(PositionEncodingKind::UTF8)).unwrap_or_default()
}

/// The server.
pub struct Server {
    client: Client,
    shared: Arc<Shared>,
    manner: OnceLock<Manner>,
    folders: RwLock<Vec<PathBuf>>,
}

impl Server {
    /// A server that speaks to `client`.
    pub fn new(client: Client) -> Self {
        Self {
            client,
            shared: Arc::default(),
            manner: OnceLock::new(),
            folders: RwLock::default(),
        }
    }

    /// What outlives the service.
    pub fn shared(&self) -> Arc<Shared> {
        self.shared.clone()
    }

    /// The editor no longer wants the work that it was shown.
    pub async fn give_up(&self, _: WorkDoneProgressCancelParams) {
        self.shared.give_up();
    }

    /// Stands for a message that was no JSON.
    pub async fn unreadable(&self) -> Result<()> {
        Err(Error::parse_error())
    }

    /// Stands for JSON that was no message.
    pub async fn no_message(&self) -> Result<()> {
        Err(Error::invalid_request())
    }

    fn manner(&self) -> Manner {
        self.manner.get().copied().unwrap_or_default()
    }

    /// Answers out of the newest state of a text, away from the thread that listens. A state that is no longer
    /// the newest by then is not answered for, nor is what nobody waits for any more.
    async fn ask<T: Send + 'static>(
        &self,
        uri: &Uri,
        answer: impl FnOnce(&mut Asked<'_>) -> T + Send + 'static,
    ) -> Result<T> {
        let address = uri.as_str().to_owned();
        let open = self
            .shared
            .texts
            .get(&address)
            .ok_or_else(|| Error::invalid_params(format!("`{address}` is not open")))?;
        let (shared, manner) = (self.shared.clone(), self.manner());
        // A request that is cancelled drops this future, and with it the only owner.
        let awaited = Arc::new(());
        let unwanted = Arc::downgrade(&awaited);
        let work = move || {
            let desk = shared.desk(&address, &open);
            let mut desk = desk.filter(|_| unwanted.strong_count() > 0)?;
            let mut asked = Asked {
                open: &open,
                manner,
                texts: &shared.texts,
                desk: &mut desk,
            };
            Some(answer(&mut asked))
        };
        let done = tokio::task::spawn_blocking(work).await;
        drop(awaited);
        done.map_err(|_| Error::internal_error())?
            .ok_or_else(Error::content_modified)
    }

    /// The same, with a notebook of the whole project folder beside.
    async fn ask_folder<T: Send + 'static>(
        &self,
        uri: &Uri,
        answer: impl FnOnce(&mut Asked<'_>, &Notebook) -> T + Send + 'static,
    ) -> Result<T> {
        self.ask(uri, |asked| {
            let whole = asked.desk.folder(&folder::around(&asked.open.path));
            answer(asked, &whole)
        })
        .await
    }

    /// Asks the editor to tell of files that change outside of it.
    fn watch(&self) {
        let watchers = ["**/*.rig", "**/*.md", "**/*.markdown"].map(|glob| FileSystemWatcher {
            glob_pattern: GlobPattern::String(glob.to_owned()),
            kind: None,
        });
        let options = DidChangeWatchedFilesRegistrationOptions {
            watchers: watchers.to_vec(),
        };
        let registration = Registration {
            id: "files".to_owned(),
            method: "workspace/didChangeWatchedFiles".to_owned(),
            register_options: serde_json::to_value(options).ok(),
        };
        let client = self.client.clone();
        tokio::spawn(async move {
            // An editor that will not is asked nothing more.
            let _ = client.register_capability(vec![registration]).await;
        });
    }

    fn disk_changed(&self, files: Vec<PathBuf>) {
        let (shared, client, pulls) = (self.shared.clone(), self.client.clone(), self.manner().pulls);
        let runtime = tokio::runtime::Handle::current();
        tokio::task::spawn_blocking(move || {
            if shared.disk_changed(&files) && pulls {
                // An editor that does not know the word asks again by itself.
                runtime.spawn(async move { client.workspace_diagnostic_refresh().await });
            }
        });
    }
}

/// The encoding that suits best among those that an editor knows: bytes need no counting.
fn encoding(capabilities: &ClientCapabilities) -> (Encoding, PositionEncodingKind) {
    let general = capabilities.general.as_ref();
    let known = general
        .and_then(|general| general.position_encodings.as_deref())
        .unwrap_or_default();
    let ours = [
        (Encoding::Utf8, PositionEncodingKind::UTF8),
        (Encoding::Utf32, PositionEncodingKind::UTF32),
        (Encoding::Utf16, PositionEncodingKind::UTF16),
    ];
    ours.into_iter()
        .find(|(_, kind)| known.contains(kind))
        .unwrap_or((Encoding::Utf16, PositionEncodingKind::UTF16))
}

fn manner(capabilities: &ClientCapabilities, encoding: Encoding) -> Manner {
    let workspace = capabilities.workspace.as_ref();
    Manner {
        encoding,
        versioned_edits: workspace
            .and_then(|workspace| workspace.workspace_edit.as_ref()?.document_changes)
            .unwrap_or(false),
        progress: capabilities
            .window
            .as_ref()
            .and_then(|window| window.work_done_progress)
            .unwrap_or(false),
        watches: workspace
            .and_then(|workspace| workspace.did_change_watched_files?.dynamic_registration)
            .unwrap_or(false),
        pulls: capabilities
            .text_document
            .as_ref()
            .is_some_and(|text| text.diagnostic.is_some()),
    }
}

/// The path of an address. A text that stands nowhere has one made of its address, below no folder.
fn path_of(uri: &Uri) -> PathBuf {
    let is_file = uri.scheme().as_str() == "file";
    let path = uri.to_file_path().filter(|_| is_file);
    path.map_or_else(
        || PathBuf::from(uri.as_str().replace(['/', ':'], "-")),
        |path| notebook::editor::real_of(&path),
    )
}

/// What kind of text it is: by the editor's word for it, or else by its ending.
fn kind_of(language: &str, path: &Path) -> Kind {
    match language {
        "markdown" => Kind::Markdown,
        "rig" | "snell" => Kind::Rig,
        _ => Kind::of(path).unwrap_or(Kind::Rig),
    }
}

impl LanguageServer for Server {
    async fn initialize(&self, params: InitializeParams) -> Result<InitializeResult> {
        let (encoding, kind) = encoding(&params.capabilities);
        let _ = self.manner.set(manner(&params.capabilities, encoding));
        let folders = params.workspace_folders.unwrap_or_default();
        if let Ok(mut known) = self.folders.write() {
            known.extend(folders.iter().map(|folder| path_of(&folder.uri)));
        }
        let voice = Voice::new(self.client.clone(), self.manner(), self.shared.clone());
        work::start(self.shared.clone(), voice);
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
        self.shared.wake(address);
    }

    async fn did_change(&self, params: DidChangeTextDocumentParams) {
        let document = params.text_document;
        let changes = Manner::changes(params.content_changes);
        let address = document.uri.as_str();
        self.shared
            .texts
            .change(address, document.version, changes, self.manner().encoding);
        self.shared.wake(address);
    }

    async fn did_close(&self, params: DidCloseTextDocumentParams) {
        let address = params.text_document.uri.as_str();
        if self.shared.texts.close(address) {
            self.shared.wake(address);
        }
    }

    async fn did_save(&self, _: DidSaveTextDocumentParams) {}

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
            .await?;
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
        let work = move || {
            let files: Vec<PathBuf> = folders.iter().flat_map(|folder| folder::below(folder)).collect();
            let whole = shared.bare_desk().folder(&files);
            let found = notebook::editor::find(&whole, &params.query);
            let told = found.into_iter().filter_map(|symbol| {
                Some(WorkspaceSymbol {
                    name: symbol.name,
                    kind: say::symbol_kind(symbol.kind.is_none()),
                    tags: None,
                    container_name: Some(symbol.detail),
                    location: OneOf::Left(manner.location(&whole, symbol.place, &shared.texts)?),
                    data: None,
                })
            });
            told.collect()
        };
        let symbols = tokio::task::spawn_blocking(work)
            .await
            .map_err(|_| Error::internal_error())?;
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
        let ask =
            move |asked: &mut Asked<'_>, whole: &Notebook| asked.references(whole, at.position, definition);
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
        let ask = move |asked: &mut Asked<'_>, whole: &Notebook| asked.renamed(whole, at.position, &new);
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
        let ask = move |asked: &mut Asked<'_>| positions.into_iter().map(|at| asked.selection(at)).collect();
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
