//! A day of the calendar, as ISO 8601 writes it.

use std::fmt;
use std::str::FromStr;

/// A day of the Gregorian calendar.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub struct Day {
    year: u16,
    month: u8,
    day: u8,
}

/// No such day.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct NoSuchDay;

impl fmt::Display for NoSuchDay {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str("there is no such day")
    }
}

impl std::error::Error for NoSuchDay {}

impl Day {
    /// Days since the first of January of year nought, to put days on a line.
    pub fn number(self) -> u32 {
        let years = u32::from(self.year);
        let leaps = if years == 0 {
            0
        } else {
            (years - 1) / 4 - (years - 1) / 100 + (years - 1) / 400 + 1
        };
        let months = (1..self.month)
            .map(|month| u32::from(length(self.year, month)))
            .sum::<u32>();
        years * 365 + leaps + months + u32::from(self.day) - 1
    }
}

/// How many days a month has.
fn length(year: u16, month: u8) -> u8 {
    let leap = year.is_multiple_of(4) && (!year.is_multiple_of(100) || year.is_multiple_of(400));
    match month {
        2 if leap => 29,
        2 => 28,
        4 | 6 | 9 | 11 => 30,
        _ => 31,
    }
}

impl FromStr for Day {
    type Err = NoSuchDay;

    /// Four, two and two digits with one character between them; whatever dash that is.
    fn from_str(written: &str) -> Result<Self, NoSuchDay> {
        let parts: Vec<&str> = written.split(|letter: char| !letter.is_ascii_digit()).collect();
        let &[year, month, day] = parts.as_slice() else {
            return Err(NoSuchDay);
        };
        let sized = year.len() == 4 && month.len() == 2 && day.len() == 2;
        let (Ok(year), Ok(month), Ok(day)) = (year.parse(), month.parse(), day.parse()) else {
            return Err(NoSuchDay);
        };
        let there = sized && (1..=12).contains(&month) && (1..=length(year, month)).contains(&day);
        there.then_some(Self { year, month, day }).ok_or(NoSuchDay)
    }
}

impl fmt::Display for Day {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(out, "{:04}-{:02}-{:02}", self.year, self.month, self.day)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn day(written: &str) -> Option<Day> {
        written.parse().ok()
    }

    #[test]
    fn days_that_are_none() {
        for written in [
            "2026-02-29",
            "2026-13-01",
            "2026-00-10",
            "2026-04-31",
            "2026-4-1",
            "26-04-01",
            "1900-02-29",
        ] {
            assert_eq!(day(written), None, "{written}");
        }
        assert!(day("2024-02-29").is_some() && day("2000-02-29").is_some());
        assert_eq!(
            day("2026–05–14").map(|day| day.to_string()),
            Some("2026-05-14".to_owned())
        );
    }

    /// Days between, counted on a calendar: 2024 is a leap year.
    #[test]
    fn days_follow_one_another() {
        let between = |one, other| day(other).unwrap().number() - day(one).unwrap().number();
        assert_eq!(between("2023-12-31", "2024-01-01"), 1);
        assert_eq!(between("2024-02-28", "2024-03-01"), 2);
        assert_eq!(between("2023-01-01", "2024-01-01"), 365);
        assert_eq!(between("2024-01-01", "2025-01-01"), 366);
        assert_eq!(between("1999-12-31", "2000-03-01"), 61);
    }
}
