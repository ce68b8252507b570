import { type RayBatch } from "#engine/geometry";
import { type Cover, type Scene } from "./scene.ts";
import { gauge } from "./star.ts";

/** How far above its patch a ray starts [m]: over the rounding of single precision, far under any gap. */
export const liftOff = 1e-6;

/**
 * Starts a ray from `patch` by the cosine law and writes it into a batch at `at`.
 *
 * The four numbers, each uniform in [0, 1), choose the point (evenly over the area) and the direction.
 *
 * @returns false, with nothing written, where the point lies under a cover
 */
export type RaySource = (
  patch: number,
  u: number,
  v: number,
  p: number,
  q: number,
  rays: RayBatch,
  at: number,
) => boolean;

export function raySource(scene: Scene): RaySource {
  const { emitters, covers } = scene;
  return (patch, u, v, p, q, rays, at) => {
    const choices = emitters[patch];
    let chosen = choices[0];
    let a = u;
    if (choices.length > 1) {
      let total = 0;
      for (const choice of choices) total += choice.area;
      let rest = u * total;
      for (const choice of choices) {
        chosen = choice;
        if (rest < choice.area) break;
        rest -= choice.area;
      }
      a = Math.min(rest / chosen.area, 1 - 2 ** -32);
    }
    if (chosen === undefined) return false;

    let x: number;
    let y: number;
    let z: number;
    let nx: number;
    let ny: number;
    let nz: number;
    switch (chosen.kind) {
      case "ring": {
        // Radius grows linearly along the slant: area up to a share s goes with r².
        const square = chosen.r0 * chosen.r0 + a * (chosen.r1 * chosen.r1 - chosen.r0 * chosen.r0);
        const r = Math.sqrt(square);
        const wide = chosen.r1 - chosen.r0;
        const share = Math.abs(wide) > 1e-9 * (chosen.r0 + chosen.r1) ? (r - chosen.r0) / wide : a;
        const azimuth = chosen.from + v * chosen.turn;
        const cos = Math.cos(azimuth);
        const sin = Math.sin(azimuth);
        x = chosen.x + r * cos;
        y = chosen.y + r * sin;
        z = chosen.z0 + share * (chosen.z1 - chosen.z0);
        nx = chosen.normalR * cos;
        ny = chosen.normalR * sin;
        nz = chosen.normalZ;
        break;
      }
      case "flat": {
        x = chosen.origin[0] + a * chosen.u[0] + v * chosen.v[0];
        y = chosen.origin[1] + a * chosen.u[1] + v * chosen.v[1];
        z = chosen.origin[2] + a * chosen.u[2] + v * chosen.v[2];
        nx = chosen.normal[0];
        ny = chosen.normal[1];
        nz = chosen.normal[2];
        break;
      }
      case "star": {
        const { placed } = chosen;
        const { slices, shape } = placed.star;
        const turn = v * chosen.slices;
        const slice = Math.floor(turn);
        const from = slices[chosen.firstSlice + slice];
        const azimuth = from + (turn - slice) * (slices[chosen.firstSlice + slice + 1] - from);
        const cos = Math.cos(azimuth);
        const sin = Math.sin(azimuth);
        const inner = chosen.inner * chosen.inner;
        const r = Math.sqrt(inner + a * (chosen.outer * chosen.outer - inner)) / gauge(shape, cos, sin);
        x = placed.x + r * (placed.cos * cos - placed.sin * sin);
        y = placed.y + r * (placed.sin * cos + placed.cos * sin);
        z = chosen.z;
        nx = 0;
        ny = 0;
        nz = chosen.normalZ;
      }
    }
    for (const cover of covers[patch]) if (isUnder(cover, x, y)) return false;

    // Cosine law: a point on the unit disc, lifted to the hemisphere, in a frame about the normal.
    const r = Math.sqrt(p);
    const azimuth = 2 * Math.PI * q;
    const a1 = r * Math.cos(azimuth);
    const a2 = r * Math.sin(azimuth);
    const a3 = Math.sqrt(1 - p);
    const sign = nz >= 0 ? 1 : -1;
    const c = -1 / (sign + nz);
    const d = nx * ny * c;
    rays.ox[at] = x + liftOff * nx;
    rays.oy[at] = y + liftOff * ny;
    rays.oz[at] = z + liftOff * nz;
    rays.dx[at] = a1 * (1 + sign * nx * nx * c) + a2 * d + a3 * nx;
    rays.dy[at] = a1 * sign * d + a2 * (sign + ny * ny * c) + a3 * ny;
    rays.dz[at] = -a1 * sign * nx - a2 * ny + a3 * nz;
    return true;
  };
}

function isUnder(cover: Cover, px: number, py: number): boolean {
  const cos = Math.cos(cover.angle);
  const sin = Math.sin(cover.angle);
  const x = px - cover.x;
  const y = py - cover.y;
  const ex = Math.max(Math.abs(cos * x + sin * y) - cover.halfX, 0);
  const ey = Math.max(Math.abs(cos * y - sin * x) - cover.halfY, 0);
  return ex * ex + ey * ey <= cover.radius * cover.radius && x * x + y * y >= cover.hole * cover.hole;
}
