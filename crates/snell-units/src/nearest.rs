//! Which of some names a misspelt word was meant to be.
//!
//! Works on any words: units, keywords, names of an angler's own. It never
//! explains; whoever asks words the question.

use rapidfuzz::distance::osa::{self, BatchComparator};

/// How many slips lie between two words, where they are at most so many: a letter wrong, missing, too many, or two
/// swapped.
pub fn slips_between(one: &str, other: &str, most: usize) -> Option<usize> {
    // Most words are held against many that they are no slips of, which their letters tell sooner.
    let (own, others) = (letter_set(one), letter_set(other));
    let missing = (own & !others).count_ones().max((others & !own).count_ones());
    if missing as usize > most {
        return None;
    }
    let slips = osa::distance(one.chars(), other.chars());
    (slips <= most).then_some(slips)
}

/// Whether one slip lies between two words.
pub fn is_one_slip(one: &str, other: &str) -> bool {
    slips_between(one, other, 1) == Some(1)
}

/// The candidate nearest to `word`, or `None` if none is near enough to offer.
///
/// Case is ignored. A word of three letters or more that begins a candidate
/// stands for the shortest such one. Otherwise the fewest slips win, at most
/// about one in every three letters (a slip: a letter wrong, missing, too many, or
/// two swapped). The first of equals wins.
pub fn nearest<'a>(word: &str, candidates: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    let meant = Meant::new(word);
    let ranked = candidates
        .into_iter()
        .filter_map(|candidate| Some((meant.rank(&candidate.to_lowercase(), meant.allowed)?, candidate)));
    ranked
        .min_by_key(|(rank, _)| *rank)
        .map(|(_, candidate)| candidate)
}

/// How near a candidate is: nearer is less. Begun by the word, with so many letters behind it, or so many slips off.
type Rank = (u8, usize);

/// A word whose writer meant another.
struct Meant {
    word: String,
    letters: usize,
    allowed: usize,
    slips: BatchComparator<char>,
}

impl Meant {
    fn new(word: &str) -> Self {
        let word = word.to_lowercase();
        let letters = word.chars().count();
        Self {
            letters,
            allowed: slips_allowed(letters),
            slips: BatchComparator::new(word.chars()),
            word,
        }
    }

    /// Of a candidate in lower case that is at most so many slips off.
    fn rank(&self, candidate: &str, most: usize) -> Option<Rank> {
        let rest = candidate
            .strip_prefix(&*self.word)
            .map(|rest| rest.chars().count());
        if let Some(rest) = rest.filter(|rest| *rest == 0 || self.letters >= SHORTEST_BEGINNING) {
            return Some((0, rest));
        }
        let args = osa::Args::default().score_cutoff(most);
        let slips = self.slips.distance_with_args(candidate.chars(), &args)?;
        let keeps_a_letter = slips < candidate.chars().count();
        keeps_a_letter.then_some((1, slips))
    }
}

/// Many names among which misspelt words are looked for: those that cannot be near are passed over by their letters
/// alone.
#[derive(Debug, Default)]
pub struct Spellings(Vec<Spelling>);

#[derive(Debug)]
struct Spelling {
    folded: String,
    letters: Letters,
}

/// How often the letters of a word come up, letters that share a place counted together.
type Letters = [u8; 32];

impl<'a> FromIterator<&'a str> for Spellings {
    fn from_iter<I: IntoIterator<Item = &'a str>>(names: I) -> Self {
        let spelling = |name: &str| {
            let folded = name.to_lowercase();
            Spelling {
                letters: letters(&folded),
                folded,
            }
        };
        Self(names.into_iter().map(spelling).collect())
    }
}

impl Spellings {
    /// The number of the name that [`nearest`] would find.
    pub fn nearest(&self, word: &str) -> Option<usize> {
        self.search(word, None)
    }

    /// The same, where one name is not meant.
    pub fn nearest_but(&self, word: &str, other: &str) -> Option<usize> {
        self.search(word, Some(other))
    }

    fn search(&self, word: &str, but: Option<&str>) -> Option<usize> {
        let meant = Meant::new(word);
        let own = letters(&meant.word);
        let mut best: Option<(Rank, usize)> = None;
        for (index, spelling) in self.0.iter().enumerate() {
            // Only fewer slips take the place of what was found: the first of equals wins.
            let most = match best {
                None => meant.allowed,
                Some(((0, _), _)) => 0,
                Some(((_, slips), _)) => slips.saturating_sub(1),
            };
            let begins = spelling.folded.starts_with(&*meant.word);
            if (!begins && fewest_slips(&own, &spelling.letters) > most) || but == Some(&*spelling.folded) {
                continue;
            }
            let rank = meant.rank(&spelling.folded, most);
            if let Some(rank) = rank.filter(|rank| best.is_none_or(|(best, _)| *rank < best)) {
                best = Some((rank, index));
            }
        }
        best.map(|(_, index)| index)
    }
}

/// Which letters come up in a word, where some share a place.
fn letter_set(word: &str) -> u32 {
    word.chars()
        .fold(0, |set, letter| set | 1 << (letter as u32 % 32))
}

fn letters(word: &str) -> Letters {
    let mut letters = Letters::default();
    for letter in word.chars() {
        let place = &mut letters[letter as usize % 32];
        *place = place.saturating_add(1);
    }
    letters
}

/// No fewer slips can turn one word into the other: each mends one letter that is too many and one that is missing.
fn fewest_slips(one: &Letters, other: &Letters) -> usize {
    let (mut more, mut fewer) = (0_u16, 0_u16);
    for (one, other) in one.iter().zip(other) {
        more += u16::from(one.saturating_sub(*other));
        fewer += u16::from(other.saturating_sub(*one));
    }
    usize::from(more.max(fewer))
}

/// Shorter beginnings fit too many words to mean one of them.
const SHORTEST_BEGINNING: usize = 3;

/// One slip turns any single letter into any other, so those get none.
fn slips_allowed(letters: usize) -> usize {
    match letters {
        0 | 1 => 0,
        2 | 3 => 1,
        _ => (letters + 1) / 3,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn slips_of_the_finger() {
        let parts = ["butt", "taper", "sighter", "tippet", "dropper", "point"];
        assert_eq!(nearest("tipet", parts), Some("tippet"));
        assert_eq!(nearest("Sihgter", parts), Some("sighter"));
        assert_eq!(nearest("dropr", parts), Some("dropper"));
        assert_eq!(nearest("pionts", parts), Some("point"));
        assert_eq!(nearest("feather", parts), None);
    }

    #[test]
    fn short_words_get_little_licence() {
        assert_eq!(nearest("mn", ["mm", "cm", "m"]), Some("mm"));
        assert_eq!(nearest("z", ["m", "s"]), None);
        assert_eq!(nearest("zz", ["m", "s"]), None);
        assert_eq!(nearest("", ["m", ""]), Some(""));
        assert_eq!(nearest("", ["m"]), None);
    }

    #[test]
    fn a_beginning_stands_for_its_word() {
        assert_eq!(nearest("fluo", ["flue", "fluorescent", "fluoro"]), Some("fluoro"));
        assert_eq!(nearest("TUNG", ["tin", "Tungsten"]), Some("Tungsten"));
        assert_eq!(nearest("ti", ["tippet"]), None);
    }

    /// The distance of the library by itself says how many slips there are; here only words far apart are passed over.
    #[test]
    fn words_that_are_passed_over_are_too_far_apart() {
        let words = [
            "", "a", "ab", "ba", "tippet", "tipet", "tippte", "örnig", "öring", "oring", "of", "off", "foof",
        ];
        for (one, other) in words.iter().flat_map(|one| words.map(|other| (*one, other))) {
            let slips = osa::distance(one.chars(), other.chars());
            for most in 0..4 {
                assert_eq!(
                    slips_between(one, other, most),
                    (slips <= most).then_some(slips),
                    "{one} {other}"
                );
            }
        }
    }

    #[test]
    fn the_first_of_equals() {
        assert_eq!(nearest("slake", ["slate", "shake"]), Some("slate"));
    }

    #[test]
    fn a_search_among_many_finds_what_a_look_at_each_finds() {
        let names = [
            "slate",
            "shake",
            "shakes",
            "fluoro",
            "fluorescent",
            "mm",
            "mn",
            "m",
            "",
            "Öring",
            "tippet",
        ];
        let spellings: Spellings = names.into_iter().collect();
        let words = [
            "slake", "shak", "fluo", "flu", "mn", "z", "", "örnig", "tipet", "ttippet", "shakse", "letter",
        ];
        for word in words {
            let found = spellings.nearest(word).map(|index| names[index]);
            assert_eq!(found, nearest(word, names), "{word}");
        }
        let but = spellings.nearest_but("mn", "mn").map(|index| names[index]);
        assert_eq!(but, Some("mm"));
    }
}
