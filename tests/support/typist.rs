//! Somebody who types at random: lines of rigs, sound and broken, put in, taken
//! out and torn apart, in the middle of a word, a surrogate pair or a line end.
//!
//! The same number types the same.

/// Lines that have to do with each other, and lines that are wrong.
const LINES: &[&str] = &[
    "rig a",
    "rig a",
    "rig b from a",
    "rig c from b \"sea 🎣\"",
    "rig b",
    "rig d from c",
    "fly slate",
    "fly slate \"slate spider\"",
    "fly bracken from slate",
    "water tail",
    "rod ten",
    "material fluoro from fluoro",
    "spool blue",
    "knot blood",
    "rule near",
    "rulebook card",
    "rule fly-spacing from fly-spacing",
    "  hook #14",
    "  hook #16",
    "  bead 2.8 mm tungsten",
    "  bead 2.8 tungsten",
    "  barbless",
    "  depth 2 ft to 3 ft",
    "  surface 2.2 ft/s",
    "  bed cobble",
    "  length 10 ft",
    "  weight #2",
    "  size 6X",
    "  material fluoro",
    "  rated 3 lb",
    "  method tight-line",
    "  method dry",
    "  rod ten",
    "  water tail",
    "  rules card",
    "  butt 60 in of 0.28 mm nylon",
    "  sighter 15 in of 0.20 mm nylon, pink",
    "  ring 2 mm",
    "  tippet 32 in of 6X fluoro as upper",
    "  tippet 20 in of 6X fluoro",
    "  tippet 20 in of blue",
    "  tippet 0.5 times depth of 5X",
    "  tippet upper - 4 in of 6X",
    "  tippet 12 of 6X",
    "  dropper 8 in with slate",
    "  dropper 2 in with bracken",
    "  knot blood with tags 1 in",
    "  point slate",
    "  point bracken",
    "  point #14 2.8 mm tungsten",
    "  point nobody",
    "  change upper to 44 in",
    "  change upper to 5X blue",
    "  change point to slate",
    "  remove dropper",
    "  let extra = 3 in",
    "  expect total at least 4 ft",
    "  expect gap.length between 10 and 20 in",
    "  expect upper under 1 m",
    "  allow fly-spacing because \"so it is\"",
    "  allow nothing because \"no\"",
    "  note \"é 🎣 // no comment\"",
    "  for each gap",
    "  keep gap.length at least 30 in",
    "  keep total at most 3 m",
    "  limit least 16 in",
    "  say \"{gap.length} apart\"",
    "  say \"long\"",
    "  level caution",
    "  with near",
    "  with tight-line",
    "  without fly-spacing",
    "  set fly-spacing.least to 40 in",
    "  level near fault",
    "outing dusk",
    "  day 2026-05-14",
    "  rig a",
    "  rig b",
    "  caught 3 on dropper",
    "  caught 1 on slate",
    "  caught 2 on upper",
    "",
    "",
    "",
    "// 🎣 a comment",
    "  // another",
    "tippet 20 in",
    "rig",
    "rig 3",
    "fly",
    "  tippet 20 inn",
    "  tipet 20 in",
    "  ???",
    "  (((",
    "use \"none.rig\"",
    "use \"spools.rig\"",
    "use \"others.rig\"",
    "  tippet 20 in of moss",
    "rig e from shared",
    "bla bla",
    "\u{FEFF}rig e",
    "\u{A0} point slate",
];

/// Ends of lines.
const ENDS: &[&str] = &["\n", "\n", "\n", "\r\n", "\r"];

/// Pieces that are no lines.
const SCRAPS: &[&str] = &[
    "a", " ", "\n", "\r", "\r\n", "🎣", "é", "6X", "\"", "//", "  ", "slate", "upper", "0", "in", "#", "```",
    "> ", "- ", "\u{200B}",
];

/// Types.
pub struct Typist(u64);

/// Files that lie beside what is typed, which may use them.
pub const BESIDE: [(&str, &str); 2] = [
    (
        "spools.rig",
        "spool moss\n  size 5X\n  material fluoro\n\nrig shared\n  tippet 30 in of moss as upper\n  point #14 2.8 mm tungsten\n",
    ),
    ("others.rig", "spool moss\n  size 6X\n  material nylon\n"),
];

/// Puts `new` in the place of some bytes.
#[derive(Clone, Debug)]
pub struct Stroke {
    /// The bytes that go; the whole text where there are none to name.
    pub place: Option<std::ops::Range<usize>>,
    /// What comes.
    pub new: String,
}

impl Typist {
    /// Somebody with a number.
    pub fn new(number: u64) -> Self {
        Self(number.wrapping_mul(0x9E37_79B9_7F4A_7C15) | 1)
    }

    /// A number below `below`, which is not nought. Source: Marsaglia 2003, Xorshift RNGs, shifts 13, 7, 17.
    pub fn below(&mut self, below: usize) -> usize {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        ((self.0 >> 11) % below as u64) as usize
    }

    fn pick<'a>(&mut self, from: &[&'a str]) -> &'a str {
        from[self.below(from.len())]
    }

    /// Some lines.
    pub fn lines(&mut self, most: usize) -> String {
        let mut text = String::new();
        for _ in 0..self.below(most + 1) {
            text.push_str(self.pick(LINES));
            text.push_str(self.pick(ENDS));
        }
        text
    }

    /// A page with such lines in fences.
    pub fn page(&mut self, most: usize) -> String {
        let mut text = String::new();
        for _ in 0..1 + self.below(3) {
            let margin = self.pick(&["", "", "> ", "  "]);
            let tag = self.pick(&["rig", "rig", "rig alone", "rig bad"]);
            let end = self.pick(ENDS);
            text.push_str(&format!(
                "{}🎣 words{end}{end}{margin}```{tag}{end}",
                self.pick(&["# ", ""])
            ));
            for line in self.lines(most).split(['\n', '\r']) {
                text.push_str(&format!("{margin}{line}{end}"));
            }
            text.push_str(&format!("{margin}```{end}{end}"));
        }
        text
    }

    /// A stroke in `text`.
    pub fn stroke(&mut self, text: &str) -> Stroke {
        let mut at = self.below(text.len() + 1);
        while !text.is_char_boundary(at) {
            at -= 1;
        }
        let length = match self.below(6) {
            0..=2 => 0,
            3 | 4 => self.below(6),
            _ => self.below(80),
        };
        let mut end = (at + length).min(text.len());
        while !text.is_char_boundary(end) {
            end += 1;
        }
        let new = match self.below(8) {
            0..=2 => self.pick(SCRAPS).to_owned(),
            3 | 4 => self.lines(2),
            5 => {
                // A whole line behind the line end before the place.
                at = text[..at].rfind('\n').map_or(0, |end| end + 1);
                end = end.max(at);
                format!("{}\n", self.pick(LINES))
            }
            _ => String::new(),
        };
        Stroke {
            place: Some(at..end),
            new,
        }
    }
}

impl Stroke {
    /// The text after it.
    pub fn made(&self, text: &str) -> String {
        match &self.place {
            None => self.new.clone(),
            Some(place) => format!("{}{}{}", &text[..place.start], self.new, &text[place.end..]),
        }
    }
}
