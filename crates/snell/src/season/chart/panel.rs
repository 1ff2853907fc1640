//! One small picture: how one figure of one rig moved, with its changes, the
//! outings and their fish.

use super::scale::{Days, Values};
use crate::season::read::Season;
use crate::sheet::html::escaped;
use snell_history::{Point, RigStory, Series};
use snell_rig::day::Day;
use std::fmt::Write;

pub const WIDE: f64 = 420.0;
pub const HIGH: f64 = 190.0;

/// Beside the lines on the left, where their ends are told.
const LEFT: f64 = 96.0;
const RIGHT: f64 = 26.0;
const TOP: f64 = 40.0;
/// Below the lines, where the outings and the days are.
const BOTTOM: f64 = 52.0;
/// The strokes of outings, below the lines.
const STROKE: f64 = 9.0;
/// A name of a month nearer to an end than this would lie on a date.
const ROOM: f64 = 98.0;
/// Between the names of two months.
const APART: f64 = 30.0;
/// Between two lines of text.
const LINE: f64 = 15.0;

/// A small picture.
pub struct Panel<'s> {
    season: &'s Season,
    story: &'s RigStory,
    series: &'s Series,
    values: Values,
    /// The days of the whole season on this picture.
    months: Vec<(f64, &'static str)>,
    ends: [String; 2],
    /// Where each point lies.
    points: Vec<(f64, &'s Point)>,
    /// Where each outing lies, and how many fish it brought.
    outings: Vec<(f64, u32)>,
}

impl<'s> Panel<'s> {
    /// The picture of a series; nothing where it has no figure.
    pub fn of(season: &'s Season, days: &Days, story: &'s RigStory, series: &'s Series) -> Option<Self> {
        let x = |day: u32| LEFT + days.share(day) * (WIDE - LEFT - RIGHT);
        let mut points: Vec<(f64, &Point)> = series
            .points
            .iter()
            .filter_map(|point| {
                let day: Day = season.commits[point.commit].day().parse().ok()?;
                Some((x(day.number()), point))
            })
            .collect();
        // A commit that was moved to the end of the line keeps its author's day.
        points.sort_by(|one, other| one.0.total_cmp(&other.0));
        let own = season.fished.days.iter().filter(|day| {
            let rig = day.rig.and_then(|rig| season.rigs.get(rig));
            rig.is_some_and(|rig| std::ptr::eq(rig, story))
        });
        Some(Self {
            season,
            story,
            series,
            values: Values::of(series)?,
            months: days.months.iter().map(|(day, name)| (x(*day), *name)).collect(),
            ends: days.ends.clone(),
            points,
            outings: own
                .map(|day| (x(day.outing.day.number()), day.caught()))
                .collect(),
        })
    }

    /// Whether an estimate has what it lies between.
    pub fn has_band(&self) -> bool {
        let written = self.points.iter().filter_map(|(_, point)| point.written.as_ref());
        written.into_iter().any(|one| one.between.is_some())
    }

    /// Whether the rig was fished.
    pub fn has_outings(&self) -> bool {
        !self.outings.is_empty()
    }

    fn y(&self, value: f64) -> f64 {
        HIGH - BOTTOM - self.values.share(value) * (HIGH - TOP - BOTTOM)
    }

    /// It as shapes, without what holds them.
    pub fn drawn(&self) -> String {
        let mut svg = String::new();
        self.heading(&mut svg);
        self.days(&mut svg);
        self.ends(&mut svg);
        self.bands(&mut svg);
        self.line(&mut svg);
        self.steps(&mut svg);
        self.outings(&mut svg);
        svg
    }

    // A string takes whatever is written to it.

    fn heading(&self, svg: &mut String) {
        let name = escaped(&self.story.name);
        let figure = escaped(self.series.figure.name());
        let last = self.points.last().and_then(|(_, point)| point.written.as_ref());
        let now = last.map_or_else(String::new, |written| {
            let about = if written.estimate { "about " } else { "" };
            format!(", {about}{}", escaped(&written.text))
        });
        let _ = writeln!(
            svg,
            "<title>{name}, {figure}</title>\n<text x=\"14\" y=\"22\"><tspan class=\"strong\">{name}</tspan> {figure}\
             <tspan class=\"quiet\">{now}</tspan></text>"
        );
    }

    fn days(&self, svg: &mut String) {
        let (bottom, right) = (HIGH - BOTTOM, WIDE - RIGHT);
        let _ = writeln!(svg, "<path class=\"rule\" d=\"M{LEFT} {bottom}H{right}\"/>");
        let mut free = LEFT + ROOM;
        for (x, name) in &self.months {
            let _ = writeln!(svg, "<path class=\"rule\" d=\"M{x:.1} {TOP}V{bottom}\"/>");
            if *x >= free && *x <= right - ROOM {
                let _ = writeln!(
                    svg,
                    "<text class=\"quiet\" x=\"{x:.1}\" y=\"{}\" text-anchor=\"middle\">{name}</text>",
                    HIGH - 10.0
                );
                free = x + APART;
            }
        }
        let [first, last] = &self.ends;
        let y = HIGH - 10.0;
        let _ = writeln!(svg, "<text class=\"quiet\" x=\"{LEFT}\" y=\"{y}\">{first}</text>");
        if first != last {
            let _ = writeln!(
                svg,
                "<text class=\"quiet\" x=\"{}\" y=\"{y}\" text-anchor=\"end\">{last}</text>",
                right + 12.0
            );
        }
    }

    fn ends(&self, svg: &mut String) {
        let [(low, least), (high, most)] = &self.values.ends;
        let upper = self.y(*high) + 4.0;
        let lower = (self.y(*low) + 4.0).max(upper + LINE);
        for (y, text) in [(upper, most), (lower, least)] {
            let _ = writeln!(
                svg,
                "<text class=\"quiet\" x=\"{}\" y=\"{y:.1}\" text-anchor=\"end\">{}</text>",
                LEFT - 8.0,
                escaped(text)
            );
        }
    }

    /// Between what an estimate lies, until the next step of it that is felt.
    fn bands(&self, svg: &mut String) {
        let mut felt = self
            .points
            .iter()
            .filter(|(_, point)| point.felt || point.written.is_none())
            .peekable();
        while let Some((x, point)) = felt.next() {
            let end = felt.peek().map_or(WIDE - RIGHT, |(next, _)| *next);
            let Some(between) = point.written.as_ref().and_then(|one| one.between.as_ref()) else {
                continue;
            };
            let (upper, lower) = (self.y(between.high), self.y(between.low));
            let _ = writeln!(
                svg,
                "<rect class=\"off\" x=\"{x:.1}\" y=\"{upper:.1}\" width=\"{:.1}\" height=\"{:.1}\"/>",
                end - x,
                lower - upper
            );
        }
    }

    /// Level until the day of a change, then up or down; broken where the rig was out of the book.
    fn line(&self, svg: &mut String) {
        let mut path = String::new();
        let mut drawing = false;
        for (x, point) in &self.points {
            let value = point.written.as_ref().and_then(|one| one.value);
            let _ = match value.map(|value| self.y(value)) {
                Some(y) if drawing => write!(path, "H{x:.1}V{y:.1}"),
                Some(y) => write!(path, "M{x:.1} {y:.1}"),
                None if drawing => write!(path, "H{x:.1}"),
                None => Ok(()),
            };
            drawing = value.is_some();
        }
        if drawing {
            let _ = write!(path, "H{:.1}", WIDE - RIGHT);
        }
        let _ = writeln!(svg, "<path class=\"line\" d=\"{path}\"/>");
    }

    fn steps(&self, svg: &mut String) {
        for (x, point) in self.points.iter().filter(|(_, point)| point.felt) {
            let Some(written) = &point.written else { continue };
            let Some(value) = written.value else { continue };
            let _ = writeln!(
                svg,
                "<circle class=\"step\" cx=\"{x:.1}\" cy=\"{:.1}\" r=\"3\"><title>{}, {}</title></circle>",
                self.y(value),
                self.season.commits[point.commit].day(),
                escaped(&written.told())
            );
        }
    }

    fn outings(&self, svg: &mut String) {
        let top = HIGH - BOTTOM + 4.0;
        let mut free = f64::MIN;
        for (x, fish) in &self.outings {
            let _ = writeln!(svg, "<path class=\"day\" d=\"M{x:.1} {top}v{STROKE}\"/>");
            if *x >= free {
                let _ = writeln!(
                    svg,
                    "<text class=\"fish\" x=\"{x:.1}\" y=\"{}\" text-anchor=\"middle\">{fish}</text>",
                    top + STROKE + 12.0
                );
                free = x + LINE;
            }
        }
    }
}
