//! How long one answer takes.

#![allow(missing_docs, reason = "criterion's macros make the public items")]

#[path = "../tests/given/mod.rs"]
mod given;

use criterion::{Criterion, criterion_group, criterion_main};
use given::{Given, example, metres, speed};
use snell_water::drift::{Lead, Under, drift, states};
use snell_water::sink::{Cast, sink};
use snell_water::spread::{Spread, Uncertain};
use snell_water::{Profile, Stream};
use std::hint::black_box;
use uom::si::f64::Time;
use uom::si::time::second;

fn drifts(criterion: &mut Criterion) {
    let given: Given = example("rig_base");
    let (tackle, stream, under) = (given.tackle(), given.stream(), given.under());
    let off_bed = Under::PointOffBed(metres(0.1));
    criterion.bench_function("drift by height", |bench| {
        bench.iter(|| drift(&tackle, &stream, black_box(off_bed), Lead::Free));
    });
    criterion.bench_function("drift by length", |bench| {
        bench.iter(|| drift(&tackle, &stream, black_box(under), Lead::Free));
    });
    let deep = Stream {
        profile: Profile::over_bed(metres(5.0), speed(1.5), metres(0.15)),
        ..stream
    };
    criterion.bench_function("drift that is held in deep water", |bench| {
        bench.iter(|| drift(&tackle, &deep, black_box(off_bed), Lead::Speed(speed(0.0))));
    });
    let length = metres(0.85);
    criterion.bench_function("states of a free drift", |bench| {
        bench.iter(|| states(&tackle, &stream, black_box(length), &Lead::Free));
    });
    let held = example("held_three_states_up");
    let (one, fast, lead) = (held.tackle(), held.stream(), held.lead());
    criterion.bench_function("states of a held drift", |bench| {
        bench.iter(|| states(&one, &fast, black_box(metres(1.035)), &lead));
    });
    let float = example("float_with_shot");
    let (hangs, water, lead) = (float.tackle(), float.stream(), float.lead());
    criterion.bench_function("states below a float", |bench| {
        bench.iter(|| states(&hangs, &water, black_box(metres(1.25)), &lead));
    });
    let reach = Lead::Reach(given.reach().expect("it has a reach"));
    criterion.bench_function("states below a reach", |bench| {
        bench.iter(|| states(&tackle, &stream, black_box(length), &reach));
    });
    let wind = Lead::Reach(given.reach_in(Some((4.0, "up"))).expect("it has a reach"));
    criterion.bench_function("states below a reach in the wind", |bench| {
        bench.iter(|| states(&tackle, &stream, black_box(length), &wind));
    });
}

fn sinks(criterion: &mut Criterion) {
    let given: Given = example("rig_base");
    let (tackle, stream) = (given.tackle(), given.stream());
    let drifting = drift(&tackle, &stream, given.under(), Lead::Free).expect("it drifts");
    for (cast, name) in [(Cast::Tuck, "tuck"), (Cast::Up, "up"), (Cast::Down, "down")] {
        criterion.bench_function(&format!("sink to 90 %, cast {name}"), |bench| {
            let longest = Time::new::<second>(12.0);
            bench.iter(|| sink(&tackle, &stream, &drifting, black_box(cast), 0.9, longest));
        });
    }
}

fn bands(criterion: &mut Criterion) {
    for (name, sink_to) in [
        ("drift's measures", None),
        ("drift's measures and the sink", Some(0.9)),
    ] {
        for example in [
            "spread_two_free",
            "spread_one_held_share",
            "held_three_states_up",
            "held_three_states_tuck",
            "wind_up2_028_45",
            "wind_down4_028_30",
            "wind_across4_028_45",
        ] {
            let rig = given::example(example).rig();
            let uncertain = Uncertain::default();
            criterion.bench_function(&format!("bands of a {name}, {example}"), |bench| {
                bench.iter(|| {
                    let settled = rig.settles().ok()?;
                    let drawn = Spread::of(&rig, settled.shown(), &uncertain);
                    let drawn = drawn.with_needed(&rig, settled.shown(), &uncertain, black_box(metres(0.1)));
                    Some(match sink_to {
                        Some(share) => drawn.with_sinks(&rig, &uncertain, share),
                        None => drawn,
                    })
                });
            });
        }
    }
}

criterion_group! {
    name = benches;
    config = Criterion::default().sample_size(20);
    targets = drifts, sinks, bands
}
criterion_main!(benches);
