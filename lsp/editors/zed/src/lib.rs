//! Tells the editor how `hame lsp` is started. The program is found on the PATH,
//! or where the setting `lsp.hame.binary.path` says.

use zed_extension_api::{self as zed, settings::LspSettings, LanguageServerId, Result};

struct Hame;

impl zed::Extension for Hame {
    fn new() -> Self {
        Hame
    }

    fn language_server_command(
        &mut self,
        id: &LanguageServerId,
        worktree: &zed::Worktree,
    ) -> Result<zed::Command> {
        let said = LspSettings::for_worktree(id.as_ref(), worktree)?
            .binary
            .and_then(|binary| binary.path);
        let command = said
            .or_else(|| worktree.which("hame"))
            .ok_or("`hame` is not on the PATH; lsp.hame.binary.path may say where it is")?;
        Ok(zed::Command {
            command,
            args: vec!["lsp".into()],
            env: worktree.shell_env(),
        })
    }

    fn language_server_initialization_options(
        &mut self,
        id: &LanguageServerId,
        worktree: &zed::Worktree,
    ) -> Result<Option<zed::serde_json::Value>> {
        Ok(LspSettings::for_worktree(id.as_ref(), worktree)?.initialization_options)
    }
}

zed::register_extension!(Hame);
