//! The same property as in `typing`, through the real program: what it tells of
//! a text that was typed in is what it tells of the same text when it is
//! opened.

use serde_json::{Value, json};
use snell_analysis::Kind;
use snell_tests::{Build, Client, Edit, Script};
use snell_text::{Encoding, Position};

/// An editor with two folders of the same files: one text is typed in the first, and opened in the second.
struct Pair {
    client: Client,
    typed: String,
    opened: String,
}

impl Pair {
    fn told(&mut self, uri: &str, version: i64) -> String {
        let findings = self.client.findings(uri, version);
        let document = json!({ "uri": uri });
        let end = json!({ "line": 1_000_000, "character": 0 });
        let range = json!({ "start": { "line": 0, "character": 0 }, "end": end });
        let mut ask = |method: &str| {
            self.client
                .answer(method, json!({ "textDocument": document, "range": range }))
        };
        let hints = ask("textDocument/inlayHint");
        let tokens = ask("textDocument/semanticTokens/full");
        // The one folder's address as the other's.
        json!([findings, hints, tokens])
            .to_string()
            .replace(&self.opened, &self.typed)
    }

    fn compare(&mut self, number: u64, kind: Kind, encoding: Encoding) {
        let (language, name) = match kind {
            Kind::Rig => ("rig", "text.rig"),
            Kind::Page(_) | Kind::Published => ("markdown", "text.md"),
        };
        let script = Script::new(number, kind, encoding);
        let (typed, opened) = (
            format!("{}/{name}", self.typed),
            format!("{}/{name}", self.opened),
        );
        self.client.open_text(&typed, language, &script.first);
        for (version, (edits, _)) in script.notes.iter().enumerate() {
            let edits: Vec<Value> = edits.iter().map(change).collect();
            self.client.change(&typed, version as i64 + 2, &edits);
        }
        let told = self.told(&typed, script.notes.len() as i64 + 1);
        self.client.open_text(&opened, language, script.last());
        let wanted = self.told(&opened, 1);
        assert!(
            told == wanted,
            "script {number} of {name}, {encoding:?}: of\n{:?}\nis told\n{told}\nand should be\n{wanted}",
            script.last()
        );
        self.client.close_text(&typed);
        self.client.close_text(&opened);
    }
}

fn place(position: Position) -> Value {
    json!({ "line": position.line, "character": position.column })
}

fn change(edit: &Edit) -> Value {
    match edit.places {
        Some((from, to)) => {
            json!({ "range": { "start": place(from), "end": place(to) }, "text": edit.new })
        }
        None => json!({ "text": edit.new }),
    }
}

#[test]
fn the_program_tells_the_same_of_a_text_however_it_was_typed() {
    let folders = [
        super::folder(&snell_tests::BESIDE),
        super::folder(&snell_tests::BESIDE),
    ];
    let count = super::scripts(45);
    std::thread::scope(|scope| {
        for (turn, (encoding, word)) in super::ENCODINGS.into_iter().enumerate() {
            let [typed, opened] = folders.each_ref().map(|folder| super::address(folder.path()));
            scope.spawn(move || {
                let capabilities = json!({ "general": { "positionEncodings": [word] } });
                let client = Client::open(Build::AsTests, capabilities);
                let mut pair = Pair {
                    client,
                    typed,
                    opened,
                };
                for number in (turn as u64..count).step_by(3) {
                    let kind = if number % 2 == 0 {
                        Kind::Rig
                    } else {
                        Kind::MARKDOWN
                    };
                    pair.compare(number, kind, encoding);
                }
            });
        }
    });
    println!("{count} scripts typed through the program");
}
