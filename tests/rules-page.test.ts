import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { rulesFile, rulesText } from "../tools/rules-page.ts";

it("shows the loading rules as the program has them (npm run docs writes the page)", () => {
  expect(readFileSync(rulesFile, "utf8")).toBe(rulesText());
});
