import { Ajv2020 } from "ajv/dist/2020.js";
import addFormats from "ajv-formats";
import { anything, assert, constantFrom, oneof, property } from "fast-check";
import { readFileSync } from "node:fs";
import path from "node:path";
import { describe, expect, test } from "vitest";
import { schemaFile, schemaText } from "../../tools/schema.ts";
import { readStudio, studioJsonSchema } from "./studio-document.ts";

/** A saved document of every version is kept and must open for ever. */
const fixtures = ["studio-v1.json"];
const fixture = (name: string): Json =>
  JSON.parse(readFileSync(path.join(import.meta.dirname, "fixtures", name), "utf8")) as Json;

type Json = { [key: string]: Json } & Json[];

/** An independent validator (ajv) over the published schema. */
const ajv = new Ajv2020({ strict: false });
addFormats(ajv);
const keepsSchema = ajv.compile(studioJsonSchema() as object);

describe("saved documents", () => {
  test.each(fixtures)("%s opens", (name) => {
    const read = readStudio(fixture(name));
    if (!read.ok) throw new Error(JSON.stringify(read.failure));
    expect(keepsSchema(read.value), ajv.errorsText(keepsSchema.errors)).toBe(true);
    expect(readStudio(JSON.parse(JSON.stringify(read.value)))).toEqual(read);
  });

  test("the present version's fixture comes out as it went in", () => {
    expect(readStudio(fixture("studio-v1.json"))).toEqual({ ok: true, value: fixture("studio-v1.json") });
  });

  test("the published schema is current (npm run docs writes it)", () => {
    expect(readFileSync(schemaFile, "utf8")).toBe(schemaText());
  });
});

/** The fixture with one thing changed. */
function changed(change: (document: Json) => void): Json {
  const document = fixture("studio-v1.json");
  change(document);
  return document;
}

describe("a wrong document is refused with place, value and what was expected", () => {
  test.each<[string, (document: Json) => void, string, string, RegExp]>([
    ["another format", (d) => Object.assign(d, { format: "other" }), "format", '"other"', /spyhole-studio/],
    ["a list nobody knows", (d) => Object.assign(d, { cats: [] }), "cats", "[]", /only format, studio, kilns/],
    [
      "a list that is missing",
      (d) => delete (d as { pieces?: unknown }).pieces,
      "pieces",
      "nothing",
      /a list of records/,
    ],
    ["a record that is none", (d) => d.pieces.push(7 as never), "pieces[28]", "7", /a piece record/],
    ["a field nobody knows", (d) => Object.assign(d.pieces[1], { colour: "red" }), "pieces[1]", "", /colour/],
    ["a wrong type", (d) => Object.assign(d.kilns[0], { name: 7 }), "kilns[0].name", "7", /string/],
    ["a number out of range", (d) => Object.assign(d.pieces[2], { value: -1 }), "pieces[2].value", "-1", />0/],
    ["a cone that is a number", (d) => Object.assign(d.classes[0], { cone: 6 }), "classes[0].cone", "6", /string/],
    [
      "a cone nobody makes",
      (d) => Object.assign(d.classes[0], { cone: "6a" }),
      "classes[0].cone",
      '"6a"',
      /written as text, such as "06"/,
    ],
    [
      "a day that is none",
      (d) => Object.assign(d.pieces[0], { promised: "2026-02-30" }),
      "pieces[0].promised",
      '"2026-02-30"',
      /date/,
    ],
    [
      "a shape that is not there",
      (d) => Object.assign(d.pieces[0], { shapeId: "x" }),
      "pieces[0].shapeId",
      '"x"',
      /one of the shapes/,
    ],
    [
      "a stilt that is not there",
      (d) => Object.assign(d.pieces[0], { stiltId: "x" }),
      "pieces[0].stiltId",
      '"x"',
      /stilt/,
    ],
    ["an id used twice", (d) => d.shapes.push(d.shapes[0]), "shapes[8].id", `"mug"`, /used once/],
    [
      "a piece placed twice",
      (d) => d.settings[0].setting.pieces.push(d.settings[0].setting.pieces[0]),
      "settings[0].setting.pieces[17].pieceId",
      "",
      /placed once/,
    ],
    [
      "a piece on no shelf",
      (d) => Object.assign(d.settings[0].setting.pieces[0], { shelfId: "s9" }),
      "settings[0].setting.pieces[0].shelfId",
      '"s9"',
      /a shelf in this setting/,
    ],
    [
      "rows that touch",
      (d) => Object.assign(d.kilns[0].rows[1], { z: 0.06 }),
      "kilns[0].rows[1].z",
      "0.06",
      /do not touch/,
    ],
    [
      "a profile that falls",
      (d) => Object.assign(d.shapes[0].body.profile, { 2: [0.03, 0.001] }),
      "shapes[0].body.profile[2]",
      "[0.03,0.001]",
      /never fall/,
    ],
    [
      "a record of a newer Spyhole",
      (d) => Object.assign(d.pieces[0], { version: 9 }),
      "pieces[0].version",
      "9",
      /newer Spyhole/,
    ],
    [
      "a record without a version",
      (d) => delete (d.pieces[0] as { version?: unknown }).version,
      "pieces[0].version",
      "nothing",
      /whole number/,
    ],
  ])("%s", (_, change, place, value, expected) => {
    const read = readStudio(changed(change));
    if (read.ok) throw new Error("it was taken");
    const [first] = read.failure;
    expect(first.path).toBe(place);
    expect(first.value).toContain(value);
    expect(first.expected).toMatch(expected);
  });

  test.each([null, 7, "text", [], undefined])("%j is no document", (input) => {
    expect(readStudio(input)).toMatchObject({ ok: false, failure: [{ path: "document" }] });
  });

  test("all problems are named, not only the first", () => {
    const read = readStudio(
      changed((d) => {
        Object.assign(d.pieces[0], { value: 0 });
        Object.assign(d.kilns[1], { opening: "window" });
      }),
    );
    expect(read.ok ? [] : read.failure.map((each) => each.path).sort()).toEqual([
      "kilns[1].opening",
      "pieces[0].value",
    ]);
  });
});

describe("whatever stands anywhere in a document", () => {
  const places = placesIn(fixture("studio-v1.json"), []);

  test("reading never throws, and takes nothing that breaks the published schema", () => {
    assert(
      property(
        constantFrom(...places),
        oneof(anything({ maxDepth: 1 }), constantFrom(-1, 0, 1e9, "", "x", null)),
        (at, value) => {
          const document = fixture("studio-v1.json");
          let into: Record<string, unknown> = document;
          for (const step of at.slice(0, -1)) into = into[step] as Record<string, unknown>;
          into[at.at(-1)] = value;
          const read = readStudio(document);
          if (read.ok) expect(keepsSchema(JSON.parse(JSON.stringify(read.value)))).toBe(true);
          else {
            expect(read.failure.length).toBeGreaterThan(0);
            for (const each of read.failure) expect(each.path + each.expected).not.toBe("");
          }
        },
      ),
      { seed: 11, numRuns: 600 },
    );
  });
});

function placesIn(value: unknown, at: readonly string[]): string[][] {
  if (typeof value !== "object" || value === null) return [];
  const places: string[][] = [];
  for (const [key, inner] of Object.entries(value)) {
    const here = [...at, key];
    places.push(here, ...placesIn(inner, here));
  }
  return places;
}
