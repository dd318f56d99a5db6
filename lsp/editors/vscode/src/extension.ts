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
    // The pages of rules and the libraries that ship inside the program.
    vscode.workspace.registerTextDocumentContentProvider("hame", { provideTextDocumentContent: inside }),
  );
  await start();
}

export async function deactivate(): Promise<void> {
  await client?.stop();
  client = undefined;
}

async function start(): Promise<void> {
  const command = vscode.workspace.getConfiguration("hame").get("path", "hame");
  const server: ServerOptions = { command, args: ["lsp"] };
  const options: LanguageClientOptions = {
    documentSelector: [
      { scheme: "file", language: "hame" },
      { scheme: "untitled", language: "hame" },
    ],
    synchronize: { configurationSection: "hame" },
    initializationOptions: vscode.workspace.getConfiguration("hame"),
  };
  client = new LanguageClient("hame", "Hame", server, options);
  await client.start();
}

async function restart(): Promise<void> {
  await deactivate();
  await start();
}

async function inside(uri: vscode.Uri): Promise<string> {
  const answer = await client?.sendRequest<{ text: string }>("workspace/textDocumentContent", { uri: uri.toString(true) });
  return answer?.text ?? "";
}
