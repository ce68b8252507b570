import { renderToStaticMarkup } from "react-dom/server";
import { describe, expect, test } from "vitest";
import type { Load, PlacedPiece } from "#engine/kiln";
import { heatClassOf, loadOf, demoStudio, type PieceHeat } from "#work";
import { ShelfPlan } from "./shelf-plan.tsx";

const studio = demoStudio("2026-11-24", 3);
const mugs = studio.pieces.filter(({ shapeId }) => shapeId === "mug").slice(0, 3);
const placed: readonly PlacedPiece[] = mugs.map(({ id }, i) => ({
  pieceId: id,
  shelfId: "low",
  x: -0.13 + i * 0.13,
  y: 0,
  angle: i,
  fixed: false,
}));
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
      { id: "low", typeId: "full-530", x: 0, y: 0, angle: 0, z: 0.041, posts: [{ x: 0.2, y: 0, lengths: [0.025] }] },
    ],
    pieces: [...placed],
    cones: [{ shelfId: "low", x: 0, y: -0.2, angle: 0, cones: ["07", "06", "05"] }],
  },
  proposal: null,
  note: "",
});
// Numbers run against the order of the setting: the list must follow them.
const numbers = new Map(mugs.map(({ id }, i) => [id, 3 - i]));
const heatOf = (pieceId: string, offset: number): [string, PieceHeat] => [
  pieceId,
  {
    pieceId,
    offset,
    coldest: offset,
    hottest: offset,
    giveOrTake: 0.5,
    chanceWanted: 0.9,
    heat: heatClassOf(offset),
    outside: offset < -0.5 ? "cold" : offset > 0.5 ? "hot" : null,
    eitherWay: false,
  },
];
const heats = new Map([heatOf(mugs[0].id, -0.8), heatOf(mugs[1].id, 0), heatOf(mugs[2].id, 0.4)]);

const draw = (props: Partial<Parameters<typeof ShelfPlan>[0]> = {}): string =>
  renderToStaticMarkup(
    <ShelfPlan
      load={load}
      shelfId="low"
      shelfNumber={1}
      numbers={numbers}
      heats={heats}
      onSelect={() => {}}
      {...props}
    />,
  );

describe("the plan's list", () => {
  test("has one option per piece in number order, each with its gap and its heat in words", () => {
    const options = [...draw().matchAll(/role="option"[^>]*>([^<]*)</g)].map((match) => match[1]);
    expect(options).toHaveLength(3);
    expect(options.map((text) => /No\.\u00a0(\d)/.exec(text)?.[1])).toEqual(["1", "2", "3"]);
    expect(options[0]).toMatch(/mug/);
    expect(options[0]).toMatch(/mm to /);
    expect(options[2]).toMatch(/¾ cone cold, give or take ½/);
    expect(options[1]).toMatch(/as wanted/);
  });

  test("tells which piece is picked", () => {
    const html = draw({ pickedPieceId: mugs[1].id });
    const id = /aria-activedescendant="([^"]+)"/.exec(html)?.[1];
    expect(html).toContain(`id="${id}" role="option" aria-selected="true"`);
  });

  test("a plan nobody can pick from is one picture with a name", () => {
    const html = draw({ onSelect: undefined, mode: "thumbnail" });
    expect(html).toContain('role="img" aria-label="Shelf 1 from above, 3 pieces"');
    expect(html).not.toContain("listbox");
  });
});

describe("the plan's drawing", () => {
  test("shows heat by fill, hatch and, outside the range, a triangle", () => {
    const html = draw();
    expect(html).toContain("var(--heat-cold2)");
    expect(html).toMatch(/fill="url\(#p[\w-]*-cold2\)"/);
    expect(html).toMatch(/fill="url\(#p[\w-]*-hot1\)"/);
    expect(html.match(/fill="currentColor"/g)).toHaveLength(1);
  });

  test("without a forecast nothing is coloured by heat", () => {
    expect(draw({ heats: null })).not.toMatch(/fill="var\(--heat-(cold|hot)\d\)/);
  });

  test("no text is smaller than 12 px", () => {
    const sizes = [...draw().matchAll(/font-size="([\d.]+)"/g)].map((match) => Number(match[1]));
    expect(sizes.length).toBeGreaterThan(3);
    expect(Math.min(...sizes)).toBeGreaterThanOrEqual(12);
  });

  test("in the kiln room, placed is black and heat is left out", () => {
    const html = draw({ mode: "kiln-room", loading: new Map([[mugs[0].id, "placed"]]) });
    expect(html).not.toMatch(/fill="var\(--heat-(cold|hot)\d\)/);
    expect(html).toContain('fill="var(--ink)"');
  });
});
