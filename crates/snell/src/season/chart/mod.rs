//! How measures moved, as one SVG picture: a panel a measure, a stepped line a
//! rig, days from left to right.
//!
//! A picture is text with numbers in it; nothing but shapes, and no script.

mod panel;

use crate::season::read::Season;
use panel::{MOST_LINES, PANEL, Panel, Step, Track, WIDTH, range};
use snell_history::RigStory;
use snell_rig::day::Day;

const STYLE: &str = "text{font:12px system-ui,sans-serif;fill:#1d2b2a}.strong{font-weight:bold}.quiet{fill:#5b6a66}.rule{stroke:#c9d0c8}\
                     .line{fill:none;stroke-width:2}.off{opacity:.16}.paper{fill:#fbfaf6}@media (prefers-color-scheme:dark)\
                     {text{fill:#e2e8e3}.quiet{fill:#9fb0a9}.rule{stroke:#3b4a47}.paper{fill:#16201f}}";

/// Writes the picture: a panel for each measure that a rig has.
pub fn write(season: &Season) -> String {
    let days: Vec<u32> = season
        .commits
        .iter()
        .filter_map(|commit| day(commit.day()))
        .collect();
    let first = days.iter().min().copied().unwrap_or(0);
    let span = days.iter().max().map_or(0, |last| last - first).max(1);
    let mut measures: Vec<&str> = Vec::new();
    for series in season.rigs.iter().flat_map(|story| &story.series) {
        if !measures.contains(&series.figure.name()) {
            measures.push(series.figure.name());
        }
    }
    let panels = measures.iter().map(|measure| (*measure, tracks(season, measure)));
    let panels: Vec<_> = panels.filter(|(_, (tracks, _))| !tracks.is_empty()).collect();
    let height = PANEL * panels.len().max(1) as f64;
    let mut svg = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {WIDTH} {height}\" width=\"{WIDTH}\" \
         height=\"{height}\" role=\"img\">\n<title>How rigs moved through the season</title>\n<style>{STYLE}</style>\n\
         <rect class=\"paper\" width=\"{WIDTH}\" height=\"{height}\"/>\n"
    );
    for (at, (measure, (tracks, rigs))) in panels.iter().enumerate() {
        let panel = Panel {
            top: PANEL * at as f64,
            first,
            span,
            range: range(tracks),
            rigs: *rigs,
        };
        panel.draw(&mut svg, measure, tracks, season.span().unwrap_or_default());
    }
    svg.push_str("</svg>\n");
    svg
}

fn day(written: &str) -> Option<u32> {
    written.parse::<Day>().ok().map(Day::number)
}

/// The lines of a measure, those that moved most often if there are too many; and how many rigs have it.
fn tracks<'s>(season: &'s Season, measure: &str) -> (Vec<Track<'s>>, usize) {
    let mut tracks: Vec<Track<'s>> = season
        .rigs
        .iter()
        .filter_map(|story| track(season, story, measure))
        .collect();
    let rigs = tracks.len();
    if rigs > MOST_LINES {
        let mut by_steps: Vec<usize> = (0..tracks.len()).collect();
        by_steps.sort_by_key(|at| std::cmp::Reverse(tracks[*at].steps.len()));
        by_steps.truncate(MOST_LINES);
        let mut at = 0;
        tracks.retain(|_| {
            at += 1;
            by_steps.contains(&(at - 1))
        });
    }
    (tracks, rigs)
}

fn track<'s>(season: &Season, story: &'s RigStory, measure: &str) -> Option<Track<'s>> {
    let series = story
        .series
        .iter()
        .find(|series| series.figure.name() == measure)?;
    let mut steps: Vec<Step> = series
        .points
        .iter()
        .filter_map(|point| {
            Some(Step {
                day: day(season.commits[point.commit].day())?,
                written: point.written.clone(),
            })
        })
        .collect();
    // A commit that was moved to the end of the line keeps its author's day.
    steps.sort_by_key(|step| step.day);
    steps.iter().any(|step| step.value().is_some()).then_some(Track {
        name: &story.name,
        steps,
    })
}
