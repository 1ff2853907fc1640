//! The one way to standard output and standard error. Nothing that a file, a
//! path or a repository says can steer the terminal by it.
//!
//! Text for people passes through a filter: of the control characters only line
//! ends, tabs and, where there is colour, colours get through. What is written
//! for another program goes out as it is, unless a terminal stands there.

use crate::terminal::{Colour, Stream, Terminal};
use std::io::{self, BufWriter, IsTerminal, Stderr, Stdout, Write, stderr, stdout};

/// Stands for what would have steered the terminal.
const REPLACED: &str = "\u{FFFD}";

/// Standard output or standard error, for people.
pub struct Screen<W: Write> {
    to: W,
    /// Whether colours may pass.
    colour: bool,
    terminal: bool,
    /// Whether signs of ours are written in ASCII, for a place that knows no other letters.
    ascii: bool,
    /// The beginning of a character or a colour, whose end is not written yet.
    begun: Vec<u8>,
}

/// Standard output.
pub type StandardOutput = Screen<BufWriter<Stdout>>;
/// Standard error.
pub type StandardError = Screen<Stderr>;

impl StandardOutput {
    /// Standard output.
    pub fn stdout(colour: Colour) -> Self {
        let terminal = stdout().is_terminal();
        Self::of(
            BufWriter::with_capacity(1 << 16, stdout()),
            Terminal::of(Stream::Out, colour),
            terminal,
        )
    }
}

impl StandardError {
    /// Standard error.
    pub fn stderr(colour: Colour) -> Self {
        Self::of(
            stderr(),
            Terminal::of(Stream::Err, colour),
            stderr().is_terminal(),
        )
    }
}

impl<W: Write> Screen<W> {
    fn of(to: W, shows: Terminal, terminal: bool) -> Self {
        Self {
            ascii: !shows.unicode,
            ..Self::new(to, shows.colour, terminal)
        }
    }

    fn new(to: W, colour: bool, terminal: bool) -> Self {
        Self {
            to,
            colour,
            ascii: false,
            terminal,
            begun: Vec::new(),
        }
    }

    /// For another program: JSON, SVG, a text that was asked for as it is.
    pub fn machine(&mut self) -> Machine<'_, W> {
        Machine(self)
    }

    /// For people, with letters as they are: a difference that is applied, a line that names a file.
    pub fn verbatim(&mut self) -> Verbatim<'_, W> {
        Verbatim(self)
    }

    fn show(&mut self, text: &str, shown: &mut String) {
        let mut rest = text;
        loop {
            // Most of a text is plain, and passes as it is.
            let plain = rest
                .bytes()
                .take_while(|byte| matches!(byte, b' '..=b'~' | b'\n'))
                .count();
            shown.push_str(&rest[..plain]);
            rest = &rest[plain..];
            let Some(letter) = rest.chars().next() else { return };
            let passes = match letter {
                '\t' => 1,
                '\r' if rest.starts_with("\r\n") => 2,
                '\u{1b}' => self.colour.then(|| colour(rest)).flatten().unwrap_or(0),
                letter if steers(letter) => 0,
                letter => letter.len_utf8(),
            };
            if self.ascii
                && !letter.is_ascii()
                && let Some((sign, instead)) = in_ascii(rest)
            {
                shown.push_str(instead);
                rest = &rest[sign..];
                continue;
            }
            if passes == 0 {
                shown.push_str(REPLACED);
            } else {
                shown.push_str(&rest[..passes]);
            }
            rest = &rest[passes.max(letter.len_utf8())..];
        }
    }
}

/// What stands for a sign of ours among ASCII, as wide as it where there is a blank behind it; and how many bytes it
/// stands for.
fn in_ascii(text: &str) -> Option<(usize, &'static str)> {
    const SIGNS: [(&str, &str); 12] = [
        ("± ", "+-"),
        ("±", "+-"),
        ("→ ", "->"),
        ("→", ">"),
        ("·", "|"),
        ("×", "x"),
        ("−", "-"),
        ("—", "-"),
        ("–", "-"),
        ("…", "."),
        ("≈", "~"),
        ("²", "2"),
    ];
    let (sign, instead) = SIGNS.into_iter().find(|(sign, _)| text.starts_with(sign))?;
    Some((sign.len(), instead))
}

/// Whether a character steers a terminal: a control character, or one that turns the reading direction.
pub fn steers(letter: char) -> bool {
    letter.is_control()
        || matches!(letter, '\u{202A}'..='\u{202E}' | '\u{2066}'..='\u{2069}' | '\u{200E}' | '\u{200F}' | '\u{61C}')
}

/// The length of the colour that a text begins with. Source: ECMA-48, Select Graphic Rendition. Blinking and
/// concealing are no colours.
fn colour(text: &str) -> Option<usize> {
    let inner = text.strip_prefix("\u{1b}[")?;
    let end = inner.find(|letter: char| !letter.is_ascii_digit() && letter != ';')?;
    if !inner[end..].starts_with('m') {
        return None;
    }
    let mut figures = inner[..end].split(';');
    while let Some(figure) = figures.next() {
        match figure {
            "5" | "6" | "8" => return None,
            "38" | "48" => {
                let count = if figures.next() == Some("2") { 3 } else { 1 };
                figures.by_ref().take(count).for_each(drop);
            }
            _ => {}
        }
    }
    Some("\u{1b}[".len() + end + "m".len())
}

/// Where a text ends for now: before a character or a colour that is only begun.
fn whole(bytes: &[u8]) -> usize {
    /// No colour of ours is longer.
    const LONGEST: usize = 24;
    let tail = bytes.len().saturating_sub(LONGEST);
    let open = bytes[tail..]
        .iter()
        .rposition(|byte| *byte == 0x1b)
        .map(|at| tail + at);
    if let Some(open) = open
        && bytes[open + 1..]
            .iter()
            .all(|byte| byte.is_ascii_digit() || b"[;".contains(byte))
    {
        return open;
    }
    match std::str::from_utf8(bytes) {
        Err(error) if error.error_len().is_none() => error.valid_up_to(),
        _ if bytes.ends_with(b"\r") => bytes.len() - 1,
        _ => bytes.len(),
    }
}

impl<W: Write> Write for Screen<W> {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        let plain = |byte: &u8| matches!(byte, b' '..=b'~' | b'\n');
        if self.begun.is_empty() && bytes.iter().all(plain) {
            self.to.write_all(bytes)?;
            return Ok(bytes.len());
        }
        let mut all = std::mem::take(&mut self.begun);
        all.extend_from_slice(bytes);
        self.begun = all.split_off(whole(&all));
        let mut shown = String::with_capacity(all.len());
        self.show(&String::from_utf8_lossy(&all), &mut shown);
        self.to.write_all(shown.as_bytes())?;
        Ok(bytes.len())
    }

    fn flush(&mut self) -> io::Result<()> {
        let begun = std::mem::take(&mut self.begun);
        let mut shown = String::new();
        self.show(&String::from_utf8_lossy(&begun), &mut shown);
        self.to.write_all(shown.as_bytes())?;
        self.to.flush()
    }
}

/// Standard output with letters as they are.
pub struct Verbatim<'s, W: Write>(&'s mut Screen<W>);

impl<W: Write> Write for Verbatim<'_, W> {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        let ascii = std::mem::replace(&mut self.0.ascii, false);
        let wrote = self.0.write(bytes);
        self.0.ascii = ascii;
        wrote
    }

    fn flush(&mut self) -> io::Result<()> {
        self.0.flush()
    }
}

/// Standard output, for another program.
pub struct Machine<'s, W: Write>(&'s mut Screen<W>);

impl<W: Write> Write for Machine<'_, W> {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        if self.0.terminal {
            self.0.write(bytes)
        } else {
            self.0.to.write(bytes)
        }
    }

    fn flush(&mut self) -> io::Result<()> {
        self.0.flush()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn shown(colour: bool, pieces: &[&[u8]]) -> String {
        let mut screen = Screen::new(Vec::new(), colour, false);
        for piece in pieces {
            screen.write_all(piece).expect("a Vec takes all");
        }
        screen.flush().expect("a Vec takes all");
        String::from_utf8(screen.to).expect("it is text")
    }

    #[test]
    fn colours_pass_and_nothing_else_that_steers() {
        let red = "\u{1b}[31mred\u{1b}[0m, \u{1b}[38;2;1;8;5mfine\u{1b}[39m\r\n\tgrün";
        assert_eq!(shown(true, &[red.as_bytes()]), red);
        for steers in [
            "\u{1b}[2J",
            "\u{1b}]0;title\u{7}",
            "\u{1b}[8m",
            "\u{1b}[1;5m",
            "\r",
            "\u{9b}31m",
            "\u{202e}",
            "\u{8}",
            "\u{1b}",
            "\u{1b}[31",
        ] {
            let told = shown(true, &[format!("a{steers}").as_bytes()]);
            assert!(told.starts_with("a\u{FFFD}"), "{steers:?}: {told:?}");
        }
        assert_eq!(shown(false, &["\u{1b}[31mx".as_bytes()]), "\u{FFFD}[31mx");
    }

    #[test]
    fn signs_are_written_in_ascii_where_there_is_nothing_else() {
        let mut screen = Screen::new(Vec::new(), false, false);
        screen.ascii = true;
        let told = "10 in ± 3 in · stream → 2 ft/s — 漁";
        screen.write_all(told.as_bytes()).expect("a Vec takes all");
        screen
            .verbatim()
            .write_all("±".as_bytes())
            .expect("a Vec takes all");
        let shown = String::from_utf8(screen.to).expect("it is text");
        assert_eq!(shown, "10 in +-3 in | stream ->2 ft/s - 漁±");
    }

    proptest! {
        #[test]
        fn it_is_the_same_in_pieces(text in "([a-c\u{1b}\\[;0-9m\r\n]|ü|\u{202e}){0,40}", cut in 0usize..80) {
            let bytes = text.as_bytes();
            let (one, other) = bytes.split_at(cut.min(bytes.len()));
            prop_assert_eq!(shown(true, &[one, other]), shown(true, &[bytes]));
        }

        #[test]
        fn nothing_steers(bytes in proptest::collection::vec(any::<u8>(), 0..200)) {
            let told = shown(false, &[&bytes]);
            prop_assert!(!told.chars().any(|letter| steers(letter) && !"\n\t\r".contains(letter)));
        }

        #[test]
        fn another_program_gets_every_byte(bytes in proptest::collection::vec(any::<u8>(), 0..200)) {
            let mut screen = Screen::new(Vec::new(), true, false);
            screen.machine().write_all(&bytes).expect("a Vec takes all");
            prop_assert_eq!(screen.to, bytes);
        }
    }
}
