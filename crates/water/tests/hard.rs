//! Hard cases end in figures that are numbers, or in a plain word.

use uom::si::f64::*;
use uom::si::force::newton;
use uom::si::length::{meter, millimeter};
use uom::si::mass::gram;
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::thermodynamic_temperature::degree_celsius;
use uom::si::time::second;
use uom::si::velocity::meter_per_second;
use uom::si::volume::cubic_meter;
use water::drift::{Drift, Lead, NoDrift, Under, drift};
use water::sag::{Across, Air, From, creep, settled};
use water::sink::{Cast, sink};
use water::{Fluid, Fly, Hung, NoTackle, Profile, Strand, Stream, Tackle};

fn metres(length: f64) -> Length {
    Length::new::<meter>(length)
}

fn line(length: f64, diameter: f64) -> Strand {
    let density = MassDensity::new::<kilogram_per_cubic_meter>(1780.0);
    Strand::new(metres(length), Length::new::<millimeter>(diameter), density)
}

/// A dressed fly of a mass in grams; a third of it is what it displaces, as of brass and fur.
fn fly(mass: f64) -> Fly {
    let mass = Mass::new::<gram>(mass);
    let displaced = Volume::new::<cubic_meter>(mass.value / 3000.0);
    Fly::new(mass, displaced, metres((displaced.value * 3.0).cbrt()), 0.7)
}

fn stream(depth: f64, speed: f64) -> Stream {
    let speed = Velocity::new::<meter_per_second>(speed);
    Stream {
        profile: Profile::over_bed(metres(depth), speed, metres(0.1)),
        fluid: Fluid::at(ThermodynamicTemperature::new::<degree_celsius>(10.0)),
    }
}

fn rig(mass: f64, diameter: f64, droppers: usize) -> Tackle {
    let hung = (1..=droppers).map(|place| Hung {
        fly: fly(mass / 2.0),
        above_point: metres(0.3 * place as f64),
        tag: (place % 2 == 0).then(|| line(0.12, diameter)),
    });
    Tackle::new(fly(mass), vec![line(20.0, diameter)], hung.collect()).expect("a sound tackle")
}

#[track_caller]
fn all_numbers(drift: &Drift) {
    let own = [
        drift.speed.value,
        drift.submerged.value,
        drift.pull.value,
        drift.load.value,
    ];
    let rides = drift.rides.iter().flat_map(|ride| {
        [
            ride.depth.value,
            ride.off_bed.value,
            ride.ahead.value,
            ride.drag.value,
            ride.tension.value,
        ]
    });
    let places = drift
        .line
        .iter()
        .flat_map(|(along, height)| [along.value, height.value]);
    assert!(
        own.into_iter().chain(rides).chain(places).all(f64::is_finite),
        "{drift:?}"
    );
}

#[test]
fn every_pair_of_hard_figures() {
    let mut drifts = 0;
    for depth in [0.05, 0.3, 1.0, 5.0] {
        for speed in [0.0, 0.05, 0.7, 3.0] {
            for (mass, diameter) in [(0.05, 0.076), (0.05, 0.5), (2.0, 0.076), (2.0, 0.5)] {
                for droppers in [0, 9] {
                    let (tackle, stream) = (rig(mass, diameter, droppers), stream(depth, speed));
                    for under in [
                        Under::Length(metres(depth * 1.2)),
                        Under::PointOffBed(metres(depth * 0.2)),
                    ] {
                        for lead in [
                            Lead::Free,
                            Lead::Speed(Velocity::new::<meter_per_second>(speed / 2.0)),
                        ] {
                            match drift(&tackle, &stream, under, lead) {
                                Ok(found) => {
                                    all_numbers(&found);
                                    drifts += 1;
                                }
                                Err(NoDrift::OnBed { lifts }) => {
                                    assert!(lifts.value > 0.0 && lifts < metres(depth * 1.2), "{lifts:?}");
                                }
                                Err(none) => {
                                    assert_eq!(none, NoDrift::NeverUp, "{depth} {speed} {mass} {diameter}")
                                }
                            }
                        }
                    }
                }
            }
        }
    }
    assert!(drifts > 150, "most of them drift: {drifts}");
}

#[test]
fn the_length_that_just_lifts_the_point() {
    let (tackle, stream) = (rig(0.28, 0.127, 0), stream(0.9, 0.7));
    let with = |length: Length| drift(&tackle, &stream, Under::Length(length), Lead::Free);
    let Err(NoDrift::OnBed { lifts }) = with(metres(2.0)) else {
        panic!("two metres lie on the bed of ninety centimetres");
    };
    let hair = Length::new::<millimeter>(2.0);
    assert!(with(lifts - hair).is_ok());
    assert!(matches!(with(lifts + hair), Err(NoDrift::OnBed { .. })));
}

#[test]
fn sinks_of_hard_figures() {
    for (depth, mass, diameter) in [
        (0.05, 2.0, 0.5),
        (0.05, 0.05, 0.076),
        (5.0, 0.05, 0.5),
        (5.0, 2.0, 0.076),
    ] {
        let (tackle, stream) = (rig(mass, diameter, 2), stream(depth, 0.6));
        let under = Under::Length(metres(depth * 0.9));
        let drifting = drift(&tackle, &stream, under, Lead::Free).expect("it drifts");
        for cast in [Cast::Tuck, Cast::Up, Cast::Down] {
            for longest in [60.0, 0.0, -1.0, f64::NAN] {
                let sunk = sink(
                    &tackle,
                    &stream,
                    &drifting,
                    cast,
                    0.9,
                    Time::new::<second>(longest),
                );
                let deep = sunk.moments.iter().flat_map(|moment| &moment.depths);
                assert!(deep.clone().count() > 0 && deep.clone().all(|depth| depth.is_finite()));
            }
        }
    }
}

#[test]
fn what_is_no_number_is_told() {
    let (tackle, stream) = (rig(0.28, 0.127, 0), stream(0.9, 0.7));
    let length = Under::Length(metres(0.8));
    for wrong in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
        let speed = Lead::Speed(Velocity::new::<meter_per_second>(wrong));
        assert_eq!(drift(&tackle, &stream, length, speed), Err(NoDrift::NoNumber));
        let pull = Lead::Pull(Force::new::<newton>(wrong));
        assert_eq!(drift(&tackle, &stream, length, pull), Err(NoDrift::NoNumber));
        assert!(drift(&tackle, &stream, Under::Length(metres(wrong)), Lead::Free).is_err());
        assert!(drift(&tackle, &stream, Under::PointOffBed(metres(wrong)), Lead::Free).is_err());
        assert!(Tackle::new(fly(wrong), vec![line(1.0, 0.1)], Vec::new()).is_err());
        assert!(Air::new(&[line(4.0, wrong)], From::Tip, metres(4.0), metres(1.0)).is_none());
    }
    assert_eq!(
        drift(&tackle, &stream, Under::PointOffBed(metres(-0.1)), Lead::Free),
        Err(NoDrift::NoNumber)
    );
    assert_eq!(
        drift(&tackle, &stream, Under::PointOffBed(metres(0.9)), Lead::Free),
        Err(NoDrift::OverSurface)
    );
    let below = Hung {
        fly: fly(0.1),
        above_point: metres(-1.0),
        tag: None,
    };
    let placed = Tackle::new(fly(0.1), vec![line(1.0, 0.1)], vec![below]);
    assert_eq!(placed, Err(NoTackle::NoPlace));
    assert_eq!(
        Tackle::new(fly(0.1), Vec::new(), Vec::new()),
        Err(NoTackle::NoLine)
    );
}

#[test]
fn a_fly_that_floats_is_told() {
    let cork = Fly::new(
        Mass::new::<gram>(0.1),
        Volume::new::<cubic_meter>(2e-7),
        metres(0.007),
        0.7,
    );
    let hung = Hung {
        fly: cork,
        above_point: metres(0.3),
        tag: None,
    };
    let tackle = Tackle::new(fly(0.2), vec![line(1.0, 0.1)], vec![hung]).expect("it can be tied");
    let found = drift(&tackle, &stream(0.9, 0.7), Under::Length(metres(0.8)), Lead::Free);
    assert_eq!(found, Err(NoDrift::Floats(1)));
}

#[test]
fn sag_of_hard_figures() {
    let (tackle, stream) = (rig(0.28, 0.127, 1), stream(0.9, 0.7));
    let under = Under::Length(metres(0.8));
    for (reach, tip) in [(0.01, 0.0), (4.5, -0.5), (4.5, 0.0), (4.5, 30.0), (1000.0, 2.0)] {
        let air =
            Air::new(&[line(6.0, 0.28)], From::Entry, metres(reach), metres(tip)).expect("there is line");
        for allowed in [1e-6, 0.1, 10.0] {
            if let Some(curve) = air.with_sag(metres(allowed)) {
                assert!(
                    (curve.sag.value - allowed).abs() < 1e-3 * allowed + 1e-9 * reach,
                    "{reach} {tip} {allowed}"
                );
                assert!(curve.pull.is_finite() && curve.length.is_finite());
                if let Ok(crept) = creep(&tackle, &stream, under, curve.pull) {
                    all_numbers(&crept);
                }
            }
        }
        if let Ok(found) = settled(&air, &tackle, &stream, under, Across::Stream) {
            all_numbers(&found.drift);
            assert!(found.curve.sag.is_finite());
        }
    }
}
