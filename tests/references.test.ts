import { readFileSync } from "node:fs";
import path from "node:path";
import { expect, it } from "vitest";
import { filesBelow, root } from "../tools/rooms.ts";

/** Keys in brackets behind "Source:" on the same line and, in registers of cases, those that open a text: "[key], page 3". */
function citedKeys(text: string, isRegister: boolean): readonly string[] {
  const behindSource = [...text.matchAll(/[Ss]ources?(?: of all)?:((?:[^\n]*?\[[a-z0-9][a-z0-9-]*\])+)/g)].flatMap(
    (match) => [...match[1].matchAll(/\[([a-z0-9][a-z0-9-]*)\]/g)].map((key) => key[1]),
  );
  if (!isRegister) return behindSource;
  const opening = [...text.matchAll(/"\[([a-z][a-z0-9]*(?:-[a-z0-9]+)+)\]/g)].map((match) => match[1]);
  return [...behindSource, ...opening];
}

const listed = Object.keys(
  JSON.parse(readFileSync(path.join(root, "docs/references.json"), "utf8")) as Record<string, string>,
);
const texts = ["src", "verification", "validation", "benchmarks", "docs", "tests", "tools"]
  .flatMap((folder) => filesBelow(folder, [".ts", ".tsx", ".md", ".mjs"]))
  .filter((file) => file !== "tests/references.test.ts" && file !== "docs/reference/verification.md")
  .map((file) => ({ file, text: readFileSync(path.join(root, file), "utf8") }));

it("cites only keys that docs/references.json has", () => {
  const missing = texts.flatMap(({ file, text }) =>
    citedKeys(text, /^(verification|validation)\//.test(file))
      .filter((key) => !listed.includes(key))
      .map((key) => `${file}: [${key}]`),
  );
  expect(missing).toEqual([]);
});

it("lists no reference that nothing cites, in alphabetical order", () => {
  expect(listed.filter((key) => !texts.some(({ text }) => text.includes(`[${key}]`)))).toEqual([]);
  expect(listed).toEqual(listed.toSorted());
});

it("reads one or more keys behind Source:, and a key that opens a text", () => {
  expect(citedKeys(" * Source: [a-1], page 3, and [b-2]; see also", false)).toEqual(["a-1", "b-2"]);
  expect(citedKeys('const source = "[c-3], table 2"', true)).toEqual(["c-3"]);
  expect(citedKeys('an array [i] or "[data-row]" is no key', false)).toEqual([]);
});
