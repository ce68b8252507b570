import { describe, expect, it } from "vitest";
import { Cancelled, seededRandom, unattended } from "#base";
import { coaxialDiscs, coaxialRings, cylinderBands } from "../../../verification/analytic-view-factors.ts";
import { knownPairs, tracedFactor } from "../../../verification/view-factors.ts";
import { inventedLoad } from "./invented-load.ts";
import { meshLoad } from "./mesh-load.ts";
import { measurePatches } from "./mesh-builder.ts";
import type { Exchange } from "./mesh.ts";
import { exchangeFromCounts } from "./reciprocity.ts";
import { resolutionFor } from "./resolution.ts";
import { sceneBuilder, type Scene } from "./scene.ts";
import { traceExchange } from "./trace-exchange.ts";
import { traceRays, type RayPoints } from "./trace.ts";

function dense(exchange: Exchange, n: number): Float64Array {
  const table = new Float64Array(n * n);
  for (let i = 0; i < n; i++) {
    for (let k = exchange.rowStart[i]; k < exchange.rowStart[i + 1]; k++) {
      table[i * n + exchange.column[k]] = exchange.exchangeArea[k]!;
    }
  }
  return table;
}

/** Largest |S_ij - S_ji| and largest |row sum - area|, over the area. */
function flaws(exchange: Exchange, area: Float64Array): { readonly reciprocity: number; readonly rows: number } {
  const n = area.length;
  const table = dense(exchange, n);
  let reciprocity = 0;
  let rows = 0;
  for (let i = 0; i < n; i++) {
    let sum = 0;
    for (let j = 0; j < n; j++) {
      sum += table[i * n + j];
      const smaller = Math.min(area[i], area[j]);
      reciprocity = Math.max(reciprocity, Math.abs(table[i * n + j] - table[j * n + i]) / smaller);
    }
    rows = Math.max(rows, Math.abs(sum / area[i] - 1));
  }
  return { reciprocity, rows };
}

const radius = 0.3;
const cuts = [0, 0.1, 0.25, 0.5];
const inner = 0.15;

/** A closed cylinder: floor disc and ring, three bands of wall, lid disc and ring. All its factors are known. */
function cylinder(): {
  readonly scene: Scene;
  readonly area: Float64Array;
  readonly exact: (i: number, j: number) => number;
} {
  const builder = sceneBuilder();
  const [floorDisc, floorRing, low, middle, high, lidDisc, lidRing] = Array.from({ length: 7 }, () => builder.patch());
  const top = cuts.at(-1);
  const axis = { x: 0, y: 0 };
  builder.ring({ ...axis, z: 0, inner: 0, outer: inner, up: true }, 0, [floorDisc]);
  builder.ring({ ...axis, z: 0, inner, outer: radius, up: true }, 0, [floorRing]);
  const wall = { ...axis, r0: radius, z0: -0.001, r1: radius, z1: top + 0.001, outward: false };
  builder.band(wall, cuts, 0, [[low], [middle], [high]]);
  builder.ring({ ...axis, z: top, inner: 0, outer: inner, up: false }, 0, [lidDisc]);
  builder.ring({ ...axis, z: top, inner, outer: radius, up: false }, 0, [lidRing]);
  const scene = builder.build();
  const { area } = measurePatches(scene, []);
  const rings = [
    [0, inner],
    [inner, radius],
  ] as const;
  const exact = (i: number, j: number): number => {
    const flat = (patch: number): number => (patch < 2 ? patch : patch >= 5 ? patch - 5 : -1);
    if (flat(i) >= 0 && flat(j) >= 0) {
      const [own, other] = [rings[flat(i)], rings[flat(j)]];
      return i < 2 === j < 2 ? 0 : coaxialRings(own[0], own[1], other[0], other[1], top);
    }
    if (flat(i) < 0 && flat(j) < 0) {
      if (i === j) {
        const tall = cuts[i - 1] - cuts[i - 2];
        return 1 - ((1 - coaxialDiscs(radius, radius, tall)) * radius) / tall;
      }
      const [below, above] = i < j ? [i, j] : [j, i];
      const factor = cylinderBands(radius, cuts[below - 2], cuts[below - 1], cuts[above - 2], cuts[above - 1]);
      return i < j ? factor : (factor * area[below]) / area[above];
    }
    if (flat(i) < 0) return (exact(j, i) * area[j]) / area[i];
    // A ring of the floor sees what enters the band's lower section but not its upper one.
    const [from, to] = rings[flat(i)];
    const seen = (z: number): number => coaxialRings(from, to, 0, radius, i < 2 ? z : top - z);
    const [near, far] = i < 2 ? [cuts[j - 2], cuts[j - 1]] : [cuts[j - 1], cuts[j - 2]];
    return (near === (i < 2 ? 0 : top) ? 1 : seen(near)) - seen(far);
  };
  return { scene, area, exact };
}

describe("exchange of a closed cylinder, all 49 factors known [howell-catalog]", () => {
  const { scene, area, exact } = cylinder();
  const n = 7;

  it("the references close and are reciprocal themselves", () => {
    for (let i = 0; i < n; i++) {
      let sum = 0;
      for (let j = 0; j < n; j++) {
        sum += exact(i, j);
        expect(area[i] * exact(i, j)).toBeCloseTo(area[j] * exact(j, i), 12);
      }
      expect(sum).toBeCloseTo(1, 12);
    }
  });

  for (const seed of [1, 2, 3]) {
    it(`within 0.0035 of each view factor with 16384 rays a patch, seed ${seed}; closed and reciprocal to rounding`, () => {
      const exchange = exchangeFromCounts(traceRays(scene, 16384, seed, unattended), area);
      const table = dense(exchange, n);
      for (let i = 0; i < n; i++) {
        for (let j = 0; j < n; j++) {
          expect(Math.abs(table[i * n + j] / area[i] - exact(i, j)), `${i} to ${j}`).toBeLessThan(0.0035);
        }
      }
      const { reciprocity, rows } = flaws(exchange, area);
      expect(reciprocity).toBeLessThan(1e-13);
      expect(rows).toBeLessThan(1e-13);
    });
  }

  it("averaging and closing lower the rms error of the bare counts by a quarter or more, 24 seeds", () => {
    let bare = 0;
    let closed = 0;
    for (let seed = 1; seed <= 24; seed++) {
      const counts = traceRays(scene, 1024, seed * 101, unattended);
      const table = dense(exchangeFromCounts(counts, area), n);
      for (let i = 0; i < n; i++) {
        const row = new Float64Array(n);
        for (let k = counts.rowStart[i]; k < counts.rowStart[i + 1]; k++) row[counts.column[k]] = counts.count[k]!;
        for (let j = 0; j < n; j++) {
          bare += (row[j] / 1024 - exact(i, j)) ** 2;
          closed += (table[i * n + j] / area[i] - exact(i, j)) ** 2;
        }
      }
    }
    expect(Math.sqrt(closed / bare)).toBeLessThan(0.75);
  });

  it("the stated ray error is what the factors are off, within a factor of two, with random rays", () => {
    const random = seededRandom(17);
    const points: RayPoints = () => () => random.uniform() * 2 ** 32;
    let stated = 0;
    let squares = 0;
    let terms = 0;
    for (let run = 0; run < 20; run++) {
      const exchange = exchangeFromCounts(traceRays(scene, 1024, 1, unattended, { points }), area);
      const table = dense(exchange, n);
      stated += exchange.rayError / 20;
      for (let i = 0; i < n; i++) {
        for (let j = i + 1; j < n; j++) {
          const larger = Math.max(area[i], area[j]);
          if ((area[i] * exact(i, j)) / larger < 0.01) continue;
          squares += ((table[i * n + j] - area[i] * exact(i, j)) / larger) ** 2;
          terms++;
        }
      }
    }
    const real = Math.sqrt(squares / terms);
    expect(stated / real).toBeGreaterThan(0.5);
    expect(stated / real).toBeLessThan(2);
  });
});

describe("error against rays", () => {
  /** Slope of log rms error against log rays over the known pairs. */
  function slope(points: ((seed: number) => RayPoints) | null): number {
    const logRays: number[] = [];
    const logErrors: number[] = [];
    for (const rays of [256, 1024, 4096, 16384]) {
      let squares = 0;
      let terms = 0;
      for (const pair of knownPairs) {
        for (let seed = 1; seed <= 12; seed++) {
          const traced = tracedFactor(pair, rays, seed * 7919, points?.(seed * 31 + rays));
          squares += (traced - pair.exact) ** 2;
          terms++;
        }
      }
      logRays.push(Math.log(rays));
      logErrors.push(Math.log(squares / terms) / 2);
    }
    const meanX = logRays.reduce((a, b) => a + b) / logRays.length;
    const meanY = logErrors.reduce((a, b) => a + b) / logErrors.length;
    const covariance = logRays.reduce((sum, x, i) => sum + (x - meanX) * (logErrors[i] - meanY), 0);
    return covariance / logRays.reduce((sum, x) => sum + (x - meanX) ** 2, 0);
  }

  it("falls as the root of the number of random rays", () => {
    const found = slope((seed) => {
      const random = seededRandom(seed);
      return () => () => random.uniform() * 2 ** 32;
    });
    expect(found).toBeGreaterThan(-0.55);
    expect(found).toBeLessThan(-0.45);
  });

  it("falls as rays^-0.6 or faster with the sequence: an edge in four dimensions allows no more than -5/8", () => {
    expect(slope(null)).toBeLessThan(-0.6);
  });
});

describe("exchange of a load", () => {
  const load = inventedLoad(2, 0.25);
  const resolution = resolutionFor(load, "preview");
  const { scene, mesh } = meshLoad(load, resolution);

  it("is closed and reciprocal, and the same for the same seed", () => {
    const once = traceExchange(scene, mesh, 64, 5, unattended);
    const twice = traceExchange(scene, mesh, 64, 5, unattended);
    expect(twice.exchangeArea).toEqual(once.exchangeArea);
    expect(twice.column).toEqual(once.column);
    expect(traceExchange(scene, mesh, 64, 6, unattended).exchangeArea).not.toEqual(once.exchangeArea);
    const { reciprocity, rows } = flaws(once, mesh.area);
    expect(reciprocity).toBeLessThan(1e-12);
    expect(rows).toBeLessThan(1e-12);
    for (let i = 0; i < mesh.patchCount; i++) {
      for (let k = once.rowStart[i] + 1; k < once.rowStart[i + 1]; k++) {
        expect(once.column[k]).toBeGreaterThan(once.column[k - 1]);
      }
    }
  });

  it("stops on request and tells how far it is", () => {
    let polls = 0;
    const fractions: number[] = [];
    const control = {
      cancelled: () => ++polls > 2,
      progress: (fraction: number) => void fractions.push(fraction),
      elapsed: () => 0,
    };
    expect(() => traceExchange(scene, mesh, 64, 5, control)).toThrow(Cancelled);
    expect(fractions).toEqual([0, 64 / mesh.patchCount]);
  });
});
