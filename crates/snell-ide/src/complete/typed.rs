//! The words of a half-typed line, as far as the cursor.
//!
//! It knows no table and no name.

/// Whether the cursor stands in a comment or a text, where nothing is offered.
pub(super) fn in_comment_or_text(before: &str) -> bool {
    let mut quoted = false;
    let mut last = ' ';
    for c in before.chars() {
        match c {
            // Behind a digit it is an inch mark.
            '"' if !last.is_ascii_digit() => quoted = !quoted,
            '“' | '„' | '«' => quoted = true,
            '”' | '»' => quoted = false,
            '/' if last == '/' && !quoted => return true,
            _ => {}
        }
        last = c;
    }
    quoted
}

/// The words of a line before the cursor.
pub(super) struct Typed<'t> {
    /// Whether the line is indented.
    pub(super) indented: bool,
    /// Whole words, in order.
    pub(super) words: Vec<&'t str>,
    /// The word that is being typed; empty behind a space.
    pub(super) half: &'t str,
    /// The dotted name before the half-typed word: `gap` of `gap.le`.
    pub(super) owner: Option<&'t str>,
}

impl<'t> Typed<'t> {
    pub(super) fn of(before: &'t str) -> Self {
        let half_start = before
            .char_indices()
            .rev()
            .take_while(|(_, c)| c.is_alphanumeric() || *c == '-')
            .last()
            .map_or(before.len(), |(at, _)| at);
        let (mut rest, mut half) = before.split_at(half_start);
        // `20i`: the letters behind a number are a unit.
        let digits = half.len() - half.trim_start_matches(|c: char| c.is_ascii_digit()).len();
        if digits > 0 {
            (rest, half) = before.split_at(half_start + digits);
        }
        let owner = rest.strip_suffix('.').and_then(|rest| {
            rest.rsplit(|c: char| !(c.is_alphanumeric() || c == '-' || c == '.'))
                .next()
                .filter(|owner| owner.starts_with(char::is_alphabetic))
        });
        Self {
            indented: before.starts_with([' ', '\t', '\u{A0}']),
            words: rest
                .split(|c: char| c.is_whitespace() || c == ',' || c == '(')
                .filter(|word| !word.is_empty())
                .collect(),
            half,
            owner,
        }
    }

    pub(super) fn word(&self, index: usize) -> String {
        self.words
            .get(index)
            .map(|word| word.to_lowercase())
            .unwrap_or_default()
    }
}
