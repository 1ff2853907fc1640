//! A shown card as a picture for paper.

use super::words::{About, NOTHING, Remark};
use crate::card::cell::Wading;
use crate::card::shown::{ShownAnswer, ShownCard, ShownCell};
use snell_picture::Scene;
use snell_picture::pocket::{self, NoteHead, Pocket, PocketCell, PocketNote, Sign};

impl ShownCard {
    /// Its picture; nothing where there is no card.
    pub fn scene(&self) -> Option<Scene> {
        let row = |(depth, cells): (&crate::Written, &Vec<ShownCell>)| {
            (depth.text.clone(), cells.iter().map(cell).collect())
        };
        pocket::scene(&Pocket {
            name: self.name.clone(),
            title: self.title.clone(),
            about: self.about(),
            across: "speed of the surface".to_owned(),
            down: "depth".to_owned(),
            speeds: self.speeds.iter().map(|speed| speed.text.clone()).collect(),
            rows: self.depths.iter().zip(&self.cells).map(row).collect(),
            notes: self.remarks().into_iter().map(note).collect(),
        })
    }

    /// The whole card in words, for those who do not see it.
    fn about(&self) -> String {
        let cell = |(speed, cell): (&crate::Written, &ShownCell)| {
            let standing = match cell.wading {
                Wading::Within => "",
                Wading::Hard => ", hard to stand in",
                Wading::KeepOut => ", keep out",
            };
            let words = cell.words().join(" ");
            format!("at {} {words}{standing}", speed.text)
        };
        let row = |(depth, cells): (&crate::Written, &Vec<ShownCell>)| {
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
    let mut words = cell.words();
    PocketCell {
        head: words.remove(0),
        lines: words,
        sign: sign(cell.wading),
    }
}

fn sign(wading: Wading) -> Option<Sign> {
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
