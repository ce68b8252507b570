import { areaOf, type Outline } from "#engine/geometry";
import type { Metres } from "#engine/units";

/**
 * A flat region that can be seen whole from its centre, cut into rings and sectors of it: shelf, lid, floor, tile.
 *
 * Rings are shrunken copies of the outline (gauge = 1 on the edge, 0 in the centre); sectors are cut by rays from the
 * centre so that all have equal area. So a ring follows a straight edge as well as a round one.
 */
export interface Star {
  readonly shape: StarShape;
  /** Of the whole region [m2]. */
  readonly area: number;
  readonly sectors: number;
  /** Azimuths that cut the region into `sectors * slicesPerSector` slices of equal area, rising by 2 pi in all. */
  readonly slices: Float64Array;
}

/** Positions are taken from the region's centre, in its own frame. */
export type StarShape =
  | { readonly kind: "disc"; readonly radius: Metres }
  /** `offset`: from the centre of area to the straight edge, which lies on the +x side. */
  | { readonly kind: "half-disc"; readonly radius: Metres; readonly offset: Metres }
  | { readonly kind: "rounded"; readonly halfX: Metres; readonly halfY: Metres; readonly corner: Metres }
  | { readonly kind: "polygon"; readonly sides: number; readonly inradius: Metres; readonly rotation: number };

export const slicesPerSector = 16;

export function starShapeOf(outline: Outline): StarShape {
  switch (outline.kind) {
    case "disc":
      return outline;
    case "half-disc":
      return { kind: "half-disc", radius: outline.radius, offset: (4 * outline.radius) / (3 * Math.PI) };
    case "rectangle":
      return { kind: "rounded", halfX: outline.width / 2, halfY: outline.depth / 2, corner: 0 };
    case "polygon":
      return outline;
  }
}

/** Where the centre lies in the outline's own frame: only a half disc's is off its origin, at (-offset, 0). */
export function centreShift(shape: StarShape): Metres {
  return shape.kind === "half-disc" ? -shape.offset : 0;
}

export function starArea(shape: StarShape): number {
  switch (shape.kind) {
    case "rounded":
      return 4 * (shape.halfX + shape.corner) * (shape.halfY + shape.corner) - (4 - Math.PI) * shape.corner ** 2;
    default:
      return areaOf(shape);
  }
}

export function makeStar(shape: StarShape, sectors: number): Star {
  const count = sectors * slicesPerSector;
  const slices = new Float64Array(count + 1);
  if (shape.kind === "disc") {
    for (let i = 0; i <= count; i++) slices[i] = (2 * Math.PI * i) / count;
  } else {
    // Area swept from azimuth 0 by the midpoint rule on a fine fan, then inverted.
    const fine = 4096;
    const swept = new Float64Array(fine + 1);
    for (let i = 0; i < fine; i++) {
      const azimuth = (2 * Math.PI * (i + 0.5)) / fine;
      swept[i + 1] = swept[i] + gauge(shape, Math.cos(azimuth), Math.sin(azimuth)) ** -2;
    }
    const total = swept[fine];
    let at = 0;
    for (let i = 0; i <= count; i++) {
      const wanted = (total * i) / count;
      while (at < fine - 1 && swept[at + 1] < wanted) at++;
      const low = swept[at];
      const share = (wanted - low) / (swept[at + 1] - low);
      slices[i] = (2 * Math.PI * (at + share)) / fine;
    }
  }
  return { shape, area: starArea(shape), sectors, slices };
}

/** Which shrunken copy of the outline passes through (x, y): 0 at the centre, 1 on the edge [-]. */
export function gauge(shape: StarShape, x: number, y: number): number {
  switch (shape.kind) {
    case "disc":
      return Math.hypot(x, y) / shape.radius;
    case "half-disc": {
      const square = x * x + y * y;
      if (square === 0) return 0;
      // Round edge: |(-offset, 0) + q s| = radius at s = 1 / gauge.
      const along = -x * shape.offset;
      const s = (-along + Math.sqrt(along * along + square * (shape.radius ** 2 - shape.offset ** 2))) / square;
      return Math.max(1 / s, x / shape.offset);
    }
    case "rounded": {
      const ax = Math.abs(x);
      const ay = Math.abs(y);
      const { halfX, halfY, corner } = shape;
      const flat = Math.max(ax / (halfX + corner), ay / (halfY + corner));
      if (corner === 0 || !(ax > halfX * flat && ay > halfY * flat)) return flat;
      const square = ax * ax + ay * ay;
      const along = ax * halfX + ay * halfY;
      const rest = halfX * halfX + halfY * halfY - corner * corner;
      return square / (along + Math.sqrt(Math.max(along * along - square * rest, 0)));
    }
    case "polygon": {
      // The flat that faces (x, y): fold the azimuth into one side's share.
      const share = (2 * Math.PI) / shape.sides;
      const azimuth = (Math.atan2(y, x) - shape.rotation) / share;
      const off = (azimuth - Math.round(azimuth)) * share;
      return (Math.sqrt(x * x + y * y) * Math.cos(off)) / shape.inradius;
    }
  }
}

/** Centre to edge along `azimuth` [m]. */
export function reachOf(shape: StarShape, azimuth: number): Metres {
  return 1 / gauge(shape, Math.cos(azimuth), Math.sin(azimuth));
}

/** Sector that holds (x, y). */
export function sectorAt(star: Star, x: number, y: number): number {
  let azimuth = Math.atan2(y, x);
  if (azimuth < 0) azimuth += 2 * Math.PI;
  if (star.shape.kind === "disc") {
    return Math.min(star.sectors - 1, Math.floor((azimuth * star.sectors) / (2 * Math.PI)));
  }
  let low = 0;
  let high = star.sectors;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (star.slices[middle * slicesPerSector] <= azimuth) low = middle;
    else high = middle;
  }
  return low;
}

/** A stretch of the edge, counter-clockwise, from the centre, in the region's own frame. */
export type Edge =
  | { readonly kind: "line"; readonly x0: number; readonly y0: number; readonly x1: number; readonly y1: number }
  | {
      readonly kind: "arc";
      readonly x: number;
      readonly y: number;
      readonly radius: number;
      readonly from: number;
      readonly to: number;
    };

/** The stretches of edge between two azimuths, `from` < `to` <= 2 pi. */
export function edgesBetween(shape: StarShape, from: number, to: number): readonly Edge[] {
  const corners = cornersOf(shape).filter((azimuth) => azimuth > from + 1e-9 && azimuth < to - 1e-9);
  const stops = [from, ...corners, to];
  const edges: Edge[] = [];
  for (let i = 0; i + 1 < stops.length; i++) {
    const a = stops[i];
    const b = stops[i + 1];
    const arc = arcAt(shape, (a + b) / 2);
    // Just inside the stretch, so that a stop on a corner takes this stretch's side of it.
    const start = pointAt(shape, a);
    const end = pointAt(shape, b);
    if (arc) {
      const first = Math.atan2(start.y - arc.y, start.x - arc.x);
      let last = Math.atan2(end.y - arc.y, end.x - arc.x);
      if (last < first) last += 2 * Math.PI;
      edges.push({ kind: "arc", ...arc, from: first, to: last });
    } else if (Math.hypot(end.x - start.x, end.y - start.y) > 1e-9) {
      edges.push({ kind: "line", x0: start.x, y0: start.y, x1: end.x, y1: end.y });
    }
  }
  return edges;
}

function pointAt(shape: StarShape, azimuth: number): { readonly x: number; readonly y: number } {
  const reach = reachOf(shape, azimuth);
  return { x: reach * Math.cos(azimuth), y: reach * Math.sin(azimuth) };
}

/** Azimuths in 0..2 pi where the edge changes from one line or arc to the next, rising. */
function cornersOf(shape: StarShape): readonly number[] {
  const turn = (azimuth: number): number => (azimuth < 0 ? azimuth + 2 * Math.PI : azimuth);
  switch (shape.kind) {
    case "disc":
      // No corners, but an arc must stay under half a turn.
      return [Math.PI / 2, Math.PI, (3 * Math.PI) / 2];
    case "half-disc": {
      const corner = Math.atan2(shape.radius, shape.offset);
      return [corner, Math.PI, turn(-corner)].sort((a, b) => a - b);
    }
    case "rounded": {
      const { halfX, halfY, corner } = shape;
      const ends = [Math.atan2(halfY, halfX + corner), Math.atan2(halfY + corner, halfX)];
      return ends
        .flatMap((azimuth) => [azimuth, Math.PI - azimuth, Math.PI + azimuth, 2 * Math.PI - azimuth])
        .sort((a, b) => a - b)
        .filter((azimuth, i, all) => i === 0 || azimuth - all[i - 1] > 1e-9);
    }
    case "polygon":
      return Array.from({ length: shape.sides }, (_, side) => {
        const azimuth = shape.rotation + (2 * Math.PI * (side + 0.5)) / shape.sides;
        return ((azimuth % (2 * Math.PI)) + 2 * Math.PI) % (2 * Math.PI);
      }).sort((a, b) => a - b);
  }
}

function arcAt(shape: StarShape, azimuth: number): { x: number; y: number; radius: number } | null {
  switch (shape.kind) {
    case "disc":
      return { x: 0, y: 0, radius: shape.radius };
    case "half-disc": {
      const corner = Math.atan2(shape.radius, shape.offset);
      return azimuth > corner && azimuth < 2 * Math.PI - corner
        ? { x: shape.offset, y: 0, radius: shape.radius }
        : null;
    }
    case "rounded": {
      if (shape.corner === 0) return null;
      const { x, y } = pointAt(shape, azimuth);
      if (Math.abs(x) <= shape.halfX || Math.abs(y) <= shape.halfY) return null;
      return { x: Math.sign(x) * shape.halfX, y: Math.sign(y) * shape.halfY, radius: shape.corner };
    }
    case "polygon":
      return null;
  }
}
