//! What the place that text goes to can show: colour, line-drawing, width.
//!
//! Asked only when something is to be printed for people, since asking costs
//! time that a clean run need not spend. It knows nothing of what is printed.

use owo_colors::{OwoColorize, Style};
use std::env;
use std::io::{IsTerminal, stderr, stdout};

/// When to colour.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default, clap::ValueEnum)]
pub enum Colour {
    /// On a terminal, unless the environment has NO_COLOR.
    #[default]
    Auto,
    /// Always.
    Always,
    /// Never.
    Never,
}

/// Where text goes.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Stream {
    /// Standard output.
    Out,
    /// Standard error.
    Err,
}

/// How many colours a terminal has.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Palette {
    /// Sixteen, which its user chose.
    Sixteen,
    /// The cube and the greys of xterm, 256 in all.
    Cube,
    /// Any.
    Any,
}

/// What that place can show.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Terminal {
    /// Whether to colour.
    pub colour: bool,
    /// In how many colours.
    pub palette: Palette,
    /// Whether lines can be drawn with more than ASCII.
    pub unicode: bool,
    /// Its width in columns.
    pub width: usize,
}

/// The width where nothing tells it: what mail and a half screen hold.
const USUAL_WIDTH: usize = 80;
/// Less than this holds no word and its indent.
const LEAST_WIDTH: usize = 24;

impl Terminal {
    /// Asks the system and the environment.
    pub fn of(stream: Stream, colour: Colour) -> Self {
        Self {
            colour: colours(stream, colour),
            palette: palette(),
            unicode: draws_lines(),
            width: width(stream).max(LEAST_WIDTH),
        }
    }

    /// A file: no colour, any letter, the usual width.
    pub fn plain() -> Self {
        Self {
            colour: false,
            palette: Palette::Sixteen,
            unicode: true,
            width: USUAL_WIDTH,
        }
    }

    /// A text in a style, where there is colour.
    pub fn paint(&self, text: &str, style: Style) -> String {
        if self.colour && !text.is_empty() {
            text.style(style).to_string()
        } else {
            text.to_owned()
        }
    }

    /// Names and headings.
    pub fn strong(&self, text: &str) -> String {
        self.paint(text, Style::new().bold())
    }

    /// What is read second.
    pub fn quiet(&self, text: &str) -> String {
        self.paint(text, Style::new().dimmed())
    }

    /// What stands where a text is cut.
    pub fn ellipsis(&self) -> &'static str {
        if self.unicode { "…" } else { "..." }
    }
}

fn colours(stream: Stream, colour: Colour) -> bool {
    let set = |name| env::var_os(name).is_some_and(|value| !value.is_empty());
    match colour {
        Colour::Always => true,
        Colour::Never => false,
        Colour::Auto => {
            let terminal = match stream {
                Stream::Out => stdout().is_terminal(),
                Stream::Err => stderr().is_terminal(),
            };
            terminal && !set("NO_COLOR") && env::var_os("TERM").is_none_or(|term| term != "dumb") && steered()
        }
    }
}

/// Whether a terminal does what is written to it for its steering: a window of Windows does once it is asked to, if it can.
pub fn steered() -> bool {
    anstyle_query::windows::enable_ansi_colors() != Some(false)
}

/// By what terminals say of themselves. Source: common practice, no standard.
fn palette() -> Palette {
    let set = |name| env::var(name).unwrap_or_default().to_ascii_lowercase();
    let (colours, term) = (set("COLORTERM"), set("TERM"));
    if matches!(colours.as_str(), "truecolor" | "24bit") || term.ends_with("-direct") {
        Palette::Any
    } else if term.contains("256color") {
        Palette::Cube
    } else {
        Palette::Sixteen
    }
}

/// By the locale, as the C library chooses it; today's Windows terminals all can.
fn draws_lines() -> bool {
    if cfg!(windows) {
        return true;
    }
    let set = |name| env::var(name).ok().filter(|value| !value.is_empty());
    let locale = set("LC_ALL").or_else(|| set("LC_CTYPE")).or_else(|| set("LANG"));
    locale.is_some_and(|locale| {
        let locale = locale.to_ascii_lowercase();
        locale.contains("utf-8") || locale.contains("utf8")
    })
}

fn width(stream: Stream) -> usize {
    let told = env::var("COLUMNS")
        .ok()
        .and_then(|columns| columns.trim().parse().ok());
    let asked = || {
        let size = match stream {
            Stream::Out => terminal_size::terminal_size_of(stdout()),
            Stream::Err => terminal_size::terminal_size_of(stderr()),
        };
        size.map(|(width, _)| usize::from(width.0))
    };
    told.filter(|columns| *columns > 0)
        .or_else(asked)
        .unwrap_or(USUAL_WIDTH)
}
