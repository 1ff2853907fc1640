//! How long one answer takes: a drift by height and by length, a sink, the sag that a rig settles to, and a
//! drift that is held back until its line never comes up, which is the slowest there is.

#![allow(missing_docs, reason = "criterion's macros make the public items")]

#[path = "../tests/given/mod.rs"]
mod given;

use criterion::{Criterion, criterion_group, criterion_main};
use given::{Given, metres, own_folder};
use snell_water::drift::{Lead, Under, drift};
use snell_water::sag::{Across, settled};
use snell_water::sink::{Cast, sink};
use snell_water::{Profile, Stream};
use std::hint::black_box;
use uom::si::f64::{Time, Velocity};
use uom::si::time::second;
use uom::si::velocity::meter_per_second;

fn answers(criterion: &mut Criterion) {
    let given: Given = given::read(&own_folder().join("rig_base.in.json"));
    let (tackle, stream, under) = (given.tackle(), given.stream(), given.under());
    let off_bed = Under::PointOffBed(metres(0.1));
    let drifting = drift(&tackle, &stream, under, Lead::Free).expect("it drifts");
    let air = given.air();

    criterion.bench_function("drift by height", |bench| {
        bench.iter(|| drift(&tackle, &stream, black_box(off_bed), Lead::Free));
    });
    criterion.bench_function("drift by length", |bench| {
        bench.iter(|| drift(&tackle, &stream, black_box(under), Lead::Free));
    });
    let deep = Stream {
        profile: Profile::over_bed(metres(5.0), Velocity::new::<meter_per_second>(1.5), metres(0.15)),
        ..stream
    };
    let held = Lead::Speed(Velocity::new::<meter_per_second>(0.0));
    criterion.bench_function("drift that is held in deep water", |bench| {
        bench.iter(|| drift(&tackle, &deep, black_box(off_bed), held));
    });
    criterion.bench_function("sink", |bench| {
        let longest = Time::new::<second>(12.0);
        bench.iter(|| sink(&tackle, &stream, &drifting, black_box(Cast::Tuck), 0.95, longest));
    });
    criterion.bench_function("settled sag", |bench| {
        bench.iter(|| settled(&air, &tackle, &stream, black_box(under), Across::Up));
    });
}

criterion_group!(benches, answers);
criterion_main!(benches);
