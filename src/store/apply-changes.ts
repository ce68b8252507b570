import { failure, success, type Outcome } from "#base";
import {
  brokenReferences,
  collectionNames,
  kindOf,
  readRecord,
  shortened,
  type AnyRecord,
  type CollectionName,
  type Problem,
  type StudioDocument,
} from "#records";
import type { ChangesRefused, RecordChange, RecordConflict, StoredStudio } from "./port.ts";

/**
 * The studio with all changes taken over, or why none is.
 *
 * Pure: adapters read the studio, call this and write what changed in one transaction. Every record that was put is
 * validated, and every reference in the outcome must resolve.
 */
export function applyChanges(
  stored: StoredStudio,
  changes: readonly RecordChange[],
): Outcome<StoredStudio, ChangesRefused> {
  const conflicts = changes.flatMap((change) => conflictOf(stored, change));
  if (conflicts.length > 0) return failure({ reason: "conflict", conflicts });

  const revision = stored.revision + 1;
  const problems: Problem[] = [];
  const touched = new Set<string>();
  const revisions = structuredClone(stored.revisions) as Record<string, Record<string, number>>;
  const lists = new Map<CollectionName, Map<string, AnyRecord>>(
    collectionNames.map((name) => [name, new Map(stored.document[name].map((record) => [record.id, record]))]),
  );
  let studio = stored.document.studio;
  changes.forEach((change, index) => {
    const { collection } = change;
    const id = change.change === "put" ? change.record.id : change.id;
    if (touched.has(`${collection}/${id}`)) {
      problems.push({ path: `changes[${index}]`, value: shortened(id), expected: "one change per record" });
    }
    touched.add(`${collection}/${id}`);
    if (change.change === "remove") {
      if (collection === "studio") {
        problems.push({ path: `changes[${index}]`, value: shortened(id), expected: "a studio stays: change it" });
      } else {
        lists.get(collection)!.delete(id);
        delete revisions[collection]?.[id];
      }
      return;
    }
    const read = readRecord(kindOf(collection), change.record, `changes[${index}].record`);
    if (!read.ok) {
      problems.push(...read.failure);
      return;
    }
    if (collection === "studio") studio = read.value as typeof studio;
    else lists.get(collection)!.set(id, read.value);
    (revisions[collection] ??= {})[id] = revision;
  });
  if (problems.length > 0) return failure({ reason: "invalid", problems });

  const document = {
    format: "spyhole-studio",
    studio,
    ...Object.fromEntries(collectionNames.map((name) => [name, [...lists.get(name)!.values()]])),
  } as unknown as StudioDocument;
  const broken = brokenReferences(document);
  if (broken.length > 0) return failure({ reason: "invalid", problems: broken });
  return success({ revision, document, revisions });
}

function conflictOf(stored: StoredStudio, change: RecordChange): readonly RecordConflict[] {
  const { collection, basedOn } = change;
  const id = change.change === "put" ? change.record.id : change.id;
  const revision = stored.revisions[collection]?.[id] ?? null;
  if (revision === basedOn) return [];
  const records: readonly AnyRecord[] =
    collection === "studio" ? [stored.document.studio] : stored.document[collection];
  return [{ collection, id, current: records.find((record) => record.id === id) ?? null, revision }];
}
