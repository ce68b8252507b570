import { requireNotNegative, requireThat } from "#base";
import type { Metres, Radians } from "#engine/units";

/*
 * Surfaces that rays can hit, all with a vertical axis. A surface has a front (where its normal points) and a back;
 * both stop a ray. Lengths in metres in one common frame, z up.
 *
 *   band   the mantle of a cylinder or cone frustum, optionally only beyond a chord
 *   plate  a horizontal rounded box in the plan: disc, annulus, rectangle, stadium; optionally only beyond a chord
 *   panel  an upright rectangle
 *   box    an upright box turned about its axis; its six faces are numbered in `boxFace`
 */
export const solidKind = { band: 0, plate: 1, panel: 2, box: 3 } as const;

/** Faces of a box: along its own +x, -x, +y, -y, then top and bottom. */
export const boxFace = { right: 0, left: 1, back: 2, front: 3, top: 4, bottom: 5 } as const;

/** Keeps what lies at x·nx + y·ny >= distance. */
export interface Chord {
  readonly nx: number;
  readonly ny: number;
  readonly distance: Metres;
}

export interface Band {
  readonly x: Metres;
  readonly y: Metres;
  readonly r0: Metres;
  readonly z0: Metres;
  readonly r1: Metres;
  readonly z1: Metres;
  /** True if its front looks away from the axis. */
  readonly outward: boolean;
  readonly chord?: Chord | undefined;
}

export interface Plate {
  readonly x: Metres;
  readonly y: Metres;
  readonly z: Metres;
  readonly angle?: Radians | undefined;
  readonly halfX?: Metres | undefined;
  readonly halfY?: Metres | undefined;
  /** The core box grown by this: the radius of a disc. */
  readonly radius?: Metres | undefined;
  /** Radius of a round hole about the centre; only where there is no core box. */
  readonly hole?: Metres | undefined;
  /** True if its front looks up. */
  readonly up: boolean;
  readonly chord?: Chord | undefined;
}

export interface Panel {
  readonly x0: Metres;
  readonly y0: Metres;
  readonly x1: Metres;
  readonly y1: Metres;
  readonly z0: Metres;
  readonly z1: Metres;
  /** True if its front is on the left when going from (x0, y0) to (x1, y1), seen from above. */
  readonly left: boolean;
}

export interface Box {
  readonly x: Metres;
  readonly y: Metres;
  readonly angle: Radians;
  readonly halfX: Metres;
  readonly halfY: Metres;
  readonly z0: Metres;
  readonly z1: Metres;
}

/** Numbers per solid in `Solids.data`. */
export const solidStride = 14;

/*
 * Order of a solid's numbers. `side` is +1 or -1; a missing chord is nx = ny = 0, distance = -1: it keeps everything.
 *   band   x y r0 z0 slope zLow zHigh side nx ny distance
 *   plate  x y z cos sin halfX halfY radius² side hole² nx ny distance
 *   panel  x0 y0 ux uy length z0 z1 nx ny          (u along, n the front normal)
 *   box    x y cos sin halfX halfY z0 z1
 */
export interface Solids {
  readonly count: number;
  readonly kind: Uint8Array;
  readonly data: Float64Array;
  /** Least x, y, z, greatest x, y, z, six per solid. */
  readonly bounds: Float64Array;
}

export interface SolidsBuilder {
  /** Each returns the solid's index. @throws RangeError for a size that is negative or not finite. */
  readonly band: (band: Band) => number;
  readonly plate: (plate: Plate) => number;
  readonly panel: (panel: Panel) => number;
  readonly box: (box: Box) => number;
  readonly build: () => Solids;
}

export function solidsBuilder(): SolidsBuilder {
  const kinds: number[] = [];
  const data: number[] = [];
  const bounds: number[] = [];
  const add = (kind: number, numbers: readonly number[], box: readonly number[]): number => {
    requireThat(numbers.every(Number.isFinite), "solid", numbers.join(" "), "finite numbers");
    kinds.push(kind);
    data.push(...numbers, ...Array.from({ length: solidStride - numbers.length }, () => 0));
    bounds.push(...box);
    return kinds.length - 1;
  };
  const chordNumbers = (chord: Chord | undefined): readonly number[] =>
    chord ? [chord.nx, chord.ny, chord.distance] : [0, 0, -1];
  return {
    band: ({ x, y, r0, z0, r1, z1, outward, chord }) => {
      requireNotNegative(r0, "band.r0", "m");
      requireNotNegative(r1, "band.r1", "m");
      requireThat(z0 !== z1, "band.z1", z1, "another height than z0 (a flat ring is a plate)");
      const r = Math.max(r0, r1);
      const [low, high] = z0 < z1 ? [z0, z1] : [z1, z0];
      return add(
        solidKind.band,
        [x, y, r0, z0, (r1 - r0) / (z1 - z0), low, high, outward ? 1 : -1, ...chordNumbers(chord)],
        [x - r, y - r, low, x + r, y + r, high],
      );
    },
    plate: ({ x, y, z, angle = 0, halfX = 0, halfY = 0, radius = 0, hole = 0, up, chord }) => {
      for (const [name, value] of Object.entries({ halfX, halfY, radius, hole })) {
        requireNotNegative(value, `plate.${name}`, "m");
      }
      const cos = Math.cos(angle);
      const sin = Math.sin(angle);
      const ex = Math.abs(cos) * halfX + Math.abs(sin) * halfY + radius;
      const ey = Math.abs(sin) * halfX + Math.abs(cos) * halfY + radius;
      return add(
        solidKind.plate,
        [x, y, z, cos, sin, halfX, halfY, radius * radius, up ? 1 : -1, hole * hole, ...chordNumbers(chord)],
        [x - ex, y - ey, z, x + ex, y + ey, z],
      );
    },
    panel: ({ x0, y0, x1, y1, z0, z1, left }) => {
      const length = Math.hypot(x1 - x0, y1 - y0);
      requireThat(length > 0 && z1 > z0, "panel", `${length} by ${z1 - z0} m`, "two sides above 0 m");
      const ux = (x1 - x0) / length;
      const uy = (y1 - y0) / length;
      const side = left ? 1 : -1;
      return add(
        solidKind.panel,
        [x0, y0, ux, uy, length, z0, z1, -uy * side, ux * side],
        [Math.min(x0, x1), Math.min(y0, y1), z0, Math.max(x0, x1), Math.max(y0, y1), z1],
      );
    },
    box: ({ x, y, angle, halfX, halfY, z0, z1 }) => {
      requireThat(halfX > 0 && halfY > 0 && z1 > z0, "box", `${halfX} ${halfY} ${z1 - z0} m`, "three sides above 0 m");
      const cos = Math.cos(angle);
      const sin = Math.sin(angle);
      const ex = Math.abs(cos) * halfX + Math.abs(sin) * halfY;
      const ey = Math.abs(sin) * halfX + Math.abs(cos) * halfY;
      return add(solidKind.box, [x, y, cos, sin, halfX, halfY, z0, z1], [x - ex, y - ey, z0, x + ex, y + ey, z1]);
    },
    build: () => ({
      count: kinds.length,
      kind: Uint8Array.from(kinds),
      data: Float64Array.from(data),
      bounds: Float64Array.from(bounds),
    }),
  };
}
