import { beforeAll, describe, expect, test } from "vitest";
import type { Forecast } from "#engine/firing";
import type { Load, PlacedShelf, Shape } from "#engine/kiln";
import { cautions, inchUnits, metricUnits } from "#words";
import {
  alder,
  alderLoad,
  furniture,
  glaze06,
  mugShape,
  plateShape,
  ring,
  schedule06,
  shelf,
  tileShape,
  tumblerShape,
  usualShelves,
  vaseShape,
  type Stand,
} from "../engine/checks/alder-fixture.ts";
import { loadersSheet, pdfOf, type SheetInput } from "./index.ts";
import { paperSizes } from "./paper.ts";
import { readPdf, type ReadPdf } from "./read-pdf.ts";

const plain = (text: string): string => text.replaceAll(/[\u202f\u2009\u00a0]/g, " ");

/** Numbers by the order of the stands on each shelf: what `pieceNumbers` does is its own test's business. */
function numbersOf(load: Load): SheetInput["numbers"] {
  const order = [...load.setting.shelves].sort((a, b) => a.z - b.z).map((each) => each.id);
  const counts = new Map<string, number>();
  return new Map(
    load.setting.pieces.map(({ pieceId, shelfId }) => {
      const number = (counts.get(shelfId) ?? 0) + 1;
      counts.set(shelfId, number);
      return [pieceId, { shelf: order.indexOf(shelfId) + 1, number }];
    }),
  );
}

function inputOf(load: Load, change: Partial<SheetInput> = {}): SheetInput {
  return {
    load,
    numbers: numbersOf(load),
    parties: new Map([
      ["ivy", "Ivy"],
      ["noor", "Noor"],
      ["lark", "Łucja & Zoë <Lark>"],
      ["pell", "Pell"],
      ["tomas", "Tomas"],
    ]),
    settingName: "B",
    schedule: schedule06,
    day: 20_783,
    startsAt: 7 * 3600,
    forecast: null,
    stops: 0,
    units: metricUnits,
    paper: "a4",
    plans: "usual",
    ...change,
  };
}

/** Layers of rows of one shape each, more than one front holds. */
function tallLoad(layers: number, perLayer: number): Load {
  const shelves = Array.from({ length: layers }, (_, i) =>
    shelf(`s${i + 1}`, 0.041 + i * 0.08, ring([i === 0 ? 0.025 : 0.063])),
  );
  const shapes: readonly Shape[] = [mugShape, plateShape, tileShape, vaseShape, tumblerShape];
  const stands = shelves.flatMap(({ id }, layer) =>
    Array.from({ length: perLayer }, (_, i): Stand => {
      const turn = (2 * Math.PI * i) / perLayer;
      return {
        id: `${id}-${i}`,
        shape: shapes[(layer + i) % 5] ?? mugShape,
        shelfId: id,
        x: 0.17 * Math.cos(turn),
        y: 0.17 * Math.sin(turn),
        partyId: ["ivy", "noor", "lark", "pell"][i % 4] ?? "ivy",
      };
    }),
  );
  const height = 0.041 + layers * 0.08 + 0.12;
  const below = <Each extends { readonly z: number }>(all: readonly Each[]): readonly Each[] =>
    all.filter(({ z }) => z < height - 0.05);
  const kiln = {
    ...alder,
    chamber: { ...alder.chamber, height },
    rows: below(alder.rows),
    spyholes: below(alder.spyholes),
    sensors: alder.sensors.map((sensor) => Object.assign({}, sensor, { z: height / 2 })),
  };
  return alderLoad({ shelves, stands, kiln });
}

const halves: readonly PlacedShelf[] = [
  usualShelves[0],
  { ...shelf("a", 0.207, ring([0.15]).slice(0, 3), "half"), angle: 0 },
  { ...shelf("b", 0.257, ring([0.2]), "half"), angle: Math.PI },
];
const halfLoad = alderLoad({
  shelves: halves,
  stands: [
    { id: "m1", shape: mugShape, shelfId: "s1", x: 0.1, y: 0 },
    { id: "t1", shape: tumblerShape, shelfId: "a", x: -0.12, y: 0 },
    { id: "t2", shape: tumblerShape, shelfId: "b", x: 0.12, y: 0, stiltId: "star" },
  ],
  cones: [],
});

const squareLoad = alderLoad({
  kiln: {
    ...alder,
    name: "Rowan",
    opening: "door",
    chamber: { plan: { kind: "rectangle", width: 0.46, depth: 0.46 }, height: 0.51 },
    spyholes: [{ azimuth: -Math.PI / 2, z: 0.26 }],
  },
  furniture: {
    ...furniture,
    shelves: [
      {
        id: "square",
        name: "square shelf 410",
        outline: { kind: "rectangle", width: 0.41, depth: 0.41 },
        thickness: 0.016,
        material: "cordierite",
        mass: 12.5,
        count: 4,
      },
    ],
  },
  shelves: [
    shelf("s1", 0.041, ring([0.025], 0.17), "square"),
    shelf("s2", 0.2, ring([0.1, 0.025, 0.018], 0.17), "square"),
  ],
  stands: [{ id: "p", shape: tileShape, shelfId: "s1", x: 0.05, y: 0.05, angle: 0.3 }],
  firingClass: { ...glaze06, kind: "bisque", cone: "04" },
});

const loads: readonly (readonly [string, Load])[] = [
  ["three shelves", alderLoad()],
  ["nine shelves", tallLoad(9, 7)],
  ["half shelves", halfLoad],
  ["a square kiln", squareLoad],
  ["one shelf with more than a page of lines", tallLoad(1, 60)],
  ["nothing", alderLoad({ shelves: [], stands: [], cones: [] })],
];
const papers = ["a4", "letter"] as const;
const cases = loads.flatMap(([what, load]) => papers.map((paper) => [what, paper, load] as const));

describe.each(cases)("the sheet of %s on %s", (_, paper, load) => {
  const input = inputOf(load, { paper });
  const pages = loadersSheet(input);
  let pdf: ReadPdf;
  let text = "";
  beforeAll(async () => {
    pdf = readPdf(await pdfOf(pages, paper, { title: "Loader’s sheet", created: new Date(0) }));
    text = plain(pdf.pages.map((page) => page.text).join("\n"));
  });

  test("has a page for every SVG, in the paper's size, numbered", () => {
    expect(pdf.pages).toHaveLength(pages.length);
    pdf.pages.forEach((page, i) => {
      expect([page.width, page.height]).toEqual([paperSizes[paper].width, paperSizes[paper].height]);
      expect(plain(page.text)).toContain(`${i + 1} of ${pages.length}`);
    });
  });

  test("is vector, black and white, its fonts inside, every letter known", () => {
    expect(pdf.images).toBe(0);
    expect(
      pdf.pages.flatMap((page) => page.operators).filter((operator) => ["Do", "BI", "sh"].includes(operator)),
    ).toEqual([]);
    expect(text).not.toContain("\ufffd");
    expect(new Set(pdf.embedded)).toEqual(
      new Set(["Besley-SemiBold", "AtkinsonHyperlegibleNext-Regular", "AtkinsonHyperlegibleNext-SemiBold"]),
    );
    for (const page of pages) {
      expect(page).not.toMatch(/<image|<clipPath|<mask|opacity/);
      const paints = [...page.matchAll(/(?:fill|stroke)="([^"]+)"/g)].map(([, paint]) => paint);
      expect(paints.every((paint) => ["black", "white", "none"].includes(paint ?? ""))).toBe(true);
    }
  });

  test("has no text below 14 pt but the numbers on plans, and these not below 10", () => {
    const labels = pages.flatMap((page) => [...page.matchAll(/<text [^>]*font-size="([\d.]+)">(.*?)<\/text>/g)]);
    for (const [, size, content] of labels) {
      const words = (content ?? "").replaceAll(/<[^>]+>/g, "");
      if (Number(size) < 14) {
        expect(words).toMatch(/^\d+$/);
        expect(Number(size)).toBeGreaterThanOrEqual(10);
      }
    }
    expect(Math.min(...pdf.pages.flatMap((page) => page.sizes))).toBeGreaterThanOrEqual(10);
  });

  test("keeps all text within the printable edge", () => {
    for (const page of pages) {
      for (const [, x, y] of page.matchAll(/<text xml:space="preserve" x="([-\d.]+)" y="([-\d.]+)"/g)) {
        expect(Number(x)).toBeGreaterThanOrEqual(33);
        expect(Number(x)).toBeLessThan(paperSizes[paper].width - 34);
        expect(Number(y)).toBeGreaterThan(40);
        expect(Number(y)).toBeLessThanOrEqual(paperSizes[paper].height - 33);
      }
    }
  });

  test("shows every shelf, every number, every party, bottom shelf first", () => {
    const shelves = load.setting.shelves.length;
    const places = Array.from({ length: shelves }, (__, i) => text.indexOf(`Shelf ${i + 1}`));
    expect(places.every((place) => place >= 0)).toBe(true);
    expect(places).toEqual(places.toSorted((a, b) => a - b));
    const drawn = pages.flatMap((page) =>
      [...page.matchAll(/<text [^>]*><tspan[^>]*>(\d+)<\/tspan><\/text>/g)].map(([, number]) => number),
    );
    for (const { number } of input.numbers.values()) expect(drawn).toContain(String(number));
    for (const piece of load.setting.pieces) {
      const party = load.pieces.get(piece.pieceId)?.partyId ?? "";
      expect(text.replaceAll(/\s+/g, " ")).toContain((input.parties.get(party) ?? "").split(" ")[0]);
    }
  });

  test("carries the cautions whole", () => {
    const flowing = text.replaceAll(/\s+/g, " ");
    const must = [...cautions.load, ...cautions.light, ...cautions.watch, ...cautions.open, ...cautions.general];
    for (const caution of must) expect(flowing).toContain(plain(caution));
  });
});

test("the same input gives the same bytes", async () => {
  const info = { title: "Loader’s sheet", created: new Date(0) };
  const input = inputOf(alderLoad());
  const one = await pdfOf(loadersSheet(input), "a4", info);
  const two = await pdfOf(loadersSheet(input), "a4", info);
  expect(Buffer.compare(one, two)).toBe(0);
});

describe("what the sheet says", () => {
  const flowing = (input: SheetInput): string =>
    plain(
      loadersSheet(input)
        .map((page) => page.replaceAll(/<\/text>/g, " ").replaceAll(/<[^>]+>/g, ""))
        .join(" "),
    ).replaceAll(/\s+/g, " ");

  test("title, day, posts in both units, runs by party, cones to write in", () => {
    const text = flowing(inputOf(alderLoad()));
    expect(text).toContain("Alder, glaze cone oh-six (06), low fire");
    expect(text).toContain("Setting B, Thu 26 Nov, 7 pieces. Bottom shelf first. Spyhole at the left.");
    expect(text).toContain("Full shelf on 3 posts, 200 mm (8 in)");
    expect(text).toContain("1–2 mugs, Ivy");
    expect(text).toContain("3 mug, Noor");
    expect(text).toContain("Cones seen 07 06 05");
    expect(text).toContain("Class and cone: 06, not 6");
    expect(text).toContain("Schedule: glaze 06, to 998 °C");
    expect(text).toContain("No forecast was made for this setting.");
  });

  test("letters of other languages, and signs that SVG must not swallow", () => {
    expect(flowing(inputOf(alderLoad()))).toContain("vases, Łucja &amp; Zoë &lt;Lark&gt;");
  });

  test("inches first for who reads inches", () => {
    const text = flowing(inputOf(alderLoad(), { units: inchUnits }));
    expect(text).toContain("Full shelf on 3 posts, 8 in (200 mm)");
    expect(text).toContain("to 1828 °F");
    expect(text).toContain("1 in from ware to wall");
  });

  test("half shelves by their side, stilts, stacks, a lift for two, stops that stand", () => {
    const text = flowing(inputOf(halfLoad, { stops: 1 }));
    expect(text).toContain("Left half shelf on 3 posts, 150 mm (6 in)");
    expect(text).toContain("Right half shelf on 3 posts, 200 mm (8 in)");
    expect(text).toContain("1 tumbler, Ivy, on star");
    expect(text).toContain("One stop stands against this setting. Mend it before you load.");
    const square = flowing(inputOf(squareLoad, { stops: 2 }));
    expect(square).toContain("Square shelf 410 on 3 stacks, 143 mm (5 5⁄8 in): 100 + 25 + 18");
    expect(square).toContain("12.5 kg: lift it in with two people.");
    expect(square).toContain("Door at the bottom of each plan.");
    expect(square).toContain("2 stops stand");
  });

  test("a forecast with its give or take, its times and a key to its marks", () => {
    const load = alderLoad();
    const heat = (mean: number): Forecast["pieces"][number]["heatwork"] => ({
      coldest: mean - 0.1,
      mean,
      hottest: mean + 0.1,
    });
    const means = [-6.6, -6.35, -6, -6, -5.6, -7.4, -6.1];
    const forecast = {
      grade: "full",
      pieces: load.setting.pieces.map(({ pieceId }, i) => ({
        pieceId,
        heatwork: heat(means[i] ?? -6),
        peak: 1270,
        history: { coldest: [], mean: [], hottest: [] },
        giveOrTake: 0.5,
        chanceWanted: 0.5,
      })),
      heatingEnds: 8.9 * 3600,
      readyAt: 23.9 * 3600,
      uncertainty: { heating: 1500, ready: 5400 },
    } as unknown as Forecast;
    const text = flowing(inputOf(load, { forecast }));
    expect(text).toContain("over 1 cone cold ½ to 1 cone cold ¼ to ½ cold as wanted ¼ to ½ hot");
    expect(text).not.toContain("½ to 1 cone hot");
    expect(text).toContain("Give or take ½ cone. Ends about Thu 15:55, ± 25 min. Open Fri 06:55, ± 1½ h.");
    expect(text).toContain("An estimate. The witness cones decide.");
    expect(flowing(inputOf(load, { forecast, startsAt: null }))).toContain("Heating takes about 8 h 55, ± 25 min.");
    expect(flowing(inputOf(load, { forecast: { ...forecast, grade: "preview" } }))).toContain("quick forecast");
  });

  test("more than six shelves flow to more fronts; large plans have a shelf a page", () => {
    const fronts = (input: SheetInput): number =>
      loadersSheet(input).filter((page) => page.includes("Bottom shelf first")).length;
    expect(fronts(inputOf(alderLoad()))).toBe(1);
    expect(fronts(inputOf(tallLoad(6, 2)))).toBeLessThanOrEqual(2);
    expect(fronts(inputOf(tallLoad(9, 2)))).toBeGreaterThanOrEqual(2);
    expect(fronts(inputOf(alderLoad(), { plans: "large" }))).toBe(3);
  });
});

describe("read by a library that is not ours", () => {
  // pdf.js (npm pdfjs-dist): an outside check that our own reader did not read what we wish.
  test("pdf.js finds the same words", async () => {
    const { getDocument } = await import("pdfjs-dist/legacy/build/pdf.mjs");
    const bytes = await pdfOf(loadersSheet(inputOf(alderLoad())), "a4", { title: "Sheet", created: new Date(0) });
    const document = await getDocument({ data: new Uint8Array(bytes), verbosity: 0 }).promise;
    const lines: string[] = [];
    for (let number = 1; number <= document.numPages; number++) {
      const content = await (await document.getPage(number)).getTextContent();
      lines.push(...content.items.map((item) => ("str" in item ? item.str : "")));
    }
    // Letters of another subset of the font come as texts of their own, so blanks do not count.
    const packed = (each: string): string => plain(each).replaceAll(/\s+/g, "");
    const text = packed(lines.join(""));
    for (const words of [
      "Alder, glaze cone oh-six (06), low fire",
      "1–2 mugs, Ivy",
      "200 mm (8 in)",
      "vases, Łucja & Zoë <Lark>",
    ]) {
      expect(text).toContain(packed(words));
    }
  });
});
