// The grammar, read by the tokenizer that editors use.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { test } from "node:test";

const require = createRequire(import.meta.url);
const { Registry, parseRawGrammar, INITIAL } = require("vscode-textmate");
const oniguruma = require("vscode-oniguruma");

const file = new URL("../../textmate/hame.tmLanguage.json", import.meta.url);

async function load() {
  const wasm = readFileSync(require.resolve("vscode-oniguruma/release/onig.wasm"));
  await oniguruma.loadWASM(wasm.buffer.slice(wasm.byteOffset, wasm.byteOffset + wasm.byteLength));
  const registry = new Registry({
    onigLib: Promise.resolve({
      createOnigScanner: (patterns) => new oniguruma.OnigScanner(patterns),
      createOnigString: (s) => new oniguruma.OnigString(s),
    }),
    loadGrammar: async () => parseRawGrammar(readFileSync(file, "utf8"), "hame.tmLanguage.json"),
  });
  return registry.loadGrammar("source.hame");
}

// scopes gives each word of a text its innermost scope.
function scopes(grammar, text) {
  let stack = INITIAL;
  const found = [];
  for (const line of text.split("\n")) {
    const result = grammar.tokenizeLine(line, stack);
    stack = result.ruleStack;
    for (const t of result.tokens) {
      const word = line.slice(t.startIndex, t.endIndex).trim();
      if (word) found.push([word, t.scopes.at(-1)]);
    }
  }
  return found;
}

function scopeOf(list, word, nth = 0) {
  const hits = list.filter(([w]) => w === word);
  assert.ok(hits.length > nth, `no token \`${word}\` in ${JSON.stringify(list)}`);
  return hits[nth][1].replace(/\.hame$/, "");
}

test("every part of a harness has its colour", async () => {
  const list = scopes(
    await load(),
    `# a comment { with brace
zone bay { ambient -20..85 degC; exposure wet }
protection fuse feed { at box; rating 15 A; family mini } # the rest
load led load2 {
    draws  27 W at 12 V
    label  "front \\" lamps"
}
wire w-1 feed.out -> k1.87a 2/0 AWG gxl yellow/green 0.5 m { cover loom_pa }
allow wire/undersized on w-1 because "so" until 2027-05-31
`,
  );
  for (const [word, scope, nth] of [
    ["# a comment { with brace", "comment.line.number-sign"],
    ["zone", "keyword.declaration"],
    ["bay", "entity.name.function"],
    ["ambient", "support.type.property-name"],
    ["-20", "constant.numeric"],
    ["..", "keyword.operator"],
    ["85", "constant.numeric"],
    ["degC", "keyword.other.unit"],
    ["exposure", "support.type.property-name"],
    ["protection", "keyword.declaration"],
    ["fuse", "entity.name.type"],
    ["feed", "entity.name.function"],
    ["rating", "support.type.property-name"],
    ["# the rest", "comment.line.number-sign"],
    ["load", "keyword.declaration"],
    ["load2", "entity.name.function"],
    ["draws", "support.type.property-name"],
    ["W", "keyword.other.unit"],
    ['\\"', "constant.character.escape"],
    ["w-1", "entity.name.function"],
    ["feed", "variable.other.object", 1],
    ["out", "variable.other.property"],
    ["87a", "variable.other.property"],
    ["->", "keyword.operator.arrow"],
    ["2/0", "constant.numeric"],
    ["AWG", "keyword.other.unit"],
    ["gxl", "support.constant"],
    ["yellow/green", "constant.language.colour"],
    ["loom_pa", "support.constant"],
    ["wire/undersized", "support.function.rule"],
    ["2027-05-31", "constant.other.date"],
  ]) {
    assert.equal(scopeOf(list, word, nth), scope, word);
  }
});

test("an open text ends with its line", async () => {
  const list = scopes(await load(), 'harness h { title "open\n system 12 V }\nzone z { ambient 0..1 degC }');
  assert.equal(scopeOf(list, "system"), "support.type.property-name");
  assert.equal(scopeOf(list, "zone"), "keyword.declaration");
});
