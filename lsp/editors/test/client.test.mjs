// The server, spoken to by the editor's own protocol library: what comes back
// must be of the types that the library knows (LSP 3.18).
import assert from "node:assert/strict";
import { test } from "node:test";

import { connect, lsp, open, until } from "./server.mjs";

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
const doc = { textDocument: { uri } };
const at = (line, character) => ({ ...doc, position: { line, character } });
const all = { start: { line: 0, character: 0 }, end: { line: 99, character: 0 } };
const markdown = { textDocument: { hover: { contentFormat: ["markdown"] }, publishDiagnostics: { relatedInformation: true, versionSupport: true } } };
const pulling = { textDocument: { diagnostic: {}, codeAction: { codeActionLiteralSupport: { codeActionKind: { valueSet: ["quickfix"] } } } } };

// The library has no test of its own for these (LSP 3.18, "Completion Request",
// "Document Highlights Request").
const CompletionList = { is: (v) => typeof v?.isIncomplete === "boolean" && v.items.every((i) => typeof i.label === "string") };
const DocumentHighlight = { is: (v) => lsp.Range.is(v?.range) && (v.kind === undefined || (v.kind >= 1 && v.kind <= 3)) };

// typed asserts that something is what the library says it is.
function typed(value, type, what) {
  assert.ok(type.is(value), `${what}: ${JSON.stringify(value)}`);
  return value;
}

async function leave({ connection, ended }) {
  await connection.sendRequest(lsp.ShutdownRequest.type);
  await connection.sendNotification(lsp.ExitNotification.type);
  assert.equal(await ended, 0, "exit status after a shutdown");
}

const codes = (p) => p.diagnostics.map((d) => d.code);

test("findings are pushed, mended and withdrawn", async (t) => {
  const talk = await connect(t, markdown);
  const { connection, hello, published } = talk;
  assert.equal(hello.serverInfo.name, "hame");
  assert.equal(hello.capabilities.textDocumentSync.change, lsp.TextDocumentSyncKind.Incremental);

  await open(connection, uri, text);
  const first = await until("findings", () => published.find((p) => p.uri === uri && p.version === 1));
  for (const d of first.diagnostics) typed(d, lsp.Diagnostic, "a finding");
  const thin = first.diagnostics.find((d) => d.code === "wire/undersized");
  assert.equal(thin.range.start.line, 7);
  assert.equal(thin.severity, lsp.DiagnosticSeverity.Error);
  assert.equal(thin.source, "hame");

  const hover = typed(await connection.sendRequest(lsp.HoverRequest.type, at(7, 6)), lsp.Hover, "a hover");
  assert.equal(typed(hover.contents, lsp.MarkupContent, "its text").kind, "markdown");
  assert.match(hover.contents.value, /ampacity/);

  const list = typed(await connection.sendRequest(lsp.CompletionRequest.type, at(4, 28)), CompletionList, "proposals");
  assert.ok(list.items.some((i) => i.label === "family"), "settings not yet given are proposed");
  assert.ok(!list.items.some((i) => i.label === "rating"), "those given are not");
  for (const i of list.items) if (i.textEdit) typed(i.textEdit, lsp.TextEdit, "a proposal's edit");

  const gauge = text.split("\n")[7].indexOf("0.35");
  await connection.sendNotification(lsp.DidChangeTextDocumentNotification.type, {
    textDocument: { uri, version: 2 },
    contentChanges: [{ range: { start: { line: 7, character: gauge }, end: { line: 7, character: gauge + 4 } }, text: "2.5" }],
  });
  const second = await until("findings of the edit", () => published.find((p) => p.version === 2));
  assert.ok(!codes(second).includes("wire/undersized"), "mended");

  await connection.sendNotification(lsp.DidCloseTextDocumentNotification.type, doc);
  await until("findings to be withdrawn", () => published.at(-1).uri === uri && published.at(-1).diagnostics.length === 0);
  await leave(talk);
});

test("each question is answered in its type", async (t) => {
  const talk = await connect(t, pulling);
  const { connection } = talk;
  const ask = (type, params) => connection.sendRequest(type.type, params);
  await open(connection, uri, text);

  const report = await ask(lsp.DocumentDiagnosticRequest, doc);
  assert.equal(report.kind, "full");
  for (const d of report.items) typed(d, lsp.Diagnostic, "a finding");
  const thin = report.items.find((d) => d.code === "wire/undersized");

  typed(await ask(lsp.DefinitionRequest, at(6, 9)), lsp.Location, "a definition");
  const uses = await ask(lsp.ReferencesRequest, { ...at(6, 9), context: { includeDeclaration: true } });
  assert.equal(uses.length, 3);
  for (const u of uses) typed(u, lsp.Location, "a use");
  for (const h of await ask(lsp.DocumentHighlightRequest, at(6, 9))) typed(h, DocumentHighlight, "a highlight");
  const prepared = await ask(lsp.PrepareRenameRequest, at(6, 9));
  typed(prepared.range ?? prepared, lsp.Range, "what is renamed");
  const rename = typed(await ask(lsp.RenameRequest, { ...at(6, 9), newName: "house" }), lsp.WorkspaceEdit, "a renaming");
  assert.equal(rename.changes[uri].length, 3);
  await assert.rejects(ask(lsp.RenameRequest, { ...at(6, 9), newName: "f1" }), "a name that is taken is refused");

  const symbols = await ask(lsp.DocumentSymbolRequest, doc);
  assert.equal(symbols.length, 9);
  for (const s of symbols) typed(s, lsp.DocumentSymbol, "a symbol");
  for (const f of await ask(lsp.FoldingRangeRequest, doc)) typed(f, lsp.FoldingRange, "a fold");
  for (const s of await ask(lsp.SelectionRangeRequest, { ...doc, positions: [{ line: 6, character: 9 }] })) typed(s, lsp.SelectionRange, "a selection");
  const tokens = typed(await ask(lsp.SemanticTokensRequest, doc), lsp.SemanticTokens, "tokens");
  assert.equal(tokens.data.length % 5, 0);
  const hints = await ask(lsp.InlayHintRequest, { ...doc, range: all });
  assert.ok(hints.length > 0);
  for (const h of hints) typed(h, lsp.InlayHint, "a hint");
  const lenses = await ask(lsp.CodeLensRequest, doc);
  assert.ok(lenses.length > 0);
  for (const l of lenses) typed(l, lsp.CodeLens, "a lens");
  const help = await ask(lsp.SignatureHelpRequest, at(6, 8));
  assert.match(help.signatures[0].label, /^wire/);

  const edits = await ask(lsp.DocumentFormattingRequest, { ...doc, options: { tabSize: 4, insertSpaces: true } });
  assert.ok(edits.length > 0);
  for (const e of edits) typed(e, lsp.TextEdit, "an edit");
  const actions = await ask(lsp.CodeActionRequest, { ...doc, range: thin.range, context: { diagnostics: [thin] } });
  assert.ok(actions.some((a) => a.isPreferred), "the finding has a fix");
  for (const a of actions) typed(a, lsp.CodeAction, "an action");
  const [item] = await ask(lsp.CallHierarchyPrepareRequest, at(6, 9));
  const [fed] = await ask(lsp.CallHierarchyOutgoingCallsRequest, { item });
  assert.equal(fed.to.name, "w1");
  await leave(talk);
});
