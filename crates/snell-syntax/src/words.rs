//! Words and units in the one form in which they are compared.
//!
//! Equal words share one allocation, since a notebook says the same few
//! hundred words over and over. It doesn't know which words mean anything.

use crate::normal::composed;
use rustc_hash::FxHashMap;
use std::borrow::Cow;
use std::sync::Arc;

/// When more words than this are known, they are forgotten before the next text.
const MOST: usize = 1 << 16;

/// The words and units met so far, by the way they were written.
#[derive(Default)]
pub(crate) struct Words {
    folded: FxHashMap<Box<str>, Arc<str>>,
    units: FxHashMap<Box<str>, Arc<str>>,
}

impl Words {
    /// Forgets all words if they are too many. To be called between two texts.
    pub(crate) fn trim(&mut self) {
        if self.folded.len() + self.units.len() > MOST {
            *self = Self::default();
        }
    }

    /// A name or key in NFC and lower case, with plain hyphens.
    pub fn fold(&mut self, written: &str) -> Arc<str> {
        shared(&mut self.folded, written, fold)
    }

    /// A unit in plain form.
    pub(crate) fn unit(&mut self, written: &str) -> Arc<str> {
        shared(&mut self.units, written, plain_unit)
    }
}

fn shared<'a, S: Into<Arc<str>>>(
    known: &mut FxHashMap<Box<str>, Arc<str>>,
    written: &'a str,
    form: fn(&'a str) -> S,
) -> Arc<str> {
    if let Some(word) = known.get(written) {
        return Arc::clone(word);
    }
    let word: Arc<str> = form(written).into();
    known.insert(written.into(), Arc::clone(&word));
    word
}

/// `written` in NFC and lower case, with plain hyphens.
pub fn fold(written: &str) -> Cow<'_, str> {
    if written.is_ascii() {
        let is_lower = !written.bytes().any(|byte| byte.is_ascii_uppercase());
        return if is_lower {
            written.into()
        } else {
            written.to_ascii_lowercase().into()
        };
    }
    // Lowering may take a letter apart (İ), so it is put together once more.
    let lower: String = composed(written).chars().flat_map(char::to_lowercase).collect();
    composed(&lower).replace('\u{2011}', "-").into()
}

/// `'` and `"` for the marks, `C`, `F` or `deg` for degree signs, plain powers.
pub(crate) fn plain_unit(written: &str) -> Cow<'_, str> {
    if written.bytes().all(|byte| byte.is_ascii_alphabetic()) {
        return Cow::Borrowed(written);
    }
    Cow::Borrowed(match written {
        "\"" | "”" | "“" | "″" => "\"",
        "'" | "’" | "‘" | "′" => "'",
        _ if written.starts_with(['\'', '’', '‘', '′']) => "\"",
        _ if written.starts_with(['°', 'º']) => match written.chars().next_back() {
            Some('c' | 'C') => "C",
            Some('f' | 'F') => "F",
            _ => "deg",
        },
        _ => return Cow::Owned(written.replace('²', "2").replace('³', "3")),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_compare_without_case_and_composition() {
        assert_eq!(fold("Tippet"), "tippet");
        assert_eq!(fold("GRÖßE"), "größe");
        assert_eq!(fold("gro\u{308}ße"), "größe");
        assert_eq!(fold("off\u{2011}white"), "off-white");
        assert_eq!(fold("off\u{2011}white"), fold("Off-White"));
    }

    #[test]
    fn units_in_plain_form() {
        let cases = [
            ("mm", "mm"),
            ("''", "\""),
            ("′′", "\""),
            ("’", "'"),
            ("″", "\""),
            ("° C", "C"),
            ("ºf", "F"),
            ("°", "deg"),
            ("g/cm³", "g/cm3"),
            ("%", "%"),
            ("Meters", "Meters"),
        ];
        for (written, plain) in cases {
            assert_eq!(plain_unit(written), plain);
        }
    }
}
