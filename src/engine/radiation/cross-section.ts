import type { Body } from "#engine/kiln";

/** A point of a cross-section: [distance from the axis, height] [m]. */
export type Point = readonly [number, number];

/**
 * Half a cross-section of a thrown form: its outside from the foot up, and its inside from the floor up.
 *
 * An open form's lines end at the lip, a closed one's on the axis. `inside` is null where there is no room for one.
 */
export interface CrossSection {
  readonly outside: readonly Point[];
  readonly inside: readonly Point[] | null;
  readonly wall: number;
}

/** Outlines are straightened to this [m]. */
const tolerance = 0.0012;

/**
 * Cross-section of a body of revolution, with a lid of `lidHeight` put on as a low cone.
 *
 * The inside lies `wall` from the outside everywhere, measured square to it; the floor is `wall` thick.
 */
export function crossSection(body: Extract<Body, { kind: "revolution" }>, lidHeight: number): CrossSection {
  const { wall } = body;
  const profile = withLid(body, lidHeight);
  const closed = body.closed || lidHeight > 0;
  const outside = straighten(profile, tolerance);
  const top = (outside.at(-1) as Point)[1];
  const low = wall;
  const high = closed ? top - wall : top;
  if (!(high > low + 1e-4)) return { outside, inside: null, wall };

  const levels = 32;
  const inside: Point[] = [];
  for (let i = 0; i <= levels; i++) {
    const z = low + ((high - low) * i) / levels;
    const r = innerRadius(outside, wall, z);
    // Room begins at the lowest level wide enough, and an opening never closes again.
    if (inside.length === 0 && r < 0.002) continue;
    inside.push([Math.max(r, 0.0005), z]);
  }
  if (inside.length < 2) return { outside, inside: null, wall };
  if (closed) inside.push([0, Math.max(high, inside.at(-1)![1]) + 1e-5]);
  return { outside, inside: straighten(inside, Math.max(tolerance, 0.4 * wall)), wall };
}

function withLid(body: Extract<Body, { kind: "revolution" }>, lidHeight: number): readonly Point[] {
  const profile = body.profile.map(([r, z]): Point => [Math.max(r, 0), z]);
  const first = profile[0];
  if (first[1] > 1e-6) profile.unshift([Math.min(body.foot, first[0]), 0]);
  const [r, z] = profile.at(-1)!;
  if (lidHeight > 0 && r > 0) {
    profile.push([r * 0.35, z + lidHeight * 0.6], [r * 0.15, z + lidHeight], [0, z + lidHeight + 1e-5]);
  } else if (body.closed && r > 0) profile.push([0, z + 1e-5]);
  return profile;
}

/** Radius at height z of the room that stays `wall` clear of the outside line: 0 or less if there is none. */
function innerRadius(outside: readonly Point[], wall: number, z: number): number {
  let least = Infinity;
  for (let i = 0; i < outside.length; i++) {
    const [r0, z0] = outside[i];
    const away = z - z0;
    if (Math.abs(away) < wall) least = Math.min(least, r0 - Math.sqrt(wall * wall - away * away));
    const next = outside[i + 1];
    if (!next) continue;
    const length = Math.hypot(next[0] - r0, next[1] - z0);
    // The line moved inward, square to itself.
    const nr = -(next[1] - z0) / length;
    const nz = (next[0] - r0) / length;
    const start = z0 + wall * nz;
    const end = next[1] + wall * nz;
    if (z >= Math.min(start, end) && z <= Math.max(start, end)) {
      const share = Math.abs(end - start) < 1e-12 ? 0 : (z - start) / (end - start);
      least = Math.min(least, r0 + wall * nr + share * (next[0] - r0));
    }
  }
  return least;
}

/** Leaves out points that lie within `limit` of the line through those kept (Douglas and Peucker). */
export function straighten(points: readonly Point[], limit: number): readonly Point[] {
  const keep = new Set([0, points.length - 1]);
  const visit = (first: number, last: number): void => {
    const [ar, az] = points[first];
    const [br, bz] = points[last];
    const length = Math.hypot(br - ar, bz - az);
    let worst = limit;
    let at = -1;
    for (let i = first + 1; i < last; i++) {
      const [r, z] = points[i];
      const off =
        length < 1e-12 ? Math.hypot(r - ar, z - az) : Math.abs((br - ar) * (z - az) - (bz - az) * (r - ar)) / length;
      if (off > worst) {
        worst = off;
        at = i;
      }
    }
    if (at < 0) return;
    keep.add(at);
    visit(first, at);
    visit(at, last);
  };
  visit(0, points.length - 1);
  return points.filter((point, i) => {
    if (!keep.has(i)) return false;
    const before = points[i - 1];
    return !before || Math.hypot(point[0] - before[0], point[1] - before[1]) > 1e-9;
  });
}

/** Length along a line from its start to each of its points. */
export function lengths(points: readonly Point[]): readonly number[] {
  const along = [0];
  for (let i = 1; i < points.length; i++) {
    const [r0, z0] = points[i - 1];
    const [r1, z1] = points[i];
    along.push(along[i - 1] + Math.hypot(r1 - r0, z1 - z0));
  }
  return along;
}

/** Point at a length along a line. */
export function pointAlong(points: readonly Point[], along: readonly number[], at: number): Point {
  let i = 1;
  while (i < points.length - 1 && along[i] < at) i++;
  const [r0, z0] = points[i - 1];
  const [r1, z1] = points[i];
  const from = along[i - 1];
  const share = Math.min(1, Math.max(0, (at - from) / (along[i] - from || 1)));
  return [r0 + share * (r1 - r0), z0 + share * (z1 - z0)];
}

/** Part of a line between two lengths along it, ends included. */
export function partOf(points: readonly Point[], along: readonly number[], from: number, to: number): readonly Point[] {
  const part: Point[] = [pointAlong(points, along, from)];
  points.forEach((point, i) => {
    if (along[i] > from + 1e-9 && along[i] < to - 1e-9) part.push(point);
  });
  part.push(pointAlong(points, along, to));
  return part;
}

/** Length along `line` of its point nearest to `point`. */
export function nearestAlong(line: readonly Point[], along: readonly number[], point: Point): number {
  let best = Infinity;
  let at = 0;
  for (let i = 0; i + 1 < line.length; i++) {
    const [r0, z0] = line[i];
    const [r1, z1] = line[i + 1];
    const square = (r1 - r0) ** 2 + (z1 - z0) ** 2;
    const share = Math.min(1, Math.max(0, ((point[0] - r0) * (r1 - r0) + (point[1] - z0) * (z1 - z0)) / square));
    const off = Math.hypot(point[0] - r0 - share * (r1 - r0), point[1] - z0 - share * (z1 - z0));
    if (off < best) {
      best = off;
      at = along[i] + share * Math.sqrt(square);
    }
  }
  return at;
}

/**
 * Volume swept by turning a closed polygon of the half plane right round the axis [m3] (Pappus): positive if it runs
 * counter-clockwise, the radius to the right and the height up.
 */
export function volumeOfRevolution(polygon: readonly Point[]): number {
  let sum = 0;
  for (let i = 0; i < polygon.length; i++) {
    const [r0, z0] = polygon[i];
    const [r1, z1] = polygon[(i + 1) % polygon.length];
    sum += (r0 + r1) * (r0 * z1 - r1 * z0);
  }
  return (Math.PI / 3) * sum;
}

/** Area of a polygon of the half plane [m2]. */
export function areaOfPolygon(polygon: readonly Point[]): number {
  let sum = 0;
  for (let i = 0; i < polygon.length; i++) {
    const [r0, z0] = polygon[i];
    const [r1, z1] = polygon[(i + 1) % polygon.length];
    sum += r0 * z1 - r1 * z0;
  }
  return Math.abs(sum) / 2;
}
