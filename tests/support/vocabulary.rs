//! The lists of words in the editors' colouring, made from the tables of the
//! code.
//!
//! Each editor has a form of its own, kept beside this file, in which
//! `@units@` stands for the units, and so on; what comes out lies in
//! `editors/`. Nothing else about an editor is known here.

use snell_rig::keywords::{self, COLOURS, Cast, Joined, Method, OWN_FORMS, SectionRole};
use snell_rig::measure::MEASURES;
use snell_syntax::{BlockKind, Joint};
use std::collections::BTreeSet;

/// A file of `editors/`.
pub struct List {
    /// Below the top folder.
    pub path: &'static str,
    /// What it holds.
    pub text: String,
}

/// A form, how it parts words, and where it goes.
struct Template {
    path: &'static str,
    form: &'static str,
    write: fn(&[String]) -> String,
}

const TEMPLATES: &[Template] = &[
    Template {
        path: "editors/vscode/syntaxes/rig.tmLanguage.json",
        form: include_str!("vocabulary/textmate.json"),
        write: |words| alternatives(words).replace('\\', "\\\\").replace('"', "\\\""),
    },
    Template {
        path: "editors/sublime-text/rig.sublime-syntax",
        form: include_str!("vocabulary/sublime.yaml"),
        write: |words| alternatives(words).replace('\'', "''"),
    },
    Template {
        path: "editors/vim/syntax/rig.vim",
        form: include_str!("vocabulary/vim.vim"),
        write: |words| words.join("\\|").replace('/', "\\/"),
    },
    Template {
        path: "editors/kate/rig.xml",
        form: include_str!("vocabulary/kate.xml"),
        write: |words| {
            words
                .iter()
                .map(|word| format!("\n      <item>{word}</item>"))
                .collect()
        },
    },
    Template {
        path: "editors/emacs/rig-words.el",
        form: include_str!("vocabulary/emacs.el"),
        write: |words| words.iter().map(|word| format!("\n    \"{word}\"")).collect(),
    },
];

/// Every page made anew.
pub fn pages() -> Vec<List> {
    TEMPLATES.iter().map(filled).collect()
}

fn filled(template: &Template) -> List {
    let text = lists()
        .into_iter()
        .fold(template.form.to_owned(), |text, (name, words)| {
            text.replace(&format!("@{name}@"), &(template.write)(&words))
        });
    List {
        path: template.path,
        text,
    }
}

/// Words as one pattern.
fn alternatives(words: &[String]) -> String {
    words.join("|")
}

/// The lists, by the names that stand for them. Longer words come first, since some editors take the first that fits.
fn lists() -> Vec<(&'static str, Vec<String>)> {
    let kinds = BlockKind::ALL.map(BlockKind::word);
    let own: Vec<&str> = OWN_FORMS.iter().map(|form| form.key).collect();
    let keys: Vec<&str> = BlockKind::ALL
        .into_iter()
        .flat_map(keywords::rows)
        .map(|row| row.key)
        .filter(|key| !own.contains(key))
        .collect();
    let only_kinds = kinds.into_iter().filter(|kind| !keys.contains(kind));
    let named = Method::WORDS
        .iter()
        .chain(Cast::WORDS)
        .chain(Joined::WORDS)
        .map(|named| named.word);
    let units = snell_units::UNITS
        .iter()
        .flat_map(|unit| unit.words.iter().chain([&unit.name]))
        .copied()
        .filter(|word| word.bytes().all(|byte| byte.is_ascii_alphabetic()));
    vec![
        ("kinds", sorted(kinds)),
        ("only-kinds", sorted(only_kinds)),
        ("forms", sorted(own.iter().copied())),
        (
            "sections",
            sorted(SectionRole::ALL.into_iter().map(SectionRole::word)),
        ),
        ("joints", sorted(Joint::ALL.map(Joint::word))),
        ("values", sorted(named)),
        ("colours", sorted(COLOURS.iter().copied())),
        ("units", sorted(units)),
        ("measures", sorted(MEASURES.iter().map(|measure| measure.name))),
        ("keys", sorted(keys.iter().copied())),
    ]
}

/// The words and marks of the language as a fuzzer's dictionary.
pub fn dictionary() -> String {
    const MARKS: &[&str] = &[
        "#14",
        "1/2",
        "3'8\\\"",
        "2.8 mm",
        "0X",
        "\\\"",
        "//",
        "<!-- rig: ",
        " -->",
        "```rig\\x0A",
        "\\x0A  ",
        "Content-Length: ",
        "\\x0D\\x0A\\x0D\\x0A",
    ];
    let words = lists().into_iter().flat_map(|(_, words)| words);
    let joining = Joint::ALL.map(|joint| joint.word().to_owned());
    let once: BTreeSet<String> = words
        .chain(joining)
        .chain(MARKS.iter().map(|mark| (*mark).to_owned()))
        .collect();
    let lines: String = once.iter().map(|word| format!("\"{word}\"\n")).collect();
    format!("# Made by `cargo refresh` from the tables of the language.\n{lines}")
}

fn sorted<'a>(words: impl IntoIterator<Item = &'a str>) -> Vec<String> {
    let once: BTreeSet<&str> = words.into_iter().collect();
    let mut words: Vec<String> = once.into_iter().map(str::to_owned).collect();
    words.sort_by_key(|word| (std::cmp::Reverse(word.len()), word.clone()));
    words
}
