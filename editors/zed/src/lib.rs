//! What Zed asks an extension for: how the language server is started. All else is `snell serve`.

use zed_extension_api::{Command, Extension, LanguageServerId, Result, Worktree, register_extension};

struct Snell;

impl Extension for Snell {
    fn new() -> Self {
        Self
    }

    fn language_server_command(&mut self, _: &LanguageServerId, worktree: &Worktree) -> Result<Command> {
        let command = worktree
            .which("snell")
            .ok_or("snell is not on the path; install it, and restart Zed")?;
        Ok(Command {
            command,
            args: vec!["serve".to_owned()],
            env: worktree.shell_env(),
        })
    }
}

register_extension!(Snell);
