import { demoStudio, emptyStudio } from "#work";
import type { StudioDocument } from "#records";
import Database from "better-sqlite3";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { StoreError, type RecordChange, type StudioStore } from "./port.ts";
import { openSqliteStore, sqliteStoreOn } from "./sqlite.ts";

const demo = demoStudio("2026-03-02", 1);
const [piece] = demo.pieces;

/** The suite runs over every adapter: add one here. */
const adapters = [{ name: "SQLite", open: (folder: string) => openSqliteStore(path.join(folder, "studio.sqlite")) }];

let folder: string;
beforeEach(() => (folder = mkdtempSync(path.join(tmpdir(), "spyhole-store-"))));
afterEach(() => rmSync(folder, { recursive: true }));

describe.each(adapters)("a store over $name", ({ open }) => {
  let store: StudioStore;
  beforeEach(async () => (store = await open(folder)));
  afterEach(() => store.close());

  const noted = (note: string, basedOn: number | null, id = piece.id): RecordChange => ({
    change: "put",
    collection: "pieces",
    record: { ...piece, id, note },
    basedOn,
  });
  const noteOf = async (id = piece.id): Promise<string | undefined> =>
    (await store.read())?.document.pieces.find((each) => each.id === id)?.note;

  test("is empty until a studio is put in, and gives it back whole and in order", async () => {
    expect(await store.read()).toBeNull();
    expect((await store.apply([noted("x", null)])).ok).toBe(false);
    expect(await store.replace(demo)).toMatchObject({ revision: 1, document: demo });
    expect((await store.read())?.document).toEqual(demo);
    await store.close();
    store = await open(folder);
    const again = await store.read();
    expect(again?.document).toEqual(demo);
    expect(again?.revisions.pieces?.[piece.id]).toBe(1);
    expect(again?.revisions.studio).toEqual({ studio: 1 });
  });

  test("takes over changes and counts revisions", async () => {
    await store.replace(demo);
    expect(await store.apply([noted("first", 1)])).toEqual({
      ok: true,
      value: { revision: 2, revisions: { pieces: { [piece.id]: 2 } } },
    });
    expect(await store.revision()).toBe(2);
    expect(await noteOf()).toBe("first");
    const stored = await store.read();
    expect(stored?.document.pieces.map((each) => each.id)).toEqual(demo.pieces.map((each) => each.id));
    expect(stored?.revisions.pieces?.[demo.pieces[1].id]).toBe(1);
    const added = await store.apply([
      noted("new", null, "piece-of-today"),
      { change: "remove", collection: "pieces", id: piece.id, basedOn: 2 },
    ]);
    expect(added).toMatchObject({ ok: true, value: { revision: 3, revisions: { pieces: { "piece-of-today": 3 } } } });
    expect((await store.read())?.document.pieces.at(-1)?.id).toBe("piece-of-today");
    expect(await noteOf()).toBeUndefined();
  });

  test("names both versions of a conflict and changes nothing", async () => {
    await store.replace(demo);
    await store.apply([noted("theirs", 1)]);
    const refused = await store.apply([noted("fine", null, "other"), noted("mine", 1)]);
    expect(refused).toMatchObject({
      ok: false,
      failure: {
        reason: "conflict",
        conflicts: [{ collection: "pieces", id: piece.id, revision: 2, current: { note: "theirs" } }],
      },
    });
    expect(await noteOf("other")).toBeUndefined();
    expect(await store.revision()).toBe(2);
    const removed = await store.apply([{ change: "remove", collection: "pieces", id: "gone", basedOn: 1 }]);
    expect(removed).toMatchObject({
      ok: false,
      failure: { conflicts: [{ id: "gone", current: null, revision: null }] },
    });
  });

  test.each([
    ["a value out of range", { ...piece, value: -1 }, "changes[0].record.value", "-1"],
    ["a reference to nothing", { ...piece, shapeId: "no-such" }, "pieces[0].shapeId", '"no-such"'],
    ["a field nobody knows", { ...piece, colour: "red" }, "changes[0].record", ""],
  ])("refuses %s with place and value, and changes nothing", async (_, record, place, value) => {
    await store.replace(demo);
    const refused = await store.apply(
      [
        noted("fine", null, "other"),
        { change: "put", collection: "pieces", record, basedOn: 1 },
      ].reverse() as RecordChange[],
    );
    expect(refused.ok).toBe(false);
    if (refused.ok || refused.failure.reason !== "invalid") throw new Error("expected problems");
    expect(refused.failure.problems[0].path).toBe(place);
    expect(refused.failure.problems[0].value).toContain(value);
    expect(refused.failure.problems[0].expected).not.toBe("");
    expect(await store.read()).toEqual({ ...(await store.read()), revision: 1, document: demo });
  });

  test("keeps the studio record, and refuses two changes of one record", async () => {
    await store.replace(demo);
    const studio = { ...demo.studio, name: "Alder Row" };
    expect(await store.apply([{ change: "put", collection: "studio", record: studio, basedOn: 1 }])).toMatchObject({
      ok: true,
      value: { revisions: { studio: { studio: 2 } } },
    });
    expect((await store.read())?.document.studio.name).toBe("Alder Row");
    const gone = await store.apply([{ change: "remove", collection: "studio", id: "studio", basedOn: 2 }]);
    expect(gone).toMatchObject({ ok: false, failure: { reason: "invalid" } });
    expect(await store.apply([noted("a", 1), noted("b", 1)])).toMatchObject({
      ok: false,
      failure: { problems: [{ path: "changes[1]", expected: "one change per record" }] },
    });
  });

  test("replaces the whole studio at once", async () => {
    await store.replace(demo);
    const empty: StudioDocument = emptyStudio("Small Room");
    expect((await store.replace(empty)).revision).toBe(2);
    expect((await store.read())?.document).toEqual(empty);
  });

  test("keeps results by key; the ones used least give way", async () => {
    expect(await store.cached("a")).toBeNull();
    await store.keep("a", '{"spread":1}');
    await store.keep("a", '{"spread":2}');
    await store.keep("first", "1");
    expect(await store.cached("a")).toBe('{"spread":2}');
    for (let i = 0; i < 399; i += 1) await store.keep(`k${i}`, String(i));
    expect(await store.cached("a")).toBe('{"spread":2}');
    expect(await store.cached("first")).toBeNull();
  });

  test("two at once: each waits for the other, and neither overwrites", async () => {
    await store.replace(demo);
    const other = await open(folder);
    const outcomes = await Promise.all([
      store.apply([noted("one", 1)]),
      other.apply([noted("two", 1)]),
      store.apply([noted("three", null, "third")]),
    ]);
    expect(outcomes.filter((each) => each.ok)).toHaveLength(2);
    expect(outcomes[2].ok).toBe(true);
    expect(await other.revision()).toBe(3);
    await other.close();
  });
});

describe("SQLite", () => {
  const file = (): string => path.join(folder, "studio.sqlite");

  test("syncs every commit to the disk before it is acknowledged", async () => {
    const database = new Database(file());
    const store = await sqliteStoreOn(database);
    expect(database.pragma("journal_mode", { simple: true })).toBe("wal");
    expect(database.pragma("synchronous", { simple: true })).toBe(2);
    await store.close();
  });

  test("a full disk is told in plain words, and what was saved stays", async () => {
    const database = new Database(file());
    const store = await sqliteStoreOn(database);
    await store.replace(demo);
    database.pragma(`max_page_count = ${String(database.pragma("page_count", { simple: true }))}`);
    const many: RecordChange[] = Array.from({ length: 400 }, (_, i) => ({
      change: "put",
      collection: "pieces",
      record: { ...piece, id: `more-${i}`, note: "n".repeat(300) },
      basedOn: null,
    }));
    const refused = await store.apply(many).catch((error: unknown) => error);
    expect(refused).toBeInstanceOf(StoreError);
    expect((refused as StoreError).message).toMatch(/no room left on the disk/);
    expect((refused as StoreError).remedy).toMatch(/Free some space/);
    expect(await store.read()).toMatchObject({ revision: 1, document: demo });
    await store.close();
  });

  test("a file that may not be written is told in plain words", async () => {
    const database = new Database(file());
    const store = await sqliteStoreOn(database);
    await store.replace(demo);
    database.pragma("query_only = ON");
    await expect(store.replace(emptyStudio("x"))).rejects.toThrow(/studio\.sqlite cannot be written/);
    expect((await store.read())?.document).toEqual(demo);
    await store.close();
  });

  test("a place where no file can be is told in plain words", async () => {
    writeFileSync(path.join(folder, "plain"), "");
    await expect(openSqliteStore(path.join(folder, "plain", "studio.sqlite"))).rejects.toThrow(/cannot be written/);
    await expect(openSqliteStore(folder)).rejects.toThrow(StoreError);
  });

  test("a file of something else is left as it is", async () => {
    const text = "This is a shopping list, not a database.\n".repeat(200);
    writeFileSync(file(), text);
    await expect(openSqliteStore(file())).rejects.toThrow(/damaged or is no Spyhole store/);
    expect(readFileSync(file(), "utf8")).toBe(text);
  });

  test("a store of a newer Spyhole is left as it is", async () => {
    await (await openSqliteStore(file())).close();
    const database = new Database(file());
    database.exec("UPDATE meta SET value = 99 WHERE key = 'schema'");
    database.close();
    await expect(openSqliteStore(file())).rejects.toThrow(/newer Spyhole/);
  });

  test("a record that is not valid stops reading, with its place", async () => {
    const store = await openSqliteStore(file());
    await store.replace(demo);
    const database = new Database(file());
    database.exec(`UPDATE record SET body = json_set(body, '$.value', -3) WHERE id = '${piece.id}'`);
    database.close();
    await expect(store.read()).rejects.toThrow(/pieces\[0\]\.value is -3/);
    await store.close();
  });
});
