//! `snell mdbook`: a preprocessor of mdBook, which fills the articles of a book
//! on their way through.

use super::fill::tell_faults;
use super::{Ended, Outcome, Session};
use crate::article::{Markers, book, refilled};
use crate::cli::{Mdbook, MdbookQuestion};
use crate::trouble::Trouble;
use crate::{inputs, page};
use serde_json::Value;
use snell_analysis::{Kind, LocalDisk, Notebook};
use snell_text::{Fence, FenceTag, TextId};
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
        let (mut new, wrong) = filled(&chapter.path, text, session)?;
        faulty |= wrong;
        let shows_rig = |fence: &Fence| fence.tag != FenceTag::Bad;
        if let Some(live) = live.filter(|_| snell_text::fences(&new).iter().any(shows_rig)) {
            let below = chapter.path.strip_prefix(&source).unwrap_or(&chapter.path);
            new.push_str(&live.script(below));
        }
        *chapter.content = Value::String(new);
    }
    if faulty {
        // mdBook then stops, and shows what was told.
        return Ok(Ended::Found);
    }
    serde_json::to_writer(session.out.machine(), &book)?;
    Ok(Ended::Well)
}

/// A chapter with its places filled, and whether something stands in the way.
fn filled(path: &Path, text: &str, session: &Session) -> Result<(String, bool), Trouble> {
    let notebook = Notebook::of_text(path, Kind::MARKDOWN, text.to_owned(), &LocalDisk);
    let chapter = notebook.document(CHAPTER);
    if chapter.is_none_or(|chapter| chapter.page().markers.is_empty()) {
        return Ok((text.to_owned(), false));
    }
    let article = snell_article::read(&notebook, CHAPTER);
    let filled = refilled(text, CHAPTER, &article, Markers::Go, page::data_link);
    let faulty = tell_faults(&notebook, &article, &filled.kept, session)?;
    let edits = filled.places.into_iter().map(|place| (place.span, place.new));
    Ok((snell_finding::apply(text, edits), faulty))
}
