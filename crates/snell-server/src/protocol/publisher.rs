//! What the workers tell the editor: findings published with the version that they are of,
//! and progress for work that takes a while.

use super::answers::Asked;
use super::hello::Manner;
use crate::texts::Open;
use crate::work::{Publisher, Shared};
use snell_finding::Finding;
use snell_ide::Snapshot;
use std::sync::Arc;
use std::sync::atomic::{AtomicU64, Ordering};
use std::time::Duration;
use tokio::runtime::Handle;
use tokio::sync::oneshot;
use tower_lsp_server::Client;
use tower_lsp_server::ls_types::notification::Progress;
use tower_lsp_server::ls_types::*;

/// Work that takes longer is shown.
const PATIENCE: Duration = Duration::from_millis(100);

/// Publishes to the editor.
pub struct ToEditor {
    client: Client,
    manner: Manner,
    shared: Arc<Shared>,
    runtime: Handle,
    works: AtomicU64,
}

impl ToEditor {
    /// For the workers; called within the runtime.
    pub fn new(client: Client, manner: Manner, shared: Arc<Shared>) -> Self {
        Self {
            client,
            manner,
            shared,
            runtime: Handle::current(),
            works: AtomicU64::new(0),
        }
    }

    fn publish(&self, address: &str, diagnostics: Vec<Diagnostic>, version: Option<i32>) {
        let Ok(uri) = address.parse::<Uri>() else { return };
        self.runtime
            .block_on(self.client.publish_diagnostics(uri, diagnostics, version));
    }
}

/// Shows that work is going on, once it has taken a while, until the other end of `ended` is dropped.
async fn show(client: Client, token: ProgressToken, name: String, mut ended: oneshot::Receiver<()>) {
    if tokio::time::timeout(PATIENCE, &mut ended).await.is_ok() {
        return;
    }
    if client.create_work_done_progress(token.clone()).await.is_err() {
        return;
    }
    let send = async |progress| {
        let value = ProgressParamsValue::WorkDone(progress);
        let token = token.clone();
        client
            .send_notification::<Progress>(ProgressParams { token, value })
            .await;
    };
    send(WorkDoneProgress::Begin(WorkDoneProgressBegin {
        title: format!("Working out {name}"),
        cancellable: Some(true),
        ..WorkDoneProgressBegin::default()
    }))
    .await;
    let _ = ended.await;
    send(WorkDoneProgress::End(WorkDoneProgressEnd::default())).await;
}

impl Publisher for ToEditor {
    type Told = Vec<Diagnostic>;
    type Work = Option<oneshot::Sender<()>>;

    fn put(&self, open: &Open, snapshot: &Snapshot, findings: &[Finding]) -> Vec<Diagnostic> {
        let asked = Asked {
            open,
            snapshot,
            manner: self.manner,
            texts: &self.shared.texts,
            stop: &|| false,
        };
        asked.told(findings)
    }

    fn tell(&self, address: &str, open: &Open, told: Vec<Diagnostic>) {
        // An editor that asks for findings itself would show each twice.
        if !self.manner.pulls {
            self.publish(address, told, Some(open.version));
        }
    }

    fn clear(&self, address: &str) {
        if !self.manner.pulls {
            self.publish(address, Vec::new(), None);
        }
    }

    fn begin(&self, address: &str) -> Self::Work {
        if !self.manner.progress {
            return None;
        }
        let number = self.works.fetch_add(1, Ordering::Relaxed);
        let token = ProgressToken::String(format!("work-{number}"));
        let name = address.rsplit('/').next().unwrap_or(address).to_owned();
        let (working, ended) = oneshot::channel();
        self.runtime.spawn(show(self.client.clone(), token, name, ended));
        Some(working)
    }

    fn watches(&self) -> bool {
        self.manner.watches
    }
}
