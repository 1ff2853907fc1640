//! Which of some names a misspelt word was meant to be.
//!
//! Works on any words: units, keywords, names of an angler's own. It never
//! explains; whoever asks words the question.

/// The candidate nearest to `word`, or `None` if none is near enough to offer.
///
/// Case is ignored. A word of three letters or more that begins a candidate
/// stands for the shortest such one. Otherwise the fewest slips win, at most
/// about one in every three letters (a slip: a letter wrong, missing, too many, or
/// two swapped). The first of equals wins.
pub fn nearest<'a>(word: &str, candidates: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    let word = word.to_lowercase();
    let allowed = slips_allowed(word.chars().count());
    let rank = |candidate: &&'a str| {
        let candidate = candidate.to_lowercase();
        let rest = candidate.strip_prefix(&word).map(|rest| rest.chars().count());
        match rest {
            Some(rest) if rest == 0 || word.chars().count() >= SHORTEST_BEGINNING => Some((0, rest)),
            _ => {
                let slips = strsim::osa_distance(&word, &candidate);
                let keeps_a_letter = slips < candidate.chars().count();
                (slips <= allowed && keeps_a_letter).then_some((1, slips))
            }
        }
    };
    candidates
        .into_iter()
        .filter_map(|candidate| rank(&candidate).map(|rank| (rank, candidate)))
        .min_by_key(|(rank, _)| *rank)
        .map(|(_, candidate)| candidate)
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

    #[test]
    fn the_first_of_equals() {
        assert_eq!(nearest("slake", ["slate", "shake"]), Some("slate"));
    }
}
