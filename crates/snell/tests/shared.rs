//! Findings that several rigs share, as a person reads them.

mod program;

use program::run_with;

const RIGS: &str = "spool six\n  size 6X\n  material fluoro\n  rated 5 kg\n\nrig one\n  tippet 4 ft of six\n  point #14\n\n\
                    rig two\n  tippet 3 ft of six\n  point #14\n\nrig three from two\n  change tippet to 5 ft\n";

#[test]
fn a_spool_is_blamed_once_with_the_rigs_that_share_it() {
    let ran = run_with(&["check", "-"], RIGS);
    assert_eq!(
        ran.out.matches("[label-incredible, rig one]").count(),
        1,
        "{}",
        ran.out
    );
    assert_eq!(ran.out.matches("label-incredible").count(), 1, "{}", ran.out);
    assert!(ran.out.contains("same   rig two (-:11:3)"), "{}", ran.out);
    // A program is told of each place.
    let lines = run_with(&["check", "-", "--form", "lines"], RIGS);
    assert!(
        lines.out.matches("label-incredible").count() >= 2,
        "{}",
        lines.out
    );
}
