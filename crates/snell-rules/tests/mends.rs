//! A sure mend does what it says and nothing else: the finding is gone, no
//! other has come, and every other line of the text is as it was.
//!
//! Each mend is made on the text, as a person's editor would make it, and the
//! whole text is read again.

mod common;

use common::findings;
use proptest::prelude::*;
use snell_finding::{Finding, Fix};
use snell_text::Span;
use std::fs;
use std::path::Path;

/// The lines of the rig files in a text: of its Markdown fences, or all of them.
fn lines(text: &str, markdown: bool) -> Vec<Span> {
    if markdown {
        return snell_text::fences(text)
            .into_iter()
            .flat_map(|fence| fence.lines)
            .collect();
    }
    snell_syntax::whole(text).concat()
}

fn found(text: &str, markdown: bool) -> Vec<Finding> {
    findings(text, &lines(text, markdown))
}

/// Findings by rig and name, to compare two readings.
fn keys(findings: &[Finding]) -> Vec<(Option<String>, String)> {
    let mut keys: Vec<_> = findings
        .iter()
        .map(|finding| (finding.rig.clone(), finding.code.to_string()))
        .collect();
    keys.sort();
    keys
}

fn mended(text: &str, fix: &Fix) -> String {
    snell_finding::apply(
        text,
        fix.edits.iter().map(|edit| (edit.place.span, edit.new.clone())),
    )
}

/// The lines of `after` that `before` has not, and the lines of `before` that are gone.
fn changed(before: &str, after: &str) -> (Vec<String>, Vec<String>) {
    let split = |text: &str| text.split_inclusive('\n').map(str::to_owned).collect::<Vec<_>>();
    let (before, after) = (split(before), split(after));
    let start = before
        .iter()
        .zip(&after)
        .take_while(|(one, other)| one == other)
        .count();
    let rest = before.len().min(after.len()) - start;
    let end = before
        .iter()
        .rev()
        .zip(after.iter().rev())
        .take(rest)
        .take_while(|(one, other)| one == other)
        .count();
    (
        after[start..after.len() - end].to_vec(),
        before[start..before.len() - end].to_vec(),
    )
}

/// Makes every sure mend of a text by itself; what is wrong with any is told.
fn prove(text: &str, markdown: bool) -> Result<Vec<String>, String> {
    prove_of(text, markdown, |_| true)
}

/// Makes the sure mends of those rigs that are wanted.
fn prove_of(text: &str, markdown: bool, wanted: impl Fn(&str) -> bool) -> Result<Vec<String>, String> {
    let before = found(text, markdown);
    let mut made = Vec::new();
    for finding in before
        .iter()
        .filter(|finding| finding.rig.as_deref().is_none_or(&wanted))
    {
        for fix in finding.fixes.iter().filter(|fix| fix.sure) {
            let mended = mended(text, fix);
            let after = found(&mended, markdown);
            let told = |why: &str| {
                format!(
                    "{}: {}: {why}\n{mended}\nfound {:?}",
                    finding.code,
                    fix.title,
                    keys(&after)
                )
            };
            let mut expected = keys(&before);
            let own = (finding.rig.clone(), finding.code.to_string());
            let at = expected.iter().position(|key| *key == own).expect("its own key");
            expected.remove(at);
            for key in keys(&after) {
                match expected.iter().position(|other| *other == key) {
                    Some(at) => drop(expected.remove(at)),
                    None => return Err(told(&format!("{key:?} is not gone, or has come"))),
                }
            }
            let (new, old) = changed(text, &mended);
            if new.len() != 1 || old.len() > 1 {
                return Err(told(&format!("more than a line has changed: {old:?} to {new:?}")));
            }
            // A comment stands where it stood.
            let comment = |lines: &[String]| {
                lines
                    .first()
                    .and_then(|line| line.split_once("//"))
                    .map(|(_, said)| said.to_owned())
            };
            if old.len() == 1 && comment(&new) != comment(&old) {
                return Err(told("a comment has changed"));
            }
            made.push(format!("{}: {}", finding.code, fix.title));
        }
    }
    Ok(made)
}

/// The text in other clothes: line ends of other machines, and a Markdown quote.
fn dressed(text: &str) -> [(String, bool); 3] {
    let quoted: String = text.lines().map(|line| format!("> {line}\n")).collect();
    let quote = format!("# An evening\n\n> Read this:\n>\n> ```rig\n{quoted}> ```\n\nAnd that was it.\n");
    [
        (text.to_owned(), false),
        (text.replace('\n', "\r\n"), false),
        (quote, true),
    ]
}

fn prove_all(text: &str, wanted: impl Fn(&str) -> bool) -> Result<Vec<String>, String> {
    let mut made = Vec::new();
    for (text, markdown) in dressed(text) {
        made.push(prove_of(&text, markdown, &wanted)?);
    }
    match made.as_slice() {
        [plain, rest @ ..] if rest.iter().any(|other| other != plain) => {
            Err(format!("unlike mends: {made:?}\n{text}"))
        }
        _ => Ok(made.swap_remove(0)),
    }
}

#[test]
fn every_sure_mend_of_the_twenty_mistakes_leaves_a_clean_rig() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/rigs/mistakes");
    let mut made = Vec::new();
    for entry in fs::read_dir(folder).expect("the rigs") {
        let path = entry.expect("an entry").path();
        let text = fs::read_to_string(&path).expect("a text");
        let mends = prove_all(&text, |_| true).unwrap_or_else(|wrong| panic!("{}: {wrong}", path.display()));
        made.extend(mends);
    }
    made.sort();
    assert_eq!(
        made,
        [
            "fly-spacing: make tippet 2 20 in",
            "match-apart: make tippet 2 62 cm",
            "match-leader: make butt 4.34 m",
            "tag-changes: make dropper 20 cm",
            "tag-long: make dropper 8 in",
            "tag-short: make dropper 20 cm",
            "tippet-depth: make tippet 2.45 m",
        ]
    );
}

#[test]
fn in_a_derived_rig_a_mend_is_a_line_that_changes_the_part() {
    let base = "rig low // the beck in August\n  method  tight-line\n  water   60 cm at 0.4 m/s over gravel\n  sighter 40 cm  of 0.20 mm nylon\n  \
                ring    2 mm\n  tippet  1 m    of 5X fluoro as upper // cut long\n\nrig high from low\n  water   1 m at 0.4 m/s over gravel\n\n\
                rig later from low\n  note \"untouched\"\n";
    for (text, markdown) in dressed(base) {
        let made = prove(&text, markdown).unwrap_or_else(|wrong| panic!("{wrong}"));
        assert_eq!(made, ["tippet-depth: make upper 1.75 m"]);
        let before = found(&text, markdown);
        let fix = before
            .iter()
            .flat_map(|finding| &finding.fixes)
            .find(|fix| fix.sure)
            .expect("a mend");
        let (new, old) = changed(&text, &mended(&text, fix));
        let margin = if markdown { "> " } else { "" };
        let end = if text.contains('\r') { "\r\n" } else { "\n" };
        assert_eq!(
            (new, old),
            (vec![format!("{margin}  change upper to 1.75 m{end}")], Vec::new())
        );
    }
}

/// A length as somebody would write it, metric or not.
fn length(low: u32, high: u32) -> impl Strategy<Value = String> {
    prop_oneof![
        (low..high).prop_map(|cm| format!("{cm} cm")),
        (low..high).prop_map(|cm| format!("{} in", (f64::from(cm) / 2.54 * 2.0).round() / 2.0)),
    ]
}

prop_compose! {
    fn parts()(
        butt in length(150, 500),
        sighter in length(15, 120),
        upper in length(20, 200),
        tag in length(2, 40),
        lower in length(20, 100),
    ) -> String {
        format!(
            "  line of 0.55 mm\n  butt    {butt} of 0.25 mm nylon // level\n  sighter {sighter} of 0.20 mm nylon, pink\n  ring    2 mm\n  \
             tippet  {upper} of 5X fluoro as upper // ten pulls\n  dropper {tag} with #16 2 mm tungsten\n  \
             tippet  {lower} of 6X fluoro\n  point   #14 2.8 mm tungsten\n"
        )
    }
}

prop_compose! {
    fn family()(parts in parts(), depth in 30_u32..160, other in 30_u32..160, upper in prop::option::of(length(20, 200))) -> String {
        let change = upper.map_or(String::new(), |upper| format!("  change  upper to {upper}\n"));
        format!(
            "rig base\n  method  tight-line\n  rod     10 ft #3\n  water   {depth} cm at 0.3 m/s over gravel\n{parts}\n\
             rig other from base\n  water   {other} cm at 0.3 m/s over gravel\n{change}"
        )
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 32, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn sure_mends_hold_on_rigs_of_any_lengths(parts in parts(), depth in 30_u32..160, books in prop::bool::ANY) {
        let rules = if books { "  rules   tight-line, two-rods\n" } else { "" };
        let text = format!("rig any \"of any lengths\"\n  method  tight-line\n{rules}  rod     10 ft #3\n  water   {depth} cm at 0.3 m/s over gravel\n{parts}");
        let made = prove_all(&text, |_| true);
        prop_assert!(made.is_ok(), "{}", made.unwrap_err());
    }

    #[test]
    fn sure_mends_hold_on_rigs_made_from_others(text in family()) {
        let made = prove_all(&text, |rig| rig == "other");
        prop_assert!(made.is_ok(), "{}", made.unwrap_err());
    }

    #[test]
    fn a_sure_mend_of_a_base_breaks_no_rig_made_from_it(text in family()) {
        let made = prove_all(&text, |rig| rig == "base");
        prop_assert!(made.is_ok(), "{}", made.unwrap_err());
    }
}
