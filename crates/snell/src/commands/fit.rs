//! `snell fit`: the fewest changes that make rigs right for a water, and the
//! rig with them made put into its file if told.

use super::{Ended, Outcome, Session};
use crate::cli::{Fit, FitForm};
use crate::picked::{Picked, units};
use crate::progress::Progress;
use crate::sheet::{fit, json};
use crate::terminal::{Stream, Terminal};
use crate::trouble::Trouble;
use crate::write;
use snell_analysis::LocalDisk;
use snell_view::fit::{Outcome as Fitted, ShownFit, ToWater};
use std::io::Write;

/// Runs the command.
///
/// # Errors
/// A path cannot be read, a rig or a water is not there, what is asked for is no quantity, or a rig cannot be
/// added to its file.
pub fn run(options: &Fit, session: &mut Session) -> Outcome {
    let picked = Picked::read(&options.rigs)?;
    let to = ToWater {
        name: options.water.clone(),
        depth: options.other.depth.clone(),
        speed: options.other.speed.clone(),
        temperature: options.other.temperature.clone(),
        bed: options.bed.clone(),
    };
    let mut progress = Progress::new();
    let mut told = |done, all| progress.tell(done / 1000, all / 1000, "thousand steps at the most");
    let wanted = |name: &str, file: &str| picked.takes(name, file);
    let name = options.name.as_deref();
    let fits = snell_view::fit::fit(
        &picked.notebook,
        units(options.units),
        &to,
        name,
        wanted,
        &mut told,
    )
    .map_err(Trouble::NoQuantity)?;
    drop(progress);
    match options.form {
        FitForm::Table => {
            let terminal = Terminal::of(Stream::Out, session.colour);
            for (index, one) in fits.iter().enumerate() {
                let before = if index == 0 { "" } else { "\n" };
                // What is to be kept and cannot be written is there to be pasted.
                let all = options.all || options.write && !may_be_kept(one);
                write!(session.out, "{before}{}", fit::write(one, &terminal, all))?;
            }
        }
        FitForm::Json => json::write(&mut session.out.machine(), &fits)?,
    }
    if options.write {
        add(&fits, options, &picked, session)?;
    }
    let fitted = |fit: &ShownFit| matches!(fit.outcome, Fitted::Right | Fitted::Ways);
    Ok(Ended::found_if(!fits.iter().all(fitted)))
}

/// Puts the rig of a way into its file. Of several rigs one file might be meant twice, so there is only one.
fn add(fits: &[ShownFit], options: &Fit, picked: &Picked, session: &mut Session) -> Result<(), Trouble> {
    let [fit] = fits else {
        let why = "name one rig: only one can be added at a time";
        return Err(Trouble::NotAdded(why.to_owned()));
    };
    if fit.outcome == Fitted::Right && fit.addition.is_none() {
        let told = "nothing was added: the rig is right as it is, in its own water";
        return tell(options.form, session, told);
    }
    let number = usize::from(options.way);
    let addition = match (fit.ways.get(number - 1), &fit.addition) {
        (Some(way), _) => way.addition.as_ref(),
        (None, Some(addition)) => Some(addition),
        (None, None) => {
            let why = match fit.ways.len() {
                0 => "there is no way to add".to_owned(),
                ways => format!("there is no way {number}, only {ways}"),
            };
            return Err(Trouble::NotAdded(why));
        }
    };
    let added = fit
        .added(&picked.notebook, number - 1, &LocalDisk)
        .map_err(|why| Trouble::NotAdded(why.to_string()))?;
    write::replace(&added.path, &added.read, &added.now)
        .map_err(|why| Trouble::unwritten(&added.path, why))?;
    let name = addition.map_or("", |addition| &*addition.name);
    let told = format!("added the rig {name} to {}", added.path.display());
    tell(options.form, session, &told)
}

fn may_be_kept(fit: &ShownFit) -> bool {
    let way = fit.ways.first();
    let addition = way.map_or(fit.addition.as_ref(), |way| way.addition.as_ref());
    addition.is_none_or(|addition| addition.may_be_added().is_ok())
}

/// Tells something beside the fit, where it does not stand in the way of a program.
fn tell(form: FitForm, session: &mut Session, told: &str) -> Result<(), Trouble> {
    match form {
        FitForm::Table => writeln!(session.out, "\n{told}")?,
        FitForm::Json => writeln!(session.err(), "{told}")?,
    }
    Ok(())
}
