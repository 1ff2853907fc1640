//! What an editor is sent of a text far longer than anybody writes.

use snell_analysis::{Kind, LocalDisk, Notebook};
use snell_finding::{Edit, Limit, apply};
use snell_text::TextId;
use std::path::Path;

fn opened(text: String) -> Notebook {
    Notebook::of_text(Path::new("/none/a.rig"), Kind::Rig, text, &LocalDisk)
}

/// So many flies, one untidy line in each.
fn flies(count: usize) -> String {
    (0..count)
        .map(|number| format!("fly f{number}\n hook   #14\n\n"))
        .collect()
}

fn made(text: &str, edits: Vec<Edit>) -> String {
    apply(text, edits.into_iter().map(|edit| (edit.place.span, edit.new)))
}

#[test]
fn very_many_edits_are_one_and_do_the_same() {
    let most = Limit::TidyEdits.count();
    for (count, is_one) in [(10, false), (most + 1, true)] {
        let text = flies(count);
        let notebook = opened(text.clone());
        let passages = notebook.document(TextId(0)).expect("it is open").passages();
        let each = snell_syntax::tidy(&text, TextId(0), &passages);
        let sent = snell_ide::tidied(&notebook);
        assert!(each.len() >= count, "{} edits", each.len());
        assert_eq!(sent.len(), if is_one { 1 } else { each.len() });
        assert_eq!(made(&text, sent), made(&text, each));
    }
}

#[test]
fn an_outline_has_so_many_entries_and_tells_the_first() {
    let most = Limit::OutlineEntries.count();
    let rig = |number: usize| {
        format!("rig r{number}\n  tippet 20 in of 6X fluoro\n  point #14 2.8 mm tungsten\n\n")
    };
    let outline = snell_ide::outline(&opened((0..most / 3 + 10).map(rig).collect()));
    let entries: usize = outline.iter().map(|symbol| 1 + symbol.parts.len()).sum();
    assert_eq!((entries, outline.len()), (most / 3 * 3, most / 3));
    assert_eq!(outline[0].name, "r0");
}
