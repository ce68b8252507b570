import Database from "better-sqlite3";
import { Kysely, SqliteDialect } from "kysely";
import { mkdirSync } from "node:fs";
import path from "node:path";
import { StoreError, type StudioStore } from "./port.ts";
import { bringUpToDate, type Tables } from "./schema.ts";
import { sqlStore } from "./sql-store.ts";

/**
 * Opens the store in a file, making file and folder where they are missing.
 *
 * @throws StoreError where the file cannot be opened, is no store, or was written by a newer Spyhole
 */
export async function openSqliteStore(file: string): Promise<StudioStore> {
  let database: Database.Database;
  try {
    mkdirSync(path.dirname(path.resolve(file)), { recursive: true });
    database = new Database(file);
  } catch (error) {
    throw asStoreError(error, file);
  }
  return sqliteStoreOn(database);
}

/** The store on an open database, which it owns from now on. */
export async function sqliteStoreOn(database: Database.Database): Promise<StudioStore> {
  try {
    // WAL lets others read while one writes; FULL syncs every commit to the disk before it is acknowledged.
    database.pragma("busy_timeout = 5000");
    database.pragma("journal_mode = WAL");
    database.pragma("synchronous = FULL");
    const kysely = new Kysely<Tables>({ dialect: new SqliteDialect({ database }) });
    await bringUpToDate(kysely);
    // From here on SQLite's own waiting would hold up the whole process: the store waits without.
    database.pragma("busy_timeout = 0");
    return sqlStore(kysely, {
      isBusy: (error) => /^SQLITE_(BUSY|LOCKED)/.test(codeOf(error)),
      translate: (error) => asStoreError(error, database.name),
    });
  } catch (error) {
    database.close();
    throw asStoreError(error, database.name);
  }
}

const causes: readonly (readonly [RegExp, (file: string) => string, string])[] = [
  [
    /^(SQLITE_FULL|ENOSPC|SQLITE_IOERR_WRITE)/,
    (file) => `There is no room left on the disk to save in ${file}.`,
    "Nothing of this change was saved. Free some space on that disk, then save again.",
  ],
  [
    /^(SQLITE_READONLY|SQLITE_CANTOPEN|EACCES|EPERM|EROFS|ENOTDIR|EISDIR|EEXIST)/,
    (file) => `${file} cannot be written.`,
    "Nothing of this change was saved. Check who may write that file and its folder, or name another with SPYHOLE_DATA.",
  ],
  [
    /^(SQLITE_BUSY|SQLITE_LOCKED)/,
    (file) => `Another program holds ${file}.`,
    "Nothing of this change was saved. Close the other program, or wait a moment, then save again.",
  ],
  [
    /^(SQLITE_CORRUPT|SQLITE_NOTADB)/,
    (file) => `${file} is damaged or is no Spyhole store.`,
    "It was left as it is. Restore it from a backup, or start with another file (SPYHOLE_DATA) and import an export.",
  ],
  [
    /^(SQLITE_|E[A-Z]+$)/,
    (file) => `The disk did not do what was asked with ${file}.`,
    "Nothing of this change was saved. Check the disk, then save again.",
  ],
];

/** The machine's own error in plain words; an error that is not the machine's passes through. */
function asStoreError(error: unknown, file: string): unknown {
  const code = codeOf(error);
  for (const [pattern, message, remedy] of causes) {
    if (pattern.test(code)) return new StoreError(message(file), remedy, error);
  }
  return error;
}

function codeOf(error: unknown): string {
  return error instanceof Error && "code" in error ? String(error.code) : "";
}
