//! The worker's voice: findings published with the version that they are of,
//! and progress for work that takes a while.

use super::answers::Asked;
use super::say::Manner;
use crate::texts::Open;
use crate::work::{Shared, Teller};
use notebook::editor::Desk;
use report::Finding;
use std::sync::atomic::{AtomicBool, AtomicU64, Ordering};
use std::sync::{Arc, Mutex, PoisonError};
use std::time::Duration;
use tokio::runtime::Handle;
use tokio::task::JoinHandle;
use tower_lsp_server::Client;
use tower_lsp_server::ls_types::notification::Progress;
use tower_lsp_server::ls_types::*;

/// Work that takes longer is shown.
const PATIENCE: Duration = Duration::from_millis(100);

/// Work that is, or may come to be, shown.
struct Shown {
    task: JoinHandle<()>,
    token: ProgressToken,
    begun: Arc<AtomicBool>,
}

/// Speaks to the editor.
pub struct Voice {
    client: Client,
    manner: Manner,
    shared: Arc<Shared>,
    runtime: Handle,
    works: AtomicU64,
    shown: Mutex<Option<Shown>>,
}

impl Voice {
    /// A voice for a worker; called within the runtime.
    pub fn new(client: Client, manner: Manner, shared: Arc<Shared>) -> Self {
        Self {
            client,
            manner,
            shared,
            runtime: Handle::current(),
            works: AtomicU64::new(0),
            shown: Mutex::default(),
        }
    }
}

/// Shows that work is going on, once it has taken a while.
async fn show(client: Client, token: ProgressToken, name: String, begun: Arc<AtomicBool>) {
    tokio::time::sleep(PATIENCE).await;
    if client.create_work_done_progress(token.clone()).await.is_err() {
        return;
    }
    begun.store(true, Ordering::SeqCst);
    let begin = WorkDoneProgressBegin {
        title: format!("Working out {name}"),
        cancellable: Some(true),
        ..WorkDoneProgressBegin::default()
    };
    let value = ProgressParamsValue::WorkDone(WorkDoneProgress::Begin(begin));
    client
        .send_notification::<Progress>(ProgressParams { token, value })
        .await;
    // Ended from outside, by `Voice::end`.
    std::future::pending::<()>().await;
}

impl Teller for Voice {
    fn tell(&self, address: &str, open: &Open, findings: &[Finding], desk: &mut Desk) {
        // An editor that asks for findings itself would show each twice.
        if self.manner.pulls {
            return;
        }
        let Ok(uri) = address.parse::<Uri>() else { return };
        let asked = Asked {
            open,
            manner: self.manner,
            texts: &self.shared.texts,
            desk,
        };
        let diagnostics = asked.told(findings);
        self.runtime.block_on(
            self.client
                .publish_diagnostics(uri, diagnostics, Some(open.version)),
        );
    }

    fn begin(&self, address: &str) {
        if !self.manner.progress {
            return;
        }
        let number = self.works.fetch_add(1, Ordering::Relaxed);
        let token = ProgressToken::String(format!("work-{number}"));
        let name = address.rsplit('/').next().unwrap_or(address).to_owned();
        let begun = Arc::new(AtomicBool::new(false));
        let task = self
            .runtime
            .spawn(show(self.client.clone(), token.clone(), name, begun.clone()));
        *self.shown.lock().unwrap_or_else(PoisonError::into_inner) = Some(Shown { task, token, begun });
    }

    fn end(&self, _: &str) {
        let shown = self.shown.lock().unwrap_or_else(PoisonError::into_inner).take();
        let Some(Shown { task, token, begun }) = shown else {
            return;
        };
        task.abort();
        let client = self.client.clone();
        self.runtime.spawn(async move {
            // Whether it was shown is only known once it has stopped.
            let _ = task.await;
            if begun.load(Ordering::SeqCst) {
                let value =
                    ProgressParamsValue::WorkDone(WorkDoneProgress::End(WorkDoneProgressEnd::default()));
                client
                    .send_notification::<Progress>(ProgressParams { token, value })
                    .await;
            }
        });
    }
}
