//! One keystroke in a notebook of 10,500 lines, from the changed text to its
//! findings, beside a check of the whole text in the same run; to the answers
//! that an editor asks for then; and to the findings published by the server as
//! it ships.
//!
//! `cargo bench -p snell-tests --bench keystroke`.

use criterion::{BatchSize, Criterion, criterion_group, criterion_main};
use serde_json::json;
use snell_analysis::{Kind, LocalDisk, Notebook};
use snell_ide::Desk;
use snell_tests::{Build, Client};
use snell_text::Span;
use std::hint::black_box;
use std::path::Path;
use std::sync::Arc;

const RIGS: usize = 700;
const PATH: &str = "generated.rig";
const URI: &str = "file:///none/generated.rig";

/// The notebook before and after a keystroke in the middle of it, and the byte that is typed.
fn states(within: &str, typed: char) -> ([Arc<str>; 2], usize) {
    let text = snell_tests::generated_notebook(RIGS);
    let middle = text.len() / 2;
    let line = middle + text[middle..].find(within).expect("there are such lines");
    let at = line + within.len();
    let mut after = text.clone();
    after.insert(at, typed);
    ([text.into(), after.into()], at)
}

fn at_the_desk(c: &mut Criterion) {
    let cases = [
        ("a digit of a length", "\n  tippet  ", '1'),
        ("a letter of a name", "\n  point   ", 'q'),
        ("a letter in a comment", "\n// ", 'q'),
    ];
    for (name, within, typed) in cases {
        let (states, _) = states(within, typed);
        let mut desk = Desk::default();
        let path = Path::new(PATH);
        let mut turn = 0;
        desk.put(path, Kind::Rig, states[0].clone());
        desk.findings(path);
        c.bench_function(&format!("keystroke to findings: {name}"), |b| {
            b.iter(|| {
                turn += 1;
                // Every state is a text of its own, as an editor's are.
                let text: Arc<str> = Arc::from(&*states[turn % 2]);
                desk.put(path, Kind::Rig, text);
                black_box(desk.findings(path).map(|findings| findings.len()))
            });
        });
    }
    let (states, _) = states("\n  tippet  ", '1');
    c.bench_function("first findings of an opened text", |b| {
        b.iter_batched(
            || Arc::from(&*states[0]),
            |text: Arc<str>| {
                let mut desk = Desk::default();
                desk.put(Path::new(PATH), Kind::Rig, text);
                desk.findings(Path::new(PATH)).map(|findings| findings.len())
            },
            BatchSize::LargeInput,
        );
    });
    c.bench_function("the whole text checked", |b| {
        b.iter_batched(
            || states[0].to_string(),
            |text| {
                let book = Notebook::of_text(Path::new(PATH), Kind::Rig, text, &LocalDisk);
                snell_article::check(&book).len()
            },
            BatchSize::LargeInput,
        );
    });
}

/// What an editor asks for after each keystroke: with findings known, and only what changed read again.
fn asked_at_the_desk(c: &mut Criterion) {
    type Ask = fn(&mut Desk, &Path, u32) -> Option<usize>;
    let asks: [(&str, Ask); 6] = [
        ("hover", |desk, path, at| {
            let hover = desk.near(path, Span::empty(at), |book| snell_ide::hover(book, at))?;
            Some(usize::from(hover.is_some()))
        }),
        ("completions", |desk, path, at| {
            desk.near_named(path, Span::empty(at), |book| snell_ide::complete(book, at).len())
        }),
        ("hints of a screen", |desk, path, at| {
            let screen = Span::new(at.saturating_sub(1000), at + 1000);
            desk.near(path, screen, |book| snell_ide::hints(book, screen).len())
        }),
        ("colours", |desk, path, _| {
            Some(snell_ide::tokens(desk.notebook(path)?).len())
        }),
        ("totals of every rig", |desk, path, _| {
            Some(desk.lenses(path).len())
        }),
        ("outline", |desk, path, _| {
            Some(snell_ide::outline(desk.notebook(path)?).len())
        }),
    ];
    let (states, at) = states("\n  tippet  ", '1');
    let path = Path::new(PATH);
    let mut desk = Desk::default();
    desk.put(path, Kind::Rig, states[0].clone());
    desk.findings(path);
    desk.lenses(path);
    let mut turn = 0;
    for (name, ask) in asks {
        c.bench_function(&format!("keystroke to answer: {name}"), |b| {
            b.iter_batched(
                || {
                    turn += 1;
                    Arc::from(&*states[turn % 2])
                },
                |text: Arc<str>| {
                    desk.put(path, Kind::Rig, text);
                    black_box(ask(&mut desk, path, at as u32))
                },
                BatchSize::PerIteration,
            );
        });
    }
}

fn through_the_server(c: &mut Criterion) {
    let ([text, _], at) = states("\n  tippet  ", '1');
    let line = text[..at].matches('\n').count();
    let column = at - text[..at].rfind('\n').map_or(0, |end| end + 1);
    let mut client = Client::open(Build::Shipped, json!({}));
    client.open_text(URI, "rig", &text);
    client.findings(URI, 1);
    let mut version = 1;
    c.bench_function("keystroke to findings published", |b| {
        b.iter(|| {
            version += 1;
            let typed = version % 2 == 0;
            let end = if typed { column } else { column + 1 };
            let range = json!({
                "start": { "line": line, "character": column },
                "end": { "line": line, "character": end },
            });
            client.change(
                URI,
                version,
                &[json!({ "range": range, "text": if typed { "1" } else { "" } })],
            );
            black_box(client.findings(URI, version).len())
        });
    });
}

criterion_group!(benches, at_the_desk, asked_at_the_desk, through_the_server);
criterion_main!(benches);
