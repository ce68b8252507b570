import {
  areaOf,
  circumradius,
  flatsOf,
  placeFootprint,
  type Flat,
  type Footprint,
  type Outline,
  type RoundedBox,
} from "#engine/geometry";
import {
  conePackFootprint,
  footprintOf,
  heightOf,
  liftOf,
  type PlacedShelf,
  type Setting,
  type ShelfType,
} from "#engine/kiln";
import type { ColumnProblem } from "./column.ts";
import { coneAir } from "./cone-spots.ts";
import { coveredArea } from "./covered-area.ts";
import { postReach } from "./deck.ts";
import { gapOf, sensorCuts, type Item } from "./kiln-column.ts";
import { nothingPacked } from "./packer.ts";
import { partsOf } from "./parts.ts";
import type { PlacingRequest } from "./proposal.ts";
import type { Region } from "./region.ts";
import type { Layer } from "./search.ts";

/** The shelves of a kept setting as layers of one bay each, free of the pieces that may move. */
export interface KeptColumn {
  readonly problem: ColumnProblem;
  readonly layers: readonly Layer[];
  /** In the order of `layers`. */
  readonly shelves: readonly PlacedShelf[];
}

const slack = 1e-4;

/** A column whose heights, posts and cones are those of `keep`; its fixed pieces are keep-outs. */
export function keptColumn(request: PlacingRequest, keep: Setting, items: readonly Item[]): KeptColumn {
  const { kiln } = request;
  const { rules } = kiln;
  const gap = gapOf(request);
  const types = new Map(request.furniture.shelves.map((type) => [type.id, type]));
  const shelves = [...keep.shelves].sort((a, b) => a.z - b.z || a.id.localeCompare(b.id));
  const layers = shelves.map((shelf): Layer => {
    const type = types.get(shelf.typeId) as ShelfType;
    const above = shelves
      .filter(
        (other) => other.z > shelf.z + 1e-6 && mayOverlap(shelf, type, other, types.get(other.typeId) as ShelfType),
      )
      .map((other) => other.z - (types.get(other.typeId) as ShelfType).thickness);
    const z1 = Math.min(kiln.chamber.height, ...above);
    const top = above.length === 0;
    return {
      level: { asked: 0, z0: shelf.z, z1, top, stack: null },
      regions: [keptRegion(request, keep, types, shelf, z1)],
      bays: [nothingPacked],
    };
  });
  const problem: ColumnProblem = {
    parts: partsOf(items.map((item) => item.footprint)),
    height: Float64Array.from(items, (item) => item.height),
    area: Float64Array.from(items, (item) => coveredArea(item.footprint, gap / 2)),
    worth: Float64Array.from(items, (item) => item.worth),
    mass: Float64Array.from(items, (item) => item.mass),
    gap,
    slack,
    base: 0,
    roof: kiln.chamber.height,
    thickness: 0,
    headroom: rules.headroom,
    lidHeadroom: rules.lidHeadroom,
    posts: [],
    maxStack: 0,
    maxLayers: layers.length,
    closed: [],
    shelfLoad: rules.shelfLoad,
    shelfMass: 0,
    advice: () => 0,
    bayArea: Math.max(...shelves.map((shelf) => areaOf((types.get(shelf.typeId) as ShelfType).outline))),
    bays: 1,
    region: () => {
      throw new Error("a kept setting has its own regions");
    },
  };
  return { problem, layers, shelves };
}

/** May two shelves overlap in the plan? By their flats and circles about their origins; never a wrong no. */
function mayOverlap(a: PlacedShelf, typeA: ShelfType, b: PlacedShelf, typeB: ShelfType): boolean {
  const apart = Math.hypot(a.x - b.x, a.y - b.y);
  if (apart >= circumradius(typeA.outline) + circumradius(typeB.outline)) return false;
  for (const [one, outline, two, other] of [
    [a, typeA.outline, b, typeB.outline],
    [b, typeB.outline, a, typeA.outline],
  ] as const) {
    for (const flat of placedFlats(one, outline)) {
      if (-extentOf(two, other, -flat.nx, -flat.ny) >= flat.distance - 1e-9) return false;
    }
  }
  return true;
}

/** Farthest a placed outline reaches along a direction [m], or a little more. */
function extentOf(at: PlacedShelf, outline: Outline, nx: number, ny: number): number {
  const cos = Math.cos(at.angle);
  const sin = Math.sin(at.angle);
  const localX = cos * nx + sin * ny;
  const localY = -sin * nx + cos * ny;
  const shift = at.x * nx + at.y * ny;
  switch (outline.kind) {
    case "disc":
      return shift + outline.radius;
    case "half-disc":
      return shift + outline.radius * (localX <= 0 ? 1 : Math.abs(localY));
    case "rectangle":
      return shift + (Math.abs(localX) * outline.width + Math.abs(localY) * outline.depth) / 2;
    case "polygon":
      return shift + circumradius(outline);
  }
}

function placedFlats(at: PlacedShelf, outline: Outline, inset = 0): readonly Flat[] {
  const cos = Math.cos(at.angle);
  const sin = Math.sin(at.angle);
  return flatsOf(outline).map((flat) => {
    const nx = cos * flat.nx - sin * flat.ny;
    const ny = sin * flat.nx + cos * flat.ny;
    return { nx, ny, distance: flat.distance + nx * at.x + ny * at.y - inset };
  });
}

/** Flats of the chamber less the ware's distance to the wall; a round chamber as the polygon inside it. */
function wallFlats(plan: Outline, inset: number): readonly Flat[] {
  if (plan.kind !== "disc") {
    return flatsOf(plan).map((flat) => ({ nx: flat.nx, ny: flat.ny, distance: flat.distance - inset }));
  }
  const sides = 64;
  return Array.from({ length: sides }, (_, k) => ({
    nx: Math.cos((2 * Math.PI * k) / sides),
    ny: Math.sin((2 * Math.PI * k) / sides),
    distance: (plan.radius - inset) * Math.cos(Math.PI / sides),
  }));
}

function keptRegion(
  request: PlacingRequest,
  keep: Setting,
  types: ReadonlyMap<string, ShelfType>,
  shelf: PlacedShelf,
  z1: number,
): Region {
  const { kiln, furniture } = request;
  const gap = gapOf(request);
  const { outline } = types.get(shelf.typeId) as ShelfType;
  const round = outline.kind === "disc" || outline.kind === "half-disc";
  const keepOuts: RoundedBox[] = [...sensorCuts(request, shelf.z, z1)];
  const clearance = postReach(furniture) + kiln.rules.postGap;
  for (const other of keep.shelves) {
    const under = other.z - (types.get(other.typeId) as ShelfType).thickness;
    for (const post of other.posts) {
      const foot = under - post.lengths.reduce((sum, length) => sum + length, 0);
      if (foot < z1 - 1e-6 && under > shelf.z + 1e-6) {
        keepOuts.push({ x: post.x, y: post.y, angle: 0, halfX: 0, halfY: 0, radius: clearance });
      }
    }
  }
  const add = (footprint: Footprint, by: number): void => {
    for (const box of footprint) keepOuts.push({ ...box, radius: box.radius + by });
  };
  for (const cones of keep.cones) {
    if (cones.shelfId === shelf.id) {
      add(placeFootprint(conePackFootprint(cones.cones.length), cones), Math.max(gap, coneAir));
    }
  }
  const shelfHeights = new Map(keep.shelves.map((each) => [each.id, each.z]));
  const pieces = new Map(request.pieces.map((piece) => [piece.id, piece]));
  for (const placed of keep.pieces) {
    const piece = pieces.get(placed.pieceId);
    const shape = piece ? request.shapes.get(piece.shapeId) : undefined;
    if (!placed.fixed || !piece || !shape) continue;
    const z = shelfHeights.get(placed.shelfId) ?? 0;
    // Also beside: a fixed piece of a neighbouring shelf may reach over.
    if (z < z1 && z + heightOf(shape) + liftOf(request, piece) > shelf.z)
      add(placeFootprint(footprintOf(shape), placed), gap);
  }
  // Half a gap from every straight edge: a neighbouring shelf may begin there.
  const own = placedFlats(shelf, outline, gap / 2);
  return {
    x: shelf.x,
    y: shelf.y,
    radius: round ? outline.radius : Infinity,
    flats: [...own, ...wallFlats(kiln.chamber.plan, kiln.rules.wareToWall)],
    keepOuts,
  };
}
