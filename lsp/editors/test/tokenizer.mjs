// The tokenizer that editors use, with the grammar that they install.
import { readFileSync, readdirSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

const require = createRequire(import.meta.url);
const { Registry, parseRawGrammar, INITIAL } = require("vscode-textmate");
const oniguruma = require("vscode-oniguruma");

const grammarFile = new URL("../hame.tmLanguage.json", import.meta.url);
const root = fileURLToPath(new URL("../../../", import.meta.url));

export async function loadGrammar() {
  const wasm = readFileSync(require.resolve("vscode-oniguruma/release/onig.wasm"));
  await oniguruma.loadWASM(wasm.buffer.slice(wasm.byteOffset, wasm.byteOffset + wasm.byteLength));
  const registry = new Registry({
    onigLib: Promise.resolve({
      createOnigScanner: (patterns) => new oniguruma.OnigScanner(patterns),
      createOnigString: (s) => new oniguruma.OnigString(s),
    }),
    loadGrammar: async () => parseRawGrammar(readFileSync(grammarFile, "utf8"), "hame.tmLanguage.json"),
  });
  return registry.loadGrammar("source.hame");
}

// tokenize gives the words of a text, blanks left out: where each stands, what
// it says, and its scopes without the language's own and its ending.
export function tokenize(grammar, text) {
  let stack = INITIAL;
  const list = [];
  text.split("\n").forEach((line, row) => {
    const result = grammar.tokenizeLine(line, stack);
    stack = result.ruleStack;
    for (const t of result.tokens) {
      const said = line.slice(t.startIndex, t.endIndex);
      if (said.trim() === "") continue;
      const scopes = t.scopes.slice(1).map((s) => s.replace(/\.hame$/, ""));
      list.push({ row, start: t.startIndex, end: t.endIndex, text: said, scopes });
    }
  });
  return { list, depth: stack.depth };
}

// examples lists the harnesses and libraries of the project. Sound ones are all
// but the faulty.
export function examples() {
  const list = [];
  const walk = (dir) => {
    for (const entry of readdirSync(join(root, dir), { withFileTypes: true })) {
      const path = join(dir, entry.name);
      if (entry.isDirectory()) walk(path);
      else if (path.endsWith(".hame")) list.push(path);
    }
  };
  ["examples", "lang/parts"].forEach(walk);
  return list.sort().map((path) => ({
    path,
    text: readFileSync(join(root, path), "utf8"),
    sound: !path.startsWith(join("examples", "faulty")),
  }));
}
