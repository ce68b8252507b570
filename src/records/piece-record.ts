import { z } from "zod";
import { day, id } from "./common-fields.ts";
import type { RecordKind } from "./record-kind.ts";

export const pieceSchema = z.strictObject({
  version: z.literal(1),
  id,
  shapeId: id,
  partyId: id,
  classId: id,
  /** Day it is promised for. */
  promised: day,
  /** What it is worth to fire it now, against other pieces: 1 is usual. */
  value: z.number().positive().max(1000),
  stiltId: id.nullable(),
  state: z.enum(["raw", "bisque", "glazed"]),
  /** Dry enough to fire from this moment (ISO 8601 with offset); null when it is ready. */
  dryFrom: z.iso.datetime({ offset: true }).nullable(),
  /** Not to be placed until someone says so. */
  held: z.boolean(),
  note: z.string().max(400),
});

export type PieceRecord = z.infer<typeof pieceSchema>;

export const pieceKind: RecordKind<typeof pieceSchema> = {
  kind: "piece",
  version: 1,
  schema: pieceSchema,
  migrations: [],
};
