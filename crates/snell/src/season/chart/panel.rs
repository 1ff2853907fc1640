//! One panel of the chart: a measure's lines over the days, its scale, and the
//! names beside the ends of the lines.

use crate::sheet::html::escaped;
use crate::sheet::words::value;
use snell_rig::measure::Kind;
use snell_view::Written;
use std::fmt::Write;

/// Between two names beside their lines.
const LINE: f64 = 15.0;
/// The piece of line beside a name.
const SWATCH: f64 = 18.0;

/// Between what the lines of a panel run.
pub(super) struct Range {
    /// The lower end, with what its estimate may be off by.
    low: f64,
    /// The upper end.
    high: f64,
    /// The least value with its text.
    least: (f64, String),
    /// The greatest.
    most: (f64, String),
}

/// A panel that is still to be drawn.
pub(super) struct Panel {
    /// Its upper edge.
    pub top: f64,
    /// The first day of the chart.
    pub first: u32,
    /// How many days the chart spans.
    pub span: u32,
    /// Between what its lines run; nothing where there is none.
    pub range: Option<Range>,
    /// How many rigs have the measure; those that moved least may have no line.
    pub rigs: usize,
}

impl Panel {
    fn x(&self, day: u32) -> f64 {
        LEFT + f64::from(day - self.first) / f64::from(self.span) * (WIDTH - LEFT - RIGHT - AFTER)
    }

    fn y(&self, value: f64) -> f64 {
        let (low, high) = self
            .range
            .as_ref()
            .map_or((0.0, 1.0), |range| (range.low, range.high));
        let share = if high > low {
            (value - low) / (high - low)
        } else {
            0.5
        };
        self.top + PANEL - BOTTOM - share * (PANEL - TOP - BOTTOM)
    }

    /// Draws it. `from` and `to` are the first and the last day as they are written.
    pub fn draw(&self, svg: &mut String, measure: &str, tracks: &[Track<'_>], (from, to): (&str, &str)) {
        let (right, bottom) = (WIDTH - RIGHT, self.top + PANEL - BOTTOM);
        // A string takes whatever is written to it.
        let some = if self.rigs > tracks.len() {
            format!(
                "<tspan class=\"quiet\">, the {} of {} rigs that moved most often</tspan>",
                tracks.len(),
                self.rigs
            )
        } else {
            String::new()
        };
        let steps = || tracks.iter().flat_map(|track| &track.steps);
        let about = if steps().any(|step| step.between().is_some()) {
            "<tspan class=\"quiet\">, an estimate: the bands are what eight in ten would come to</tspan>"
        } else if steps().any(|step| step.written.as_ref().is_some_and(|one| one.estimate)) {
            "<tspan class=\"quiet\">, an estimate</tspan>"
        } else {
            ""
        };
        let _ = writeln!(
            svg,
            "<text x=\"{LEFT}\" y=\"{:.1}\"><tspan class=\"strong\">{}</tspan>{about}{some}</text>",
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
        if let Some(Range { least, most, .. }) = &self.range {
            self.tick(svg, least);
            if most.0 > least.0 {
                self.tick(svg, most);
            }
        }
        for (track, (ink, dashes)) in tracks.iter().zip(INKS) {
            self.track(svg, track, ink, dashes);
        }
        self.names(svg, measure, tracks);
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
            match step.value() {
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
            drawing = step.value().is_some();
        }
        if drawing {
            let _ = write!(path, "H{:.1}", WIDTH - RIGHT);
        }
        let dashes = dashed(dashes);
        self.band(svg, track, ink);
        let _ = writeln!(
            svg,
            "<path class=\"line\" stroke=\"{ink}\"{dashes} d=\"{path}\"><title>{}</title></path>",
            escaped(track.name)
        );
    }

    /// Between what an estimate lies, as a pale band behind its line.
    fn band(&self, svg: &mut String, track: &Track<'_>, ink: &str) {
        let ends = track
            .steps
            .iter()
            .skip(1)
            .map(|step| self.x(step.day))
            .chain([WIDTH - RIGHT]);
        for (step, end) in track.steps.iter().zip(ends) {
            let Some(between) = step.between() else {
                continue;
            };
            let (x, upper, lower) = (self.x(step.day), self.y(between.high), self.y(between.low));
            let (wide, high) = (end - x, lower - upper);
            let _ = writeln!(
                svg,
                "<rect class=\"off\" fill=\"{ink}\" x=\"{x:.1}\" y=\"{upper:.1}\" width=\"{wide:.1}\" height=\"{high:.1}\"/>"
            );
        }
    }

    /// Names beside the ends of their lines, moved apart where they would lie on one another.
    fn names(&self, svg: &mut String, measure: &str, tracks: &[Track<'_>]) {
        let mut names: Vec<(f64, String, (&str, &str))> = tracks
            .iter()
            .zip(INKS)
            .filter_map(|(track, ink)| {
                let last = track.last()?;
                let told = value(Kind::Rig, measure, last.written.as_ref()?);
                Some((self.y(last.value()?), format!("{}, {told}", track.name), ink))
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

fn dashed(dashes: &str) -> String {
    if dashes.is_empty() {
        String::new()
    } else {
        format!(" stroke-dasharray=\"{dashes}\"")
    }
}

/// Between what the lines run; nothing where there is no figure.
pub(super) fn range(tracks: &[Track<'_>]) -> Option<Range> {
    let steps = || tracks.iter().flat_map(|track| &track.steps);
    let told = steps().filter_map(|step| Some((step.value()?, step.written.as_ref()?.text.clone())));
    let all: Vec<(f64, String)> = told.collect();
    let by_value = |one: &&(f64, String), other: &&(f64, String)| one.0.total_cmp(&other.0);
    let ends = |of: fn(&snell_view::Range) -> f64| {
        steps().filter_map(move |step| Some(step.between().map_or(step.value()?, of)))
    };
    Some(Range {
        low: ends(|between| between.low).reduce(f64::min)?,
        high: ends(|between| between.high).reduce(f64::max)?,
        least: all.iter().min_by(by_value)?.clone(),
        most: all.iter().max_by(by_value)?.clone(),
    })
}

pub(super) const WIDTH: f64 = 900.0;

pub(super) const LEFT: f64 = 84.0;

pub(super) const RIGHT: f64 = 250.0;

pub(super) const PANEL: f64 = 190.0;

pub(super) const TOP: f64 = 34.0;

pub(super) const BOTTOM: f64 = 30.0;

/// Room behind the last day, so that what changed on it is seen.
pub(super) const AFTER: f64 = 24.0;

/// More lines than these in one panel cannot be told apart.
pub(super) const MOST_LINES: usize = 8;

/// Inks that stay apart for eyes that see few colours, on light and on dark paper, each with its dashes.
pub(super) const INKS: [(&str, &str); MOST_LINES] = [
    ("#2f7fb8", ""),
    ("#c8641e", ""),
    ("#2d9470", ""),
    ("#b0558c", ""),
    ("#2f7fb8", "6 3"),
    ("#c8641e", "6 3"),
    ("#2d9470", "6 3"),
    ("#b0558c", "6 3"),
];

/// A step of a line.
pub(super) struct Step {
    pub(super) day: u32,
    /// The figure from that day on; nothing where it is unknown or the rig is gone.
    pub(super) written: Option<Written>,
}

impl Step {
    pub(super) fn value(&self) -> Option<f64> {
        self.written.as_ref()?.value
    }

    /// Between what it lies, where it is an estimate of which that is known.
    fn between(&self) -> Option<&snell_view::Range> {
        self.written.as_ref()?.between.as_ref()
    }
}

/// A line of a panel.
pub(super) struct Track<'s> {
    pub(super) name: &'s str,
    pub(super) steps: Vec<Step>,
}

impl Track<'_> {
    fn last(&self) -> Option<&Step> {
        self.steps.last().filter(|step| step.value().is_some())
    }
}
