import {
  lengths,
  nearestAlong,
  partOf,
  pointAlong,
  volumeOfRevolution,
  type CrossSection,
  type Point,
} from "./cross-section.ts";
import type { MeshBuilder } from "./mesh-builder.ts";
import type { Stance } from "./piece-mesh.ts";

/** One table of patches or cells: a row for each band from the foot up, a column for each sector. */
export type Table = number[][];

/** A body of revolution while it is cut. */
export interface Turned {
  readonly builder: MeshBuilder;
  readonly body: number;
  readonly section: CrossSection;
  readonly stance: Stance;
  readonly sectors: number;
  /** Azimuth where sector 0 begins: it is centred on the handle. */
  readonly start: number;
  /** Lengths along the outside to each of its points, and where one band ends and the next begins. */
  readonly along: readonly number[];
  readonly cuts: readonly number[];
}

/** Puts the surface of a turned line into the scene; `cuts` are lengths along it where a new row begins. */
export function surfaceOfRevolution(
  { builder, stance, start }: Pick<Turned, "builder" | "stance" | "start">,
  line: readonly Point[],
  cuts: readonly number[],
  patches: Table,
  outward: boolean,
): void {
  const along = lengths(line);
  const { x, y } = stance;
  for (let i = 0; i + 1 < line.length; i++) {
    const from = along[i];
    const to = along[i + 1];
    const [r0, z0] = line[i];
    const [r1, z1] = line[i + 1];
    const rows: number[][] = [];
    const stops = [from];
    for (let k = 0; k + 1 < cuts.length; k++) {
      const low = Math.max(from, cuts[k]);
      const high = Math.min(to, cuts[k + 1]);
      if (high - low < 1e-9) continue;
      rows.push(patches[k]);
      stops.push(high);
    }
    if (Math.abs(z1 - z0) > 1e-7) {
      const heights = stops.map((stop) => stance.z + z0 + ((z1 - z0) * (stop - from)) / (to - from));
      const band = { x, y, r0, z0: stance.z + z0, r1, z1: stance.z + z1, outward };
      builder.scene.band(band, heights, start, rows);
      continue;
    }
    // A level stretch: outward it looks down on the outside and up on the inside; inward the other way round.
    const up = outward === r1 < r0;
    rows.forEach((row, k) => {
      const a = pointAlong(line, along, stops[k])[0];
      const b = pointAlong(line, along, stops[k + 1])[0];
      if (Math.abs(a - b) < 1e-9) return;
      builder.scene.ring({ x, y, z: stance.z + z0, inner: Math.min(a, b), outer: Math.max(a, b), up }, start, row);
    });
  }
}

/** How the wall of a turned piece is cut into bands: lengths along its outside and its inside. */
export interface BandCuts {
  readonly outer: readonly number[];
  /** Empty where there is no inside. */
  readonly inner: readonly number[];
  /** Cross-section of each band. */
  readonly strips: readonly (readonly Point[])[];
}

/**
 * Cuts a wall into about `bands` bands of equal length along the outside, each opposite its part of the inside.
 *
 * Where the wall's line turns back on itself opposite points can cross; then equal shares of the inside are tried,
 * and then fewer bands.
 */
export function bandCuts(section: CrossSection, bands: number): BandCuts {
  const along = lengths(section.outside);
  const total = along.at(-1)!;
  const outer = Array.from({ length: bands + 1 }, (_, i) => (total * i) / bands);
  if (!section.inside)
    return { outer, inner: [], strips: outer.slice(1).map((_, k) => wedge(section, along, outer, k)) };
  const inside = section.inside;
  const innerAlong = lengths(inside);
  for (const inner of [opposite(section, along, outer, innerAlong), shares(innerAlong.at(-1)!, bands)]) {
    const strips = outer.slice(1).map((_, k) => {
      const back = partOf(inside, innerAlong, inner[k], inner[k + 1]);
      return partOf(section.outside, along, outer[k], outer[k + 1]).concat(back.toReversed());
    });
    if (bands === 1 || strips.every((strip) => volumeOfRevolution(strip) > 0)) return { outer, inner, strips };
  }
  return bandCuts(section, bands - 1);
}

function shares(total: number, bands: number): readonly number[] {
  return Array.from({ length: bands + 1 }, (_, i) => (total * i) / bands);
}

/** From the axis to the outside, between two cuts. */
function wedge(section: CrossSection, along: readonly number[], cuts: readonly number[], k: number): readonly Point[] {
  const part = partOf(section.outside, along, cuts[k], cuts[k + 1]);
  return [[0, part[0][1]], ...part, [0, part.at(-1)![1]]];
}

/** Lengths along the inside next to the points that lie a wall's thickness in from the outside's cuts, rising. */
function opposite(
  section: CrossSection,
  along: readonly number[],
  cuts: readonly number[],
  innerAlong: readonly number[],
): readonly number[] {
  const total = innerAlong.at(-1)!;
  const least = total / (cuts.length - 1) / 20;
  const matched = [0];
  for (let k = 1; k + 1 < cuts.length; k++) {
    const [r, z] = pointAlong(section.outside, along, cuts[k]);
    const [before, after] = [-1e-3, 1e-3].map((step) => pointAlong(section.outside, along, cuts[k] + step));
    const [dr, dz] = [after[0] - before[0], after[1] - before[1]];
    const length = Math.hypot(dr, dz);
    const within: Point = [r - (section.wall * dz) / length, z + (section.wall * dr) / length];
    const left = (cuts.length - 1 - k) * least;
    const at = nearestAlong(section.inside!, innerAlong, within);
    matched.push(Math.min(total - left, Math.max(at, matched[k - 1] + least)));
  }
  return [...matched, total];
}
