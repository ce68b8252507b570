import { solidKind, solidStride, type Solids } from "#engine/geometry";

/**
 * A scene's solids as triangles, nine numbers each, for ray tracers that know nothing else.
 *
 * Hollows and flats are drawn round the circle and mantles that bulge inside it, so that rays which start on the
 * circle start in front of their facet.
 *
 * @param segments of a full circle
 */
export function triangulate(solids: Solids, segments: number): Float32Array {
  const out: number[] = [];
  for (let solid = 0; solid < solids.count; solid++) {
    const d = Array.from(solids.data.subarray(solid * solidStride, (solid + 1) * solidStride));
    switch (solids.kind[solid]) {
      case solidKind.band:
        band(out, d, segments);
        break;
      case solidKind.plate:
        plate(out, d, segments);
        break;
      case solidKind.panel:
        panel(out, d);
        break;
      default:
        box(out, d);
    }
  }
  return Float32Array.from(out);
}

type Corner = readonly [number, number, number];

function quad(out: number[], a: Corner, b: Corner, c: Corner, d: Corner): void {
  out.push(...a, ...b, ...c, ...a, ...c, ...d);
}

/** Azimuths of a full circle, or of the arc a chord leaves. */
function azimuths(d: readonly number[], radius: number, chordAt: number, segments: number): readonly number[] {
  const [nx, ny, distance] = [d[chordAt], d[chordAt + 1], d[chordAt + 2]];
  if (nx === 0 && ny === 0) return Array.from({ length: segments + 1 }, (_, i) => (2 * Math.PI * i) / segments);
  const half = Math.acos((distance - nx * d[0] - ny * d[1]) / radius);
  const middle = Math.atan2(ny, nx);
  const count = Math.max(1, Math.ceil((segments * half) / Math.PI));
  return Array.from({ length: count + 1 }, (_, i) => middle - half + (2 * half * i) / count);
}

function band(out: number[], d: readonly number[], segments: number): void {
  const [x, y] = [d[0], d[1]];
  const [low, high] = [d[5], d[6]];
  const grow = d[7] < 0 ? 1 / Math.cos(Math.PI / segments) : 1;
  const radius = (z: number): number => grow * Math.max(0, d[2] + d[4] * (z - d[3]));
  const at = (azimuth: number, z: number): Corner => [
    x + radius(z) * Math.cos(azimuth),
    y + radius(z) * Math.sin(azimuth),
    z,
  ];
  const around = azimuths(d, d[2], 8, segments);
  for (let i = 0; i + 1 < around.length; i++) {
    quad(out, at(around[i], low), at(around[i + 1], low), at(around[i + 1], high), at(around[i], high));
  }
}

function plate(out: number[], d: readonly number[], segments: number): void {
  const [x, y, z, cos, sin, halfX, halfY] = d as [number, number, number, number, number, number, number];
  const radius = Math.sqrt(d[7]) / Math.cos(Math.PI / segments);
  const hole = Math.sqrt(d[9]);
  // Round the rounded box; where there is a core, the corner of it that lies that way is added.
  const at = (azimuth: number, r: number): Corner => {
    const c = Math.cos(azimuth);
    const s = Math.sin(azimuth);
    const lx = r * c + Math.sign(Math.round(c * 1e9)) * halfX;
    const ly = r * s + Math.sign(Math.round(s * 1e9)) * halfY;
    return [x + cos * lx - sin * ly, y + sin * lx + cos * ly, z];
  };
  const round = halfX === 0 && halfY === 0;
  const around = round
    ? azimuths(d, radius, 10, segments)
    : [1, 3, 5, 7, 9].flatMap((eighth) => [(eighth * Math.PI) / 4]);
  for (let i = 0; i + 1 < around.length; i++) {
    const inner: Corner = hole > 0 ? at(around[i], hole) : [x, y, z];
    const innerNext: Corner = hole > 0 ? at(around[i + 1], hole) : [x, y, z];
    quad(out, inner, at(around[i], radius), at(around[i + 1], radius), innerNext);
  }
}

function panel(out: number[], d: readonly number[]): void {
  const [x0, y0, ux, uy, length, z0, z1] = d as [number, number, number, number, number, number, number];
  const [x1, y1] = [x0 + ux * length, y0 + uy * length];
  quad(out, [x0, y0, z0], [x1, y1, z0], [x1, y1, z1], [x0, y0, z1]);
}

function box(out: number[], d: readonly number[]): void {
  const [x, y, cos, sin, hx, hy, z0, z1] = d as [number, number, number, number, number, number, number, number];
  const at = (sx: number, sy: number, z: number): Corner => [
    x + cos * sx * hx - sin * sy * hy,
    y + sin * sx * hx + cos * sy * hy,
    z,
  ];
  const corners = [
    [1, -1],
    [1, 1],
    [-1, 1],
    [-1, -1],
  ] as const;
  corners.forEach(([sx, sy], i) => {
    const [nx, ny] = corners[(i + 1) % 4];
    quad(out, at(sx, sy, z0), at(nx, ny, z0), at(nx, ny, z1), at(sx, sy, z1));
  });
  for (const z of [z0, z1]) quad(out, at(1, -1, z), at(1, 1, z), at(-1, 1, z), at(-1, -1, z));
}
