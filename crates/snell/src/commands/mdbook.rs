//! `snell mdbook`: a preprocessor of mdBook, which fills the articles of a book
//! on their way through.

use super::fill::tell_faults;
use super::{Ended, Outcome, Session};
use crate::article::{Markers, book, given, refilled};
use crate::cli::{Mdbook, MdbookQuestion};
use crate::trouble::Trouble;
use crate::{inputs, page};
use serde_json::Value;
use snell_analysis::{Kind, LocalDisk, Notebook};
use snell_text::{FenceTag, TextId};
use std::path::Path;

/// The chapter is the first text of its notebook.
const CHAPTER: TextId = TextId(0);

/// Runs the command.
///
/// # Errors
/// Standard input holds no book, or the output cannot be written.
pub fn run(options: &Mdbook, session: &mut Session) -> Outcome {
    // What is put in is plain Markdown, which every renderer takes.
    if let Some(MdbookQuestion::Supports { .. }) = options.question {
        return Ok(Ended::Well);
    }
    let not_read = |why: &str| Trouble::NotRead {
        what: "book of mdBook's",
        why: why.to_owned(),
    };
    let input = inputs::whole_standard_input()?;
    let both: Result<(Value, Value), _> = serde_json::from_str(&input);
    let (context, mut book) = both.map_err(|_| not_read("it is no JSON of a context and a book"))?;
    let source = book::source(&context);
    let chapters = book::chapters(&mut book, &source).ok_or_else(|| not_read("it has no chapters"))?;
    let live = book::live(&context).map_err(|why| not_read(&why))?;
    let mut faulty = false;
    for chapter in chapters {
        let Some(text) = chapter.content.as_str() else {
            continue;
        };
        let mut filled = filled(&chapter.path, text, session)?;
        faulty |= filled.faulty;
        if let Some(live) = live.filter(|_| filled.shows_rig) {
            let below = chapter.path.strip_prefix(&source).unwrap_or(&chapter.path);
            filled.text.push_str(&live.script(below, filled.given.as_deref()));
        }
        *chapter.content = Value::String(filled.text);
    }
    if faulty {
        // mdBook then stops, and shows what was told.
        return Ok(Ended::Found);
    }
    serde_json::to_writer(session.out.machine(), &book)?;
    Ok(Ended::Well)
}

/// A chapter with its places filled.
struct Filled {
    text: String,
    /// Whether something stands in the way.
    faulty: bool,
    /// Whether a rig is written in it that readers are to see.
    shows_rig: bool,
    /// What it is given where its rigs are live.
    given: Option<String>,
}

fn filled(path: &Path, text: &str, session: &Session) -> Result<Filled, Trouble> {
    let notebook = Notebook::of_text(path, Kind::MARKDOWN, text.to_owned(), &LocalDisk);
    let page = notebook.document(CHAPTER).map(|chapter| chapter.page());
    let shows_rig = page.is_some_and(|page| page.fences.iter().any(|fence| fence.tag != FenceTag::Bad));
    if page.is_none_or(|page| page.markers.is_empty()) {
        return Ok(Filled {
            text: text.to_owned(),
            faulty: false,
            shows_rig,
            given: given::given(&notebook, CHAPTER),
        });
    }
    let article = snell_article::read(&notebook, CHAPTER);
    let filled = refilled(text, CHAPTER, &article, Markers::Go, page::data_link);
    let faulty = tell_faults(&notebook, &article, &filled.kept, session)?;
    let edits = filled.places.into_iter().map(|place| (place.span, place.new));
    Ok(Filled {
        text: snell_finding::apply(text, edits),
        faulty,
        shows_rig,
        given: given::given(&notebook, CHAPTER),
    })
}
