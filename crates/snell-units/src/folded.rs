//! A written unit brought to the one spelling that tables are keyed by.
//!
//! Case, curly marks, raised powers and degree signs are evened out. Which
//! words are units is not known here.

/// A word as the table is keyed: small letters, straight marks, plain powers.
/// It lives on the stack, since units are looked up for every line of a file.
pub(crate) struct Folded {
    bytes: [u8; Self::ROOM],
    length: usize,
}

impl Folded {
    /// Holds the longest product of the table's words.
    pub const ROOM: usize = 32;

    /// `None` for a word too long to be a unit.
    pub fn new(word: &str) -> Option<Self> {
        let mut folded = Self {
            bytes: [0; Self::ROOM],
            length: 0,
        };
        let mut after_degree = false;
        for letter in word.chars() {
            if after_degree && is_space(letter) {
                continue;
            }
            let letter = plain_letter(letter);
            after_degree = letter == '°';
            let end = folded.length + letter.len_utf8();
            letter.encode_utf8(folded.bytes.get_mut(folded.length..end)?);
            folded.length = end;
        }
        Some(folded)
    }

    pub fn as_str(&self) -> &str {
        // Only whole characters were written, so this never falls back.
        std::str::from_utf8(&self.bytes[..self.length]).unwrap_or_default()
    }
}

/// `° C` is written with a space as often as without, and the space may be
/// one without width.
fn is_space(letter: char) -> bool {
    letter.is_whitespace() || matches!(letter, '\u{200b}' | '\u{feff}')
}

fn plain_letter(letter: char) -> char {
    match letter {
        '²' => '2',
        '³' => '3',
        '′' | '’' | '‘' => '\'',
        '″' | '”' | '“' => '"',
        'º' => '°',
        other => other.to_ascii_lowercase(),
    }
}
