import { studioJsonSchema } from "../src/records/index.ts";
import path from "node:path";
import { root } from "./rooms.ts";

export const schemaFile = path.join(root, "docs/reference/studio.schema.json");

/** The published JSON Schema of a studio document, as text. */
export function schemaText(): string {
  return `${JSON.stringify(studioJsonSchema(), null, 2)}\n`;
}
