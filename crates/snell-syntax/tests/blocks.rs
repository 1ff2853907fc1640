//! How lines make blocks: margins, lost indent, broken heads, fences.

mod show;

use snell_syntax::{File, Form};
use snell_text::TextId;

fn read(text: &str) -> File {
    snell_syntax::read(text, TextId(0), &snell_syntax::whole(text))
}

/// Blocks as `head: line, line`, a broken one with a `!`.
fn outline(text: &str) -> Vec<String> {
    outline_of(&read(text), text)
}

fn outline_of(file: &File, text: &str) -> Vec<String> {
    let first_word = |line: &snell_syntax::Line| {
        let written = &text[line.offset as usize..];
        line.span
            .of(written)
            .split_whitespace()
            .next()
            .unwrap_or_default()
            .to_owned()
    };
    let used = file.uses.iter().map(|used| {
        format!(
            "use {}",
            used.line.place(file.text, used.path.inner).span.of(text)
        )
    });
    let blocks = file.blocks.iter().map(|block| {
        let head = block
            .head
            .as_ref()
            .map_or_else(String::new, |line| match &*line.form {
                Form::Block(head) => format!("{} {}", head.kind.word(), head.name.folded),
                other => panic!("{other:?} opens no block"),
            });
        let body: Vec<_> = block.body.iter().map(first_word).collect();
        format!(
            "{head}{}: {}",
            if block.broken { "!" } else { "" },
            body.join(" ")
        )
    });
    used.chain(blocks).collect()
}

#[test]
fn indented_lines_belong_to_the_head_above() {
    let text = "use \"a.rig\"\nrig a\n  tippet 1 m\n\n  // why\n  point b\n\nrod c\n  length 10 ft\n";
    assert_eq!(
        outline(text),
        ["use a.rig", "rig a: tippet point", "rod c: length"]
    );
}

#[test]
fn other_lines_at_the_margin_belong_to_the_block_above() {
    let text = "rig a\ntippet 1 m\n  rod b\npoint c\n";
    assert_eq!(outline(text), ["rig a: tippet rod point"]);
}

#[test]
fn lines_before_any_block_stand_in_one_without_head() {
    assert_eq!(
        outline("tippet 1 m\n  point b\nrod c\n"),
        [": tippet point", "rod c: "]
    );
    assert_eq!(outline("use \"a\"\n  tippet 1 m\n"), ["use a", ": tippet"]);
}

#[test]
fn where_the_indent_is_lost_a_block_opens_behind_a_gap() {
    let text = "use \"a\"\nrod b\nlength 10 ft\n\nrig c\nrod b\nwater 3 ft\ntippet 1 m\nuse \"d\"\nknot blood\n// next\nfly e\nhook #14\n";
    assert_eq!(
        outline(text),
        [
            "use a",
            "use d",
            "rod b: length",
            "rig c: rod water tippet knot",
            "fly e: hook"
        ]
    );
}

#[test]
fn one_indented_line_means_that_indent_counts() {
    assert_eq!(outline("rig a\nrod b\n"), ["rig a: rod"]);
    assert_eq!(
        outline("rig a\nrod b\n  length 10 ft\n"),
        ["rig a: ", "rod b: length"]
    );
    assert_eq!(outline("rig a\nrod b\n   \n"), ["rig a: rod"]);
}

#[test]
fn a_byte_order_mark_is_no_indent() {
    assert_eq!(outline("\u{FEFF}rig a\n  tippet 1 m\n"), ["rig a: tippet"]);
    assert_eq!(
        outline("\u{FEFF}rig a\ntippet 1 m\nrod b\n"),
        ["rig a: tippet rod"]
    );
}

#[test]
fn a_broken_head_keeps_its_lines_from_the_block_above() {
    let text = "rig a\n  tippet 1 m\nfly b \"bee\" from c\n  hook #14\nrig from a\n  point b\nuse \"x\n";
    assert_eq!(outline(text), ["rig a: tippet", "fly b!: hook", "!: point"]);
    assert_eq!(read(text).findings.len(), 3);
}

#[test]
fn a_broken_line_marks_its_block() {
    assert_eq!(
        outline("rig a\n  tippet #\n  point b\nrod c\n"),
        ["rig a!: point", "rod c: "]
    );
    assert_eq!(outline("  tippet #\n  point b\nrod c\n"), ["!: point", "rod c: "]);
    assert_eq!(outline("# title\n\nrod c\n"), ["rod c: "]);
}

#[test]
fn no_block_goes_on_into_the_next_fence() {
    let page = "```rig\nrig a\n  tippet 1 m\n```\n\n> ```rig\n>   point b\n> rod c\n> ```\n";
    let passages: Vec<_> = snell_text::fences(page)
        .into_iter()
        .map(|fence| fence.lines)
        .collect();
    let file = snell_syntax::read(page, TextId(3), &passages);
    assert_eq!(outline_of(&file, page), ["rig a: tippet", ": point", "rod c: "]);
    assert_eq!(file.text, TextId(3));
}

#[test]
fn equal_lines_are_read_once_and_faults_keep_their_place() {
    let mut reader = snell_syntax::Reader::new();
    let text = "rig a\n  tippet 1 m\n  hook #\nrig b\n  tippet 1 m\n  hook #\n";
    let file = reader.read(text, TextId(1), &snell_syntax::whole(text));
    assert!(std::sync::Arc::ptr_eq(
        &file.blocks[0].body[0].form,
        &file.blocks[1].body[0].form
    ));
    let places: Vec<_> = file
        .findings
        .iter()
        .map(|finding| finding.place().span.start)
        .collect();
    assert_eq!(
        places,
        [text.find('#').unwrap() as u32, text.rfind('#').unwrap() as u32]
    );
    let again = reader.read(text, TextId(1), &snell_syntax::whole(text));
    assert_eq!(again.findings, file.findings);
}

#[test]
fn what_is_shown_of_a_line_is_what_it_says() {
    let text = "rig a\n  tippet 44 in of 6X fluoro, pink as upper\n";
    let file = read(text);
    let line = &file.blocks[0].body[0];
    let shown = show::form(&line.form, line.said(text));
    assert_eq!(shown, "tippet: <44 in> ; of <6X> fluoro pink ; as upper");
}

#[test]
fn nothing_at_all() {
    for text in ["", "\n\n", "// only\n", "\u{FEFF}", ".", "  \u{3000}\n\t"] {
        let file = read(text);
        assert!(
            file.blocks.is_empty() && file.uses.is_empty() && file.findings.is_empty(),
            "{text:?}"
        );
    }
}
