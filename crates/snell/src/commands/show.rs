//! `snell show`: rigs from rod to fly, in the form that was asked for.

use super::{Ended, Outcome, Session};
use crate::cli::Show;
use crate::drawing;
use crate::picked::{Picked, units};
use crate::sheet::{Form, Sheet, csv, html, json, markdown, plain};
use crate::terminal::{Stream, Terminal};
use crate::trouble::Trouble;
use notebook::view::{self, ShownRig, Units};
use picture::Medium;
use std::io::Write;

/// The width of a picture in Markdown: what a page shows without a bar to scroll it.
const PAGE_COLUMNS: usize = 76;

/// Runs the command.
///
/// # Errors
/// A path cannot be read, a rig is not there, or the output cannot be written.
pub fn run(options: &Show, session: &mut Session) -> Outcome {
    let picked = Picked::read(&options.rigs, &options.within)?;
    let units = units(options.units);
    let rigs = view::show(&picked.notebook, units, |name, file| picked.takes(name, file));
    let faulty = picked.tell_faults(session)?;
    let pictures = pictures(&picked, units, options.form);
    print(&rigs, &pictures, options.form, session)?;
    Ok(Ended::found_if(faulty))
}

/// The picture of each rig as a form embeds it; of none where it has no place for one.
fn pictures(picked: &Picked, units: Units, form: Form) -> Vec<Option<String>> {
    let drawn = |medium| {
        view::draw(&picked.notebook, units, medium, |name, file| {
            picked.takes(name, file)
        })
    };
    match form {
        Form::Html => {
            let drawn = drawn(Medium::Page).into_iter().enumerate();
            drawn
                .map(|(index, one)| Some(picture::write::svg(&one.scene?, &format!("rig-{}", index + 1))))
                .collect()
        }
        Form::Markdown => {
            let drawn = drawn(Medium::Cells(PAGE_COLUMNS)).into_iter();
            drawn.map(|one| Some(drawing::plain(&one.scene?))).collect()
        }
        Form::Table | Form::Json | Form::Csv => Vec::new(),
    }
}

fn print(
    rigs: &[ShownRig],
    pictures: &[Option<String>],
    form: Form,
    session: &mut Session,
) -> Result<(), Trouble> {
    let out = &mut session.out;
    let sheets = || rigs.iter().map(Sheet::of);
    let picture = |index: usize| pictures.get(index).and_then(Option::as_deref);
    match form {
        Form::Table => {
            let terminal = Terminal::of(Stream::Out, session.colour);
            for (index, sheet) in sheets().enumerate() {
                let before = if index == 0 { "" } else { "\n" };
                write!(out, "{before}{}", plain::write(&sheet, &terminal))?;
            }
        }
        Form::Json => json::write(out, rigs)?,
        Form::Csv => csv::write(out, rigs)?,
        Form::Markdown => {
            for (index, sheet) in sheets().enumerate() {
                let before = if index == 0 { "" } else { "\n" };
                write!(out, "{before}{}", markdown::write(&sheet, picture(index)))?;
            }
        }
        Form::Html => {
            let sheets: Vec<Sheet> = sheets().collect();
            let pairs = sheets
                .iter()
                .enumerate()
                .map(|(index, sheet)| (sheet, picture(index)));
            write!(out, "{}", html::write(&pairs.collect::<Vec<_>>()))?;
        }
    }
    Ok(())
}
