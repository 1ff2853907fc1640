//! `snell pandoc`: a filter of pandoc, which fills an article on its way
//! through.

use super::{Ended, Outcome, Session};
use crate::article::document::{Outline, fill};
use crate::article::{Markers, faults, refilled};
use crate::cli::Pandoc;
use crate::forms::text as report_text;
use crate::inputs;
use crate::page;
use crate::prose::printable;
use crate::terminal::{Stream, Terminal};
use crate::trouble::Trouble;
use serde_json::Value;
use snell_analysis::{Kind, LocalDisk, Notebook};
use snell_finding::Finding;
use snell_text::TextId;
use snell_view::Places;
use std::io::Write;
use std::path::Path;

/// Pandoc does not say which file it reads; `use` looks where pandoc was called.
const PAGE_NAME: &str = "article.md";
const PAGE: TextId = TextId(0);
/// Tables have their shape since then. Source: the change log of pandoc-types.
const OLDEST: (u64, u64) = (1, 21);

/// Runs the command.
///
/// # Errors
/// Standard input holds no document, or the output cannot be written.
pub fn run(options: &Pandoc, session: &mut Session) -> Outcome {
    let not_read = |why: String| Trouble::NotRead {
        what: "document of pandoc's",
        why,
    };
    let input = inputs::whole_standard_input()?;
    let mut document: Value = serde_json::from_str(&input).map_err(|error| not_read(error.to_string()))?;
    let version = &document["pandoc-api-version"];
    match (version[0].as_u64(), version[1].as_u64()) {
        (Some(first), Some(second)) if (first, second) >= OLDEST => {}
        (Some(_), Some(_)) => return Err(not_read("pandoc is too old, 2.11 or newer is needed".to_owned())),
        _ => return Err(not_read("it does not say which version it is of".to_owned())),
    }
    let outline = Outline::of(&mut document);
    for misread in &outline.misread {
        let mut err = session.err();
        writeln!(
            err,
            "caution: pandoc took a fence for text: `{} …`",
            printable(misread)
        )?;
        writeln!(
            err,
            "  help  write `{{.rig}}` or `{{.rig .alone}}` behind the ticks"
        )?;
    }
    let notebook = Notebook::of_text(
        Path::new(PAGE_NAME),
        Kind::MARKDOWN,
        outline.page.clone(),
        &LocalDisk,
    );
    let article = snell_article::read(&notebook, PAGE);
    let mut findings = faults(&notebook, &article);
    let filled = refilled(&outline.page, PAGE, &article, Markers::Go, |_| String::new());
    findings.extend(filled.kept);
    if !findings.is_empty() {
        tell(&notebook, findings, session)?;
        return Ok(Ended::Found);
    }
    let link = match takes_vectors(options.format.as_deref()) {
        true => page::data_link,
        false => page::painted_link,
    };
    let left = fill(&mut document, &outline, &article, &link);
    if let Some(asked) = left.first() {
        return Err(not_read(format!(
            "the end of the marker `{asked}` stands in another paragraph, list or quote than its beginning"
        )));
    }
    serde_json::to_writer(session.out.machine(), &document)?;
    Ok(Ended::Well)
}

/// Whether what pandoc writes shows a picture of lines as it is. Word processors and TeX want it painted.
fn takes_vectors(format: Option<&str>) -> bool {
    /// Source: pandoc's manual, "General options", `--to`.
    const PAINTED: [&str; 9] = [
        "beamer",
        "context",
        "docx",
        "latex",
        "ms",
        "odt",
        "opendocument",
        "pptx",
        "rtf",
    ];
    let name = format
        .unwrap_or_default()
        .split(['+', '-'])
        .next()
        .unwrap_or_default();
    !PAINTED.contains(&name)
}

/// Tells faults. Those of the article have no line: pandoc hands over its content, not its text, so the words
/// must do.
fn tell(notebook: &Notebook, findings: Vec<Finding>, session: &Session) -> Result<(), Trouble> {
    let (own, used): (Vec<Finding>, Vec<Finding>) = findings
        .into_iter()
        .partition(|finding| finding.place().text == PAGE);
    let mut err = session.err();
    for finding in &own {
        let place = finding.place().span;
        let written = notebook
            .document(PAGE)
            .map_or("", |page| line(&page.text, place.start));
        writeln!(err, "{}: {}", finding.level.word(), printable(&finding.message))?;
        writeln!(err, "  in    {}", printable(written))?;
        if let Some(help) = &finding.help {
            writeln!(err, "  help  {}", printable(help))?;
        }
        for fix in &finding.fixes {
            writeln!(err, "  mend  {}", printable(&fix.title))?;
        }
    }
    if !used.is_empty() {
        let terminal = Terminal::of(Stream::Err, session.colour);
        report_text::write(&mut err, &used, &Places::new(notebook, &used), &terminal)?;
    }
    Ok(())
}

/// The line of a page that holds a byte.
fn line(page: &str, at: u32) -> &str {
    let at = at as usize;
    let start = page[..at].rfind('\n').map_or(0, |end| end + 1);
    page[start..].lines().next().unwrap_or_default().trim()
}
