//! Broken lines: what is found, where, and whether the way out leads out.

use snell_finding::Finding;
use snell_text::{Encoding, LineIndex, Position, Span, TextId};

const FIXTURE: &str = include_str!("data/faults.rig");

/// A fault by line and columns, counted from 0.
type Found = (u32, u32, u32, String);

#[test]
fn the_carets_tell_every_fault() {
    compare(FIXTURE);
}

#[test]
fn the_same_with_other_line_ends() {
    compare(&FIXTURE.replace('\n', "\r\n"));
}

#[test]
fn the_same_behind_characters_of_many_bytes() {
    compare(&format!("// 🎣 größe ″½ \u{2028}\n{FIXTURE}"));
}

fn compare(text: &str) {
    let expected: Vec<Found> = expected(text);
    let index = LineIndex::new(text);
    let found: Vec<Found> = faults(text)
        .iter()
        .map(|finding| {
            let span = finding.place().span;
            let at = |offset| index.position(text, offset, Encoding::Utf32);
            let (start, end) = (at(span.start), at(span.end));
            assert_eq!(start.line, end.line, "{finding:?}");
            (start.line, start.column, end.column, finding.code.to_string())
        })
        .collect();
    let only = |these: &[Found], those: &[Found]| -> Vec<Found> {
        these
            .iter()
            .filter(|found| !those.contains(found))
            .cloned()
            .collect()
    };
    assert_eq!(only(&found, &expected), only(&expected, &found));
    assert_eq!(found, expected);
    assert!(found.len() > 80);
}

fn expected(text: &str) -> Vec<Found> {
    let index = LineIndex::new(text);
    let caret_line = |line: u32| {
        let rest = index.line(line).of(text).trim_end().strip_prefix("//")?;
        let carets = rest.trim_start().strip_prefix('^').map(|_| rest)?;
        let start = 2 + carets.find('^')? as u32;
        let end = 3 + carets.rfind('^')? as u32;
        let name = carets.trim_matches([' ', '^']).to_owned();
        Some((line - 1, start, end, name))
    };
    (1..index.count()).filter_map(caret_line).collect()
}

fn faults(text: &str) -> Vec<Finding> {
    snell_syntax::read(text, TextId(0), &snell_syntax::whole(text)).findings
}

#[test]
fn a_sure_way_out_leads_out() {
    for line in FIXTURE.lines().filter(|line| !line.starts_with("//")) {
        for finding in faults(line) {
            let sure = finding.fixes.iter().filter(|fix| fix.sure);
            for fix in sure {
                let edits = fix.edits.iter().map(|edit| (edit.place.span, edit.new.clone()));
                let mended = snell_finding::apply(line, edits);
                assert_eq!(faults(&mended), [], "{line} became {mended}");
            }
        }
    }
}

#[test]
fn usual_slips_are_mended() {
    let cases = [
        ("  tippet 3'8 of 6X", "  tippet 3'8\" of 6X"),
        ("  tippet total/2 of 6X", "  tippet total / 2 of 6X"),
        ("  tippet 20 in/ 2", "  tippet 20 in / 2"),
        ("  let a = 2 ft+3 in", "  let a = 2 ft + 3 in"),
        ("  tippet depth -20 in", "  tippet depth - 20 in"),
        ("  hook # 14", "  hook #14"),
        ("  hook #14jig", "  hook #14 jig"),
        ("  hook #14-jig", "  hook #14 jig"),
        ("  note \"unclosed", "  note \"unclosed\""),
        ("  note “unclosed", "  note “unclosed”"),
        ("  note \"a // b", "  note \"a\" // b"),
        ("  tippet 1,200.5 mm", "  tippet 1200.5 mm"),
        ("  tippet 1,200,000 mm", "  tippet 1200000 mm"),
        ("  let a = min(1,2,3)", "  let a = min(1, 2, 3)"),
        ("fly a \"b\" from c", "fly a from c \"b\""),
        ("  let a = min (1 ft, 2 ft)", "  let a = min(1 ft, 2 ft)"),
        (
            "  let a = (depth times 2 // twice",
            "  let a = (depth times 2) // twice",
        ),
        ("  tippet (1 ft + 2 in of 6X", "  tippet (1 ft + 2 in) of 6X"),
        ("  length. 20 in", "  length 20 in"),
        ("  length 3 ft. 8 in. of 6X", "  length 3 ft 8 in of 6X"),
        ("  length: 10 ft", "  length 10 ft"),
        ("  length=10 ft", "  length 10 ft"),
        ("  expect total>=15 ft", "  expect total at least 15 ft"),
        ("  - hook #14", "  hook #14"),
        ("# a heading", "// a heading"),
        ("  bed 10' \"old\" #2", "  bed 10' #2 \"old\""),
        ("  length 20 in,, pink,", "  length 20 in, pink,"),
        ("  joins lines and ring", "  joins lines, ring"),
        ("  ring 2\u{0} mm", "  ring 2 mm"),
    ];
    for (line, mended) in cases {
        let findings = faults(line);
        let fix = findings.first().and_then(|finding| finding.fixes.first());
        let fix = fix.unwrap_or_else(|| panic!("no way out of {line}: {findings:?}"));
        let edits = fix.edits.iter().map(|edit| (edit.place.span, edit.new.clone()));
        assert_eq!(snell_finding::apply(line, edits), mended);
    }
}

#[test]
fn every_fault_stays_small_and_in_its_line() {
    let long = format!("  note \"{}\"", "a".repeat(snell_syntax::LINE_LIMIT));
    let deep = format!("  let a = {}1", "(".repeat(snell_syntax::NESTING_LIMIT + 1));
    let text = format!("{long}\n{deep}\n  hook #14\n");
    let findings = faults(&text);
    let names: Vec<_> = findings.iter().map(|finding| finding.code.name()).collect();
    assert_eq!(names, ["line-too-long", "nested-too-deep"]);
    assert_eq!(findings[0].place().span.of(&text), "note");
    assert_eq!(findings[1].place().span.of(&text), "(");
    let sound = format!("  let a = {}1{}", "(".repeat(32), ")".repeat(32));
    assert_eq!(faults(&sound), []);
}

#[test]
fn a_flood_of_faults_is_cut_off() {
    let text = "  hook #\n".repeat(10_000);
    let findings = faults(&text);
    assert_eq!(findings.len(), snell_syntax::FINDING_LIMIT + 1);
    let last = &findings[snell_syntax::FINDING_LIMIT];
    assert_eq!(last.code, "faults-left-out");
    assert!(last.message.starts_with("9000 more lines"), "{}", last.message);
    let index = LineIndex::new(&text);
    let place = index.position(&text, last.place().span.start, Encoding::Utf8);
    assert_eq!(
        place,
        Position {
            line: snell_syntax::FINDING_LIMIT as u32,
            column: 7
        }
    );
}

#[test]
fn every_name_is_explained() {
    for finding in faults(FIXTURE) {
        assert!(finding.code.known().is_some(), "{}", finding.code);
        assert!(finding.help.is_some(), "{} has no way out", finding.code);
        assert!(finding.message.ends_with('.'), "{}", finding.message);
    }
    let span = Span::new(0, 1);
    assert_eq!(faults("\u{0}")[0].place().span, span);
}
