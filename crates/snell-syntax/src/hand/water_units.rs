//! What is told of a water by words in place of signs: `2 feet per second`, `a foot a second`, `48 degrees`.

use super::reader::Reader;

/// What a speed is told by in words, and the unit that it stands for.
const PER: &[(&[&str], &str)] = &[(&["second", "sec", "s"], "s"), (&["hour", "hr", "h"], "h")];

impl Reader<'_> {
    /// `per second`, `an hour`: the unit of time that stands two words from so far ahead on.
    pub(super) fn per(&self, ahead: usize) -> Option<&'static str> {
        self.word(ahead)
            .filter(|word| matches!(&**word, "per" | "a" | "an"))?;
        let below = self.word(ahead + 1)?;
        let (_, unit) = PER.iter().find(|(words, _)| words.contains(&&*below))?;
        Some(unit)
    }
}

/// Above this, in degrees, only Fahrenheit can be meant: at 0 °C water freezes, which is 32 °F.
const FREEZES: f64 = 32.0;
/// Up to this only Celsius can be: nothing is fished for in water that is frozen. Source: common practice, no source.
const WARMEST: f64 = 30.0;

/// The scale of a water of which only degrees are told; nothing where it may be either.
pub(super) fn degrees_of_water(value: f64) -> Option<&'static str> {
    if value > FREEZES {
        Some("°F")
    } else {
        (0.0..=WARMEST).contains(&value).then_some("°C")
    }
}
