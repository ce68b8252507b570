import { bodyRadius, type Attachment, type Shape } from "#engine/kiln";
import type { Metres, Radians } from "#engine/units";

/** A point of a side view: right of the axis, above the foot [m]. */
export type SidePoint = readonly [right: Metres, up: Metres];

/** A handle as seen from the side: a strap along a curve. */
export interface SideStrap {
  readonly centre: readonly SidePoint[];
  /** As seen: a strap seen edge-on looks as wide as it is across. */
  readonly width: Metres;
  /** Drawn over the body (it points at the viewer) or under it. */
  readonly inFront: boolean;
}

/** What a shape looks like from the side, to scale, standing on its foot at (0, 0). */
export interface Silhouette {
  /** Closed outline of the body, from the foot counter-clockwise. */
  readonly body: readonly SidePoint[];
  readonly handle: SideStrap | null;
  /** Closed outline, and whether it is drawn over the body. */
  readonly spout: { readonly outline: readonly SidePoint[]; readonly inFront: boolean } | null;
  /** Closed outline of a lid fired in place. */
  readonly lid: readonly SidePoint[] | null;
  /** Lines on the body: the inside below a rim, the near edges of a box. */
  readonly lines: readonly (readonly [SidePoint, SidePoint])[];
  /** Farthest point to either side of the axis, all parts counted. */
  readonly left: Metres;
  readonly right: Metres;
  readonly height: Metres;
}

/**
 * Outline of a shape seen from the side, for the cut-open kiln, the bench and the sheet.
 *
 * The body is the profile itself, drawn round where the profile turns gently. Handles and spouts are known only by
 * reach and height, so their curve is ours; their extent is the shape's.
 *
 * @param turn angle from the viewer's right to the shape's +x (its handle), counter-clockwise seen from above [rad]
 */
export function silhouetteOf(shape: Shape, turn: Radians = 0): Silhouette {
  const cos = Math.cos(turn);
  const sin = Math.sin(turn);
  const sides = bodySides(shape, cos, sin);
  const handle = shape.handle ? strapOf(shape, shape.handle, cos, sin) : null;
  const spout = shape.spout
    ? // The spout leaves on the -x side: seen under the turn of that side. Turned away it is hidden by the body.
      { outline: spoutOf(shape, shape.spout, -cos, sin), inFront: sin > 0.2 }
    : null;
  const lid = shape.lidHeight > 0 ? lidOf(shape) : null;
  const points = [...sides.body, ...(spout?.outline ?? []), ...(lid ?? [])];
  const strap = handle?.centre.map(([right]) => right) ?? [];
  const half = (handle?.width ?? 0) / 2;
  return {
    body: sides.body,
    handle,
    spout,
    lid,
    lines: sides.lines,
    left: Math.min(...points.map(([right]) => right), ...strap.map((right) => right - half)),
    right: Math.max(...points.map(([right]) => right), ...strap.map((right) => right + half)),
    height: Math.max(...points.map(([, up]) => up)),
  };
}

function bodySides(
  shape: Shape,
  cos: number,
  sin: number,
): { readonly body: readonly SidePoint[]; readonly lines: readonly (readonly [SidePoint, SidePoint])[] } {
  const { body } = shape;
  if (body.kind === "revolution") {
    const right = smoothProfile(body.profile, body.closed);
    const left = right.map(([r, z]): SidePoint => [-r, z]).reverse();
    return { body: [...right, ...left], lines: rimLine(shape) };
  }
  const height = body.kind === "box" ? body.height : body.thickness;
  const half = (Math.abs(cos) * body.width + Math.abs(sin) * body.depth) / 2;
  const outline: SidePoint[] = [
    [-half, 0],
    [half, 0],
    [half, height],
    [-half, height],
  ];
  if (body.kind === "slab") return { body: outline, lines: [] };
  // Two faces of a turned box show: the near edge between them.
  const edges = [1, -1].flatMap((sx) =>
    [1, -1].map((sy) => ({
      right: (sx * body.width * cos - sy * body.depth * sin) / 2,
      depth: (sx * body.width * sin + sy * body.depth * cos) / 2,
    })),
  );
  const near = edges.reduce((a, b) => (b.depth < a.depth ? b : a));
  const lines: [SidePoint, SidePoint][] =
    Math.abs(near.right) < half * 0.98
      ? [
          [
            [near.right, 0],
            [near.right, height],
          ],
        ]
      : [];
  if (!body.closed && body.wall > 0 && height > 0.03)
    lines.push([
      [-half, height - body.wall],
      [half, height - body.wall],
    ]);
  return { body: outline, lines };
}

/** The line inside an open rim, one wall below it. */
function rimLine(shape: Shape): (readonly [SidePoint, SidePoint])[] {
  const { body } = shape;
  if (body.kind !== "revolution" || body.closed) return [];
  const top = body.profile.at(-1)?.[1] ?? 0;
  if (top < 0.04) return [];
  const below = top - Math.max(body.wall, 0.005);
  const radius = radiusOfProfile(body.profile, below);
  return [
    [
      [-radius, below],
      [radius, below],
    ],
  ];
}

/** Radius of a profile at a height, straight between its points; its end radius beyond them [m]. */
export function radiusOfProfile(profile: readonly SidePoint[], height: Metres): Metres {
  let [radius, under] = profile[0] ?? [0, 0];
  if (height <= under) return radius;
  for (const [r, z] of profile) {
    if (z >= height) return z === under ? r : radius + ((r - radius) * (height - under)) / (z - under);
    [radius, under] = [r, z];
  }
  return radius;
}

const gentleTurn = (50 * Math.PI) / 180;
const stepsBetween = 6;

/**
 * The profile with points put between its own wherever it turns gently on both sides (Catmull-Rom, every given point
 * kept); sharp corners stay sharp, and no point lies outside the given points' own range of radius and height.
 */
export function smoothProfile(profile: readonly SidePoint[], closed: boolean): readonly SidePoint[] {
  const first = profile[0];
  // The foot is flat: the outline starts on the axis side of it in any case.
  if (!first || profile.length < 3) return profile;
  const mostRadius = Math.max(...profile.map(([r]) => r));
  const corner = profile.map((point, i) => {
    const before = profile[i - 1];
    const after = profile[i + 1];
    // A closed shape meets its mirror image on the axis: the top is round.
    if (!before || !after) return !(closed && i === profile.length - 1);
    const turn =
      Math.atan2(after[1] - point[1], after[0] - point[0]) - Math.atan2(point[1] - before[1], point[0] - before[0]);
    return Math.abs(Math.atan2(Math.sin(turn), Math.cos(turn))) > gentleTurn;
  });
  const points: SidePoint[] = [first];
  for (let i = 0; i + 1 < profile.length; i++) {
    const a = profile[i];
    const b = profile[i + 1];
    const before = corner[i] ? a : profile[i - 1];
    const after = corner[i + 1] ? b : (profile[i + 2] ?? ([-b[0], b[1]] as const));
    if (!(corner[i] && corner[i + 1])) {
      for (let step = 1; step < stepsBetween; step++) {
        const t = step / stepsBetween;
        const at = (axis: 0 | 1): number => catmullRom(before[axis], a[axis], b[axis], after[axis], t);
        const low = Math.min(a[1], b[1]);
        const high = Math.max(a[1], b[1]);
        points.push([Math.min(Math.max(at(0), 0), mostRadius), Math.min(Math.max(at(1), low), high)]);
      }
    }
    points.push(b);
  }
  return points;
}

function catmullRom(p0: number, p1: number, p2: number, p3: number, t: number): number {
  return (
    0.5 * (2 * p1 + (p2 - p0) * t + (2 * p0 - 5 * p1 + 4 * p2 - p3) * t ** 2 + (3 * p1 - p0 - 3 * p2 + p3) * t ** 3)
  );
}

function cubic(a: SidePoint, b: SidePoint, c: SidePoint, d: SidePoint, steps: number): SidePoint[] {
  return Array.from({ length: steps + 1 }, (_, i): SidePoint => {
    const t = i / steps;
    const u = 1 - t;
    const at = (axis: 0 | 1): number =>
      u ** 3 * a[axis] + 3 * u * u * t * b[axis] + 3 * u * t * t * c[axis] + t ** 3 * d[axis];
    return [at(0), at(1)];
  });
}

/** Distance of the body's surface from the axis at a height, along the handle's side [m]. */
function surfaceAt(shape: Shape, height: Metres): Metres {
  return shape.body.kind === "revolution" ? radiusOfProfile(shape.body.profile, height) : shape.body.width / 2;
}

function joinRadius(shape: Shape): Metres {
  return shape.body.kind === "revolution" ? bodyRadius(shape) : shape.body.width / 2;
}

function strapOf(shape: Shape, handle: Attachment, cos: number, sin: number): SideStrap {
  // Only its width across is known; a pulled strap is about half as thick.
  const thick = Math.min(handle.width / 2, handle.reach / 3, (handle.top - handle.bottom) / 3);
  const top = handle.top - thick / 2;
  const bottom = handle.bottom + thick / 2;
  const start = surfaceAt(shape, top) - thick / 2;
  const end = surfaceAt(shape, bottom) - thick / 2;
  const tip = joinRadius(shape) + handle.reach - thick / 2;
  // A cubic with both controls at r reaches r * 3/4 + mean(start, end) / 4.
  const control = (tip - (start + end) / 8) / 0.75;
  const centre = cubic([start, top], [control, top], [control, bottom], [end, bottom], 16).map(([r, z]): SidePoint => [
    r * cos,
    z,
  ]);
  return { centre, width: Math.hypot(thick * cos, handle.width * sin), inFront: sin < 0 };
}

function spoutOf(shape: Shape, spout: Attachment, cos: number, sin: number): readonly SidePoint[] {
  const { bottom, top } = spout;
  const tip = joinRadius(shape) + spout.reach;
  const rim = shape.body.kind === "revolution" ? (shape.body.profile.at(-1)?.[1] ?? top) : top;
  // A lip pulled from the rim starts at the rim; a teapot's spout starts low on the belly and is half as thick there.
  const lip = bottom > rim / 2 && top >= rim - 0.02;
  const upper = lip ? Math.min(rim, top) : bottom + (top - bottom) * 0.5;
  const mouth = lip ? 0 : Math.min((top - bottom) * 0.18, spout.width * 0.6);
  const low: SidePoint = [surfaceAt(shape, bottom) * 0.92, bottom];
  const high: SidePoint = [surfaceAt(shape, upper) * 0.92, upper];
  const bend = (low[0] + tip) / 2;
  const under = cubic(low, [bend, bottom], [bend, top - mouth], [tip, top - mouth], 10);
  const over = cubic([tip - mouth * 0.6, top], [bend, top - mouth], [(high[0] + bend) / 2, upper], high, 10);
  // Seen end-on it is as wide as it is across.
  const shift = (Math.abs(sin) * spout.width) / 2;
  const side = (points: readonly SidePoint[], by: number): SidePoint[] => points.map(([r, z]) => [r * cos + by, z]);
  if (Math.abs(cos) > 0.35) return [...side(under, 0), ...side(over, 0)];
  // A lip seen end-on is a fold in the rim: as wide as it is across, running to a point.
  if (lip) return [...side([low], 0), ...side([[tip, top]], shift), ...side([[tip, top]], -shift)];
  return [
    ...side([low, high], -shift),
    ...side([[tip, top]], -shift / 2),
    ...side([[tip, top]], shift / 2),
    ...side([high, low], shift),
  ];
}

/** A low dome on the rim with a knob: its width is the mouth's, its height the shape's `lidHeight`. */
function lidOf(shape: Shape): readonly SidePoint[] {
  const rim =
    shape.body.kind === "revolution"
      ? (shape.body.profile.at(-1)?.[1] ?? 0)
      : shape.body.kind === "box"
        ? shape.body.height
        : shape.body.thickness;
  const mouth = surfaceAt(shape, rim);
  const tall = shape.lidHeight;
  const dome = rim + tall * 0.5;
  const neck = Math.min(mouth * 0.22, tall * 0.3);
  const half: SidePoint[] = [
    ...cubic([mouth, rim], [mouth * 0.92, rim + tall * 0.3], [mouth * 0.5, dome], [neck, dome], 8),
    [neck * 0.8, rim + tall * 0.62],
    ...cubic(
      [neck * 1.2, rim + tall * 0.8],
      [neck * 1.2, rim + tall * 0.95],
      [neck * 0.6, rim + tall],
      [0, rim + tall],
      6,
    ),
  ];
  return [
    ...half,
    ...half
      .slice(0, -1)
      .reverse()
      .map(([r, z]): SidePoint => [-r, z]),
  ];
}
