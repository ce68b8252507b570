import { volumeOfRevolution, type Point } from "./cross-section.ts";
import type { Cover } from "./scene.ts";
import type { Table, Turned } from "./turned-surface.ts";

/** A thin piece's foot leaves this much air under its floor [m]. */
const footRecess = 0.002;

/** The underside of a turned piece. */
export interface Foot {
  /** Of the underside, outside edge of the foot. */
  readonly radius: number;
  /** Rings of the floor: outer radius over `radius`, rising to 1. The innermost is one disc. */
  readonly rings: readonly number[];
  /** Patches by ring and sector; empty where it lies flat on its whole foot. */
  readonly underside: Table;
  /** What it covers of the shelf, where it touches. */
  readonly cover: Cover | null;
}

/** Rings of a floor, by its radius [m]. */
export function floorRings(radius: number): readonly number[] {
  if (radius < 0.045) return [1];
  if (radius < 0.09) return [0.6, 1];
  return [0.45, 0.78, 1];
}

/** Puts the underside into the scene: a disc on a stilt; else a foot ring about a shallow recess. */
export function footOf(turned: Turned, rings: readonly number[], patch: () => number): Foot {
  const { builder, section, stance, sectors, start } = turned;
  const { x, y, z, touches } = stance;
  const radius = section.outside[0][0];
  const ringPatches = (): Table =>
    rings.map((_, ring) => {
      const made = Array.from({ length: ring === 0 ? 1 : sectors }, patch);
      return Array.from({ length: sectors }, (_, s) => made[s % made.length]);
    });
  const disc = (outer: number, level: number, underside: Table): void => {
    let inner = 0;
    rings.forEach((share, ring) => {
      const edge = { x, y, z: level, inner, outer: outer * share, up: false };
      builder.scene.ring(edge, start, merged(underside[ring]));
      inner = outer * share;
    });
  };
  if (!touches) {
    const underside = radius > 1e-4 ? ringPatches() : [];
    if (radius > 1e-4) disc(radius, z, underside);
    return { radius, rings, underside, cover: null };
  }
  const ringWidth = Math.min(section.wall, 0.6 * radius);
  const hole = radius - ringWidth;
  const cover = { x, y, angle: 0, halfX: 0, halfY: 0, radius };
  if (hole < 0.004) return { radius, rings, underside: [], cover: { ...cover, hole: 0 } };
  const underside = ringPatches();
  disc(hole, z + footRecess, underside);
  // The ring's inner side is left open: it is 2 mm tall, and a ray that ends in it is not counted.
  return { radius, rings, underside, cover: { ...cover, hole } };
}

/** A row of one and the same patch as a single column. */
function merged(row: readonly number[]): readonly number[] {
  return new Set(row).size === 1 ? row.slice(0, 1) : row;
}

/** Cross-section of one ring of the floor. */
export function floorStrip(turned: Turned, foot: Foot, ring: number): readonly Point[] {
  const [innerRadius, innerZ] = turned.section.inside![0];
  const from = ring === 0 ? 0 : foot.rings[ring - 1];
  const to = foot.rings[ring];
  return [
    [foot.radius * from, 0],
    [foot.radius * to, 0],
    [innerRadius * to, innerZ],
    [innerRadius * from, innerZ],
  ];
}

/** Puts the inside of the floor into the scene, one row of patches per ring. */
export function floorInside(turned: Turned, foot: Foot, patches: Table): void {
  const { builder, stance, start } = turned;
  const [radius, z] = turned.section.inside![0];
  patches.forEach((row, ring) => {
    const inner = ring === 0 ? 0 : radius * foot.rings[ring - 1];
    const outer = radius * foot.rings[ring];
    builder.scene.ring({ x: stance.x, y: stance.y, z: stance.z + z, inner, outer, up: true }, start, row);
  });
}

/**
 * Floor cells by ring and sector, linked to one another and to the lowest wall cells.
 *
 * @returns the outermost ring's cell in each sector
 */
export function floorCells(turned: Turned, foot: Foot, lowest: readonly number[]): readonly number[] {
  const { builder, body, sectors, section } = turned;
  const { rings, radius, underside } = foot;
  const [innerRadius, thickness] = section.inside![0];
  const turn = (2 * Math.PI) / sectors;
  const top = rings.map((_, ring) => Array.from({ length: ring === 0 ? 1 : sectors }, () => builder.patch(body)));
  floorInside(turned, foot, top);
  let outer: readonly number[] = [];
  rings.forEach((share, ring) => {
    const from = ring === 0 ? 0 : rings[ring - 1];
    const row = top[ring];
    const volume = volumeOfRevolution(floorStrip(turned, foot, ring)) / row.length;
    const made = row.map((back, s) =>
      builder.cell({ body, front: underside[ring]?.[s] ?? -1, back, edges: [], thickness, volume }),
    );
    const cells = Array.from({ length: sectors }, (_, s) => made[s % made.length]);
    const inner = outer;
    cells.forEach((cell, s) => {
      if (ring === 0) return;
      const middle = (radius * (share + from)) / 2;
      const side = radius * (share - from) * thickness;
      if (sectors > 1) builder.link({ a: cell, b: cells[(s + 1) % sectors], area: side, distance: turn * middle });
      const before = ring === 1 ? 0 : rings[ring - 2];
      const distance = (radius * (share - before)) / 2;
      builder.link({ a: inner[s], b: cell, area: turn * radius * from * thickness, distance });
    });
    outer = cells;
  });
  const width = radius * (1 - (rings.at(-2) ?? 0));
  const seam = Math.hypot(radius - innerRadius, thickness);
  outer.forEach((cell, s) => {
    const area = (turn * (radius + innerRadius) * seam) / 2;
    builder.link({ a: cell, b: lowest[s], area, distance: width / 2 + section.wall });
  });
  return outer;
}
