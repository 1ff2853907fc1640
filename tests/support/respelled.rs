//! A notebook written in other ways that mean the same: what phones, word
//! processors, mail and other countries do to a text.
//!
//! It works on the plain form that the examples are in: no inch marks, and no
//! quotes in comments.

/// A way of writing.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Manner {
    /// Lines end in carriage return and line feed.
    CarriageReturns,
    /// A byte-order mark stands in front.
    ByteOrderMark,
    /// Tabs stand for spaces.
    Tabs,
    /// Quotes are curly.
    CurlyQuotes,
    /// Spaces do not break.
    NoBreakSpaces,
    /// All but texts and comments is in capitals.
    Capitals,
    /// Decimal points are commas.
    DecimalCommas,
    /// Halves and quarters, minus and times have signs of their own.
    Signs,
    /// A full stop ends every line of values.
    FullStops,
    /// No line is indented.
    LostIndent,
}

/// Every manner.
pub const MANNERS: [Manner; 10] = [
    Manner::CarriageReturns,
    Manner::ByteOrderMark,
    Manner::Tabs,
    Manner::CurlyQuotes,
    Manner::NoBreakSpaces,
    Manner::Capitals,
    Manner::DecimalCommas,
    Manner::Signs,
    Manner::FullStops,
    Manner::LostIndent,
];

/// `text` in all of `manners` together.
pub fn respelled(text: &str, manners: &[Manner]) -> String {
    let has = |manner| manners.contains(&manner);
    let mut made = String::new();
    if has(Manner::ByteOrderMark) {
        made.push('\u{FEFF}');
    }
    for line in text.lines() {
        let (code, quoted, comment) = parts(line);
        made.push_str(&words(code, quoted.is_empty() && comment.is_empty(), manners));
        if has(Manner::CurlyQuotes) && !quoted.is_empty() {
            made.push('“');
            made.push_str(&quoted[1..quoted.len() - 1]);
            made.push('”');
        } else {
            made.push_str(quoted);
        }
        made.push_str(comment);
        made.push_str(if has(Manner::CarriageReturns) {
            "\r\n"
        } else {
            "\n"
        });
    }
    made
}

/// A line's words, its text with quotes, and its comment with the space before it.
fn parts(line: &str) -> (&str, &str, &str) {
    let comment_at = line.find("//").unwrap_or(line.len());
    match (line.find('"'), line.rfind('"')) {
        (Some(first), Some(last)) if first < comment_at => {
            (&line[..first], &line[first..=last], &line[last + 1..])
        }
        _ => {
            let code = line[..comment_at].trim_end();
            (code, "", &line[code.len()..])
        }
    }
}

fn words(code: &str, alone: bool, manners: &[Manner]) -> String {
    let has = |manner| manners.contains(&manner);
    let mut words = code.to_owned();
    if has(Manner::LostIndent) {
        words = words.trim_start().to_owned();
    }
    if has(Manner::Signs) {
        words = words
            .replace(" 1/2", "½")
            .replace(" - ", " − ")
            .replace(" times ", " × ");
    }
    if has(Manner::DecimalCommas) {
        words = with_commas(&words);
    }
    if has(Manner::Capitals) {
        words = words.to_uppercase();
    }
    if has(Manner::FullStops) && alone && !words.trim().is_empty() {
        words.push('.');
    }
    match (has(Manner::Tabs), has(Manner::NoBreakSpaces)) {
        (true, true) => by_turns(&words),
        (true, false) => words
            .split(' ')
            .filter(|word| !word.is_empty())
            .fold(margin(&words), |line, word| line + word + "\t"),
        (false, true) => words.replace(' ', "\u{A0}"),
        (false, false) => words,
    }
}

/// A tab where a line is indented.
fn margin(words: &str) -> String {
    if words.starts_with(' ') {
        "\t".to_owned()
    } else {
        String::new()
    }
}

/// Every space a tab and a no-break space by turns.
fn by_turns(words: &str) -> String {
    let mut turn = false;
    let other = |letter: char| {
        turn ^= letter == ' ';
        match (letter, turn) {
            (' ', true) => '\t',
            (' ', false) => '\u{A0}',
            _ => letter,
        }
    };
    words.chars().map(other).collect()
}

/// Points between digits as commas.
fn with_commas(words: &str) -> String {
    let letters: Vec<char> = words.chars().collect();
    let digit = |at: Option<&char>| at.is_some_and(char::is_ascii_digit);
    let comma = |(at, letter): (usize, &char)| {
        let between = at > 0 && digit(letters.get(at - 1)) && digit(letters.get(at + 1));
        if *letter == '.' && between { ',' } else { *letter }
    };
    letters.iter().enumerate().map(comma).collect()
}
