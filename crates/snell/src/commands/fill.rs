//! `snell fill`: articles brought up to date, or told where they are not.

use super::{Ended, Outcome, Session};
use crate::article::{Markers, Place, faults, picture, refilled, told};
use crate::cli::Fill;
use crate::forms::text as report_text;
use crate::prose::{counted, printable};
use crate::terminal::{Stream, Terminal};
use crate::trouble::Trouble;
use crate::{inputs, write};
use snell_analysis::{Document, Kind, LocalDisk, Notebook, Unread};
use snell_article::{Article, Content, Picture};
use snell_finding::Finding;
use snell_text::TextId;
use snell_view::Places;
use std::fs;
use std::io::{self, Write};
use std::path::{Path, PathBuf};

/// The page is the first text of its notebook.
const PAGE: TextId = TextId(0);

/// Runs the command.
///
/// # Errors
/// A file cannot be read or written, or the output cannot be written. The other files are done all the same.
pub fn run(options: &Fill, session: &mut Session) -> Outcome {
    if inputs::is_standard_input(&options.articles)? {
        return standard_input(options, session);
    }
    let pages = pages(&options.articles)?;
    let mut came = Came::default();
    inputs::each(&pages, |path| page(path, options, session, &mut came))?;
    writeln!(session.out, "{}", summary(&came, pages.len(), options.check))?;
    Ok(Ended::found_if(came.faulty || options.check && came.stale > 0))
}

/// What a run came to.
#[derive(Default)]
struct Came {
    places: usize,
    stale: usize,
    articles: usize,
    faulty: bool,
}

fn summary(came: &Came, pages: usize, check: bool) -> String {
    let places = counted(came.places, "place", "places");
    let articles = counted(came.articles, "article", "articles");
    let more = if came.faulty {
        "; mend the faults above"
    } else {
        ""
    };
    match (pages, came.places, came.stale) {
        (0, _, _) => "nothing to fill: no Markdown page".to_owned(),
        (_, 0, _) if came.faulty => format!("nothing could be filled{more}"),
        (_, 0, _) => "nothing to fill: no marker such as `<!-- rig: show RIG -->`".to_owned(),
        (_, _, 0) => {
            let whole = if came.faulty {
                "those that can be filled are"
            } else {
                "all"
            };
            format!("{places} in {articles}, {whole} up to date{more}")
        }
        (_, _, stale) if check => {
            format!(
                "{stale} of {places} in {articles} out of date; `snell fill` brings them up to date{more}"
            )
        }
        (_, _, stale) => format!("{stale} of {places} in {articles} filled{more}"),
    }
}

/// The Markdown pages among the files that paths stand for.
fn pages(paths: &[PathBuf]) -> Result<Vec<PathBuf>, Trouble> {
    let is_page = |path: &Path| Kind::of(path).is_some_and(Kind::is_article);
    if let Some(other) = paths.iter().find(|path| !path.is_dir() && !is_page(path)) {
        return Err(Trouble::NoPage(other.display().to_string()));
    }
    let mut files = inputs::files(paths)?;
    files.retain(|path| is_page(path));
    Ok(files)
}

/// Fills one page, or tells what is out of date in it.
fn page(path: &Path, options: &Fill, session: &mut Session, came: &mut Came) -> Result<(), Trouble> {
    let notebook = Notebook::open(&[path.to_owned()], &LocalDisk)?;
    let Some(document) = notebook
        .document(PAGE)
        .filter(|page| !page.page().markers.is_empty())
    else {
        return Ok(());
    };
    let article = snell_article::read(&notebook, PAGE);
    let filled = refilled(&document.text, PAGE, &article, Markers::Stay, link);
    came.faulty |= tell_faults(&notebook, &article, &filled.kept, session)?;
    let folder = path.parent().unwrap_or(Path::new(""));
    let mut stale = Vec::new();
    let mut unsummed = Vec::new();
    for place in &filled.places {
        if place.is_stale || is_stale_picture(place, folder)? {
            stale.push(place);
        } else if place.span.of(&document.text) != place.new {
            unsummed.push(place);
        }
    }
    came.articles += 1;
    came.places += filled.places.len();
    came.stale += stale.len();
    if options.check {
        return Ok(tell(&mut session.out, document, &stale)?);
    }
    // Pictures come first: a page never shows one that is not there.
    for place in &stale {
        draw(place, folder)?;
    }
    let new = made(&document.text, stale.iter().chain(&unsummed).copied());
    if *document.text != new {
        write::replace(path, &document.text, &new).map_err(|why| Trouble::unwritten(path, why))?;
    }
    if !stale.is_empty() {
        let path = path.display().to_string();
        let count = counted(stale.len(), "place", "places");
        writeln!(session.out, "filled {count} in {}", printable(&path))?;
    }
    Ok(())
}

/// Prints the page with its places filled; pictures have no folder to be put into and are only named.
fn standard_input(options: &Fill, session: &mut Session) -> Outcome {
    let name = options
        .stdin_name
        .clone()
        .unwrap_or_else(|| PathBuf::from("standard-input.md"));
    let kind = Kind::of(&name)
        .filter(|kind| kind.is_article())
        .unwrap_or(Kind::MARKDOWN);
    let notebook = Notebook::of_text(&name, kind, inputs::standard_input()?, &LocalDisk);
    let Some(document) = notebook.document(PAGE) else {
        return Ok(Ended::Well);
    };
    let article = snell_article::read(&notebook, PAGE);
    let filled = refilled(&document.text, PAGE, &article, Markers::Stay, link);
    let faulty = tell_faults(&notebook, &article, &filled.kept, session)?;
    let stale: Vec<&Place<'_>> = filled.places.iter().filter(|place| place.is_stale).collect();
    if options.check {
        tell(&mut session.out, document, &stale)?;
    } else {
        write!(
            session.out.machine(),
            "{}",
            made(&document.text, filled.places.iter())
        )?;
    }
    Ok(Ended::found_if(faulty || options.check && !stale.is_empty()))
}

fn link(picture: &Picture) -> String {
    picture.file.clone()
}

/// A page with some of its places filled.
fn made<'p>(page: &str, places: impl Iterator<Item = &'p Place<'p>>) -> String {
    snell_finding::apply(page, places.map(|place| (place.span, place.new.clone())))
}

/// Each place that is out of date, in one line.
fn tell(out: &mut impl Write, document: &Document, stale: &[&Place<'_>]) -> io::Result<()> {
    let path = document.path.display().to_string();
    for place in stale {
        let at = document
            .index()
            .line_column(&document.text, place.filling.slot.open.start);
        let told = told(place, &document.text);
        writeln!(
            out,
            "{}:{}:{}: {}",
            printable(&path),
            at.line,
            at.column,
            printable(&told)
        )?;
    }
    Ok(())
}

/// Tells the faults that stand in the way, apart from what is printed; whether there are any.
pub(super) fn tell_faults(
    notebook: &Notebook,
    article: &Article,
    kept: &[Finding],
    session: &Session,
) -> Result<bool, Trouble> {
    let mut findings = faults(notebook, article);
    findings.extend_from_slice(kept);
    if !findings.is_empty() {
        let terminal = Terminal::of(Stream::Err, session.colour);
        let places = Places::new(notebook, &findings);
        report_text::write(&mut session.err(), &findings, &places, &terminal)?;
    }
    Ok(!findings.is_empty())
}

fn picture_of<'p>(place: &'p Place<'_>) -> Option<&'p Picture> {
    let Content::Picture(picture) = &place.filling.content else {
        return None;
    };
    Some(picture)
}

/// Whether a place has a picture that is not as it stands in its file.
fn is_stale_picture(place: &Place<'_>, folder: &Path) -> Result<bool, Trouble> {
    let Some(picture) = picture_of(place) else {
        return Ok(false);
    };
    let path = picture_file(picture, folder)?;
    let wanted = painted(picture, &path)?;
    Ok(drawn(&path)?.is_none_or(|bytes| bytes != wanted))
}

/// Where a picture is drawn. The page says where, so it must stay below the page's folder.
fn picture_file(picture: &Picture, folder: &Path) -> Result<PathBuf, Trouble> {
    let written = Path::new(&picture.file);
    write::named_by_text(folder, written).map_err(|why| Trouble::unwritten(&folder.join(written), why))
}

fn painted(picture: &Picture, path: &Path) -> Result<Vec<u8>, Trouble> {
    picture::bytes(picture).map_err(|why| Trouble::unwritten(path, why))
}

/// What stands in a picture's place; nothing where there is no file yet.
fn drawn(path: &Path) -> Result<Option<Vec<u8>>, Trouble> {
    match LocalDisk.bytes(path) {
        Ok(bytes) => Ok(Some(bytes)),
        Err(Unread::Missing) => Ok(None),
        Err(unread) => Err(Trouble::unread(path, unread)),
    }
}

/// Draws the picture of a place, if it has one, over an older picture of snell but over nothing else.
fn draw(place: &Place<'_>, folder: &Path) -> Result<(), Trouble> {
    let Some(picture) = picture_of(place) else {
        return Ok(());
    };
    let path = picture_file(picture, folder)?;
    let unwritten = |why: &dyn ToString| Trouble::unwritten(&path, why.to_string());
    match drawn(&path)? {
        Some(bytes) if !picture::is_ours(&bytes) => {
            let why = "it is there already and no picture of snell's; draw `into` another file";
            return Err(unwritten(&why));
        }
        Some(_) => {}
        None => {
            if let Some(folder) = path.parent() {
                fs::create_dir_all(folder).map_err(|error| unwritten(&error))?;
            }
        }
    }
    write::put(&path, &painted(picture, &path)?).map_err(|error| unwritten(&error))
}
