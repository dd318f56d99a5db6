// The extension starts `hame lsp` and leaves everything else to it.
import * as vscode from "vscode";
import { LanguageClient, type LanguageClientOptions, type ServerOptions } from "vscode-languageclient/node";

let client: LanguageClient | undefined;

export async function activate(context: vscode.ExtensionContext): Promise<void> {
  context.subscriptions.push(
    vscode.commands.registerCommand("hame.restart", restart),
    vscode.workspace.onDidChangeConfiguration(async (change) => {
      if (change.affectsConfiguration("hame.path")) {
        await restart();
      }
    }),
  );
  await start();
}

export async function deactivate(): Promise<void> {
  const running = client;
  client = undefined;
  await running?.stop();
}

async function start(): Promise<void> {
  const settings = vscode.workspace.getConfiguration("hame");
  const server: ServerOptions = { command: settings.get("path", "hame"), args: ["lsp"] };
  const options: LanguageClientOptions = {
    documentSelector: [
      { scheme: "file", language: "hame" },
      { scheme: "untitled", language: "hame" },
    ],
    // Sent when the server starts, and again with each change.
    initializationOptions: settings,
    synchronize: { configurationSection: "hame" },
  };
  client = new LanguageClient("hame", "Hame", server, options);
  await client.start();
}

async function restart(): Promise<void> {
  await deactivate();
  await start();
}
