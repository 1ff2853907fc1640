//! `snell export`: evaluated rigs for other programs, or the schema of a form.

use super::{Ended, Outcome, Session};
use crate::cli::Export;
use crate::export::{schema, write};
use crate::picked::{Picked, tell_bare, units};
use std::io::Write;

/// Runs the command.
///
/// # Errors
/// A path cannot be read, a rig is not there, or the output cannot be written.
pub fn run(options: &Export, session: &mut Session) -> Outcome {
    if let Some(of) = options.schema {
        serde_json::to_writer_pretty(session.out.machine(), &schema(of))?;
        writeln!(session.out)?;
        return Ok(Ended::Well);
    }
    let picked = Picked::read(&options.rigs)?;
    let rigs = snell_view::show(&picked.notebook, units(options.units), |name, file| {
        picked.takes(name, file)
    });
    let faulty = picked.tell_faults(session)?;
    write(&mut session.out.machine(), &rigs, options.form)?;
    tell_bare(rigs.len(), session)?;
    Ok(Ended::found_if(faulty))
}
