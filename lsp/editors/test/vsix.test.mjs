// The packed extension: what is in it, and that its one file loads and starts
// the server. What the editor lends to it is played by stand-ins.
import assert from "node:assert/strict";
import { existsSync, readFileSync } from "node:fs";
import Module, { createRequire } from "node:module";
import { test } from "node:test";
import { fileURLToPath } from "node:url";

const here = (path) => fileURLToPath(new URL(`../vscode/${path}`, import.meta.url));
const skip = existsSync(here("hame.vsix")) ? false : "not packed";

// names lists what a zip archive holds, by its central directory (PKWARE
// APPNOTE 6.3, section 4.3.12).
function names(zip) {
  const list = [];
  for (let at = zip.indexOf("PK\x01\x02", 0, "latin1"); at >= 0; at = zip.indexOf("PK\x01\x02", at + 46, "latin1")) {
    list.push(zip.toString("utf8", at + 46, at + 46 + zip.readUInt16LE(at + 28)));
  }
  return list.sort();
}

test("the archive holds what the manifest names, and nothing else", { skip }, () => {
  const packed = names(readFileSync(here("hame.vsix")));
  assert.deepEqual(packed, [
    "[Content_Types].xml",
    "extension.vsixmanifest",
    "extension/dist/LICENSE.txt",
    "extension/dist/NOTICES.txt",
    "extension/dist/extension.js",
    "extension/dist/hame.tmLanguage.json",
    "extension/language-configuration.json",
    "extension/package.json",
    "extension/readme.md",
  ]);
  const manifest = JSON.parse(readFileSync(here("package.json"), "utf8"));
  const named = [manifest.main, ...manifest.contributes.grammars.map((g) => g.path), ...manifest.contributes.languages.map((l) => l.configuration)];
  for (const path of named) assert.ok(packed.includes(`extension/${path.replace("./", "")}`), path);
});

// standIn answers to every name, call and `new` with another of its kind.
function standIn(known = {}) {
  const self = class {};
  const proxy = new Proxy(self, {
    get: (_, key) => (key in known ? known[key] : key === "then" || typeof key === "symbol" ? undefined : key === "prototype" ? self.prototype : (known[key] = standIn())),
    apply: () => standIn(),
    construct: (_, args, target) => (target === proxy ? standIn() : Reflect.construct(self, args, target)),
  });
  return proxy;
}

// editor plays the part of the editor's interface that matters here.
function editor(path, commands) {
  const quiet = () => ({ dispose() {} });
  const api = standIn({
    version: "1.91.0",
    env: standIn({ appName: "test", language: "en" }),
    commands: standIn({ registerCommand: (name, run) => ((commands[name] = run), quiet()) }),
    workspace: standIn({
      getConfiguration: () => ({ get: (key, other) => (key === "path" ? path : other) }),
      onDidChangeConfiguration: quiet,
      workspaceFolders: undefined,
      textDocuments: [],
      notebookDocuments: [],
    }),
    window: standIn({ showErrorMessage: async () => undefined, visibleTextEditors: [], activeTextEditor: undefined, tabGroups: standIn({ all: [] }) }),
  });
  // The bundler's own copy of it has the names of its prototype.
  return Object.create(api);
}

// A client that is ended while it pulls the folder's findings sets its next pull
// again and again; that must not keep this process from ending.
const { setTimeout: timed } = globalThis;
globalThis.setTimeout = (...args) => {
  const timer = timed(...args);
  timer.unref();
  return timer;
};

// activate runs the packed extension once, and ends it.
async function activate(path) {
  const commands = {};
  const vscode = editor(path, commands);
  const load = Module._load;
  Module._load = (name, ...rest) => (name === "vscode" ? vscode : load(name, ...rest));
  const require = createRequire(import.meta.url);
  try {
    delete require.cache[here("dist/extension.js")];
    const extension = require(here("dist/extension.js"));
    await extension.activate({ subscriptions: [] });
    await extension.deactivate();
  } finally {
    Module._load = load;
  }
  return commands;
}

test("the extension loads, and starts a server that answers", { skip }, async () => {
  const commands = await activate(process.env.HAME ?? "hame");
  assert.ok(commands["hame.restart"], "the command of the manifest is there");
});

test("what is no server is not taken for one", { skip }, async () => {
  await assert.rejects(activate("/bin/false"));
});
