//! A line of a sheet: a name and what is said of it.

/// A text with a word before it.
#[derive(Debug, PartialEq, Eq)]
pub struct Named {
    /// The word.
    pub name: String,
    /// The text.
    pub text: String,
}

pub(super) fn named(name: &str, text: &str) -> Named {
    Named {
        name: name.to_owned(),
        text: text.to_owned(),
    }
}
