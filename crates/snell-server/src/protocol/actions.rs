//! Ways out of findings, as an editor offers them: each by itself, and those
//! that can only mean one thing all at once.

use super::answers::Asked;
use super::capabilities::FIX_ALL;
use tower_lsp_server::ls_types::*;

impl Asked<'_> {
    /// The ways out of the findings within a range, and one that takes all that are sure.
    pub fn actions(&self, range: Range) -> Vec<CodeActionOrCommand> {
        let (manner, open, texts) = (self.manner, self.open, self.texts);
        let span = manner.span(open, range);
        let notebook = self.notebook();
        let near = snell_ide::found_near(notebook, span);
        let told = self.told(&near);
        let mut actions = Vec::new();
        for (finding, diagnostic) in near.iter().zip(told) {
            for fix in &finding.fixes {
                if let Some(edit) = manner.workspace_edit(notebook, &fix.edits, texts) {
                    let action = manner.action(fix, diagnostic.clone(), edit);
                    actions.push(CodeActionOrCommand::CodeAction(action));
                }
            }
        }
        let findings = self.snapshot.findings(self.stop);
        let sure = snell_ide::all_sure(&findings.unwrap_or_default());
        if let Some(edit) = manner
            .workspace_edit(notebook, &sure, texts)
            .filter(|_| !sure.is_empty())
        {
            actions.push(CodeActionOrCommand::CodeAction(CodeAction {
                title: "mend all that can only mean one thing".to_owned(),
                kind: Some(FIX_ALL),
                edit: Some(edit),
                ..CodeAction::default()
            }));
        }
        actions
    }
}
