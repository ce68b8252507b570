import type { Conflict, StudioState } from "#protocol";
import type { StudioDocument } from "#records";
import { sameJson, withEdits, type Edit, type SavedRecord } from "./edits.ts";
import type { Outbox } from "./outbox.ts";

type Revisions = StudioState["revisions"];

/** The studio as the server last told. */
export interface ServerCopy {
  readonly revision: number;
  readonly document: StudioDocument;
  readonly revisions: Revisions;
}

function withRevision(revisions: Revisions, place: string, id: string, revision: number | null): Revisions {
  const records = { ...revisions[place] };
  if (revision === null) delete records[id];
  else records[id] = revision;
  return { ...revisions, [place]: records };
}

/** The server's studio with what was just saved, at the revisions it gave. */
export function withSaved(state: ServerCopy, saved: Outbox, revision: number, given: Revisions): ServerCopy {
  let { revisions } = state;
  for (const { place, id, record } of saved.values()) {
    revisions = withRevision(revisions, place, id, record === null ? null : (given[place]?.[id] ?? revision));
  }
  return { revision, document: withEdits(state.document, saved.values()), revisions };
}

/** The server's studio with the records it showed as changed by others. */
export function withTheirs(state: ServerCopy, conflicts: readonly Conflict[]): ServerCopy {
  let { revisions } = state;
  const edits: Edit[] = [];
  for (const { collection, id, current, revision } of conflicts) {
    edits.push({ place: collection, id, record: current });
    revisions = withRevision(revisions, collection, id, revision);
  }
  return { ...state, document: withEdits(state.document, edits), revisions };
}

/** The new document, in which every record and list that says the same as before is the same object as before. */
export function keepingIdentity(before: StudioDocument, after: StudioDocument): StudioDocument {
  const old = before as unknown as Record<string, unknown>;
  const kept: Record<string, unknown> = {};
  let changed = false;
  for (const [name, value] of Object.entries(after)) {
    kept[name] = Array.isArray(value)
      ? keptList((old[name] ?? []) as SavedRecord[], value as SavedRecord[])
      : sameJson(old[name], value)
        ? old[name]
        : value;
    if (kept[name] !== old[name]) changed = true;
  }
  return changed ? (kept as unknown as StudioDocument) : before;
}

function keptList(before: readonly SavedRecord[], after: readonly SavedRecord[]): readonly SavedRecord[] {
  if (before === after) return before;
  const byId = new Map(before.map((record) => [record.id, record]));
  const records = after.map((record) => {
    const known = byId.get(record.id);
    return known && sameJson(known, record) ? known : record;
  });
  return records.length === before.length && records.every((record, i) => record === before[i]) ? before : records;
}
