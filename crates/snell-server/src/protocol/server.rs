//! The server's state, and how it comes to its answers: out of the newest
//! state of a text, away from the thread that listens.

use super::answers::Asked;
use super::hello::Manner;
use crate::address::{self, System};
use crate::folder::{self, Unwalked};
use crate::work::Shared;
use snell_analysis::{Kind, Notebook};
use std::path::{Path, PathBuf};
use std::sync::{Arc, OnceLock, RwLock};
use tower_lsp_server::Client;
use tower_lsp_server::jsonrpc::{Error, ErrorCode, Result};
use tower_lsp_server::ls_types::*;

/// The server.
pub struct Server {
    pub(super) client: Client,
    pub(super) shared: Arc<Shared>,
    pub(super) manner: OnceLock<Manner>,
    pub(super) folders: RwLock<Vec<PathBuf>>,
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

    /// How the editor wants to be answered.
    pub(super) fn manner(&self) -> Manner {
        self.manner.get().copied().unwrap_or_default()
    }

    /// Answers out of the newest state of a text.
    pub(super) async fn ask<T: Send + 'static>(
        &self,
        uri: &Uri,
        answer: impl FnOnce(&Asked<'_>) -> T + Send + 'static,
    ) -> Result<T> {
        self.ask_or(uri, |asked| Ok(answer(asked))).await
    }

    /// The same, with a notebook of the whole project folder beside; refused where that cannot be had whole.
    pub(super) async fn ask_folder<T: Send + 'static>(
        &self,
        uri: &Uri,
        answer: impl FnOnce(&Asked<'_>, &Notebook) -> T + Send + 'static,
    ) -> Result<T> {
        let shared = self.shared.clone();
        self.ask_or(uri, move |asked| {
            let files = folder::around(&asked.open.path)?;
            Ok(answer(asked, &whole(&shared, &files)?))
        })
        .await
    }

    /// Answers out of the newest state of a text, away from the thread that listens, and without making any other
    /// request wait. A state that is no longer the newest by then is not answered for, nor is what nobody waits for any
    /// more.
    async fn ask_or<T: Send + 'static>(
        &self,
        uri: &Uri,
        answer: impl FnOnce(&Asked<'_>) -> std::result::Result<T, Unwalked> + Send + 'static,
    ) -> Result<T> {
        let address = uri.as_str().to_owned();
        let newest = self.shared.newest(&address);
        let (open, snapshot) =
            newest.ok_or_else(|| Error::invalid_params(format!("`{address}` is not open")))?;
        let (shared, manner) = (self.shared.clone(), self.manner());
        // A request that is cancelled drops this future, and with it the only owner.
        let awaited = Arc::new(());
        let unwanted = Arc::downgrade(&awaited);
        let work = move || {
            let stop = || unwanted.strong_count() == 0 || !shared.texts.is_newest(&address, open.state);
            let asked = Asked {
                open: &open,
                snapshot: &snapshot,
                manner,
                texts: &shared.texts,
                stop: &stop,
            };
            (!stop()).then(|| answer(&asked))
        };
        // One that panics costs its own answer.
        let done = tokio::task::spawn_blocking(work).await;
        drop(awaited);
        let answer = done.map_err(|_| Error::internal_error())?;
        answer
            .ok_or_else(Error::content_modified)?
            .map_err(|why| refused(&why))
    }

    /// Asks the editor to tell of files that change outside of it.
    pub(super) fn watch(&self) {
        let endings = Kind::ENDINGS.iter().filter(|(_, kind)| kind.is_source());
        let watchers = endings.map(|(ending, _)| FileSystemWatcher {
            glob_pattern: GlobPattern::String(format!("**/*.{ending}")),
            kind: None,
        });
        let options = DidChangeWatchedFilesRegistrationOptions {
            watchers: watchers.collect(),
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

    /// Files changed outside of the editor.
    pub(super) fn disk_changed(&self, files: Vec<PathBuf>) {
        self.where_others_change(move |shared| shared.disk_changed(&files));
    }

    /// A file was saved, and by that or meanwhile used files may have changed.
    pub(super) fn look_again(&self) {
        self.where_others_change(Shared::look_again);
    }

    fn where_others_change(&self, changes: impl FnOnce(&Shared) -> bool + Send + 'static) {
        let (shared, client, manner) = (self.shared.clone(), self.client.clone(), self.manner());
        let runtime = tokio::runtime::Handle::current();
        tokio::task::spawn_blocking(move || {
            if changes(&shared) {
                runtime.spawn(ask_again(client, manner));
            }
        });
    }
}

/// A notebook of many files, open texts among them: of all of them, or the reason why not.
pub(super) fn whole(shared: &Shared, files: &[PathBuf]) -> std::result::Result<Notebook, Unwalked> {
    let (notebook, left_out) = shared.workspace.folder(files);
    match left_out.into_iter().next() {
        Some((path, why)) => Err(Unwalked::Unread(path.display().to_string(), why.to_string())),
        None => Ok(notebook),
    }
}

/// What was asked for cannot be told whole.
pub(super) fn refused(why: &Unwalked) -> Error {
    /// `RequestFailed` of the protocol.
    const FAILED: i64 = -32803;
    Error {
        code: ErrorCode::ServerError(FAILED),
        message: why.to_string().into(),
        data: None,
    }
}

/// The findings that were asked for are of a state that is past.
pub(super) fn ask_once_more() -> Error {
    /// `ServerCancelled` of the protocol.
    const CANCELLED: i64 = -32802;
    Error {
        code: ErrorCode::ServerError(CANCELLED),
        message: "the text has changed".into(),
        data: Some(serde_json::json!({ "retriggerRequest": true })),
    }
}

/// Has the editor ask again for what it was answered. One that does not know a word answers so, and asks again
/// by itself.
async fn ask_again(client: Client, manner: Manner) {
    let (hints, totals) = manner.asks_again;
    if manner.pulls {
        let _ = client.workspace_diagnostic_refresh().await;
    }
    if hints {
        let _ = client.inlay_hint_refresh().await;
    }
    if totals {
        let _ = client.code_lens_refresh().await;
    }
}

/// The path of an address. A text that stands nowhere has one made of its address, below no folder.
pub(super) fn path_of(uri: &Uri) -> PathBuf {
    let is_file = uri.scheme().as_str() == "file";
    if !is_file || uri.path().as_str().is_empty() {
        return PathBuf::from(uri.as_str().replace(['/', ':'], "-"));
    }
    let host = uri
        .authority()
        .map(|authority| authority.host())
        .unwrap_or_default();
    let path = address::path(host, &uri.path().decode().to_string_lossy(), System::HERE);
    snell_analysis::real_of(Path::new(&path))
}

/// What kind of text it is: by the editor's word for it, or else by its ending.
pub(super) fn kind_of(language: &str, path: &Path) -> Kind {
    match language {
        "markdown" => Kind::of(path)
            .filter(|kind| kind.is_article())
            .unwrap_or(Kind::MARKDOWN),
        "rig" | "snell" => Kind::Rig,
        _ => Kind::of(path).unwrap_or(Kind::Rig),
    }
}
