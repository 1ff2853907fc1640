//! What is said of fish in free words: which they were, how long, and when.

use serde::Serialize;
use snell_syntax::species;
use snell_units::{Dimension, Quantity};

/// What is said of the fish of one line.
#[derive(Clone, Debug, Default, PartialEq, Serialize, schemars::JsonSchema)]
pub struct Said {
    /// Which they were, as a count of them goes by.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub species: Option<&'static str>,
    /// How long they were.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub lengths: Vec<FishLength>,
    /// When, as hours and minutes: `10:40`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub time: Option<String>,
}

/// How long a fish was.
#[derive(Clone, Debug, PartialEq, Serialize, schemars::JsonSchema)]
pub struct FishLength {
    /// In metres.
    pub metres: f64,
    /// As it was written.
    pub text: String,
}

impl Said {
    /// What some words say: `grayling, 31 and 34 cm, at 10:40`.
    pub fn of(words: &str) -> Self {
        let mut said = Self::default();
        // Numbers whose unit is still to come.
        let mut open: Vec<&str> = Vec::new();
        let words = words.split(|letter: char| letter.is_whitespace() || matches!(letter, ',' | ';'));
        for word in words.filter(|word| !word.is_empty()) {
            let word = word.trim_end_matches('.');
            let unit_at = word
                .find(|letter: char| !matches!(letter, '0'..='9' | '.'))
                .unwrap_or(word.len());
            let (number, unit) = word.split_at(unit_at);
            if is_time(word) {
                said.time.get_or_insert_with(|| word.to_owned());
            } else if number.parse::<f64>().is_ok() {
                open.push(number);
                if !unit.is_empty() {
                    said.measure(&mut open, unit);
                }
            } else if matches!(word, "and" | "to" | "&" | "-") {
                // The unit stands behind the last number.
            } else {
                said.measure(&mut open, word);
                let named = species(word);
                // A `brown trout` is no trout of a kind that nobody named.
                if said.species.is_none() {
                    said.species = named;
                }
            }
        }
        said
    }

    /// Numbers that the word behind them makes lengths, or nothing.
    fn measure(&mut self, open: &mut Vec<&str>, unit: &str) {
        let numbers = std::mem::take(open);
        let Ok(resolved) = snell_units::resolve(unit) else {
            return;
        };
        if resolved.dimension != Dimension::LENGTH {
            return;
        }
        for number in numbers {
            if let Ok(figure) = number.parse() {
                let Quantity { si, .. } = resolved.quantity(figure);
                self.lengths.push(FishLength {
                    metres: si,
                    text: format!("{number} {unit}"),
                });
            }
        }
    }
}

fn is_time(word: &str) -> bool {
    let figure = |written: &str, most: u8| {
        (1..=2).contains(&written.len()) && written.parse::<u8>().is_ok_and(|figure| figure < most)
    };
    word.split_once(':')
        .is_some_and(|(hour, minute)| minute.len() == 2 && figure(hour, 24) && figure(minute, 60))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_fish_they_were_how_long_and_when_is_read() {
        let told = |words| {
            let said = Said::of(words);
            let lengths: Vec<String> = said.lengths.into_iter().map(|length| length.text).collect();
            (
                said.species.unwrap_or_default(),
                lengths.join(", "),
                said.time.unwrap_or_default(),
            )
        };
        let tuple = |one: &'static str, two: &str, three: &str| (one, two.to_owned(), three.to_owned());
        assert_eq!(
            told("grayling, 31 and 34 cm, at 10:40"),
            tuple("grayling", "31 cm, 34 cm", "10:40")
        );
        assert_eq!(told("brown trout 12in"), tuple("brown trout", "12 in", ""));
        assert_eq!(told("two browns"), tuple("brown trout", "", ""));
        // Numbers of other things are no lengths, and neither is what is no number.
        assert_eq!(told("at the 2nd stone, 5 casts, 25:00"), tuple("", "", ""));
        assert_eq!(told("1.2.3 cm, 4 stones"), tuple("", "", ""));
    }
}
