import { lengths, nearestAlong, pointAlong, type CrossSection, type Point } from "./cross-section.ts";
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
    const from = along[i]!;
    const to = along[i + 1]!;
    const [r0, z0] = line[i]!;
    const [r1, z1] = line[i + 1]!;
    const rows: number[][] = [];
    const stops = [from];
    for (let k = 0; k + 1 < cuts.length; k++) {
      const low = Math.max(from, cuts[k]!);
      const high = Math.min(to, cuts[k + 1]!);
      if (high - low < 1e-9) continue;
      rows.push(patches[k]!);
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
      const a = pointAlong(line, along, stops[k]!)[0];
      const b = pointAlong(line, along, stops[k + 1]!)[0];
      if (Math.abs(a - b) < 1e-9) return;
      builder.scene.ring({ x, y, z: stance.z + z0, inner: Math.min(a, b), outer: Math.max(a, b), up }, start, row);
    });
  }
}

/** Lengths along the inside that lie opposite the outside's cuts, rising from end to end. */
export function matchCuts(turned: Turned, inside: readonly Point[], innerAlong: readonly number[]): readonly number[] {
  const { section, along, cuts } = turned;
  const total = innerAlong.at(-1)!;
  const least = total / (cuts.length - 1) / 20;
  const matched = [0];
  for (let k = 1; k + 1 < cuts.length; k++) {
    const opposite = nearestAlong(inside, innerAlong, pointAlong(section.outside, along, cuts[k]!));
    const left = (cuts.length - 1 - k) * least;
    matched.push(Math.min(total - left, Math.max(opposite, matched[k - 1]! + least)));
  }
  return [...matched, total];
}
