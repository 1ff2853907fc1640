//! `snell serve`: the language server on standard input and output.

use super::{Ended, Outcome};
use crate::cli::Serve;

/// Runs the command. An editor that leaves without having said so ends it with status 1, as the protocol asks.
///
/// # Errors
/// The server cannot start.
pub fn run(_: &Serve) -> Outcome {
    Ok(Ended::found_if(!snell_server::serve()?))
}
