//! `snell vary`: what a rig comes to with one thing varied.

use super::{Ended, Outcome, Session};
use crate::cli::{BankForm, Rigs, Vary};
use crate::picked::{Picked, units};
use crate::sheet::{json, vary};
use crate::terminal::{Stream, Terminal};
use crate::trouble::Trouble;
use snell_analysis::LocalDisk;
use std::io::Write;

/// Runs the command.
///
/// # Errors
/// The rig is not there, has no such part, or a value cannot be read.
pub fn run(options: &Vary, session: &mut Session) -> Outcome {
    let rigs = Rigs {
        named: vec![options.rig.clone()],
        within: options.within.clone(),
    };
    let picked = Picked::read(&rigs)?;
    let asked = snell_view::vary::Vary::of_words(&options.target, &options.values);
    let wanted = |name: &str, file: &str| picked.takes(name, file);
    let units = units(options.told.units);
    let varied = snell_view::vary::vary(&picked.notebook, units, &asked, &LocalDisk, wanted);
    let varied = varied.map_err(Trouble::NoQuantity)?;
    match options.told.form {
        BankForm::Table => {
            let terminal = Terminal::of(Stream::Out, session.colour);
            for (index, one) in varied.iter().enumerate() {
                let before = if index == 0 { "" } else { "\n" };
                write!(session.out, "{before}{}", vary::write(one, &terminal))?;
            }
        }
        BankForm::Json => json::write(&mut session.out.machine(), &varied)?,
    }
    Ok(Ended::Well)
}
