//! Lines that are easily read wrongly, each with the tree that it must give.

mod show;

use snell_text::TextId;

const TRAPS: &str = include_str!("../../../tests/data/line-traps.txt");

#[test]
fn every_trap_is_read_as_the_list_says() {
    let mut wrong = Vec::new();
    let mut count = 0;
    for trap in TRAPS.lines().filter(|line| !line.starts_with('#')) {
        let (line, expected) = trap.split_once(" => ").expect("a line and its tree");
        let read = read(line);
        if read != expected {
            wrong.push(format!("{line}\n  expected {expected}\n  read     {read}"));
        }
        count += 1;
    }
    assert!(
        wrong.is_empty(),
        "{} of {count} traps:\n{}",
        wrong.len(),
        wrong.join("\n")
    );
    assert!(count >= 200, "only {count} traps left");
}

fn read(line: &str) -> String {
    let file = snell_syntax::read(line, TextId(0), &snell_syntax::whole(line));
    if !file.findings.is_empty() {
        assert_eq!(file.findings.len(), 1, "one fault a line: {line}");
        return "broken".to_owned();
    }
    let used = file.uses.iter().map(|used| &used.line);
    let heads = file.blocks.iter().filter_map(|block| block.head.as_ref());
    let bodies = file.blocks.iter().flat_map(|block| &block.body);
    let read = used.chain(heads).chain(bodies).next();
    read.map_or_else(
        || "nothing".to_owned(),
        |line_read| show::form(&line_read.form, line_read.said(line)),
    )
}
