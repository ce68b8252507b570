import type { Hierarchy } from "./hierarchy.ts";
import { solidKind, solidStride, type Solids } from "./solids.ts";

/** Rays in columns: origins [m] and directions (unit length), `capacity` of each, and what they hit. */
export interface RayBatch {
  readonly capacity: number;
  readonly ox: Float64Array | Float32Array;
  readonly oy: Float64Array | Float32Array;
  readonly oz: Float64Array | Float32Array;
  readonly dx: Float64Array | Float32Array;
  readonly dy: Float64Array | Float32Array;
  readonly dz: Float64Array | Float32Array;
  /** Index of the nearest solid ahead, -1 for none. */
  readonly solid: Int32Array;
  /** Distance to it along the ray [m]; Infinity for none. */
  readonly distance: Float64Array | Float32Array;
}

export function rayBatch(capacity: number): RayBatch {
  const column = (): Float64Array => new Float64Array(capacity);
  return {
    capacity,
    ox: column(),
    oy: column(),
    oz: column(),
    dx: column(),
    dy: column(),
    dz: column(),
    solid: new Int32Array(capacity),
    distance: column(),
  };
}

/** Finds the nearest solid ahead of the first `count` rays of a batch, and writes it into the batch. */
export type Tracer = (rays: RayBatch, count: number) => void;

/** A tracer that tests every solid: slow, and the reference the others are tested against. */
export function exhaustiveTracer(solids: Solids): Tracer {
  return (rays, count) => {
    for (let i = 0; i < count; i++) {
      let best = Infinity;
      let hit = -1;
      for (let solid = 0; solid < solids.count; solid++) {
        const t = distanceTo(
          solids.kind,
          solids.data,
          solid,
          rays.ox[i],
          rays.oy[i],
          rays.oz[i],
          rays.dx[i],
          rays.dy[i],
          rays.dz[i],
        );
        if (t < best) {
          best = t;
          hit = solid;
        }
      }
      rays.solid[i] = hit;
      rays.distance[i] = best;
    }
  };
}

/**
 * A tracer in plain TypeScript through a bounding volume hierarchy, nearer child first.
 *
 * Boxes are tested by comparing the near planes with the far ones, never by minima and maxima: a box missed is left
 * at the first comparison that fails, and engines compile a minimum of doubles to jumps that are hard to foresee.
 */
export function hierarchyTracer(solids: Solids, hierarchy: Hierarchy): Tracer {
  const { kind, data } = solids;
  const { boxes, children } = hierarchy;
  const stack = new Int32Array(128);
  const entry = new Float64Array(128);
  return (rays, count) => {
    const { ox, oy, oz, dx, dy, dz } = rays;
    for (let i = 0; i < count; i++) {
      const x = ox[i];
      const y = oy[i];
      const z = oz[i];
      const u = dx[i];
      const v = dy[i];
      const w = dz[i];
      // A direction along an axis would divide by zero: 1e300 keeps signs and comparisons right.
      const iu = u === 0 ? 1e300 : 1 / u;
      const iv = v === 0 ? 1e300 : 1 / v;
      const iw = w === 0 ? 1e300 : 1 / w;
      const atX = u < 0 ? 3 : 0;
      const atY = v < 0 ? 4 : 1;
      const atZ = w < 0 ? 5 : 2;
      let best = Infinity;
      let hit = -1;
      let top = 0;
      let node = 0;
      for (;;) {
        let entryLeft = Infinity;
        let entryRight = Infinity;
        for (let side = 0; side < 2; side++) {
          const b = node * 12 + side * 6;
          const nx = (boxes[b + atX] - x) * iu;
          const ny = (boxes[b + atY] - y) * iv;
          const nz = (boxes[b + atZ] - z) * iw;
          const fx = (boxes[b + 3 - atX] - x) * iu;
          const fy = (boxes[b + 5 - atY] - y) * iv;
          const fz = (boxes[b + 7 - atZ] - z) * iw;
          if (!(fx >= 0 && fy >= 0 && fz >= 0 && nx <= fy && nx <= fz && ny <= fx)) continue;
          if (!(ny <= fz && nz <= fx && nz <= fy && nx < best && ny < best && nz < best)) continue;
          const child = children[node * 2 + side];
          if (child < 0) {
            const t = distanceTo(kind, data, ~child, x, y, z, u, v, w);
            if (t < best) {
              best = t;
              hit = ~child;
            }
            continue;
          }
          const into = nx > ny ? (nx > nz ? nx : nz) : ny > nz ? ny : nz;
          if (side === 0) entryLeft = into;
          else entryRight = into;
        }
        if (entryLeft < best || entryRight < best) {
          const rightFirst = entryRight < entryLeft;
          const later = rightFirst ? entryLeft : entryRight;
          if (later < best) {
            stack[top] = children[node * 2 + (rightFirst ? 0 : 1)]!;
            entry[top++] = later;
          }
          node = children[node * 2 + (rightFirst ? 1 : 0)]!;
          continue;
        }
        do top--;
        while (top >= 0 && entry[top] >= best);
        if (top < 0) break;
        node = stack[top]!;
      }
      rays.solid[i] = hit;
      rays.distance[i] = best;
    }
  };
}

/**
 * Distance along a ray to one solid [m], Infinity if it misses. Either face stops the ray; a ray that starts inside
 * a box meets the face it leaves by. Hits closer than 1e-12 m do not count.
 */
export function distanceTo(
  kind: Uint8Array,
  data: Float64Array,
  solid: number,
  ox: number,
  oy: number,
  oz: number,
  dx: number,
  dy: number,
  dz: number,
): number {
  const o = solid * solidStride;
  switch (kind[solid]) {
    case solidKind.band: {
      const x = ox - data[o];
      const y = oy - data[o + 1];
      const slope = data[o + 4];
      const r = data[o + 2] + slope * (oz - data[o + 3]);
      const rise = slope * dz;
      const a = dx * dx + dy * dy - rise * rise;
      const b = x * dx + y * dy - rise * r;
      const c = x * x + y * y - r * r;
      const d = b * b - a * c;
      if (d < 0) return Infinity;
      const s = Math.sqrt(d);
      // The root away from cancellation first, the other from their product c / a.
      const far = b > 0 ? -b - s : s - b;
      let t1 = far / a;
      let t2 = c / far;
      if (t1 > t2) {
        const swap = t1;
        t1 = t2;
        t2 = swap;
      }
      const low = data[o + 5];
      const high = data[o + 6];
      if (t1 > 1e-12) {
        const z = oz + t1 * dz;
        if (z >= low && z <= high && keeps(data, o + 8, ox + t1 * dx, oy + t1 * dy)) return t1;
      }
      if (t2 > 1e-12) {
        const z = oz + t2 * dz;
        if (z >= low && z <= high && keeps(data, o + 8, ox + t2 * dx, oy + t2 * dy)) return t2;
      }
      return Infinity;
    }
    case solidKind.plate: {
      const t = (data[o + 2] - oz) / dz;
      if (!(t > 1e-12) || t === Infinity) return Infinity;
      const px = ox + t * dx;
      const py = oy + t * dy;
      const x = px - data[o];
      const y = py - data[o + 1];
      const cos = data[o + 3];
      const sin = data[o + 4];
      let ex = Math.abs(cos * x + sin * y) - data[o + 5];
      let ey = Math.abs(cos * y - sin * x) - data[o + 6];
      if (ex < 0) ex = 0;
      if (ey < 0) ey = 0;
      if (ex * ex + ey * ey > data[o + 7]) return Infinity;
      if (x * x + y * y < data[o + 9]) return Infinity;
      return keeps(data, o + 10, px, py) ? t : Infinity;
    }
    case solidKind.panel: {
      const nx = data[o + 7];
      const ny = data[o + 8];
      const x = ox - data[o];
      const y = oy - data[o + 1];
      const t = -(x * nx + y * ny) / (dx * nx + dy * ny);
      if (!(t > 1e-12) || t === Infinity) return Infinity;
      const z = oz + t * dz;
      if (z < data[o + 5] || z > data[o + 6]) return Infinity;
      const along = (x + t * dx) * data[o + 2] + (y + t * dy) * data[o + 3];
      return along >= 0 && along <= data[o + 4] ? t : Infinity;
    }
    default: {
      const x = ox - data[o];
      const y = oy - data[o + 1];
      const cos = data[o + 2];
      const sin = data[o + 3];
      const lx = cos * x + sin * y;
      const ly = cos * y - sin * x;
      const u = cos * dx + sin * dy;
      const v = cos * dy - sin * dx;
      const hx = data[o + 4];
      const hy = data[o + 5];
      const iu = u === 0 ? 1e300 : 1 / u;
      const iv = v === 0 ? 1e300 : 1 / v;
      const iw = dz === 0 ? 1e300 : 1 / dz;
      let p = (-hx - lx) * iu;
      let q = (hx - lx) * iu;
      let near = p < q ? p : q;
      let far = p < q ? q : p;
      p = (-hy - ly) * iv;
      q = (hy - ly) * iv;
      let low = p < q ? p : q;
      let high = p < q ? q : p;
      if (low > near) near = low;
      if (high < far) far = high;
      p = (data[o + 6] - oz) * iw;
      q = (data[o + 7] - oz) * iw;
      low = p < q ? p : q;
      high = p < q ? q : p;
      if (low > near) near = low;
      if (high < far) far = high;
      if (near > far) return Infinity;
      if (near > 1e-12) return near;
      return far > 1e-12 ? far : Infinity;
    }
  }
}

function keeps(data: Float64Array, at: number, x: number, y: number): boolean {
  return x * data[at] + y * data[at + 1] >= data[at + 2];
}
