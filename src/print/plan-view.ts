import { roomInside } from "#engine/geometry";
import {
  conePackFootprint,
  conePitch,
  footprintOf,
  known,
  shapeOf,
  shelfTypeOf,
  type Kiln,
  type Load,
  type PlacedPost,
  type PlacedShelf,
} from "#engine/kiln";
import { outlinePoints } from "#work";
import { circle, line, polyline, rectangle, type PagePoint } from "./drawing.ts";
import type { SheetInput } from "./sheet-input.ts";
import { strong, textLine, widthOf } from "./text.ts";

/**
 * How far the plan is turned on the sheet [rad, counter-clockwise]: spyholes to the left, else the sensor to the right,
 * as one stands at the kiln. A rectangular chamber and a kiln with a door are never turned: the door is below.
 */
export function turnOf(kiln: Kiln): number {
  if (kiln.opening === "door" || kiln.chamber.plan.kind === "rectangle") return 0;
  const spyhole = kiln.spyholes[0];
  if (spyhole) return Math.PI - spyhole.azimuth;
  const sensor = kiln.sensors[0];
  return sensor ? -sensor.azimuth : 0;
}

/** A plan drawn to scale: metres of the kiln's frame to points of the page. */
export interface PlanScale {
  readonly toPage: (x: number, y: number) => PagePoint;
  /** [pt/m] */
  readonly scale: number;
  readonly turn: number;
}

/** One scale for all shelves of a load, so that they can be compared: the widest fills a square of side `size` [pt]. */
export function planScale(load: Load, [left, top]: PagePoint, size: number): PlanScale {
  const turn = turnOf(load.kiln);
  const cos = Math.cos(turn);
  const sin = Math.sin(turn);
  const reach = Math.max(
    0.05,
    ...load.setting.shelves
      .flatMap((shelf) => outlinePoints(shelfTypeOf(load, shelf).outline, shelf))
      .flatMap(([x, y]) => [Math.abs(cos * x - sin * y), Math.abs(sin * x + cos * y)]),
  );
  const scale = (size - 2) / (2 * reach);
  const middle = size / 2;
  return {
    scale,
    turn,
    toPage: (x, y) => [left + middle + scale * (cos * x - sin * y), top + middle - scale * (sin * x + cos * y)],
  };
}

/** Stacks that stand on a shelf and carry the next ones. */
export function postsOn(
  load: Load,
  shelf: PlacedShelf,
): readonly { readonly post: PlacedPost; readonly shelf: PlacedShelf }[] {
  const { outline } = shelfTypeOf(load, shelf);
  const cos = Math.cos(shelf.angle);
  const sin = Math.sin(shelf.angle);
  return load.setting.shelves.flatMap((other) =>
    other.posts
      .filter((post) => {
        const bottom = other.z - shelfTypeOf(load, other).thickness - post.lengths.reduce((sum, each) => sum + each, 0);
        if (other === shelf || Math.abs(bottom - shelf.z) > 0.003) return false;
        const x = cos * (post.x - shelf.x) + sin * (post.y - shelf.y);
        const y = -sin * (post.x - shelf.x) + cos * (post.y - shelf.y);
        return roomInside(outline, [{ x, y, angle: 0, halfX: 0, halfY: 0, radius: 0 }]) > -0.001;
      })
      .map((post) => ({ post, shelf: other })),
  );
}

/** One shelf from above: its edge, what will stand over part of it, posts, cones and pieces with their numbers. */
export function planView(
  input: SheetInput,
  shelf: PlacedShelf,
  at: PlanScale,
  numbers: { least: number; most: number },
): string {
  const { load } = input;
  const onIt = load.setting.pieces.filter((piece) => piece.shelfId === shelf.id);
  const bodies: string[] = [];
  const labels: string[] = [];
  for (const placed of onIt) {
    const footprint = footprintOf(shapeOf(load, placed.pieceId));
    const [body, ...attached] = footprint.map((box) => boxPoints(box, placed, at));
    for (const each of attached) bodies.push(polyline(each, true, { width: 0.7, fill: "white" }));
    if (body) bodies.push(polyline(body, true, { width: 1.1, fill: "white" }));
    bodies.push(isGlazed(load, placed.pieceId) ? innerLine(load, placed, at) : secondEdge(footprint[0], placed, at));
    labels.push(numberLabel(input, placed, at, numbers));
  }
  const posts = postsOn(load, shelf);
  return [
    polyline(pagePoints(load, shelf, at), true, { width: 1.1, fill: "white" }),
    ...halvesAbove(
      load,
      shelf,
      posts.map((each) => each.shelf),
      at,
    ),
    ...conePacks(load, shelf, at),
    ...bodies,
    // Over the ware: a piece that stands on a post's place shows.
    ...posts.map(({ post }) => crossedBox(load, post, at)),
    ...labels,
  ].join("");
}

function pagePoints(load: Load, shelf: PlacedShelf, at: PlanScale): readonly PagePoint[] {
  return outlinePoints(shelfTypeOf(load, shelf).outline, shelf).map(([x, y]) => at.toPage(x, y));
}

/** Dashed edge of a half shelf that will stand over part of a full one. */
function halvesAbove(load: Load, shelf: PlacedShelf, above: readonly PlacedShelf[], at: PlanScale): readonly string[] {
  if (shelfTypeOf(load, shelf).outline.kind === "half-disc") return [];
  return [...new Set(above)]
    .filter((other) => shelfTypeOf(load, other).outline.kind === "half-disc")
    .map((other) => polyline(pagePoints(load, other, at), true, { width: 0.7, dash: [3, 2] }));
}

function crossedBox(load: Load, post: PlacedPost, at: PlanScale): string {
  const width = Math.max(
    0.02,
    ...load.furniture.posts.filter((each) => post.lengths.includes(each.length)).map((each) => each.width),
  );
  const [x, y] = at.toPage(post.x, post.y);
  const side = width * at.scale;
  const half = side / 2;
  return [
    rectangle([x - half, y - half], side, side, { width: 0.8, fill: "white" }),
    line([x - half, y - half], [x + half, y + half], { width: 0.5 }),
    line([x - half, y + half], [x + half, y - half], { width: 0.5 }),
  ].join("");
}

function conePacks(load: Load, shelf: PlacedShelf, at: PlanScale): readonly string[] {
  return load.setting.cones
    .filter((cones) => cones.shelfId === shelf.id)
    .flatMap((cones) => {
      const count = cones.cones.length;
      const spots = cones.cones.map((_, i) => {
        const along = (i - (count - 1) / 2) * conePitch;
        return at.toPage(cones.x + along * Math.cos(cones.angle), cones.y + along * Math.sin(cones.angle));
      });
      const holder = conePackFootprint(count).map((box) =>
        polyline(boxPoints(box, cones, at), true, { width: 0.8, fill: "white" }),
      );
      const dots = spots.map((spot) => circle(spot, Math.min(at.scale * 0.004, 3), { width: 0, fill: "black" }));
      return holder.concat(dots);
    });
}

interface Place {
  readonly x: number;
  readonly y: number;
  readonly angle: number;
}

interface Box {
  readonly x: number;
  readonly y: number;
  readonly angle: number;
  readonly halfX: number;
  readonly halfY: number;
  readonly radius: number;
}

/** Outline of a rounded box that belongs to something placed, on the page; arcs in steps of 15 degrees. */
function boxPoints(box: Box, placed: Place, at: PlanScale): readonly PagePoint[] {
  const points: PagePoint[] = [];
  const cos = Math.cos(placed.angle);
  const sin = Math.sin(placed.angle);
  const boxCos = Math.cos(box.angle);
  const boxSin = Math.sin(box.angle);
  for (const [sx, sy, from] of [
    [1, 1, 0],
    [-1, 1, 1],
    [-1, -1, 2],
    [1, -1, 3],
  ] as const) {
    for (let i = 0; i <= (box.radius > 0 ? 6 : 0); i++) {
      const turn = (from + i / 6) * (Math.PI / 2);
      const u = sx * box.halfX + box.radius * Math.cos(turn);
      const v = sy * box.halfY + box.radius * Math.sin(turn);
      const x = box.x + boxCos * u - boxSin * v;
      const y = box.y + boxSin * u + boxCos * v;
      points.push(at.toPage(placed.x + cos * x - sin * y, placed.y + sin * x + cos * y));
    }
  }
  return points;
}

function isGlazed(load: Load, pieceId: string): boolean {
  return known(load.pieces, pieceId, "piece").state === "glazed";
}

/** Bisque and raw ware have a double edge. */
function secondEdge(box: Box | undefined, placed: Place, at: PlanScale): string {
  if (!box) return "";
  const inset = 2.2 / at.scale;
  const radius = Math.max(box.radius - inset, 0);
  const straight = Math.max(inset - box.radius, 0);
  const inner = { ...box, radius, halfX: box.halfX - straight, halfY: box.halfY - straight };
  return polyline(boxPoints(inner, placed, at), true, { width: 0.8 });
}

/** The inside of an open rim of glazed ware, and the well of wide flat ware: thin lines. */
function innerLine(load: Load, placed: Place & { readonly pieceId: string }, at: PlanScale): string {
  const { body } = shapeOf(load, placed.pieceId);
  if (body.kind === "slab" || body.closed) return "";
  const width = Math.max(body.wall, 1.6 / at.scale);
  if (body.kind === "box") {
    const box = { x: 0, y: 0, angle: 0, halfX: body.width / 2 - width, halfY: body.depth / 2 - width, radius: 0 };
    return polyline(boxPoints(box, placed, at), true, { width: 0.4 });
  }
  const rim = body.profile.at(-1)?.[0] ?? 0;
  const [x, y] = at.toPage(placed.x, placed.y);
  const rings = [rim - width];
  // Flat wide ware shows its well.
  if (rim > 0.07 && body.foot < rim - 3 * width) rings.push(body.foot);
  return rings
    .filter((radius) => radius > 0.01)
    .map((radius) => circle([x, y], radius * at.scale, { width: 0.4 }))
    .join("");
}

/** The number as large as the piece allows, on white so that no line runs through it. */
function numberLabel(
  input: SheetInput,
  placed: { readonly pieceId: string; readonly x: number; readonly y: number },
  at: PlanScale,
  { least, most }: { readonly least: number; readonly most: number },
): string {
  const number = input.numbers.get(placed.pieceId)?.number;
  if (number === undefined) return "";
  const { body } = shapeOf(input.load, placed.pieceId);
  const room =
    body.kind === "revolution" ? Math.max(...body.profile.map(([r]) => r)) : Math.min(body.width, body.depth) / 2;
  const size = Math.round(Math.min(Math.max(room * at.scale * 0.95, least), most) * 2) / 2;
  const run = [strong(String(number))];
  const [x, y] = at.toPage(placed.x, placed.y);
  const width = widthOf(run, size);
  return (
    rectangle([x - width / 2 - 0.4, y - size * 0.37], width + 0.8, size * 0.74, { width: 0, fill: "white" }) +
    textLine(run, { x, y: y + size * 0.335, size, anchor: "middle" })
  );
}
