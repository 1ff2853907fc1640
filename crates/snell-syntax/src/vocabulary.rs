//! The words of the language itself, each in one place: what opens a block or a
//! line, what joins, what asks.
//!
//! The grammar spells them once more; a test holds the two against each other.
//! What a key takes, and all other words, are the tables of the crates above.

/// An enum of words: `ALL` of them, the `word` of each, and the one `of` a word, without regard to case.
macro_rules! words {
    ($(#[$about:meta])* $name:ident: $($(#[$note:meta])* $one:ident = $word:literal,)+) => {
        $(#[$about])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
        pub enum $name {
            $($(#[$note])* $one,)+
        }

        impl $name {
            pub const ALL: [Self; [$($word),+].len()] = [$(Self::$one),+];

            pub const fn word(self) -> &'static str {
                match self {
                    $(Self::$one => $word,)+
                }
            }

            /// The one that `word` is, without regard to case.
            pub fn of(word: &str) -> Option<Self> {
                Self::ALL.into_iter().find(|one| one.word().eq_ignore_ascii_case(word))
            }
        }
    };
}

words! {
    /// The kinds of block, each with the word that opens one.
    BlockKind:
    Rod = "rod",
    Water = "water",
    Bed = "bed",
    Material = "material",
    Spool = "spool",
    Knot = "knot",
    Dressing = "dressing",
    Fly = "fly",
    Rig = "rig",
    Rule = "rule",
    Rulebook = "rulebook",
    Outing = "outing",
}

impl BlockKind {
    /// Its word with the article before it, for a sentence.
    pub const fn one(self) -> &'static str {
        match self {
            Self::Rod => "a rod",
            Self::Water => "a water",
            Self::Bed => "a bed",
            Self::Material => "a material",
            Self::Spool => "a spool",
            Self::Knot => "a knot",
            Self::Dressing => "a dressing",
            Self::Fly => "a fly",
            Self::Rig => "a rig",
            Self::Rule => "a rule",
            Self::Rulebook => "a rulebook",
            Self::Outing => "an outing",
        }
    }
}

words! {
    /// The keys of lines with a form of their own. All other keys are names to the grammar.
    OwnKey:
    Use = "use",
    Change = "change",
    Let = "let",
    Limit = "limit",
    Expect = "expect",
    Keep = "keep",
    When = "when",
    Unless = "unless",
}

words! {
    /// The joining words that open a clause.
    Joint:
    Off = "off",
    Of = "of",
    To = "to",
    With = "with",
    As = "as",
    On = "on",
    At = "at",
    Over = "over",
    After = "after",
    Because = "because",
}

words! {
    /// The other words that join, and so cannot be names either.
    Link:
    Under = "under",
    From = "from",
    And = "and",
    Or = "or",
    Is = "is",
    Between = "between",
    Times = "times",
    X = "x",
}

/// Whether `word` joins, and so cannot be a name.
pub fn is_joining(word: &str) -> bool {
    Joint::of(word).is_some() || Link::of(word).is_some()
}

words! {
    /// One-sided conditions.
    Bound:
    AtLeast = "at least",
    AtMost = "at most",
    /// Within 2 %.
    About = "about",
    Over = "over",
    Under = "under",
}

/// What a condition opens with, and what it asks.
pub const CONDITIONS: &[(&str, &str)] = &[
    (Bound::AtLeast.word(), "Not less than the value."),
    (Bound::AtMost.word(), "Not more than the value."),
    (Bound::Over.word(), "More than the value."),
    (Bound::Under.word(), "Less than the value."),
    (Bound::About.word(), "Within 2 % of the value."),
    (
        Link::Between.word(),
        "Between two values, both ends allowed: `between A and B`.",
    ),
    (Link::Is.word(), "Carries a word: `is WORD or WORD`."),
    ("is not", "Carries none of the words."),
];

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    const GRAMMAR: &str = include_str!("snell.pest");

    /// The words in a piece of the grammar. Behind a beginning that several share, their ends stand in brackets.
    fn words(mut piece: &str) -> BTreeSet<String> {
        let mut words = BTreeSet::new();
        while let Some((_, rest)) = piece.split_once("^\"") {
            let (word, rest) = rest.split_once('"').expect("a word is closed");
            piece = rest;
            let Some((ends, rest)) = rest.strip_prefix(" ~ (").and_then(|ends| ends.split_once(')')) else {
                words.insert(word.to_owned());
                continue;
            };
            let ends = ends.split("^\"").skip(1).filter_map(|end| end.split('"').next());
            words.extend(ends.map(|end| format!("{word}{end}")));
            piece = rest;
        }
        words
    }

    /// The words in a rule of the grammar.
    fn spelled(rule: &str) -> BTreeSet<String> {
        let from = format!("\n{rule} = ");
        let (_, rest) = GRAMMAR
            .split_once(&from)
            .unwrap_or_else(|| panic!("there is no rule {rule}"));
        let body = &rest[..rest.find("\n\n").unwrap_or(rest.len())];
        // Some rules of one word stand line by line.
        let body = if body.starts_with("{ ^") {
            body.lines().next().unwrap_or(body)
        } else {
            body
        };
        words(body)
    }

    fn every(rules: &[&str]) -> BTreeSet<String> {
        rules.iter().flat_map(|rule| spelled(rule)).collect()
    }

    fn set<'a>(words: impl IntoIterator<Item = &'a str>) -> BTreeSet<String> {
        words.into_iter().map(str::to_owned).collect()
    }

    #[test]
    fn the_grammar_spells_the_words_of_the_tables() {
        let joints = set(Joint::ALL.map(Joint::word));
        let links = set(Link::ALL.map(Link::word));
        assert_eq!(spelled("kind"), set(BlockKind::ALL.map(BlockKind::word)));
        assert_eq!(spelled("joint"), joints);
        assert_eq!(spelled("reserved"), &joints | &links);
        let keys = every(&["use_key", "change_key", "bind_key", "claim_key"]);
        assert_eq!(keys, set(OwnKey::ALL.map(OwnKey::word)));
        let asked = CONDITIONS.iter().flat_map(|(phrase, _)| phrase.split(' '));
        let asked = set(asked.chain(["and", "or"]));
        let asking = [
            "is", "not", "between", "and", "or", "at", "least", "most", "about", "over", "under",
        ];
        assert_eq!(every(&asking), asked);
    }

    /// Every word of the grammar that is not a unit stands in a rule that the other test looks at.
    #[test]
    fn the_grammar_spells_no_other_word() {
        let all = words(GRAMMAR);
        let phrases = CONDITIONS.iter().flat_map(|(phrase, _)| phrase.split(' '));
        let known = BlockKind::ALL.map(BlockKind::word).into_iter();
        let known = known
            .chain(OwnKey::ALL.map(OwnKey::word))
            .chain(Joint::ALL.map(Joint::word));
        let known = set(known.chain(Link::ALL.map(Link::word)).chain(phrases));
        let others: Vec<&String> = all.difference(&known).collect();
        let units = ["C", "F", "feet", "foot", "ft", "in", "inch", "inches", "lb", "oz"];
        assert_eq!(others, units);
    }
}
