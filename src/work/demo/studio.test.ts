import { radiusAt } from "#engine/geometry";
import { bodyRadius, footprintOf, heightOf } from "#engine/kiln";
import { farthestFrom } from "#engine/geometry";
import { readStudio } from "#records";
import { describe, expect, test } from "vitest";
import { startingShapes } from "../starting/shapes.ts";
import { emptyStudio } from "../starting/studio.ts";
import { demoStudio } from "./studio.ts";

const demo = demoStudio("2026-03-02", 1);

describe("the demo studio", () => {
  test("is a valid document, and so is an empty studio", () => {
    const read = readStudio(JSON.parse(JSON.stringify(demo)));
    expect(read).toEqual({ ok: true, value: demo });
    expect(readStudio(JSON.parse(JSON.stringify(emptyStudio("New"))))).toMatchObject({ ok: true });
  });

  test("is the same for the same day and seed, and moves with the day", () => {
    expect(demoStudio("2026-03-02", 1)).toEqual(demo);
    expect(demoStudio("2026-03-02", 2)).not.toEqual(demo);
    const promised = (today: string): string =>
      demoStudio(today, 1)
        .pieces.map((each) => each.promised)
        .sort()[0];
    expect(promised("2026-03-03") > promised("2026-03-02")).toBe(true);
    for (const piece of demo.pieces) expect(piece.promised > "2026-03-02").toBe(true);
  });

  test("has about 90 pieces in three classes, some drying, one too wide for every shelf", () => {
    expect(demo.pieces).toHaveLength(91);
    expect(new Set(demo.pieces.map((each) => each.classId))).toEqual(new Set(["glaze-06", "bisque-04", "mid-6"]));
    expect(demo.pieces.filter((each) => each.dryFrom !== null)).toHaveLength(9);
    const tooWide = demo.shapes.filter((shape) => bodyRadius(shape) > 0.265).map((shape) => shape.id);
    expect(tooWide).toEqual(["garden-planter"]);
  });

  test("has shelves 50 mm smaller across than their chamber, in every direction", () => {
    for (const kiln of demo.kilns) {
      const furniture = demo.furniture.find((each) => each.id === kiln.furnitureId)!;
      for (const shelf of furniture.shelves) {
        for (let azimuth = 0; azimuth < Math.PI / 2; azimuth += Math.PI / 90) {
          const gap = radiusAt(kiln.chamber.plan, azimuth) - radiusAt(shelf.outline, azimuth + Math.PI);
          expect(gap).toBeGreaterThanOrEqual(0.025 - 1e-9);
        }
      }
    }
  });

  test("has kilns as powerful as their size: 55 to 65 W a litre", () => {
    // Common practice: figures of studio kilns with 64-76 mm brick.
    const watts = demo.kilns.map((kiln) => kiln.rows.reduce((sum, row) => sum + row.power, 0));
    expect(watts).toEqual([11_500, 7000]);
    expect(watts[0] / 190).toBeGreaterThan(55);
    expect(watts[1] / (46 * 46 * 0.51)).toBeLessThan(65);
  });
});

describe("the library of shapes", () => {
  // Outside size [mm] and mass [kg] of usual studio ware: estimates of the trade, +-25 %. No source.
  test.each([
    ["mug", 120, 95, 0.3, 0.45],
    ["large-mug", 140, 105, 0.4, 0.55],
    ["dinner-plate", 265, 25, 0.75, 1.05],
    ["side-plate", 205, 20, 0.4, 0.55],
    ["coupe-bowl", 220, 50, 0.5, 0.65],
    ["cereal-bowl", 155, 65, 0.35, 0.45],
    ["mixing-bowl", 250, 110, 1.1, 1.4],
    ["round-platter", 330, 30, 1.3, 1.7],
    ["long-platter", 472, 35, 1.3, 1.7],
    ["small-figure", 70, 110, 0.2, 0.3],
    ["large-figure", 120, 200, 0.6, 0.9],
    ["small-tile", 148, 6, 0.11, 0.14],
    ["large-tile", 215, 7, 0.27, 0.35],
    ["ornament", 90, 5, 0.05, 0.07],
    ["ball", 75, 74, 0.1, 0.14],
    ["vase", 100, 200, 0.6, 0.8],
    ["teapot", 200, 150, 0.75, 0.95],
    ["bank", 216, 120, 0.5, 0.7],
    ["pitcher", 170, 220, 0.9, 1.2],
  ])("%s is about %f mm across and %f high", (id, across, high, light, heavy) => {
    const shape = startingShapes.find((each) => each.id === id)!;
    const footprint = footprintOf(shape);
    const measured =
      shape.handle || shape.spout
        ? bodyRadius(shape) * 2 + (shape.handle?.reach ?? 0) + (shape.spout?.reach ?? 0)
        : farthestFrom(footprint, 0, 0) * 2;
    expect(Math.abs(measured * 1000 - across)).toBeLessThanOrEqual(1 + across * 0.02);
    expect(Math.abs(heightOf(shape) * 1000 - high)).toBeLessThanOrEqual(1);
    expect(shape.mass).toBeGreaterThanOrEqual(light);
    expect(shape.mass).toBeLessThanOrEqual(heavy);
  });

  test("weighs what its clay weighs: 1.2 to 2.6 kg a litre", () => {
    // Dense for fired stoneware, light for open earthenware with thin rims. Common practice, no source.
    for (const shape of [...startingShapes, ...demo.shapes]) {
      const litres = (clayOf(shape.body) + partsOf(shape)) * 1000;
      expect(shape.mass / litres, shape.id).toBeGreaterThan(1.2);
      expect(shape.mass / litres, shape.id).toBeLessThan(2.6);
    }
  });
});

/** Volume of handle, spout and lid [m3], roughly: straps 8 mm thick, a lid as wide as the mouth. */
function partsOf({ handle, spout, lidHeight, body }: (typeof startingShapes)[number]): number {
  const strap = [handle, spout].reduce(
    (sum, part) => sum + (part ? (part.top - part.bottom + 2 * part.reach) * part.width * 0.008 : 0),
    0,
  );
  if (lidHeight === 0 || body.kind !== "revolution") return strap;
  return strap + Math.PI * body.profile.at(-1)[0] ** 2 * body.wall * 2;
}

/** Volume of the wall and floor of a body [m3]. */
function clayOf(body: (typeof startingShapes)[number]["body"]): number {
  if (body.kind === "slab") return body.width * body.depth * body.thickness * (body.corner > 0.04 ? Math.PI / 4 : 1);
  if (body.kind === "box") {
    const faces = body.width * body.depth * (body.closed ? 2 : 1) + 2 * (body.width + body.depth) * body.height;
    return faces * body.wall;
  }
  let area = Math.PI * body.profile[0][0] ** 2;
  for (let i = 1; i < body.profile.length; i += 1) {
    const [r0, z0] = body.profile[i - 1];
    const [r1, z1] = body.profile[i];
    area += Math.PI * (r0 + r1) * Math.hypot(r1 - r0, z1 - z0);
  }
  return area * body.wall;
}
