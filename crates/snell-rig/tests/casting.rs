//! What the cast has to carry: masses by hand.

mod support;

use snell_rig::measure::{CastBy, Casting, casting};
use support::with_last;

fn cast(text: &str) -> Casting {
    with_last(text, |evaluation| {
        casting(evaluation).expect("every mass is said")
    })
}

/// A fly of 0.3 g and a swivel of 0.1 g, on 2 m of 0.2 mm nylon: 1140 kg/m3 (polymer handbooks) times pi/4 d2 L is 72 mg.
#[test]
fn flies_and_swivel_pull_a_thin_leader_out() {
    let text = "fly plumb\n  hook #14\n  bead 2.8 mm tungsten\n  mass 0.3 g\n\nrig a\n  butt 1 m of 0.2 mm nylon\n  swivel 7 mm 0.1 g\n  \
                tippet 1 m of 0.2 mm nylon\n  point plumb\n";
    let cast = cast(text);
    let leader = 1140.0 * std::f64::consts::PI / 4.0 * 0.2e-3 * 0.2e-3 * 2.0;
    assert!((cast.flies - 0.4e-3).abs() < 1e-9, "{cast:?}");
    assert!((cast.all - cast.flies - leader).abs() < 0.02 * leader, "{cast:?}");
    assert_eq!(cast.by, CastBy::Flies);
}

/// Six metres of 0.5 mm nylon weigh 1.3 g.
#[test]
fn a_thick_leader_outweighs_a_small_fly() {
    let text = "fly small\n  hook #18\n  mass 0.05 g\n\nrig a\n  butt 6 m of 0.5 mm nylon\n  tippet 1 m of 6X fluoro\n  point small\n";
    assert_eq!(cast(text).by, CastBy::Neither);
}
