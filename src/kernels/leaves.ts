import { solidKind, solidStride, type Solids } from "#engine/geometry";
import { boxRound, parted } from "./boxes.ts";

/** How the kernel tells leaves apart: bands and rings together, cut bands, other plates, panels, boxes. */
export const leafKind = { round: 0, bandChord: 1, plate: 2, panel: 3, box: 4 } as const;

/** Rows of four numbers in a leaf of each kind. */
const rowsOf = [13, 10, 13, 10, 9] as const;

/** What goes into one leaf: `first` its solids, `second` the rings of a round leaf. */
export interface Leaf {
  readonly kind: number;
  readonly first: readonly number[];
  readonly second: readonly number[];
  readonly box: Float64Array;
}

/** Groups solids of a kind that lie close together into leaves. */
export function leavesOf(solids: Solids, chosen: readonly number[]): readonly Leaf[] {
  const rings = new Set(chosen.filter((solid) => solids.kind[solid] === solidKind.plate));
  const byKind: number[][] = rowsOf.map(() => []);
  for (const solid of chosen) byKind[kindOf(solids, solid)].push(solid);
  return byKind.flatMap((members, kind) => {
    const second = kind === leafKind.round ? rings : new Set<number>();
    // A leaf takes four of a kind, a round one four bands and four rings.
    const leavesFor = (bands: number, flats: number): number => Math.max(Math.ceil(bands / 4), Math.ceil(flats / 4));
    const split = (part: readonly number[]): readonly (readonly number[])[] => {
      const flats = part.filter((solid) => second.has(solid)).length;
      if (part.length === 0) return [];
      if (leavesFor(part.length - flats, flats) <= 1) return [part];
      return parted(solids.bounds, part, second, leavesFor).flatMap(split);
    };
    return split(members).map((part) => ({
      kind,
      first: part.filter((solid) => !second.has(solid)),
      second: part.filter((solid) => second.has(solid)),
      box: boxRound(solids.bounds, part),
    }));
  });
}

function kindOf({ kind, data }: Solids, solid: number): number {
  const number = (at: number): number => data[solid * solidStride + at];
  switch (kind[solid]) {
    case solidKind.band:
      return number(8) === 0 && number(9) === 0 ? leafKind.round : leafKind.bandChord;
    case solidKind.plate: {
      const isRing = number(5) === 0 && number(6) === 0 && number(10) === 0 && number(11) === 0;
      return isRing ? leafKind.round : leafKind.plate;
    }
    case solidKind.panel:
      return leafKind.panel;
    default:
      return leafKind.box;
  }
}

export function leafBytes(leaf: Leaf): number {
  return rowsOf[leaf.kind] * 16;
}

export function writeLeaf(solids: Solids, leaf: Leaf, buffer: ArrayBuffer, offset: number): void {
  if (leaf.kind !== leafKind.round) {
    writeLanes(buffer, offset, leaf.first, (solid) => rowsFor(solids, solid, leaf.kind), []);
    return;
  }
  // An empty half holds what no ray can hit: a band of height -1, a disc of radius² -1.
  writeLanes(buffer, offset, leaf.first, (solid) => bandRows(numbersOf(solids, solid)), [0, 0, 1, 0, 0, -1]);
  const rings = offset + 7 * 16;
  writeLanes(buffer, rings, leaf.second, (solid) => ringRows(numbersOf(solids, solid)), [0, 0, 0, -1, 0]);
}

/** Writes four lanes of rows, the index first; lanes left over repeat the first solid. */
export function writeLanes(
  buffer: ArrayBuffer,
  offset: number,
  members: readonly number[],
  rows: (solid: number) => readonly number[],
  empty: readonly number[],
): void {
  for (let lane = 0; lane < 4; lane++) {
    const solid = members[lane] ?? members[0] ?? -1;
    const numbers = solid < 0 ? empty : rows(solid);
    const floats = new Float32Array(buffer, offset, (numbers.length + 1) * 4);
    numbers.forEach((value, i) => {
      floats[(i + 1) * 4 + lane] = value;
    });
    new Int32Array(buffer, offset, 4)[lane] = solid;
  }
}

function numbersOf({ data }: Solids, solid: number): readonly number[] {
  return Array.from(data.subarray(solid * solidStride, (solid + 1) * solidStride));
}

/** Radius at the lower edge, slope, lower edge, height; a rounding taller, lest a ray slip between two bands. */
function bandRows(d: readonly number[]): readonly number[] {
  const low = d[5] - 1e-7;
  return [d[0], d[1], d[2] + d[4] * (low - d[3]), d[4], low, d[6] - d[5] + 2e-7];
}

function ringRows(d: readonly number[]): readonly number[] {
  return [d[0], d[1], d[2], d[7], d[9]];
}

/** A solid's rows after its index, in the kernel's order. */
export function rowsFor(solids: Solids, solid: number, kind: number): readonly number[] {
  const d = numbersOf(solids, solid);
  switch (kind) {
    case leafKind.bandChord:
      return [...bandRows(d), d[8], d[9], d[10]];
    case leafKind.plate:
      return [...ringRows(d), d[3], d[4], d[5], d[6], d[10], d[11], d[12]];
    default:
      return d.slice(0, rowsOf[kind] - 1);
  }
}
