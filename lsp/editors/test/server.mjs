// A connection to `hame lsp` by the editor's own protocol library. HAME says
// where the program is.
import { spawn } from "node:child_process";
import { createRequire } from "node:module";

const require = createRequire(import.meta.url);
export const lsp = require("vscode-languageserver-protocol/node");

// connect starts a server and ends it with the test, whatever becomes of that.
export async function connect(t, capabilities) {
  const child = spawn(process.env.HAME ?? "hame", ["lsp"], { stdio: ["pipe", "pipe", "inherit"] });
  const ended = new Promise((resolve) => child.on("exit", resolve));
  const connection = lsp.createProtocolConnection(
    new lsp.StreamMessageReader(child.stdout),
    new lsp.StreamMessageWriter(child.stdin),
  );
  t.after(() => {
    connection.dispose();
    child.kill();
  });
  const published = [];
  connection.onNotification(lsp.PublishDiagnosticsNotification.type, (p) => published.push(p));
  connection.listen();
  const hello = await connection.sendRequest(lsp.InitializeRequest.type, {
    processId: process.pid,
    rootUri: null,
    workspaceFolders: null,
    capabilities,
  });
  await connection.sendNotification(lsp.InitializedNotification.type, {});
  return { connection, ended, hello, published };
}

export function open(connection, uri, text) {
  return connection.sendNotification(lsp.DidOpenTextDocumentNotification.type, {
    textDocument: { uri, languageId: "hame", version: 1, text },
  });
}

// until waits for something to become true, ten seconds at most.
export async function until(what, ready) {
  for (let waited = 0; waited < 10000; waited += 20) {
    const value = ready();
    if (value) return value;
    await new Promise((resolve) => setTimeout(resolve, 20));
  }
  throw new Error(`waited in vain for ${what}`);
}
