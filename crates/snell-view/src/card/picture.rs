//! A shown card as a picture for paper.

use super::words::{About, NOTHING, Remark};
use crate::card::cell::Wading;
use crate::card::shown::{ShownAnswer, ShownCard, ShownCell};
use crate::shown::Row;
use crate::written::Written;
use snell_picture::Scene;
use snell_picture::pocket::{self, NoteHead, Paper, Pocket, PocketCell, PocketNote, PocketPart, Sign};

impl ShownCard {
    /// Its picture; nothing where there is no card.
    pub fn scene(&self) -> Option<Scene> {
        let (speed_in, speeds) = told_in("speed of the surface", &self.speeds);
        let (depth_in, depths) = told_in("depth", &self.depths);
        let row = |(depth, cells): (String, &Vec<ShownCell>)| (depth, cells.iter().map(cell).collect());
        pocket::scene(&Pocket {
            paper: Paper::Own,
            name: self.name.clone(),
            title: self.title.clone(),
            about: self.about(),
            across: speed_in,
            down: depth_in,
            speeds,
            rows: depths.into_iter().zip(&self.cells).map(row).collect(),
            rig: self.rig.iter().map(part).collect(),
            notes: self.remarks().into_iter().map(note).collect(),
        })
    }

    /// The whole card in words, for those who do not see it.
    fn about(&self) -> String {
        let cell = |(speed, cell): (&Written, &ShownCell)| {
            let standing = match cell.wading {
                Wading::Within => "",
                Wading::Hard => ", hard to stand in",
                Wading::KeepOut => ", keep out",
            };
            let words = cell.words().join(" ");
            format!("at {} {words}{standing}", speed.text)
        };
        let row = |(depth, cells): (&Written, &Vec<ShownCell>)| {
            let cells: Vec<String> = self.speeds.iter().zip(cells).map(cell).collect();
            format!("{} deep: {}", depth.text, cells.join("; "))
        };
        let rows: Vec<String> = self.depths.iter().zip(&self.cells).map(row).collect();
        format!("An estimate. {}.", rows.join(". "))
    }
}

impl ShownCell {
    /// What stands in it, line by line.
    pub fn words(&self) -> Vec<String> {
        match &self.answer {
            ShownAnswer::Fished(fished) => vec![
                fished.fly.clone(),
                fished.tippet.text.clone(),
                format!("{:.1} s", fished.sink_time.value.unwrap_or_default()),
            ],
            ShownAnswer::Unfished(why) => vec![NOTHING.to_owned(), why.word.clone()],
        }
    }
}

fn cell(cell: &ShownCell) -> PocketCell {
    let words = cell.words();
    let signs = sign(cell.wading).into_iter().collect();
    match &cell.answer {
        ShownAnswer::Fished(fished) => PocketCell {
            answer: fished.fly.clone(),
            fished: true,
            lines: words.into_iter().skip(1).collect(),
            signs,
        },
        ShownAnswer::Unfished(_) => PocketCell {
            answer: words.join(" "),
            fished: false,
            lines: Vec::new(),
            signs,
        },
    }
}

/// What a row or a column is of, with the unit that all of its figures share, and the figures without it.
pub(super) fn told_in(what: &str, all: &[Written]) -> (String, Vec<String>) {
    let parted = all.iter().map(|written| written.text.rsplit_once(' '));
    let parted: Option<Vec<(&str, &str)>> = parted.collect();
    let unit = parted.as_ref().and_then(|parted| Some(parted.first()?.1));
    match (parted, unit) {
        (Some(parted), Some(unit))
            if parted
                .iter()
                .all(|(figure, own)| *own == unit && !figure.contains(' ')) =>
        {
            let figures = parted.iter().map(|(figure, _)| (*figure).to_owned());
            (format!("{what}, {unit}"), figures.collect())
        }
        _ => (
            what.to_owned(),
            all.iter().map(|written| written.text.clone()).collect(),
        ),
    }
}

/// A part of the rig: of a fly what it is, of a piece its size or spool.
fn part(row: &Row) -> PocketPart {
    let length = row.length.as_ref().map(|length| format!(" {}", length.text));
    PocketPart {
        part: format!("{}{}", row.part, length.unwrap_or_default()),
        what: row.what.clone(),
        knot: row.knot.clone(),
    }
}

pub(super) fn sign(wading: Wading) -> Option<Sign> {
    match wading {
        Wading::Within => None,
        Wading::Hard => Some(Sign::Hard),
        Wading::KeepOut => Some(Sign::KeepOut),
    }
}

fn note(remark: Remark) -> PocketNote {
    let head = match remark.about {
        About::Word(word) => NoteHead::Word(word.to_owned()),
        About::Mark(wading) => {
            sign(wading).map_or_else(|| NoteHead::Word("wading".to_owned()), NoteHead::Sign)
        }
    };
    PocketNote {
        head,
        text: remark.text,
    }
}
