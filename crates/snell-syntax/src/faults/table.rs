//! The names of the faults of reading, each with its explanation.
//!
//! What is said at a fault's place is written where the fault is found; here
//! stands what a person who asks for the name should know.

/// Every fault of reading with what it means, by name.
pub const FAULTS: &[(&str, &str)] = &[
    (
        "and-in-condition",
        "A condition line holds one condition. Where two must hold, write two lines.",
    ),
    (
        "call-apart",
        "What min and max choose from stands in parentheses right behind them: min(1 ft, 2 ft).",
    ),
    (
        "character-unknown",
        "The character means nothing in a rig file outside of a text in quotes.",
    ),
    (
        "colon-misplaced",
        "A key and its values stand side by side, without a colon: length 10 ft.",
    ),
    (
        "comma-misplaced",
        "A comma stands between two values and nowhere else; it may always be left out.",
    ),
    (
        "comparison-in-signs",
        "Comparisons are written in words: at least, at most, over, under.",
    ),
    (
        "condition-unfinished",
        "A condition breaks off before it says what must hold.",
    ),
    (
        "equals-misplaced",
        "Only let and limit take an equals sign, behind the name: let low = 2 ft.",
    ),
    (
        "faults-left-out",
        "A text with very many broken lines shows only the first of them.",
    ),
    (
        "full-stop-inside",
        "A full stop may end a line but not stand inside one; units are written without it.",
    ),
    (
        "inch-mark-missing",
        "Feet and inches in marks need both marks: 3'8\".",
    ),
    (
        "key-missing",
        "A line begins with a word that says what it is about: tippet, length, hook.",
    ),
    (
        "line-too-long",
        "Lines longer than the limit are not read, so that no file can stall the reader.",
    ),
    (
        "line-unreadable",
        "The line cannot be read from the marked place on, and no common slip explains it.",
    ),
    (
        "name-missing",
        "A let or limit line gives a name to a value; a name begins with a letter.",
    ),
    (
        "nested-too-deep",
        "Parentheses stand in each other deeper than anything on a rig needs.",
    ),
    (
        "number-malformed",
        "A number has one decimal point or comma, or is a fraction: 1.5, 1,5, 3/4, 7 1/2.",
    ),
    (
        "number-negative",
        "There are no negative numbers; nothing on a rig is less than nothing.",
    ),
    (
        "number-over-zero",
        "A fraction has a number other than 0 below its line.",
    ),
    (
        "number-too-large",
        "A number with so many digits is a slip of the keyboard.",
    ),
    ("operator-dangling", "+ - / and times stand between two values."),
    (
        "operator-missing",
        "Two values that stick together are not multiplied; times says so.",
    ),
    (
        "or-in-condition",
        "or stands only between words behind is: method is dry or team.",
    ),
    (
        "parenthesis-closed",
        "A closing parenthesis needs an opening one before it.",
    ),
    ("parenthesis-empty", "Parentheses hold at least one value."),
    (
        "parenthesis-open",
        "An opening parenthesis needs a closing one behind it, on the same line.",
    ),
    (
        "quote-open",
        "A text ends with a quote, on the line that it began on.",
    ),
    ("size-apart", "The # of a size stands close to its number: #14."),
    (
        "size-glued",
        "A size ends where a space stands: #14 jig, 6X fluoro.",
    ),
    (
        "size-unfinished",
        "A # opens a size and needs a number: #14, #2/0.",
    ),
    (
        "spaces-around-minus",
        "A minus stands between spaces, or it would be a hyphen in a name: depth - 20 in.",
    ),
    ("spaces-around-plus", "A plus stands between spaces: 2 ft + 3 in."),
    (
        "spaces-around-slash",
        "A division sign stands between spaces; close, it makes fractions and units: 5/64, ft/s.",
    ),
    (
        "spread-unclear",
        "A spread has two ends; with units on both it is written with to: 2 ft to 3 ft.",
    ),
    (
        "text-misplaced",
        "Conditions, let, limit and change lines take values, no text.",
    ),
    (
        "text-not-last",
        "A text ends its line; what belongs to the line stands before it.",
    ),
    (
        "text-overfull",
        "A text has more blocks or lines than any notebook needs; the rest of it is not read.",
    ),
    (
        "title-before-from",
        "In the line that opens a block, from and the base stand before the title.",
    ),
    ("unit-glued", "A unit ends where a space stands: 20 in long."),
    ("value-extra", "The line is complete, yet another value follows."),
    ("value-missing", "Something is announced, and nothing follows."),
    (
        "word-kept",
        "A few small words join the parts of a line (of, to, with, from, is ...) and cannot be names.",
    ),
    ("word-misplaced", "A joining word stands where it joins nothing."),
];

/// Whether a fault of that name is in the table.
pub(super) fn knows(name: &str) -> bool {
    FAULTS.iter().any(|(known, _)| *known == name)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_are_plain_words_in_order() {
        assert!(FAULTS.is_sorted_by(|one, next| one.0 < next.0));
        for (name, explained) in FAULTS {
            assert!(
                name.bytes().all(|byte| byte == b'-' || byte.is_ascii_lowercase()),
                "{name}"
            );
            assert!(explained.ends_with('.'), "{name}");
        }
    }
}
