// The set-up files: each is well formed and starts the server as it is called.
import assert from "node:assert/strict";
import { existsSync, readFileSync } from "node:fs";
import { test } from "node:test";

import { parse } from "smol-toml";

const here = (path) => new URL(`../${path}`, import.meta.url);
const read = (path) => readFileSync(here(path), "utf8");
const scopeName = JSON.parse(read("hame.tmLanguage.json")).scopeName;

test("Helix: a language with its server", () => {
  const config = parse(read("helix/languages.toml"));
  const [language] = config.language;
  assert.deepEqual(language["file-types"], ["hame"]);
  assert.equal(language.scope, scopeName);
  const server = config["language-server"][language["language-servers"][0]];
  assert.deepEqual([server.command, ...server.args], ["hame", "lsp"]);
});

test("VS Code: the extension contributes what its files hold", () => {
  const manifest = JSON.parse(read("vscode/package.json"));
  const [language] = manifest.contributes.languages;
  const [grammar] = manifest.contributes.grammars;
  assert.deepEqual(language.extensions, [".hame"]);
  assert.equal(grammar.scopeName, scopeName);
  assert.equal(grammar.language, language.id);
  assert.ok(existsSync(here(`vscode/${language.configuration}`)));
  const configuration = JSON.parse(read(`vscode/${language.configuration}`));
  assert.equal(configuration.comments.lineComment, "#");
  const word = new RegExp(`^(?:${configuration.wordPattern})$`);
  for (const name of ["w1", "front-left", "main_fuse"]) assert.match(name, word);
  for (const other of ["-a", "a-", "9a", "a b"]) assert.doesNotMatch(other, word);
});

test("VS Code: the settings are those that the server reads", () => {
  const manifest = JSON.parse(read("vscode/package.json"));
  const given = Object.keys(manifest.contributes.configuration.properties).filter((k) => k !== "hame.path");
  const help = readFileSync(new URL("../../../cmd/hame/help/lsp.txt", import.meta.url), "utf8");
  const known = [...help.matchAll(/^ {4}([\w.]+) {2,}true or false/gm)].map((m) => `hame.${m[1]}`);
  assert.deepEqual(given.toSorted(), known.toSorted());
});

test("no lock file names where packages are fetched", () => {
  for (const lock of ["test/package-lock.json", "vscode/package-lock.json", "vscode/browser/package-lock.json"]) {
    assert.ok(!read(lock).includes('"resolved"'), lock);
  }
});

test("Zed: an extension with a language and its server", () => {
  const extension = parse(read("zed/extension.toml"));
  const language = parse(read("zed/languages/hame/config.toml"));
  assert.deepEqual(language.path_suffixes, ["hame"]);
  assert.deepEqual(extension.language_servers.hame.languages, [language.name]);
  assert.deepEqual(parse(read("zed/Cargo.toml")).lib["crate-type"], ["cdylib"]);
});
