//! A card for the pocket as text: a table of depths and speeds, cut into
//! narrower ones where the terminal is narrow, and what it says below.

mod html;

use super::plain::Page;
use super::unsaid;
use crate::prose::{printable, width};
use crate::sheet::entry::{Named, named};
use crate::terminal::Terminal;
use snell_view::{About, Remark, ShownAnswer, ShownCard, ShownCell, Wading};

pub use html::write as html;

/// Between two columns.
const GAP: usize = 2;
/// Before the first.
const INDENT: usize = 2;

/// Writes a card.
pub fn write(card: &ShownCard, terminal: &Terminal) -> String {
    let mut page = Page::new(terminal);
    page.title(&card.name, card.title.as_deref());
    page.gap();
    if card.cells.is_empty() {
        page.list("assumed", &unsaid::assumed(&card.assumed));
        page.gap();
        page.list("no card without", &card.needs);
        return page.finish();
    }
    page.paragraphs(&[answer(card)]);
    page.gap();
    let depths: Vec<&str> = card.depths.iter().map(|depth| depth.text.as_str()).collect();
    let side = depths.iter().map(|depth| width(depth)).max().unwrap_or(0);
    let side = side.max(width("depth"));
    let wide = column(card, terminal);
    let room = terminal.width.saturating_sub(INDENT + side);
    let most = (room / (wide + GAP)).max(1);
    for first in (0..card.speeds.len()).step_by(most) {
        let shown = first..(first + most).min(card.speeds.len());
        table(&mut page, card, shown, (side, wide), terminal);
        page.gap();
    }
    page.named(&remarks(card, terminal));
    page.finish()
}

/// `of 15 waters 13 are fished: 9 with slate, 4 with bracken`
pub fn answer(card: &ShownCard) -> String {
    let cells = || card.cells.iter().flatten();
    let fished = cells().filter_map(|cell| match &cell.answer {
        ShownAnswer::Fished(fished) => Some(fished.fly.as_str()),
        ShownAnswer::Unfished(_) => None,
    });
    let fished: Vec<&str> = fished.collect();
    let flies = card.flies.iter().filter_map(|fly| {
        let count = fished.iter().filter(|name| **name == fly.name).count();
        (count > 0).then(|| format!("{count} with {}", fly.name))
    });
    let flies: Vec<String> = flies.collect();
    let all = cells().count();
    match fished.len() {
        0 => format!("none of these {all} waters is fished with what is at hand"),
        count => format!("of {all} waters {count} are fished: {}", flies.join(", ")),
    }
}

/// How wide a column is.
fn column(card: &ShownCard, terminal: &Terminal) -> usize {
    let cells = card.cells.iter().flatten();
    let cells = cells
        .flat_map(|cell| lines(cell, terminal))
        .map(|line| width(&line));
    let heads = card.speeds.iter().map(|speed| width(&speed.text));
    cells.chain(heads).max().unwrap_or(0)
}

/// A cell in one line.
pub fn cell(cell: &ShownCell, terminal: &Terminal) -> String {
    lines(cell, terminal).join(", ")
}

/// The lines of a cell, the mark behind the last.
fn lines(cell: &ShownCell, terminal: &Terminal) -> Vec<String> {
    let mut lines: Vec<String> = cell
        .words()
        .iter()
        .map(|line| printable(line).into_owned())
        .collect();
    let mark = mark(cell.wading, terminal);
    if let Some(last) = lines.last_mut().filter(|_| !mark.is_empty()) {
        last.push(' ');
        last.push_str(mark);
    }
    lines
}

fn mark(wading: Wading, terminal: &Terminal) -> &'static str {
    match (wading, terminal.unicode) {
        (Wading::Within, _) => "",
        (Wading::Hard, true) => "△",
        (Wading::Hard, false) => "!",
        (Wading::KeepOut, true) => "▲",
        (Wading::KeepOut, false) => "!!",
    }
}

fn table(
    page: &mut Page<'_>,
    card: &ShownCard,
    shown: std::ops::Range<usize>,
    (side, wide): (usize, usize),
    terminal: &Terminal,
) {
    let row = |head: &str, cells: Vec<String>| {
        let mut line = format!(
            "{}{}",
            " ".repeat(INDENT),
            filled(head, side, Terminal::strong, terminal)
        );
        for cell in cells {
            line.push_str(&" ".repeat(GAP));
            line.push_str(&cell);
        }
        line
    };
    let heads = card.speeds[shown.clone()]
        .iter()
        .map(|speed| filled(&speed.text, wide, Terminal::strong, terminal));
    let over = format!(
        "{}{}speed of the surface",
        " ".repeat(INDENT + side),
        " ".repeat(GAP)
    );
    page.line(&terminal.quiet(&over));
    page.line(&row("depth", heads.collect()));
    for (depth, cells) in card.depths.iter().zip(&card.cells) {
        let cells: Vec<Vec<String>> = cells[shown.clone()]
            .iter()
            .map(|cell| lines(cell, terminal))
            .collect();
        let tall = cells.iter().map(Vec::len).max().unwrap_or(0);
        page.gap();
        for at in 0..tall {
            let style = if at == 0 { Terminal::strong } else { plain };
            let cell = |lines: &Vec<String>| {
                let words = lines.get(at).map_or("", String::as_str);
                filled(words, wide, style, terminal)
            };
            let head = if at == 0 { depth.text.as_str() } else { "" };
            page.line(&row(head, cells.iter().map(cell).collect()));
        }
    }
}

fn plain(_: &Terminal, text: &str) -> String {
    text.to_owned()
}

/// A text in a style, filled up to a width that the style does not count for.
fn filled(text: &str, wide: usize, style: fn(&Terminal, &str) -> String, terminal: &Terminal) -> String {
    let text = printable(text);
    format!(
        "{}{}",
        style(terminal, &text),
        " ".repeat(wide.saturating_sub(width(&text)))
    )
}

/// What stands below a card, by the word or mark that it is about.
pub fn remarks(card: &ShownCard, terminal: &Terminal) -> Vec<Named> {
    let head = |remark: &Remark| match remark.about {
        About::Word(word) => word.to_owned(),
        About::Mark(wading) => mark(wading, terminal).to_owned(),
    };
    card.remarks()
        .iter()
        .map(|remark| named(&head(remark), &remark.text))
        .collect()
}
