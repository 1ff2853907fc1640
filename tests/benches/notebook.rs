//! How long a notebook of 700 rigs and 10,500 lines takes: to be read, to be
//! evaluated, and to be checked from text to findings; and how long one rig takes
//! in its water.
//!
//! `cargo bench -p snell-tests`. Beside other checkers: `tests/speed.py`.

use criterion::{BatchSize, Criterion, criterion_group, criterion_main};
use snell_analysis::{Kind, LocalDisk, Notebook};
use snell_rig::faults::Faults;
use snell_rig::measure::{self, Thing};
use snell_rig::{Evaluation, World};
use snell_syntax::BlockKind;
use snell_text::TextId;
use std::hint::black_box;
use std::path::Path;

const RIGS: usize = 700;

fn reading(c: &mut Criterion) {
    let text = snell_tests::generated_notebook(RIGS);
    let lines = snell_syntax::whole(&text);
    c.bench_function("cut into lines", |b| {
        b.iter(|| snell_syntax::whole(black_box(&text)))
    });
    c.bench_function("read", |b| {
        b.iter(|| snell_syntax::read(black_box(&text), TextId(0), &lines))
    });
    let mut reader = snell_syntax::Reader::new();
    reader.read(&text, TextId(0), &lines);
    c.bench_function("read again, every line known", |b| {
        b.iter(|| reader.read(black_box(&text), TextId(0), &lines))
    });
}

fn evaluating(c: &mut Criterion) {
    let book = opened(snell_tests::generated_notebook(RIGS));
    let project = book.project();
    c.bench_function("read every block but rigs", |b| {
        b.iter(|| {
            let world = World::new(black_box(project));
            let blocks = project.own_blocks();
            blocks.map(|block| world.findings(block.id).len()).sum::<usize>()
        })
    });
    let world = World::new(project);
    let own = project.files().filter(|file| !project.ships(*file));
    let blocks: Vec<_> = own.flat_map(|file| project.blocks(file)).collect();
    let is_rig = |block: &&snell_rig::project::BlockRef<'_>| {
        block.head().is_some_and(|head| head.kind == BlockKind::Rig)
    };
    let rigs: Vec<_> = blocks.iter().filter(is_rig).collect();
    c.bench_function("evaluate the rigs, one thread", |b| {
        b.iter(|| {
            for block in &rigs {
                let rig = snell_rig::read(&world, **block, &Faults::default());
                let evaluation = Evaluation::new(&world, &rig);
                evaluation.run();
                black_box(evaluation.into_findings());
            }
        });
    });
    c.bench_function("check what was read", |b| {
        b.iter(|| snell_article::check(black_box(&book)).len())
    });
}

fn whole(c: &mut Criterion) {
    let text = snell_tests::generated_notebook(RIGS);
    c.bench_function("check, from text to findings", |b| {
        b.iter_batched(
            || text.clone(),
            |text| snell_article::check(&opened(text)).len(),
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
    let world = World::new(project);
    let found: usize = project
        .own_blocks()
        .map(|block| world.findings(block.id).len())
        .sum();
    let own = project.files().filter(|file| !project.ships(*file));
    let blocks: Vec<_> = own.flat_map(|file| project.blocks(file)).collect();
    let rigs: Vec<_> = blocks
        .into_iter()
        .filter(|block| block.head().is_some_and(|head| head.kind == BlockKind::Rig))
        .collect();
    let of_rigs = snell_analysis::in_threads(&rigs, |block| {
        let rig = snell_rig::read(&world, *block, &Faults::default());
        let evaluation = Evaluation::new(&world, &rig);
        evaluation.run();
        Some(evaluation.into_findings().len())
    });
    let of_rigs: usize = of_rigs.into_iter().sum();
    found + of_rigs
}

/// A rig that every rule about the water has something to ask of. Its tippet is shorter than the drift wants, so that
/// the drift is solved twice: for what it wants, and for what there is.
const IN_WATER: &str = "water run
  depth   90 cm
  surface 0.7 m/s
  bed     cobble
  run     7 m

rig one
  method  tight-line
  water   run
  reach   3 m
  butt    5 m    of 0.15 mm nylon
  sighter 40 cm  of 0.15 mm nylon
  ring    2 mm
  tippet  35 cm  of 6X fluoro
  dropper 12 cm  with #16 2 mm tungsten
  tippet  40 cm  of 6X fluoro
  point   #14 2.8 mm tungsten
";

fn in_water(c: &mut Criterion) {
    let book = opened(IN_WATER.to_owned());
    let world = World::new(book.project());
    let files = world.project.files().filter(|file| !world.project.ships(*file));
    let block = files
        .flat_map(|file| world.project.blocks(file))
        .find(|block| block.head().is_some_and(|head| head.kind == BlockKind::Rig))
        .expect("there is a rig in it");
    let rig = snell_rig::read(&world, block, &Faults::default());
    let told = |wanted: &[(Thing, &str)]| {
        let evaluation = Evaluation::new(&world, &rig);
        for (thing, name) in wanted {
            let measure = measure::of(thing.kind(), name).expect("there is such a measure");
            black_box(evaluation.measure(measure, *thing)).expect("the rig says all that it needs");
        }
    };
    let flies: Vec<_> = rig.chain.flies().map(|(id, _)| id).collect();
    let drift = [
        (Thing::Rig, "tippet-needed"),
        (Thing::Fly(flies[0]), "drags"),
        (Thing::Fly(flies[1]), "drags"),
    ];
    let sink = [(Thing::Rig, "sink-run")];
    let sag = [(Thing::Rig, "sag"), (Thing::Rig, "draws-in")];
    c.bench_function("one rig, all that rules ask of its drift", |b| {
        b.iter(|| told(&drift))
    });
    c.bench_function("the same and its sink", |b| {
        b.iter(|| told(&[&drift[..], &sink].concat()))
    });
    c.bench_function("the same as the first and its sag", |b| {
        b.iter(|| told(&[&drift[..], &sag].concat()))
    });
}

/// A card for the pocket, with every fly of a box tried in every water until one fishes.
fn card(c: &mut Criterion) {
    let examples = snell_tests::top().join("examples");
    let book = Notebook::open(&[examples], &LocalDisk).expect("the examples");
    let asked = snell_view::Asked::default();
    let wanted = |rig: &str, _: &str| rig == "opening";
    let mut group = c.benchmark_group("card");
    group.sample_size(10);
    group.bench_function("the examples' box, all depths and speeds", |b| {
        b.iter(|| snell_view::cards(&book, snell_view::Units::Author, &asked, &|_, _| {}, wanted))
    });
    group.finish();
}

fn opened(text: String) -> Notebook {
    Notebook::of_text(Path::new("generated.rig"), Kind::Rig, text, &LocalDisk)
}

criterion_group!(benches, reading, evaluating, whole, in_water, card);
criterion_main!(benches);
