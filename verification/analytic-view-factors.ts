/*
 * Closed forms of view factors between simple surfaces, as references for traced ones. All lengths in one unit; all
 * results [-]. Source of all: [howell-catalog], with its numbers where known; string rule [hottel-strings].
 */

/** From one rectangle `a` by `b` to an equal one straight opposite at distance `c`. Catalogue C-11. */
export function oppositeRectangles(a: number, b: number, c: number): number {
  const x = a / c;
  const y = b / c;
  const x1 = Math.sqrt(1 + x * x);
  const y1 = Math.sqrt(1 + y * y);
  const log = Math.log(((1 + x * x) * (1 + y * y)) / (1 + x * x + y * y)) / 2;
  const sum = log + x * y1 * Math.atan(x / y1) + y * x1 * Math.atan(y / x1) - x * Math.atan(x) - y * Math.atan(y);
  return (2 * sum) / (Math.PI * x * y);
}

/**
 * From a rectangle of width `w` to one of height `h` square to it, both of length `l` along the edge they share.
 * Catalogue C-14.
 */
export function rectanglesAtRightAngle(w: number, h: number, l: number): number {
  const W = w / l;
  const H = h / l;
  const w2 = W * W;
  const h2 = H * H;
  const both = Math.sqrt(h2 + w2);
  const log =
    Math.log(((1 + w2) * (1 + h2)) / (1 + w2 + h2)) +
    w2 * Math.log((w2 * (1 + w2 + h2)) / ((1 + w2) * (w2 + h2))) +
    h2 * Math.log((h2 * (1 + h2 + w2)) / ((1 + h2) * (h2 + w2)));
  const sum = W * Math.atan(1 / W) + H * Math.atan(1 / H) - both * Math.atan(1 / both) + log / 4;
  return sum / (Math.PI * W);
}

/** From a disc of radius `r1` to a coaxial disc of radius `r2` at distance `a`. Catalogue C-41 (C-40 if equal). */
export function coaxialDiscs(r1: number, r2: number, a: number): number {
  const ratio = r2 / r1;
  const x = 1 + (a * a + r2 * r2) / (r1 * r1);
  // (x - √(x² - 4 ratio²)) / 2 without cancellation.
  return (2 * ratio * ratio) / (x + Math.sqrt(x * x - 4 * ratio * ratio));
}

/**
 * From a ring `inner1`..`outer1` to a coaxial ring `inner2`..`outer2` at distance `a`, nothing in between.
 * Sums and differences of coaxial discs.
 */
export function coaxialRings(inner1: number, outer1: number, inner2: number, outer2: number, a: number): number {
  const exchange = (r1: number, r2: number): number => (r1 > 0 && r2 > 0 ? r1 * r1 * coaxialDiscs(r1, r2, a) : 0);
  const sum = exchange(outer1, outer2) - exchange(inner1, outer2) - exchange(outer1, inner2) + exchange(inner1, inner2);
  return sum / (outer1 * outer1 - inner1 * inner1);
}

/** From the floor of an open cylinder of radius `r` and height `h` to its inner wall: what its mouth leaves. */
export function discToCylinderWall(r: number, h: number): number {
  return 1 - coaxialDiscs(r, r, h);
}

/** From the inner wall of a cylinder of radius `r` and height `h` to itself. */
export function cylinderWallToItself(r: number, h: number): number {
  // The wall sees both mouths by reciprocity with discToCylinderWall.
  return 1 - (2 * discToCylinderWall(r, h) * r * r) / (2 * r * h);
}

/**
 * From a cylindrical band between heights z0 and z1 of a wall of radius `r` to another band z2..z3 above it
 * (z1 <= z2), by sums of discs across the cylinder.
 */
export function cylinderBands(r: number, z0: number, z1: number, z2: number, z3: number): number {
  // Exchange areas between cross-sections; a band is what passes its lower section but not its upper one.
  const disc = (z: number, other: number): number => (other === z ? r * r : r * r * coaxialDiscs(r, r, other - z));
  const sum = disc(z1, z2) - disc(z1, z3) - disc(z0, z2) + disc(z0, z3);
  return sum / (2 * r * (z1 - z0));
}

/**
 * From the inside of an outer cylinder (radius `outer`) to the outside of a coaxial inner one (radius `inner`), both
 * of length `length`. Catalogue C-91.
 */
export function outerToInnerCylinder(inner: number, outer: number, length: number): number {
  const r = outer / inner;
  const h = length / inner;
  const a = h * h + r * r - 1;
  const b = h * h - r * r + 1;
  const part =
    Math.sqrt((a + 2) ** 2 - (2 * r) ** 2) * Math.acos(b / (r * a)) + b * Math.asin(1 / r) - (Math.PI * a) / 2;
  return (1 - (Math.acos(b / a) - part / (2 * h)) / Math.PI) / r;
}

/**
 * The same from the inner to the outer cylinder, in the other form found in the literature: an independent check of
 * the form above. Source: [hamilton-morgan]
 */
export function innerToOuterCylinder(inner: number, outer: number, length: number): number {
  const r1 = inner / length;
  const r2 = outer / length;
  const a = r2 + r1;
  const b = r2 - r1;
  const root = Math.sqrt(((1 + a * a) * b) / ((1 + b * b) * a));
  const sum =
    0.5 * (r2 * r2 - r1 * r1 - 1) * Math.acos(r1 / r2) +
    Math.PI * r1 -
    (Math.PI / 2) * a * b -
    2 * r1 * Math.atan(Math.sqrt(r2 * r2 - r1 * r1)) +
    Math.sqrt((1 + a * a) * (1 + b * b)) * Math.atan(root);
  return sum / (Math.PI * r1);
}

/** From the inside of an outer cylinder to itself, past a coaxial inner one that hides part of it. Catalogue C-92. */
export function outerCylinderToItself(inner: number, outer: number, length: number): number {
  const r = outer / inner;
  const h = length / inner;
  const r2 = r * r;
  const h2 = h * h;
  const d = Math.sqrt(4 * r2 + h2) / h;
  const e = (4 * (r2 - 1) + (h2 / r2) * (r2 - 2)) / (h2 + 4 * (r2 - 1));
  const f = (r2 - 2) / r2;
  const sum = (2 / r) * Math.atan((2 * Math.sqrt(r2 - 1)) / h) - (h / (2 * r)) * (d * Math.asin(e) - Math.asin(f));
  return 1 - 1 / r - (Math.sqrt(4 * r2 + h2) - h) / (4 * r) + sum / Math.PI;
}

/**
 * From one endless strip of width `w` to an equal one opposite at distance `d`, with an opaque strip of width `b`
 * centred half way between them. Crossed strings: one pair passes each end of the strip in the middle.
 */
export function stripsPastStrip(w: number, d: number, b: number): number {
  return (2 * Math.hypot((w - b) / 2, d / 2) - d) / w;
}
