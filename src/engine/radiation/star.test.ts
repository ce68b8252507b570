import { describe, expect, it } from "vitest";
import { edgesBetween, gauge, makeStar, reachOf, sectorAt, slicesPerSector, starArea, type StarShape } from "./star.ts";

const shapes: readonly StarShape[] = [
  { kind: "disc", radius: 0.25 },
  { kind: "half-disc", radius: 0.25, offset: 1 / (3 * Math.PI) },
  { kind: "rounded", halfX: 0.3, halfY: 0.1, corner: 0 },
  { kind: "rounded", halfX: 0.1, halfY: 0.05, corner: 0.04 },
  { kind: "polygon", sides: 8, inradius: 0.3, rotation: 0.2 },
];

/** Area under the fan of reaches between two azimuths, by the trapezoidal rule. */
function fanArea(shape: StarShape, from: number, to: number): number {
  const steps = 4000;
  let sum = 0;
  for (let i = 0; i < steps; i++) sum += reachOf(shape, from + ((to - from) * (i + 0.5)) / steps) ** 2;
  return (sum * (to - from)) / steps / 2;
}

describe.each(shapes.map((shape) => [JSON.stringify(shape), shape] as const))("%s", (_, shape) => {
  const star = makeStar(shape, 12);

  it("has the area its edge encloses", () => {
    expect(fanArea(shape, 0, 2 * Math.PI) / starArea(shape)).toBeCloseTo(1, 5);
  });

  it("is cut into sectors of equal area that find their own points", () => {
    for (let s = 0; s < 12; s++) {
      const from = star.slices[s * slicesPerSector];
      const to = star.slices[(s + 1) * slicesPerSector];
      expect((fanArea(shape, from, to) * 12) / star.area).toBeCloseTo(1, 3);
      for (const share of [0.01, 0.5, 0.99]) {
        const azimuth = from + share * (to - from);
        expect(sectorAt(star, Math.cos(azimuth), Math.sin(azimuth))).toBe(s);
      }
    }
  });

  it("has gauge 1 on the edge, growing in proportion", () => {
    for (let azimuth = 0.05; azimuth < 6.2; azimuth += 0.37) {
      const reach = reachOf(shape, azimuth);
      for (const share of [0.1, 0.6, 1.7]) {
        expect(gauge(shape, share * reach * Math.cos(azimuth), share * reach * Math.sin(azimuth))).toBeCloseTo(
          share,
          9,
        );
      }
    }
  });

  it("has an edge that runs once round without gaps, each point of it at gauge 1", () => {
    let last: readonly [number, number] | null = null;
    for (let s = 0; s < 12; s++) {
      const from = star.slices[s * slicesPerSector];
      for (const edge of edgesBetween(shape, from, star.slices[(s + 1) * slicesPerSector])) {
        const at = (share: number): readonly [number, number] => {
          if (edge.kind === "line") {
            return [edge.x0 + share * (edge.x1 - edge.x0), edge.y0 + share * (edge.y1 - edge.y0)];
          }
          const angle = edge.from + share * (edge.to - edge.from);
          return [edge.x + edge.radius * Math.cos(angle), edge.y + edge.radius * Math.sin(angle)];
        };
        for (const share of [0, 0.3, 0.8, 1]) expect(gauge(shape, ...at(share))).toBeCloseTo(1, 6);
        if (last) expect(Math.hypot(at(0)[0] - last[0], at(0)[1] - last[1])).toBeLessThan(1e-6);
        last = at(1);
      }
    }
  });
});
