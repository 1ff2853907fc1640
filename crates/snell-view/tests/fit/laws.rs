//! What holds of every rig: what suits its water is left alone, and what does
//! not is made to suit it.

use super::{codes, fitted, found, stays, with_way};
use proptest::prelude::*;
use snell_view::fit::Outcome;

/// A rig of two flies and a water, whether they suit each other or not.
fn text(depth: u32, speed: u32, ratio: u32, gap: u32, flies: (usize, usize), cast: usize) -> String {
    let beads = ["#16 2 mm tungsten", "#14 2.8 mm tungsten", "#12 3.3 mm tungsten"];
    let upper = (depth * ratio / 100).saturating_sub(gap).max(20);
    format!(
        "water there\n  depth {depth} cm\n  surface 0.{speed:02} m/s\n  bed gravel\n  run 8 m\n\n\
         rig some\n  method tight-line\n  water there\n  cast {}\n  butt 4 m of 0.20 mm nylon\n  \
         sighter 45 cm of 0.18 mm nylon\n  ring 1.5 mm\n  tippet {upper} cm of 6X fluoro as upper\n  \
         dropper 18 cm with {}\n  tippet {gap} cm of 6X fluoro as lower\n  point {}\n",
        ["tuck", "up", "down"][cast],
        beads[flies.0],
        beads[flies.1],
    )
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, ..ProptestConfig::default() })]

    #[test]
    fn what_is_right_is_left_alone_and_the_rest_is_made_right(
        depth in 50_u32..150,
        speed in 15_u32..80,
        ratio in 120_u32..230,
        gap in 35_u32..85,
        flies in (0_usize..2, 0_usize..3),
        cast in 0_usize..3,
    ) {
        let text = text(depth, speed, ratio, gap, flies, cast);
        let fit = fitted(&text, "some", "there");
        let now = found(&text);
        if codes(&now["some"]).iter().all(|code| stays(&fit).contains(code)) {
            prop_assert_eq!(fit.outcome, Outcome::Right);
            prop_assert!(fit.ways.is_empty());
        } else {
            prop_assert!(fit.outcome != Outcome::Right, "{:?}", now["some"]);
        }
        if fit.outcome == Outcome::Ways {
            let (text, name) = with_way(&text, &fit, 0);
            let left = &found(&text)[&name];
            prop_assert!(codes(left).iter().all(|code| stays(&fit).contains(code)), "{left:?}");
        }
    }
}
