//! The language server: a workspace of open texts behind the Language Server
//! Protocol.
//!
//! What stands in a text is the notebook's to say; this crate stores what is
//! typed, decides when to look again, and translates. The protocol's types stay
//! in `protocol`.

pub mod address;
mod client;
mod folder;
pub mod input;
mod protocol;
mod texts;
mod work;

pub use texts::{Change, Open, Texts};

use protocol::Server;
use std::io;
use tower_lsp_server::LspService;

/// How many messages are worked on at once. A change, or the word that an answer is no longer wanted, must
/// never wait behind answers.
const AT_ONCE: usize = 256;

/// Serves on standard input and output until the editor says `exit` or hangs up. Whether it asked to shut
/// down before.
///
/// # Errors
/// The system gives no threads.
pub fn serve() -> io::Result<bool> {
    let runtime = tokio::runtime::Builder::new_multi_thread().enable_all().build()?;
    let orderly = runtime.block_on(async {
        let (service, socket) = LspService::build(Server::new)
            .custom_method("window/workDoneProgress/cancel", Server::give_up)
            .custom_method("snell/preview", Server::preview)
            .custom_method("snell/verdict", Server::verdict)
            .custom_method("snell/slide", Server::slide)
            .custom_method(input::UNREADABLE, Server::unreadable)
            .custom_method(input::NO_MESSAGE, Server::no_message)
            .finish();
        let shared = service.inner().shared();
        tower_lsp_server::Server::new(input::checked(tokio::io::stdin()), tokio::io::stdout(), socket)
            .concurrency_level(AT_ONCE)
            .serve(service)
            .await;
        shared.is_shut_down()
    });
    // Standard input may stay open, and the thread that reads it cannot be called back.
    runtime.shutdown_background();
    Ok(orderly)
}

/// What the server can do, as it tells an editor that can do everything; for the documentation.
pub fn capabilities() -> serde_json::Value {
    protocol::told()
}
