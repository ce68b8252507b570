import {
  conePackHeight,
  conePitch,
  shelfTypeOf,
  type Kiln,
  type Load,
  type PlacedCones,
  type PlacedPost,
  type PlacedShelf,
} from "#engine/kiln";
import type { Metres } from "#engine/units";
import { grownOutline, outlinePoints, type PlanPoint } from "../outline-points.ts";
import { plateSolid, rectanglePoints } from "./plate-solid.ts";
import { joined, solidBuilder, type Point3, type Solid } from "./solid.ts";

/** A shelf in its own frame, its top face at z = 0; to be turned by its angle and moved to its place. */
export function shelfSolid(load: Load, shelf: PlacedShelf): Solid {
  const type = shelfTypeOf(load, shelf);
  return plateSolid(outlinePoints(type.outline), -type.thickness, 0);
}

/** A stack of posts about its own axis from z = 0 up, with a narrow joint between posts. */
export function postSolid(load: Load, post: PlacedPost): Solid {
  const joint = 0.0012;
  let foot = 0;
  return joined(
    post.lengths.map((length) => {
      const width = load.furniture.posts.find((type) => Math.abs(type.length - length) < 5e-4)?.width ?? 0.038;
      const stone = plateSolid(rectanglePoints(width, width), foot + joint / 2, foot + length - joint / 2);
      foot += length;
      return stone;
    }),
  );
}

/** A row of witness cones in its holder, about its own middle, leaning along the row. */
export function conePackSolid(pack: PlacedCones): Solid {
  const length = conePitch * pack.cones.length + 0.02;
  const holder = plateSolid(rectanglePoints(length, 0.026), 0, 0.012);
  const spikes = pack.cones.map((_, i) => spike((i - (pack.cones.length - 1) / 2) * conePitch));
  return joined([holder, ...spikes]);
}

/** A three-sided cone, standing at x, its tip leaning by 8 degrees to +x. */
function spike(x: Metres): Solid {
  const build = solidBuilder();
  const foot = 0.01;
  const base = [90, 210, 330].map((degrees): Point3 => {
    const turn = (degrees * Math.PI) / 180;
    return [x + 0.008 * Math.cos(turn), 0.008 * Math.sin(turn), foot];
  });
  const tall = conePackHeight - foot;
  const tip: Point3 = [x + tall * Math.tan((8 * Math.PI) / 180), 0, conePackHeight];
  build.face([...base].reverse());
  base.forEach((corner, i) => build.face([corner, base[(i + 1) % 3], tip]));
  return build.done();
}

/** One upright strip of the kiln's wall, with the element rows on it. */
export interface WallStrip {
  /** Of its middle, seen from the axis, as a unit vector in the plan: it faces the other way. */
  readonly outX: number;
  readonly outY: number;
  readonly brick: Solid;
  /** Null where no row runs. */
  readonly rows: Solid | null;
}

/** How far a row stands out of the wall as drawn [m]. */
const coil = 0.004;

/**
 * The wall of a chamber in strips, so that a picture can leave out those in the way.
 *
 * @param at  where a height is drawn: pictures lift shelves apart, and the wall grows with them
 */
export function wallStrips(kiln: Kiln, at: (z: Metres) => Metres = (z) => z): readonly WallStrip[] {
  const inner = outlinePoints(kiln.chamber.plan);
  const outer = outlinePoints(grownOutline(kiln.chamber.plan, kiln.wall.thickness));
  const top = at(kiln.chamber.height);
  return inner.map((from, i) => {
    const next = (i + 1) % inner.length;
    const to = inner[next];
    const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
    const length = Math.hypot(dx, dy);
    const [outX, outY] = [dy / length, -dx / length];
    const brick = plateSolid([from, outer[i], outer[next], to], 0, top);
    const inward = ([x, y]: PlanPoint): PlanPoint => [x - outX * coil, y - outY * coil];
    const rows = kiln.rows
      .filter(({ walls }) => runsOn(kiln, walls, outX, outY))
      .map(({ z, height }) => plateSolid([inward(from), from, to, inward(to)], at(z) - height / 2, at(z) + height / 2));
    return { outX, outY, brick, rows: rows.length > 0 ? joined(rows) : null };
  });
}

function runsOn(kiln: Kiln, walls: Kiln["rows"][number]["walls"], outX: number, outY: number): boolean {
  if (kiln.chamber.plan.kind !== "rectangle") return true;
  const side = Math.abs(outX) > Math.abs(outY) ? (outX < 0 ? "left" : "right") : outY < 0 ? "front" : "back";
  return (walls ?? ["left", "right", "back"]).includes(side);
}
