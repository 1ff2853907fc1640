//! `snell season`: what became of rigs, told from the history that git keeps.

use super::{Ended, Outcome, Session};
use crate::cli::Season as Options;
use crate::git::Repository;
use crate::season::chart::Chart;
use crate::season::{self, Form, USUAL, Wanted, csv, json, page, text};
use crate::terminal::{Stream, Terminal};
use crate::trouble::Trouble;
use snell_history::Followed;
use snell_rig::measure::{Get, Kind};
use snell_view::compare::Figure;
use std::io::Write;
use std::path::{Component, Path, PathBuf};

/// Runs the command.
///
/// # Errors
/// The path lies in no repository, a rig or measure is not there, or the output cannot be written.
pub fn run(options: &Options, session: &mut Session) -> Outcome {
    let figures = figures(&options.measures)?;
    let repository = Repository::needed(standing(&options.path))?;
    let below = below(&repository, &options.path)?;
    let commit = repository
        .commit(&options.until)
        .ok_or_else(|| Trouble::Git(format!("git knows no revision `{}` here", options.until)))?;
    let wanted = Wanted {
        below: &below,
        rigs: &options.rigs,
        followed: Followed {
            figures: &figures,
            every_measure: options.form == Form::Json,
        },
    };
    let season = season::read(&repository, &commit, &wanted)?;
    if season.rigs.is_empty() && !options.path.exists() {
        let why = "neither the working tree nor the history has a rig there";
        return Err(Trouble::unread(&options.path, why));
    }
    let out = &mut session.out;
    match options.form {
        Form::Json => json::write(&mut out.machine(), &season, options.who)?,
        Form::Csv => csv::write(&mut out.machine(), &season)?,
        Form::Svg => out.machine().write_all(Chart::of(&season).whole().as_bytes())?,
        Form::Html => {
            let page = page::write(&season, options.who);
            out.machine().write_all(page.as_bytes())?;
        }
        Form::Table => {
            let terminal = Terminal::of(Stream::Out, session.colour);
            let text = text::write(&season, options.who, &terminal);
            out.write_all(text.as_bytes())?;
        }
    }
    Ok(Ended::Well)
}

/// A folder to ask git from: the path, or the nearest one above it that is still there.
fn standing(path: &Path) -> &Path {
    let folders = path.ancestors().map(|path| {
        if path.as_os_str().is_empty() {
            Path::new(".")
        } else {
            path
        }
    });
    folders
        .into_iter()
        .find(|path| path.is_dir())
        .unwrap_or(Path::new("."))
}

/// The path from the top of the working tree; it may be gone from the disk.
fn below(repository: &Repository, path: &Path) -> Result<PathBuf, Trouble> {
    let told = |error| Trouble::unread(path, error);
    let top = snell_analysis::real(&repository.top).map_err(told)?;
    let stands = standing(path);
    let mut real = snell_analysis::real(stands).map_err(told)?;
    let rest = path.strip_prefix(stands).unwrap_or(path);
    real.extend(
        rest.components()
            .filter(|part| matches!(part, Component::Normal(_))),
    );
    Ok(real.strip_prefix(top).map(Path::to_owned).unwrap_or_default())
}

fn figures(wanted: &[String]) -> Result<Vec<Figure>, Trouble> {
    let unknown = |wanted: &str| {
        let (of, name, kind) = match wanted.split_once('.') {
            Some((_, name)) => ("measure of a fly", name, Kind::Fly),
            None => ("measure of a rig", wanted, Kind::Rig),
        };
        let figures = snell_rig::measure::all_of(kind).filter(|one| matches!(one.get, Get::Value(_)));
        Trouble::Unknown {
            what: of,
            name: name.to_owned(),
            places: String::new(),
            near: snell_units::nearest(name, figures.map(|one| one.name)).map(str::to_owned),
        }
    };
    let usual = USUAL.map(str::to_owned);
    let wanted = if wanted.is_empty() { &usual[..] } else { wanted };
    wanted
        .iter()
        .map(|name| Figure::named(name).ok_or_else(|| unknown(name)))
        .collect()
}
