//! What is cut, taken off the `left` lines of the spools: only the number of a
//! line changes, in the unit that it is written in.

use super::spools::Used;
use snell_analysis::Notebook;
use snell_rig::World;
use snell_rig::value::Value;
use snell_text::Place;
use snell_text::Span;
use snell_units::{Dimension, Quantity, Resolved};
use std::collections::BTreeMap;
use std::path::PathBuf;

/// Why nothing is taken.
#[derive(Clone, Debug, thiserror::Error, PartialEq, Eq)]
pub enum Untakable {
    /// A rig could not be read in full, or a piece has no length.
    #[error("not all lengths are known; `snell check` says what is wrong")]
    Open,
    /// There is no spool with a `left` line.
    #[error("no piece is cut from a spool that says how much is `left`")]
    NoLeft,
    /// There is too little.
    #[error("the spool `{spool}` has {left} left, and {takes} are wanted")]
    Short {
        /// The spool.
        spool: String,
        /// What is on it.
        left: String,
        /// What is wanted of it.
        takes: String,
    },
    /// What is left is not one plain length.
    #[error("the `left` of the spool `{0}` is not written as one plain length")]
    NotPlain(String),
}

/// The edits that lower every `left`, by file; nothing is taken unless all of it can be.
pub(super) fn take(
    notebook: &Notebook,
    world: &World<'_>,
    used: &[Used],
    open: bool,
) -> Result<Vec<Taking>, Untakable> {
    if open {
        return Err(Untakable::Open);
    }
    // Spools made from one another share a line; what is taken from it is taken together.
    let mut lines: BTreeMap<Place, (String, Value, f64)> = BTreeMap::new();
    for one in used {
        let (Some(id), Some(left)) = (one.spool, one.left(world)) else {
            continue;
        };
        let name = world.name(id).to_owned();
        let place = place_of(&left).ok_or_else(|| Untakable::NotPlain(name.clone()))?;
        lines.entry(place).or_insert((name, left, 0.0)).2 += one.metres;
    }
    if lines.is_empty() {
        return Err(Untakable::NoLeft);
    }
    let mut files: Vec<(snell_text::TextId, Taking)> = Vec::new();
    for (place, (name, left, metres)) in lines {
        let document = notebook
            .document(place.text)
            .ok_or_else(|| Untakable::NotPlain(name.clone()))?;
        let written = place.span.of(&document.text);
        if left.si() + 1e-9 < metres {
            let system = left.system.unwrap_or(snell_units::System::Metric);
            return Err(Untakable::Short {
                spool: name,
                left: left.written(),
                takes: snell_units::write(Quantity::new(metres, Dimension::LENGTH), system),
            });
        }
        let new = lowered(written, &left, left.si() - metres).ok_or(Untakable::NotPlain(name))?;
        match files.iter_mut().find(|(text, _)| *text == place.text) {
            Some((_, taking)) => taking.edits.push((place.span, new)),
            None => files.push((
                place.text,
                Taking {
                    path: document.path.clone(),
                    text: document.text.clone(),
                    edits: vec![(place.span, new)],
                },
            )),
        }
    }
    Ok(files.into_iter().map(|(_, taking)| taking).collect())
}

/// Where a length is written, if it is one that stands alone.
fn place_of(value: &Value) -> Option<Place> {
    let mut causes = value.causes.iter();
    let cause = causes.next().filter(|_| causes.next().is_none())?;
    (cause.part == value.quantity && cause.ends.is_none()).then_some(cause.place)
}

/// A written length with another number before its unit. One in two steps, as `12 ft 6 in`, is written in
/// the unit of the first.
fn lowered(written: &str, value: &Value, metres: f64) -> Option<String> {
    let metres = metres.max(0.0);
    let number = written.trim_end_matches(|letter: char| !letter.is_ascii_digit() && !is_vulgar(letter));
    let behind = &written[number.len()..];
    let quantity = Quantity::new(metres, Dimension::LENGTH);
    let one_step = !number
        .contains(|letter: char| letter.is_alphabetic() || matches!(letter, '\'' | '\u{2032}' | '\u{2019}'));
    if let Ok(unit) = snell_units::resolve(behind.trim())
        && one_step
    {
        return Some(format!("{}{behind}", in_unit(quantity, &unit)));
    }
    let unit = match value.unit {
        Some(unit) => Resolved::from(unit),
        None => snell_units::resolve("ft").ok()?,
    };
    Some(format!("{} {}", in_unit(quantity, &unit), unit.plain))
}

const fn is_vulgar(letter: char) -> bool {
    matches!(letter, '½' | '¼' | '¾' | '\u{2150}'..='\u{215e}')
}

/// The number in a unit, to about a millimetre.
fn in_unit(quantity: Quantity, unit: &Resolved) -> String {
    let one = Resolved::number(unit, Quantity::new(0.001, Dimension::LENGTH));
    let places = (-one.log10()).ceil().clamp(0.0, 6.0) as usize;
    let text = format!("{:.places$}", unit.number(quantity));
    if text.contains('.') {
        text.trim_end_matches('0').trim_end_matches('.').to_owned()
    } else {
        text
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn metres(written: f64) -> Value {
        Value::plain(written, Dimension::LENGTH)
    }

    #[test]
    fn only_the_number_changes() {
        assert_eq!(
            lowered("17 m", &metres(17.0), 15.674).as_deref(),
            Some("15.674 m")
        );
        assert_eq!(lowered("17m", &metres(17.0), 15.5).as_deref(), Some("15.5m"));
        assert_eq!(
            lowered("1700 cm", &metres(17.0), 15.674).as_deref(),
            Some("1567.4 cm")
        );
        assert_eq!(
            lowered("50 feet", &metres(15.24), 12.192).as_deref(),
            Some("40 feet")
        );
        assert_eq!(lowered("7½ yd", &metres(6.858), 4.572).as_deref(), Some("5 yd"));
        assert_eq!(
            lowered("12 ft 6 in", &metres(3.81), 3.048).as_deref(),
            Some("10 ft")
        );
        assert_eq!(lowered("9 m", &metres(9.0), -1e-12).as_deref(), Some("0 m"));
    }
}

/// The edits of one file.
#[derive(Debug)]
pub struct Taking {
    /// The file.
    pub path: PathBuf,
    /// Its text as it was read.
    pub text: std::sync::Arc<str>,
    /// What takes the place of which span.
    pub edits: Vec<(Span, String)>,
}
