//! Pages on figures that are worked out: what each is, what it leaves out, how
//! wrong it may be and what to do about it.
//!
//! They are prose for people, and know nothing of the numbers of any one rig.

/// Name and page.
const PAGES: [(&str, &str); 6] = [
    ("card", include_str!("../reckoned/card.md")),
    ("drift", include_str!("../reckoned/drift.md")),
    ("gives", include_str!("../reckoned/gives.md")),
    ("sag", include_str!("../reckoned/sag.md")),
    ("sink-time", include_str!("../reckoned/sink-time.md")),
    ("sinks", include_str!("../reckoned/sinks.md")),
];

/// The page on a figure, if it has one.
pub fn page(name: &str) -> Option<(&'static str, &'static str)> {
    PAGES.into_iter().find(|(known, _)| *known == name)
}

#[cfg(test)]
mod tests {
    use super::PAGES;
    use crate::why::explain;

    #[test]
    fn every_page_reads_whole_and_owns_up() {
        for (name, page) in PAGES {
            let found = explain(name).expect("it has a meaning");
            let read = found
                .iter()
                .find(|one| one.kind == "how it is worked out")
                .expect("its page");
            let last = page.split_whitespace().last().expect("words");
            assert!(read.about.ends_with(last), "{name} is cut short");
            assert!(!read.about.contains('#'), "{name} shows a heading");
            for word in ["may be off by", "eft out", "Sources:", "memory"] {
                assert!(read.about.contains(word), "{name} does not say: {word}");
            }
        }
    }

    /// Names that are both a line and a figure are told as both.
    #[test]
    fn a_drift_is_a_line_and_a_reckoning() {
        let found = explain("drift").expect("it has a meaning");
        assert!(found.iter().any(|one| one.kind == "line of a rig"));
        let page = found.last().expect("a page");
        assert!(page.about.contains("is not a wading depth"));
        assert!(page.about.contains("what the river shows comes first"));
    }
}
