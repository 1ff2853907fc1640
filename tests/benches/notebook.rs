//! How long a notebook of 700 rigs and 10,500 lines takes: to be read, to be
//! evaluated, and to be checked from text to findings.
//!
//! `cargo bench -p snell-tests`. Beside other checkers: `tests/speed.py`.

use criterion::{BatchSize, Criterion, criterion_group, criterion_main};
use notebook::{Kind, LocalDisk, Notebook};
use rig::value::Faults;
use rig::{Evaluation, World};
use std::hint::black_box;
use std::path::Path;
use std::thread;
use syntax::BlockKind;
use text::TextId;

const RIGS: usize = 700;

fn reading(c: &mut Criterion) {
    let text = snell_tests::generated_notebook(RIGS);
    let lines = syntax::whole(&text);
    c.bench_function("cut into lines", |b| b.iter(|| syntax::whole(black_box(&text))));
    c.bench_function("read", |b| {
        b.iter(|| syntax::read(black_box(&text), TextId(0), &lines))
    });
    let mut reader = syntax::Reader::new();
    reader.read(&text, TextId(0), &lines);
    c.bench_function("read again, every line known", |b| {
        b.iter(|| reader.read(black_box(&text), TextId(0), &lines))
    });
}

fn evaluating(c: &mut Criterion) {
    let book = opened(snell_tests::generated_notebook(RIGS));
    let project = book.project();
    c.bench_function("look up names and shared blocks", |b| {
        b.iter(|| World::new(black_box(project)).1.len())
    });
    let (world, _) = World::new(project);
    let own = project.files().filter(|file| !project.ships(*file));
    let blocks: Vec<_> = own.flat_map(|file| project.blocks(file)).collect();
    let is_rig =
        |block: &&rig::project::BlockRef<'_>| block.head().is_some_and(|head| head.kind == BlockKind::Rig);
    let rigs: Vec<_> = blocks.iter().filter(is_rig).collect();
    c.bench_function("evaluate the rigs, one thread", |b| {
        b.iter(|| {
            for block in &rigs {
                let rig = rig::rig::read(&world, **block, &Faults::default());
                let evaluation = Evaluation::new(&world, &rig);
                evaluation.run();
                black_box(evaluation.into_findings());
            }
        });
    });
    c.bench_function("check what was read", |b| {
        b.iter(|| notebook::check(black_box(&book)).len())
    });
}

fn whole(c: &mut Criterion) {
    let text = snell_tests::generated_notebook(RIGS);
    c.bench_function("check, from text to findings", |b| {
        b.iter_batched(
            || text.clone(),
            |text| notebook::check(&opened(text)).len(),
            BatchSize::LargeInput,
        );
    });
    c.bench_function("the same without rules", |b| {
        b.iter_batched(
            || text.clone(),
            |text| without_rules(&opened(text)),
            BatchSize::LargeInput,
        );
    });
}

/// What a check does without its rules: names, shared blocks, and every rig with its claims, by all threads.
fn without_rules(book: &Notebook) -> usize {
    let project = book.project();
    let (world, found) = World::new(project);
    let own = project.files().filter(|file| !project.ships(*file));
    let blocks: Vec<_> = own.flat_map(|file| project.blocks(file)).collect();
    let rigs: Vec<_> = blocks
        .into_iter()
        .filter(|block| block.head().is_some_and(|head| head.kind == BlockKind::Rig))
        .collect();
    let threads = thread::available_parallelism().map_or(1, usize::from);
    let of_rig = |block: &rig::project::BlockRef<'_>| {
        let rig = rig::rig::read(&world, *block, &Faults::default());
        let evaluation = Evaluation::new(&world, &rig);
        evaluation.run();
        evaluation.into_findings().len()
    };
    let of_rigs: usize = thread::scope(|scope| {
        let shares = rigs.chunks(rigs.len().div_ceil(threads));
        let of_rig = &of_rig;
        let running: Vec<_> = shares
            .map(|share| scope.spawn(move || share.iter().map(of_rig).sum::<usize>()))
            .collect();
        running
            .into_iter()
            .map(|share| share.join().unwrap_or_default())
            .sum()
    });
    found.len() + of_rigs
}

fn opened(text: String) -> Notebook {
    Notebook::of_text(Path::new("generated.rig"), Kind::Rig, text, &LocalDisk)
}

criterion_group!(benches, reading, evaluating, whole);
criterion_main!(benches);
