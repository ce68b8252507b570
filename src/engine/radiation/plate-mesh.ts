import type { MeshBuilder } from "./mesh-builder.ts";
import type { Cover, PlacedStar } from "./scene.ts";
import {
  centreShift,
  edgesBetween,
  gauge,
  makeStar,
  reachOf,
  sectorAt,
  slicesPerSector,
  type StarShape,
} from "./star.ts";

/** How a flat region is cut: gauges of the rings' edges (0 … 1) and sectors in each ring, a divisor of the last's. */
export interface RingCut {
  readonly gauges: readonly number[];
  readonly sectors: readonly number[];
}

/**
 * Rings that grow narrower to the rim, and sectors that merge towards the centre so that none is a sliver.
 *
 * @param grading 1 for rings of equal width, larger for finer ones at the rim
 */
export function ringCut(rings: number, sectors: number, grading: number): RingCut {
  const gauges = Array.from({ length: rings + 1 }, (_, i) => 1 - (1 - i / rings) ** grading);
  const counts = Array.from({ length: rings }, (_, ring) => {
    const wanted = sectors * gauges[ring + 1] * 0.9;
    let count = sectors;
    for (let divisor = 1; divisor <= sectors; divisor++) {
      if (sectors % divisor === 0 && sectors / divisor >= wanted) count = sectors / divisor;
    }
    return ring === rings - 1 ? sectors : count;
  });
  return { gauges, sectors: counts };
}

/** Where a region's own frame lies in the kiln: its outline's origin and turn. */
export interface Stand {
  readonly x: number;
  readonly y: number;
  readonly angle: number;
}

/** One cell or patch for each ring and each of the finest sectors; coarser rings repeat theirs. */
type RingTable = readonly (readonly number[])[];

export interface FlatRegion {
  readonly placed: PlacedStar;
  readonly cut: RingCut;
}

export function flatRegion(shape: StarShape, cut: RingCut, at: Stand): FlatRegion {
  const cos = Math.cos(at.angle);
  const sin = Math.sin(at.angle);
  const shift = centreShift(shape);
  const star = makeStar(shape, cut.sectors.at(-1)!);
  return { placed: { star, x: at.x + cos * shift, y: at.y + sin * shift, cos, sin }, cut };
}

/** Fills a table of the region by asking for a new entry once per cell. */
export function ringTable(region: FlatRegion, make: (ring: number, first: number, count: number) => number): RingTable {
  const finest = region.placed.star.sectors;
  return region.cut.sectors.map((count, ring) => {
    const width = finest / count;
    const row: number[] = [];
    for (let s = 0; s < count; s++) {
      const entry = make(ring, s * width, width);
      for (let i = 0; i < width; i++) row.push(entry);
    }
    return row;
  });
}

/** Area of `count` of the finest sectors of a ring [m2]. */
export function ringArea(region: FlatRegion, ring: number, count: number): number {
  const { star } = region.placed;
  const inner = region.cut.gauges[ring];
  const outer = region.cut.gauges[ring + 1];
  return (star.area * (outer ** 2 - inner ** 2) * count) / star.sectors;
}

/** Index into a ring table's entries for a point of the plan; points off the region take the nearest rim cell. */
export function tableAt(region: FlatRegion, table: RingTable, x: number, y: number): number {
  const { placed, cut } = region;
  const px = x - placed.x;
  const py = y - placed.y;
  const lx = placed.cos * px + placed.sin * py;
  const ly = placed.cos * py - placed.sin * px;
  const at = gauge(placed.star.shape, lx, ly);
  let ring = 0;
  while (ring < cut.sectors.length - 1 && at >= cut.gauges[ring + 1]) ring++;
  return table[ring][sectorAt(placed.star, lx, ly)];
}

/** True where a point of the plan lies on the region. */
export function isOn(region: FlatRegion, x: number, y: number): boolean {
  const { placed } = region;
  const px = x - placed.x;
  const py = y - placed.y;
  return gauge(placed.star.shape, placed.cos * px + placed.sin * py, placed.cos * py - placed.sin * px) <= 1 + 1e-9;
}

/** Joins neighbouring cells of a flat region of some thickness [m]. */
export function linkRings(builder: MeshBuilder, region: FlatRegion, cells: RingTable, thickness: number): void {
  const { star } = region.placed;
  const { gauges, sectors } = region.cut;
  const middle = (ring: number, first: number, count: number): readonly [number, number] => {
    const g = (gauges[ring] + gauges[ring + 1]) / 2;
    let x = 0;
    let y = 0;
    const from = first * slicesPerSector;
    const to = (first + count) * slicesPerSector;
    for (let i = from; i < to; i++) {
      const azimuth = (star.slices[i] + star.slices[i + 1]) / 2;
      const reach = g * reachOf(star.shape, azimuth);
      x += reach * Math.cos(azimuth);
      y += reach * Math.sin(azimuth);
    }
    return [x / (to - from), y / (to - from)];
  };
  const edgeLength = (first: number, count: number): number => {
    let length = 0;
    for (let i = first * slicesPerSector; i < (first + count) * slicesPerSector; i++) {
      const a = star.slices[i];
      const b = star.slices[i + 1];
      const ra = reachOf(star.shape, a);
      const rb = reachOf(star.shape, b);
      length += Math.hypot(rb * Math.cos(b) - ra * Math.cos(a), rb * Math.sin(b) - ra * Math.sin(a));
    }
    return length;
  };
  const apart = (p: readonly [number, number], q: readonly [number, number]): number =>
    Math.hypot(p[0] - q[0], p[1] - q[1]);

  cells.forEach((row, ring) => {
    const count = sectors[ring];
    const width = star.sectors / count;
    for (let s = 0; s < count; s++) {
      const first = s * width;
      const here = row[first];
      const own = middle(ring, first, width);
      if (count > 1) {
        const nextFirst = (first + width) % star.sectors;
        const boundary = star.slices[(first + width) * slicesPerSector];
        const side = reachOf(star.shape, boundary) * (gauges[ring + 1] - gauges[ring]);
        builder.link({
          a: here,
          b: row[nextFirst],
          area: side * thickness,
          distance: apart(own, middle(ring, nextFirst, width)),
        });
      }
      const inward = cells[ring - 1];
      if (inward) {
        const innerWidth = star.sectors / sectors[ring - 1];
        const innerFirst = Math.floor(first / innerWidth) * innerWidth;
        const g = gauges[ring];
        // Radially between ring middles; a coarse inner cell's own middle would lie off to the side.
        const stretch =
          ((gauges[ring + 1] - gauges[ring - 1]) / 2) * (Math.hypot(...own) / ((gauges[ring] + gauges[ring + 1]) / 2));
        builder.link({
          a: inward[innerFirst],
          b: here,
          area: edgeLength(first, width) * g * thickness,
          distance: stretch,
        });
      }
    }
  });
}

/** A free-standing flat body: shelf or tile. */
export interface PlateBody {
  readonly region: FlatRegion;
  readonly cells: RingTable;
  readonly top: RingTable;
  /** Null where it lies on what is below with its whole face. */
  readonly bottom: RingTable | null;
}

export interface PlateSpec {
  readonly body: number;
  readonly shape: StarShape;
  readonly cut: RingCut;
  readonly at: Stand;
  readonly z0: number;
  readonly z1: number;
  readonly liesFlat: boolean;
  /** The rim as part of the top's patches: for small tiles. */
  readonly foldRim: boolean;
}

export function plateMesh(builder: MeshBuilder, spec: PlateSpec): PlateBody {
  const { body, shape, at, z0, z1 } = spec;
  const region = flatRegion(shape, spec.cut, at);
  const { placed } = region;
  const thickness = z1 - z0;
  const top = ringTable(region, () => builder.patch(body));
  const bottom = spec.liesFlat ? null : ringTable(region, () => builder.patch(body));
  const lastRing = top.length - 1;
  const rim = spec.foldRim ? top[lastRing] : Array.from({ length: placed.star.sectors }, () => builder.patch(body));

  const gauges = region.cut.gauges;
  const plan = planOf(shape, at);
  builder.scene.star(placed, { ...plan, z: z1, up: true }, gauges, top);
  if (bottom) builder.scene.star(placed, { ...plan, z: z0, up: false }, gauges, bottom);
  rimSolids(builder, region, rim, z0, z1, at);

  const cells = ringTable(region, (ring, first, count) =>
    builder.cell({
      body,
      front: top[ring][first],
      back: bottom ? bottom[ring][first] : -1,
      edges: ring === lastRing && !spec.foldRim ? rim.slice(first, first + count) : [],
      thickness,
      volume: ringArea(region, ring, count) * thickness,
    }),
  );
  linkRings(builder, region, cells, thickness);
  return { region, cells, top, bottom };
}

/** A region's outline as a plate for rays. */
export function planOf(
  shape: StarShape,
  at: Stand,
): {
  x: number;
  y: number;
  angle: number;
  halfX?: number;
  halfY?: number;
  radius?: number;
  chord?: { nx: number; ny: number; distance: number };
} {
  const frame = { x: at.x, y: at.y, angle: at.angle };
  switch (shape.kind) {
    case "disc":
      return { ...frame, radius: shape.radius };
    case "half-disc": {
      const nx = -Math.cos(at.angle);
      const ny = -Math.sin(at.angle);
      return { ...frame, radius: shape.radius, chord: { nx, ny, distance: nx * at.x + ny * at.y } };
    }
    case "rounded":
      return { ...frame, halfX: shape.halfX, halfY: shape.halfY, radius: shape.corner };
    case "polygon":
      // Only floors and lids are polygons, and the walls stop every ray before it could pass the edge.
      return { ...frame, radius: shape.inradius / Math.cos(Math.PI / shape.sides) };
  }
}

function rimSolids(
  builder: MeshBuilder,
  region: FlatRegion,
  rim: readonly number[],
  z0: number,
  z1: number,
  at: Stand,
): void {
  const { placed } = region;
  const { shape, slices, sectors } = placed.star;
  if (shape.kind === "disc") {
    const band = { x: placed.x, y: placed.y, r0: shape.radius, z0, r1: shape.radius, z1, outward: true };
    builder.scene.band(band, [z0, z1], at.angle, [rim]);
    return;
  }
  const toPlan = (x: number, y: number): readonly [number, number] => [
    placed.x + placed.cos * x - placed.sin * y,
    placed.y + placed.sin * x + placed.cos * y,
  ];
  for (let s = 0; s < sectors; s++) {
    const patch = rim[s];
    const from = slices[s * slicesPerSector];
    const to = slices[(s + 1) * slicesPerSector];
    for (const edge of edgesBetween(shape, from, to)) {
      if (edge.kind === "line") {
        const [x0, y0] = toPlan(edge.x0, edge.y0);
        const [x1, y1] = toPlan(edge.x1, edge.y1);
        const length = Math.hypot(x1 - x0, y1 - y0);
        builder.scene.panel({ x0, y0, x1, y1, z0, z1, left: false }, [z0, z1], [0, length], [[patch]]);
      } else {
        const [x, y] = toPlan(edge.x, edge.y);
        const middle = (edge.from + edge.to) / 2 + at.angle;
        const nx = Math.cos(middle);
        const ny = Math.sin(middle);
        const distance = nx * x + ny * y + edge.radius * Math.cos((edge.to - edge.from) / 2);
        const band = { x, y, r0: edge.radius, z0, r1: edge.radius, z1, outward: true, chord: { nx, ny, distance } };
        builder.scene.band(band, [z0, z1], 0, [[patch]]);
      }
    }
  }
}

/** Entries of a table that lie under a cover, with their share of it (0 where only its edge does); in sum 1. */
export function sharesUnder(region: FlatRegion, table: RingTable, cover: Cover): ReadonlyMap<number, number> {
  const shares = new Map<number, number>();
  const points = pointsUnder(cover);
  for (const [x, y] of points) {
    const entry = tableAt(region, table, x, y);
    shares.set(entry, (shares.get(entry) ?? 0) + 1 / points.length);
  }
  for (const [x, y] of edgePoints(cover)) {
    const entry = tableAt(region, table, x, y);
    if (!shares.has(entry)) shares.set(entry, 0);
  }
  return shares;
}

/** 64 points round the edge of a cover. */
function edgePoints(cover: Cover): readonly (readonly [number, number])[] {
  const shape: StarShape = { kind: "rounded", halfX: cover.halfX, halfY: cover.halfY, corner: cover.radius };
  return Array.from({ length: 64 }, (_, i) => {
    const azimuth = (2 * Math.PI * (i + 0.5)) / 64;
    const reach = reachOf(shape, azimuth);
    const turned = azimuth + cover.angle;
    return [cover.x + reach * Math.cos(turned), cover.y + reach * Math.sin(turned)];
  });
}

/** About 100 points spread evenly over a rounded box or ring. */
export function pointsUnder(cover: Cover): readonly (readonly [number, number])[] {
  const cos = Math.cos(cover.angle);
  const sin = Math.sin(cover.angle);
  const points: [number, number][] = [];
  if (cover.halfX === 0 && cover.halfY === 0) {
    const rings = 4;
    for (let ring = 0; ring < rings; ring++) {
      const square = cover.hole ** 2 + ((ring + 0.5) / rings) * (cover.radius ** 2 - cover.hole ** 2);
      for (let i = 0; i < 24; i++) {
        const azimuth = (2 * Math.PI * (i + 0.5)) / 24;
        points.push([cover.x + Math.sqrt(square) * Math.cos(azimuth), cover.y + Math.sqrt(square) * Math.sin(azimuth)]);
      }
    }
    return points;
  }
  const side = 10;
  const ex = cover.halfX + cover.radius;
  const ey = cover.halfY + cover.radius;
  for (let i = 0; i < side; i++) {
    for (let j = 0; j < side; j++) {
      const lx = ex * (-1 + (2 * (i + 0.5)) / side);
      const ly = ey * (-1 + (2 * (j + 0.5)) / side);
      const outX = Math.max(Math.abs(lx) - cover.halfX, 0);
      const outY = Math.max(Math.abs(ly) - cover.halfY, 0);
      if (outX * outX + outY * outY > cover.radius * cover.radius) continue;
      points.push([cover.x + cos * lx - sin * ly, cover.y + sin * lx + cos * ly]);
    }
  }
  return points;
}

/** Area of a cover [m2]. */
export function coverArea(cover: Cover): number {
  const { halfX, halfY, radius, hole } = cover;
  return 4 * (halfX + radius) * (halfY + radius) - (4 - Math.PI) * radius ** 2 - Math.PI * hole ** 2;
}
