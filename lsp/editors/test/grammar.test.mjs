// The grammar, read by the tokenizer that editors use, held to the project's own
// texts and to what the server says of each of their words.
import assert from "node:assert/strict";
import { readFileSync, writeFileSync } from "node:fs";
import { test } from "node:test";

import { connect, lsp, open } from "./server.mjs";
import { examples, loadGrammar, tokenize } from "./tokenizer.mjs";

const grammar = await loadGrammar();
const where = (path, t) => `${path}:${t.row + 1}:${t.start + 1} \`${t.text.trim()}\` is ${t.scopes.join(" ") || "nothing"}`;

test("in a sound text every word and sign has a scope, and none is illegal", () => {
  const sound = examples().filter((e) => e.sound);
  assert.ok(sound.length >= 5, "there are examples");
  for (const { path, text } of sound) {
    const { list, depth } = tokenize(grammar, text);
    for (const t of list) {
      assert.ok(t.scopes.length > 0, where(path, t));
      assert.ok(!t.scopes.some((s) => s.startsWith("invalid")), where(path, t));
    }
    assert.equal(depth, 1, `${path} ends outside of all statements`);
  }
});

test("a faulty text is read to its end, and no word of it is left out", () => {
  for (const { path, text } of examples()) {
    for (const t of tokenize(grammar, text).list) assert.ok(t.scopes.length > 0, where(path, t));
  }
});

// What the server calls a word, and the scopes that agree with it.
const agrees = {
  comment: /^comment/,
  string: /^(string|constant\.character\.escape)/,
  number: /^(constant\.numeric|constant\.other\.date|keyword\.other\.unit)/,
  operator: /^keyword\.operator/,
  keyword: /^keyword\.declaration/,
  type: /^entity\.name\.type/,
  property: /^support\.type\.property-name/,
  namespace: /^(entity\.name\.function|variable\.other)/,
  class: /^(entity\.name\.(function|type)|variable\.other)/,
  variable: /^(entity\.name\.function|variable\.other)/,
  function: /^(entity\.name\.function|variable\.other)/,
  event: /^(entity\.name\.function|variable\.other)/,
  parameter: /^variable\.other\.property/,
  enumMember: /^(constant\.(language|other\.colour)|support\.constant|keyword\.other|variable\.other\.object)/,
};

test("the grammar and the server agree on every word of every sound example", async (t) => {
  const { connection, hello } = await connect(t, { textDocument: { semanticTokens: { formats: ["relative"], requests: { full: true }, tokenModifiers: [], tokenTypes: [] } } });
  const legend = hello.capabilities.semanticTokensProvider.legend.tokenTypes;
  let compared = 0;
  for (const { path, text } of examples().filter((e) => e.sound)) {
    const uri = `file:///${path}`;
    await open(connection, uri, text);
    const { data } = await connection.sendRequest(lsp.SemanticTokensRequest.type, { textDocument: { uri } });
    const scoped = tokenize(grammar, text).list;
    let row = 0;
    let start = 0;
    for (let i = 0; i < data.length; i += 5) {
      start = data[i] === 0 ? start + data[i + 1] : data[i + 1];
      row += data[i];
      const type = legend[data[i + 3]];
      const here = scoped.find((s) => s.row === row && s.start <= start && s.end > start);
      assert.ok(here, `${path}:${row + 1}:${start + 1} has no scope`);
      assert.match(here.scopes.at(-1), agrees[type] ?? /^never/, `${where(path, here)}, to the server a ${type}`);
      compared++;
    }
  }
  t.diagnostic(`${compared} words compared`);
  assert.ok(compared > 1000);
});

test("the scopes of a text that has everything are those that were reviewed", () => {
  const sample = readFileSync(new URL("sample.hame", import.meta.url), "utf8");
  const shown = tokenize(grammar, sample)
    .list.map((t) => `${t.row + 1}:${t.start + 1}\t${t.text.trim()}\t${t.scopes.join(" ")}\n`)
    .join("");
  const file = new URL("sample.scopes", import.meta.url);
  if (process.env.UPDATE) writeFileSync(file, shown);
  assert.equal(shown, readFileSync(file, "utf8"));
});

test("what is left open ends with its line, and half a statement with its own", () => {
  const { list } = tokenize(grammar, 'harness h { title "open\n system 12 V }\nload\nwire w1\nzone z { ambient 0..1 degC }');
  const scope = (word) => list.find((t) => t.text.trim() === word).scopes.at(-1);
  assert.equal(scope("system"), "support.type.property-name");
  assert.equal(scope("load"), "keyword.declaration");
  assert.equal(scope("wire"), "keyword.declaration");
  assert.equal(scope("zone"), "keyword.declaration");
  assert.equal(scope("z"), "entity.name.function");
});
