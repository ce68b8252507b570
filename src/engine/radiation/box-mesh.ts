import type { Body } from "#engine/kiln";
import type { MeshBuilder } from "./mesh-builder.ts";
import type { Resolution } from "./mesh.ts";
import type { PieceBase, Stance } from "./piece-mesh.ts";
import type { Cover } from "./scene.ts";

type BoxBody = Extract<Body, { kind: "box" }>;

/** Sides in the order +x, +y, -x, -y of the piece's own frame, counter-clockwise. */
const sideAxes = [0, 1, 2, 3] as const;

/** Cuts a box: hollow and open, hollow and closed, or solid. */
export function boxMesh(
  builder: MeshBuilder,
  body: number,
  form: BoxBody,
  stance: Stance,
  resolution: Resolution,
): PieceBase {
  const wall = Math.min(form.wall, 0.45 * Math.min(form.width, form.depth), 0.45 * form.height);
  const cover: Cover = {
    x: stance.x,
    y: stance.y,
    angle: stance.angle,
    halfX: form.width / 2,
    halfY: form.depth / 2,
    radius: 0,
    hole: 0,
  };
  const foot = stance.touches ? cover : null;
  return wall > 0
    ? hollowBox(builder, body, form, wall, stance, foot, resolution)
    : solidBox(builder, body, form, stance, foot);
}

function plate(
  stance: Stance,
  halfX: number,
  halfY: number,
  z: number,
  up: boolean,
): {
  x: number;
  y: number;
  angle: number;
  halfX: number;
  halfY: number;
  z: number;
  up: boolean;
} {
  return { x: stance.x, y: stance.y, angle: stance.angle, halfX, halfY, z, up };
}

/** Corners of a rectangle about the axis, counter-clockwise from (+x, -y), in the kiln's frame. */
function corners(stance: Stance, halfX: number, halfY: number): readonly (readonly [number, number])[] {
  const cos = Math.cos(stance.angle);
  const sin = Math.sin(stance.angle);
  return [
    [halfX, -halfY],
    [halfX, halfY],
    [-halfX, halfY],
    [-halfX, -halfY],
  ].map(([x, y]) => [
    stance.x + cos * (x as number) - sin * (y as number),
    stance.y + sin * (x as number) + cos * (y as number),
  ]);
}

function hollowBox(
  builder: MeshBuilder,
  body: number,
  form: BoxBody,
  wall: number,
  stance: Stance,
  foot: Cover | null,
  resolution: Resolution,
): PieceBase {
  const { width, depth, height, closed } = form;
  const fine = resolution.pieceSectors > 1;
  const bands = fine ? Math.max(1, Math.min(resolution.pieceBands, Math.round(height / 0.05))) : 1;
  const columnsOf = (side: number): number =>
    fine ? Math.max(1, Math.min(3, Math.round((side % 2 === 0 ? depth : width) / 0.07))) : 1;
  const roof = closed ? wall : 0;
  const outer = corners(stance, width / 2, depth / 2);
  const inner = corners(stance, width / 2 - wall, depth / 2 - wall);
  const cuts = (low: number, high: number): number[] =>
    Array.from({ length: bands + 1 }, (_, k) => stance.z + low + ((high - low) * k) / bands);
  const steps = (points: readonly (readonly [number, number])[], side: number): readonly number[] => {
    const [x0, y0] = points[side] as readonly [number, number];
    const [x1, y1] = points[(side + 1) % 4] as readonly [number, number];
    const count = columnsOf(side);
    return Array.from({ length: count + 1 }, (_, c) => (Math.hypot(x1 - x0, y1 - y0) * c) / count);
  };
  const panel = (
    points: readonly (readonly [number, number])[],
    side: number,
    z0: number,
    z1: number,
    left: boolean,
  ): { x0: number; y0: number; x1: number; y1: number; z0: number; z1: number; left: boolean } => {
    const [x0, y0] = points[side] as readonly [number, number];
    const [x1, y1] = points[(side + 1) % 4] as readonly [number, number];
    return { x0, y0, x1, y1, z0: stance.z + z0, z1: stance.z + z1, left };
  };

  // Wall: the strip of ring between outer and inner box, its volume shared out by outer length.
  const ringArea = width * depth - (width - 2 * wall) * (depth - 2 * wall);
  const perSlice = (ringArea * (height - wall - roof)) / (2 * (width + depth)) / bands;
  const cells: number[][] = Array.from({ length: bands }, () => []);
  for (const side of sideAxes) {
    const columns = columnsOf(side);
    const make = (): number[][] =>
      Array.from({ length: bands }, () => Array.from({ length: columns }, () => builder.patch(body)));
    const outside = make();
    const inside = make();
    builder.scene.panel(panel(outer, side, 0, height, false), cuts(0, height), steps(outer, side), outside);
    builder.scene.panel(
      panel(inner, side, wall, height - roof, true),
      cuts(wall, height - roof),
      steps(inner, side),
      inside,
    );
    const length = (side % 2 === 0 ? depth : width) / columns;
    outside.forEach((row, k) =>
      row.forEach((front, c) => {
        const back = inside[k]?.[c] as number;
        const volume = perSlice * length;
        cells[k]?.push(builder.cell({ body, front, back, edges: [], thickness: wall, volume }));
      }),
    );
    if (!closed) lip(builder, stance, form, wall, side, (outside[bands - 1] as number[])[0] as number);
  }

  const ring = cells[0] as number[];
  const lengthsOf = sideAxes.flatMap((side) =>
    Array.from({ length: columnsOf(side) }, () => (side % 2 === 0 ? depth : width) / columnsOf(side)),
  );
  cells.forEach((row, k) =>
    row.forEach((cell, i) => {
      const next = (i + 1) % row.length;
      const distance = ((lengthsOf[i] as number) + (lengthsOf[next] as number)) / 2;
      builder.link({ a: cell, b: row[next] as number, area: (wall * height) / bands, distance });
      const above = cells[k + 1]?.[i];
      if (above === undefined) return;
      builder.link({ a: cell, b: above, area: wall * (lengthsOf[i] as number), distance: height / bands });
    }),
  );

  const level = (low: boolean): number => {
    const z = stance.z + (low ? 0 : height);
    const outsidePatch = low && foot ? -1 : builder.patch(body);
    const insidePatch = builder.patch(body);
    if (outsidePatch >= 0) builder.scene.rectangle(plate(stance, width / 2, depth / 2, z, !low), outsidePatch);
    const innerZ = stance.z + (low ? wall : height - wall);
    builder.scene.rectangle(plate(stance, width / 2 - wall, depth / 2 - wall, innerZ, low), insidePatch);
    const cell = builder.cell({
      body,
      front: outsidePatch,
      back: insidePatch,
      edges: [],
      thickness: wall,
      volume: width * depth * wall,
    });
    const row = low ? ring : (cells[bands - 1] as number[]);
    row.forEach((other, i) => {
      const distance = height / bands / 2 + Math.min(width, depth) / 4;
      builder.link({ a: cell, b: other, area: wall * (lengthsOf[i] as number), distance });
    });
    return cell;
  };
  const floor = level(true);
  if (closed) level(false);
  return {
    joint: (side, z) => {
      const row = cells[Math.min(bands - 1, Math.max(0, Math.floor((z / height) * bands)))] as number[];
      const before = columnsOf(0) + columnsOf(1);
      return row[side > 0 ? columnsOf(0) >> 1 : before + (columnsOf(2) >> 1)] as number;
    },
    footCell: () => floor,
    cover: foot,
  };
}

/** The level top of one side's wall, mitred by giving the corners to the +x and -x sides. */
function lip(builder: MeshBuilder, stance: Stance, form: BoxBody, wall: number, side: number, patch: number): void {
  const alongY = side % 2 === 0;
  const sign = side < 2 ? 1 : -1;
  const lx = alongY ? sign * (form.width / 2 - wall / 2) : 0;
  const ly = alongY ? 0 : sign * (form.depth / 2 - wall / 2);
  const cos = Math.cos(stance.angle);
  const sin = Math.sin(stance.angle);
  const at = { ...stance, x: stance.x + cos * lx - sin * ly, y: stance.y + sin * lx + cos * ly };
  const halfX = alongY ? wall / 2 : form.width / 2 - wall;
  const halfY = alongY ? form.depth / 2 : wall / 2;
  builder.scene.rectangle(plate(at, halfX, halfY, stance.z + form.height, true), patch);
}

/** A solid box: a cell behind each face, a pyramid from the middle; the covered underside has none of its own. */
function solidBox(builder: MeshBuilder, body: number, form: BoxBody, stance: Stance, foot: Cover | null): PieceBase {
  const { width, depth, height } = form;
  const sizes = [width, width, depth, depth, height, height];
  const patches = sizes.map((_, face) => (face === 5 && foot ? -1 : builder.patch(body)));
  builder.scene.box(
    {
      x: stance.x,
      y: stance.y,
      angle: stance.angle,
      halfX: width / 2,
      halfY: depth / 2,
      z0: stance.z,
      z1: stance.z + height,
    },
    patches,
  );
  const whole = width * depth * height;
  const cells = patches.map((front, face) =>
    builder.cell({ body, front, back: -1, edges: [], thickness: (sizes[face] as number) / 6, volume: whole / 6 }),
  );
  for (let a = 0; a < 6; a++) {
    for (let b = a + 1; b < 6; b++) {
      // Opposite faces meet only in the middle. Neighbours share a triangle from the middle to their common edge.
      if (a >> 1 === b >> 1) continue;
      const third = 3 - (a >> 1) - (b >> 1);
      const edge = sizes[third * 2] as number;
      const da = (sizes[a] as number) / 2;
      const db = (sizes[b] as number) / 2;
      const area = (edge * Math.hypot(da, db)) / 2;
      builder.link({ a: cells[a] as number, b: cells[b] as number, area, distance: 0.75 * Math.hypot(da, db) });
    }
  }
  return { joint: (side) => cells[side > 0 ? 0 : 1] as number, footCell: () => cells[5] as number, cover: foot };
}
