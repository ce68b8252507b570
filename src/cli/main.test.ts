import { inlineRunner } from "#jobs";
import { readStudio, type StudioDocument } from "#records";
import { copyFileSync, existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { afterAll, beforeAll, beforeEach, describe, expect, test } from "vitest";
import { commands } from "./commands.ts";
import type { Host } from "./command.ts";
import { main } from "./main.ts";

const example = path.resolve("examples/small-studio.json");
let folder: string;
let file: string;
beforeAll(() => (folder = mkdtempSync(path.join(tmpdir(), "spyhole-cli-"))));
afterAll(() => rmSync(folder, { recursive: true }));
beforeEach(() => {
  file = path.join(folder, "studio.json");
  copyFileSync(example, file);
});

interface Ran {
  readonly status: number;
  readonly out: string;
  readonly err: string;
}

async function run(words: readonly string[], change: Partial<Host> = {}): Promise<Ran> {
  let out = "";
  let err = "";
  const status = await main(words, {
    out: (text) => (out += text),
    err: (text) => (err += text),
    isScreen: false,
    interrupted: new AbortController().signal,
    env: { SPYHOLE_DATA: path.join(folder, "store.sqlite") },
    today: "2026-03-04",
    makeRunner: () => inlineRunner(),
    webFolder: folder,
    ...change,
  });
  return { status, out, err };
}

const document = (): StudioDocument => JSON.parse(readFileSync(file, "utf8")) as StudioDocument;

/** Writes the example with its first piece moved. */
function pieceMovedTo(x: number, y: number): void {
  const studio = document();
  Object.assign(studio.settings[0].setting.pieces[0], { x, y });
  writeFileSync(file, JSON.stringify(studio));
}

const widest = (text: string): number => Math.max(...text.split("\n").map((line) => line.length));

describe("help", () => {
  test("lists the commands, and every command its options and examples, in 100 columns", async () => {
    const { status, out } = await run(["--help"]);
    expect(status).toBe(0);
    for (const { name, summary } of commands) expect(out).toContain(`${name.padEnd(8)}  ${summary}`);
    expect(out).toMatch(/manual, local code/);
    for (const { name, options, examples } of commands) {
      const help = await run([name, "--help"]);
      expect(help.status).toBe(0);
      expect(help.out).toContain(examples[0]);
      for (const option of Object.keys(options)) expect(help.out, `${name} --${option}`).toContain(`--${option}`);
      expect(widest(help.out)).toBeLessThanOrEqual(100);
      expect((await run(["help", name])).out).toBe(help.out);
    }
    expect((await run([])).status).toBe(2);
  });

  test("its examples with the example studio run as they stand", async () => {
    const lines = commands.flatMap((each) => each.examples).filter((line) => line.includes("examples/"));
    expect(lines.length).toBeGreaterThanOrEqual(5);
    for (const line of lines) {
      const words = line
        .split(" ")
        .slice(1)
        .map((word) => (/\.(pdf|sqlite)$/.test(word) ? path.join(folder, word) : word));
      const { status, err } = await run(words);
      expect(err, line).not.toMatch(/spyhole/);
      expect(status, line).toBe(0);
    }
  }, 120_000);
});

describe("wrong use", () => {
  test.each<[string[], RegExp]>([
    [["dream"], /There is no command "dream"/],
    [["check", "--colour"], /Unknown option '--colour'.* See: spyhole check --help/],
    [["check", "a.json", "b.json"], /"b.json" is one too many/],
    [["check", "nowhere.json"], /nowhere.json: There is no such file/],
    [["check", "FILE", "--setting", "Z"], /no setting "Z". There are: rowan-a \(A\)/],
    [["propose", "FILE", "--kiln", "elm"], /--kiln is "elm"; expected one of rowan/],
    [["propose", "FILE", "--kiln", "rowan"], /Say which firing class: --class with one of glaze-06/],
    [
      ["propose", "FILE", "--class", "glaze-06", "--seconds", "soon"],
      /--seconds is "soon"; expected a number from 0.2/,
    ],
    [["propose", "FILE", "--class", "glaze-06", "--day", "Tue"], /--day is "Tue"; expected a date such as 2026-03-04/],
    [["forecast", "FILE", "--grade", "best"], /--grade is "best"; expected full or preview/],
    [["sheet", "FILE"], /Say where the sheet goes/],
    [["sheet", "FILE", "--out", "x.pdf", "--paper", "a5"], /--paper is "a5"; expected a4 or letter/],
    [
      ["sheet", "FILE", "--out", "/no/such/folder/x.pdf", "--forecast", "none"],
      /its folder is missing. Nothing was changed/,
    ],
    [["check"], /store.sqlite has no studio yet/],
    [["import"], /Name a studio document/],
    [["serve", "--port", "99999"], /--port is "99999"; expected a number from 0 to 65535/],
    [["serve", "--host", "0.0.0.0"], /does not open itself to other computers/],
  ])("%j is refused with what to do, exit status 2", async (words, says) => {
    const { status, out, err } = await run(words.map((word) => (word === "FILE" ? file : word)));
    expect(err).toMatch(says);
    expect(status).toBe(2);
    expect(out).toBe("");
  });

  test("a document that is wrong is refused with its places, and is left as it is", async () => {
    const wrong = JSON.stringify({ ...document(), kilns: [{ ...document().kilns[0], name: 7 }] });
    writeFileSync(file, wrong);
    const { status, err } = await run(["propose", file, "--class", "glaze-06", "--save"]);
    expect(status).toBe(2);
    expect(err).toContain("kilns[0].name is 7; expected");
    expect(readFileSync(file, "utf8")).toBe(wrong);
    writeFileSync(file, '{"format": ');
    expect((await run(["check", file])).err).toMatch(/studio.json is no JSON/);
  });
});

describe("propose", () => {
  const words = (): string[] => ["propose", file, "--class", "glaze-06", "--seconds", "0.6"];

  test("says what stands where and what waits, within 80 columns, and saves nothing", async () => {
    const before = readFileSync(file, "utf8");
    const { status, out } = await run(["propose", file, "--class", "glaze-06", "--seconds", "0.6", "--setting", "A"]);
    expect(status).toBe(0);
    expect(out).toMatch(/^Setting A for Rowan: \d+ of 17 pieces of Glaze 06 on \d shelves\n/);
    expect(out).toMatch(/Shelf 1 {2}square shelf 410 on posts of 25.mm \(1.in\)/);
    expect(out).toContain("Nothing was saved");
    expect(widest(out)).toBeLessThanOrEqual(80);
    expect(readFileSync(file, "utf8")).toBe(before);
  });

  test("saves on request: the file stays a whole studio with the new setting", async () => {
    const studio = document();
    writeFileSync(file, JSON.stringify({ ...studio, settings: [] }));
    const { status, out } = await run([...words(), "--save", "--json"]);
    expect(status).toBe(0);
    const made = JSON.parse(out) as { id: string };
    const read = readStudio(document());
    expect(read.ok && read.value.settings.map((each) => each.id)).toEqual([made.id]);
    expect(readdirSync(folder).filter((name) => name.endsWith(".part"))).toEqual([]);
  });

  test("fails in words when nothing is ready, exit status 1", async () => {
    const { status, err, out } = await run(words());
    expect(status).toBe(1);
    expect(err).toMatch(/No piece of Glaze 06 is ready and free/);
    expect(out).toBe("");
  });
});

describe("check", () => {
  test("a good setting passes; --all lists what is kept and what to look at", async () => {
    const { status, out } = await run(["check", file, "--all"]);
    expect(status).toBe(0);
    expect(out).toMatch(/^Setting A in Rowan: 0 to stop for/);
    expect(out).toContain("Rules kept:");
    expect(out).toContain("[ ] ");
    expect(widest(out)).toBeLessThanOrEqual(80);
  });

  test("a stop is told with place, measure, limit and remedy, exit status 1", async () => {
    pieceMovedTo(0.19, 0);
    const human = await run(["check", file]);
    expect(human.status).toBe(1);
    expect(human.out).toMatch(/^stop {3}The .+ \(shelf \d, no\. \d+\)/m);
    expect(human.out).toMatch(/^ {7}→ /m);
    const machine = await run(["check", file, "--json"]);
    expect(machine.status).toBe(1);
    const { findings } = JSON.parse(machine.out) as { findings: { level: string; says: string; measured: number }[] };
    expect(findings[0].level).toBe("stop");
    expect(findings[0].says).not.toBe("");
  });
});

describe("forecast", () => {
  test("tells time, energy, spread and every shelf, with its band and the cautions", async () => {
    const { status, out } = await run(["forecast", file, "--grade", "preview", "--pieces"]);
    expect(status).toBe(0);
    expect(out).toMatch(/^Setting A in Rowan, cone oh-six \(06\), low fire\n/);
    expect(out).toContain("An estimate. The witness cones decide.");
    expect(out).toMatch(/^Heating {3}\d+.h.* ±/m);
    expect(out).toMatch(/^Energy {4}\d+.kWh, give or take/m);
    expect(out.match(/^ *\d\/\d+ /gm)).toHaveLength(17);
    expect(out).toMatch(/give or take/);
    expect(out).toContain("shaded infrared glasses");
    expect(widest(out)).toBeLessThanOrEqual(80);
  });

  test("gives the whole forecast to a machine, the same each time", async () => {
    const words = ["forecast", file, "--grade", "preview", "--json"];
    const first = await run(words);
    expect(JSON.parse(first.out)).toMatchObject({ settingId: "rowan-a", forecast: { grade: "preview" } });
    expect((await run(words)).out).toBe(first.out);
  });
});

describe("sheet", () => {
  test("is written whole, and a stop makes exit status 1", async () => {
    const out = path.join(folder, "sheet.pdf");
    const good = await run(["sheet", file, "--out", out, "--forecast", "none"]);
    expect(good).toMatchObject({ status: 0, err: "" });
    expect(readFileSync(out).subarray(0, 5).toString()).toBe("%PDF-");
    pieceMovedTo(0.19, 0);
    const bad = await run(["sheet", file, "--out", out, "--forecast", "none", "--json"]);
    expect(bad.status).toBe(1);
    expect((JSON.parse(bad.out) as { stops: number }).stops).toBeGreaterThan(0);
  });
});

describe("the store", () => {
  test("takes a studio in, works on it and gives it out again", async () => {
    const env = { SPYHOLE_DATA: path.join(folder, "round.sqlite") };
    expect((await run(["import", file], { env })).out).toMatch(
      /Rowan’s corner is in .*: 1 kilns, 21 pieces, 1 settings/,
    );
    const again = await run(["import", file], { env });
    expect(again.status).toBe(2);
    expect(again.err).toMatch(/holds the studio "Rowan’s corner". Export it first, then add --replace/);
    expect((await run(["import", file, "--replace", "--json"], { env })).out).toMatch(/"revision":2/);
    expect((await run(["check"], { env })).out).toMatch(/^Setting A in Rowan/);
    const saved = await run(["propose", "--class", "glaze-06", "--seconds", "0.4", "--setting", "rowan-a", "--save"], {
      env,
    });
    expect(saved.out).toMatch(/Saved as rowan-a in /);
    const out = path.join(folder, "out.json");
    expect((await run(["export", "--out", out], { env })).status).toBe(0);
    expect(readStudio(JSON.parse(readFileSync(out, "utf8"))).ok).toBe(true);
  });

  test("may be named by its folder", async () => {
    const env = { SPYHOLE_DATA: folder };
    expect((await run(["import", file], { env })).out).toContain(path.join(folder, "studio.sqlite"));
    expect(existsSync(path.join(folder, "studio.sqlite"))).toBe(true);
  });

  test("the demo is a whole studio, for any day", async () => {
    const { out, status } = await run(["demo", "--day", "2027-01-31"]);
    expect(status).toBe(0);
    const read = readStudio(JSON.parse(out));
    expect(read.ok && read.value.pieces.every((each) => each.promised > "2027-01-31")).toBe(true);
  });
});

describe("Ctrl-C", () => {
  test("before and during work ends with 130, no output and no file", async () => {
    const abort = new AbortController();
    abort.abort();
    const out = path.join(folder, "never.pdf");
    for (const words of [
      ["propose", file, "--class", "glaze-06", "--setting", "A", "--save"],
      ["forecast", file],
      ["sheet", file, "--out", out],
    ]) {
      const before = readFileSync(file, "utf8");
      const ran = await run(words, { interrupted: abort.signal });
      expect(ran, words.join(" ")).toEqual({ status: 130, out: "", err: "" });
      expect(readFileSync(file, "utf8")).toBe(before);
    }
    expect(existsSync(out)).toBe(false);
  });
});
