//! How measures moved, as one SVG picture: a panel a measure, a stepped line a
//! rig, days from left to right.
//!
//! A picture is text with numbers in it; nothing but shapes, and no script.

use super::{Season, points};
use crate::sheet::html::escaped;
use notebook::season::RigStory;
use rig::day::Day;
use std::fmt::Write;

const WIDTH: f64 = 900.0;
const LEFT: f64 = 84.0;
const RIGHT: f64 = 250.0;
const PANEL: f64 = 190.0;
const TOP: f64 = 34.0;
const BOTTOM: f64 = 30.0;
/// Between two names beside their lines.
const LINE: f64 = 15.0;
/// The piece of line beside a name.
const SWATCH: f64 = 18.0;
/// Room behind the last day, so that what changed on it is seen.
const AFTER: f64 = 24.0;
/// More lines than these in one panel cannot be told apart.
const MOST_LINES: usize = 8;

/// Inks that stay apart for eyes that see few colours, on light and on dark paper, each with its dashes.
const INKS: [(&str, &str); MOST_LINES] = [
    ("#2f7fb8", ""),
    ("#c8641e", ""),
    ("#2d9470", ""),
    ("#b0558c", ""),
    ("#2f7fb8", "6 3"),
    ("#c8641e", "6 3"),
    ("#2d9470", "6 3"),
    ("#b0558c", "6 3"),
];

const STYLE: &str = "text{font:12px system-ui,sans-serif;fill:#1d2b2a}.strong{font-weight:bold}.quiet{fill:#5b6a66}.rule{stroke:#c9d0c8}\
                     .line{fill:none;stroke-width:2}.paper{fill:#fbfaf6}@media (prefers-color-scheme:dark)\
                     {text{fill:#e2e8e3}.quiet{fill:#9fb0a9}.rule{stroke:#3b4a47}.paper{fill:#16201f}}";

/// A step of a line.
struct Step {
    day: u32,
    value: Option<f64>,
    text: String,
}

/// A line of a panel.
struct Track<'s> {
    name: &'s str,
    steps: Vec<Step>,
}

impl Track<'_> {
    fn last(&self) -> Option<&Step> {
        self.steps.last().filter(|step| step.value.is_some())
    }
}

/// Writes the picture.
pub fn write(season: &Season, measures: &[&str]) -> String {
    let days: Vec<u32> = season
        .commits
        .iter()
        .filter_map(|commit| day(commit.day()))
        .collect();
    let first = days.iter().min().copied().unwrap_or(0);
    let span = days.iter().max().map_or(0, |last| last - first).max(1);
    let height = PANEL * measures.len().max(1) as f64;
    let mut svg = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {WIDTH} {height}\" width=\"{WIDTH}\" \
         height=\"{height}\" role=\"img\">\n<title>How rigs moved through the season</title>\n<style>{STYLE}</style>\n\
         <rect class=\"paper\" width=\"{WIDTH}\" height=\"{height}\"/>\n"
    );
    for (at, measure) in measures.iter().enumerate() {
        let tracks = tracks(season, measure);
        let panel = Panel {
            top: PANEL * at as f64,
            first,
            span,
            range: range(&tracks),
        };
        panel.draw(&mut svg, measure, &tracks, (first_day(season), last_day(season)));
    }
    svg.push_str("</svg>\n");
    svg
}

fn day(written: &str) -> Option<u32> {
    written.parse::<Day>().ok().map(Day::number)
}

fn first_day(season: &Season) -> &str {
    season
        .commits
        .iter()
        .map(|commit| commit.day())
        .min()
        .unwrap_or_default()
}

fn last_day(season: &Season) -> &str {
    season
        .commits
        .iter()
        .map(|commit| commit.day())
        .max()
        .unwrap_or_default()
}

/// The lines of a measure: those that moved most often, if there are too many.
fn tracks<'s>(season: &'s Season, measure: &str) -> Vec<Track<'s>> {
    let mut tracks: Vec<Track<'s>> = season
        .rigs
        .iter()
        .filter_map(|story| track(season, story, measure))
        .collect();
    if tracks.len() > MOST_LINES {
        let mut by_steps: Vec<usize> = (0..tracks.len()).collect();
        by_steps.sort_by_key(|at| std::cmp::Reverse(tracks[*at].steps.len()));
        by_steps.truncate(MOST_LINES);
        let mut at = 0;
        tracks.retain(|_| {
            at += 1;
            by_steps.contains(&(at - 1))
        });
    }
    tracks
}

fn track<'s>(season: &Season, story: &'s RigStory, measure: &str) -> Option<Track<'s>> {
    let mut steps: Vec<Step> = points(story, measure)
        .into_iter()
        .filter_map(|point| {
            Some(Step {
                day: day(season.commits[point.commit].day())?,
                value: point.written.as_ref().and_then(|written| written.value),
                text: point.written.map(|written| written.text).unwrap_or_default(),
            })
        })
        .collect();
    // Branches are told one after the other, but drawn by their days.
    steps.sort_by_key(|step| step.day);
    steps.iter().any(|step| step.value.is_some()).then_some(Track {
        name: &story.name,
        steps,
    })
}

fn dashed(dashes: &str) -> String {
    if dashes.is_empty() {
        String::new()
    } else {
        format!(" stroke-dasharray=\"{dashes}\"")
    }
}

/// The least and greatest value with their texts.
fn range(tracks: &[Track<'_>]) -> Option<((f64, String), (f64, String))> {
    let told = tracks
        .iter()
        .flat_map(|track| &track.steps)
        .filter_map(|step| Some((step.value?, step.text.clone())));
    let by_value = |one: &(f64, String), other: &(f64, String)| one.0.total_cmp(&other.0);
    let all: Vec<(f64, String)> = told.collect();
    Some((
        all.iter().cloned().min_by(by_value)?,
        all.into_iter().max_by(by_value)?,
    ))
}

struct Panel {
    top: f64,
    first: u32,
    span: u32,
    range: Option<((f64, String), (f64, String))>,
}

impl Panel {
    fn x(&self, day: u32) -> f64 {
        LEFT + f64::from(day - self.first) / f64::from(self.span) * (WIDTH - LEFT - RIGHT - AFTER)
    }

    fn y(&self, value: f64) -> f64 {
        let (least, most) = self
            .range
            .as_ref()
            .map_or((0.0, 1.0), |(least, most)| (least.0, most.0));
        let share = if most > least {
            (value - least) / (most - least)
        } else {
            0.5
        };
        self.top + PANEL - BOTTOM - share * (PANEL - TOP - BOTTOM)
    }

    fn draw(&self, svg: &mut String, measure: &str, tracks: &[Track<'_>], (from, to): (&str, &str)) {
        let (right, bottom) = (WIDTH - RIGHT, self.top + PANEL - BOTTOM);
        // A string takes whatever is written to it.
        let _ = writeln!(
            svg,
            "<text x=\"{LEFT}\" y=\"{:.1}\" class=\"strong\">{}</text>",
            self.top + 20.0,
            escaped(measure)
        );
        let _ = writeln!(svg, "<path class=\"rule\" d=\"M{LEFT} {bottom:.1}H{right}\"/>");
        let _ = writeln!(
            svg,
            "<text class=\"quiet\" x=\"{LEFT}\" y=\"{:.1}\">{from}</text>",
            bottom + 16.0
        );
        let _ = writeln!(
            svg,
            "<text class=\"quiet\" x=\"{:.1}\" y=\"{:.1}\" text-anchor=\"middle\">{to}</text>",
            right - AFTER,
            bottom + 16.0
        );
        if let Some((least, most)) = &self.range {
            self.tick(svg, least);
            if most.0 > least.0 {
                self.tick(svg, most);
            }
        }
        for (track, (ink, dashes)) in tracks.iter().zip(INKS) {
            self.track(svg, track, ink, dashes);
        }
        self.names(svg, tracks);
    }

    fn tick(&self, svg: &mut String, (value, text): &(f64, String)) {
        let y = self.y(*value) + 4.0;
        let _ = writeln!(
            svg,
            "<text class=\"quiet\" x=\"{:.1}\" y=\"{y:.1}\" text-anchor=\"end\">{}</text>",
            LEFT - 8.0,
            escaped(text)
        );
    }

    /// Level until the day of a change, then up or down; broken where the rig was out of the book.
    fn track(&self, svg: &mut String, track: &Track<'_>, ink: &str, dashes: &str) {
        let mut path = String::new();
        let mut drawing = false;
        for step in &track.steps {
            let x = self.x(step.day);
            match step.value {
                Some(value) if drawing => {
                    let _ = write!(path, "H{x:.1}V{:.1}", self.y(value));
                }
                Some(value) => {
                    let _ = write!(path, "M{x:.1} {:.1}", self.y(value));
                }
                None if drawing => {
                    let _ = write!(path, "H{x:.1}");
                }
                None => {}
            }
            drawing = step.value.is_some();
        }
        if drawing {
            let _ = write!(path, "H{:.1}", WIDTH - RIGHT);
        }
        let dashes = dashed(dashes);
        let _ = writeln!(
            svg,
            "<path class=\"line\" stroke=\"{ink}\"{dashes} d=\"{path}\"><title>{}</title></path>",
            escaped(track.name)
        );
    }

    /// Names beside the ends of their lines, moved apart where they would lie on one another.
    fn names(&self, svg: &mut String, tracks: &[Track<'_>]) {
        let mut names: Vec<(f64, String, (&str, &str))> = tracks
            .iter()
            .zip(INKS)
            .filter_map(|(track, ink)| {
                let last = track.last()?;
                Some((self.y(last.value?), format!("{}  {}", track.name, last.text), ink))
            })
            .collect();
        names.sort_by(|one, other| one.0.total_cmp(&other.0));
        let lowest = self.top + PANEL - BOTTOM;
        let mut least = (lowest - LINE * names.len().saturating_sub(1) as f64).min(f64::MAX);
        let mut above = f64::MIN;
        for (y, name, (ink, dashes)) in names {
            let at = y.min(least).max(above + LINE).max(self.top + TOP - LINE);
            above = at;
            least += LINE;
            let x = WIDTH - RIGHT + 10.0;
            let _ = writeln!(
                svg,
                "<path class=\"line\" stroke=\"{ink}\"{} d=\"M{x} {at:.1}h{SWATCH}\"/>",
                dashed(dashes)
            );
            let _ = writeln!(
                svg,
                "<text x=\"{:.1}\" y=\"{:.1}\">{}</text>",
                x + SWATCH + 6.0,
                at + 4.0,
                escaped(&name)
            );
        }
    }
}
