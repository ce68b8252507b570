import { demoStudio } from "../src/work/index.ts";
import path from "node:path";
import { root } from "./rooms.ts";

export const exampleFile = path.join(root, "examples/alder-row.json");

/** The demo studio on a fixed day, as a document. */
export function exampleText(): string {
  return `${JSON.stringify(demoStudio("2026-11-23", 1), null, 1)}\n`;
}
