// Drives the packed extension and the real server in VS Code's own window, over a
// copy of a faulty example.
//
//     node drive.mjs URL FOLDER STARTS PICTURES
//
// URL is where the window is served, FOLDER holds wires.hame, STARTS gets a line
// each time the server is started.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";

import { eventually, Window } from "./window.mjs";

const [url, folder, starts, pictures] = process.argv.slice(2);
// The window saves by itself, a second after the last change.
const text = () => readFileSync(`${folder}/wires.hame`, "utf8");
const started = () => readFileSync(starts, "utf8").trim().split("\n").length;

// at is where a pattern first matches, and so many characters behind that.
function at(pattern, behind = 0) {
  const before = text().slice(0, text().search(pattern));
  assert.match(text(), pattern);
  return { line: before.split("\n").length, column: before.length - before.lastIndexOf("\n") + behind };
}

const problem = ".markers-panel .monaco-list-row";
const row = ".view-line";
const proposal = ".suggest-widget .monaco-list-row";
const action = ".action-widget .monaco-list-row";

async function findings(w) {
  await w.click('[role="treeitem"]', /wires\.hame/, { count: 2 });
  await w.command("Problems: Focus on Problems View");
  await w.seek("an error is found", problem, /^Error: .*80 degC[^]*wire\/insulation/);
  const { line } = at(/^wire\s+w9/m);
  const thin = await w.seek("a warning is found", problem, /^Warning: [^]*wire\/thin/);
  assert.match(thin, new RegExp(`at line ${line} and character 6\\.`), "on the line that says so");
  await w.seek("a remark is found", problem, /^Info: [^]*wire\/colour/);
  await w.seek("a finding leads to a place that has to do with it", problem, /^the zone at line 12/);
  await w.seek("the bar counts them", '[id="status.problems"]', /Errors: 1, Warnings: 1, Infos: 3/);
  await w.picture("findings");
}

async function page(w) {
  await w.click(`${problem} a`, /wire\/thin/);
  await w.seek("the code of a finding opens the page of its rule", ".editor-instance .view-line", /wire\/thin/);
  await w.picture("rule");
  await w.command("View: Close Editor");
}

async function figures(w) {
  await w.go(at(/w2\s/));
  // 1.2 m of the run, and 100 mm of slack at each end.
  await w.seek("figures stand behind a wire", row, /^wire w2 1\.40 m, [\d.]+ of [\d.]+ A /);
  await w.seek("volts stand behind a load", row, /^load led lamp.*\d V in mixing/);
  await w.seek("what a fuse carries stands above it", ".codelens-decoration", /^worst [\d.]+ A of 5 A, .*protects w4/);
}

async function colours(w) {
  await w.go(at(/w9\s/));
  await w.command("Developer: Inspect Editor Tokens and Scopes");
  const seen = await w.seek("a word has its scope", ".token-inspect-widget", /source\.hame/);
  assert.match(seen, /entity\.name\.function\.hame/, "from the grammar");
  assert.match(seen, /semantic token type\s+function\s+modifiers\s+declaration/, "from the server");
  await w.picture("colours");
  await w.keys("Escape");
}

async function hover(w) {
  await w.go(at(/w9\s/));
  await w.command("Show or Focus Hover");
  await w.seek("hover over a wire tells of its ampacity", ".monaco-hover", /w9 \(wire\)[^]*ampacity: [\d.]+ A/);
  await w.picture("hover");
  await w.keys("Escape");
}

async function settingsProposed(w) {
  await w.go(at(/; resistance/, 2));
  await w.command("Trigger Suggest");
  await w.seek("settings that are not given yet are proposed in a block", proposal, /^chemistry/);
  assert.ok(!(await w.all(proposal)).some((p) => /^capacity/.test(p)), "those given are not");
  await w.picture("settings");
  await w.keys("Escape");
}

async function terminalsProposed(w) {
  await w.keys("Control+End");
  await w.type("wire w99 f1.");
  await w.seek("the terminals of a device are proposed", proposal, /^f1\.in/);
  await w.picture("terminals");
  await w.click(proposal, /^f1\.out/);
  await eventually("the one that is chosen is written", () => /^wire w99 f1\.out$/m.test(text()));
  await w.keys("Control+Shift+KeyK");
  await eventually("and taken away again", () => !text().includes("w99"));
}

async function renamed(w) {
  await w.go(at(/lamp\s+\{/));
  await w.keys("F2");
  await w.seek("a new name is asked for", ".rename-box:focus-within", /^/);
  await w.type("work_lamp");
  await w.picture("rename");
  await w.keys("Enter");
  const uses = [/led work_lamp/, /work_lamp\.pos/, /work_lamp\.neg/, /require work_lamp/];
  await eventually("a name is changed wherever it stands", () => uses.every((u) => u.test(text())));
}

async function formatted(w) {
  const { line } = at(/^wire\s+w10/m);
  await w.go({ line, column: 1 });
  await w.keys("Shift+End");
  await w.type("wire   w10 dial.neg->neg   1mm2 black");
  await w.keys("Escape");
  await eventually("a line is written anew", () => text().includes("->neg   1mm2"));
  await w.command("Format Document");
  await eventually("the text is formatted", () => /^wire\s+w10\s+dial\.neg\s+-> neg\s+1 mm2\s+black$/m.test(text()));
  const arrows = text().split("\n").slice(line - 2, line + 1).map((l) => l.indexOf("->"));
  assert.equal(new Set(arrows).size, 1, "the arrows stand below each other");
  await w.picture("formatted");
}

async function mended(w) {
  await w.go(at(/w9\s/));
  await w.command("Quick Fix...");
  await w.seek("what mends it is offered", action, /0\.75 mm2/);
  await w.picture("fix");
  await w.click(action, /0\.75 mm2/);
  await eventually("it is mended", () => /^wire\s+w9\s.*0\.75 mm2/m.test(text()));
  const gone = async () => !(await w.all(problem)).some((p) => p.includes("wire/thin"));
  await eventually("its finding is gone", gone);
  await w.seek("the others are still there", problem, /wire\/insulation/);
  await w.seek("the bar counts one fewer", '[id="status.problems"]', /Errors: 1, Infos: 3/);
  await w.picture("mended");
}

async function set(w) {
  await w.command("Preferences: Open Settings (UI)");
  await w.seek("settings are there to be looked for", ".settings-editor .search-container:focus-within", /^/);
  await w.type("hame.inlayHints");
  await w.seek("a setting says what it does", ".settings-editor .setting-item-contents", /Loads\n+Show the least volts/);
  await w.picture("setting");
  await w.click(".settings-editor .setting-value-checkbox", /^hame\.inlayHints\.loads/);
  await w.command("View: Close Editor");
  await w.go(at(/dial\s+\{/));
  await w.seek("it takes effect", row, /^load led dial +\{/);
  await w.seek("on nothing else", row, /^wire w2 1\.40 m/);
}

async function restarted(w) {
  assert.equal(started(), 1, "the server was started once");
  await w.command("Hame: Restart the server");
  await eventually("the server is started again", () => started() === 2);
  await hover(w);
  await w.seek("it finds the same", '[id="status.problems"]', /Errors: 1, Infos: 3/);
}

const w = await Window.open(url, folder, pictures);
try {
  for (const step of [findings, page, figures, colours, hover, settingsProposed, terminalsProposed, renamed, formatted, mended, set, restarted]) {
    await step(w);
  }
  assert.deepEqual(w.broken, [], "the window's script threw");
} catch (e) {
  await w.picture("failed");
  throw e;
} finally {
  await w.close();
}
