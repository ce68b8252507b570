/**
 * A body as triangles, for pictures in space and for 3-D files: never for the computation of heat.
 *
 * Metres, z up, counter-clockwise seen from outside. Vertices at sharp edges are there once for each side.
 */
export interface Solid {
  /** x, y, z of each vertex [m]. */
  readonly positions: Float32Array;
  /** Unit vectors, as `positions`. */
  readonly normals: Float32Array;
  /** Two coordinates of each vertex along the surface [m], for hatches. Round bodies close after whole `hatchTile`s. */
  readonly surface: Float32Array;
  /** Three vertices each. */
  readonly triangles: Uint32Array;
}

/** Hatches that repeat after this length meet themselves behind a round body [m]. */
export const hatchTile = 0.04;

export type Point3 = readonly [x: number, y: number, z: number];

/** A solid being put together. */
export interface SolidBuilder {
  /** Number of the new vertex. */
  readonly vertex: (at: Point3, normal: Point3, u: number, v: number) => number;
  readonly triangle: (a: number, b: number, c: number) => void;
  /** A flat face of any number of corners, convex, counter-clockwise seen from outside. */
  readonly face: (corners: readonly Point3[]) => void;
  readonly done: () => Solid;
}

export function solidBuilder(): SolidBuilder {
  const positions: number[] = [];
  const normals: number[] = [];
  const surface: number[] = [];
  const triangles: number[] = [];
  const vertex: SolidBuilder["vertex"] = (at, normal, u, v) => {
    positions.push(...at);
    normals.push(...normal);
    surface.push(u, v);
    return positions.length / 3 - 1;
  };
  return {
    vertex,
    triangle: (a, b, c) => void triangles.push(a, b, c),
    face: (corners) => {
      const normal = normalOf(corners);
      const flat = Math.abs(normal[2]) > 0.7;
      const along: Point3 = flat ? [1, 0, 0] : unit([-normal[1], normal[0], 0]);
      const across = cross(normal, along);
      const numbers = corners.map((corner) => vertex(corner, normal, dot(corner, along), dot(corner, across)));
      for (let i = 2; i < numbers.length; i++) triangles.push(numbers[0], numbers[i - 1], numbers[i]);
    },
    done: () => ({
      positions: Float32Array.from(positions),
      normals: Float32Array.from(normals),
      surface: Float32Array.from(surface),
      triangles: Uint32Array.from(triangles),
    }),
  };
}

/** Several solids as one. */
export function joined(solids: readonly Solid[]): Solid {
  const vertices = solids.map(({ positions }) => positions.length / 3);
  const size = (of: (solid: Solid) => ArrayLike<number>): number =>
    solids.reduce((sum, solid) => sum + of(solid).length, 0);
  const whole = {
    positions: new Float32Array(size((solid) => solid.positions)),
    normals: new Float32Array(size((solid) => solid.normals)),
    surface: new Float32Array(size((solid) => solid.surface)),
    triangles: new Uint32Array(size((solid) => solid.triangles)),
  };
  let before = 0;
  let corner = 0;
  solids.forEach((solid, i) => {
    whole.positions.set(solid.positions, before * 3);
    whole.normals.set(solid.normals, before * 3);
    whole.surface.set(solid.surface, before * 2);
    for (const number of solid.triangles) {
      whole.triangles[corner] = number + before;
      corner += 1;
    }
    before += vertices[i];
  });
  return whole;
}

/**
 * Volume enclosed by a closed solid [m3], negative if it is inside out.
 *
 * Sum of the signed volumes of the tetrahedra from the origin to each triangle.
 */
export function volumeOf({ positions, triangles }: Solid): number {
  const at = (number: number): Point3 => [positions[number * 3], positions[number * 3 + 1], positions[number * 3 + 2]];
  let volume = 0;
  for (let i = 0; i < triangles.length; i += 3) {
    volume += dot(at(triangles[i]), cross(at(triangles[i + 1]), at(triangles[i + 2]))) / 6;
  }
  return volume;
}

export const dot = (a: Point3, b: Point3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
export const cross = (a: Point3, b: Point3): Point3 => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
export function unit(a: Point3): Point3 {
  const length = Math.hypot(...a);
  return length > 0 ? [a[0] / length, a[1] / length, a[2] / length] : [0, 0, 1];
}

/** Newell's normal: right for any flat polygon, whichever corners fall together. */
function normalOf(corners: readonly Point3[]): Point3 {
  let sum: Point3 = [0, 0, 0];
  corners.forEach((corner, i) => {
    const next = corners[(i + 1) % corners.length];
    sum = [
      sum[0] + (corner[1] - next[1]) * (corner[2] + next[2]),
      sum[1] + (corner[2] - next[2]) * (corner[0] + next[0]),
      sum[2] + (corner[0] - next[0]) * (corner[1] + next[1]),
    ];
  });
  return unit(sum);
}
