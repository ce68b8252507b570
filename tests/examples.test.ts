import { readdirSync, readFileSync } from "node:fs";
import path from "node:path";
import { describe, expect, test } from "vitest";
import { readStudio } from "#records";
import { commandsFile, commandsText } from "../tools/commands-page.ts";
import { exampleFile, exampleText } from "../tools/example-studio.ts";
import { root } from "../tools/rooms.ts";

describe("examples", () => {
  test.each(readdirSync(path.join(root, "examples")).filter((name) => name.endsWith(".json")))("%s opens", (name) => {
    const read = readStudio(JSON.parse(readFileSync(path.join(root, "examples", name), "utf8")));
    expect(read.ok ? [] : read.failure).toEqual([]);
  });

  test("the demo's document is current (npm run docs writes it)", () => {
    expect(readFileSync(exampleFile, "utf8")).toBe(exampleText());
  });
});

test("the page of commands is current (npm run docs writes it)", () => {
  expect(readFileSync(commandsFile, "utf8")).toBe(commandsText());
});
