import { collectionNames, settingKind, studioDocumentSchema, studioKind, type CollectionName } from "#records";
import { z } from "zod";

/** What the page gets when it opens: the whole studio, and the revision of every record. */
export const studioStateSchema = z.object({
  /** Grows by one with every change; tells a tab whether it has missed something. */
  revision: z.int(),
  document: studioDocumentSchema,
  /** Revision of each record by collection and id; the studio record stands under "studio". */
  revisions: z.record(z.string(), z.record(z.string(), z.int())),
});
export type StudioState = z.infer<typeof studioStateSchema>;

const collection = z.enum(["studio", ...collectionNames] as ["studio", ...CollectionName[]]);

/**
 * One change to one record. `basedOn` is the record's revision the change was made on (null for a new record): if
 * someone else has changed it since, nothing of the whole request is taken over and the answer shows both.
 */
export const changeSchema = z.discriminatedUnion("change", [
  z.object({
    change: z.literal("put"),
    collection,
    record: z.looseObject({ id: z.string() }),
    basedOn: z.int().nullable(),
  }),
  z.object({ change: z.literal("remove"), collection, id: z.string(), basedOn: z.int() }),
]);
export type Change = z.infer<typeof changeSchema>;

/** Changes that belong together: all are taken over or none. No record may be changed twice. */
export const changesRequestSchema = z.object({ changes: z.array(changeSchema).min(1).max(5000) });
export type ChangesRequest = z.infer<typeof changesRequestSchema>;

export const changesDoneSchema = z.object({
  /** Revision of the studio after the changes. */
  revision: z.int(),
  /** New revision of each record that was put, by collection and id. */
  revisions: z.record(z.string(), z.record(z.string(), z.int())),
});
export type ChangesDone = z.infer<typeof changesDoneSchema>;

/** The studio is now at this revision: a tab that stands at a lower one gets the studio again. */
export const studioChangedSchema = z.object({ revision: z.int() });
export type StudioChanged = z.infer<typeof studioChangedSchema>;

export const conflictSchema = z.object({
  collection,
  id: z.string(),
  /** The record as it stands now; null if it was removed. */
  current: z.looseObject({ id: z.string() }).nullable(),
  revision: z.int().nullable(),
});
export type Conflict = z.infer<typeof conflictSchema>;

/** Answer to any request that was refused: what is wrong, where, and what to do. */
export const refusalSchema = z.object({
  error: z.string(),
  problems: z.array(z.object({ path: z.string(), value: z.string(), expected: z.string() })).optional(),
  conflicts: z.array(conflictSchema).optional(),
});
export type Refusal = z.infer<typeof refusalSchema>;

export const settingSchema = settingKind.schema;
export const studioSchema = studioKind.schema;
