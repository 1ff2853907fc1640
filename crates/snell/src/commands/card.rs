//! `snell card`: rigs as cards for the pocket: which fly and tippet fish which
//! depth at which speed; in the terminal, as a page, a picture or JSON.

use super::draw::PictureFile;
use super::{Ended, Outcome, Session};
use crate::cli::{Card, CardForm};
use crate::picked::{Picked, units};
use crate::progress::Progress;
use crate::sheet::{card, json};
use crate::terminal::{Stream, Terminal};
use crate::trouble::Trouble;
use crate::write;
use snell_rig::keywords::Cast;
use snell_view::{Asked, Drawn, ShownCard};
use std::io::Write;
use std::path::Path;
use std::sync::{Mutex, PoisonError};

/// Runs the command.
///
/// # Errors
/// A path cannot be read, a rig is not there, what is asked for is no quantity, or the card cannot be written.
pub fn run(options: &Card, session: &mut Session) -> Outcome {
    let out = options
        .out
        .as_deref()
        .map(|path| Out::of(path, options.form))
        .transpose()?;
    let picked = Picked::read(&options.rigs)?;
    let cards = solved(options, &picked)?;
    let faulty = picked.tell_faults(session)?;
    match out {
        Some(Out::Picture(file)) => file.write_all(&cards.iter().map(drawn).collect::<Vec<_>>(), session)?,
        Some(Out::Text(path, form)) => {
            let terminal = Terminal::plain();
            put(path, &written(&cards, form, &terminal)?, session)?;
        }
        None => {
            let terminal = Terminal::of(Stream::Out, session.colour);
            let form = options.form.unwrap_or_default();
            let text = written(&cards, form, &terminal)?;
            match form {
                CardForm::Table => session.out.write_all(text.as_bytes())?,
                CardForm::Html | CardForm::Svg | CardForm::Json => {
                    session.out.machine().write_all(text.as_bytes())?
                }
            }
        }
    }
    Ok(Ended::found_if(faulty))
}

fn solved(options: &Card, picked: &Picked) -> Result<Vec<ShownCard>, Trouble> {
    let asked = Asked {
        depths: options.depths.clone(),
        speeds: options.speeds.clone(),
        bed: options.bed.clone(),
        temperature: options.temperature.clone(),
        run: options.run.clone(),
        cast: options.cast.as_deref().and_then(Cast::of),
        flies: options.flies.clone(),
        beads: options.beads,
    };
    let progress = Mutex::new(Progress::new());
    let told = |done: usize, all: usize| {
        // Whoever panicked while telling left nothing half-done that matters here.
        let mut progress = progress.lock().unwrap_or_else(PoisonError::into_inner);
        progress.tell(done, all, "cells");
    };
    let wanted = |name: &str, file: &str| picked.takes(name, file);
    let (notebook, units) = (&picked.notebook, units(options.units));
    let mut cards = snell_view::cards(notebook, units, &asked, &told, wanted).map_err(Trouble::NoQuantity)?;
    if !options.day.is_empty() {
        let days = snell_view::plan::plan(notebook, units, &options.day, wanted, &mut |_, _| {});
        for (card, day) in cards.iter_mut().zip(days.map_err(Trouble::NoQuantity)?) {
            card.day = Some(day.in_a_line());
        }
    }
    Ok(cards)
}

/// Where a card goes, and as what.
enum Out<'o> {
    Picture(PictureFile<'o>),
    Text(&'o Path, CardForm),
}

impl<'o> Out<'o> {
    /// By the form that is asked for, or else by the file's ending.
    fn of(path: &'o Path, form: Option<CardForm>) -> Result<Self, Trouble> {
        let ending = path.extension().and_then(|ending| ending.to_str());
        let ending = ending.unwrap_or_default().to_ascii_lowercase();
        match form {
            None if matches!(ending.as_str(), "svg" | "png" | "pdf") => {
                PictureFile::read(path).map(Self::Picture)
            }
            Some(CardForm::Svg) if ending == "svg" => PictureFile::read(path).map(Self::Picture),
            None => Ok(Self::Text(path, CardForm::of(&ending))),
            Some(form) => Ok(Self::Text(path, form)),
        }
    }
}

fn put(path: &Path, text: &str, session: &mut Session) -> Result<(), Trouble> {
    write::put(path, text.as_bytes()).map_err(|why| Trouble::unwritten(path, why))?;
    Ok(writeln!(session.out, "wrote {}", path.display())?)
}

fn drawn(card: &ShownCard) -> Drawn {
    Drawn {
        name: card.name.clone(),
        file: card.file.clone(),
        scene: card
            .scene()
            .ok_or_else(|| format!("no card without {}", card.needs.join(", "))),
        left_out: None,
    }
}

fn written(cards: &[ShownCard], form: CardForm, terminal: &Terminal) -> Result<String, Trouble> {
    match form {
        CardForm::Table => {
            let cards: Vec<String> = cards.iter().map(|one| card::write(one, terminal)).collect();
            Ok(cards.join("\n"))
        }
        CardForm::Html => Ok(card::html(cards)),
        CardForm::Svg => svg(cards),
        CardForm::Json => {
            let mut text = Vec::new();
            json::write(&mut text, cards)?;
            Ok(String::from_utf8_lossy(&text).into_owned())
        }
    }
}

fn svg(cards: &[ShownCard]) -> Result<String, Trouble> {
    let [card] = cards else {
        return Err(Trouble::NotOneCard);
    };
    let scene = card.scene();
    let scene = scene.ok_or_else(|| Trouble::NoCard {
        rig: card.name.clone(),
        needs: card.needs.join(", "),
    })?;
    Ok(snell_picture::write::svg(&scene, "card"))
}
