// Builds dist/: the extension in one file, the grammar, the licences of all that
// is in it. Needs no network.
import { copyFileSync, existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";

import { build } from "esbuild";

rmSync("dist", { recursive: true, force: true });
mkdirSync("dist");
copyFileSync("../hame.tmLanguage.json", "dist/hame.tmLanguage.json");
copyFileSync("../../../LICENSE", "dist/LICENSE.txt");
const { metafile } = await build({
  entryPoints: ["src/extension.ts"],
  outfile: "dist/extension.js",
  bundle: true,
  minify: true,
  platform: "node",
  format: "cjs",
  target: "node20",
  external: ["vscode"],
  metafile: true,
});

// A package's licence goes with its code.
const folders = Object.keys(metafile.inputs).map((path) => path.match(/^.*node_modules\/(@[^/]+\/)?[^/]+/)?.[0]);
const notices = [...new Set(folders.filter(Boolean))].sort().map((folder) => {
  const name = readdirSync(folder).find((file) => /^licen[cs]e/i.test(file));
  if (!name || !existsSync(`${folder}/${name}`)) throw new Error(`${folder} has no licence`);
  const { name: title, version } = JSON.parse(readFileSync(`${folder}/package.json`, "utf8"));
  return `${title} ${version}\n\n${readFileSync(`${folder}/${name}`, "utf8").trim()}\n`;
});
writeFileSync("dist/NOTICES.txt", notices.join(`\n${"-".repeat(72)}\n\n`));
