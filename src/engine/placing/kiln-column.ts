import {
  areaOf,
  flatsOf,
  placeFootprint,
  radiusAt,
  type Footprint,
  type Placement,
  type RoundedBox,
} from "#engine/geometry";
import { conePackFootprint, conePackHeight, footprintOf, heightOf, liftOf, type Piece, type Shape } from "#engine/kiln";
import type { ColumnProblem } from "./column.ts";
import { coneAir, conesFor, coneSpot } from "./cone-spots.ts";
import { coveredArea } from "./covered-area.ts";
import { flatsOfBay, postReach, type Bay, type Deck } from "./deck.ts";
import { partsOf } from "./parts.ts";
import { stacksOf, type PostSet, type Stack } from "./post-stacks.ts";
import type { PlacingRequest } from "./proposal.ts";
import type { Region } from "./region.ts";
import type { Level } from "./tower.ts";
import { worthOf } from "./urgency.ts";

/** A piece as placing sees it. */
export interface Item {
  readonly piece: Piece;
  readonly footprint: Footprint;
  readonly height: number;
  readonly mass: number;
  readonly worth: number;
}

export function itemOf(request: PlacingRequest, piece: Piece, shape: Shape): Item {
  return {
    piece,
    footprint: footprintOf(shape),
    height: heightOf(shape) + liftOf(request, piece),
    mass: shape.mass,
    worth: worthOf(piece, request.today),
  };
}

/** A kiln, a deck and items as a column problem, with what the problem's numbers leave out. */
export interface KilnColumn {
  readonly problem: ColumnProblem;
  readonly deck: Deck;
  /** Posts under the lowest shelf. */
  readonly bottom: Stack;
  /** Where a row of cones stands on a bay of a layer, or null. */
  readonly coneOn: (bay: number, z0: number, z1: number, top: boolean) => Placement | null;
}

/** Extra gap asked for in the plan beyond every rule [m]: what the minimiser may leave over. */
const slack = 1e-4;

export const gapOf = (request: PlacingRequest): number =>
  request.firingClass.mayTouch ? 0 : request.kiln.rules.glazeGap;

/** The column problem of a deck; null if no posts in stock can carry its lowest shelf. */
export function columnOf(request: PlacingRequest, deck: Deck, items: readonly Item[]): KilnColumn | null {
  const { kiln, furniture } = request;
  const { rules } = kiln;
  const gap = gapOf(request);
  const thickness = deck.shelf.thickness;
  const columns = deck.bays.reduce((sum, bay) => sum + bay.posts.length, 0);
  const posts: PostSet[] = furniture.posts.map((post) => ({
    length: post.length,
    sets: Math.floor(post.count / columns),
  }));
  const closed = closedHeights(request, deck);
  const isClosed = (under: number): boolean =>
    closed.some(([low, high]) => under < high - 1e-9 && under + thickness > low + 1e-9);
  const bottom = stacksOf(posts, furniture.maxStack).find(
    (stack) => stack.height >= rules.bottomGap - 1e-9 && !isClosed(stack.height),
  );
  if (!bottom) return null;
  const left = posts.map((post, k) => ({ length: post.length, sets: post.sets - bottom.takes[k] }));
  const base = bottom.height + thickness;
  const cones = conesFor(request.firingClass.cone);
  const regions = new Map<string, { readonly region: Region; readonly cone: Placement | null }>();
  const standing = (bay: number, z0: number, z1: number, top: boolean) => {
    const cuts = sensorCuts(request, z0, z1);
    const wantsCone =
      (z0 <= base + 1e-6 || top || isMiddle(kiln.chamber.height, { z0, z1 })) &&
      z1 - z0 >= conePackHeight + (top ? rules.lidHeadroom : rules.headroom);
    const hole = wantsCone ? holeNear(request, (z0 + z1) / 2) : -1;
    // Cones in view stand where the spyhole's height above the shelf puts them.
    const view = hole < 0 ? "" : `${Math.round(z0 * 1e4)}-${Math.round(z1 * 1e4)}`;
    const key = [bay, top, view, ...cuts.map((cut) => cut.radius)].join("/");
    const known = regions.get(key);
    if (known) return known;
    const bares = deck.bays.map((each) => regionOf(request, deck, each, gap, top, cuts));
    // Cones stand on one bay of a level: the one that reaches farthest towards the spyhole.
    const spots = bares.map((bare) => (wantsCone ? coneSpot(kiln, bare, cones.length, z0, z1) : null));
    const toward = kiln.spyholes[hole]?.azimuth ?? 0;
    const far = spots.map((spot) => (spot ? spot.at.x * Math.cos(toward) + spot.at.y * Math.sin(toward) : -Infinity));
    const own = far.indexOf(Math.max(...far)) === bay ? (spots[bay] ?? null) : null;
    const bare = bares[bay];
    const row = own ? [...placeFootprint(conePackFootprint(cones.length), own.at), ...own.free] : [];
    const keepOuts = [...bare.keepOuts, ...row.map((box) => grown(box, Math.max(gap, coneAir)))];
    const made = { region: { ...bare, keepOuts }, cone: own?.at ?? null };
    regions.set(key, made);
    return made;
  };
  const problem: ColumnProblem = {
    parts: partsOf(items.map((item) => item.footprint)),
    height: Float64Array.from(items, (item) => item.height),
    area: Float64Array.from(items, (item) => coveredArea(item.footprint, gap / 2)),
    worth: Float64Array.from(items, (item) => item.worth),
    mass: Float64Array.from(items, (item) => item.mass),
    gap,
    slack,
    base,
    roof: kiln.chamber.height,
    thickness,
    headroom: rules.headroom,
    lidHeadroom: rules.lidHeadroom,
    posts: left,
    maxStack: furniture.maxStack,
    maxLayers: deck.levels,
    closed,
    shelfLoad: rules.shelfLoad,
    shelfMass: deck.shelf.mass * deck.bays.length,
    advice: (levels) => adviceOf(request, levels),
    bayArea: areaOf(deck.shelf.outline),
    bays: deck.bays.length,
    region: (bay, z0, z1, top) => standing(bay, z0, z1, top).region,
  };
  return { problem, deck, bottom, coneOn: (bay, z0, z1, top) => standing(bay, z0, z1, top).cone };
}

/**
 * Penalty for tight first and last gaps and for levels whose cones are missing or out of sight [-].
 * The weights are ours: a missing row of cones counts as much as an eighth of a shelf's depth of skew in mass.
 */
function adviceOf(request: PlacingRequest, levels: readonly Level[]): number {
  const { kiln } = request;
  const { airyGap, headroom, lidHeadroom } = kiln.rules;
  const gap = (level: Level): number => level.z1 - level.z0;
  const tight = (level: Level): number => Math.max(airyGap - gap(level), 0) / airyGap;
  const bottom = levels[0];
  const top = levels[levels.length - 1];
  let penalty = 0.04 * (tight(bottom) + tight(top));
  const wanted = Math.min(levels.length, 3);
  const holds = (level: Level): boolean => gap(level) >= conePackHeight + (level.top ? lidHeadroom : headroom);
  const middle = levels.filter((level) => level !== bottom && level !== top && isMiddle(kiln.chamber.height, level));
  const rows = [bottom, ...(levels.length > 1 ? [top] : []), ...middle].filter(holds);
  penalty += 0.03 * Math.max(wanted - rows.length, 0);
  if (kiln.spyholes.length > 0) {
    const seen = rows.filter((level) => kiln.spyholes.some(({ z }) => z > level.z0 + 0.02 && z < level.z1));
    penalty += 0.01 * Math.max(Math.min(wanted, kiln.spyholes.length) - seen.length, 0);
  }
  return penalty;
}

/** The level at half the chamber's height. */
function isMiddle(height: number, level: Pick<Level, "z0" | "z1">): boolean {
  return level.z0 <= height / 2 && level.z1 >= height / 2;
}

function holeNear(request: PlacingRequest, z: number): number {
  let best = -1;
  request.kiln.spyholes.forEach((hole, k) => {
    const known = request.kiln.spyholes[best];
    if (!known || Math.abs(hole.z - z) < Math.abs(known.z - z)) best = k;
  });
  return best;
}

/** Tip of a sensor in the plan. */
export function tipsOf(request: PlacingRequest): readonly { x: number; y: number; z: number }[] {
  const { kiln } = request;
  return kiln.sensors.map((sensor) => {
    const radius = radiusAt(kiln.chamber.plan, sensor.azimuth) - sensor.reach;
    return { x: radius * Math.cos(sensor.azimuth), y: radius * Math.sin(sensor.azimuth), z: sensor.z };
  });
}

/** Discs in the plan that the clear balls about the sensors cut out of the heights z0 to z1; rounded up to 1 mm. */
export function sensorCuts(request: PlacingRequest, z0: number, z1: number): readonly RoundedBox[] {
  const clear = request.kiln.rules.sensorClear;
  return tipsOf(request).flatMap((tip) => {
    const above = Math.max(z0 - tip.z, tip.z - z1, 0);
    if (above >= clear) return [];
    const radius = Math.ceil(Math.sqrt(clear * clear - above * above) * 1000) / 1000;
    return [{ x: tip.x, y: tip.y, angle: 0, halfX: 0, halfY: 0, radius }];
  });
}

/** Heights that no shelf of the deck may touch, because it would enter the clear ball about a sensor. */
function closedHeights(request: PlacingRequest, deck: Deck): readonly (readonly [number, number])[] {
  const clear = request.kiln.rules.sensorClear;
  return tipsOf(request).flatMap((tip) => {
    const off = Math.min(...deck.bays.map((bay) => shelfDistance(deck, bay, tip.x, tip.y)));
    if (off >= clear) return [];
    const half = Math.sqrt(clear * clear - Math.max(off, 0) ** 2) + slack;
    return [[tip.z - half, tip.z + half] as const];
  });
}

/** Least distance from a point to a shelf in the plan [m], 0 inside; never more than the true distance. */
function shelfDistance(deck: Deck, bay: Bay, x: number, y: number): number {
  const cos = Math.cos(bay.at.angle);
  const sin = Math.sin(bay.at.angle);
  const localX = cos * (x - bay.at.x) + sin * (y - bay.at.y);
  const localY = -sin * (x - bay.at.x) + cos * (y - bay.at.y);
  const { outline } = deck.shelf;
  let distance = 0;
  if (outline.kind === "disc" || outline.kind === "half-disc") distance = Math.hypot(localX, localY) - outline.radius;
  for (const flat of flatsOf(outline)) {
    distance = Math.max(distance, localX * flat.nx + localY * flat.ny - flat.distance);
  }
  return Math.max(distance, 0);
}

function regionOf(
  request: PlacingRequest,
  deck: Deck,
  bay: Bay,
  gap: number,
  top: boolean,
  cuts: readonly RoundedBox[],
): Region {
  const { kiln, furniture } = request;
  const { outline } = deck.shelf;
  const { plan } = kiln.chamber;
  const round = outline.kind === "disc" || outline.kind === "half-disc";
  const radius = Math.min(
    round ? outline.radius : Infinity,
    plan.kind === "disc" ? plan.radius - kiln.rules.wareToWall : Infinity,
  );
  const clearance = postReach(furniture) + kiln.rules.postGap;
  const posts = top ? [] : bay.posts.map(([x, y]) => ({ x, y, angle: 0, halfX: 0, halfY: 0, radius: clearance }));
  return {
    x: round ? bay.at.x : 0,
    y: round ? bay.at.y : 0,
    radius,
    flats: flatsOfBay(kiln, deck, bay, gap),
    keepOuts: [...posts, ...cuts],
  };
}

const grown = (box: RoundedBox, by: number): RoundedBox => ({ ...box, radius: box.radius + by });
