//! A sheet for the terminal: a block of the language grown to a table.
//!
//! The name stands at the margin, all else indented below it. Where the table
//! is too wide, words wrap first; on a phone each part takes lines of its own.

use super::{Column, ESTIMATES, Part, Sheet};
use crate::prose::{WIDEST, pad, printable, width, wrap};
use crate::sheet::entry::Named;
use crate::terminal::Terminal;

const INDENT: usize = 2;
/// Between two columns.
const GAP: usize = 2;
/// What a column of words is never wrapped below.
const LEAST_WORDS: usize = 11;
/// The width of `0.203 mm to`.
const HALF_A_SPREAD: usize = 11;
/// Names that are wider stand on a line of their own on a narrow screen.
const WIDEST_NAME: usize = 18;
/// Writes a sheet: the answer first; what was assumed and what is unknown only where all is wanted.
pub fn write(sheet: &Sheet, terminal: &Terminal, all: bool) -> String {
    let mut page = Page::new(terminal);
    page.heading(sheet);
    page.paragraphs(&sheet.answer);
    page.gap();
    page.named(&sheet.settings);
    page.gap();
    page.table(sheet);
    page.gap();
    page.grid(&sheet.measures);
    page.gap();
    page.estimates(&sheet.estimates);
    page.gap();
    page.named(&sheet.remarks);
    page.gap();
    if all {
        page.list("assumed", &sheet.assumed);
        page.gap();
        page.list("unknown", &sheet.unknown);
    } else {
        page.paragraphs(behind_all(sheet).as_ref());
    }
    page.finish()
}

/// How much stands behind `--all`, in a line.
fn behind_all(sheet: &Sheet) -> Option<String> {
    let counted = |count: usize, what: &str| (count > 0).then(|| format!("{count} {what}"));
    let counts = [
        counted(sheet.assumed.len(), "assumed"),
        counted(sheet.unknown.len(), "unknown"),
    ];
    let counts: Vec<String> = counts.into_iter().flatten().collect();
    (!counts.is_empty()).then(|| format!("{}: `--all` lists them", counts.join(", ")))
}

/// A page that grows downward.
pub(super) struct Page<'t> {
    text: String,
    terminal: &'t Terminal,
}

impl<'t> Page<'t> {
    /// An empty page.
    pub(super) fn new(terminal: &'t Terminal) -> Self {
        let text = String::new();
        Self { text, terminal }
    }

    /// All that was written, with one line end behind it.
    pub(super) fn finish(self) -> String {
        format!("{}\n", self.text.trim_end())
    }

    fn width(&self) -> usize {
        self.terminal.width
    }

    pub(super) fn line(&mut self, line: &str) {
        self.text.push_str(line.trim_end());
        self.text.push('\n');
    }

    /// One empty line, never two.
    pub(super) fn gap(&mut self) {
        if !self.text.ends_with("\n\n") {
            self.text.push('\n');
        }
    }

    fn heading(&mut self, sheet: &Sheet) {
        self.title(&sheet.name, sheet.title.as_deref());
        let from = sheet
            .from
            .as_deref()
            .map(|from| format!(", made from {}", printable(from)));
        let place = format!("{}{}", printable(&sheet.place), from.unwrap_or_default());
        for line in wrap(&place, self.width() - INDENT) {
            self.line(&format!("{}{}", " ".repeat(INDENT), self.terminal.quiet(&line)));
        }
        self.gap();
    }

    /// A name with its title behind it, or below it where both are too wide for a line.
    pub(super) fn title(&mut self, name: &str, title: Option<&str>) {
        let title = title.map(printable).unwrap_or_default();
        let name = printable(name);
        if width(&name) + GAP + width(&title) <= self.width() {
            let heading = format!("{}{}{title}", self.terminal.strong(&name), " ".repeat(GAP));
            self.line(&heading);
        } else {
            self.line(&self.terminal.strong(&name));
            for line in wrap(&title, self.width() - INDENT) {
                self.line(&format!("{}{line}", " ".repeat(INDENT)));
            }
        }
    }

    /// Names at one column, their texts hanging behind them.
    pub(super) fn named(&mut self, all: &[Named]) {
        let narrow = self.width() < 60;
        let beside = |one: &&Named| !narrow || width(&one.name) <= WIDEST_NAME;
        let column = all
            .iter()
            .filter(beside)
            .map(|one| width(&one.name))
            .max()
            .unwrap_or(0);
        for one in all {
            if width(&one.name) <= column {
                self.hang(&pad(&one.name, column), &one.text);
            } else {
                let name = format!("{}{}", " ".repeat(INDENT), self.terminal.quiet(&one.name));
                self.line(&name);
                self.hang("  ", &one.text);
            }
        }
    }

    /// Texts, each on lines of its own.
    pub(super) fn paragraphs<'s>(&mut self, all: impl IntoIterator<Item = &'s String>) {
        for text in all {
            let mut before = " ".repeat(INDENT);
            for line in wrap(&printable(text), self.width().min(WIDEST) - 2 * INDENT) {
                self.line(&format!("{before}{line}"));
                before = " ".repeat(2 * INDENT);
            }
        }
    }

    /// A word and a list, one line each, hanging behind it.
    pub(super) fn list(&mut self, word: &str, items: &[String]) {
        let mut word = word.to_owned();
        for item in items {
            self.hang(&word, item);
            word = " ".repeat(word.len());
        }
    }

    /// Lines as they are, to be copied.
    pub(super) fn verbatim(&mut self, lines: &str) {
        for line in lines.lines() {
            self.line(&format!("{}{}", " ".repeat(2 * INDENT), printable(line)));
        }
    }

    fn hang(&mut self, word: &str, text: &str) {
        let column = INDENT + width(word) + GAP;
        let room = self.width().min(WIDEST).saturating_sub(column);
        let mut before = format!(
            "{}{}{}",
            " ".repeat(INDENT),
            self.terminal.quiet(word),
            " ".repeat(GAP)
        );
        for line in wrap(&printable(text), room) {
            self.line(&format!("{before}{line}"));
            before = " ".repeat(column);
        }
    }

    /// A grid under a line that calls it what it is.
    fn estimates(&mut self, estimates: &[Named]) {
        if !estimates.is_empty() {
            let heading = self.terminal.quiet(ESTIMATES);
            self.line(&format!("{}{heading}", " ".repeat(INDENT)));
            self.grid(estimates);
        }
    }

    /// Names and values in as many pairs of columns as fit, read down.
    fn grid(&mut self, measures: &[Named]) {
        let names = measures.iter().map(|one| width(&one.name)).max().unwrap_or(0);
        let values = measures.iter().map(|one| width(&one.text)).max().unwrap_or(0);
        let pair = names + GAP + values;
        let across =
            ((self.width().min(WIDEST).saturating_sub(INDENT) + 2 * GAP) / (pair + 2 * GAP)).clamp(1, 3);
        let down = measures.len().div_ceil(across);
        for row in 0..down {
            let mut line = " ".repeat(INDENT);
            for one in measures.iter().skip(row).step_by(down.max(1)) {
                let name = self.terminal.quiet(&pad(&one.name, names));
                line.push_str(&format!(
                    "{name}{}{}{}",
                    " ".repeat(GAP),
                    pad(&one.text, values),
                    " ".repeat(2 * GAP)
                ));
            }
            self.line(&line);
        }
    }

    fn table(&mut self, sheet: &Sheet) {
        if sheet.parts.is_empty() {
            return;
        }
        match widths(sheet, self.width().saturating_sub(INDENT)) {
            Some(widths) => self.rows(sheet, &widths),
            None => self.stack(sheet),
        }
    }

    fn rows(&mut self, sheet: &Sheet, widths: &[usize]) {
        let headings: Vec<String> = sheet
            .columns
            .iter()
            .map(|column| column.heading().to_owned())
            .collect();
        for line in cells(sheet, widths, &headings) {
            self.line(&self.terminal.quiet(&line));
        }
        for part in &sheet.parts {
            let texts: Vec<String> = sheet
                .columns
                .iter()
                .map(|column| printable(part.cell(*column)).into_owned())
                .collect();
            for line in cells(sheet, widths, &texts) {
                self.line(&line);
            }
        }
    }

    /// Each part with its length on a line, the rest of it below.
    fn stack(&mut self, sheet: &Sheet) {
        let names = sheet
            .parts
            .iter()
            .map(|part| width(part.cell(Column::Part)))
            .max()
            .unwrap_or(0);
        for part in &sheet.parts {
            let name = self
                .terminal
                .strong(&pad(&printable(part.cell(Column::Part)), names));
            let head = printable(&head(part)).into_owned();
            let column = INDENT + names + GAP;
            let mut before = format!("{}{name}{}", " ".repeat(INDENT), " ".repeat(GAP));
            for line in wrap(&head, self.width().saturating_sub(column)) {
                self.line(&format!("{before}{line}"));
                before = " ".repeat(column);
            }
            let more = printable(&more(part)).into_owned();
            if !more.is_empty() {
                for line in wrap(&more, self.width().saturating_sub(column)) {
                    self.line(&format!("{before}{}", self.terminal.quiet(&line)));
                }
            }
        }
    }
}

/// What a part is, as its line in the language has it.
fn head(part: &Part) -> String {
    let [length, what, knot] = [Column::Length, Column::What, Column::Knot].map(|column| part.cell(column));
    let (between, knot) = if part.hangs { (", ", knot) } else { (" of ", "") };
    let told: Vec<&str> = [length, what]
        .into_iter()
        .filter(|text| !text.is_empty())
        .collect();
    let on = if knot.is_empty() {
        String::new()
    } else {
        format!(" on {knot}")
    };
    format!("{}{on}", told.join(between))
}

/// What else is known of a piece of line.
fn more(part: &Part) -> String {
    if part.hangs {
        return String::new();
    }
    let told = |column, before: &str, after: &str| {
        let text = part.cell(column);
        (!text.is_empty()).then(|| format!("{before}{text}{after}"))
    };
    let all = [
        told(Column::ToPoint, "", " to the point"),
        told(Column::Diameter, "", "").filter(|text| !part.cell(Column::What).starts_with(text)),
        told(Column::Rated, "rated ", ""),
        told(Column::Knot, "", " below"),
    ];
    all.into_iter().flatten().collect::<Vec<_>>().join(", ")
}

/// The widths of the columns. Where not all fit, the columns of words share what is left so that the
/// table takes the fewest lines; `None` where even their shortest lines do not fit.
fn widths(sheet: &Sheet, room: usize) -> Option<Vec<usize>> {
    let is_of_words = |column: Column| matches!(column, Column::What | Column::Knot);
    let mut widths: Vec<usize> = sheet
        .columns
        .iter()
        .map(|column| natural(sheet, *column))
        .collect();
    let gaps = GAP * sheet.columns.len().saturating_sub(1);
    if widths.iter().sum::<usize>() + gaps <= room {
        return Some(widths);
    }
    let words: Vec<usize> = (0..widths.len())
        .filter(|index| is_of_words(sheet.columns[*index]))
        .collect();
    let figures: usize = (0..widths.len())
        .filter(|index| !words.contains(index))
        .map(|index| widths[index])
        .sum();
    let mut left = room.checked_sub(figures + gaps)?;
    // A spread of diameters gives way as well: it reads as well on two lines.
    let diameter = sheet
        .columns
        .iter()
        .position(|column| *column == Column::Diameter);
    if let Some(diameter) = diameter.filter(|index| left < 2 * LEAST_WORDS && widths[*index] > HALF_A_SPREAD)
    {
        left += widths[diameter] - HALF_A_SPREAD;
        widths[diameter] = HALF_A_SPREAD;
    }
    match words[..] {
        [one] if left >= LEAST_WORDS => widths[one] = left,
        [what, knot] => {
            let most = widths[knot].min(left.saturating_sub(LEAST_WORDS));
            let height = |knot_width: &usize| lines(sheet, left - knot_width, *knot_width);
            let best = (LEAST_WORDS.min(widths[knot])..=most).rev().min_by_key(height)?;
            widths[knot] = best;
            widths[what] = widths[what].min(left - best);
        }
        _ => return None,
    }
    Some(widths)
}

fn natural(sheet: &Sheet, column: Column) -> usize {
    let cells = sheet.parts.iter().map(|part| width(part.cell(column)));
    cells.chain([width(column.heading())]).max().unwrap_or(0)
}

/// How many lines the table takes with these widths of its columns of words.
fn lines(sheet: &Sheet, what: usize, knot: usize) -> usize {
    let height = |part: &Part| {
        let height = |column, width| wrap(part.cell(column), width).len();
        height(Column::What, what).max(height(Column::Knot, knot))
    };
    sheet.parts.iter().map(height).sum()
}

/// One row of the table as lines.
fn cells(sheet: &Sheet, widths: &[usize], texts: &[String]) -> Vec<String> {
    let wrapped: Vec<Vec<String>> = texts
        .iter()
        .zip(widths)
        .map(|(text, width)| wrap(text, *width))
        .collect();
    let height = wrapped.iter().map(Vec::len).max().unwrap_or(0);
    let line = |row: usize| {
        let mut line = " ".repeat(INDENT);
        for ((column, cell), wide) in sheet.columns.iter().zip(&wrapped).zip(widths) {
            let text = cell.get(row).map_or("", String::as_str);
            let missing = " ".repeat(wide.saturating_sub(width(text)));
            let (before, after) = if column.is_of_figures() {
                (&*missing, "")
            } else {
                ("", &*missing)
            };
            line.push_str(&format!("{before}{text}{after}{}", " ".repeat(GAP)));
        }
        line.trim_end().to_owned()
    };
    (0..height).map(line).collect()
}
