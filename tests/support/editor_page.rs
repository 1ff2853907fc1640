//! The page of what the language server does, made from its own answer to an
//! editor.

use std::fmt::Write;

/// What each capability is to people. One that is not listed stands under its own name, which a test refuses.
pub const TOLD: &[(&str, &str)] = &[
    (
        "positionEncoding",
        "columns in UTF-8, UTF-16 or UTF-32, whichever the editor prefers",
    ),
    ("textDocumentSync", "texts followed edit by edit"),
    (
        "diagnosticProvider",
        "findings, sent with the version that they are of, or asked for",
    ),
    (
        "hoverProvider",
        "what a word or value means: both systems of units, where it came from, the rule's reason; a rig's picture where pictures are shown",
    ),
    (
        "completionProvider",
        "keywords, names, units that fit, rules and measures, by place",
    ),
    (
        "codeActionProvider",
        "mends, the sure ones preferred; all that can only mean one thing at once",
    ),
    ("documentFormattingProvider", "layout as by `snell tidy`"),
    (
        "documentSymbolProvider",
        "the outline: blocks, and the parts of rigs",
    ),
    ("workspaceSymbolProvider", "blocks of all files by name or title"),
    (
        "definitionProvider",
        "to the block, label or `let` that a name means",
    ),
    ("referencesProvider", "every mention, in all files of the folder"),
    ("documentHighlightProvider", "every mention in the text"),
    ("renameProvider", "blocks, labels and lets, across files"),
    ("semanticTokensProvider", "colours by meaning"),
    ("foldingRangeProvider", "blocks fold"),
    (
        "selectionRangeProvider",
        "a selection grows by value, line and block",
    ),
    ("documentLinkProvider", "`use` lines lead to their files"),
    (
        "inlayHintProvider",
        "millimetres behind X sizes, the distance to the point behind parts, where flies ride",
    ),
    ("codeLensProvider", "a rig's totals above its head"),
];

/// The page.
pub fn editor_page() -> String {
    let mut page = String::from(
        "# What the language server does\n\n`snell serve` speaks the Language Server Protocol on standard input and output, for `.rig` files\nand the `rig` fences of Markdown pages. This page is made from the server's own answer to an editor:\n`cargo refresh`.\n\nThe protocol has no word for pictures. An editor is shown them where its settings for this server say\n`\"pictures\": true`, as those for Visual Studio Code do.\n\nNor has it one for a preview beside a text. `snell/preview` and `snell/verdict` take a text and a position, as a hover does, and tell\nthe rig around it: its picture and sliders, and the lines of its verdict. `snell/slide` takes the range of a slider and a value in\nits unit, and tells the edit.\n\n| capability | what it is |\n| --- | --- |\n",
    );
    let answer = snell_server::capabilities();
    for name in answer.as_object().into_iter().flatten().map(|(name, _)| name) {
        let told = TOLD
            .iter()
            .find(|(known, _)| known == name)
            .map_or(name.as_str(), |(_, told)| told);
        let _ = writeln!(page, "| `{name}` | {told} |");
    }
    page
}
