import type { Body } from "#engine/kiln";
import type { MeshBuilder } from "./mesh-builder.ts";
import type { Resolution } from "./mesh.ts";
import type { PieceBase, Stance } from "./piece-mesh.ts";
import type { Cover } from "./scene.ts";

type BoxBody = Extract<Body, { kind: "box" }>;

/** Corners of a rectangle, counter-clockwise from (+x, -y): side s runs from corner s to the next. */
type Corners = readonly (readonly [number, number])[];

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

function corners(stance: Stance, halfX: number, halfY: number): Corners {
  const cos = Math.cos(stance.angle);
  const sin = Math.sin(stance.angle);
  const at = (x: number, y: number): readonly [number, number] => [
    stance.x + cos * x - sin * y,
    stance.y + sin * x + cos * y,
  ];
  return [at(halfX, -halfY), at(halfX, halfY), at(-halfX, halfY), at(-halfX, -halfY)];
}

/** An upright strip of a hollow box's wall, one cell. */
interface Strip {
  readonly cell: number;
  readonly width: number;
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
  // With one sector per piece the whole box is one cell, with a patch outside and one inside.
  const whole =
    resolution.pieceSectors === 1 ? { front: builder.patch(body, true), back: builder.patch(body, true) } : null;
  const bands = whole ? 1 : Math.max(1, Math.min(resolution.pieceBands, Math.round(height / 0.05)));
  const sideLength = (side: number): number => (side % 2 === 0 ? depth : width);
  const columnsOf = (side: number): number =>
    whole ? 1 : Math.max(1, Math.min(3, Math.round(sideLength(side) / 0.07)));
  const roof = closed ? wall : 0;
  const outer = corners(stance, width / 2, depth / 2);
  const inner = corners(stance, width / 2 - wall, depth / 2 - wall);
  const outsidePatch = (): number => whole?.front ?? builder.patch(body);
  const insidePatch = (): number => whole?.back ?? builder.patch(body);

  /** One side of the outer or inner box; returns its patches by band and column. */
  const put = (points: Corners, side: number, low: number, high: number, left: boolean): number[][] => {
    const [x0, y0] = points[side];
    const [x1, y1] = points[(side + 1) % 4];
    const columns = columnsOf(side);
    const length = Math.hypot(x1 - x0, y1 - y0);
    const patches = Array.from({ length: bands }, () =>
      Array.from({ length: columns }, left ? insidePatch : outsidePatch),
    );
    const heights = Array.from({ length: bands + 1 }, (_, k) => stance.z + low + ((high - low) * k) / bands);
    const across = Array.from({ length: columns + 1 }, (_, c) => (length * c) / columns);
    builder.scene.panel({ x0, y0, x1, y1, z0: stance.z + low, z1: stance.z + high, left }, heights, across, patches);
    return patches;
  };

  // The ring between outer and inner box, its volume shared out by outer length.
  const ringArea = width * depth - (width - 2 * wall) * (depth - 2 * wall);
  const perLength = (ringArea * (height - wall - roof)) / (2 * (width + depth)) / bands;
  const rows: Strip[][] = Array.from({ length: bands }, () => []);
  for (const side of [0, 1, 2, 3]) {
    const outside = put(outer, side, 0, height, false);
    const inside = put(inner, side, wall, height - roof, true);
    if (!closed) lip(builder, stance, form, wall, side, outside[bands - 1][0]);
    if (whole) continue;
    const strip = sideLength(side) / columnsOf(side);
    outside.forEach((row, k) =>
      row.forEach((front, c) => {
        const back = inside[k][c];
        const cell = builder.cell({ body, front, back, edges: [], thickness: wall, volume: perLength * strip });
        rows[k].push({ cell, width: strip });
      }),
    );
  }
  rows.forEach((row, k) =>
    row.forEach(({ cell, width: strip }, i) => {
      const next = row[(i + 1) % row.length];
      builder.link({ a: cell, b: next.cell, area: (wall * height) / bands, distance: (strip + next.width) / 2 });
      const above = rows[k + 1]?.[i];
      if (above) builder.link({ a: cell, b: above.cell, area: wall * strip, distance: height / bands });
    }),
  );

  const level = (low: boolean): number => {
    const front = low && foot ? -1 : outsidePatch();
    const back = insidePatch();
    const innerZ = stance.z + (low ? wall : height - wall);
    if (front >= 0) {
      builder.scene.rectangle(plate(stance, width / 2, depth / 2, stance.z + (low ? 0 : height), !low), front);
    }
    builder.scene.rectangle(plate(stance, width / 2 - wall, depth / 2 - wall, innerZ, low), back);
    if (whole) return -1;
    const cell = builder.cell({ body, front, back, edges: [], thickness: wall, volume: width * depth * wall });
    for (const strip of rows[low ? 0 : bands - 1]) {
      const distance = height / bands / 2 + Math.min(width, depth) / 4;
      builder.link({ a: cell, b: strip.cell, area: wall * strip.width, distance });
    }
    return cell;
  };
  const floor = level(true);
  if (closed) level(false);
  if (whole) {
    const volume = ringArea * (height - wall - roof) + width * depth * (wall + roof);
    const cell = builder.cell({ body, ...whole, edges: [], thickness: wall, volume });
    return { joint: () => cell, footCell: () => cell, cover: foot };
  }
  return {
    joint: (side, z) => {
      const row = rows[Math.min(bands - 1, Math.max(0, Math.floor((z / height) * bands)))];
      const before = side > 0 ? 0 : columnsOf(0) + columnsOf(1);
      return row[before + (columnsOf(0) >> 1)].cell;
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
    builder.cell({ body, front, back: -1, edges: [], thickness: sizes[face] / 6, volume: whole / 6 }),
  );
  for (let a = 0; a < 6; a++) {
    for (let b = a + 1; b < 6; b++) {
      // Opposite faces meet only in the middle. Neighbours share a triangle from the middle to their common edge.
      if (a >> 1 === b >> 1) continue;
      const third = 3 - (a >> 1) - (b >> 1);
      const edge = sizes[third * 2];
      const da = sizes[a] / 2;
      const db = sizes[b] / 2;
      const area = (edge * Math.hypot(da, db)) / 2;
      builder.link({ a: cells[a], b: cells[b], area, distance: 0.75 * Math.hypot(da, db) });
    }
  }
  return { joint: (side) => cells[side > 0 ? 0 : 1], footCell: () => cells[5], cover: foot };
}
