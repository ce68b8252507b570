import { demoStudio } from "#work";
import Database from "better-sqlite3";
import { spawn } from "node:child_process";
import { copyFileSync, mkdtempSync, rmSync, statSync, truncateSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { build } from "esbuild";
import { afterAll, beforeAll, expect, test } from "vitest";
import { openSqliteStore } from "./sqlite.ts";

const folder = mkdtempSync(path.join(tmpdir(), "spyhole-power-"));
// Bundled once, in a folder from which packages are found: a child then starts in a tenth of the time.
const writer = path.resolve("node_modules/.cache/spyhole-tests/power-loss-writer.mjs");
beforeAll(() =>
  build({
    entryPoints: [path.join(import.meta.dirname, "power-loss-writer.ts")],
    outfile: writer,
    bundle: true,
    platform: "node",
    format: "esm",
    external: ["better-sqlite3"],
  }),
);
afterAll(() => rmSync(folder, { recursive: true }));
const demo = demoStudio("2026-03-02", 1);

/** Lets a child write until it is killed; returns the notes it was told are saved. */
async function writeAndKill(file: string, milliseconds: number): Promise<readonly string[]> {
  const child = spawn(process.execPath, [writer, file], { stdio: ["ignore", "pipe", "inherit"] });
  let said = "";
  await new Promise<void>((resolve) => {
    child.stdout.on("data", (chunk: Buffer) => {
      if (said === "") setTimeout(() => child.kill("SIGKILL"), milliseconds);
      said += chunk.toString();
    });
    child.on("close", () => resolve());
  });
  expect(child.signalCode).toBe("SIGKILL");
  return said.split("\n").slice(0, -1);
}

test("a writer killed again and again loses nothing it was told is saved", async () => {
  const file = path.join(folder, "killed.sqlite");
  const first = await openSqliteStore(file);
  await first.replace(demo);
  await first.close();
  let acknowledged = 0;
  for (let kill = 0; kill < 12; kill += 1) {
    const said = await writeAndKill(file, 30 + 23 * kill);
    const store = await openSqliteStore(file);
    const stored = await store.read();
    const saved = new Set(stored!.document.parties.map((party) => party.name));
    for (const name of said) expect(saved, `after kill ${kill}`).toContain(name);
    acknowledged += said.length;
    // One change more than acknowledged may stand: it was saved but not yet told.
    expect(stored!.document.parties.length - demo.parties.length).toBeLessThanOrEqual(acknowledged + kill + 1);
    const database = new Database(file);
    expect(database.pragma("integrity_check", { simple: true })).toBe("ok");
    database.close();
    await store.close();
  }
  expect(acknowledged).toBeGreaterThan(60);
});

test("a log torn at any byte opens on the last whole change", async () => {
  const file = path.join(folder, "torn.sqlite");
  const store = await openSqliteStore(file);
  await store.replace(demo);
  for (let i = 0; i < 12; i += 1) {
    await store.apply([
      { change: "put", collection: "parties", record: { version: 1, id: `p-${i}`, name: `P ${i}` }, basedOn: null },
    ]);
  }
  const whole = statSync(`${file}-wal`).size;
  expect(whole).toBeGreaterThan(40_000);
  const seen = new Set<number>();
  for (let part = 0; part <= 24; part += 1) {
    const copy = path.join(folder, `torn-${part}.sqlite`);
    copyFileSync(file, copy);
    copyFileSync(`${file}-wal`, `${copy}-wal`);
    truncateSync(`${copy}-wal`, Math.round((whole * part) / 24));
    const torn = await openSqliteStore(copy);
    const stored = await torn.read();
    if (stored) {
      // Revision 1 is the import; each change after it adds one party, in order.
      expect(stored.document.parties.length - demo.parties.length).toBe(stored.revision - 1);
      seen.add(stored.revision);
    }
    await torn.close();
  }
  expect(seen.size).toBeGreaterThan(4);
  expect(Math.max(...seen)).toBe(13);
  await store.close();
});
