//! How figures of rigs moved, as small pictures of one size: one a rig and
//! figure that moved, with the days from left to right alike in all of them.
//!
//! A picture is text with numbers in it; nothing but shapes, and no script.

mod panel;
mod scale;

use crate::season::read::Season;
use panel::{HIGH, Panel, WIDE};
use scale::Days;
use snell_history::{RigStory, Series};

/// The style of the pictures, on light and on dark screens; a printer has white paper.
pub const STYLE: &str = "text{font:13px system-ui,sans-serif;fill:#1d2b2a}.strong{font-weight:bold}.quiet{fill:#5b6a66}\
.rule{stroke:#c9d0c8}.line{fill:none;stroke:#2f7fb8;stroke-width:2}.step{fill:#2f7fb8}.off{fill:#2f7fb8;opacity:.14}\
.day{stroke:#c8641e;stroke-width:2}.fish{fill:#a94f12;font-weight:bold}.paper{fill:#fbfaf6}\
@media screen and (prefers-color-scheme:dark){text{fill:#e2e8e3}.quiet{fill:#9fb0a9}.rule{stroke:#3b4a47}.line{stroke:#6db1e0}\
.step,.off{fill:#6db1e0}.day{stroke:#e08a4a}.fish{fill:#e99a5e}.paper{fill:#16201f}}";

/// More pictures than these nobody looks through: those that moved most often are drawn.
const MOST: usize = 48;
/// Pictures beside each other where all are in one.
const ACROSS: usize = 2;

/// What is drawn of a season.
pub struct Chart<'s> {
    panels: Vec<Panel<'s>>,
    /// How many would have been drawn if there were no end to it.
    all: usize,
}

impl<'s> Chart<'s> {
    pub fn of(season: &'s Season) -> Self {
        let days = Days::of(season);
        let series = season.rigs.iter().filter(|rig| season.is_told(rig));
        let mut moved: Vec<(&RigStory, &Series)> = series
            .flat_map(|story| story.series.iter().map(move |series| (story, series)))
            .filter(|(_, series)| series.felt().nth(1).is_some())
            .collect();
        let all = moved.len();
        if all > MOST {
            let mut often: Vec<usize> = moved.iter().map(|(_, series)| series.points.len()).collect();
            often.sort_unstable_by(|one, other| other.cmp(one));
            let least = often[MOST - 1];
            moved.retain(|(_, series)| series.points.len() >= least);
            moved.truncate(MOST);
        }
        let panel = |(story, series): (&'s RigStory, &'s Series)| Panel::of(season, &days, story, series);
        Self {
            panels: moved.into_iter().filter_map(panel).collect(),
            all,
        }
    }

    /// What the pictures show, and what they leave out.
    pub fn about(&self) -> String {
        let drawn = self.panels.len();
        if drawn == 0 {
            return "No figure of a rig moved.".to_owned();
        }
        let left_out = format!("The {drawn} of {} figures that moved most often.", self.all);
        let band = self.panels.iter().any(Panel::has_band);
        let outings = self.panels.iter().any(Panel::has_outings);
        let told = [
            (drawn < self.all, left_out.as_str()),
            (true, "A dot is a change."),
            (outings, "A stroke below is an outing, with how many fish."),
            (band, "A pale band is what eight in ten would come to."),
        ];
        let told = told.into_iter().filter(|(is_there, _)| *is_there);
        told.map(|(_, words)| words).collect::<Vec<_>>().join(" ")
    }

    /// Each picture by itself, for a page that lays them out.
    pub fn each(&self) -> impl Iterator<Item = String> + '_ {
        self.panels.iter().map(|panel| {
            format!(
                "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {WIDE} {HIGH}\" role=\"img\" class=\"moved\">\n{}</svg>\n",
                panel.drawn()
            )
        })
    }

    /// All of them in one picture.
    pub fn whole(&self) -> String {
        let across = self.panels.len().clamp(1, ACROSS);
        let down = self.panels.len().div_ceil(across);
        let (wide, high) = (WIDE * across as f64, HIGH * down as f64 + BELOW);
        let mut svg = format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {wide} {high}\" width=\"{wide}\" height=\"{high}\" \
             role=\"img\">\n<title>How rigs moved through the season</title>\n<style>{STYLE}</style>\n\
             <rect class=\"paper\" width=\"{wide}\" height=\"{high}\"/>\n"
        );
        for (at, panel) in self.panels.iter().enumerate() {
            let (x, y) = (WIDE * (at % across) as f64, HIGH * (at / across) as f64);
            svg.push_str(&format!(
                "<g transform=\"translate({x} {y})\">\n{}</g>\n",
                panel.drawn()
            ));
        }
        let words = crate::prose::wrap(&self.about(), (wide / LETTER) as usize);
        for (at, line) in words.iter().enumerate() {
            let y = HIGH * down as f64 + 18.0 + 17.0 * at as f64;
            svg.push_str(&format!(
                "<text class=\"quiet\" x=\"14\" y=\"{y}\">{line}</text>\n"
            ));
        }
        svg.push_str("</svg>\n");
        svg
    }
}

/// Room for words below the pictures.
const BELOW: f64 = 56.0;
/// How wide a letter is at the most, on the whole.
const LETTER: f64 = 8.0;
