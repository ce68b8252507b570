import { z } from "zod";
import { id, name } from "./common-fields.ts";
import type { RecordKind } from "./record-kind.ts";

/** Who the pieces are for: a person, a class, a café. */
export const partySchema = z.strictObject({ version: z.literal(1), id, name });

export type PartyRecord = z.infer<typeof partySchema>;

export const partyKind: RecordKind<typeof partySchema> = {
  kind: "party",
  version: 1,
  schema: partySchema,
  migrations: [],
};
