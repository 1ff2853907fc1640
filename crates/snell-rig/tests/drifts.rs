//! Rigs in their drift: what hangs from a float, which state the cast comes to, and how far a depth may be off.

mod support;

use snell_rig::measure::{Drifting, depths_between, drifting};
use std::rc::Rc;
use support::with_last;

fn drift_of(text: &str) -> Rc<Drifting> {
    with_last(text, |evaluation| drifting(evaluation).expect("it drifts"))
}

/// Between what its point rides.
fn between(text: &str) -> (f64, f64) {
    with_last(text, |evaluation| {
        let state = drifting(evaluation).expect("it drifts");
        depths_between(evaluation, &state)[0]
    })
}

fn held(cast: &str) -> String {
    format!(
        "water glide\n  depth 1 m\n  surface 1.4 m/s\n  bed cobble\n\nrig held\n  water glide\n  \
         drift at 1.026 m/s\n  cast {cast}\n  sighter 40 cm of 0.20 mm nylon\n  ring 2 mm\n  \
         tippet 1.035 m of 6X fluoro\n  point #14 2.8 mm tungsten\n"
    )
}

fn floated(depth: &str) -> String {
    format!(
        "rig floated\n  water {depth} at 0.8 m/s over gravel\n  tippet 50 cm of 4X fluoro\n  float 13 mm foam\n  \
         tippet 1.2 m of 6X fluoro\n  point #14 2.8 mm tungsten\n"
    )
}

#[test]
fn a_float_goes_slower_than_the_surface_and_faster_than_the_fly_s_water() {
    let state = drift_of(&floated("2 m"));
    let (speed, surface) = (state.drift.speed.value, state.rig.stream.profile.surface().value);
    assert!(speed < surface * 0.99, "{speed} and {surface}");
    assert!(speed > state.drift.rides[0].water.value, "{speed}");
}

#[test]
fn the_state_shown_is_one_that_the_rig_stays_in() {
    for cast in ["up", "down", "tuck"] {
        let state = drift_of(&held(cast));
        assert!(state.settled.shown().stays(), "{cast}");
        assert!(
            state.settled.others().all(snell_water::drift::State::stays),
            "{cast}"
        );
    }
}

#[test]
fn a_range_of_water_widens_the_band_and_a_held_drift_is_known_worse_on_one_side() {
    let width = |text: &str| {
        let (low, high) = between(text);
        high - low
    };
    assert!(width(&floated("1.8 m to 2.6 m")) > width(&floated("2.2 m")));
    let state = drift_of(&held("up"));
    let (low, high) = between(&held("up"));
    let at = state.drift.rides[0].depth.value;
    assert!(low <= at && at <= high, "{low} {at} {high}");
    let (shallower, deeper) = (at - low, high - at);
    assert!(
        (shallower - deeper).abs() > 0.2 * (shallower + deeper),
        "{shallower} {deeper}"
    );
}

#[test]
fn line_that_is_too_long_for_its_float_leaves_the_point_on_the_bed() {
    assert!(drift_of(&floated("60 cm")).is_on_bed());
    assert!(!drift_of(&floated("2 m")).is_on_bed());
}
