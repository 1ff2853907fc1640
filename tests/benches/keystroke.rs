//! One keystroke in a notebook of 10,500 lines, from the changed text to its
//! findings, beside a check of the whole text in the same run; to the answers
//! that an editor asks for then; and to the findings published by the server as
//! it ships.
//!
//! `cargo bench -p snell-tests --bench keystroke`.

use criterion::{BatchSize, Criterion, criterion_group, criterion_main};
use serde_json::json;
use snell_analysis::{Kind, LocalDisk, Notebook};
use snell_ide::Workspace;
use snell_tests::{Build, Client, hard};
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

fn in_a_workspace(c: &mut Criterion) {
    let cases = [
        ("a digit of a length", "\n  tippet  ", '1'),
        ("a letter of a name", "\n  point   ", 'q'),
        ("a letter in a comment", "\n// ", 'q'),
    ];
    for (name, within, typed) in cases {
        let (states, _) = states(within, typed);
        let workspace = Workspace::default();
        let mut turn = 0;
        findings(&workspace, &states[0]);
        c.bench_function(&format!("keystroke to findings: {name}"), |b| {
            b.iter(|| {
                turn += 1;
                // Every state is a text of its own, as an editor's are.
                black_box(findings(&workspace, &states[turn % 2]))
            });
        });
    }
    for rigs in [20, 200] {
        let states = [
            hard::with_findings(rigs, "20 cm"),
            hard::with_findings(rigs, "210 cm"),
        ];
        let workspace = Workspace::default();
        let mut turn = 0;
        findings(&workspace, &states[0]);
        c.bench_function(
            &format!("keystroke to findings: {rigs} rigs with three findings each"),
            |b| {
                b.iter(|| {
                    turn += 1;
                    black_box(findings(&workspace, &states[turn % 2]))
                });
            },
        );
    }
    let (states, _) = states("\n  tippet  ", '1');
    c.bench_function("first findings of an opened text", |b| {
        b.iter(|| findings(&Workspace::default(), &states[0]));
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

/// The text as the newest state, and how much is found in it.
fn findings(workspace: &Workspace, text: &str) -> Option<usize> {
    let path = Path::new(PATH);
    workspace.put(path, Kind::Rig, Arc::from(text));
    Some(workspace.snapshot(path)?.findings(&|| false)?.len())
}

/// What an editor asks for after each keystroke: with findings known, and only what changed read again.
fn asked_in_a_workspace(c: &mut Criterion) {
    type Ask = fn(&Notebook, u32) -> usize;
    let asks: [(&str, Ask); 6] = [
        ("hover", |book, at| {
            usize::from(snell_ide::hover(book, at).is_some())
        }),
        ("completions", |book, at| snell_ide::complete(book, at).len()),
        ("hints of a screen", |book, at| {
            snell_ide::hints(book, Span::new(at.saturating_sub(1000), at + 1000)).len()
        }),
        ("colours", |book, _| snell_ide::tokens(book).len()),
        ("totals of every rig", |book, _| snell_ide::lenses(book).len()),
        ("outline", |book, _| snell_ide::outline(book).len()),
    ];
    let (states, at) = states("\n  tippet  ", '1');
    let workspace = Workspace::default();
    let path = Path::new(PATH);
    let mut turn = 0;
    for (name, ask) in asks {
        findings(&workspace, &states[turn % 2]);
        c.bench_function(&format!("keystroke to answer: {name}"), |b| {
            b.iter(|| {
                turn += 1;
                workspace.put(path, Kind::Rig, Arc::from(&*states[turn % 2]));
                let snapshot = workspace.snapshot(path).expect("it is open");
                black_box(ask(snapshot.notebook(), at as u32))
            });
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

/// The same where every rig has findings, all of which are told again.
fn published_with_findings(c: &mut Criterion) {
    let text = hard::with_findings(200, "20 cm");
    let at = text.find("20 cm").expect("the first sighter");
    let line = text[..at].matches('\n').count();
    let column = at - text[..at].rfind('\n').map_or(0, |end| end + 1);
    let mut client = Client::open(Build::Shipped, json!({}));
    client.open_text(URI, "rig", &text);
    client.findings(URI, 1);
    let mut version = 1;
    c.bench_function(
        "keystroke to findings published: 200 rigs with three findings each",
        |b| {
            b.iter(|| {
                version += 1;
                let typed = version % 2 == 0;
                let end = if typed { column } else { column + 1 };
                let range = json!({
                    "start": { "line": line, "character": column },
                    "end": { "line": line, "character": end },
                });
                let new = if typed { "2" } else { "" };
                client.change(URI, version, &[json!({ "range": range, "text": new })]);
                black_box(client.findings(URI, version).len())
            });
        },
    );
}

criterion_group!(
    benches,
    in_a_workspace,
    asked_in_a_workspace,
    through_the_server,
    published_with_findings
);
criterion_main!(benches);
