import type { Shape } from "#engine/kiln";
import {
  areaOfPolygon,
  crossSection,
  lengths,
  nearestAlong,
  partOf,
  pointAlong,
  volumeOfRevolution,
  type CrossSection,
  type Point,
} from "./cross-section.ts";
import type { MeshBuilder } from "./mesh-builder.ts";
import type { Resolution } from "./mesh.ts";
import type { PieceBase, Stance } from "./piece-mesh.ts";
import type { Cover } from "./scene.ts";

/** A thin piece's foot leaves this much air under its floor [m]. */
const footRecess = 0.002;

/** One table of patches or cells: a row for each band from the foot up, a column for each sector. */
type Table = number[][];

/**
 * Cuts a body of revolution: bands up its wall and sectors round it, outside and inside; rings of its floor.
 *
 * The lip belongs to the outside patches of the top band. A form without room inside is cut into solid wedges.
 */
export function revolutionMesh(
  builder: MeshBuilder,
  body: number,
  shape: Shape & { readonly body: { readonly kind: "revolution" } },
  stance: Stance,
  resolution: Resolution,
): PieceBase {
  const form = shape.body;
  const section = crossSection(form, shape.lidHeight);
  const widest = section.outside.reduce((most, [r]) => Math.max(most, r), 0);
  const sectors = Math.max(1, Math.min(resolution.pieceSectors, Math.round((2 * Math.PI * widest) / 0.045)));
  const along = lengths(section.outside);
  const total = along.at(-1) as number;
  const bands = Math.max(1, Math.min(resolution.pieceBands, Math.round(total / 0.05)));
  const outsideCuts = Array.from({ length: bands + 1 }, (_, i) => (total * i) / bands);
  const start = stance.angle - Math.PI / sectors;
  const table = (): Table =>
    Array.from({ length: bands }, () => Array.from({ length: sectors }, () => builder.patch(body, sectors === 1)));
  const put = (line: readonly Point[], cuts: readonly number[], patches: Table, outward: boolean): void =>
    surfaceOfRevolution(builder, line, cuts, patches, outward, stance, start);

  const outside = table();
  put(section.outside, outsideCuts, outside, true);
  const inside = section.inside ? table() : null;
  const foot = footOf(builder, section, stance, body, sectors, resolution);

  if (!section.inside || !inside) return solidWedges(builder, body, section, outsideCuts, outside, foot, stance, start);

  const innerAlong = lengths(section.inside);
  const insideCuts = matchCuts(section, along, outsideCuts, innerAlong);
  put(section.inside, insideCuts, inside, false);
  const lip = section.inside.at(-1) as Point;
  const rim = section.outside.at(-1) as Point;
  if (lip[0] > 0 && rim[0] > lip[0] + 1e-6) {
    const ring = { x: stance.x, y: stance.y, z: stance.z + rim[1], inner: lip[0], outer: rim[0], up: true };
    builder.scene.ring(ring, start, outside.at(-1) as number[]);
  }

  // Wall cells: the strip between the outside and inside of each band.
  const strips = outside.map((_, k) => [
    ...partOf(section.outside, along, outsideCuts[k] as number, outsideCuts[k + 1] as number),
    ...[
      ...partOf(section.inside as readonly Point[], innerAlong, insideCuts[k] as number, insideCuts[k + 1] as number),
    ].reverse(),
  ]);
  const wall = outside.map((row, k) =>
    row.map((front, s) =>
      builder.cell({
        body,
        front,
        back: inside[k]?.[s] as number,
        edges: [],
        thickness: section.wall,
        volume: volumeOfRevolution(strips[k] as Point[]) / sectors,
      }),
    ),
  );
  linkWall(builder, wall, strips, section, along, outsideCuts, innerAlong, insideCuts);
  const floor = floorMesh(builder, body, section, foot, stance, start, wall[0] as number[]);
  return base(wall, floor, section, along, outsideCuts, foot, stance);
}

/** Puts the surface of a turned line into the scene; `cuts` are lengths along it where a new row begins. */
function surfaceOfRevolution(
  builder: MeshBuilder,
  line: readonly Point[],
  cuts: readonly number[],
  patches: Table,
  outward: boolean,
  stance: Stance,
  start: number,
): void {
  const along = lengths(line);
  const { x, y } = stance;
  for (let i = 0; i + 1 < line.length; i++) {
    const from = along[i] as number;
    const to = along[i + 1] as number;
    const [r0, z0] = line[i] as Point;
    const [r1, z1] = line[i + 1] as Point;
    const rows: number[][] = [];
    const stops = [from];
    for (let k = 0; k + 1 < cuts.length; k++) {
      const low = Math.max(from, cuts[k] as number);
      const high = Math.min(to, cuts[k + 1] as number);
      if (high - low < 1e-9) continue;
      rows.push(patches[k] as number[]);
      stops.push(high);
    }
    if (Math.abs(z1 - z0) > 1e-7) {
      const heights = stops.map((stop) => stance.z + z0 + ((z1 - z0) * (stop - from)) / (to - from));
      const band = { x, y, r0, z0: stance.z + z0, r1, z1: stance.z + z1, outward };
      builder.scene.band(band, heights, start, rows);
    } else {
      // A level stretch: outward it looks down on the outside and up on the inside; inward the other way round.
      const up = outward === r1 < r0;
      rows.forEach((row, k) => {
        const a = pointAlong(line, along, stops[k] as number)[0];
        const b = pointAlong(line, along, stops[k + 1] as number)[0];
        if (Math.abs(a - b) < 1e-9) return;
        builder.scene.ring({ x, y, z: stance.z + z0, inner: Math.min(a, b), outer: Math.max(a, b), up }, start, row);
      });
    }
  }
}

/** Lengths along the inside that lie opposite the outside's cuts, rising from end to end. */
function matchCuts(
  section: CrossSection,
  along: readonly number[],
  cuts: readonly number[],
  innerAlong: readonly number[],
): readonly number[] {
  const inside = section.inside as readonly Point[];
  const total = innerAlong.at(-1) as number;
  const least = total / (cuts.length - 1) / 20;
  const matched = [0];
  for (let k = 1; k + 1 < cuts.length; k++) {
    const opposite = nearestAlong(inside, innerAlong, pointAlong(section.outside, along, cuts[k] as number));
    const left = (cuts.length - 1 - k) * least;
    matched.push(Math.min(total - left, Math.max(opposite, (matched[k - 1] as number) + least)));
  }
  return [...matched, total];
}

interface Foot {
  /** Radius of the underside, outside edge of the foot. */
  readonly radius: number;
  /** Rings of the floor: outer radius over `radius`, rising to 1. */
  readonly rings: readonly number[];
  readonly sectors: number;
  /** Underside patches by ring and sector; empty where it lies flat on its whole foot. */
  readonly underside: Table;
  /** What it covers of the shelf, where it touches. */
  readonly cover: Cover | null;
}

function footOf(
  builder: MeshBuilder,
  section: CrossSection,
  stance: Stance,
  body: number,
  sectors: number,
  resolution: Resolution,
): Foot {
  const radius = (section.outside[0] as Point)[0];
  const rings = floorRings(radius, resolution);
  const ringPatches = (): Table =>
    rings.map((_, ring) => {
      const count = ring === 0 ? 1 : sectors;
      const made = Array.from({ length: count }, () => builder.patch(body));
      return Array.from({ length: sectors }, (_, s) => made[count === 1 ? 0 : s] as number);
    });
  const start = stance.angle - Math.PI / sectors;
  const disc = (outer: number, z: number, underside: Table): void => {
    let inner = 0;
    rings.forEach((share, ring) => {
      const row = underside[ring] as number[];
      const patches = new Set(row).size === 1 ? row.slice(0, 1) : row;
      builder.scene.ring({ x: stance.x, y: stance.y, z, inner, outer: outer * share, up: false }, start, patches);
      inner = outer * share;
    });
  };
  if (!stance.touches) {
    const underside = radius > 1e-4 ? ringPatches() : [];
    if (radius > 1e-4) disc(radius, stance.z, underside);
    return { radius, rings, sectors, underside, cover: null };
  }
  const ringWidth = Math.min(section.wall, 0.6 * radius);
  const hole = radius - ringWidth;
  const covered = { x: stance.x, y: stance.y, angle: 0, halfX: 0, halfY: 0, radius };
  if (hole < 0.004) return { radius, rings, sectors, underside: [], cover: { ...covered, hole: 0 } };
  const underside = ringPatches();
  disc(hole, stance.z + footRecess, underside);
  // The inner side of the foot ring belongs to the underside's outermost patches.
  const last = underside.at(-1) as number[];
  const band = {
    x: stance.x,
    y: stance.y,
    r0: hole,
    z0: stance.z,
    r1: hole,
    z1: stance.z + footRecess,
    outward: false,
  };
  const side = new Set(last).size === 1 ? last.slice(0, 1) : last;
  builder.scene.band(band, [stance.z, stance.z + footRecess], start, [side]);
  return { radius, rings, sectors, underside, cover: { ...covered, hole } };
}

function floorRings(radius: number, resolution: Resolution): readonly number[] {
  if (resolution.pieceSectors === 1 || radius < 0.045) return [1];
  if (radius < 0.09) return [0.6, 1];
  return [0.45, 0.78, 1];
}

/** Floor cells by ring and sector, linked to one another and to the lowest wall cells; returns the outermost ring's. */
function floorMesh(
  builder: MeshBuilder,
  body: number,
  section: CrossSection,
  foot: Foot,
  stance: Stance,
  start: number,
  lowest: readonly number[],
): readonly number[] {
  const [innerRadius, innerZ] = (section.inside as readonly Point[])[0] as Point;
  const { rings, sectors, underside } = foot;
  let inner: readonly number[] | null = null;
  let previous = 0;
  rings.forEach((share, ring) => {
    const whole = ring === 0;
    const count = whole ? 1 : sectors;
    const top = Array.from({ length: count }, () => builder.patch(body));
    const floorRing = {
      x: stance.x,
      y: stance.y,
      z: stance.z + innerZ,
      inner: innerRadius * previous,
      outer: innerRadius * share,
      up: true,
    };
    builder.scene.ring(floorRing, start, top);
    const strip: Point[] = [
      [foot.radius * previous, 0],
      [foot.radius * share, 0],
      [innerRadius * share, innerZ],
      [innerRadius * previous, innerZ],
    ];
    const made = top.map((back, s) =>
      builder.cell({
        body,
        front: underside[ring]?.[s] ?? -1,
        back,
        edges: [],
        thickness: innerZ,
        volume: volumeOfRevolution(strip) / count,
      }),
    );
    const cells = Array.from({ length: sectors }, (_, s) => made[whole ? 0 : s] as number);
    const width = foot.radius * (share - previous);
    const turn = (2 * Math.PI) / sectors;
    const linkInner = inner;
    cells.forEach((cell, s) => {
      if (!whole && sectors > 1) {
        const middle = foot.radius * (share - (share - previous) / 2);
        builder.link({ a: cell, b: cells[(s + 1) % sectors] as number, area: width * innerZ, distance: turn * middle });
      }
      if (linkInner) {
        const area = turn * foot.radius * previous * innerZ;
        const before = (rings[ring - 2] ?? 0) as number;
        const distance = (foot.radius * (share - before)) / 2;
        builder.link({ a: linkInner[s] as number, b: cell, area, distance });
      }
    });
    inner = cells;
    previous = share;
  });
  const outer = inner as unknown as readonly number[];
  const ringWidth = foot.radius * (1 - (rings.at(-2) ?? 0));
  const seam = Math.hypot(foot.radius - innerRadius, innerZ);
  outer.forEach((cell, s) => {
    const area = ((2 * Math.PI) / sectors) * ((foot.radius + innerRadius) / 2) * seam;
    builder.link({ a: cell, b: lowest[s] as number, area, distance: ringWidth / 2 + section.wall });
  });
  return outer;
}

function linkWall(
  builder: MeshBuilder,
  wall: Table,
  strips: readonly (readonly Point[])[],
  section: CrossSection,
  along: readonly number[],
  cuts: readonly number[],
  innerAlong: readonly number[],
  innerCuts: readonly number[],
): void {
  const sectors = (wall[0] as number[]).length;
  const turn = (2 * Math.PI) / sectors;
  wall.forEach((row, k) => {
    const middle = pointAlong(section.outside, along, ((cuts[k] as number) + (cuts[k + 1] as number)) / 2);
    row.forEach((cell, s) => {
      if (sectors > 1) {
        const distance = turn * Math.max(middle[0] - section.wall / 2, 0.002);
        builder.link({
          a: cell,
          b: row[(s + 1) % sectors] as number,
          area: areaOfPolygon(strips[k] as Point[]),
          distance,
        });
      }
      const above = wall[k + 1];
      if (!above) return;
      const p = pointAlong(section.outside, along, cuts[k + 1] as number);
      const q = section.inside
        ? pointAlong(section.inside, innerAlong, innerCuts[k + 1] as number)
        : ([0, p[1]] as Point);
      builder.link({
        a: cell,
        b: above[s] as number,
        area: (turn * (p[0] + q[0]) * Math.hypot(p[0] - q[0], p[1] - q[1])) / 2,
        distance: ((cuts[k + 2] as number) - (cuts[k] as number)) / 2,
      });
    });
  });
}

/** A form with no room inside: wedges from the axis, the underside shared out to the lowest ones. */
function solidWedges(
  builder: MeshBuilder,
  body: number,
  section: CrossSection,
  cuts: readonly number[],
  outside: Table,
  foot: Foot,
  stance: Stance,
  start: number,
): PieceBase {
  const along = lengths(section.outside);
  const sectors = (outside[0] as number[]).length;
  const top = section.outside.at(-1) as Point;
  if (top[0] > 1e-4) {
    const ring = { x: stance.x, y: stance.y, z: stance.z + top[1], inner: 0, outer: top[0], up: true };
    builder.scene.ring(ring, start, outside.at(-1) as number[]);
  }
  const strips = outside.map((_, k): Point[] => {
    const part = partOf(section.outside, along, cuts[k] as number, cuts[k + 1] as number);
    return [[0, (part[0] as Point)[1]], ...part, [0, (part.at(-1) as Point)[1]]];
  });
  const cells = outside.map((row, k) =>
    row.map((front, s) => {
      const volume = volumeOfRevolution(strips[k] as Point[]) / sectors;
      const part = partOf(section.outside, along, cuts[k] as number, cuts[k + 1] as number);
      const edges =
        k === 0 ? [...new Set(foot.underside.map((ring) => ring[s] as number))].filter((_, i) => i > 0 || s === 0) : [];
      return builder.cell({ body, front, back: -1, edges, thickness: volume / wedgeArea(part, sectors), volume });
    }),
  );
  const noCuts = cuts.map(() => 0);
  linkWall(builder, cells, strips, { ...section, inside: null }, along, cuts, [], noCuts);
  return base(cells, cells[0] as number[], section, along, cuts, foot, stance);
}

function wedgeArea(part: readonly Point[], sectors: number): number {
  let area = 0;
  for (let i = 0; i + 1 < part.length; i++) {
    const [r0, z0] = part[i] as Point;
    const [r1, z1] = part[i + 1] as Point;
    area += (Math.PI / sectors) * (r0 + r1) * Math.hypot(r1 - r0, z1 - z0);
  }
  return area;
}

function base(
  wall: Table,
  lowest: readonly number[],
  section: CrossSection,
  along: readonly number[],
  cuts: readonly number[],
  foot: Foot,
  stance: Stance,
): PieceBase {
  const sectors = lowest.length;
  return {
    joint: (side, z) => {
      let row = 0;
      while (row < wall.length - 1 && pointAlong(section.outside, along, cuts[row + 1] as number)[1] < z) row++;
      // Sector 0 is centred on the handle's side, the spout's is opposite.
      return wall[row]?.[side > 0 ? 0 : sectors >> 1] as number;
    },
    footCell: (x, y) => {
      const turn = (Math.atan2(y - stance.y, x - stance.x) - stance.angle) / (2 * Math.PI) + 0.5 / sectors;
      return lowest[Math.floor((turn - Math.floor(turn)) * sectors) % sectors] as number;
    },
    cover: foot.cover,
  };
}
