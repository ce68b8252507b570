import { sql, type Kysely } from "kysely";
import { StoreError } from "./port.ts";

/** Columns hold text, numbers and bytes only, so that any SQL database will do. */
export interface Tables {
  /** Numbers about the whole store: "schema" (version of these tables) and "revision" (of the studio; 0: none yet). */
  readonly meta: { readonly key: string; readonly value: number };
  readonly record: {
    readonly collection: string;
    readonly id: string;
    /** Order of the record in its list. */
    readonly place: number;
    readonly revision: number;
    /** The record as JSON, at the version it was written in. */
    readonly body: string;
  };
  readonly result: {
    readonly key: string;
    /** JSON, compressed with gzip. */
    readonly body: Uint8Array;
    /** Grows with every use: the lowest gives way. */
    readonly used: number;
  };
}

/** `migrations[n]` brings the tables from version n to n + 1. Never edit one that has been released: add another. */
const migrations: readonly ((tables: Kysely<Tables>) => Promise<void>)[] = [
  async (tables) => {
    const { schema } = tables;
    await schema
      .createTable("record")
      .addColumn("collection", "text", (column) => column.notNull())
      .addColumn("id", "text", (column) => column.notNull())
      .addColumn("place", "integer", (column) => column.notNull())
      .addColumn("revision", "integer", (column) => column.notNull())
      .addColumn("body", "text", (column) => column.notNull())
      .addPrimaryKeyConstraint("record_key", ["collection", "id"])
      .execute();
    await schema
      .createTable("result")
      .addColumn("key", "text", (column) => column.primaryKey())
      .addColumn("body", sql`blob`, (column) => column.notNull())
      .addColumn("used", "integer", (column) => column.notNull())
      .execute();
    await tables.insertInto("meta").values({ key: "revision", value: 0 }).execute();
  },
];

export const schemaVersion = migrations.length;

/** Brings the tables up to the present version, whole or not at all. @throws StoreError if they are newer. */
export async function bringUpToDate(database: Kysely<Tables>): Promise<void> {
  await database.schema
    .createTable("meta")
    .ifNotExists()
    .addColumn("key", "text", (column) => column.primaryKey())
    .addColumn("value", "integer", (column) => column.notNull())
    .execute();
  await database.transaction().execute(async (tables) => {
    // Written before it is read, so that two processes that start at once take turns.
    await tables
      .insertInto("meta")
      .values({ key: "schema", value: 0 })
      .onConflict((conflict) => conflict.column("key").doUpdateSet({ key: "schema" }))
      .execute();
    const row = await tables.selectFrom("meta").select("value").where("key", "=", "schema").executeTakeFirstOrThrow();
    if (row.value > schemaVersion) {
      throw new StoreError(
        "This store was written by a newer Spyhole.",
        "Update Spyhole, or start it with another store (SPYHOLE_DATA).",
      );
    }
    for (let version = row.value; version < schemaVersion; version += 1) await migrations[version](tables);
    await tables.updateTable("meta").set({ value: schemaVersion }).where("key", "=", "schema").execute();
  });
}
