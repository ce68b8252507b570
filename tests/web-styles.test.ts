import { readFileSync } from "node:fs";
import path from "node:path";
import { expect, it } from "vitest";
import { filesBelow, root } from "../tools/rooms.ts";

const sheets = filesBelow("src/web", [".css"]);
const declared = new Set<string>(
  [...readFileSync(path.join(root, "src/web/ui/tokens.css"), "utf8").matchAll(/--([\w-]+):/g)].map((match) => match[1]),
);
// Set by react-aria-components on its popovers.
declared.add("trigger-width");

it("uses no custom property that tokens.css does not declare", () => {
  const used = [...sheets, ...filesBelow("src/web", [".tsx"])].flatMap((file) => {
    const source = readFileSync(path.join(root, file), "utf8");
    const own = new Set([...source.matchAll(/--([\w-]+):/g)].map((match) => match[1]));
    return [...source.matchAll(/var\(--([\w-]+)\)/g)]
      .map((match) => match[1])
      .filter((name) => !own.has(name))
      .map((name) => ({ file, name }));
  });
  expect(used.length).toBeGreaterThan(100);
  expect(used.filter(({ name }) => !declared.has(name))).toEqual([]);
});

it("writes no colour down outside tokens.css", () => {
  for (const file of sheets.filter((sheet) => !sheet.endsWith("tokens.css"))) {
    expect(readFileSync(path.join(root, file), "utf8"), file).not.toMatch(/#[0-9a-f]{3,8}\b/i);
  }
});
