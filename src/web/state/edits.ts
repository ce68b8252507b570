import { collectionNames, type CollectionName, type StudioDocument } from "#records";

/** Where a record is kept: one of the lists, or the studio's own record. */
export type Place = CollectionName | "studio";

/** Any saved record, as far as keeping it goes. */
export interface SavedRecord {
  readonly id: string;
}

/** One record as it shall be from now on; null removes it. */
export interface Edit {
  readonly place: Place;
  readonly id: string;
  readonly record: SavedRecord | null;
}

/** One place in the document, as a key. */
export const keyOf = (edit: Pick<Edit, "place" | "id">): string => `${edit.place}/${edit.id}`;

export function putting<Saved extends SavedRecord>(place: Place, record: Saved): Edit {
  return { place, id: record.id, record };
}

export function removing(place: CollectionName, id: string): Edit {
  return { place, id, record: null };
}

/** The record as it stands in the document; null where there is none. */
export function recordAt(document: StudioDocument, place: Place, id: string): SavedRecord | null {
  if (place === "studio") return document.studio;
  return document[place].find((record) => record.id === id) ?? null;
}

/**
 * The document with the edits made, in order. Lists and records that no edit touches keep their identity, so that
 * what was worked out from them stays valid. New records go to the end of their list.
 */
export function withEdits(document: StudioDocument, edits: Iterable<Edit>): StudioDocument {
  const byPlace = new Map<Place, Map<string, SavedRecord | null>>();
  for (const edit of edits) {
    const records = byPlace.get(edit.place) ?? new Map<string, SavedRecord | null>();
    records.set(edit.id, edit.record);
    byPlace.set(edit.place, records);
  }
  if (byPlace.size === 0) return document;
  const changed: Record<string, unknown> = {};
  const studio = byPlace.get("studio")?.get("studio");
  if (studio) changed["studio"] = studio;
  for (const name of collectionNames) {
    const records = byPlace.get(name);
    if (!records) continue;
    const kept: SavedRecord[] = [];
    for (const record of document[name]) {
      const edited = records.get(record.id);
      if (edited === undefined) kept.push(record);
      else if (edited !== null) kept.push(edited);
      records.delete(record.id);
    }
    for (const record of records.values()) if (record !== null) kept.push(record);
    changed[name] = kept;
  }
  return { ...document, ...changed };
}

/** The edits that take the given ones back, from how the document stands before them. */
export function inverseOf(document: StudioDocument, edits: readonly Edit[]): readonly Edit[] {
  const seen = new Set<string>();
  const back: Edit[] = [];
  for (const edit of edits) {
    if (seen.has(keyOf(edit))) continue;
    seen.add(keyOf(edit));
    back.push({ place: edit.place, id: edit.id, record: recordAt(document, edit.place, edit.id) });
  }
  return back;
}

/** True if two JSON values say the same, whatever the order of their keys. */
export function sameJson(a: unknown, b: unknown): boolean {
  if (Object.is(a, b)) return true;
  if (typeof a !== "object" || typeof b !== "object" || a === null || b === null) return false;
  if (Array.isArray(a) || Array.isArray(b)) {
    return (
      Array.isArray(a) &&
      Array.isArray(b) &&
      a.length === b.length &&
      a.every((each, index) => sameJson(each, b[index]))
    );
  }
  const keys = Object.keys(a).filter((key) => (a as Record<string, unknown>)[key] !== undefined);
  const others = Object.keys(b).filter((key) => (b as Record<string, unknown>)[key] !== undefined);
  return (
    keys.length === others.length &&
    keys.every((key) => sameJson((a as Record<string, unknown>)[key], (b as Record<string, unknown>)[key]))
  );
}
