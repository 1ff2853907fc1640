//! `snell drift`: how rigs drift and sink in their water, as figures and a plot,
//! as JSON, or as a picture.

use super::draw::PictureFile;
use super::{Ended, Outcome, Session};
use crate::cli::{Drift, DriftForm};
use crate::drawing;
use crate::picked::{Picked, units};
use crate::sheet::{drift, json};
use crate::terminal::{Stream, Terminal};
use crate::trouble::Trouble;
use snell_picture::Medium;
use snell_rig::keywords::Cast;
use snell_view::{Drawn, Instead, ShownDrift};
use std::io::Write;

/// Runs the command.
///
/// # Errors
/// A path cannot be read, a rig is not there, what is asked for is no quantity, or the output cannot be
/// written.
pub fn run(options: &Drift, session: &mut Session) -> Outcome {
    let file = options.out.as_deref().map(PictureFile::read).transpose()?;
    let picked = Picked::read(&options.rigs)?;
    let instead = Instead {
        depth: options.other.depth.clone(),
        speed: options.other.speed.clone(),
        temperature: options.other.temperature.clone(),
        cast: options.cast.as_deref().and_then(Cast::of),
    };
    let wanted = |name: &str, file: &str| picked.takes(name, file);
    let drifts = snell_view::drifts(&picked.notebook, units(options.units), &instead, wanted)
        .map_err(Trouble::NoQuantity)?;
    let faulty = picked.tell_faults(session)?;
    match (file, options.form) {
        (Some(file), _) => file.write_all(&drifts.iter().map(drawn).collect::<Vec<_>>(), session)?,
        (None, DriftForm::Json) => json::write(&mut session.out.machine(), &drifts)?,
        (None, DriftForm::Table) => print(&drifts, session)?,
    }
    Ok(Ended::found_if(faulty))
}

fn drawn(drift: &ShownDrift) -> Drawn {
    Drawn {
        name: drift.name.clone(),
        file: drift.file.clone(),
        scene: drift
            .scene(Medium::Page)
            .ok_or_else(|| format!("no drift without {}", drift.needs.join(", "))),
        left_out: None,
    }
}

fn print(drifts: &[ShownDrift], session: &mut Session) -> Result<(), Trouble> {
    let terminal = Terminal::of(Stream::Out, session.colour);
    for (index, one) in drifts.iter().enumerate() {
        let before = if index == 0 { "" } else { "\n" };
        write!(session.out, "{before}{}", drift::write(one, &terminal))?;
        if let Some(scene) = one.scene(Medium::Cells(terminal.width)) {
            write!(session.out, "\n{}", drawing::painted(&scene, &terminal))?;
        }
    }
    Ok(())
}
