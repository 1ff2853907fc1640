//! Ways out of a finding, as edits of texts.

use snell_text::{Place, Span};

/// New words for one place.
#[derive(Clone, PartialEq, Eq, Debug, Hash, PartialOrd, Ord)]
pub struct Edit {
    /// What goes; empty where words are only put in.
    pub place: Place,
    /// What comes.
    pub new: String,
}

/// A way out of a finding.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Fix {
    /// What it does, in a few words.
    pub title: String,
    /// Whether it may be taken unasked: it can only mean what was meant.
    pub sure: bool,
    /// The edits, none overlapping another.
    pub edits: Vec<Edit>,
}

impl Fix {
    /// A fix that may be taken unasked.
    pub fn sure(title: impl Into<String>, place: Place, new: impl Into<String>) -> Self {
        Self::one(title, true, place, new)
    }

    /// A fix that the writer should choose.
    pub fn offered(title: impl Into<String>, place: Place, new: impl Into<String>) -> Self {
        Self::one(title, false, place, new)
    }

    fn one(title: impl Into<String>, sure: bool, place: Place, new: impl Into<String>) -> Self {
        let new = new.into();
        Self {
            title: title.into(),
            sure,
            edits: vec![Edit { place, new }],
        }
    }
}

/// `text` with `edits` made; an edit that overlaps an earlier one is left out.
pub fn apply(text: &str, edits: impl IntoIterator<Item = (Span, String)>) -> String {
    let mut edits: Vec<_> = edits.into_iter().collect();
    edits.sort_by_cached_key(|(span, _)| *span);
    let mut made = String::with_capacity(text.len());
    let mut at = 0;
    for (span, new) in edits {
        if span.start < at {
            continue;
        }
        made.push_str(Span::new(at, span.start).of(text));
        made.push_str(&new);
        at = span.end;
    }
    made.push_str(&text[at as usize..]);
    made
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn edits_are_made_in_order_and_never_twice() {
        let edit = |start, end, new: &str| (Span::new(start, end), new.to_owned());
        assert_eq!(apply("hook 14", [edit(5, 5, "#")]), "hook #14");
        assert_eq!(
            apply("abcdef", [edit(4, 5, "x"), edit(0, 2, ""), edit(1, 3, "y")]),
            "cdxf"
        );
    }
}
