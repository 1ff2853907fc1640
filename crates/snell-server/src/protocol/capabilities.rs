//! What the server says it can do: the one place, which the documentation's
//! table is made from.

use snell_ide::Paint;
use tower_lsp_server::ls_types::*;

/// The kinds of word, in the order of their numbers.
pub fn paint(paint: Paint) -> SemanticTokenType {
    match paint {
        Paint::Keyword => SemanticTokenType::KEYWORD,
        Paint::Opener => SemanticTokenType::CLASS,
        Paint::Given => SemanticTokenType::FUNCTION,
        Paint::Name => SemanticTokenType::VARIABLE,
        Paint::Number => SemanticTokenType::NUMBER,
        Paint::Unit => SemanticTokenType::TYPE,
        Paint::Text => SemanticTokenType::STRING,
        Paint::Comment => SemanticTokenType::COMMENT,
    }
}

/// The mend of all that can only mean one thing.
pub const FIX_ALL: CodeActionKind = CodeActionKind::SOURCE_FIX_ALL;

/// Everything the server can do, counted in `encoding`.
pub fn capabilities(encoding: PositionEncodingKind) -> ServerCapabilities {
    let plain = WorkDoneProgressOptions::default();
    ServerCapabilities {
        position_encoding: Some(encoding),
        text_document_sync: Some(TextDocumentSyncCapability::Options(TextDocumentSyncOptions {
            open_close: Some(true),
            change: Some(TextDocumentSyncKind::INCREMENTAL),
            save: Some(TextDocumentSyncSaveOptions::Supported(true)),
            ..TextDocumentSyncOptions::default()
        })),
        diagnostic_provider: Some(DiagnosticServerCapabilities::Options(DiagnosticOptions {
            identifier: Some("snell".to_owned()),
            inter_file_dependencies: true,
            workspace_diagnostics: false,
            work_done_progress_options: plain,
        })),
        hover_provider: Some(HoverProviderCapability::Simple(true)),
        completion_provider: Some(CompletionOptions {
            trigger_characters: Some([" ", "."].map(str::to_owned).to_vec()),
            ..CompletionOptions::default()
        }),
        code_action_provider: Some(CodeActionProviderCapability::Options(CodeActionOptions {
            code_action_kinds: Some(vec![CodeActionKind::QUICKFIX, FIX_ALL]),
            work_done_progress_options: plain,
            resolve_provider: None,
        })),
        document_formatting_provider: Some(OneOf::Left(true)),
        document_symbol_provider: Some(OneOf::Left(true)),
        workspace_symbol_provider: Some(OneOf::Left(true)),
        definition_provider: Some(OneOf::Left(true)),
        references_provider: Some(OneOf::Left(true)),
        document_highlight_provider: Some(OneOf::Left(true)),
        rename_provider: Some(OneOf::Right(RenameOptions {
            prepare_provider: Some(true),
            work_done_progress_options: plain,
        })),
        semantic_tokens_provider: Some(SemanticTokensServerCapabilities::SemanticTokensOptions(
            SemanticTokensOptions {
                work_done_progress_options: plain,
                legend: SemanticTokensLegend {
                    token_types: Paint::ALL.into_iter().map(paint).collect(),
                    token_modifiers: Vec::new(),
                },
                range: None,
                full: Some(SemanticTokensFullOptions::Bool(true)),
            },
        )),
        folding_range_provider: Some(FoldingRangeProviderCapability::Simple(true)),
        selection_range_provider: Some(SelectionRangeProviderCapability::Simple(true)),
        document_link_provider: Some(DocumentLinkOptions {
            resolve_provider: None,
            work_done_progress_options: plain,
        }),
        inlay_hint_provider: Some(OneOf::Left(true)),
        code_lens_provider: Some(CodeLensOptions {
            resolve_provider: None,
        }),
        ..ServerCapabilities::default()
    }
}
