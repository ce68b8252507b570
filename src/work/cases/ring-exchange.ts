import { stopIfCancelled, type RunControl } from "#base";
import { mix32, sobolPoints } from "#engine/numerics";
import { exchangeFromCounts, type Exchange } from "#engine/radiation";

/**
 * A ring of the surface of a solid of revolution: an annulus facing up or down, or a band facing in or out.
 * Flat rings have r0 < r1 and z0 = z1; bands r0 = r1 and z0 < z1.
 */
export interface Ring {
  readonly facing: "up" | "down" | "in" | "out";
  readonly r0: number;
  readonly r1: number;
  readonly z0: number;
  readonly z1: number;
  /** Index of the solid it belongs to, or -1 for the cavity's own wall. */
  readonly solid: number;
}

/** A solid disc or cylinder about the axis. */
export interface Cylinder {
  readonly r: number;
  readonly z0: number;
  readonly z1: number;
}

export function ringArea({ facing, r0, r1, z0, z1 }: Ring): number {
  return facing === "up" || facing === "down" ? Math.PI * (r1 * r1 - r0 * r0) : 2 * Math.PI * r0 * (z1 - z0);
}

/**
 * Who sees whom among rings of a closed cylindrical cavity with solid cylinders in it.
 *
 * Rays by the cosine law from one azimuth of each ring: all azimuths are alike. Exact intersections, no mesh.
 *
 * @param rings  every ring of every surface, each surface covered without gaps
 */
export function ringExchange(
  radius: number,
  height: number,
  solids: readonly Cylinder[],
  rings: readonly Ring[],
  raysPerRing: number,
  control: RunControl,
): Exchange {
  const finders = surfaceFinders(rings);
  const points = sobolPoints(3, raysPerRing, 7);
  const table = new Int32Array(rings.length * rings.length);
  const arrived = new Int32Array(rings.length);
  let lost = 0;
  rings.forEach((ring, index) => {
    stopIfCancelled(control);
    for (let k = 0; k < raysPerRing; k++) {
      const u = unit(points[k * 3], index, 0);
      const v = unit(points[k * 3 + 1], index, 1);
      const w = unit(points[k * 3 + 2], index, 2);
      const hit = shoot(ring, u, v, w, radius, height, solids, finders);
      if (hit < 0) lost++;
      else {
        table[index * rings.length + hit]++;
        arrived[index]++;
      }
    }
  });
  const rowStart = new Int32Array(rings.length + 1);
  const column: number[] = [];
  const count: number[] = [];
  for (let i = 0; i < rings.length; i++) {
    for (let j = 0; j < rings.length; j++) {
      const seen = table[i * rings.length + j];
      if (seen === 0) continue;
      column.push(j);
      count.push(seen);
    }
    rowStart[i + 1] = column.length;
  }
  const counts = {
    rowStart,
    column: Int32Array.from(column),
    count: Int32Array.from(count),
    arrived,
    lost,
    traced: rings.length * raysPerRing,
  };
  return exchangeFromCounts(counts, Float64Array.from(rings, ringArea));
}

/** A coordinate in (0, 1), shifted for each ring by a digit pattern of its own. */
function unit(point: number, ring: number, dimension: number): number {
  return (((point ^ mix32(ring * 3 + dimension)) >>> 0) + 0.5) * 2 ** -32;
}

type Finders = ReadonlyMap<string, { readonly rings: readonly number[]; readonly edges: Float64Array }>;

/** For each face of each solid, its rings in order and where they end: r squared on flat faces, z on bands. */
function surfaceFinders(rings: readonly Ring[]): Finders {
  const groups = new Map<string, number[]>();
  rings.forEach((ring, i) => {
    const key = `${ring.solid} ${ring.facing}`;
    (groups.get(key) ?? groups.set(key, []).get(key)!).push(i);
  });
  const end = (i: number): number => (rings[i].r1 > rings[i].r0 ? rings[i].r1 ** 2 : rings[i].z1);
  return new Map(
    [...groups].map(([key, members]) => {
      members.sort((a, b) => end(a) - end(b));
      return [key, { rings: members, edges: Float64Array.from(members, end) }];
    }),
  );
}

function find(finders: Finders, solid: number, facing: Ring["facing"], at: number): number {
  const group = finders.get(`${solid} ${facing}`);
  if (!group) return -1;
  let low = 0;
  let high = group.edges.length - 1;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (at > group.edges[middle]) low = middle + 1;
    else high = middle;
  }
  return group.rings[low];
}

function shoot(
  ring: Ring,
  u: number,
  v: number,
  w: number,
  radius: number,
  height: number,
  solids: readonly Cylinder[],
  finders: Finders,
): number {
  const flat = ring.facing === "up" || ring.facing === "down";
  // Start at (x, 0, z); uniform over the ring's area.
  const x = flat ? Math.sqrt(ring.r0 ** 2 + u * (ring.r1 ** 2 - ring.r0 ** 2)) : ring.r0;
  const z = flat ? ring.z0 : ring.z0 + u * (ring.z1 - ring.z0);
  // Cosine law: normal component sqrt(1 - v), tangential sqrt(v).
  const normal = Math.sqrt(1 - v);
  const tangent = Math.sqrt(v);
  const a = tangent * Math.cos(2 * Math.PI * w);
  const b = tangent * Math.sin(2 * Math.PI * w);
  const sign = ring.facing === "up" || ring.facing === "out" ? 1 : -1;
  const dx = flat ? a : sign * normal;
  const dy = b;
  const dz = flat ? sign * normal : a;

  let nearest = Infinity;
  let solid = -1;
  let facing: Ring["facing"] = "in";
  const across = dx * dx + dy * dy;
  const along = x * dx;
  // The cavity's wall, floor or lid, from inside.
  if (across > 1e-14) {
    nearest = (-along + Math.sqrt(Math.max(along * along + across * (radius * radius - x * x), 0))) / across;
  }
  if (Math.abs(dz) > 1e-14) {
    const t = ((dz > 0 ? height : 0) - z) / dz;
    if (t < nearest) {
      nearest = t;
      facing = dz > 0 ? "down" : "up";
    }
  }
  for (let s = 0; s < solids.length; s++) {
    // Convex: its own rays never meet it again.
    if (s === ring.solid) continue;
    const { r, z0, z1 } = solids[s];
    let enter = 0;
    let leave = nearest;
    let side: Ring["facing"] = "out";
    if (Math.abs(dz) < 1e-14) {
      if (z < z0 || z > z1) continue;
    } else {
      enter = ((dz > 0 ? z0 : z1) - z) / dz;
      leave = Math.min(leave, ((dz > 0 ? z1 : z0) - z) / dz);
      side = dz > 0 ? "down" : "up";
    }
    if (across < 1e-14) {
      if (x > r) continue;
    } else {
      const square = along * along + across * (r * r - x * x);
      if (square <= 0) continue;
      const root = Math.sqrt(square);
      const enterSide = (-along - root) / across;
      if (enterSide > enter) {
        enter = enterSide;
        side = "out";
      }
      leave = Math.min(leave, (-along + root) / across);
    }
    if (enter > 0 && enter < leave && enter < nearest) {
      nearest = enter;
      solid = s;
      facing = side;
    }
  }
  if (!Number.isFinite(nearest)) return -1;
  const onBand = facing === "in" || facing === "out";
  const at = onBand ? z + nearest * dz : (x + nearest * dx) ** 2 + (nearest * dy) ** 2;
  return find(finders, solid, facing, at);
}
