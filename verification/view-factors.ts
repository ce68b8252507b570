import { unattended } from "#base";
import { sceneBuilder, traceRays, type RayPoints, type SceneBuilder } from "#engine/radiation";
import {
  coaxialDiscs,
  coaxialRings,
  cylinderBands,
  cylinderWallToItself,
  discToCylinderWall,
  innerToOuterCylinder,
  oppositeRectangles,
  outerCylinderToItself,
  outerToInnerCylinder,
  rectanglesAtRightAngle,
  stripsPastStrip,
} from "./analytic-view-factors.ts";
import type { VerificationCase } from "./verification-case.ts";

/** Two surfaces whose view factor is known, as a scene for rays. */
export interface KnownPair {
  readonly id: string;
  readonly quantity: string;
  readonly source: string;
  readonly exact: number;
  /** Builds the surfaces; returns the patch that sends and the one that receives. */
  readonly build: (scene: SceneBuilder) => { readonly from: number; readonly to: number };
}

/** View factor from rays, `rays` of them [-]. */
export function tracedFactor(pair: KnownPair, rays: number, seed: number, points?: RayPoints): number {
  const builder = sceneBuilder();
  const { from, to } = pair.build(builder);
  const scene = builder.build();
  const counts = traceRays(scene, rays, seed, unattended, { patches: [from], points });
  for (let k = counts.rowStart[from]; k < counts.rowStart[from + 1]; k++) {
    if (counts.column[k] === to) return counts.count[k] / rays;
  }
  return 0;
}

type Ring = readonly [inner: number, outer: number];

function disc(scene: SceneBuilder, [inner, outer]: Ring, z: number, up: boolean): number {
  const patch = scene.patch();
  scene.ring({ x: 0.1, y: -0.2, z, inner, outer, up }, 0, [patch]);
  return patch;
}

function wall(scene: SceneBuilder, r: number, z0: number, z1: number, outward: boolean): number {
  const patch = scene.patch();
  scene.band({ x: 0.1, y: -0.2, r0: r, z0, r1: r, z1, outward }, [z0, z1], 0, [[patch]]);
  return patch;
}

/** An upright rectangle from (x0, y0) to (x1, y1), its front on the left of that way. */
function panel(scene: SceneBuilder, ends: readonly [number, number, number, number], z0: number, z1: number): number {
  const patch = scene.patch();
  const [x0, y0, x1, y1] = ends;
  const across = [0, Math.hypot(x1 - x0, y1 - y0)];
  scene.panel({ x0, y0, x1, y1, z0, z1, left: true }, [z0, z1], across, [[patch]]);
  return patch;
}

/** A level rectangle of half sides hx, hy about the axis. */
function level(scene: SceneBuilder, hx: number, hy: number, z: number, up: boolean): number {
  const patch = scene.patch();
  scene.rectangle({ x: 0, y: 0, z, halfX: hx, halfY: hy, up }, patch);
  return patch;
}

const catalogue = "[howell-catalog]";

export const knownPairs: readonly KnownPair[] = [
  {
    id: "discs-equal",
    quantity: "disc to an equal coaxial disc one radius away",
    source: `${catalogue} C-40`,
    exact: coaxialDiscs(0.3, 0.3, 0.3),
    build: (scene) => ({ from: disc(scene, [0, 0.3], 0, true), to: disc(scene, [0, 0.3], 0.3, false) }),
  },
  {
    id: "discs-unequal",
    quantity: "disc of 0.1 m to a coaxial disc of 0.265 m, 0.13 m away (a foot under a shelf)",
    source: `${catalogue} C-41`,
    exact: coaxialDiscs(0.1, 0.265, 0.13),
    build: (scene) => ({ from: disc(scene, [0, 0.1], 0, true), to: disc(scene, [0, 0.265], 0.13, false) }),
  },
  {
    id: "rings-coaxial",
    quantity: "rim ring of a shelf to the rim ring of the next",
    source: `${catalogue} C-41 by sums and differences`,
    exact: coaxialRings(0.2, 0.265, 0.2, 0.265, 0.13),
    build: (scene) => ({ from: disc(scene, [0.2, 0.265], 0, true), to: disc(scene, [0.2, 0.265], 0.13, false) }),
  },
  {
    id: "ring-to-disc",
    quantity: "ring 0.1 to 0.2 m to a coaxial disc of 0.08 m, 0.05 m away",
    source: `${catalogue} C-41 by sums and differences`,
    exact: coaxialRings(0.1, 0.2, 0, 0.08, 0.05),
    build: (scene) => ({ from: disc(scene, [0.1, 0.2], 0, true), to: disc(scene, [0, 0.08], 0.05, false) }),
  },
  {
    id: "disc-to-wall",
    quantity: "floor of a chamber to its wall",
    source: `${catalogue} C-40 and summation`,
    exact: discToCylinderWall(0.29, 0.69),
    build: (scene) => ({ from: disc(scene, [0, 0.29], 0, true), to: wall(scene, 0.29, 0, 0.69, false) }),
  },
  {
    id: "wall-to-itself",
    quantity: "wall of a chamber to itself",
    source: `${catalogue} C-40, reciprocity and summation`,
    exact: cylinderWallToItself(0.29, 0.69),
    build: (scene) => {
      const patch = wall(scene, 0.29, 0, 0.69, false);
      return { from: patch, to: patch };
    },
  },
  {
    id: "wall-bands",
    quantity: "a 30 mm band of wall to a 60 mm band 40 mm above it",
    source: `${catalogue} C-40 by sums and differences of sections`,
    exact: cylinderBands(0.29, 0.1, 0.13, 0.17, 0.23),
    build: (scene) => ({ from: wall(scene, 0.29, 0.1, 0.13, false), to: wall(scene, 0.29, 0.17, 0.23, false) }),
  },
  {
    id: "inner-to-outer-cylinder",
    quantity: "outside of a cylinder to the inside of a coaxial one of equal length",
    source: "[hamilton-morgan]",
    exact: innerToOuterCylinder(0.1, 0.29, 0.4),
    build: (scene) => ({ from: wall(scene, 0.1, 0, 0.4, true), to: wall(scene, 0.29, 0, 0.4, false) }),
  },
  {
    id: "outer-to-inner-cylinder",
    quantity: "inside of a cylinder to the outside of a coaxial one of equal length",
    source: `${catalogue} C-91`,
    exact: outerToInnerCylinder(0.1, 0.29, 0.4),
    build: (scene) => {
      const to = wall(scene, 0.1, 0, 0.4, true);
      return { from: wall(scene, 0.29, 0, 0.4, false), to };
    },
  },
  {
    id: "outer-cylinder-to-itself",
    quantity: "inside of a cylinder to itself, partly hidden by a coaxial inner one",
    source: `${catalogue} coaxial cylinders of equal length, outer to itself`,
    exact: outerCylinderToItself(0.2, 0.29, 0.4),
    build: (scene) => {
      wall(scene, 0.2, 0, 0.4, true);
      const patch = wall(scene, 0.29, 0, 0.4, false);
      return { from: patch, to: patch };
    },
  },
  {
    id: "rectangles-opposite",
    quantity: "a 0.46 by 0.46 m rectangle to an equal one 0.51 m opposite (floor and roof of a front-loader)",
    source: `${catalogue} C-11`,
    exact: oppositeRectangles(0.46, 0.46, 0.51),
    build: (scene) => ({ from: level(scene, 0.23, 0.23, 0, true), to: level(scene, 0.23, 0.23, 0.51, false) }),
  },
  {
    id: "panels-opposite",
    quantity: "an upright 0.3 by 0.5 m rectangle to an equal one 0.2 m opposite",
    source: `${catalogue} C-11`,
    exact: oppositeRectangles(0.3, 0.5, 0.2),
    build: (scene) => ({
      from: panel(scene, [0, 0, 0.3, 0], 0, 0.5),
      to: panel(scene, [0.3, 0.2, 0, 0.2], 0, 0.5),
    }),
  },
  {
    id: "rectangles-at-right-angle",
    quantity: "floor of a front-loader to its side wall",
    source: `${catalogue} C-14`,
    exact: rectanglesAtRightAngle(0.46, 0.51, 0.46),
    build: (scene) => ({
      from: level(scene, 0.23, 0.23, 0, true),
      to: panel(scene, [0.23, -0.23, 0.23, 0.23], 0, 0.51),
    }),
  },
  {
    id: "strips-past-strip",
    quantity: "a long strip to an equal one opposite, an opaque strip half way between hiding the middle",
    source: "[hottel-strings] crossed strings",
    exact: stripsPastStrip(0.2, 0.15, 0.12),
    build: (scene) => {
      // 60 m tall, looked at from the middle: the ends count for less than 1e-5.
      const from = panel(scene, [-0.1, 0, 0.1, 0], -0.5, 0.5);
      const to = panel(scene, [0.1, 0.15, -0.1, 0.15], -30, 30);
      panel(scene, [-0.06, 0.075, 0.06, 0.075], -30, 30);
      return { from, to };
    },
  },
];

/** So many rays come to about 2e-4; random ones would need 25 times as many. */
const rays = 2 ** 18;
const tolerance = 5e-4;

export const viewFactorCases: readonly VerificationCase[] = knownPairs.map((pair) => ({
  id: `view-factor-${pair.id}`,
  quantity: `view factor, ${pair.quantity}`,
  source: pair.source,
  run: () => ({ computed: tracedFactor(pair, rays, 1), reference: pair.exact, tolerance, unit: "-" }),
}));
