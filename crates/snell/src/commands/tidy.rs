//! `snell tidy`: files laid out, in place or only shown.

use super::{Ended, Outcome, Session};
use crate::cli::Tidy;

/// Runs the command.
///
/// # Errors
/// None yet.
pub fn run(_options: &Tidy, _session: &mut Session) -> Outcome {
    Ok(Ended::Well)
}
