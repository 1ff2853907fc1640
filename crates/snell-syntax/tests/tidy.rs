//! Laying out: what it makes of untidy texts, and what it must never change.

use proptest::prelude::*;
use snell_syntax::*;
use snell_text::{Span, TextId};

/// A file that is as it should be.
const TIDY: &str = include_str!("data/tidy.rig");

fn tidied_in(text: &str, passages: &[Vec<Span>]) -> String {
    let edits = tidy(text, TextId(0), passages);
    let mut end = 0;
    for edit in &edits {
        assert!(edit.place.span.start >= end, "{edits:?} overlap in {text:?}");
        end = edit.place.span.end;
    }
    snell_finding::apply(text, edits.into_iter().map(|edit| (edit.place.span, edit.new)))
}

fn tidied(text: &str) -> String {
    tidied_in(text, &whole(text))
}

fn tidied_page(page: &str) -> String {
    let fences: Vec<_> = snell_text::fences(page)
        .into_iter()
        .map(|fence| fence.lines)
        .collect();
    tidied_in(page, &fences)
}

#[test]
fn a_tidy_file_stays_as_it_is() {
    assert_eq!(tidy(TIDY, TextId(0), &whole(TIDY)), []);
    assert!(read(TIDY, TextId(0), &whole(TIDY)).findings.is_empty());
}

#[test]
fn a_file_that_has_lost_its_layout_gets_it_back() {
    let squeezed: Vec<_> = TIDY
        .lines()
        .map(|line| line.split_whitespace().collect::<Vec<_>>().join(" "))
        .collect();
    assert_eq!(tidied(&format!("{}\n", squeezed.join("\n"))), TIDY);
}

#[test]
fn lines_take_their_plain_form() {
    let cases = [
        ("tippet 3'8\" of 6x Fluoro", "tippet  3 ft 8 in  of 6X Fluoro"),
        ("tippet 3’8” of 6X", "tippet  3 ft 8 in  of 6X"),
        (
            "Sighter 15″ Of .2mm nylon,pink.",
            "sighter 15 in  of 0.2 mm nylon, pink",
        ),
        ("butt 7½ft of 0,55 mm", "butt    7 1/2 ft  of 0.55 mm"),
        ("butt 1,200 mm of 0,55 mm", "butt    1,200 mm  of 0.55 mm"),
        (
            "tippet 1.75×depth – 20 inches of 6X",
            "tippet  1.75 times depth - 20 in of 6X",
        ),
        ("tippet 2*( depth-a + 3 in )", "tippet  2 times (depth-a + 3 in)"),
        ("tippet 6 X fluoro ÷ 2", "tippet  6 x fluoro / 2"),
        ("run 2–3 ft", "run     2-3 ft"),
        ("run 2 To 3 FEET", "run     2 to 3 ft"),
        ("run 2-½ ft", "run     2-½ ft"),
        ("run ½-¾ ft", "run     1/2-3/4 ft"),
        ("for 5X–7X", "for     5X-7X"),
        ("temperatures 12°C", "temperatures 12 C"),
        ("density 1.14g/cm³", "density 1.14 g/cm3"),
        ("strength 80%", "strength 80 %"),
        ("hook #14", "hook    #14"),
        ("hook 2/0", "hook    2/0"),
        (
            "wire 0.015\u{A0}in lead ,  8 turns",
            "wire    0.015 in lead, 8 turns",
        ),
        (
            "note “the 15″ sighter” // why",
            "note    \"the 15″ sighter\"  // why",
        ),
        ("let  a=MIN( 1 ft ,2 ft )", "let     a = MIN(1 ft, 2 ft)"),
        ("limit Least 16 in", "limit   Least 16 in"),
        (
            "expect total Between 15 And 17 ft",
            "expect  total between 15 and 17 ft",
        ),
        (
            "keep method IS Not dry OR team",
            "keep    method is not dry or team",
        ),
        ("keep a At   Least b.c", "keep    a at least b.c"),
        ("change Taper 2 TO 54 in", "change  Taper 2 to 54 in"),
        ("test 4lb 8oz", "test    4 lb 8 oz"),
        ("tippet 20 in of 6X//cut", "tippet  20 in  of 6X  //cut"),
        ("tippet of\t6X", "tippet    of 6X"),
        ("a-very-long-key-for-a-line 3 m", "a-very-long-key-for-a-line 3 m"),
    ];
    for (line, plain) in cases {
        assert_eq!(
            tidied(&format!("rig a\n\t{line}  \n")),
            format!("rig a\n  {plain}\n")
        );
    }
}

#[test]
fn heads_and_used_files_stand_at_the_margin() {
    let text = "Use “a.rig”\nUSE   \"b.rig\"\nRig  Low   From  base “Low  water”.\n  point b\n";
    assert_eq!(
        tidied(text),
        "use \"a.rig\"\nuse \"b.rig\"\n\nrig Low from base \"Low  water\"\n  point   b\n"
    );
}

#[test]
fn blank_lines_part_blocks_and_never_double() {
    let text =
        "\n\n// a\nrig a\n  point b\n\n\n  // c\n  ring 2 mm\n// of d\nfly d\n\n  hook #14\nrod e\n \n\n";
    assert_eq!(
        tidied(text),
        "// a\nrig a\n  point   b\n\n  // c\n  ring    2 mm\n\n// of d\nfly d\n\n  hook    #14\n\nrod e\n"
    );
}

#[test]
fn broken_lines_stay_and_others_do_not_wait_for_them() {
    let text = "rig a\n\ttippet  3'8  of 6X  \n\tpoint b\nfly c \"d\" from e\n\thook #14\n";
    assert_eq!(
        tidied(text),
        "rig a\n\ttippet  3'8  of 6X  \n  point   b\n\nfly c \"d\" from e\n  hook    #14\n"
    );
    let lost = "rig a\nrod b\nrod c from d\n";
    assert_eq!(tidied(lost), lost);
}

#[test]
fn line_ends_and_byte_order_mark_stay() {
    let text = "\u{FEFF}  rod b\r\n\r\n\r\nrig  a\r\n\ttippet 1 m\r\nfly b\r\n";
    assert_eq!(
        tidied(text),
        "\u{FEFF}  rod     b\r\n\r\nrig a\r\n  tippet  1 m\r\n\r\nfly b\r\n"
    );
    assert_eq!(
        tidied("rig a\rhook #14\rrig b\r"),
        "rig a\r  hook    #14\r  rig     b\r"
    );
    assert_eq!(tidied("rig a\n\tpoint b"), "rig a\n  point   b");
}

#[test]
fn a_page_keeps_all_that_is_not_a_fence() {
    let page = "# A  page\n\n\n> ```rig\n> rig a\n>     tippet   1 m\n> fly b\n>\n>\n>   hook #14\n> ```\n\n- list\n\n  ```rig\n  rod c\n  length 10'\n  ```\n\ttrailing  \n";
    assert_eq!(
        tidied_page(page),
        "# A  page\n\n\n> ```rig\n> rig a\n>   tippet  1 m\n>\n> fly b\n>\n>   hook    #14\n> ```\n\n- list\n\n  ```rig\n  rod c\n    length  10 ft\n  ```\n\ttrailing  \n"
    );
}

const PIECES: &[&str] = &[
    "tippet",
    "sighter",
    "rig a",
    "fly b",
    "rod",
    "let a =",
    "limit low",
    "expect",
    "keep",
    "change",
    "use",
    "note",
    "is",
    "not",
    "at least",
    "between",
    "and",
    "or",
    "over",
    "of",
    "to",
    "with",
    "as",
    "from",
    "times",
    "x",
    "min(",
    "(",
    ")",
    ",",
    ",",
    ".",
    "=",
    "+",
    "-",
    "–",
    "/",
    "*",
    "×",
    "÷",
    "#14",
    "#2/0",
    "6X",
    "5½X",
    "44",
    "3",
    "0,28",
    "1,200",
    ".22",
    "½",
    "7 ½",
    "7-1/2",
    "5/64",
    "in",
    "ft",
    "mm",
    "Inches",
    "lb",
    "oz",
    "ft/s",
    "g/cm³",
    "%",
    "°C",
    "'",
    "\"",
    "″",
    "“",
    "”",
    "//",
    "// why",
    "größe",
    "gap.length",
    "a-b",
    "Fluoro",
    "2 ft to 3 ft",
    "2-½",
    "5X–7X",
    "3'8\"",
    "\u{A0}",
    "\u{FEFF}",
    "\t",
    "\"a  b\"",
    "“c”",
    "\n",
    "\n",
    "\n  ",
    "\n\t",
    "\n\n\n",
    "\nrig ",
    "\n  tippet ",
    "\n  sighter 3 in of ",
    "\n// c\n",
    "\n  // d\n",
    "\r\n",
    "\nfly b\n",
    "\nrod ",
];

fn texts() -> impl Strategy<Value = String> {
    let piece = (
        prop::sample::select(PIECES),
        prop::sample::select(&["", " ", " ", "  "][..]),
    );
    let pieced = prop::collection::vec(piece, 0..40).prop_map(|pieces| {
        pieces
            .into_iter()
            .flat_map(|(piece, space)| [piece, space])
            .collect()
    });
    prop_oneof![4 => pieced, 1 => any::<String>()]
}

/// What a text says: its lines in their blocks, and how many faults it has.
fn said(text: &str, passages: &[Vec<Span>]) -> Vec<String> {
    let file = read(text, TextId(0), passages);
    let written = |line: &Line| {
        let rest = line.said(text);
        meaning(&line.form, &rest[..rest.find(['\n', '\r']).unwrap_or(rest.len())])
    };
    let mut said: Vec<String> = file.uses.iter().map(|used| written(&used.line)).collect();
    for block in &file.blocks {
        let head = block.head.as_ref().map_or_else(String::new, written);
        said.push(format!("{head} {}", block.broken));
        said.extend(block.body.iter().map(written));
    }
    // What is not understood is a note once it is laid out, and told no more.
    let codes = file.findings.iter().map(|finding| &finding.code);
    let codes: Vec<_> = codes
        .filter(|code| **code != snell_finding::Code::WordsUnread)
        .collect();
    said.push(format!("{codes:?}"));
    said
}

/// A form without its places, its units in one spelling, its texts written out.
fn meaning(form: &Form, line: &str) -> String {
    let mut kept = String::new();
    let debugged = format!("{form:?}");
    let mut rest = debugged.as_str();
    while let Some(at) = rest.find(": ") {
        let (before, behind) = rest.split_at(at + 2);
        let end = behind.find([',', ' ', '}', ')']).unwrap_or(behind.len());
        let (value, next) = behind.split_at(end);
        kept.push_str(before);
        match value.split_once("..") {
            Some((start, end)) if before.ends_with("inner: ") => {
                kept.push_str(&line[start.parse().expect("a place")..end.parse().expect("a place")]);
            }
            Some(_) => {}
            None if before.ends_with("plain: ") => {
                let unit = value[1..value.len() - 1].replace("\\\"", "\"");
                let plain = snell_units::resolve(&unit).map_or(unit, |resolved| resolved.plain.into_owned());
                kept.push_str(&plain);
            }
            None => kept.push_str(value),
        }
        rest = next;
    }
    kept
}

/// Whether a line of a text is read as another.
fn in_own_hand(text: &str) -> bool {
    let file = read(text, TextId(0), &whole(text));
    let mut lines = file
        .blocks
        .iter()
        .flat_map(|block| block.head.iter().chain(&block.body));
    lines.any(|line| line.reading.is_some())
}

fn comments(text: &str) -> Vec<String> {
    let file = read(text, TextId(0), &whole(text));
    let heads = file.blocks.iter().filter_map(|block| block.head.as_ref());
    let sound = heads.chain(file.blocks.iter().flat_map(|block| &block.body));
    let sound: Vec<_> = sound.chain(file.uses.iter().map(|used| &used.line)).collect();
    let comment = |span: Span| {
        let line = sound.iter().find(|line| line.offset == span.start);
        let from = line.map_or(0, |line| line.span.end) as usize;
        let written = &span.of(text)[from..];
        let comment = &written[written.find("//")?..];
        Some(
            comment
                .trim_matches([
                    ' ', '\t', '\u{A0}', '\u{2009}', '\u{202F}', '\u{200B}', '\u{FEFF}', '\u{3000}',
                ])
                .to_owned(),
        )
    };
    snell_text::lines(text).filter_map(comment).collect()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(1024))]

    #[test]
    fn once_is_enough(text in texts()) {
        let once = tidied(&text);
        prop_assert_eq!(tidied(&once), once);
    }

    #[test]
    fn nothing_else_is_said(text in texts()) {
        let tidy = tidied(&text);
        prop_assert_eq!(said(&text, &whole(&text)), said(&tidy, &whole(&tidy)), "{}", tidy);
    }

    #[test]
    fn comments_survive(text in texts()) {
        let (before, after) = (comments(&text), comments(&tidied(&text)));
        if in_own_hand(&text) {
            // What a line says beside its values goes into its comment, and what stood there stays.
            for comment in before {
                let words = comment.trim_start_matches(['/', ' ']);
                prop_assert!(after.iter().any(|other| other.contains(words)), "{comment} in {after:?}");
            }
        } else {
            prop_assert_eq!(before, after);
        }
    }

    #[test]
    fn pages_are_tidied_once_too(text in texts(), quote in any::<bool>()) {
        let margin = if quote { "> " } else { "" };
        let body = text.replace(['\r', '`'], "").replace('\n', &format!("\n{margin}"));
        let page = format!("before  \n\n{margin}```rig\n{margin}{body}\n{margin}```\n\nafter  \n");
        let once = tidied_page(&page);
        prop_assert_eq!(tidied_page(&once), once.clone());
        prop_assert!(once.starts_with("before  \n") && once.ends_with("\nafter  \n"));
    }
}

#[test]
fn several_parts_on_one_line_get_a_line_each() {
    let strict =
        "rig a\n  butt    8 ft  of 15 lb mono\n  tippet  4 ft  of 5X\n  fly     #14 \"midge\"  // mine\n";
    for written in [
        "rig a\n  8 ft 15 lb mono > 4 ft 5X > #14 midge // mine\n",
        "rig a\n8 ft 15 lb mono -> 4 ft 5X → #14 midge // mine\n",
    ] {
        assert_eq!(tidied(written), strict);
    }
    assert_eq!(tidied(strict), strict);
    // One of them cannot be read: none is moved.
    let broken = "rig a\n  8 ft 15 lb mono > 4 ft 5X > #14 midge > 3 3 3\n";
    assert_eq!(tidied(broken), broken);
    assert_eq!(
        tidied_page("> ```rig\n> rig a\n>   4 ft 5X > #14 midge\n> ```\n"),
        "> ```rig\n> rig a\n>   tippet  4 ft  of 5X\n>   fly     #14 \"midge\"\n> ```\n"
    );
}

#[test]
fn a_water_told_on_several_lines_is_laid_out_on_one() {
    let strict = "rig a\n  water   2-3 ft 12 C at 2 ft/s over cobble  // by eye\n  tippet  4 ft  of 5X\n";
    assert_eq!(
        tidied(
            "rig a\n  depth 2-3 ft\n  tippet 4 ft of 5X\n  speed 2 ft/s // by eye\n  bed cobble\n\n  temp 12 C\n"
        ),
        strict
    );
    assert_eq!(tidied(strict), strict);
    // Two say the same thing: that is for the rig to fault.
    let twice = "rig a\n  depth 2 ft\n  depth 3 ft\n";
    assert_eq!(tidied(&tidied(twice)), tidied(twice));
    assert_eq!(tidied(twice).lines().count(), 3);
}
