import type { Outcome } from "#base";
import type { AnyRecord, CollectionName, Problem, StudioDocument } from "#records";

/** "studio" stands for the one studio record. */
export type StoredCollection = "studio" | CollectionName;

/** Revision of each record by collection and id: that of the change that last put it. */
export type Revisions = Readonly<Record<string, Readonly<Record<string, number>>>>;

export interface StoredStudio {
  /** Grows by one with every accepted request of changes, and with every import. */
  readonly revision: number;
  readonly document: StudioDocument;
  readonly revisions: Revisions;
}

/** A change to one record. `basedOn` is the revision it was made on; null for a new record. */
export type RecordChange =
  | {
      readonly change: "put";
      readonly collection: StoredCollection;
      readonly record: { readonly id: string; readonly [field: string]: unknown };
      readonly basedOn: number | null;
    }
  | { readonly change: "remove"; readonly collection: StoredCollection; readonly id: string; readonly basedOn: number };

/** A record that someone else has changed meanwhile, as it stands now; null where it was removed. */
export interface RecordConflict {
  readonly collection: StoredCollection;
  readonly id: string;
  readonly current: AnyRecord | null;
  readonly revision: number | null;
}

/** Why changes were not taken over: someone was faster, or the studio would not be valid with them. */
export type ChangesRefused =
  | { readonly reason: "conflict"; readonly conflicts: readonly RecordConflict[] }
  | { readonly reason: "invalid"; readonly problems: readonly Problem[] };

export interface ChangesApplied {
  readonly revision: number;
  /** Of the records that were put. */
  readonly revisions: Revisions;
}

/**
 * Where a studio is kept. Whatever an adapter has acknowledged survives a power cut.
 *
 * Every method throws `StoreError` where the machine refuses: disk full, file read-only, busy or damaged.
 */
export interface StudioStore {
  /** Cheap: tells whether someone, in any process, has changed the studio. */
  readonly revision: () => Promise<number>;
  /** The whole studio, older records brought to the present version. Null until one is imported. */
  readonly read: () => Promise<StoredStudio | null>;
  /** Takes over all changes or none. */
  readonly apply: (changes: readonly RecordChange[]) => Promise<Outcome<ChangesApplied, ChangesRefused>>;
  /** Replaces the whole studio; the document comes from `readStudio`. */
  readonly replace: (document: StudioDocument) => Promise<StoredStudio>;
  /** A result kept under a hash of all it depends on, or null. */
  readonly cached: (key: string) => Promise<string | null>;
  /** Keeps a result; the ones not asked for longest give way. */
  readonly keep: (key: string, body: string) => Promise<void>;
  readonly close: () => Promise<void>;
}

/** The machine refused: what happened, and what the user can do. Nothing of the request was taken over. */
export class StoreError extends Error {
  readonly remedy: string;

  constructor(message: string, remedy: string, cause?: unknown) {
    super(message, { cause });
    this.name = "StoreError";
    this.remedy = remedy;
  }
}
