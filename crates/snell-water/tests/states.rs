//! Every steady state: none is lost or made up, and what a rig comes to leaps only where a state ends.

mod given;

use given::{ball, density, example, fluid, metres, speed};
use proptest::prelude::*;
use snell_water::drift::{Lead, NoDrift, Standing, State, Under, drift, states};
use snell_water::fly::{Bead, Dressing, Hook, Parts};
use snell_water::sink::Cast;
use snell_water::{Fly, Hung, Profile, Rig, Strand, Stream, Tackle};
use uom::si::f64::*;
use uom::si::ratio::ratio;

fn fly(size: f64, bead: f64, dressing: &str) -> Fly {
    let parts = Parts {
        hook: Some(Hook::of_size(size)),
        bead: Some(Bead {
            diameter: metres(bead),
            density: density(18_000.0),
            fill: Bead::BORED,
        }),
        dressing: Dressing::named(dressing),
        ..Parts::default()
    };
    Fly::tied(&parts).expect("its parts have sizes")
}

fn line(diameter: f64) -> Strand {
    Strand::new(metres(3.0), metres(diameter), density(1780.0))
}

fn water(depth: f64, surface: f64, grain: f64) -> Stream {
    Stream {
        profile: Profile::over_bed(metres(depth), speed(surface), metres(grain)),
        fluid: fluid(10.0),
    }
}

/// Stable and unstable ones in turn, and one more of those that a rig stays in.
fn take_turns(states: &[State]) -> bool {
    let heights: Vec<f64> = states
        .iter()
        .map(|state| state.drift.rides[0].off_bed.value)
        .collect();
    let turns = states
        .iter()
        .enumerate()
        .all(|(index, state)| state.stays() == (index % 2 == 0));
    turns && states.len() % 2 == 1 && heights.is_sorted()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(150))]

    #[test]
    fn states_take_turns(
        depth in 0.4..2.0, surface in 0.3..2.0, share in 0.4..1.0, length in 0.7..2.2,
        diameter in 0.08e-3..0.25e-3, bead in 2.0e-3..3.8e-3, free in any::<bool>(),
    ) {
        let point = fly(14.0, bead, "hackled");
        let tackle = Tackle::new(point, vec![line(diameter)], Vec::new()).expect("it has sizes");
        let lead = if free { Lead::Free } else { Lead::Share(Ratio::new::<ratio>(share)) };
        let found = states(&tackle, &water(depth, surface, 0.15), metres(depth * length), &lead);
        let found = found.map_err(|none| TestCaseError::fail(none.to_string()))?;
        prop_assert!(take_turns(&found), "{:?}", found.iter().map(|state| &state.standing).collect::<Vec<_>>());
    }

    /// A tag may be longer than the gap below it: its fly is then below the point.
    #[test]
    fn a_long_tag_neither_loses_nor_doubles_a_free_drift(
        depth in 0.5..1.5, surface in 0.3..1.5, gap in 0.1..0.5, tag in 0.05..0.9,
    ) {
        // What a tag's fly does on the bed is not told.
        let tag = f64::min(tag, gap + depth * 0.08);
        let hung = Hung {
            fly: fly(16.0, 0.002, "hackled"),
            above_point: metres(gap),
            tag: Some(line(0.127e-3).of_length(metres(tag))),
        };
        let tackle = Tackle::new(fly(14.0, 0.0028, "slim"), vec![line(0.127e-3)], vec![hung]).expect("it has sizes");
        let found = states(&tackle, &water(depth, surface, 0.1), metres(depth * 0.9), &Lead::Free);
        let found = found.map_err(|none| TestCaseError::fail(none.to_string()))?;
        prop_assert!(found.len() == 1 || take_turns(&found), "{} states", found.len());
    }
}

#[test]
fn fast_deep_water_has_a_free_drift_by_length() {
    for depth in [1.5, 2.0, 3.0] {
        for surface in [1.5, 2.0, 2.5] {
            for share in [0.5, 0.7, 0.9, 1.0, 1.2, 1.5] {
                for (bead, diameter) in [(0.0028, 0.127e-3), (0.0038, 0.2e-3), (0.002, 0.08e-3)] {
                    let tackle = Tackle::new(fly(14.0, bead, "slim"), vec![line(diameter)], Vec::new());
                    let rig = Rig {
                        tackle: tackle.expect("it has sizes"),
                        stream: water(depth, surface, 0.15),
                        length: metres(depth * share),
                        lead: Lead::Free,
                        cast: Cast::Tuck,
                    };
                    let found = rig.settles();
                    assert!(
                        found.is_ok(),
                        "{depth} m, {surface} m/s, {share}, {bead}: {found:?}"
                    );
                }
            }
        }
    }
}

#[test]
fn the_cast_decides_between_two_states() {
    let height = |name: &str| {
        let settled = example(name).rig().settles().expect("it settles");
        assert_eq!(settled.states().len(), 3, "{name}");
        assert_eq!(settled.others().count(), 1, "{name}");
        settled.shown().drift.rides[0].off_bed.value
    };
    let (up, tuck) = (height("held_three_states_up"), height("held_three_states_tuck"));
    assert!(up < 0.05 && tuck > 0.16, "{up} and {tuck}");
}

#[test]
fn the_bed_bears_more_the_longer_the_line_until_it_lies_there() {
    let tackle =
        Tackle::new(fly(14.0, 0.0028, "slim"), vec![line(0.127e-3)], Vec::new()).expect("it has sizes");
    let stream = water(0.9, 0.7, 0.15);
    let mut before = (0.0, 0.0);
    for step in 0..18 {
        let length = metres(0.95 + 0.2 * f64::from(step));
        let all =
            states(&tackle, &stream, length, &Lead::Free).unwrap_or_else(|none| panic!("{length:?}: {none}"));
        let Standing::OnBed { bears, lifts, lies } = all[0].standing else {
            continue;
        };
        assert!(
            bears.value >= before.0 && lies.value >= before.1,
            "{length:?}: {bears:?} {lies:?} after {before:?}"
        );
        assert!(lifts < length, "{length:?}");
        before = (bears.value, lies.value);
    }
    let weight = tackle.point().wet_weight(&stream.fluid).value;
    assert!(
        before.0 > 0.8 * weight,
        "the longest line leaves most of the point to the bed: {before:?} of {weight}"
    );
}

/// What changes over a sweep.
struct Swept {
    depth: f64,
    surface: f64,
    share: f64,
    length: f64,
    diameter: f64,
}

impl Swept {
    fn states(&self) -> Vec<State> {
        let hung = Hung {
            fly: fly(16.0, 0.002, "hackled"),
            above_point: metres(0.5),
            tag: None,
        };
        let tackle = Tackle::new(fly(14.0, 0.0028, "slim"), vec![line(self.diameter)], vec![hung]);
        let stream = water(self.depth, self.surface, 0.15);
        let lead = if self.share >= 1.0 {
            Lead::Free
        } else {
            Lead::Share(Ratio::new::<ratio>(self.share))
        };
        states(
            &tackle.expect("it has sizes"),
            &stream,
            metres(self.length),
            &lead,
        )
        .expect("there are states")
    }
}

/// Sweeps of 200 steps: the states of one step are near those of the one before, but for pairs that come or go together where
/// they end.
#[test]
fn nothing_leaps_but_where_a_state_ends() {
    type Sweep = (&'static str, fn(&mut Swept, f64));
    let sweeps: [Sweep; 5] = [
        ("depth", |swept, part| swept.depth = 0.6 + 0.9 * part),
        ("speed", |swept, part| swept.surface = 0.3 + 1.2 * part),
        ("lead", |swept, part| swept.share = 0.55 + 0.44 * part),
        ("length", |swept, part| swept.length = 0.5 + 0.9 * part),
        ("tippet", |swept, part| swept.diameter = 0.08e-3 + 0.2e-3 * part),
    ];
    for (name, sweep) in sweeps {
        for share in [1.0, 0.75, 0.65] {
            if name == "lead" && share < 1.0 {
                continue;
            }
            let mut before: Option<Vec<f64>> = None;
            for step in 0..=200 {
                let mut swept = Swept {
                    depth: 0.9,
                    surface: 0.9,
                    share,
                    length: 0.9,
                    diameter: 0.127e-3,
                };
                sweep(&mut swept, f64::from(step) / 200.0);
                let all = swept.states();
                let standing = || {
                    all.iter()
                        .map(|state| (state.standing, state.drift.rides[0].off_bed))
                        .collect::<Vec<_>>()
                };
                assert!(take_turns(&all), "{name} at {step}, {share}: {:?}", standing());
                let depths: Vec<f64> = all.iter().map(|state| state.drift.rides[0].depth.value).collect();
                if let Some(before) = before.filter(|before| before.len() == depths.len()) {
                    for (one, other) in before.iter().zip(&depths) {
                        assert!(
                            (one - other).abs() < 0.05,
                            "{name} at {step}, {share}: {before:?} and {depths:?}"
                        );
                    }
                }
                before = Some(depths);
            }
        }
    }
}

#[test]
fn a_height_and_its_length_are_one_state() {
    let given = example("rig_base");
    let (tackle, stream) = (given.tackle(), given.stream());
    for height in [0.05, 0.1, 0.3, 0.5] {
        let by_height =
            drift(&tackle, &stream, Under::PointOffBed(metres(height)), Lead::Free).expect("it drifts");
        let by_length = states(&tackle, &stream, by_height.submerged, &Lead::Free).expect("there are states");
        let off = by_length[0].drift.rides[0].off_bed.value - height;
        assert!(off.abs() < 1e-4, "{height}: off by {off}");
    }
}

#[test]
fn a_ball_that_floats_is_told_and_a_point_on_the_bed_is_a_state() {
    let tackle = Tackle::new(ball(0.3), vec![line(0.127e-3)], Vec::new()).expect("it has sizes");
    let stream = water(0.9, 0.7, 0.15);
    let all = states(&tackle, &stream, metres(1.6), &Lead::Free).expect("there are states");
    assert!(all[0].is_on_bed());
    let single = drift(&tackle, &stream, Under::Length(metres(1.6)), Lead::Free);
    assert!(matches!(single, Err(NoDrift::OnBed { .. })), "{single:?}");
}

/// A drift that is known already is the state that the rig is found in without it.
#[test]
fn a_known_drift_is_the_state_that_the_rig_settles_in() {
    let mut off_bed = 0;
    for name in [
        "rig_base",
        "single_fly",
        "perdigon_one",
        "held_back",
        "depth_mode",
    ] {
        let rig = example(name).rig();
        for height in [0.02, 0.05, 0.1, 0.2, 0.3] {
            let Ok(known) = rig.with_point_at(metres(height)) else {
                continue;
            };
            for lead in [Lead::Free, rig.lead] {
                let rig = Rig {
                    lead,
                    ..rig.with_length(known.submerged)
                };
                let (by_known, alone) = (rig.settles_by(&known), rig.settles());
                let (Ok(by_known), Ok(alone)) = (by_known, alone) else {
                    panic!("{name} at {height} settles only one way");
                };
                assert_eq!(
                    by_known.states().len(),
                    alone.states().len(),
                    "{name} at {height}"
                );
                let rides = |of: &State| of.drift.rides[0].depth.value;
                let apart = (rides(by_known.shown()) - rides(alone.shown())).abs();
                assert!(apart < 1e-4, "{name} at {height}: {apart} m");
                off_bed += 1;
            }
        }
    }
    assert!(off_bed >= 30, "{off_bed}");
}
