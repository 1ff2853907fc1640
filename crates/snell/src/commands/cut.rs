//! `snell cut`: the tying list, and what is cut taken off the spools if told.

use super::{Ended, Outcome, Session};
use crate::cli::{Cut, CutForm};
use crate::inputs::STANDARD_INPUT;
use crate::picked::{Picked, units};
use crate::terminal::{Stream, Terminal};
use crate::trouble::Trouble;
use crate::{cutting, write};
use snell_view::{Cuts, Taking};
use std::io::Write;

/// Runs the command.
///
/// # Errors
/// A path cannot be read, a rig is not there, a spool file cannot be written, or nothing can be taken.
pub fn run(options: &Cut, session: &mut Session) -> Outcome {
    let picked = Picked::read(&options.rigs)?;
    let cuts = snell_view::cut(&picked.notebook, units(options.units), |name, file| {
        picked.takes(name, file)
    });
    let faulty = picked.tell_faults(session)?;
    match options.form {
        CutForm::Table => {
            let terminal = Terminal::of(Stream::Out, session.colour);
            write!(session.out, "{}", cutting::table(&cuts, &terminal))?;
        }
        CutForm::Json => cutting::json(&mut session.out.machine(), &cuts)?,
    }
    if options.take {
        take(&cuts, options.form, session)?;
    }
    let short = cuts.spools.iter().any(|spool| spool.leaders == Some(0));
    Ok(Ended::found_if(faulty || short && !options.take))
}

/// Writes the new `left` lines, and tells of each file beside the list.
fn take(cuts: &Cuts, form: CutForm, session: &mut Session) -> Result<(), Trouble> {
    let takings = cuts
        .take
        .as_ref()
        .map_err(|why| Trouble::NotTaken(why.to_string()))?;
    if takings
        .iter()
        .any(|taking| taking.path.as_os_str() == STANDARD_INPUT)
    {
        return Err(Trouble::NotTaken(
            "the spools came by standard input, which is no file".to_owned(),
        ));
    }
    for taking in takings {
        write_one(taking)?;
        let told = format!("took what is cut off the spools in {}", taking.path.display());
        match form {
            CutForm::Table => writeln!(session.out, "\n{told}")?,
            CutForm::Json => writeln!(session.err(), "{told}")?,
        }
    }
    Ok(())
}

fn write_one(taking: &Taking) -> Result<(), Trouble> {
    let new = snell_finding::apply(&taking.text, taking.edits.iter().cloned());
    write::replace(&taking.path, &taking.text, &new).map_err(|why| Trouble::unwritten(&taking.path, why))
}
