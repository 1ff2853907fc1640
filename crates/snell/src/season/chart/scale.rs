//! Where days and values lie in a picture.

use crate::season::read::Season;
use snell_history::Series;
use snell_rig::day::Day;
use snell_view::Written;

/// The days of a season, alike for all of its pictures.
pub struct Days {
    first: u32,
    last: u32,
    /// The first of each month between, with its short name.
    pub months: Vec<(u32, &'static str)>,
    /// The first and the last day as they are written.
    pub ends: [String; 2],
}

const MONTHS: [&str; 12] = [
    "Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec",
];
/// Longer seasons are told by their first and last day alone.
const MOST_MONTHS: usize = 13;

impl Days {
    pub fn of(season: &Season) -> Self {
        let commits = season
            .commits
            .iter()
            .filter_map(|commit| commit.day().parse().ok());
        let outings = season.fished.days.iter().map(|day| day.outing.day);
        let all: Vec<Day> = commits.chain(outings).collect();
        let (Some(first), Some(last)) = (all.iter().min(), all.iter().max()) else {
            return Self {
                first: 0,
                last: 0,
                months: Vec::new(),
                ends: [String::new(), String::new()],
            };
        };
        let ends = [first.to_string(), last.to_string()];
        let (first, last) = (first.number(), last.number());
        let year = |end: &str| end[..4].parse::<u16>().unwrap_or_default();
        let years = year(&ends[0])..=year(&ends[1]);
        let starts = years.flat_map(|year| {
            let month = move |(at, name)| {
                let day: Day = format!("{year:04}-{:02}-01", at + 1).parse().ok()?;
                Some((day.number(), name))
            };
            MONTHS.into_iter().enumerate().filter_map(month)
        });
        let mut months: Vec<(u32, &'static str)> =
            starts.filter(|(day, _)| first < *day && *day <= last).collect();
        if months.len() > MOST_MONTHS {
            months.clear();
        }
        Self {
            first,
            last,
            months,
            ends,
        }
    }

    /// How far along the season a day is, between nought and one.
    pub fn share(&self, day: u32) -> f64 {
        let span = self.last.saturating_sub(self.first).max(1);
        f64::from(day.saturating_sub(self.first)) / f64::from(span)
    }
}

/// The values of one picture.
pub struct Values {
    low: f64,
    high: f64,
    /// The least and the greatest value, as they are told beside the picture.
    pub ends: [(f64, String); 2],
}

impl Values {
    /// Of a series; nothing where it has no figure.
    pub fn of(series: &Series) -> Option<Self> {
        let written = || series.points.iter().filter_map(|point| point.written.as_ref());
        let by_value = |one: &&Written, other: &&Written| one.value.partial_cmp(&other.value);
        let ordered =
            |one: &&Written, other: &&Written| by_value(one, other).unwrap_or(std::cmp::Ordering::Equal);
        let least = written().filter(|one| one.value.is_some()).min_by(ordered)?;
        let most = written().filter(|one| one.value.is_some()).max_by(ordered)?;
        let (low, high) = (least.value?, most.value?);
        let bands = || written().filter_map(|one| one.between.as_ref());
        let ends = [(low, in_unit_of(least, most)), (high, most.text.clone())];
        Some(Self {
            low: bands().map(|band| band.low).fold(low, f64::min),
            high: bands().map(|band| band.high).fold(high, f64::max),
            ends,
        })
    }

    /// How high a value is, between nought and one.
    pub fn share(&self, value: f64) -> f64 {
        if self.high > self.low {
            (value - self.low) / (self.high - self.low)
        } else {
            0.5
        }
    }
}

/// The lower end in the unit of the upper one, where that is told in one unit.
fn in_unit_of(least: &Written, most: &Written) -> String {
    let unit = most
        .text
        .split_once(' ')
        .map(|(_, unit)| unit)
        .filter(|unit| !unit.contains(' '));
    let other = least.text.split_once(' ').map(|(_, unit)| unit);
    if unit == other {
        return least.text.clone();
    }
    let quantity = least
        .value
        .zip(unit.and_then(|unit| snell_units::resolve(unit).ok()));
    quantity.map_or_else(
        || least.text.clone(),
        |(value, unit)| {
            let quantity = snell_units::Quantity::new(value, unit.dimension);
            snell_units::write_as(quantity, &unit)
        },
    )
}
