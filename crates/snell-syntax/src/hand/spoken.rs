//! Where a piece of line, a fly or a float lies, told in words.

use super::atoms::Look;
use super::phrases::{PHRASES, Says, plain};
use super::reader::Reader;
use super::trade::{Part, joint};
use crate::vocabulary::Joint;

/// Words that begin what is said of where a piece or a fly lies.
const WHERE: &[&str] = &[
    "from",
    "between",
    "below",
    "above",
    "under",
    "underneath",
    "straight",
    "down",
    "up",
    "for",
    "off",
    "at",
    "along",
];

/// What pieces and flies lie between.
const PLACES: &[&str] = &[
    "point",
    "dropper",
    "droppers",
    "fly",
    "flies",
    "butt",
    "taper",
    "tippet",
    "ring",
    "sighter",
    "leader",
    "float",
    "indicator",
    "bung",
    "dry",
    "nymph",
    "nymphs",
    "swivel",
    "line",
    "reel",
    "bob",
    "tail",
    "start",
];

/// Words that begin a remark which goes on to the end of its phrase: `from the packet`, `between boulders`.
const PROSE: &[&str] = &[
    "from", "between", "along", "under", "until", "because", "like", "built",
];

/// Of so many words of a remark, one shows what it is: nobody writes longer ones, and each word of a line asks.
pub(super) const NEAR: usize = 40;

/// A shorter remark may be a value that has slipped.
const FEWEST_PROSE: usize = 2;

impl Reader<'_> {
    /// How many atoms from here on say where something lies: `from ring to dropper`, `to the first dropper`.
    pub(super) fn aside(&self, word: &str) -> Option<usize> {
        let takes = matches!(
            self.part,
            Part::Piece | Part::Line | Part::Dropper | Part::Fly | Part::Float | Part::Water
        );
        let begins = WHERE.contains(&word) || joint(word).is_some_and(|joint| joint.word() == "to");
        let opens_prose = PROSE.contains(&word);
        if !takes || !(begins || opens_prose) || self.known().is_some() {
            return None;
        }
        let rest = &self.atoms[self.at..];
        let end = |atom: &super::atoms::Atom| match atom.look {
            Look::Word => false,
            Look::Number | Look::Text(_) => true,
            Look::Sign(sign) => sign != '/' && sign != '&',
        };
        // What joins a knot is none of where it lies: `to sighter with a double surgeon`.
        let ends_here = |at: usize| {
            end(&rest[at])
                || (1..NEAR).contains(&at)
                    && self
                        .word(at)
                        .is_some_and(|word| joint(&word) == Some(Joint::With))
        };
        let length = (0..rest.len()).find(|at| ends_here(*at)).unwrap_or(rest.len());
        let is_place =
            (1..length.min(NEAR)).any(|at| self.word(at).is_some_and(|word| PLACES.contains(&&*word)));
        let is_prose = opens_prose && length >= FEWEST_PROSE && !self.tells(length);
        // `tippet from the sighter 70 cm`: before all values only what a figure follows.
        let leads = rest.get(length).is_some_and(|next| next.look == Look::Number);
        // `from the boat, 2-4 ft`, `built in, orange`
        let parted = rest.get(length).is_some_and(|next| next.look == Look::Sign(','));
        let has_begun = !self.found.is_empty()
            || self.part == Part::Piece && leads
            || matches!(self.part, Part::Water | Part::Piece) && is_prose && parted;
        ((begins && is_place || is_prose) && has_begun).then_some(length)
    }

    /// Whether one of so many atoms from here on is a value of the line.
    pub(super) fn tells(&self, length: usize) -> bool {
        (0..length).any(|ahead| {
            let word = self.get(ahead).map(|atom| plain(self.of(atom)));
            word.is_some_and(|word| says_value(&word, self.part))
        })
    }
}

/// Whether a word is a value of a part. Beds are told in remarks, too.
pub(super) fn says_value(word: &str, part: Part) -> bool {
    let rows = PHRASES.get(word).into_iter().flatten();
    rows.into_iter()
        .any(|row| part.takes(row.says) && !matches!(row.says, Says::Bed | Says::Extent | Says::Filler))
}
