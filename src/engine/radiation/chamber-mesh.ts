import { areaOf, circumradius, type Outline } from "#engine/geometry";
import type { Kiln, WallSide } from "#engine/kiln";
import type { MeshBuilder } from "./mesh-builder.ts";
import { flatRegion, linkRings, planOf, ringArea, ringCut, ringTable, type FlatRegion } from "./plate-mesh.ts";
import type { Resolution } from "./mesh.ts";
import { starShapeOf } from "./star.ts";

/** How far floor, lid and walls reach past their corners, so that no ray slips out along a seam [m]. */
const overlap = 1e-3;

export interface ChamberMesh {
  readonly floor: FlatRegion;
  readonly floorCells: readonly (readonly number[])[];
  readonly floorPatches: readonly (readonly number[])[];
}

/** Cuts wall, element rows, lid and floor of a kiln into patches, each with a cell of brick behind it. */
export function chamberMesh(builder: MeshBuilder, kiln: Kiln, resolution: Resolution): ChamberMesh {
  wallMesh(builder, kiln, resolution);
  cap(builder, kiln, resolution, "lid");
  return cap(builder, kiln, resolution, "floor");
}

function cap(builder: MeshBuilder, kiln: Kiln, resolution: Resolution, which: "lid" | "floor"): ChamberMesh {
  const { plan, height } = kiln.chamber;
  const { thickness } = kiln[which];
  const body = builder.body({ kind: which });
  const shape = starShapeOf(plan);
  const at = { x: 0, y: 0, angle: 0 };
  const rings = Math.max(2, Math.round(resolution.shelfRings * 0.6));
  const region = flatRegion(shape, ringCut(rings, resolution.sectors, 1.4), at);
  const patches = ringTable(region, () => builder.patch(body));
  const outline = planOf(shape, at);
  const z = which === "lid" ? height : 0;
  builder.scene.star(
    region.placed,
    { ...outline, radius: (outline.radius ?? 0) + overlap, z, up: which === "floor" },
    region.cut.gauges,
    patches,
  );
  const cells = ringTable(region, (ring, first, count) =>
    builder.cell({
      body,
      front: patches[ring][first],
      back: -1,
      edges: [],
      thickness,
      volume: ringArea(region, ring, count) * thickness,
    }),
  );
  linkRings(builder, region, cells, thickness);
  return { floor: region, floorCells: cells, floorPatches: patches };
}

interface Interval {
  readonly low: number;
  readonly high: number;
  /** Element row, or -1 for plain wall. */
  readonly row: number;
}

/** Cuts the wall's height at the element rows' grooves and into bands no taller than `tallest`. */
export function wallIntervals(kiln: Kiln, tallest: number): readonly Interval[] {
  const { height } = kiln.chamber;
  const grooves = kiln.rows
    .map((row, index) => ({ low: row.z - row.height / 2, high: row.z + row.height / 2, row: index }))
    .sort((a, b) => a.low - b.low);
  const intervals: Interval[] = [];
  let z = 0;
  const plain = (to: number): void => {
    const bands = Math.max(1, Math.ceil((to - z) / tallest - 1e-9));
    for (let i = 0; i < bands; i++) {
      intervals.push({ low: z + ((to - z) * i) / bands, high: z + ((to - z) * (i + 1)) / bands, row: -1 });
    }
    z = to;
  };
  grooves.forEach((groove, i) => {
    const after = grooves[i + 1];
    // Grooves that run into each other meet half way; slivers of wall under 2 mm go to the groove.
    let low = Math.max(groove.low, z);
    let high = Math.min(after && after.low < groove.high ? (after.low + groove.high) / 2 : groove.high, height);
    if (low - z < 0.002) low = z;
    if (height - high < 0.002) high = height;
    if (high - low < 1e-6) return;
    if (low > z) plain(low);
    intervals.push({ low, high, row: groove.row });
    z = high;
  });
  if (height - z > 1e-6) plain(height);
  return intervals;
}

const sideOfFlat: readonly WallSide[] = ["right", "back", "left", "front"];

function wallMesh(builder: MeshBuilder, kiln: Kiln, resolution: Resolution): void {
  const { plan, height } = kiln.chamber;
  const { thickness } = kiln.wall;
  const intervals = wallIntervals(kiln, resolution.wallBand);
  const heights = [0, ...intervals.map((interval) => interval.high)];
  const wall = builder.body({ kind: "wall" });
  const rows = kiln.rows.map((_, row) => builder.body({ kind: "row", row }));
  const carries = (row: number, side: WallSide | null): boolean =>
    side === null || (kiln.rows[row]?.walls ?? ["left", "right", "back"]).includes(side);

  // The lining is wider outside than at its hot face: its mean width over the hot face's.
  const widening = 1 + (thickness * perimeterOf(plan)) / (4 * areaOf(plan));

  // Columns go once round the wall; each has its width and the side it is on.
  const columns: { readonly width: number; readonly side: WallSide | null }[] = [];
  const patches: number[][] = intervals.map(() => []);
  const cells: number[][] = intervals.map(() => []);
  const addColumn = (width: number, side: WallSide | null): void => {
    columns.push({ width, side });
    intervals.forEach((interval, i) => {
      const onRow = interval.row >= 0 && carries(interval.row, side);
      const body = onRow ? rows[interval.row] : wall;
      const patch = builder.patch(body);
      const volume = width * widening * (interval.high - interval.low) * thickness;
      patches[i]?.push(patch);
      cells[i]?.push(builder.cell({ body, front: patch, back: -1, edges: [], thickness, volume }));
    });
  };

  if (plan.kind === "disc") {
    const { radius } = plan;
    for (let s = 0; s < resolution.sectors; s++) addColumn((2 * Math.PI * radius) / resolution.sectors, null);
    const band = { x: 0, y: 0, r0: radius, z0: -overlap, r1: radius, z1: height + overlap, outward: false };
    builder.scene.band(band, heights, 0, patches);
  } else {
    const flats = flatWalls(plan);
    const sides = plan.kind === "polygon" ? plan.sides : 4;
    // Each flat has columns of its own, or, in a coarse cut of many flats, neighbouring flats share one.
    const shared =
      plan.kind === "polygon" && resolution.sectors < sides ? sides / largestDivisor(sides, resolution.sectors) : 1;
    flats.forEach(({ x0, y0, x1, y1 }, flat) => {
      const length = Math.hypot(x1 - x0, y1 - y0);
      const side = plan.kind === "rectangle" ? sideOfFlat[flat] : null;
      const count = shared > 1 ? 1 : Math.max(1, Math.round((resolution.sectors * length) / perimeterOf(plan)));
      if (flat % shared === 0) for (let i = 0; i < count; i++) addColumn((length * shared) / count, side);
      const first = columns.length - count;
      const ux = ((x1 - x0) / length) * overlap;
      const uy = ((y1 - y0) / length) * overlap;
      builder.scene.panel(
        { x0: x0 - ux, y0: y0 - uy, x1: x1 + ux, y1: y1 + uy, z0: -overlap, z1: height + overlap, left: true },
        heights,
        Array.from({ length: count + 1 }, (_, i) => overlap + (length * i) / count),
        patches.map((row) => row.slice(first, first + count)),
      );
    });
  }

  intervals.forEach((interval, i) => {
    const tall = interval.high - interval.low;
    columns.forEach(({ width }, c) => {
      const here = cells[i][c];
      const beside = (c + 1) % columns.length;
      builder.link({
        a: here,
        b: cells[i][beside],
        area: tall * thickness,
        distance: (width + columns[beside].width) / 2,
      });
      const above = intervals[i + 1];
      if (!above) return;
      builder.link({
        a: here,
        b: cells[i + 1][c],
        area: width * thickness,
        distance: (above.high - interval.low) / 2,
      });
    });
  });
}

function largestDivisor(number: number, atMost: number): number {
  for (let divisor = Math.min(number, atMost); divisor > 1; divisor--) if (number % divisor === 0) return divisor;
  return 1;
}

/** The flat walls of a chamber, counter-clockwise, in the order of its outline's flats. */
function flatWalls(
  plan: Exclude<Outline, { kind: "disc" }>,
): readonly { readonly x0: number; readonly y0: number; readonly x1: number; readonly y1: number }[] {
  if (plan.kind === "half-disc")
    throw new RangeError("chamber.plan is a half-disc; expected disc, polygon or rectangle");
  if (plan.kind === "rectangle") {
    const x = plan.width / 2;
    const y = plan.depth / 2;
    return [
      { x0: x, y0: -y, x1: x, y1: y },
      { x0: x, y0: y, x1: -x, y1: y },
      { x0: -x, y0: y, x1: -x, y1: -y },
      { x0: -x, y0: -y, x1: x, y1: -y },
    ];
  }
  const corner = circumradius(plan);
  return Array.from({ length: plan.sides }, (_, side) => {
    const from = plan.rotation + (2 * Math.PI * (side - 0.5)) / plan.sides;
    const to = from + (2 * Math.PI) / plan.sides;
    return {
      x0: corner * Math.cos(from),
      y0: corner * Math.sin(from),
      x1: corner * Math.cos(to),
      y1: corner * Math.sin(to),
    };
  });
}

function perimeterOf(plan: Outline): number {
  if (plan.kind === "rectangle") return 2 * (plan.width + plan.depth);
  if (plan.kind === "polygon") return 2 * plan.sides * plan.inradius * Math.tan(Math.PI / plan.sides);
  return 2 * Math.PI * circumradius(plan);
}
