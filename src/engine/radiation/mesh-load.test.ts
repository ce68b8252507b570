import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { unattended } from "#base";
import { areaOf, rayBatch, type Outline } from "#engine/geometry";
import type { Body, Load, Shape, ShelfType } from "#engine/kiln";
import { sobolPoints } from "#engine/numerics";
import { raySource } from "./emission.ts";
import { inventedKiln, inventedLoad, mug } from "./invented-load.ts";
import { meshLoad } from "./mesh-load.ts";
import type { LoadMesh } from "./mesh-builder.ts";
import type { Resolution } from "./mesh.ts";
import { resolutionFor } from "./resolution.ts";
import { traceRays } from "./trace.ts";

const middling: Resolution = {
  sectors: 8,
  wallBand: 0.06,
  shelfRings: 4,
  pieceSectors: 4,
  pieceBands: 3,
  raysPerPatch: 64,
};

/** A load of one piece of `body` in the middle of one shelf. */
function single(body: Body, stilt: boolean, attachments: Partial<Shape> = {}): Load {
  const shape: Shape = { ...mug, body, handle: null, ...attachments };
  const load = inventedLoad(1, 0.2, shape, stilt);
  const pieces = load.setting.pieces.filter((piece) => piece.x === 0 && piece.y === 0);
  return { ...load, setting: { ...load.setting, pieces, cones: [] } };
}

interface Whole {
  /** Surface of the body [m2]. */
  readonly area: number;
  /** |∮ n dA| over it [m2]: 0 for a closed surface. */
  readonly open: number;
  /** ∮ x·n dA / 3 over it [m3]: the volume inside a closed surface (divergence theorem). */
  readonly volume: number;
  /** Sum of its cells' volumes [m3]. */
  readonly cellVolume: number;
}

/** Surface integrals over the patches of one body, from 4096 starts of rays along the normal on each. */
function surfaceOf({ mesh, scene }: LoadMesh, kind: string): Whole {
  const source = raySource(scene);
  const points = sobolPoints(2, 4096, -1);
  const ray = rayBatch(1);
  // Heights from near the body, lest small differences of large products lose digits.
  const level = 0.06;
  const sum = { x: 0, y: 0, z: 0, area: 0, volume: 0 };
  for (let patch = 0; patch < mesh.patchCount; patch++) {
    if (mesh.bodies[mesh.bodyOf[patch]].kind !== kind) continue;
    const weight = mesh.area[patch] / 4096;
    sum.area += mesh.area[patch];
    for (let i = 0; i < 4096; i++) {
      source(patch, (points[i * 2] + 0.5) * 2 ** -32, (points[i * 2 + 1] + 0.5) * 2 ** -32, 0, 0, ray, 0);
      const [nx, ny, nz] = [ray.dx[0], ray.dy[0], ray.dz[0]];
      sum.x += weight * nx;
      sum.y += weight * ny;
      sum.z += weight * nz;
      sum.volume += (weight * (ray.ox[0] * nx + ray.oy[0] * ny + (ray.oz[0] - level) * nz)) / 3;
    }
  }
  const cells = mesh.cells.filter((cell) => mesh.bodies[cell.body].kind === kind);
  const cellVolume = cells.reduce((total, cell) => total + cell.volume, 0);
  return { area: sum.area, open: Math.hypot(sum.x, sum.y, sum.z), volume: sum.volume, cellVolume };
}

/** Profiles that rise from a foot through one to three waypoints. */
const profiles = fc
  .record({
    foot: fc.double({ min: 0.015, max: 0.08, noNaN: true }),
    steps: fc.array(
      fc.record({
        r: fc.double({ min: 0.02, max: 0.12, noNaN: true }),
        rise: fc.double({ min: 0.004, max: 0.08, noNaN: true }),
      }),
      { minLength: 1, maxLength: 3 },
    ),
    wall: fc.double({ min: 0.003, max: 0.009, noNaN: true }),
    closed: fc.boolean(),
  })
  .map(({ foot, steps, wall, closed }): Body => {
    let z = 0;
    const rising = steps.map(({ r, rise }) => [r, (z += rise)] as const);
    const profile = [[foot, 0] as const, ...rising, ...(closed ? [[0, z + 0.02] as const] : [])];
    return { kind: "revolution", profile, wall, foot, closed };
  });

describe("pieces are closed bodies whose cells fill them", () => {
  it("turned pieces of any profile, on stilts", () => {
    fc.assert(
      fc.property(profiles, fc.constantFrom(1, 3, 6), (body, pieceSectors) => {
        const whole = surfaceOf(meshLoad(single(body, true), { ...middling, pieceSectors }), "piece");
        expect(whole.open).toBeLessThan(2e-3 * whole.area);
        expect(Math.abs(whole.volume / whole.cellVolume - 1)).toBeLessThan(0.02);
      }),
      { numRuns: 40, seed: 12 },
    );
  });

  it.each<[string, Body, number, number]>([
    [
      "a cylinder of 5 mm wall",
      {
        kind: "revolution",
        profile: [
          [0.04, 0],
          [0.04, 0.1],
        ],
        wall: 0.005,
        foot: 0.04,
        closed: false,
      },
      Math.PI * (0.04 ** 2 * 0.1 - 0.035 ** 2 * 0.095),
      Math.PI * (2 * 0.04 ** 2 + 2 * 0.04 * 0.1 + 2 * 0.035 * 0.095),
    ],
    [
      "a cone without room inside",
      {
        kind: "revolution",
        profile: [
          [0.03, 0],
          [0, 0.08],
        ],
        wall: 0.05,
        foot: 0.03,
        closed: true,
      },
      (Math.PI / 3) * 0.03 ** 2 * 0.08,
      Math.PI * 0.03 * (0.03 + Math.hypot(0.03, 0.08)),
    ],
    [
      "an open box",
      { kind: "box", width: 0.12, depth: 0.1, height: 0.08, wall: 0.006, closed: false },
      0.12 * 0.1 * 0.08 - 0.108 * 0.088 * 0.074,
      2 * 0.12 * 0.1 + 2 * 0.22 * 0.08 + 2 * 0.196 * 0.074,
    ],
    [
      "a closed box",
      { kind: "box", width: 0.12, depth: 0.1, height: 0.08, wall: 0.006, closed: true },
      0.12 * 0.1 * 0.08 - 0.108 * 0.088 * 0.068,
      2 * (0.012 + 0.22 * 0.08) + 2 * (0.108 * 0.088 + 0.196 * 0.068),
    ],
    [
      "a solid box",
      { kind: "box", width: 0.06, depth: 0.05, height: 0.08, wall: 0, closed: true },
      0.06 * 0.05 * 0.08,
      2 * (0.003 + 0.0088),
    ],
    [
      "a square tile",
      { kind: "slab", width: 0.15, depth: 0.15, thickness: 0.007, corner: 0 },
      0.15 * 0.15 * 0.007,
      2 * 0.15 * 0.15 + 0.6 * 0.007,
    ],
    [
      "an oval plate",
      { kind: "slab", width: 0.38, depth: 0.28, thickness: 0.01, corner: 0.14 },
      (0.1 * 0.28 + Math.PI * 0.14 ** 2) * 0.01,
      2 * (0.1 * 0.28 + Math.PI * 0.14 ** 2) + (0.2 + 2 * Math.PI * 0.14) * 0.01,
    ],
  ])("%s has its volume and surface", (_, body, volume, area) => {
    for (const pieceSectors of [1, 4]) {
      const whole = surfaceOf(meshLoad(single(body, true), { ...middling, pieceSectors }), "piece");
      expect(whole.cellVolume / volume).toBeCloseTo(1, 5);
      expect(whole.area / area).toBeCloseTo(1, 5);
      expect(whole.open).toBeLessThan(2e-3 * area);
      expect(whole.volume / volume).toBeCloseTo(1, 2);
    }
  });
});

const outlines: readonly Outline[] = [
  { kind: "disc", radius: 0.25 },
  { kind: "half-disc", radius: 0.25 },
  { kind: "rectangle", width: 0.3, depth: 0.4 },
];

function withShelf(outline: Outline): Load {
  const load = inventedLoad(1);
  const type: ShelfType = { ...load.furniture.shelves[0], outline };
  const shelf = { ...load.setting.shelves[0], angle: 0.7, x: 0.02, posts: [] };
  return {
    ...load,
    furniture: { ...load.furniture, shelves: [type] },
    setting: { shelves: [shelf], pieces: [], cones: [] },
  };
}

describe("shelves", () => {
  it.each(outlines.map((outline) => [outline.kind, outline] as const))(
    "%s: closed, area and volume exact, cells joined into one body",
    (_, outline) => {
      const meshed = meshLoad(withShelf(outline), middling);
      const whole = surfaceOf(meshed, "shelf");
      expect(whole.cellVolume / (areaOf(outline) * 0.016)).toBeCloseTo(1, 9);
      expect(whole.open).toBeLessThan(2e-3 * whole.area);
      expect(whole.volume / whole.cellVolume).toBeCloseTo(1, 1);
      const { mesh } = meshed;
      const own = mesh.cells.flatMap((cell, i) => (mesh.bodies[cell.body].kind === "shelf" ? [i] : []));
      const reached = new Set([own[0]]);
      for (let before = 0; before < reached.size;) {
        before = reached.size;
        for (const { a, b } of mesh.links) {
          if (reached.has(a)) reached.add(b);
          if (reached.has(b)) reached.add(a);
        }
      }
      expect(reached.size).toBe(own.length);
    },
  );
});

function kilnWith(plan: Outline): Load {
  const load = inventedLoad(3, 0.2);
  return { ...load, kiln: { ...inventedKiln, chamber: { plan, height: 0.69 } } };
}

describe("a whole load", () => {
  it.each<[string, Load]>([
    ["ten-sided", inventedLoad(3, 0.2)],
    ["on stilts", inventedLoad(3, 0.2, mug, true)],
    ["round", kilnWith({ kind: "disc", radius: 0.29 })],
    ["rectangular", kilnWith({ kind: "rectangle", width: 0.62, depth: 0.6 })],
    ["turned octagon", kilnWith({ kind: "polygon", sides: 8, inradius: 0.3, rotation: 0.3 })],
  ])("%s: no ray gets out, every patch is a face of one cell, preview and standard", (_, load) => {
    for (const grade of ["preview", "standard"] as const) {
      const { mesh, scene, emissivity } = meshLoad(load, resolutionFor(load, grade));
      const counts = traceRays(scene, 32, 1, unattended);
      expect(counts.lost).toBe(0);
      const faces = new Int32Array(mesh.patchCount);
      for (const cell of mesh.cells) {
        for (const patch of [cell.front, cell.back, ...cell.edges]) if (patch >= 0) faces[patch]++;
        expect(cell.volume).toBeGreaterThan(0);
        expect(cell.thickness).toBeGreaterThan(0);
      }
      expect(Array.from(faces).every((count) => count === 1)).toBe(true);
      expect(emissivity.every((value) => value > 0 && value <= 1)).toBe(true);
      expect(mesh.area.every((value) => value > 0)).toBe(true);
      for (const { a, b, area, distance } of mesh.links) {
        expect(a !== b && area > 0 && distance > 0).toBe(true);
      }
      // Rays that start inside something solid are few: handles in walls, not open seams.
      const arrived = counts.arrived.reduce((sum, count) => sum + count, 0);
      expect(arrived / counts.traced).toBeGreaterThan(0.97);
    }
  });

  it("puts element rows where the kiln has them, on their walls only", () => {
    const load = kilnWith({ kind: "rectangle", width: 0.46, depth: 0.5 });
    const { mesh } = meshLoad({ ...load, setting: { shelves: [], pieces: [], cones: [] } }, middling);
    const area = new Map<string, number>();
    mesh.area.forEach((value, patch) => {
      const body = mesh.bodies[mesh.bodyOf[patch]];
      const name = body.kind === "row" ? `row ${body.row}` : body.kind;
      area.set(name, (area.get(name) ?? 0) + value);
    });
    // Left, right and back carry the row; the door at the front is wall.
    for (let row = 0; row < 6; row++) expect(area.get(`row ${row}`)).toBeCloseTo(0.025 * (0.5 + 0.5 + 0.46), 9);
    expect(area.get("wall")).toBeCloseTo(0.69 * 2 * 0.96 - 6 * 0.025 * 1.46, 9);
    expect(area.get("floor")).toBeCloseTo(0.46 * 0.5, 9);
  });

  it("a foot covers its shelf and touches it with the ring's area; a stilt lifts it", () => {
    const bare = { ...inventedLoad(1), setting: { ...inventedLoad(1).setting, pieces: [], cones: [] } };
    const top = (load: Load): number => {
      const { mesh } = meshLoad(load, middling);
      let area = 0;
      mesh.bodyOf.forEach((body, patch) => {
        if (mesh.bodies[body].kind === "shelf" && mesh.normal[patch * 3 + 2] > 0.9) area += mesh.area[patch];
      });
      return area;
    };
    const one = single(mug.body, false);
    const ring = Math.PI * (0.03 ** 2 - 0.025 ** 2);
    expect(top(bare) - top(one)).toBeCloseTo(ring, 9);
    const { mesh } = meshLoad(one, middling);
    const feet = mesh.contacts.filter((contact) => mesh.bodies[mesh.cells[contact.a].body].kind === "piece");
    expect(feet.reduce((sum, contact) => sum + contact.area, 0)).toBeCloseTo(ring, 9);
    expect(feet.every((contact) => contact.gap === 0)).toBe(true);
    const lifted = meshLoad(single(mug.body, true), middling).mesh;
    const points = lifted.contacts.filter((contact) => lifted.bodies[lifted.cells[contact.a].body].kind === "piece");
    expect(points.length).toBeGreaterThan(0);
    expect(points.every((contact) => contact.gap === 0.012)).toBe(true);
    expect(points.reduce((sum, contact) => sum + contact.area, 0)).toBeLessThan(1e-5);
  });

  it("a stack of posts joins floor and shelf", () => {
    const { mesh } = meshLoad(inventedLoad(2, 0.2), middling);
    const kinds = mesh.contacts
      .filter((contact) => [contact.a, contact.b].some((cell) => mesh.bodies[mesh.cells[cell].body].kind === "post"))
      .map((contact) => `${mesh.bodies[mesh.cells[contact.b].body].kind} ${contact.bFace}`);
    expect(new Set(kinds)).toEqual(new Set(["shelf back", "shelf front", "floor front", "post back"]));
  });

  it("names what is missing", () => {
    const load = inventedLoad(1);
    expect(() => meshLoad({ ...load, shapes: new Map() }, middling)).toThrow(/shape "mug" is not in this load/);
  });
});
