import { renderToStaticMarkup } from "react-dom/server";
import { describe, expect, test } from "vitest";
import type { Load, PlacedPiece } from "#engine/kiln";
import { inchUnits } from "#words";
import { demoStudio, heatClassOf, loadOf, type PieceHeat } from "#work";
import { Cutaway } from "./cutaway.tsx";
import { cutStep, fromTheFront } from "./side-view.ts";

const studio = demoStudio("2026-11-24", 3);
const [back, front] = studio.pieces.filter(({ shapeId }) => shapeId === "mug") as unknown as readonly [
  { id: string },
  { id: string },
];
const at = (pieceId: string, y: number): PlacedPiece => ({
  pieceId,
  shelfId: "low",
  x: 0.05,
  y,
  angle: 0,
  fixed: false,
});
const load: Load = loadOf(studio, {
  version: 1,
  id: "setting",
  name: "A",
  kilnId: "alder",
  classId: "glaze-06",
  scheduleId: studio.schedules[0].id,
  day: "2026-11-26",
  startsAt: 27_000,
  setting: {
    shelves: [
      { id: "low", typeId: "full-530", x: 0, y: 0, angle: 0, z: 0.041, posts: [] },
      { id: "half", typeId: "half-530", x: 0, y: 0, angle: Math.PI / 2, z: 0.207, posts: [] },
    ],
    pieces: [at(back.id, 0.1), at(front.id, -0.1)],
    cones: [],
  },
  proposal: null,
  note: "",
});
const heat = (pieceId: string, offset: number): [string, PieceHeat] => [
  pieceId,
  {
    pieceId,
    offset,
    coldest: offset,
    hottest: offset,
    giveOrTake: 0.5,
    chanceWanted: 0.9,
    heat: heatClassOf(offset),
    outside: null,
    eitherWay: false,
  },
];
const numbers = new Map([
  [back.id, 1],
  [front.id, 2],
]);
const heats = new Map([heat(back.id, -0.3), heat(front.id, 0.4)]);
const draw = (props: Partial<Parameters<typeof Cutaway>[0]> = {}): string =>
  renderToStaticMarkup(<Cutaway load={load} numbers={numbers} heats={heats} {...props} />);
const drawn = (html: string): readonly string[] => [...html.matchAll(/data-piece="([^"]+)"/g)].map((match) => match[1]);

describe("the cut-open kiln", () => {
  test("draws the ware behind the cut and leaves away what stands before it", () => {
    expect(drawn(draw())).toEqual([back.id]);
    expect(drawn(draw({ viewFrom: fromTheFront + 6 * cutStep }))).toEqual([front.id]);
  });

  test("draws the picked piece wherever it stands, last and with its number", () => {
    expect(drawn(draw({ pickedPieceId: front.id }))).toEqual([back.id, front.id]);
    expect(draw({ pickedPieceId: front.id })).toMatch(/cutaway-on-accent"[^>]*>2</);
  });

  test("is said in one sentence, with both ends of the heat", () => {
    const label = /role="img" aria-label="([^"]*)"/.exec(draw())?.[1];
    expect(label).toBe(
      "Alder cut open from the side: 2 shelves, 2 pieces, from ¼ cone cold on shelf 1 to ½ cone hot on shelf 1, against cone oh-six, low fire.",
    );
  });

  test("counts pieces that are cut away in the shelf's line, which is a button", () => {
    const html = draw();
    expect(html).toMatch(
      /<button[^>]*aria-label="Shelf 1, 2 pieces, 0\.74\u202fkg, shelf 7\.2\u202fkg, coldest ¼ cone cold, hottest ½ cone hot"/,
    );
    expect(html).toMatch(/aria-label="Shelf 2, a half shelf, empty/);
  });

  test("rules in the reader's units, and no text is smaller than 12 px", () => {
    expect(draw()).toContain("69\u202fcm");
    expect(draw({ units: inchUnits })).toMatch(/27[^<]*\u202fin/);
    const sizes = [...draw().matchAll(/font-size="([\d.]+)"/g)].map((match) => Number(match[1]));
    expect(Math.min(...sizes)).toBeGreaterThanOrEqual(12);
  });
});
