import { readFileSync } from "node:fs";
import path from "node:path";
import { expect, it } from "vitest";
import { filesBelow, root } from "../tools/rooms.ts";

/** Every `[key]` named after "Source:" in code, docs and verification. */
function citedKeys(text: string): readonly string[] {
  return [...text.matchAll(/[Ss]ources?:((?:[^\n]*?\[[a-z0-9][a-z0-9-]*\])+)/g)].flatMap((match) =>
    [...(match[1] as string).matchAll(/\[([a-z0-9][a-z0-9-]*)\]/g)].map((key) => key[1] as string),
  );
}

const listed = new Set(
  Object.keys(JSON.parse(readFileSync(path.join(root, "docs/references.json"), "utf8")) as Record<string, string>),
);
const cited = new Map<string, string>();
for (const folder of ["src", "verification", "validation", "benchmarks", "docs", "tests", "tools"]) {
  for (const file of filesBelow(folder, [".ts", ".tsx", ".md", ".mjs"])) {
    if (file === "tests/references.test.ts") continue;
    for (const key of citedKeys(readFileSync(path.join(root, file), "utf8"))) if (!cited.has(key)) cited.set(key, file);
  }
}

it("cites only keys that docs/references.json has", () => {
  const missing = [...cited].filter(([key]) => !listed.has(key)).map(([key, file]) => `${file}: [${key}]`);
  expect(missing).toEqual([]);
});

it("lists no reference that nothing cites", () => {
  expect([...listed].filter((key) => !cited.has(key))).toEqual([]);
});

it("reads one or more keys behind Source:", () => {
  expect(citedKeys(" * Source: [a-1], page 3, and [b-2]; see also")).toEqual(["a-1", "b-2"]);
});
