// The server, spoken to by the editor's own protocol library. HAME says where
// the program is.
import assert from "node:assert/strict";
import { spawn } from "node:child_process";
import { createRequire } from "node:module";
import { test } from "node:test";

const require = createRequire(import.meta.url);
const lsp = require("vscode-languageserver-protocol/node");

const text = `harness pump { system 12 V; practice land; wire gxl }
zone bay { ambient 0..40 degC }
place box in bay
supply battery main { at box; capacity 70 Ah; cranking 600 A; post M8; covered }
protection fuse f1 { at box; rating 15 A }
load motor p1 { at box; draws 7 A at 12 V; drives pump; least 9 V; meant always }
wire w1 main.pos -> f1.in 2.5 mm2 red 0.1 m
wire w2 f1.out -> p1.pos 0.35 mm2 red 1 m
wire w3 p1.neg -> main.neg 2.5 mm2 black 1 m
`;
const uri = "file:///tmp/pump.hame";

async function connect(t) {
  const child = spawn(process.env.HAME ?? "hame", ["lsp", "--stdio"]);
  t.after(() => child.kill());
  const ended = new Promise((resolve) => child.on("exit", resolve));
  const connection = lsp.createProtocolConnection(
    new lsp.StreamMessageReader(child.stdout),
    new lsp.StreamMessageWriter(child.stdin),
  );
  connection.listen();
  const hello = await connection.sendRequest(lsp.InitializeRequest.type, {
    processId: process.pid,
    rootUri: null,
    workspaceFolders: null,
    capabilities: { textDocument: { diagnostic: {}, hover: { contentFormat: ["markdown"] } } },
  });
  await connection.sendNotification(lsp.InitializedNotification.type, {});
  await connection.sendNotification(lsp.DidOpenTextDocumentNotification.type, {
    textDocument: { uri, languageId: "hame", version: 1, text },
  });
  return { connection, ended, hello };
}

test("the whole of a conversation", { timeout: 60_000 }, async (t) => {
  const { connection, ended, hello } = await connect(t);
  const doc = { textDocument: { uri } };
  const at = (line, character) => ({ ...doc, position: { line, character } });
  const all = { start: { line: 0, character: 0 }, end: { line: 99, character: 0 } };
  assert.equal(hello.serverInfo.name, "hame");
  assert.ok(lsp.TextDocumentSyncKind.Incremental === hello.capabilities.textDocumentSync.change);

  const report = await connection.sendRequest(lsp.DocumentDiagnosticRequest.type, doc);
  const thin = report.items.find((d) => d.code === "wire/undersized");
  assert.ok(lsp.Diagnostic.is(thin), JSON.stringify(report));

  const hover = await connection.sendRequest(lsp.HoverRequest.type, at(7, 6));
  assert.ok(lsp.Hover.is(hover) && lsp.MarkupContent.is(hover.contents) && hover.contents.kind === "markdown");

  const list = await connection.sendRequest(lsp.CompletionRequest.type, at(6, 11));
  assert.ok(list.items.length > 0 && list.items.every((i) => lsp.TextEdit.is(i.textEdit)));
  const place = await connection.sendRequest(lsp.DefinitionRequest.type, at(6, 9));
  assert.ok(lsp.Location.is(place));
  const uses = await connection.sendRequest(lsp.ReferencesRequest.type, { ...at(6, 9), context: { includeDeclaration: true } });
  assert.ok(uses.length === 3 && uses.every(lsp.Location.is));
  const edit = await connection.sendRequest(lsp.RenameRequest.type, { ...at(6, 9), newName: "battery" });
  assert.ok(lsp.WorkspaceEdit.is(edit) && edit.changes[uri].length === 3);
  const symbols = await connection.sendRequest(lsp.DocumentSymbolRequest.type, doc);
  assert.ok(symbols.length === 9 && symbols.every(lsp.DocumentSymbol.is));
  const found = await connection.sendRequest(lsp.WorkspaceSymbolRequest.type, { query: "w2" });
  assert.ok(found.length === 1 && found.every((s) => lsp.Location.is(s.location)));
  const folds = await connection.sendRequest(lsp.FoldingRangeRequest.type, doc);
  assert.ok(folds.every(lsp.FoldingRange.is));
  const [selection] = await connection.sendRequest(lsp.SelectionRangeRequest.type, { ...doc, positions: [{ line: 6, character: 9 }] });
  assert.ok(lsp.SelectionRange.is(selection));
  const tokens = await connection.sendRequest(lsp.SemanticTokensRequest.type, doc);
  assert.ok(lsp.SemanticTokens.is(tokens) && tokens.data.length % 5 === 0);
  const hints = await connection.sendRequest(lsp.InlayHintRequest.type, { ...doc, range: all });
  assert.ok(hints.length > 0 && hints.every(lsp.InlayHint.is));
  const lenses = await connection.sendRequest(lsp.CodeLensRequest.type, doc);
  assert.ok(lenses.length > 0 && lenses.every(lsp.CodeLens.is));
  const help = await connection.sendRequest(lsp.SignatureHelpRequest.type, at(6, 8));
  assert.ok(help.signatures[0].label.startsWith("wire"));
  const edits = await connection.sendRequest(lsp.DocumentFormattingRequest.type, { ...doc, options: { tabSize: 4, insertSpaces: true } });
  assert.ok(edits.length > 0 && edits.every(lsp.TextEdit.is));
  const actions = await connection.sendRequest(lsp.CodeActionRequest.type, { ...doc, range: thin.range, context: { diagnostics: [thin] } });
  assert.ok(actions.length > 0 && actions.every(lsp.CodeAction.is));
  const [item] = await connection.sendRequest(lsp.CallHierarchyPrepareRequest.type, at(6, 9));
  const fed = await connection.sendRequest(lsp.CallHierarchyOutgoingCallsRequest.type, { item });
  assert.equal(fed[0].to.name, "w1");

  await connection.sendRequest(lsp.ShutdownRequest.type);
  await connection.sendNotification(lsp.ExitNotification.type);
  assert.equal(await ended, 0);
});
