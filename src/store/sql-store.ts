import { failure, success } from "#base";
import { collectionNames, readStudio, type CollectionName, type StudioDocument } from "#records";
import type { Kysely, Transaction } from "kysely";
import { gunzipSync, gzipSync } from "node:zlib";
import { applyChanges } from "./apply-changes.ts";
import {
  StoreError,
  type ChangesApplied,
  type ChangesRefused,
  type RecordChange,
  type Revisions,
  type StoredStudio,
  type StudioStore,
} from "./port.ts";
import type { Tables } from "./schema.ts";

/** Results kept at most: a full forecast of 60 pieces takes about half a megabyte. */
const resultsKept = 400;
/** Bound variables a statement may have are limited; rows are written in lots. */
const rowsPerStatement = 500;

type Rows = Kysely<Tables> | Transaction<Tables>;
type RecordRow = Tables["record"];

/** What differs between databases. */
export interface DatabaseErrors {
  /** Someone else is writing: worth another try. */
  readonly isBusy: (error: unknown) => boolean;
  /** The database's own errors as `StoreError`; anything else passes through. */
  readonly translate: (error: unknown) => unknown;
}

/** How long to wait for another writer, and between two tries [ms]. */
const patience = 5000;
const pause = 15;

/** A studio store over SQL tables that are up to date. */
export function sqlStore(database: Kysely<Tables>, errors: DatabaseErrors): StudioStore {
  const guarded = async <Value>(work: () => Promise<Value>): Promise<Value> => {
    for (let waited = 0; ; waited += pause) {
      try {
        return await work();
      } catch (error) {
        if (!errors.isBusy(error) || waited >= patience) throw errors.translate(error);
        await new Promise((resolve) => setTimeout(resolve, pause));
      }
    }
  };
  /** Takes the write lock with its first statement, so that what it reads after is what it changes. */
  const writing = async <Value>(work: (rows: Rows, revision: number) => Promise<Value>): Promise<Value> =>
    guarded(() =>
      database.transaction().execute(async (rows) => {
        const { value } = await rows
          .updateTable("meta")
          .set((eb) => ({ value: eb("value", "+", 1) }))
          .where("key", "=", "revision")
          .returning("value")
          .executeTakeFirstOrThrow();
        return work(rows, value);
      }),
    );

  return {
    revision: () => guarded(() => revisionOf(database)),
    read: () => guarded(() => database.transaction().execute(readStored)),
    replace: (document) =>
      writing(async (rows, revision) => {
        await rows.deleteFrom("record").execute();
        await insert(rows, rowsOf(document, revision));
        return { revision, document, revisions: revisionsOf(rowsOf(document, revision)) };
      }),
    apply: async (changes) => {
      try {
        return success(await writing((rows, revision) => applyIn(rows, revision, changes)));
      } catch (error) {
        if (error instanceof Refused) return failure(error.refusal);
        throw error;
      }
    },
    cached: (key) =>
      guarded(async () => {
        const row = await database.selectFrom("result").select("body").where("key", "=", key).executeTakeFirst();
        if (!row) return null;
        await touch(database, key);
        return gunzipSync(row.body).toString("utf8");
      }),
    keep: (key, body) =>
      guarded(async () => {
        const packed = gzipSync(body);
        await database
          .insertInto("result")
          .values({ key, body: packed, used: 0 })
          .onConflict((conflict) => conflict.column("key").doUpdateSet({ body: packed }))
          .execute();
        await touch(database, key);
        const spared = database.selectFrom("result").select("key").orderBy("used", "desc").limit(resultsKept);
        await database.deleteFrom("result").where("key", "not in", spared).execute();
      }),
    close: () => database.destroy(),
  };
}

/** Carries a refusal out of the transaction, which rolls back. */
class Refused extends Error {
  readonly refusal: ChangesRefused;

  constructor(refusal: ChangesRefused) {
    super("refused");
    this.refusal = refusal;
  }
}

async function applyIn(rows: Rows, revision: number, changes: readonly RecordChange[]): Promise<ChangesApplied> {
  const stored = await readStored(rows);
  if (!stored) {
    const expected = "a studio in the store: import one first";
    throw new Refused({ reason: "invalid", problems: [{ path: "studio", value: "nothing", expected }] });
  }
  const applied = applyChanges({ ...stored, revision: revision - 1 }, changes);
  if (!applied.ok) throw new Refused(applied.failure);
  const after = new Map(rowsOf(applied.value.document, revision).map((row) => [`${row.collection}/${row.id}`, row]));
  const { place } = await rows
    .selectFrom("record")
    .select((eb) => eb.fn.max<number>("place").as("place"))
    .executeTakeFirstOrThrow();
  const put: RecordRow[] = [];
  for (const change of changes) {
    if (change.change === "remove") {
      await rows.deleteFrom("record").where("collection", "=", change.collection).where("id", "=", change.id).execute();
    } else {
      const row = after.get(`${change.collection}/${change.record.id}`)!;
      put.push({ ...row, place: place + 1 + put.length });
    }
  }
  await insert(rows, put);
  return { revision, revisions: revisionsOf(put) };
}

async function insert(rows: Rows, records: readonly RecordRow[]): Promise<void> {
  for (let first = 0; first < records.length; first += rowsPerStatement) {
    await rows
      .insertInto("record")
      .values(records.slice(first, first + rowsPerStatement))
      .onConflict((conflict) =>
        // A record that was there keeps its place in the list.
        conflict.columns(["collection", "id"]).doUpdateSet((eb) => ({
          body: eb.ref("excluded.body"),
          revision: eb.ref("excluded.revision"),
        })),
      )
      .execute();
  }
}

async function revisionOf(rows: Rows): Promise<number> {
  const row = await rows.selectFrom("meta").select("value").where("key", "=", "revision").executeTakeFirstOrThrow();
  return row.value;
}

async function readStored(rows: Rows): Promise<StoredStudio | null> {
  const revision = await revisionOf(rows);
  const records = await rows.selectFrom("record").selectAll().orderBy("place").execute();
  if (records.length === 0) return null;
  const lists: Record<string, unknown[]> = Object.fromEntries(collectionNames.map((name) => [name, []]));
  let studio: unknown;
  for (const { collection, body } of records) {
    const record: unknown = JSON.parse(body);
    if (collection === "studio") studio = record;
    else lists[collection]?.push(record);
  }
  const read = readStudio({ format: "spyhole-studio", studio, ...lists });
  if (read.ok) return { revision, document: read.value, revisions: revisionsOf(records) };
  const [first] = read.failure;
  throw new StoreError(
    `The store holds a record that is not valid: ${first.path} is ${first.value}, expected ${first.expected}.`,
    "Restore the store from a backup or an export. Nothing was changed.",
  );
}

function rowsOf(document: StudioDocument, revision: number): readonly RecordRow[] {
  const rows: RecordRow[] = [];
  const add = (collection: "studio" | CollectionName, record: { readonly id: string }): void => {
    rows.push({ collection, id: record.id, place: rows.length, revision, body: JSON.stringify(record) });
  };
  add("studio", document.studio);
  for (const name of collectionNames) for (const record of document[name]) add(name, record);
  return rows;
}

function revisionsOf(rows: readonly Pick<RecordRow, "collection" | "id" | "revision">[]): Revisions {
  const revisions: Record<string, Record<string, number>> = {};
  for (const { collection, id, revision } of rows) (revisions[collection] ??= {})[id] = revision;
  return revisions;
}

async function touch(rows: Rows, key: string): Promise<void> {
  await rows
    .updateTable("result")
    .set((eb) => ({
      used: eb.selectFrom("result").select((inner) => inner(inner.fn.max<number>("used"), "+", 1).as("next")),
    }))
    .where("key", "=", key)
    .execute();
}
