//! Rigs and water at the ends of what anyone could write down, and past them: an answer is
//! made of numbers, and what has none says why.

mod given;

use given::{ball, density, force, grams, metres, speed};
use snell_water::drift::{Drift, Lead, NoDrift, Under, drift, states};
use snell_water::sag::{Air, From};
use snell_water::sink::{Cast, closed_form, sink};
use uom::si::f64::*;
use uom::si::length::{meter, millimeter};
use uom::si::thermodynamic_temperature::degree_celsius;
use uom::si::time::second;

use snell_water::fly::{Bead, Hook, Parts};
use snell_water::{Float, Fluid, Fly, Hung, NoTackle, Profile, Strand, Stream, Tackle};

fn line(millimetres: f64) -> Strand {
    Strand::new(
        metres(1.5),
        Length::new::<millimeter>(millimetres),
        density(1140.0),
    )
}

fn tackle(grams: f64, millimetres: f64, more: usize) -> Tackle {
    let hung = |place: usize| Hung {
        fly: ball(grams),
        above_point: metres(0.1 * place as f64),
        tag: (place % 2 == 1).then(|| line(millimetres).of_length(metres(0.1))),
    };
    let hung = (1..=more).map(hung).collect();
    Tackle::new(ball(grams), vec![line(millimetres)], hung).expect("its parts have sizes")
}

fn stream(depth: f64, surface: f64, grain: f64) -> Stream {
    let profile = Profile::over_bed(metres(depth), speed(surface), metres(grain));
    let fluid = Fluid::at(ThermodynamicTemperature::new::<degree_celsius>(10.0));
    Stream { profile, fluid }
}

#[track_caller]
fn all_numbers(found: &Drift, what: &str) {
    let own = [
        found.speed.value,
        found.submerged.value,
        found.pull.value,
        found.load.value,
    ];
    let rides = found.rides.iter().flat_map(|ride| {
        [
            ride.depth.value,
            ride.off_bed.value,
            ride.ahead.value,
            ride.water.value,
            ride.drag.value,
            ride.tension.value,
        ]
    });
    let line = found.line.iter().flat_map(|(x, z)| [x.value, z.value]);
    let sound = own.into_iter().chain(rides).chain(line).all(f64::is_finite);
    assert!(sound, "{what}: {found:?}");
}

/// What a drift comes to, held to numbers either way.
#[track_caller]
fn sound(tackle: &Tackle, stream: &Stream, under: Under, lead: Lead) -> Result<Drift, NoDrift> {
    let found = drift(tackle, stream, under, lead);
    let what = format!("{under:?} {lead:?} in {stream:?}");
    match &found {
        Ok(found) => all_numbers(found, &what),
        Err(NoDrift::OnBed { lifts }) => assert!(lifts.is_finite() && lifts.value > 0.0, "{what}: {lifts:?}"),
        Err(none) => assert!(!none.to_string().is_empty(), "{what}"),
    }
    found
}

#[test]
fn the_length_that_lifts_is_where_bed_contact_ends() {
    for (depth, surface, more, lead) in [
        (0.9, 0.7, 1, Lead::Free),
        (0.9, 0.7, 0, Lead::Speed(speed(0.45))),
        (0.05, 0.3, 0, Lead::Free),
        (5.0, 1.0, 2, Lead::Free),
        (0.9, 0.0, 0, Lead::Free),
    ] {
        let (rig, water) = (tackle(0.28, 0.127, more), stream(depth, surface, depth / 20.0));
        let by = |length: f64| sound(&rig, &water, Under::Length(metres(length)), lead);
        let lies = |tenths: i32| match by(depth * f64::from(tenths) / 10.0) {
            Err(NoDrift::OnBed { lifts }) => Some(lifts),
            _ => None,
        };
        let lifts = (10..60)
            .find_map(lies)
            .unwrap_or_else(|| panic!("{depth} m: six depths of line lie on the bed"));
        let lifts = lifts.get::<meter>();
        let longer = by(lifts + 0.001);
        assert!(
            matches!(longer, Err(NoDrift::OnBed { .. })),
            "{depth} m: {longer:?}"
        );
        let shorter = by(lifts - 0.001).expect("it is off the bed");
        let off_bed = shorter.rides[0].off_bed.get::<meter>();
        // A line that slants lifts its point by more than it is shortened; where it leaps, another state was there already.
        let longer = states(&rig, &water, metres(lifts + 0.001), &lead).expect("it has states");
        let several = longer.iter().filter(|state| state.stays()).count() > 1;
        assert!((0.0..0.004).contains(&off_bed) || several, "{depth} m: {off_bed}");
    }
}

#[test]
fn every_extreme_against_every_other() {
    let mut drifts = 0;
    for depth in [0.05, 0.9, 5.0] {
        for surface in [0.0, 0.7, 3.0] {
            for (grams, millimetres, more) in
                [(0.05, 0.076, 0), (0.05, 0.5, 9), (2.0, 0.076, 9), (2.0, 0.5, 0)]
            {
                let (rig, water) = (
                    tackle(grams, millimetres, more),
                    stream(depth, surface, depth / 10.0),
                );
                for under in [
                    Under::Length(metres(depth * 0.9)),
                    Under::Length(metres(depth * 4.0)),
                    Under::PointOffBed(metres(0.0)),
                    Under::PointOffBed(metres(depth * 0.2)),
                ] {
                    for lead in [Lead::Free, Lead::Speed(speed(0.0)), Lead::Pull(force(-0.002))] {
                        drifts += usize::from(sound(&rig, &water, under, lead).is_ok());
                    }
                }
            }
        }
    }
    assert!(drifts > 100, "only {drifts} of 432 drift");
}

#[test]
fn ten_flies_drift_free() {
    for depth in [0.9, 1.5, 5.0] {
        for under in [
            Under::Length(metres(depth * 0.9)),
            Under::PointOffBed(metres(0.1)),
        ] {
            let found = sound(
                &tackle(0.1, 0.127, 9),
                &stream(depth, 0.7, 0.1),
                under,
                Lead::Free,
            );
            found.unwrap_or_else(|none| panic!("{depth} m {under:?}: {none}"));
        }
    }
}

#[test]
fn what_is_no_number_is_refused() {
    let (rig, water) = (tackle(0.28, 0.127, 1), stream(0.9, 0.7, 0.05));
    let under = Under::PointOffBed(metres(0.1));
    for odd in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
        for lead in [Lead::Speed(speed(odd)), Lead::Pull(force(odd))] {
            assert_eq!(sound(&rig, &water, under, lead), Err(NoDrift::NoWater));
        }
        let height = Under::PointOffBed(metres(odd));
        assert_eq!(sound(&rig, &water, height, Lead::Free), Err(NoDrift::OverSurface));
        let length = Under::Length(metres(odd));
        assert_eq!(sound(&rig, &water, length, Lead::Free), Err(NoDrift::NoWater));
        for water in [stream(odd, 0.7, 0.05), stream(0.9, odd, 0.05)] {
            assert_eq!(sound(&rig, &water, under, Lead::Free), Err(NoDrift::NoWater));
        }
        for parts in [
            Parts {
                hook: Some(Hook::of_size(odd)),
                ..Parts::default()
            },
            Parts {
                hook: Some(Hook::of_size(14.0)),
                weighed: Some(grams(odd)),
                ..Parts::default()
            },
            Parts {
                bead: Some(Bead {
                    diameter: metres(odd),
                    density: density(8500.0),
                    fill: 0.7,
                }),
                ..Parts::default()
            },
        ] {
            assert!(Fly::tied(&parts).is_err(), "{parts:?}");
        }
        assert!(Fly::shot(grams(odd), density(11_340.0)).is_err());
        assert!(Float::lifting(grams(odd), grams(0.1)).is_none());
        assert_eq!(
            Tackle::new(ball(0.1), vec![line(odd)], vec![]),
            Err(NoTackle::NoSize)
        );
        assert!(Air::new(&[line(odd)], From::Tip, metres(4.0), metres(1.8)).is_none());
        assert!(Air::new(&[line(0.2)], From::Tip, metres(odd), metres(1.8)).is_none());
    }
    for huge in [1e12, 1e200, f64::MAX, -f64::MAX] {
        for lead in [Lead::Speed(speed(huge)), Lead::Pull(force(huge))] {
            assert!(sound(&rig, &water, under, lead).is_err(), "{lead:?}");
        }
    }
    assert_eq!(
        sound(&rig, &stream(0.9, 0.7, f64::NAN), under, Lead::Free),
        Err(NoDrift::NoWater)
    );
}

#[test]
fn what_is_nothing_is_refused_or_taken_as_the_least_there_is() {
    let rig = tackle(0.28, 0.127, 0);
    let under = Under::PointOffBed(metres(0.02));
    for depth in [0.0, -1.0] {
        assert_eq!(
            sound(&rig, &stream(depth, 0.7, 0.05), under, Lead::Free),
            Err(NoDrift::NoWater)
        );
    }
    let below = Under::PointOffBed(metres(-0.01));
    assert_eq!(
        sound(&rig, &stream(0.9, 0.7, 0.05), below, Lead::Free),
        Err(NoDrift::OverSurface)
    );
    for grain in [0.0, -0.1, 1e-9, 100.0, f64::INFINITY] {
        let water = stream(0.9, 0.7, grain);
        assert!((water.profile.surface().value - 0.7).abs() < 1e-9, "{grain}");
        let found = sound(&rig, &water, under, Lead::Free);
        assert!(found.is_ok() || grain > 0.9, "grain {grain}: {found:?}");
    }
    let hung = |above: f64| Hung {
        fly: ball(0.1),
        above_point: metres(above),
        tag: None,
    };
    for (hung, expected) in [
        (hung(-0.1), NoTackle::NoPlace(1)),
        (hung(f64::NAN), NoTackle::NoPlace(1)),
    ] {
        assert_eq!(Tackle::new(ball(0.1), vec![line(0.1)], vec![hung]), Err(expected));
    }
}

#[test]
fn a_sink_ends_whatever_it_is_asked() {
    let (rig, water) = (tackle(0.28, 0.127, 1), stream(0.9, 0.7, 0.05));
    let found = sound(&rig, &water, Under::PointOffBed(metres(0.1)), Lead::Free).expect("it drifts");
    for (share, longest) in [
        (0.9, f64::NAN),
        (0.9, -1.0),
        (0.9, 0.0),
        (f64::NAN, 5.0),
        (f64::INFINITY, 1e-3),
        (0.9, f64::INFINITY),
    ] {
        for cast in [Cast::Tuck, Cast::Up, Cast::Down] {
            let sunk = sink(&rig, &water, &found, cast, share, Time::new::<second>(longest));
            let numbers = sunk.moments.iter().all(|moment| {
                moment.time.is_finite() && moment.depths.iter().chain(&moment.along).all(|at| at.is_finite())
            });
            assert!(numbers && !sunk.moments.is_empty(), "{share} {longest} {cast:?}");
        }
    }
    let none = Drift {
        submerged: metres(0.0),
        ..found
    };
    let sunk = sink(&rig, &water, &none, Cast::Tuck, 0.9, Time::new::<second>(5.0));
    assert_eq!(sunk.moments.len(), 1);
    for depth in [0.0, f64::NAN] {
        let time = closed_form(&rig, &water, metres(depth), metres(1.0));
        assert!(
            time.is_none_or(|form| form.time.value == 0.0),
            "{depth}: {time:?}"
        );
    }
}

#[test]
fn lines_in_the_air_of_any_size_are_numbers() {
    for reach in [1e-6, 0.1, 4.5, 1e3, 1e6] {
        for tip in [-1.0, 0.0, 1.8, 1e3] {
            let air = Air::new(&[line(0.2), line(0.3)], From::Tip, metres(reach), metres(tip));
            let air = air.expect("it has sizes");
            for amount in [f64::NAN, f64::INFINITY, -1.0, 0.0, 1e-9, 0.1, 10.0, 1e9] {
                let curves = [
                    air.with_sag(metres(amount)),
                    air.with_length(metres(amount)),
                    air.under(force(amount)),
                ];
                for curve in curves.into_iter().flatten() {
                    let numbers = [
                        curve.pull.value,
                        curve.at_tip.value,
                        curve.at_entry.value,
                        curve.length.value,
                        curve.sag.value,
                    ];
                    assert!(
                        numbers.iter().all(|value| value.is_finite()),
                        "{reach} {tip} {amount}: {numbers:?}"
                    );
                }
            }
        }
    }
}
