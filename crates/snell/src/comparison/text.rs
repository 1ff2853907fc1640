//! A comparison told in sentences, one a line, under the name of each rig.

use super::{heading, held_against, of_block, of_changes, of_partly};
use crate::prose::{WIDEST, printable, wrap};
use crate::terminal::Terminal;
use snell_view::compare::{Called, Comparison, Moved, Piece, RigChange, told_moved};

const INDENT: &str = "  ";
/// Writes it; nothing where nothing changed.
pub fn write(comparison: &Comparison, terminal: &Terminal) -> String {
    let mut page = Page {
        text: String::new(),
        terminal,
        chosen: comparison.chosen,
    };
    for rig in &comparison.rigs {
        page.rig(rig);
    }
    for block in &comparison.blocks {
        let (name, lines) = of_block(block);
        page.head(&name);
        lines.iter().for_each(|line| page.line(line));
    }
    page.text
}

struct Page<'t> {
    text: String,
    terminal: &'t Terminal,
    chosen: bool,
}

impl Page<'_> {
    fn head(&mut self, heading: &str) {
        if !self.text.is_empty() {
            self.text.push('\n');
        }
        self.text.push_str(&self.terminal.strong(&printable(heading)));
        self.text.push('\n');
    }

    /// A sentence; what does not fit hangs below it.
    fn line(&mut self, sentence: &str) {
        let width = self.terminal.width.min(WIDEST).saturating_sub(2 * INDENT.len());
        for (at, line) in wrap(&printable(sentence), width).into_iter().enumerate() {
            let indent = if at == 0 { INDENT } else { "    " };
            self.text.push_str(&format!("{indent}{line}\n"));
        }
    }

    fn rig(&mut self, rig: &RigChange) {
        match rig {
            RigChange::Added { rig, parts } => {
                self.head(&heading(rig));
                self.line("a new rig:");
                self.parts(parts);
            }
            RigChange::Dropped { rig, parts } => {
                self.head(&heading(rig));
                self.line("not in the book any more; it was:");
                self.parts(parts);
            }
            RigChange::Changed {
                was,
                now,
                changes,
                follows,
                another,
                measures,
                fishes,
                partly_read,
            } => {
                self.head(&heading(now));
                self.called(was, now);
                if let Some(fishes) = fishes {
                    self.line(&fishes.to_string());
                }
                if let Some(partly) = partly_read {
                    self.line(of_partly(*partly));
                }
                let told = of_changes(changes, follows.as_deref(), another.as_ref());
                told.iter().for_each(|line| self.line(line));
                // How far apart two rigs are that have little in common is nobody's question.
                if another.is_none() {
                    self.measures(measures, changes.is_empty());
                }
            }
        }
    }

    fn called(&mut self, was: &Called, now: &Called) {
        if self.chosen {
            self.line(&held_against(was));
            return;
        }
        if was.name != now.name {
            self.line(&format!("called {} before", was.name));
        }
        match (&was.title, &now.title) {
            (Some(was), Some(now)) if was != now => self.line(&format!("its title was {was}")),
            (Some(was), None) => self.line(&format!("its title was {was}; it has none now")),
            _ => {}
        }
    }

    fn parts(&mut self, parts: &[Piece]) {
        let told: Vec<String> = parts.iter().map(Piece::in_words).collect();
        self.line(&told.join("; "));
    }

    fn measures(&mut self, measures: &[Moved], alone: bool) {
        let told = told_moved(measures);
        if !told.is_empty() {
            let so = if alone { "" } else { "so " };
            self.line(&format!("{so}{}", told.join("; ")));
        }
    }
}
