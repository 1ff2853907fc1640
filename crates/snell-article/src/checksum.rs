//! The checksum of a filling: a sum over what was put in, which stands in its end
//! marker, `<!-- rig: end 5d2f08c1 -->`.
//!
//! Where the sum fits, all that stands there is snell's own, and may be written
//! anew. Where it does not, somebody wrote there, and it is kept. What programs
//! that lay out Markdown change does not count: spaces, line ends, the margin of
//! a quote, the length of a rule.

use std::fmt::Write;

/// Who wrote what stands between two markers.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Author {
    /// Nothing stands there.
    Nobody,
    /// The checksum fits.
    Snell,
    /// The checksum does not fit: it was changed since it was filled.
    Somebody,
    /// There is no checksum: it was filled before there were any, or written by hand.
    Unknown,
}

impl Author {
    /// Of a text, by the checksum in its end marker.
    pub(crate) fn of(inside: &str, written: Option<&str>) -> Self {
        let plain = plain(inside);
        match written {
            _ if plain.is_empty() => Self::Nobody,
            None => Self::Unknown,
            Some(written) if written.eq_ignore_ascii_case(&sum(&plain)) => Self::Snell,
            Some(_) => Self::Somebody,
        }
    }
}

/// The checksum of a text.
pub fn checksum(text: &str) -> String {
    sum(&plain(text))
}

/// Whether two texts are the same to a checksum.
pub fn alike(one: &str, other: &str) -> bool {
    plain(one) == plain(other)
}

fn sum(plain: &str) -> String {
    let mut written = String::with_capacity(8);
    // Writing into a string cannot fail.
    let _ = write!(written, "{:08x}", crc32fast::hash(plain.as_bytes()));
    written
}

/// The words of a text, without what laying it out changes.
fn plain(text: &str) -> String {
    let mut plain = String::with_capacity(text.len());
    for line in text.lines() {
        let own = line.trim_start_matches([' ', '\t', '>']);
        for word in own.split_whitespace() {
            if !plain.is_empty() {
                plain.push(' ');
            }
            match word.trim_matches(['-', ':']) {
                "" if word.contains("--") => {
                    plain.extend(word.chars().filter(|letter| *letter == ':').chain(['-']))
                }
                _ => plain.push_str(&unescaped(word)),
            }
        }
    }
    plain
}

/// A word as its reader sees it: `\\#14` is `#14`. Programs that hand a page over without its source know no more.
fn unescaped(word: &str) -> String {
    let mut letters = word.chars().peekable();
    let mut plain = String::with_capacity(word.len());
    while let Some(letter) = letters.next() {
        let escapes = letter == '\\' && letters.peek().is_some_and(char::is_ascii_punctuation);
        plain.push(if escapes {
            letters.next().unwrap_or(letter)
        } else {
            letter
        });
    }
    plain
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn laying_out_changes_nothing_and_a_word_does() {
        let table = "| part | length |\n| ---- | -----: |\n| butt | 10 m |\n";
        let laid_out = "\r\n> | part | length |\r\n> |  ---  |  --: |\r\n>  | butt |   10 m |";
        assert_eq!(checksum(table), checksum(laid_out));
        assert_ne!(checksum(table), checksum(&table.replace("10", "11")));
        assert_ne!(checksum(table), checksum(&format!("{table}\nmine")));
        assert_ne!(checksum("5 m"), checksum("5 m - mine"));
        assert_eq!(checksum("\\#14 a\\|b"), checksum("#14 a|b"));
    }

    #[test]
    fn who_wrote_it() {
        let fits = checksum("5 m");
        assert_eq!(Author::of(" \n> \n", Some(&fits)), Author::Nobody);
        assert_eq!(Author::of("5\n m", Some(&fits)), Author::Snell);
        assert_eq!(Author::of("5 m", Some(&fits.to_uppercase())), Author::Snell);
        assert_eq!(Author::of("6 m", Some(&fits)), Author::Somebody);
        assert_eq!(Author::of("5 m", Some("corrupt")), Author::Somebody);
        assert_eq!(Author::of("5 m", None), Author::Unknown);
    }
}
