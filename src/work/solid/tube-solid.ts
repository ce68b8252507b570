import { cross, solidBuilder, unit, type Point3, type Solid } from "./solid.ts";

/** One cross-section of a tube in the plane y = 0: its middle, and half its size in that plane and across (along y). */
export interface TubeSection {
  readonly x: number;
  readonly z: number;
  /** Unit vector in the plane, across the tube. */
  readonly acrossX: number;
  readonly acrossZ: number;
  readonly half: number;
  readonly halfY: number;
}

const sides = 10;

/** An oval tube through sections in the plane y = 0, closed at both ends: a handle's strap, a spout. */
export function tubeSolid(sections: readonly TubeSection[]): Solid {
  const build = solidBuilder();
  const rings = sections.map((section) => ringOf(section));
  let along = 0;
  const numbers = rings.map((ring, i) => {
    if (i > 0) along += Math.hypot(sections[i].x - sections[i - 1].x, sections[i].z - sections[i - 1].z);
    return ring.map(({ at, normal }, k) => build.vertex(at, normal, (0.04 * k) / sides, along));
  });
  // Which way round the rings run against the way along: so that faces look outward.
  const forward = facesOutward(rings);
  for (let i = 1; i < numbers.length; i++) {
    for (let k = 0; k < sides; k++) {
      const [a, b] = [numbers[i - 1][k], numbers[i - 1][k + 1]];
      const [c, d] = [numbers[i][k + 1], numbers[i][k]];
      if (forward) {
        build.triangle(a, b, c);
        build.triangle(a, c, d);
      } else {
        build.triangle(a, c, b);
        build.triangle(a, d, c);
      }
    }
  }
  const cap = (ring: Ring, outward: boolean): void => {
    const corners = ring.slice(0, sides).map(({ at }) => at);
    build.face(outward ? corners : corners.reverse());
  };
  cap(rings[0], !forward);
  cap(rings[rings.length - 1], forward);
  return build.done();
}

type Ring = readonly { readonly at: Point3; readonly normal: Point3 }[];

function ringOf({ x, z, acrossX, acrossZ, half, halfY }: TubeSection): Ring {
  return Array.from({ length: sides + 1 }, (_, k) => {
    const turn = (2 * Math.PI * (k % sides)) / sides;
    const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
    return {
      at: [x + half * cos * acrossX, halfY * sin, z + half * cos * acrossZ],
      normal: unit([halfY * cos * acrossX, half * sin, halfY * cos * acrossZ]),
    };
  });
}

function facesOutward(rings: readonly Ring[]): boolean {
  const [first, second] = [rings[0][0], rings[1][0]];
  const ahead: Point3 = [second.at[0] - first.at[0], second.at[1] - first.at[1], second.at[2] - first.at[2]];
  const beside = rings[0][1].at;
  const round: Point3 = [beside[0] - first.at[0], beside[1] - first.at[1], beside[2] - first.at[2]];
  const facing = cross(round, ahead);
  return facing[0] * first.normal[0] + facing[1] * first.normal[1] + facing[2] * first.normal[2] > 0;
}
