//! What an editor says of itself when it comes in: how it counts, and what it
//! understands.

use snell_text::Encoding;
use tower_lsp_server::ls_types::*;

/// What the editor counts columns in, and what it understands.
#[derive(Clone, Copy, Debug)]
pub struct Manner {
    /// What columns count.
    pub encoding: Encoding,
    /// Whether edits may name the version that they are for.
    pub versioned_edits: bool,
    /// Whether it shows progress.
    pub progress: bool,
    /// Whether it can be asked to watch files.
    pub watches: bool,
    /// Whether it asks for findings itself, and need not be told of them twice.
    pub pulls: bool,
    /// Whether it can be asked to ask again for hints, and for totals.
    pub asks_again: (bool, bool),
    /// Whether it takes Markdown where something is told of a place.
    pub markdown: bool,
    /// Whether it shows pictures there.
    pub pictures: bool,
}

impl Default for Manner {
    fn default() -> Self {
        Self {
            encoding: Encoding::Utf16,
            versioned_edits: false,
            progress: false,
            watches: false,
            pulls: false,
            asks_again: (false, false),
            markdown: false,
            pictures: false,
        }
    }
}

/// The encoding that suits best among those that an editor knows: bytes need no counting.
pub fn encoding(capabilities: &ClientCapabilities) -> (Encoding, PositionEncodingKind) {
    let general = capabilities.general.as_ref();
    let known = general
        .and_then(|general| general.position_encodings.as_deref())
        .unwrap_or_default();
    let ours = [
        (Encoding::Utf8, PositionEncodingKind::UTF8),
        (Encoding::Utf32, PositionEncodingKind::UTF32),
        (Encoding::Utf16, PositionEncodingKind::UTF16),
    ];
    ours.into_iter()
        .find(|(_, kind)| known.contains(kind))
        .unwrap_or((Encoding::Utf16, PositionEncodingKind::UTF16))
}

/// How it wants to be answered. `options` are those that people set in their editor for this server.
pub fn manner(
    capabilities: &ClientCapabilities,
    options: Option<&serde_json::Value>,
    encoding: Encoding,
) -> Manner {
    let workspace = capabilities.workspace.as_ref();
    let text = capabilities.text_document.as_ref();
    let formats = text.and_then(|text| text.hover.as_ref()?.content_format.as_deref());
    let markdown = formats.is_some_and(|formats| formats.contains(&MarkupKind::Markdown));
    Manner {
        encoding,
        versioned_edits: workspace
            .and_then(|workspace| workspace.workspace_edit.as_ref()?.document_changes)
            .unwrap_or(false),
        progress: capabilities
            .window
            .as_ref()
            .and_then(|window| window.work_done_progress)
            .unwrap_or(false),
        watches: workspace
            .and_then(|workspace| workspace.did_change_watched_files?.dynamic_registration)
            .unwrap_or(false),
        pulls: text.is_some_and(|text| text.diagnostic.is_some()),
        asks_again: (
            workspace
                .and_then(|workspace| workspace.inlay_hint.as_ref()?.refresh_support)
                .unwrap_or(false),
            workspace
                .and_then(|workspace| workspace.code_lens.as_ref()?.refresh_support)
                .unwrap_or(false),
        ),
        markdown,
        pictures: markdown && options.is_some_and(pictures),
    }
}

/// Whether an editor shows pictures. The protocol has no word for it, and in a terminal one would be a page of
/// letters: so it is for the editor's settings to say.
fn pictures(options: &serde_json::Value) -> bool {
    options["pictures"].as_bool().unwrap_or(false)
}
