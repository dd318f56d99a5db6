// Opens a page in Chromium as a reader would, holds what its script promises, and
// takes pictures.
//
//     node look.mjs FILE.html FOLDER
import assert from "node:assert/strict";
import { resolve } from "node:path";
import puppeteer from "puppeteer-core";

const [file, folder] = process.argv.slice(2).map((p) => resolve(p));
const browser = await puppeteer.launch({ executablePath: process.env.CHROMIUM || "/usr/bin/chromium", args: ["--no-sandbox"] });
const page = await browser.newPage();
const trouble = [];
page.on("pageerror", (e) => trouble.push(String(e)));
page.on("console", (m) => ["error", "warning"].includes(m.type()) && trouble.push(m.text()));
page.on("request", (r) => r.url().startsWith("file:") || trouble.push(`it asks for ${r.url()}`));
await page.setViewport({ width: 1400, height: 1000 });
await page.goto(`file://${file}`);
const shot = (name, options = {}) => page.screenshot({ path: `${folder}/${name}.png`, ...options });
await shot("plain");

// A mode: something is live, and the words say so too.
const modes = await page.$$eval("#mode option", (list) => list.map((o) => o.value || o.textContent).slice(1));
const first = modes[0];
if (first) {
  await page.select("#mode", first);
  const live = await page.$$eval("[data-picture] g.live", (list) => list.map((g) => g.getAttribute("aria-label")));
  assert.ok(live.every((words) => words.includes(`in ${first}: live`)), "what is live says so in words");
  await shot("mode");
}

// By keys alone: into a drawing, and on with an arrow.
await page.$eval("[data-picture] g[tabindex='0']", (g) => g.focus());
const before = await page.$eval("#told", (p) => p.textContent);
await page.keyboard.press("ArrowRight");
const after = await page.$eval("#told", (p) => p.textContent);
assert.notEqual(after, before, "an arrow key goes on to the next");

// In full size a drawing scrolls in its own frame, and the page does not.
await page.click("#full");
assert.ok(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth), "the page itself never scrolls sideways");
await page.click("#full");

// A finding leads to its place in the drawing.
const finding = await page.$("tr[data-name] button.find");
if (finding) {
  await finding.click();
  assert.ok(await page.$("g.shown"), "a finding shows its place");
  await shot("finding");
}

await page.emulateMediaFeatures([{ name: "prefers-color-scheme", value: "dark" }]);
await page.evaluate(() => scrollTo(0, 0));
await shot("dark");
await page.emulateMediaFeatures([]);
await page.pdf({ path: `${folder}/print.pdf`, format: "A4" });

// Without script it is a plain page.
const plain = await browser.newPage();
await plain.setJavaScriptEnabled(false);
await plain.goto(`file://${file}`);
assert.equal(await plain.$eval("#looking", (e) => e.hidden), true, "without script there is no picker");
await browser.close();
assert.deepEqual(trouble, [], "the browser complains");
console.log(`looked at ${file}: ${modes.length} modes`);
