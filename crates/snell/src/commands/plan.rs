//! `snell plan`: a day over several waters.

use super::{Ended, Outcome, Session};
use crate::cli::{BankForm, Plan, Rigs};
use crate::picked::{Picked, units};
use crate::progress::Progress;
use crate::sheet::{json, plan};
use crate::terminal::{Stream, Terminal};
use crate::trouble::Trouble;
use snell_view::plan::ShownPlan;
use std::io::Write;

/// Runs the command.
///
/// # Errors
/// The rig or a water is not there.
pub fn run(options: &Plan, session: &mut Session) -> Outcome {
    let rigs = Rigs {
        named: vec![options.rig.clone()],
        within: options.within.clone(),
    };
    let picked = Picked::read(&rigs)?;
    let wanted = |name: &str, file: &str| picked.takes(name, file);
    let units = units(options.told.units);
    let mut progress = Progress::new();
    let mut told =
        |done, all| progress.tell(done / 1000, all / 1000, "thousand steps of a water at the most");
    let plans = snell_view::plan::plan(&picked.notebook, units, &options.waters, wanted, &mut told);
    let plans = plans.map_err(Trouble::NoQuantity)?;
    drop(progress);
    match options.told.form {
        BankForm::Table => {
            let terminal = Terminal::of(Stream::Out, session.colour);
            for (index, one) in plans.iter().enumerate() {
                let before = if index == 0 { "" } else { "\n" };
                write!(session.out, "{before}{}", plan::write(one, &terminal))?;
            }
        }
        BankForm::Json => json::write(&mut session.out.machine(), &plans)?,
    }
    let right = |plan: &ShownPlan| plan.stops.iter().all(|stop| stop.right);
    Ok(Ended::found_if(!plans.iter().all(right)))
}
