//! What the words behind a fence say of it: whether it holds rigs, and whose.
//!
//! Renderers differ in how they take these words: as a first word, as classes
//! in braces, as attributes, as the language of a directive. All of these are
//! read alike, so that one page can go through several of them.

/// What a fence's words say of the rigs in it.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum FenceTag {
    /// `rig`: part of the page's one file.
    Shared,
    /// `rig alone`: a file of its own.
    Alone,
    /// `rig good`: a file of its own that its page calls sound.
    Good,
    /// `rig bad`: a file of its own that its page calls wrong.
    Bad,
}

/// What a fence is to whoever reads rigs.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) enum Info {
    /// It holds rigs.
    Rig(FenceTag),
    /// It is of rigs by its words, and yet not read: no renderer takes it for a fence of rigs.
    Near,
    /// It holds something else.
    Other,
}

const RIG: &str = "rig";
/// Directives that show code in the language that follows them. Source: the documentation of docutils and Sphinx.
const CODE_DIRECTIVES: [&str; 3] = ["code", "code-block", "sourcecode"];

/// Whether a word is one of the names of a directive that shows code.
pub(crate) fn shows_code(directive: &str) -> bool {
    CODE_DIRECTIVES
        .iter()
        .any(|name| directive.eq_ignore_ascii_case(name))
}

impl Info {
    /// Reads the words behind the ticks or tildes of a fence.
    pub fn read(info: &str) -> Self {
        let info = info.trim();
        let Some(braced) = info.strip_prefix('{') else {
            let end = info.find(|letter: char| letter.is_whitespace() || ",{:;([".contains(letter));
            let (language, rest) = info.split_at(end.unwrap_or(info.len()));
            return match is_rig(language) {
                true => Self::Rig(tag_in(rest)),
                false => Self::near(info),
            };
        };
        let (inside, behind) = braced.split_once('}').unwrap_or((braced, ""));
        if shows_code(inside.trim()) {
            let language = behind.split_whitespace().next().unwrap_or_default();
            return match is_rig(language) {
                true => Self::Rig(tag_in(behind)),
                false => Self::near(behind),
            };
        }
        let mut words = bare(inside);
        let first = words.next().is_some_and(|word| is_rig(class(word)));
        if first || words.any(|word| word.starts_with('.') && is_rig(class(word))) {
            Self::Rig(tag_in(inside))
        } else {
            Self::near(info)
        }
    }

    /// Reads the classes of a block of code, as a renderer hands them over.
    pub fn of_classes<'c>(classes: impl Iterator<Item = &'c str> + Clone) -> Self {
        if classes.clone().any(is_rig) {
            Self::Rig(tag_of(classes))
        } else {
            Self::Other
        }
    }

    fn near(info: &str) -> Self {
        let mut words = info.split(|letter: char| !letter.is_alphanumeric());
        match words.any(|word| is_rig(word) || word.eq_ignore_ascii_case("rigs")) {
            true => Self::Near,
            false => Self::Other,
        }
    }
}

impl FenceTag {
    /// What a fence is, by the classes that a renderer gives it; none where it holds no rigs.
    pub fn of_classes<'c>(classes: impl Iterator<Item = &'c str> + Clone) -> Option<Self> {
        match Info::of_classes(classes) {
            Info::Rig(tag) => Some(tag),
            Info::Near | Info::Other => None,
        }
    }
}

pub(crate) fn is_rig(word: &str) -> bool {
    word.eq_ignore_ascii_case(RIG)
}

/// A word without the dot of a class.
fn class(word: &str) -> &str {
    word.strip_prefix('.').unwrap_or(word)
}

/// The tag among some words; values of attributes are none.
pub(crate) fn tag_in(words: &str) -> FenceTag {
    tag_of(bare(words).map(class))
}

fn tag_of<'w>(words: impl Iterator<Item = &'w str>) -> FenceTag {
    let tag = |word: &str| {
        let tags = [
            ("alone", FenceTag::Alone),
            ("good", FenceTag::Good),
            ("bad", FenceTag::Bad),
        ];
        tags.into_iter()
            .find_map(|(name, tag)| word.eq_ignore_ascii_case(name).then_some(tag))
    };
    let mut words = words;
    words.find_map(tag).unwrap_or(FenceTag::Shared)
}

/// The words of an info string that are no attribute: `title="a bad day"` is passed over as a whole.
fn bare(words: &str) -> impl Iterator<Item = &str> {
    let mut quote = None;
    let parts = words.split(move |letter: char| match (quote, letter) {
        (None, '"' | '\'') => {
            quote = Some(letter);
            false
        }
        (Some(open), _) => {
            if letter == open {
                quote = None;
            }
            false
        }
        (None, _) => letter.is_whitespace() || ",{}[]();:%".contains(letter),
    });
    parts.filter(|part| !part.is_empty() && !part.contains(['=', '"', '\'']))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_usual_form_is_read() {
        for info in [
            "rig",
            " Rig ",
            "{.rig}",
            "{ .rig }",
            "{.rig title=\"a bad day\"}",
            "{#low .rig .numberLines}",
            "{.numberLines .rig startFrom=\"3\"}",
            "{rig}",
            "{rig, echo=FALSE}",
            "rig,editable",
            "rig{linenos=true}",
            "rig {1,3}",
            "rig title='good'",
            "rig:low.rig",
            "{code-block} rig",
            "{code} rig",
            "{sourcecode} rig",
        ] {
            assert_eq!(Info::read(info), Info::Rig(FenceTag::Shared), "{info}");
        }
    }

    #[test]
    fn tags_stand_anywhere_but_in_a_value() {
        for (info, tag) in [
            ("rig alone", FenceTag::Alone),
            ("rig,alone", FenceTag::Alone),
            ("{.rig .alone}", FenceTag::Alone),
            ("{rig bad}", FenceTag::Bad),
            ("rig title=\"x\" good", FenceTag::Good),
            ("rig {.bad}", FenceTag::Bad),
            ("{code-block} rig alone", FenceTag::Alone),
            ("rig alonely", FenceTag::Shared),
        ] {
            assert_eq!(Info::read(info), Info::Rig(tag), "{info}");
        }
    }

    #[test]
    fn what_is_only_near_is_told_apart() {
        for (info, expected) in [
            ("", Info::Other),
            ("rust", Info::Other),
            ("rigid", Info::Other),
            ("{=rig}", Info::Near),
            ("rigs", Info::Near),
            ("text rig", Info::Near),
            ("rig-notes", Info::Near),
            ("{code-cell} rig", Info::Near),
            ("{code-block} text", Info::Other),
        ] {
            assert_eq!(Info::read(info), expected, "{info}");
        }
    }
}
