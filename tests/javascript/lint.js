// Lints every script and style sheet that the browser gets, those inside page templates too. Prints faults, exit 1 if there are any.
import { readFile, readdir } from "node:fs/promises";
import { relative } from "node:path";

import { ESLint } from "eslint";
import stylelint from "stylelint";

import { ROOT } from "./load.js";

const HERE = `${ROOT}tests/javascript`;
const all = (await readdir(`${ROOT}rigcalc`, { recursive: true })).map((name) => `${ROOT}rigcalc/${name}`);
const scripts = all.filter((name) => name.endsWith(".js"));
const sheets = all.filter((name) => name.endsWith(".css"));
const templates = all.filter((name) => /\.html(\.j2)?$/.test(name));
const own = (await readdir(HERE)).filter((name) => name.endsWith(".js")).map((name) => `${HERE}/${name}`);
const faults = [];
const tell = (file, line, rule, text) => faults.push(`${relative(ROOT, file)}:${line} ${rule}: ${text}`);

// Scripts are joined as the kernel joins them, by the first words of each: a name made in one is used in the next.
const called = (name) => scripts.find((each) => each.endsWith(`/${name}`));
const joined = await Promise.all(scripts.map(async (name) => {
  const head = (await readFile(name, "utf8")).split("\n").filter((line) => line.startsWith("//")).join(" ");
  const before = /((?:`\w+\.js`(?:, | and )?)+) stands? before it/.exec(head)?.[1] ?? "";
  return [...before.matchAll(/`(\w+\.js)`/g)].map(([, each]) => called(each)).concat(name);
}));
const used = new Set(joined.flatMap((names) => names.slice(0, -1)));

const eslint = new ESLint({ cwd: ROOT, overrideConfigFile: `${HERE}/eslint.config.js` });
const judge = (file, results) => {
  for (const { messages } of results) for (const { line, ruleId, message } of messages) tell(file, line ?? 0, ruleId ?? "syntax", message);
};
for (const result of await eslint.lintFiles(own)) judge(result.filePath, [result]);
for (const names of joined.filter((each) => !used.has(each.at(-1)))) {
  const whole = (await Promise.all(names.map((name) => readFile(name, "utf8")))).join("\n"); // eslint-disable-line no-await-in-loop
  judge(names.at(-1), await eslint.lintText(whole, { filePath: names.at(-1) })); // eslint-disable-line no-await-in-loop
}

// A template's own scripts and styles. Where a value is put in, something of its kind stands for it: a name in a script; in a style
// a number before a unit, a keyword after a colon, else nothing, for a whole sheet.
const blocks = [];
const PUT_IN = /\{[{%#][\s\S]*?[}%#]\}/g;
const filled = {
  script: (text) => text.replaceAll(PUT_IN, "filled"),
  style: (text) => text.replaceAll(PUT_IN, (_, place) => {
    const after = text.slice(place).replace(PUT_IN, "");
    if (/^[a-z%]/.test(after)) return "1";
    return /: ?$/.test(text.slice(0, place)) ? "auto" : "";
  }),
};
for (const name of templates) {
  const text = await readFile(name, "utf8"); // eslint-disable-line no-await-in-loop
  for (const [, tag, attributes, inside] of text.matchAll(/<(script|style)([^>]*)>([\s\S]*?)<\/\1>/g)) {
    if (!inside.trim() || /type="application/.test(attributes)) continue;
    blocks.push({ name, tag, inside: filled[tag](inside) });
  }
}
for (const { name, tag, inside } of blocks.filter((block) => block.tag === "script")) {
  judge(name, await eslint.lintText(inside, { filePath: `${ROOT}rigcalc/${tag}.js` })); // eslint-disable-line no-await-in-loop
}
const configFile = `${HERE}/stylelint.config.js`;
const styles = [
  await stylelint.lint({ files: sheets, configFile }),
  ...await Promise.all(blocks.filter((block) => block.tag === "style").map(({ name, inside }) => (
    stylelint.lint({ code: inside, codeFilename: `${name}.css`, configFile })))),
];
for (const { results } of styles) {
  for (const { source, warnings } of results) for (const { line, rule, text } of warnings) tell(source, line, rule, text);
}

console.log(`${scripts.length} scripts, ${sheets.length} style sheets, ${blocks.length} blocks in templates`);
for (const fault of faults) console.log(fault);
process.exitCode = faults.length ? 1 : 0;
