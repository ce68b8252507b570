import {
  bodyRadius,
  known,
  liftOf,
  shapeOf,
  type Attachment,
  type Load,
  type PlacedPiece,
  type Shape,
} from "#engine/kiln";
import { boxMesh } from "./box-mesh.ts";
import type { MeshBuilder } from "./mesh-builder.ts";
import type { Resolution } from "./mesh.ts";
import { plateMesh, ringCut, tableAt } from "./plate-mesh.ts";
import { revolutionMesh } from "./revolution-mesh.ts";
import type { Cover } from "./scene.ts";

/** Where a piece stands: the plan of its axis, its turn, and the height of its foot. */
export interface Stance {
  readonly x: number;
  readonly y: number;
  readonly angle: number;
  readonly z: number;
  /** False on a stilt. */
  readonly touches: boolean;
}

/** What a piece's body offers to what joins it. */
export interface PieceBase {
  /** Cell at height z [m above the foot] on the handle's side (+1) or the spout's (-1). */
  readonly joint: (side: 1 | -1, z: number) => number;
  /** Cell that stands on the shelf at a point of the plan. */
  readonly footCell: (x: number, y: number) => number;
  /** What it covers of the shelf; null on a stilt. */
  readonly cover: Cover | null;
}

/** Cuts one piece, its handle and spout. */
export function pieceMesh(
  builder: MeshBuilder,
  load: Load,
  placed: PlacedPiece,
  shelfTop: number,
  resolution: Resolution,
): PieceBase {
  const shape = shapeOf(load, placed.pieceId);
  const lift = liftOf(load, known(load.pieces, placed.pieceId, "piece"));
  const stance: Stance = { x: placed.x, y: placed.y, angle: placed.angle, z: shelfTop + lift, touches: lift === 0 };
  const body = builder.body({ kind: "piece", pieceId: placed.pieceId });
  const base = bodyMesh(builder, body, shape, stance, resolution);
  for (const side of [1, -1] as const) {
    const attachment = side > 0 ? shape.handle : shape.spout;
    if (attachment && attachment.top > attachment.bottom && attachment.width > 0) {
      attachmentMesh(builder, body, shape, attachment, side, stance, base, resolution.pieceSectors >= ownHandles);
    }
  }
  return base;
}

function bodyMesh(builder: MeshBuilder, body: number, shape: Shape, stance: Stance, resolution: Resolution): PieceBase {
  const form = shape.body;
  if (form.kind === "revolution") return revolutionMesh(builder, body, { ...shape, body: form }, stance, resolution);
  if (form.kind === "box") return boxMesh(builder, body, form, stance, resolution);
  const across = Math.max(form.width, form.depth);
  const corner = Math.min(form.corner, form.width / 2, form.depth / 2);
  const fine = resolution.pieceSectors > 1;
  const rings = !fine || across < 0.12 ? 1 : across < 0.24 ? 2 : 3;
  const sectors = !fine || across < 0.07 ? 1 : 4;
  const plate = plateMesh(builder, {
    body,
    shape: { kind: "rounded", halfX: form.width / 2 - corner, halfY: form.depth / 2 - corner, corner },
    cut: ringCut(rings, sectors, 1.2),
    at: stance,
    z0: stance.z,
    z1: stance.z + form.thickness,
    liesFlat: stance.touches,
    foldRim: true,
  });
  const cover: Cover = {
    x: stance.x,
    y: stance.y,
    angle: stance.angle,
    halfX: form.width / 2 - corner,
    halfY: form.depth / 2 - corner,
    radius: corner,
    hole: 0,
  };
  const cellAt = (x: number, y: number): number => tableAt(plate.region, plate.cells, x, y);
  return {
    joint: (side) =>
      cellAt(
        stance.x + (Math.cos(stance.angle) * side * form.width) / 2,
        stance.y + (Math.sin(stance.angle) * side * form.width) / 2,
      ),
    footCell: cellAt,
    cover: stance.touches ? cover : null,
  };
}

/** A strap no thicker than this [m]: a handle is a loop, not the full box that stands for it in the rays. */
const strap = 0.01;

/** From this many sectors of a piece on, handles are cells of their own; below, they go to the wall they join. */
const ownHandles = 6;

/** Handle or spout: one box; one patch and cell joined to the body at both ends, or part of the wall beside it. */
function attachmentMesh(
  builder: MeshBuilder,
  body: number,
  shape: Shape,
  attachment: Attachment,
  side: 1 | -1,
  stance: Stance,
  base: PieceBase,
  own: boolean,
): void {
  const { bottom, top, width } = attachment;
  const widest = shape.body.kind === "revolution" ? bodyRadius(shape) : shape.body.width / 2;
  // It begins inside the wall where the body is widest beside it, so that it never shows on the inside.
  const wall = shape.body.kind === "slab" ? 0 : shape.body.wall;
  const from = widestBetween(shape, bottom, top) - Math.min(wall / 2, 0.002);
  const to = widest + attachment.reach;
  if (to - from < 0.002) return;
  const joint = base.joint(side, (bottom + top) / 2);
  const patch = own ? builder.patch(body, true) : builder.frontOf(joint);
  const middle = (side * (from + to)) / 2;
  const box = {
    x: stance.x + Math.cos(stance.angle) * middle,
    y: stance.y + Math.sin(stance.angle) * middle,
    angle: stance.angle,
    halfX: (to - from) / 2,
    halfY: width / 2,
    z0: stance.z + bottom,
    z1: stance.z + top,
  };
  builder.scene.box(box, [patch, patch, patch, patch, patch, patch]);
  const section = width * Math.min(strap, width);
  const length = top - bottom + 2 * (to - from);
  const volume = Math.min(section * length, 0.9 * (to - from) * width * (top - bottom));
  if (!own) {
    builder.enlarge(joint, volume);
    return;
  }
  const area = 2 * ((to - from) * width + (to - from) * (top - bottom) + width * (top - bottom));
  const cell = builder.cell({ body, front: patch, back: -1, edges: [], thickness: volume / area, volume });
  const ends = [base.joint(side, top), base.joint(side, bottom)];
  for (const end of ends) builder.link({ a: cell, b: end, area: section, distance: length / 4 });
}

function widestBetween(shape: Shape, bottom: number, top: number): number {
  if (shape.body.kind !== "revolution") return shape.body.width / 2;
  const { profile } = shape.body;
  let most = 0;
  for (let i = 0; i < profile.length; i++) {
    const [r, z] = profile[i] as readonly [number, number];
    if (z >= bottom && z <= top) most = Math.max(most, r);
    const next = profile[i + 1];
    if (!next) continue;
    for (const at of [bottom, top]) {
      if (at < z || at > next[1] || next[1] === z) continue;
      most = Math.max(most, r + ((next[0] - r) * (at - z)) / (next[1] - z));
    }
  }
  return most > 0 ? most : bodyRadius(shape);
}
