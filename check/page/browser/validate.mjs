// Validates pages against the HTML standard and its rules for accessibility.
//
//     node validate.mjs FILE.html…
import { readFileSync } from "node:fs";
import { HtmlValidate } from "html-validate";

const validator = new HtmlValidate({
  root: true,
  extends: ["html-validate:standard", "html-validate:a11y"],
  rules: {
    // Both are matters of looks, which the standard leaves free.
    "no-inline-style": "error",
    "long-title": "off",
  },
});

let wrong = 0;
for (const file of process.argv.slice(2)) {
  const report = await validator.validateString(readFileSync(file, "utf8"), file);
  for (const result of report.results) {
    for (const m of result.messages) {
      wrong++;
      console.log(`${file}:${m.line}:${m.column}: ${m.message} [${m.ruleId}]`);
    }
  }
}
console.log(`${process.argv.length - 2} pages, ${wrong} mistakes`);
process.exit(wrong ? 1 : 0);
