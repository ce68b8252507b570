import { describe, expect, it } from "vitest";
import type { Shape } from "#engine/kiln";
import { demoStudio } from "../demo/studio.ts";
import { loadOf } from "../load-of-setting.ts";
import { pieceSolid } from "./piece-solid.ts";
import { plateSolid, rectanglePoints } from "./plate-solid.ts";
import { wallStrips } from "./setting-solids.ts";
import { volumeOf, type Solid } from "./solid.ts";
import { turnedSolid } from "./turned-solid.ts";

/** Every edge belongs to exactly two triangles that run along it in opposite ways: nothing is open or inside out. */
function openEdges({ positions, triangles }: Solid): number {
  const key = (number: number): string =>
    [0, 1, 2].map((axis) => Math.round(positions[number * 3 + axis] * 1e7)).join(",");
  const edges = new Map<string, number>();
  for (let i = 0; i < triangles.length; i += 3) {
    const [a, b, c] = [key(triangles[i]), key(triangles[i + 1]), key(triangles[i + 2])];
    if (a === b || b === c || c === a) continue;
    for (const [from, to] of [
      [a, b],
      [b, c],
      [c, a],
    ]) {
      const forward = `${from} ${to}`;
      const back = `${to} ${from}`;
      if ((edges.get(back) ?? 0) > 0) edges.set(back, edges.get(back)! - 1);
      else edges.set(forward, (edges.get(forward) ?? 0) + 1);
    }
  }
  return [...edges.values()].reduce((sum, count) => sum + count, 0);
}

describe("bodies as triangles", () => {
  it("have the volumes of textbook solids", () => {
    // Geometry: a box a b c; an n-sided prism n/2 r2 sin(2 pi / n) h, which a cylinder tends to; a cone a third of it.
    expect(volumeOf(plateSolid(rectanglePoints(0.2, 0.3), 0.1, 0.5))).toBeCloseTo(0.2 * 0.3 * 0.4, 8);
    const base = (48 / 2) * 0.1 ** 2 * Math.sin((2 * Math.PI) / 48);
    const cylinder = turnedSolid(
      [
        [0, 0],
        [0.1, 0],
        [0.1, 0.25],
        [0, 0.25],
      ],
      48,
    );
    expect(volumeOf(cylinder)).toBeCloseTo(base * 0.25, 8);
    const cone = turnedSolid(
      [
        [0, 0],
        [0.1, 0],
        [0, 0.25],
      ],
      48,
    );
    expect(volumeOf(cone)).toBeCloseTo((base * 0.25) / 3, 8);
  });

  const studio = demoStudio("2026-03-02", 1);
  it.each(studio.shapes.map((shape) => [shape.name, shape as Shape] as const))("%s is closed and solid", (_, shape) => {
    const solid = pieceSolid(shape);
    expect(openEdges(solid)).toBe(0);
    expect(volumeOf(solid)).toBeGreaterThan(0);
    for (let i = 0; i < solid.normals.length; i += 3) {
      expect(Math.hypot(...solid.normals.slice(i, i + 3))).toBeCloseTo(1, 4);
    }
  });

  it("closes the wall round every chamber", () => {
    for (const kiln of studio.kilns) {
      const setting = studio.settings[0] ?? {
        version: 1 as const,
        id: "x",
        name: "X",
        kilnId: kiln.id,
        classId: studio.classes[0].id,
        scheduleId: studio.schedules[0].id,
        day: "2026-01-01",
        startsAt: 0,
        setting: { shelves: [], pieces: [], cones: [] },
        proposal: null,
        note: "",
      };
      const { kiln: built } = loadOf(studio, { ...setting, kilnId: kiln.id });
      const strips = wallStrips(built);
      expect(strips.length).toBeGreaterThanOrEqual(4);
      for (const { brick, rows } of strips) {
        expect(openEdges(brick)).toBe(0);
        expect(volumeOf(brick)).toBeGreaterThan(0);
        if (rows) expect(volumeOf(rows)).toBeGreaterThan(0);
      }
      const turn = strips.reduce((sum, { outX, outY }) => [sum[0] + outX, sum[1] + outY], [0, 0]);
      expect(Math.hypot(...turn)).toBeLessThan(strips.length * 0.01);
    }
  });
});
