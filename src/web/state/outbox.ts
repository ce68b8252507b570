import type { Change } from "#protocol";
import { keyOf, type Edit } from "./edits.ts";

/** An edit that the server has not confirmed, and the revision of the record it was made on (null: a new record). */
export interface WaitingEdit extends Edit {
  readonly basedOn: number | null;
}

/** Edits by key. Only the last one of a record counts: what was between was never anybody's work but this page's. */
export type Outbox = ReadonlyMap<string, WaitingEdit>;

export const emptyOutbox: Outbox = new Map();

/**
 * The outbox with more edits. A record that waits already keeps the revision it was based on.
 *
 * @param revisionOf  the record's revision on the server as this page last saw it; null if it is not there
 */
export function withWaiting(outbox: Outbox, edits: readonly Edit[], revisionOf: (edit: Edit) => number | null): Outbox {
  const next = new Map(outbox);
  for (const edit of edits) {
    const key = keyOf(edit);
    const waiting = next.get(key);
    const basedOn = waiting ? waiting.basedOn : revisionOf(edit);
    next.delete(key);
    // A record that was made and removed again before anyone saw it leaves no trace.
    if (edit.record !== null || basedOn !== null) next.set(key, { ...edit, basedOn });
  }
  return next;
}

/** What was under way put back behind what came since: the newer edit of a record wins, on the older one's base. */
export function rejoined(sent: Outbox, since: Outbox): Outbox {
  const next = new Map(sent);
  for (const [key, edit] of since) {
    const basedOn = sent.get(key)?.basedOn ?? edit.basedOn;
    next.delete(key);
    if (edit.record !== null || basedOn !== null) next.set(key, { ...edit, basedOn });
  }
  return next;
}

/** The outbox as the server is asked to take it over. Puts come before removals, so that no reference hangs. */
export function changesOf(outbox: Outbox): Change[] {
  const puts: Change[] = [];
  const removals: Change[] = [];
  for (const { place, id, record, basedOn } of outbox.values()) {
    if (record !== null) puts.push({ change: "put", collection: place, record: { ...record }, basedOn });
    else if (basedOn !== null) removals.push({ change: "remove", collection: place, id, basedOn });
  }
  return [...puts, ...removals];
}

/** Edits made while `saved` was under way, now based on what those records became. */
export function rebased(waiting: Outbox, saved: Outbox, revisionOf: (edit: Edit) => number | null): Outbox {
  const next = new Map(waiting);
  for (const [key, edit] of waiting) {
    if (!saved.has(key)) continue;
    const basedOn = revisionOf(edit);
    if (edit.record === null && basedOn === null) next.delete(key);
    else next.set(key, { ...edit, basedOn });
  }
  return next;
}
