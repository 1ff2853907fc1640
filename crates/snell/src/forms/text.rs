//! Findings as reports for people: what is wrong, the lines it lies in, what
//! to do.
//!
//! A report reads like a block of the language: a word at the margin, the rest
//! indented below. It knows no exit status and no bar.

use super::excerpt::{Cut, Excerpt};
use super::shared::{Shared, shared};
use crate::prose::{WIDEST, counted, pad, printable, width, wrap};
use crate::terminal::Terminal;
use miette::{Diagnostic, GraphicalReportHandler, GraphicalTheme, LabeledSpan, ThemeCharacters, ThemeStyles};
use owo_colors::Style;
use snell_finding::{Finding, Label, Level, Limit};
use snell_text::TextId;
use snell_view::Places;
use std::fmt;
use std::io::{self, Write};

/// More reports than these nobody reads in one go.
const MOST_REPORTS: usize = Limit::Reports.count();
/// Of a finding that is shared so many places are named.
const MOST_SAME: usize = 5;
/// The width of the words at the margin with the space behind them.
pub const MARGIN: usize = 9;
/// Writes a report of each finding; of many, the first ones and how many more there are.
///
/// # Errors
/// The output cannot be written.
pub fn write(
    out: &mut impl Write,
    findings: &[Finding],
    places: &Places<'_>,
    terminal: &Terminal,
) -> io::Result<()> {
    let writer = Writer { places, terminal };
    let (first, rest) = findings.split_at(findings.len().min(MOST_REPORTS));
    for Shared { first, others } in shared(first) {
        writeln!(out, "{}", writer.report(first, &others))?;
    }
    if !rest.is_empty() {
        let more = counted(rest.len(), "more finding", "more findings");
        writeln!(out, "and {more}: `--form lines` lists all of them, one a line\n")?;
    }
    Ok(())
}

/// The style of a level, legible on light and dark.
pub fn style(level: Level) -> Style {
    match level {
        Level::Fault => Style::new().red().bold(),
        Level::Caution => Style::new().magenta().bold(),
        Level::Advice => Style::new().cyan().bold(),
    }
}

struct Writer<'w> {
    places: &'w Places<'w>,
    terminal: &'w Terminal,
}

impl Writer<'_> {
    fn width(&self) -> usize {
        self.terminal.width.min(WIDEST)
    }

    fn report(&self, finding: &Finding, others: &[&Finding]) -> String {
        let mut report = self.head(finding);
        let mut left = Vec::new();
        for (index, labels) in by_text(&finding.labels).into_iter().enumerate() {
            report.push_str(&self.frame(finding, &labels, index == 0, &mut left));
        }
        for label in left {
            let place = self.places.written(label.place);
            let also = if label.text.is_empty() {
                place
            } else {
                format!("{place}: {}", label.text)
            };
            self.line(&mut report, "also", &also);
        }
        if let Some(same) = self.same(others) {
            self.line(&mut report, "same", &same);
        }
        if let Some(note) = &finding.note {
            self.line(&mut report, "note", note);
        }
        if let Some(help) = &finding.help {
            self.line(&mut report, "help", help);
        }
        let told = |fix: &&snell_finding::Fix| finding.help.as_ref() != Some(&fix.title);
        for (index, fix) in finding.fixes.iter().filter(told).enumerate() {
            self.line(&mut report, if index == 0 { "mend" } else { "or" }, &fix.title);
        }
        report
    }

    /// Where else the same causes have the same finding: `rig two (a.rig:10:3), rig four (a.rig:21:3)`.
    fn same(&self, others: &[&Finding]) -> Option<String> {
        let told = others.iter().take(MOST_SAME).map(|finding| {
            let place = self.places.written(finding.place());
            match &finding.rig {
                Some(rig) => format!("rig {rig} ({place})"),
                None => place,
            }
        });
        let told: Vec<String> = told.collect();
        let more = others.len().saturating_sub(MOST_SAME);
        let more = (more > 0).then(|| format!(", and {more} more"));
        (!told.is_empty()).then(|| format!("{}{}", told.join(", "), more.unwrap_or_default()))
    }

    /// The level, the message, and in brackets the finding's name and rig.
    fn head(&self, finding: &Finding) -> String {
        let level = finding.level.word();
        let name = match &finding.rig {
            Some(rig) => format!("[{}, rig {rig}]", finding.code),
            None => format!("[{}]", finding.code),
        };
        let room = self.width() - MARGIN;
        let mut lines: Vec<String> = wrap(&printable(&finding.message), room);
        let fits = lines
            .last()
            .is_some_and(|line| width(line) + 1 + width(&name) <= room);
        let (names, lone) = if fits { (name.clone(), false) } else { (name, true) };
        let mut head = self.terminal.paint(level, style(finding.level));
        head.push_str(&" ".repeat(MARGIN.saturating_sub(width(level))));
        let last = lines.pop().unwrap_or_default();
        for line in lines {
            head.push_str(&format!(
                "{}\n{}",
                self.terminal.strong(&line),
                " ".repeat(MARGIN)
            ));
        }
        head.push_str(&self.terminal.strong(&last));
        head.push_str(&if lone {
            format!("\n{}", " ".repeat(MARGIN))
        } else {
            " ".to_owned()
        });
        head.push_str(&self.terminal.quiet(&printable(&names)));
        head.push('\n');
        head
    }

    /// A word at the margin with its text hanging behind it.
    fn line(&self, report: &mut String, word: &str, text: &str) {
        let lines = wrap(&printable(text), self.width() - MARGIN);
        let mut word = format!("  {}", pad(word, MARGIN - 2));
        for line in lines {
            report.push_str(&format!("{}{line}\n", self.terminal.quiet(&word)));
            word = " ".repeat(MARGIN);
        }
    }

    /// The lines of one text with their labels; labels that found no room are left to the caller.
    fn frame<'f>(
        &self,
        finding: &Finding,
        labels: &[&'f Label],
        main: bool,
        left: &mut Vec<&'f Label>,
    ) -> String {
        let Some(document) = self.places.document(labels[0].place.text) else {
            return String::new();
        };
        let marks: Vec<_> = labels.iter().map(|label| label.place.span).collect();
        let cut = Cut {
            longest: self.terminal.width.saturating_sub(12).max(32),
            ellipsis: self.terminal.ellipsis(),
        };
        let (excerpt, moved) = Excerpt::new(document, &marks, cut);
        let mut spans = Vec::new();
        for (label, mark) in labels.iter().zip(moved) {
            match mark {
                Some(mark) => {
                    let text = self.beside(&excerpt, mark, &label.text);
                    let span = (mark.start as usize, mark.len() as usize);
                    let primary = main && spans.is_empty();
                    spans.push(if primary {
                        LabeledSpan::new_primary_with_span(text, span)
                    } else {
                        LabeledSpan::new_with_span(text, span)
                    });
                }
                None => left.push(label),
            }
        }
        if spans.is_empty() {
            return String::new();
        }
        let primary = spans
            .first()
            .filter(|_| main)
            .map(|span| (span.offset(), span.len()));
        let drawn = Drawn {
            excerpt,
            labels: spans,
        };
        self.drawn(finding.level, &drawn, primary)
    }

    fn drawn(&self, level: Level, drawn: &Drawn, primary: Option<(usize, usize)>) -> String {
        // The drawer gives its colours out in the order of the marks.
        let mut sorted: Vec<(usize, usize)> = drawn
            .labels
            .iter()
            .map(|label| (label.offset(), label.len()))
            .collect();
        sorted.sort_by_key(|(offset, _)| *offset);
        let other = Style::new().blue();
        let marks = sorted
            .iter()
            .map(|mark| {
                if Some(*mark) == primary {
                    style(level)
                } else {
                    other
                }
            })
            .collect();
        let theme = GraphicalTheme {
            characters: if self.terminal.unicode {
                ThemeCharacters::unicode()
            } else {
                ThemeCharacters::ascii()
            },
            styles: if self.terminal.colour {
                styles(marks)
            } else {
                ThemeStyles::none()
            },
        };
        let handler = GraphicalReportHandler::new_themed(theme)
            .with_width(self.terminal.width)
            .with_context_lines(1)
            .without_primary_span_start()
            .without_cause_chain()
            .with_links(false)
            .without_syntax_highlighting();
        let mut text = String::new();
        if handler.render_report(&mut text, drawn).is_err() {
            return String::new();
        }
        // The drawer opens with a line for a message, which stands in the head already.
        let frame = text.split_once('\n').map_or("", |(_, frame)| frame);
        frame
            .lines()
            .map(|line| format!("{}\n", line.trim_end()))
            .collect()
    }

    /// A label's words, broken into lines where they would run over the edge.
    fn beside(&self, excerpt: &Excerpt, mark: snell_text::Span, words: &str) -> Option<String> {
        if words.is_empty() {
            return None;
        }
        let numbers = excerpt.last_line().to_string().len();
        let before = numbers + 8 + excerpt.column(mark.start) + mark.len() as usize / 2;
        let room = self.terminal.width.saturating_sub(before).max(24);
        Some(wrap(&printable(words), room).join("\n"))
    }
}

fn styles(highlights: Vec<Style>) -> ThemeStyles {
    ThemeStyles {
        link: Style::new().dimmed(),
        linum: Style::new().dimmed(),
        highlights,
        ..ThemeStyles::none()
    }
}

/// Labels by their text, in the order in which texts are first named.
fn by_text(labels: &[Label]) -> Vec<Vec<&Label>> {
    let mut groups: Vec<(TextId, Vec<&Label>)> = Vec::new();
    for label in labels {
        match groups.iter_mut().find(|(text, _)| *text == label.place.text) {
            Some((_, group)) => group.push(label),
            None => groups.push((label.place.text, vec![label])),
        }
    }
    groups.into_iter().map(|(_, group)| group).collect()
}

/// What is handed to the drawer of frames: an excerpt and its labels, without words of its own.
#[derive(Debug)]
struct Drawn {
    excerpt: Excerpt,
    labels: Vec<LabeledSpan>,
}

impl fmt::Display for Drawn {
    fn fmt(&self, _: &mut fmt::Formatter<'_>) -> fmt::Result {
        Ok(())
    }
}

impl std::error::Error for Drawn {}

impl Diagnostic for Drawn {
    fn source_code(&self) -> Option<&dyn miette::SourceCode> {
        Some(&self.excerpt)
    }

    fn labels(&self) -> Option<Box<dyn Iterator<Item = LabeledSpan> + '_>> {
        Some(Box::new(self.labels.iter().cloned()))
    }
}
