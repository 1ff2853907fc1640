//! What findings say.

mod common;

use common::findings;

fn said(gap: u32) -> String {
    let text = format!(
        "rig a\n  method tight-line\n  tippet 5 ft of 5X fluoro\n  dropper 8 in with #16 2 mm tungsten\n  tippet {gap} in \
         of 6X fluoro\n  point #14 2.8 mm tungsten\n"
    );
    let found = findings(&text, &snell_syntax::whole(&text).concat());
    let spacing = found.iter().find(|finding| finding.code == "fly-spacing");
    spacing.expect("they stand badly").message.clone()
}

#[test]
fn on_which_side_of_two_limits_a_figure_lies() {
    assert!(said(10).contains("too near: 10 in apart"), "{}", said(10));
    assert!(said(48).contains("too far: 48 in apart"), "{}", said(48));
}
