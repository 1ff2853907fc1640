//! Every code of the registry can be met: what no fixture raises is listed here, with the reason.
//!
//! The codes of rigs have fixtures of their own, each raised alone, in the tests of their crate.

#![allow(clippy::unwrap_used, reason = "a test may stop at what it did not expect")]

use snell_analysis::{Kind, LocalDisk, Notebook};
use snell_finding::{Code, Stage};
use snell_tests::top;
use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

const RULES: &str = "\
rig a
  rules   mine
  tippet  40 in of 6X fluoro
  point   #14 2.8 mm tungsten
  allow   fly-spacing because \"the evening is short\"
  allow   no-such-rule because \"it is not there\"

rule empty
  about   \"It asks for nothing.\"

rule braces
  keep    total over 3 ft
  say     \"it is {total\"

rulebook mine
  with    other

rulebook other
  with    mine

outing one
  day     2026-05-14
  rig     a
  caught  2 on mote
";

const USES: &str = "use \"none.rig\"\nuse \"../../../none.rig\"\nuse \"page.md\"\nuse \"odd.rig\"\n";

const PAGE: &str = "\
a <!-- rig: totl of low --><!-- rig: end --> b <!-- rig: total of lo --><!-- rig: end -->

c <!-- rig: length of uper of low --><!-- rig: end --> d <!-- rig: total of low in kg --><!-- rig: end -->

e <!-- rig: sag of low --><!-- rig: end --> f <!-- rig: shew low --><!-- rig: end -->

g <!-- rig: use \"b.rig\" -->

<!-- rig: parts of low -->

# A heading

<!-- rig: end -->

<!-- rig: end -->

h
<!-- rig: total of low -->x<!-- rig: end 00000000 --> i

```rigs
rig low
```

<!-- rig: draw low into ../a.svg -->
<!-- rig: end -->

<!-- rig: parts of low -->

<!-- rig: cut low -->

<!-- rig: end -->

<!-- rig: end -->

<!-- rig: cut low -->

```rig
rig low
  tippet  40 in of 6X fluoro
  point   #14 2.8 mm tungsten
```
";

fn raised(notebook: &Notebook) -> BTreeSet<Code> {
    let found = snell_article::check(notebook).into_iter();
    found.filter_map(|finding| finding.code.known()).collect()
}

fn of_text(path: &str, kind: Kind, text: &str) -> BTreeSet<Code> {
    raised(&Notebook::of_text(
        Path::new(path),
        kind,
        text.to_owned(),
        &LocalDisk,
    ))
}

/// What takes a text too large or too deep to be written out, and has a test of its own in `snell-syntax`.
const TOO_LARGE: &[Code] = &[
    Code::FaultsLeftOut,
    Code::LineTooLong,
    Code::NestedTooDeep,
    Code::TextOverfull,
];

#[test]
fn every_code_is_raised() {
    let faults = fs::read_to_string(top().join("crates/snell-syntax/tests/data/faults.rig")).unwrap();
    let folder = tempfile::tempdir().unwrap();
    let at = |name: &str| folder.path().join("a/b").join(name);
    fs::create_dir_all(folder.path().join("a/b")).unwrap();
    fs::write(at("page.md"), "A page.\n").unwrap();
    fs::write(at("odd.rig"), b"rig a\n\xff").unwrap();
    let uses = at("uses.rig").display().to_string();
    let mut all = of_text("faults.rig", Kind::Rig, &faults);
    all.extend(of_text("rules.rig", Kind::Rig, RULES));
    all.extend(of_text(&uses, Kind::Rig, USES));
    all.extend(raised(&Notebook::open(&[at("odd.rig")], &LocalDisk).unwrap()));
    all.extend(of_text("page.md", Kind::MARKDOWN, PAGE));
    all.extend(of_text("merged.rig", Kind::Rig, "<<<<<<< ours\nrig a\n"));
    let left = Code::ALL.iter().copied().filter(|code| !all.contains(code));
    let left: Vec<Code> = left.filter(|code| code.stage() != Stage::Rigs).collect();
    assert_eq!(left, TOO_LARGE, "no fixture raises these");
    assert!(
        all.contains(&Code::FlyNotOnRig),
        "an outing names a fly that its rig has not"
    );
}
