//! The tying list as it is printed: each rig's pieces in order as sums, then
//! what they take from each spool. How a piece adds up is not known here.

use crate::prose::{WIDEST, pad, printable, width, wrap};
use crate::sheet::unsaid::assumed;
use crate::terminal::Terminal;
use crate::trouble::Trouble;
use serde::Serialize;
use snell_view::RIGS_VERSION as VERSION;
use snell_view::{Allowance, CutPiece, CutRig, CutSpool, Cuts};
use std::io::Write;

#[derive(Serialize)]
struct Listed<'c> {
    version: u32,
    #[serde(flatten)]
    cuts: &'c Cuts,
}

/// Writes the list as one value of JSON.
///
/// # Errors
/// The output cannot be written.
pub fn json(out: &mut impl Write, cuts: &Cuts) -> Result<(), Trouble> {
    let listed = Listed {
        version: VERSION,
        cuts,
    };
    serde_json::to_writer_pretty(&mut *out, &listed)?;
    Ok(writeln!(out)?)
}

/// The list for people.
pub fn table(cuts: &Cuts, terminal: &Terminal) -> String {
    let mut page = Page {
        text: String::new(),
        terminal,
    };
    if let Some(answer) = answer(cuts) {
        page.words("", &answer, false);
        page.text.push('\n');
    }
    for rig in &cuts.rigs {
        page.rig(rig);
    }
    page.spools(cuts);
    page.text
}

/// `2 pieces to cut: 6 ft 7 in of 6X fluoro`, and which spool is too short.
fn answer(cuts: &Cuts) -> Option<String> {
    let pieces: usize = cuts.rigs.iter().map(|rig| rig.pieces.len()).sum();
    let of: Vec<String> = cuts
        .spools
        .iter()
        .map(|spool| format!("{} of {}", spool.takes.text, spool.name))
        .collect();
    let short = cuts.spools.iter().filter(|spool| spool.leaders == Some(0));
    let short: Vec<&str> = short.map(|spool| spool.name.as_str()).collect();
    let short = match short.is_empty() {
        true => String::new(),
        false => format!("; too little is left of {}", short.join(", ")),
    };
    match pieces {
        0 => None,
        1 => Some(format!("1 piece to cut: {}{short}", of.join(", "))),
        several => Some(format!("{several} pieces to cut: {}{short}", of.join(", "))),
    }
}

struct Page<'t> {
    text: String,
    terminal: &'t Terminal,
}

impl Page<'_> {
    fn line(&mut self, line: &str) {
        self.text.push_str(line.trim_end());
        self.text.push('\n');
    }

    /// Words wrapped, the first line behind `lead` and the others below it.
    fn words(&mut self, lead: &str, words: &str, quiet: bool) {
        let indent = width(lead);
        let room = self.terminal.width.min(WIDEST).saturating_sub(indent);
        for (index, line) in wrap(&printable(words), room).iter().enumerate() {
            let before = if index == 0 {
                lead.to_owned()
            } else {
                " ".repeat(indent)
            };
            let line = if quiet {
                self.terminal.quiet(line)
            } else {
                line.clone()
            };
            self.line(&format!("{before}{line}"));
        }
    }

    fn rig(&mut self, rig: &CutRig) {
        let title = rig.title.as_deref().unwrap_or_default();
        let name = self.terminal.strong(&printable(&rig.name));
        self.line(&format!("{name}  {}", printable(title)));
        self.text.push('\n');
        if rig.pieces.is_empty() {
            self.line("  nothing to cut");
        }
        let cuts: Vec<String> = rig.pieces.iter().map(cut).collect();
        let column = cuts.iter().map(|cut| width(cut)).max().unwrap_or(0);
        let count = rig.pieces.len().to_string().len();
        for (index, (piece, cut)) in rig.pieces.iter().zip(&cuts).enumerate() {
            let lead = format!("  {:>count$}  {}  ", index + 1, pad(cut, column));
            self.words(&lead, &format!("{}, {}", piece.name, piece.of), false);
            self.words(&" ".repeat(width(&lead)), &sum(piece), true);
            for lack in &piece.lacks {
                self.words(&" ".repeat(width(&lead)), &format!("not known: {lack}"), true);
            }
        }
        if rig.incomplete {
            let why = "a part of this rig has a fault, and what it takes is not in this list";
            self.text.push('\n');
            self.words("  not complete  ", why, false);
        }
        let taken = assumed(&rig.assumed);
        if !taken.is_empty() {
            self.text.push('\n');
            for (index, one) in taken.iter().enumerate() {
                self.words(if index == 0 { "  assumed  " } else { "           " }, one, true);
            }
        }
        self.text.push('\n');
    }

    fn spools(&mut self, cuts: &Cuts) {
        let rows: Vec<[String; 5]> = cuts.spools.iter().map(row).collect();
        let heads = ["from", "takes", "left", "enough for", "cost"].map(str::to_owned);
        let used: Vec<usize> = (0..5)
            .filter(|column| *column < 2 || rows.iter().any(|row| !row[*column].is_empty()))
            .collect();
        let wide = |column: usize| {
            rows.iter()
                .chain([&heads])
                .map(|row| width(&row[column]))
                .max()
                .unwrap_or(0)
        };
        let total = cuts
            .cost
            .filter(|_| cuts.spools.len() > 1)
            .map(|cost| format!("{cost:.2}"));
        for (index, row) in [&heads].into_iter().chain(&rows).enumerate() {
            let cells: Vec<String> = used
                .iter()
                .map(|column| match column {
                    0 => pad(&row[0], wide(0)),
                    column => format!(
                        "{}{}",
                        " ".repeat(wide(*column).saturating_sub(width(&row[*column]))),
                        row[*column]
                    ),
                })
                .collect();
            let line = cells.join("  ");
            let line = if index == 0 {
                self.terminal.quiet(line.trim_end())
            } else {
                line
            };
            self.line(&line);
        }
        if let Some(total) = total {
            self.line(&format!("all of it costs {total}"));
        }
    }
}

/// How long to cut a piece.
pub fn cut(piece: &CutPiece) -> String {
    match &piece.cut {
        Some(cut) if piece.lacks.is_empty() => cut.text.clone(),
        Some(cut) => format!("over {}", cut.text),
        None => "?".to_owned(),
    }
}

/// The finished length and what is added to it, as a sum.
pub fn sum(piece: &CutPiece) -> String {
    let finished = piece
        .finished
        .as_ref()
        .map_or("?", |finished| finished.text.as_str());
    let mut said = format!("{finished} finished");
    for Allowance { purpose, length } in &piece.allowances {
        let length = length.as_ref().map_or("?", |length| length.text.as_str());
        said.push_str(&format!(" + {length} {purpose}"));
    }
    said
}

fn row(spool: &CutSpool) -> [String; 5] {
    let times = |count: u64| match count {
        0 => "too little".to_owned(),
        1 => "once".to_owned(),
        count => format!("{count} times"),
    };
    [
        printable(&spool.name).into_owned(),
        spool.takes.text.clone(),
        spool
            .left
            .as_ref()
            .map_or_else(String::new, |left| left.text.clone()),
        spool.leaders.map_or_else(String::new, times),
        spool.cost.map_or_else(String::new, |cost| format!("{cost:.2}")),
    ]
}
