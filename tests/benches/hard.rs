//! Notebooks of the shapes that were slow once, checked from text to findings
//! with mends, and asked for one rig.
//!
//! `cargo bench -p snell-tests --bench hard`. What counts is how a figure grows
//! with the size beside it; `cases/growth.rs` holds that by counting.

use criterion::{BatchSize, Criterion, criterion_group, criterion_main};
use snell_analysis::{Kind, LocalDisk, Notebook};
use snell_tests::hard;
use snell_view::Units;
use std::path::Path;

fn opened(text: String) -> Notebook {
    Notebook::of_text(Path::new("hard.rig"), Kind::Rig, text, &LocalDisk)
}

fn checked(c: &mut Criterion) {
    let cases = [
        ("5 pairs, 25 variants", hard::pairs(5, 25)),
        ("5 pairs, 50 variants", hard::pairs(5, 50)),
        ("20 pairs, 50 variants", hard::pairs(20, 50)),
        ("20 pairs", hard::pairs(20, 0)),
        ("40 pairs", hard::pairs(40, 0)),
        ("30 rules with mends", hard::rules(30)),
        ("60 rules with mends", hard::rules(60)),
        ("750 unknown names among 8000", hard::unknown_flies(8_000, 750)),
        ("1500 unknown names among 8000", hard::unknown_flies(8_000, 1_500)),
    ];
    for (name, text) in cases {
        c.bench_function(&format!("check {name}"), |b| {
            b.iter_batched(
                || text.clone(),
                |text| snell_article::check(&opened(text)).len(),
                BatchSize::LargeInput,
            );
        });
    }
}

fn shown(c: &mut Criterion) {
    for rigs in [1, 1_000] {
        let text = hard::rigs(rigs);
        c.bench_function(&format!("show one rig of {rigs}"), |b| {
            b.iter_batched(
                || text.clone(),
                |text| snell_view::show(&opened(text), Units::Author, |name, _| name == "r0").len(),
                BatchSize::LargeInput,
            );
        });
    }
}

criterion_group! {
    name = benches;
    config = Criterion::default().sample_size(10);
    targets = checked, shown
}
criterion_main!(benches);
