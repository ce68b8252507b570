import { radiusAt, type Outline } from "#engine/geometry";
import {
  known,
  liftOf,
  shelfTypeOf,
  shelvesFromBottom,
  type Kiln,
  type Load,
  type PlacedCones,
  type PlacedPost,
  type PlacedShelf,
} from "#engine/kiln";
import { chamberMesh } from "./chamber-mesh.ts";
import { usualEmissivity, type EmissivityOf } from "./emissivity.ts";
import { meshBuilder, type LoadMesh, type MeshBuilder } from "./mesh-builder.ts";
import type { Resolution } from "./mesh.ts";
import { pieceMesh } from "./piece-mesh.ts";
import {
  coverArea,
  isOn,
  plateMesh,
  pointsUnder,
  ringCut,
  sharesUnder,
  tableAt,
  type FlatRegion,
} from "./plate-mesh.ts";
import type { Cover } from "./scene.ts";
import { starShapeOf } from "./star.ts";

/** A level something can stand on: floor or shelf. */
interface Ground {
  readonly z: number;
  readonly region: FlatRegion;
  readonly cells: readonly (readonly number[])[];
  readonly top: readonly (readonly number[])[];
}

interface ShelfGround extends Ground {
  readonly bottom: readonly (readonly number[])[];
  readonly bottomZ: number;
}

export interface MeshOptions {
  /** Emissivity of each body [-]; by default `usualEmissivity`. */
  readonly emissivity?: EmissivityOf | undefined;
}

/** Contact area of a stilt's points [m2]: three of about 1 mm across. */
const stiltPoints = 3e-6;

/**
 * Cuts a load into patches and cells and builds the solids for its rays.
 *
 * Bodies come in this order: wall, rows, lid, floor, sensors, shelves from the bottom up with their posts, pieces,
 * cones. Cell volumes add up to a body's solid volume, so that its mass can be matched by its density.
 *
 * @throws RangeError if the setting names a shelf type, shelf, piece or shape that the load does not hold
 */
export function meshLoad(load: Load, resolution: Resolution, options: MeshOptions = {}): LoadMesh {
  const builder = meshBuilder(options.emissivity ?? usualEmissivity(load));
  const { kiln, setting } = load;
  const chamber = chamberMesh(builder, kiln, resolution);
  const floor: Ground = { z: 0, region: chamber.floor, cells: chamber.floorCells, top: chamber.floorPatches };
  kiln.sensors.forEach((_, sensor) => {
    sensorMesh(builder, kiln, sensor);
  });

  const shelves = shelvesFromBottom(setting);
  const grounds = new Map<string, ShelfGround>();
  for (const shelf of shelves) grounds.set(shelf.id, shelfMesh(builder, load, shelf, resolution));
  const levels: readonly Ground[] = [floor, ...grounds.values()];
  for (const shelf of shelves) {
    shelf.posts.forEach((post, index) => {
      postMesh(builder, load, shelf, post, index, grounds.get(shelf.id) as ShelfGround, levels);
    });
  }
  for (const placed of setting.pieces) {
    const ground = known(grounds, placed.shelfId, "shelf");
    const base = pieceMesh(builder, load, placed, ground.z, resolution);
    if (base.cover) {
      putOn(builder, ground, base.cover);
      spreadContact(builder, ground, base.cover, base.footCell, coverArea(base.cover), 0);
    } else {
      const lift = liftOf(load, known(load.pieces, placed.pieceId, "piece"));
      const span = { x: placed.x, y: placed.y, angle: 0, halfX: 0, halfY: 0, radius: 0.03, hole: 0.02 };
      spreadContact(builder, ground, span, base.footCell, stiltPoints, lift);
    }
  }
  setting.cones.forEach((cones, index) => {
    conesMesh(builder, cones, index, known(grounds, cones.shelfId, "shelf"));
  });
  return builder.build();
}

function shelfMesh(builder: MeshBuilder, load: Load, shelf: PlacedShelf, resolution: Resolution): ShelfGround {
  const type = shelfTypeOf(load, shelf);
  const body = builder.body({ kind: "shelf", shelfId: shelf.id });
  const bottomZ = shelf.z - type.thickness;
  const plate = plateMesh(builder, {
    body,
    shape: starShapeOf(type.outline),
    cut: ringCut(resolution.shelfRings, resolution.sectors, 1.6),
    at: shelf,
    z0: bottomZ,
    z1: shelf.z,
    liesFlat: false,
    foldRim: false,
  });
  return {
    z: shelf.z,
    bottomZ,
    region: plate.region,
    cells: plate.cells,
    top: plate.top,
    bottom: plate.bottom as readonly (readonly number[])[],
  };
}

/** Hides what a cover hides of the patches it stands on. */
function putOn(builder: MeshBuilder, ground: Pick<Ground, "region" | "top">, cover: Cover): void {
  const area = coverArea(cover);
  for (const [patch, share] of sharesUnder(ground.region, ground.top, cover)) {
    builder.scene.cover(patch, cover, share * area);
  }
}

/** Joins the cells of a foot to those of the shelf under it, by where its points lie. */
function spreadContact(
  builder: MeshBuilder,
  ground: Ground,
  cover: Cover,
  footCell: (x: number, y: number) => number,
  area: number,
  gap: number,
): void {
  const shares = new Map<string, { readonly a: number; readonly b: number; share: number }>();
  const points = pointsUnder(cover);
  const share = 1 / points.length;
  for (const [x, y] of points) {
    const a = footCell(x, y);
    const b = tableAt(ground.region, ground.cells, x, y);
    const pair = shares.get(`${a} ${b}`);
    if (pair) pair.share += share;
    else shares.set(`${a} ${b}`, { a, b, share });
  }
  for (const { a, b, share } of shares.values()) {
    builder.contact({ a, aFace: "front", b, bFace: "front", area: area * share, gap });
  }
}

const defaultPostWidth = 0.038;

function postMesh(
  builder: MeshBuilder,
  load: Load,
  shelf: PlacedShelf,
  post: PlacedPost,
  index: number,
  above: ShelfGround,
  levels: readonly Ground[],
): void {
  const total = post.lengths.reduce((sum, length) => sum + length, 0);
  if (!(total > 0)) return;
  const widths = post.lengths.map(
    (length) => load.furniture.posts.find((type) => Math.abs(type.length - length) < 1e-6)?.width ?? defaultPostWidth,
  );
  const width = Math.max(...widths);
  const body = builder.body({ kind: "post", shelfId: shelf.id, post: index });
  const z1 = above.bottomZ;
  const z0 = z1 - total;
  const count = Math.max(1, Math.ceil(total / 0.12));
  const half = width / 2;
  const foot: Cover = { x: post.x, y: post.y, angle: 0, halfX: half, halfY: half, radius: 0, hole: 0 };
  const cells = Array.from({ length: count }, (_, i) => {
    const patch = builder.patch(body, true);
    const low = z0 + (total * i) / count;
    const high = z0 + (total * (i + 1)) / count;
    const box = { x: post.x, y: post.y, angle: 0, halfX: half, halfY: half, z0: low, z1: high };
    // Its ends are covered by what it stands between; only a stack that floats in an impossible setting shows them.
    builder.scene.box(box, [patch, patch, patch, patch, -1, -1]);
    const length = high - low;
    return builder.cell({
      body,
      front: -1,
      back: -1,
      edges: [patch],
      thickness: length,
      volume: width * width * length,
    });
  });
  for (let i = 1; i < count; i++) {
    const [a, b] = [cells[i - 1], cells[i]];
    builder.contact({ a, aFace: "front", b, bFace: "back", area: width * width, gap: 0 });
  }
  const area = width * width;
  putOn(builder, { region: above.region, top: above.bottom }, foot);
  const upper = tableAt(above.region, above.cells, post.x, post.y);
  builder.contact({ a: cells.at(-1)!, aFace: "front", b: upper, bFace: "back", area, gap: 0 });
  const ground = levels.find((level) => Math.abs(level.z - z0) < 0.004 && isOn(level.region, post.x, post.y));
  if (!ground) return;
  putOn(builder, ground, foot);
  const lower = tableAt(ground.region, ground.cells, post.x, post.y);
  builder.contact({ a: cells[0], aFace: "back", b: lower, bFace: "front", area, gap: 0 });
}

/** A witness cone as an upright box of its mean width; common practice, no source. */
const cone = { width: 0.014, height: 0.062, pitch: 0.022 };

function conesMesh(builder: MeshBuilder, placed: PlacedCones, index: number, ground: Ground): void {
  const body = builder.body({ kind: "cones", index });
  const cos = Math.cos(placed.angle);
  const sin = Math.sin(placed.angle);
  const half = cone.width / 2;
  placed.cones.forEach((_, i) => {
    const along = (i - (placed.cones.length - 1) / 2) * cone.pitch;
    const foot: Cover = {
      x: placed.x + cos * along,
      y: placed.y + sin * along,
      angle: placed.angle,
      halfX: half,
      halfY: half,
      radius: 0,
      hole: 0,
    };
    const patch = builder.patch(body, true);
    const { x, y, angle } = foot;
    builder.scene.box({ x, y, angle, halfX: half, halfY: half, z0: ground.z, z1: ground.z + cone.height }, [
      patch,
      patch,
      patch,
      patch,
      patch,
      -1,
    ]);
    const volume = cone.width ** 2 * cone.height;
    const area = 4 * cone.width * cone.height + cone.width ** 2;
    const cell = builder.cell({ body, front: patch, back: -1, edges: [], thickness: volume / area, volume });
    putOn(builder, ground, foot);
    spreadContact(builder, ground, foot, () => cell, cone.width ** 2, 0);
  });
}

function sensorMesh(builder: MeshBuilder, kiln: Kiln, index: number): void {
  const sensor = kiln.sensors[index];
  const body = builder.body({ kind: "sensor", sensor: index });
  // A square bar with the round tube's surface.
  const half = (Math.PI / 8) * Math.max(sensor.diameter, 0.001);
  const wall = tubeEnd(kiln.chamber.plan, sensor.azimuth, half);
  const reach = Math.max(sensor.reach, 0.005);
  const tipLength = Math.min(reach / 2, Math.max(sensor.diameter, 0.01));
  const part = (from: number, to: number, open: boolean): number => {
    const patch = builder.patch(body, true);
    const middle = (from + to) / 2;
    const box = {
      x: middle * Math.cos(sensor.azimuth),
      y: middle * Math.sin(sensor.azimuth),
      angle: sensor.azimuth,
      halfX: (to - from) / 2,
      halfY: half,
      z0: sensor.z - half,
      z1: sensor.z + half,
    };
    builder.scene.box(box, [-1, open ? patch : -1, patch, patch, patch, patch]);
    const volume = 4 * half * half * (to - from);
    const area = 8 * half * (to - from) + (open ? 4 * half * half : 0);
    return builder.cell({ body, front: patch, back: -1, edges: [], thickness: volume / area, volume });
  };
  const tip = part(wall - reach, wall - reach + tipLength, true);
  const tube = part(wall - reach + tipLength, wall, false);
  builder.link({ a: tip, b: tube, area: 4 * half * half, distance: reach / 2 });
}

/** Distance from the axis at which a bar's whole end still is inside the wall [m]. */
function tubeEnd(plan: Outline, azimuth: number, half: number): number {
  const turn = Math.atan(half / radiusAt(plan, azimuth));
  return Math.cos(turn) * Math.min(radiusAt(plan, azimuth - turn), radiusAt(plan, azimuth + turn));
}
