//! What holds for every text: reading never panics, places lie in the text,
//! line ends don't matter, and a kept line reads like a fresh one.

mod show;

use proptest::prelude::*;
use snell_syntax::*;
use snell_text::{Span, TextId};
use std::collections::BTreeMap;

/// Pieces of the language, so that chance builds lines that are nearly sound.
const PIECES: &[&str] = &[
    "tippet",
    "rig",
    "fly",
    "let",
    "limit",
    "expect",
    "keep",
    "when",
    "change",
    "use",
    "rod",
    "water",
    "note",
    "is",
    "not",
    "at",
    "least",
    "most",
    "between",
    "and",
    "or",
    "about",
    "over",
    "under",
    "of",
    "off",
    "to",
    "with",
    "as",
    "on",
    "from",
    "because",
    "after",
    "times",
    "x",
    "min(",
    "(",
    ")",
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
    "#",
    "#14",
    "#2/0",
    "6X",
    "5½X",
    "03X",
    "44",
    "3",
    "0,28",
    "1,200",
    "1.2.3",
    ".22",
    "½",
    "7 1/2",
    "7-1/2",
    "5/64",
    "in",
    "ft",
    "mm",
    "lb",
    "oz",
    "ft/s",
    "g/cm³",
    "%",
    "°C",
    "'",
    "\"",
    "’",
    "″",
    "“",
    "”",
    "«",
    "//",
    "größe",
    "gap.length",
    "a-b",
    "off\u{2011}white",
    "fluoro",
    "2 ft to 3 ft",
    "5X-7X",
    "\u{A0}",
    "\u{3000}",
    "\t",
    "\u{FEFF}",
    "\u{0}",
    "🎣",
    "e\u{301}",
    "\n",
    "\r\n",
    "\r",
    "\n  ",
    "\n\n",
    "\nrig ",
    "\n  tippet ",
];

fn pieced() -> impl Strategy<Value = String> {
    let piece = (
        prop::sample::select(PIECES),
        prop::sample::select(&["", " ", " ", "  "][..]),
    );
    prop::collection::vec(piece, 0..24).prop_map(|pieces| {
        pieces
            .into_iter()
            .flat_map(|(piece, space)| [piece, space])
            .collect()
    })
}

fn any_text() -> impl Strategy<Value = String> {
    let bytes = prop::collection::vec(any::<u8>(), 0..200);
    prop_oneof![
        2 => pieced(),
        1 => bytes.prop_map(|bytes| String::from_utf8_lossy(&bytes).into_owned()),
        1 => any::<String>(),
    ]
}

fn read_whole(text: &str) -> File {
    read(text, TextId(0), &whole(text))
}

/// Everything that a file says, in words.
fn said(text: &str) -> Vec<String> {
    let file = read_whole(text);
    let show = |line: &Line| show::form(&line.form, line.said(text));
    let mut said: Vec<String> = file.uses.iter().map(|used| show(&used.line)).collect();
    for block in &file.blocks {
        said.push(block.head.as_ref().map_or_else(|| "-".to_owned(), show));
        said.extend(block.body.iter().map(show));
    }
    said.extend(file.findings.iter().map(|finding| finding.code.to_string()));
    said
}

/// Every span that a form holds.
fn spans(form: &Form) -> Vec<Span> {
    let debugged = format!("{form:?}");
    let is_span = |word: &str| {
        let (start, end) = word.split_once("..")?;
        Some(Span::new(start.parse().ok()?, end.parse().ok()?))
    };
    debugged
        .split(|c: char| !(c.is_ascii_digit() || c == '.'))
        .filter_map(is_span)
        .collect()
}

fn check_places(text: &str) {
    let file = read_whole(text);
    let fits = |span: Span| text.get(span.start as usize..span.end as usize).is_some();
    let heads = file.blocks.iter().filter_map(|block| block.head.as_ref());
    let bodies = file.blocks.iter().flat_map(|block| &block.body);
    let lines = file.uses.iter().map(|used| &used.line).chain(heads).chain(bodies);
    for line in lines {
        assert!(fits(line.span.shifted(line.offset)), "{line:?}");
        for span in spans(&line.form) {
            let written = line.written(span);
            assert!(line.span.holds(written), "{span:?} in {line:?}");
            assert!(fits(written.shifted(line.offset)), "{span:?} in {line:?}");
        }
    }
    for finding in &file.findings {
        for label in &finding.labels {
            assert!(
                !label.place.span.is_empty() && fits(label.place.span),
                "{finding:?}"
            );
            assert!(!label.place.span.of(text).contains(['\n', '\r']), "{finding:?}");
        }
        let edits = finding.fixes.iter().flat_map(|fix| &fix.edits);
        edits.for_each(|edit| assert!(fits(edit.place.span), "{finding:?}"));
        assert!(finding.code.known().is_some(), "{finding:?}");
    }
}

/// Every line of a text that is not blank, put together from its tokens.
fn check_tokens(text: &str) {
    let file = read_whole(text);
    let heads = file.blocks.iter().filter_map(|block| block.head.as_ref());
    let sound = heads.chain(file.blocks.iter().flat_map(|block| &block.body));
    let sound = sound.chain(file.uses.iter().map(|used| &used.line));
    // The head that was made out of a broken line has its tokens among the rest.
    let sound = sound.filter(|line| !line.tokens.is_empty());
    let lines = sound.map(|line| (line.offset, &line.tokens));
    let rest = file.rest.iter().map(|line| (line.offset, &line.tokens));
    let mut found: BTreeMap<u32, &[Token]> = BTreeMap::new();
    for (offset, tokens) in lines.chain(rest) {
        assert!(found.insert(offset, tokens).is_none(), "a line twice in {text:?}");
    }
    let is_space = |c: char| " \t\u{A0}\u{2009}\u{202F}\u{200B}\u{FEFF}\u{3000}".contains(c);
    for span in snell_text::lines(text) {
        let line = span.of(text);
        let Some(tokens) = found.remove(&span.start) else {
            assert!(line.chars().all(is_space), "{line:?} has no tokens");
            continue;
        };
        let joined: String = tokens.iter().map(|token| token.span.of(line)).collect();
        assert_eq!(joined, line, "{tokens:?}");
        for token in tokens {
            let spaces = token.span.of(line).chars().all(is_space);
            assert_eq!(token.kind == TokenKind::Space, spaces, "{line:?}: {token:?}");
        }
    }
    assert_eq!(found.len(), 0, "tokens of no line");
}

#[test]
fn hostile_lines_are_the_sum_of_their_tokens() {
    let lines = [
        "a".repeat(LINE_LIMIT + 1),
        "(".repeat(LINE_LIMIT),
        "\"".repeat(LINE_LIMIT),
        "a \"b\" ".repeat(LINE_LIMIT / 6),
        format!("  tippet {}", "1 ".repeat(LINE_LIMIT / 4)),
        format!("  let a = {}", "(".repeat(NESTING_LIMIT)),
        format!("  expect {}", "a.".repeat(LINE_LIMIT / 4)),
        format!("  note “{}", "🎣//".repeat(2_000)),
        "//".repeat(LINE_LIMIT / 2),
        "7-1/2".repeat(LINE_LIMIT / 8),
    ];
    for line in lines {
        check_tokens(&line);
        check_tokens(&format!("rig a\r\n{line}\r\n\r\n  {line} // end\n"));
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(1024))]

    #[test]
    fn places_lie_in_the_text(text in any_text()) {
        check_places(&text);
    }

    #[test]
    fn tokens_joined_are_the_line(text in any_text()) {
        check_tokens(&text);
        check_tokens(&text.replace('\n', "\r\n"));
    }

    #[test]
    fn line_ends_do_not_matter(text in any_text()) {
        let plain = text.replace("\r\n", "\n").replace('\r', "\n");
        prop_assert_eq!(said(&plain), said(&plain.replace('\n', "\r\n")));
    }

    #[test]
    fn a_kept_line_reads_like_a_fresh_one(first in any_text(), second in pieced()) {
        let mut reader = Reader::new();
        for text in [&first, &second, &first] {
            let kept = reader.read(text, TextId(0), &whole(text));
            let fresh = read_whole(text);
            prop_assert_eq!(format!("{kept:?}"), format!("{fresh:?}"));
        }
    }

    #[test]
    fn numbers_are_finite(digits in "[0-9]{1,400}([.,/][0-9]{1,400})?") {
        let text = format!("  length {digits} mm");
        for block in read_whole(&text).blocks {
            let Form::Plain(plain) = &*block.body[0].form else { panic!("a plain line") };
            let ExprKind::Single(single) = &plain.items[0].kind else { panic!("a quantity") };
            let SingleKind::Number(number, _) = &single.kind else { panic!("a number") };
            prop_assert!(number.value.is_finite() && number.value >= 0.0);
        }
    }
}
