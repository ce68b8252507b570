/*
 * Nearest hit of many rays in single precision, four children of a node or four solids of a leaf at once.
 *
 * AssemblyScript: compiled by tools/build-kernels.mjs. Its twin in plain TypeScript is
 * src/engine/geometry/nearest-hit.ts; src/kernels/rays.test.ts holds the two against each other.
 *
 * Memory is laid out by src/kernels/wide-hierarchy.ts:
 *   node  six rows of four floats (min x, max x, min y, max y, min z, max z), then four references
 *   leaf  rows of four floats by kind, first the solids' indices as integers; a round leaf holds four bands without
 *         chord and then four rings, which usually are the mantles and flats of one pot
 * Panels that wrap all else stand apart in groups laid out like leaves: `hull`.
 * A reference is a node's offset (>= 0), or ~(offset | kind) of a leaf. A missing child has an empty box.
 */

const nodeReferences: usize = 96;

const kindRound = 0;
const kindBandChord = 1;
const kindPlate = 2;
const kindPanel = 3;

/** Where the rings of a round leaf begin. */
const ringRows: usize = 112;

// @ts-ignore: decorator
@inline
function row(leaf: usize, index: usize): v128 {
  return v128.load(leaf + (index << 4));
}

/** Both roots' nearer one that lies ahead and between the band's edges; Infinity where there is none. */
// @ts-ignore: decorator
@inline
function hitBand(
  leaf: usize,
  ox: v128, oy: v128, oz: v128,
  dx: v128, dy: v128, dz: v128,
  sx: v128, sy: v128, sz: v128,
  flat: v128,
  chord: bool,
): v128 {
  const zero = f32x4.splat(0);
  const never = f32x4.splat(Infinity);
  const x = f32x4.sub(ox, row(leaf, 1));
  const y = f32x4.sub(oy, row(leaf, 2));
  const z = f32x4.sub(oz, row(leaf, 5));
  const slope = row(leaf, 4);
  const tall = row(leaf, 6);
  // From a point of the ray near the band, where large terms no longer cancel.
  const start = f32x4.add(f32x4.add(f32x4.mul(x, sx), f32x4.mul(y, sy)), f32x4.mul(z, sz));
  const px = f32x4.add(x, f32x4.mul(start, dx));
  const py = f32x4.add(y, f32x4.mul(start, dy));
  const pz = f32x4.add(z, f32x4.mul(start, dz));
  const rise = f32x4.mul(slope, dz);
  const r = f32x4.add(row(leaf, 3), f32x4.mul(slope, pz));
  const a = f32x4.sub(flat, f32x4.mul(rise, rise));
  const b = f32x4.sub(f32x4.add(f32x4.mul(px, dx), f32x4.mul(py, dy)), f32x4.mul(rise, r));
  const c = f32x4.sub(f32x4.add(f32x4.mul(px, px), f32x4.mul(py, py)), f32x4.mul(r, r));
  const d = f32x4.sub(f32x4.mul(b, b), f32x4.mul(a, c));
  const s = f32x4.sqrt(f32x4.pmax(zero, d));
  // The root away from cancellation, and the other from their product.
  const q = f32x4.neg(f32x4.add(b, v128.or(v128.and(b, f32x4.splat(-0.0)), s)));
  const ta = f32x4.div(q, a);
  const tb = f32x4.div(c, q);
  const t1 = f32x4.pmin(tb, ta);
  const t2 = f32x4.pmax(tb, ta);
  const z1 = f32x4.add(pz, f32x4.mul(t1, dz));
  const z2 = f32x4.add(pz, f32x4.mul(t2, dz));
  const far1 = f32x4.add(start, t1);
  const far2 = f32x4.add(start, t2);
  // Rays start a micrometre off their own solid; a steep one would meet it again within its own rounding.
  const past = f32x4.splat(1e-6);
  const unreal = f32x4.lt(d, zero);
  let bad1 = v128.or(v128.or(f32x4.lt(far1, past), unreal), v128.or(f32x4.lt(z1, zero), f32x4.gt(z1, tall)));
  let bad2 = v128.or(v128.or(f32x4.lt(far2, past), unreal), v128.or(f32x4.lt(z2, zero), f32x4.gt(z2, tall)));
  if (chord) {
    bad1 = v128.or(bad1, cuts(leaf, 7, f32x4.add(ox, f32x4.mul(far1, dx)), f32x4.add(oy, f32x4.mul(far1, dy))));
    bad2 = v128.or(bad2, cuts(leaf, 7, f32x4.add(ox, f32x4.mul(far2, dx)), f32x4.add(oy, f32x4.mul(far2, dy))));
  }
  // A miss becomes all ones: the largest of unsigned numbers, and no number as a distance.
  return i32x4.min_u(v128.or(far1, bad1), v128.or(far2, bad2));
}

// @ts-ignore: decorator
@inline
function cuts(leaf: usize, at: usize, x: v128, y: v128): v128 {
  return f32x4.lt(f32x4.add(f32x4.mul(x, row(leaf, at)), f32x4.mul(y, row(leaf, at + 1))), row(leaf, at + 2));
}

// @ts-ignore: decorator
@inline
function hitRing(leaf: usize, ox: v128, oy: v128, oz: v128, dx: v128, dy: v128, iz: v128): v128 {
  const t = f32x4.mul(f32x4.sub(row(leaf, 3), oz), iz);
  const x = f32x4.sub(f32x4.add(ox, f32x4.mul(t, dx)), row(leaf, 1));
  const y = f32x4.sub(f32x4.add(oy, f32x4.mul(t, dy)), row(leaf, 2));
  const square = f32x4.add(f32x4.mul(x, x), f32x4.mul(y, y));
  const bad = v128.or(f32x4.lt(t, f32x4.splat(0)), v128.or(f32x4.gt(square, row(leaf, 4)), f32x4.lt(square, row(leaf, 5))));
  return v128.or(t, bad);
}

// @ts-ignore: decorator
@inline
function hitPlate(leaf: usize, ox: v128, oy: v128, oz: v128, dx: v128, dy: v128, iz: v128): v128 {
  const zero = f32x4.splat(0);
  const t = f32x4.mul(f32x4.sub(row(leaf, 3), oz), iz);
  const atX = f32x4.add(ox, f32x4.mul(t, dx));
  const atY = f32x4.add(oy, f32x4.mul(t, dy));
  const x = f32x4.sub(atX, row(leaf, 1));
  const y = f32x4.sub(atY, row(leaf, 2));
  const cos = row(leaf, 6);
  const sin = row(leaf, 7);
  const lx = f32x4.add(f32x4.mul(cos, x), f32x4.mul(sin, y));
  const ly = f32x4.sub(f32x4.mul(cos, y), f32x4.mul(sin, x));
  const ex = f32x4.pmax(zero, f32x4.sub(f32x4.abs(lx), row(leaf, 8)));
  const ey = f32x4.pmax(zero, f32x4.sub(f32x4.abs(ly), row(leaf, 9)));
  const edge = f32x4.gt(f32x4.add(f32x4.mul(ex, ex), f32x4.mul(ey, ey)), row(leaf, 4));
  const hole = f32x4.lt(f32x4.add(f32x4.mul(x, x), f32x4.mul(y, y)), row(leaf, 5));
  return v128.or(t, v128.or(v128.or(f32x4.lt(t, zero), cuts(leaf, 10, atX, atY)), v128.or(edge, hole)));
}

// @ts-ignore: decorator
@inline
function hitPanel(leaf: usize, ox: v128, oy: v128, oz: v128, dx: v128, dy: v128, dz: v128): v128 {
  const nx = row(leaf, 8);
  const ny = row(leaf, 9);
  const x = f32x4.sub(ox, row(leaf, 1));
  const y = f32x4.sub(oy, row(leaf, 2));
  const t = f32x4.neg(
    f32x4.div(f32x4.add(f32x4.mul(x, nx), f32x4.mul(y, ny)), f32x4.add(f32x4.mul(dx, nx), f32x4.mul(dy, ny))),
  );
  const z = f32x4.add(oz, f32x4.mul(t, dz));
  const along = f32x4.add(
    f32x4.mul(f32x4.add(x, f32x4.mul(t, dx)), row(leaf, 3)),
    f32x4.mul(f32x4.add(y, f32x4.mul(t, dy)), row(leaf, 4)),
  );
  const zero = f32x4.splat(0);
  const good = v128.and(
    v128.and(f32x4.gt(t, zero), v128.and(f32x4.ge(z, row(leaf, 6)), f32x4.le(z, row(leaf, 7)))),
    v128.and(f32x4.ge(along, zero), f32x4.le(along, row(leaf, 5))),
  );
  return v128.bitselect(t, f32x4.splat(Infinity), good);
}

// @ts-ignore: decorator
@inline
function hitBox(leaf: usize, ox: v128, oy: v128, oz: v128, dx: v128, dy: v128, iz: v128): v128 {
  const one = f32x4.splat(1);
  const tiny = f32x4.splat(1e-20);
  const x = f32x4.sub(ox, row(leaf, 1));
  const y = f32x4.sub(oy, row(leaf, 2));
  const cos = row(leaf, 3);
  const sin = row(leaf, 4);
  const lx = f32x4.add(f32x4.mul(cos, x), f32x4.mul(sin, y));
  const ly = f32x4.sub(f32x4.mul(cos, y), f32x4.mul(sin, x));
  const u = f32x4.add(f32x4.mul(cos, dx), f32x4.mul(sin, dy));
  const v = f32x4.sub(f32x4.mul(cos, dy), f32x4.mul(sin, dx));
  const iu = f32x4.div(one, v128.bitselect(u, tiny, f32x4.ge(f32x4.abs(u), tiny)));
  const iv = f32x4.div(one, v128.bitselect(v, tiny, f32x4.ge(f32x4.abs(v), tiny)));
  const hx = row(leaf, 5);
  const hy = row(leaf, 6);
  let p = f32x4.mul(f32x4.sub(f32x4.neg(hx), lx), iu);
  let q = f32x4.mul(f32x4.sub(hx, lx), iu);
  let near = f32x4.pmin(p, q);
  let far = f32x4.pmax(p, q);
  p = f32x4.mul(f32x4.sub(f32x4.neg(hy), ly), iv);
  q = f32x4.mul(f32x4.sub(hy, ly), iv);
  near = f32x4.pmax(near, f32x4.pmin(p, q));
  far = f32x4.pmin(far, f32x4.pmax(p, q));
  p = f32x4.mul(f32x4.sub(row(leaf, 7), oz), iz);
  q = f32x4.mul(f32x4.sub(row(leaf, 8), oz), iz);
  near = f32x4.pmax(near, f32x4.pmin(p, q));
  far = f32x4.pmin(far, f32x4.pmax(p, q));
  const zero = f32x4.splat(0);
  const t = v128.bitselect(near, far, f32x4.gt(near, zero));
  const good = v128.and(f32x4.le(near, far), f32x4.gt(t, zero));
  return v128.bitselect(t, f32x4.splat(Infinity), good);
}

/**
 * First of the planes of `groups` groups of panels that a ray from in front of all of them reaches: distance into
 * `scratch`, panel's index after it.
 */
// @ts-ignore: decorator
@inline
function leaveHull(hull: usize, groups: i32, ox: v128, oy: v128, dx: v128, dy: v128, scratch: usize): void {
  const zero = f32x4.splat(0);
  let t = f32x4.splat(Infinity);
  let at = i32x4.splat(0);
  for (let group = 0; group < groups; group++) {
    const leaf = hull + <usize>group * 160;
    const nx = row(leaf, 8);
    const ny = row(leaf, 9);
    const x = f32x4.sub(row(leaf, 1), ox);
    const y = f32x4.sub(row(leaf, 2), oy);
    const towards = f32x4.add(f32x4.mul(dx, nx), f32x4.mul(dy, ny));
    const reached = f32x4.div(f32x4.add(f32x4.mul(x, nx), f32x4.mul(y, ny)), towards);
    const nearer = v128.and(f32x4.lt(towards, zero), f32x4.lt(reached, t));
    t = v128.bitselect(reached, t, nearer);
    at = v128.bitselect(i32x4.splat(group), at, nearer);
  }
  // Least of the four lanes.
  let best = f32x4.extract_lane(t, 0);
  let group = i32x4.extract_lane(at, 0);
  let lane = 0;
  let other = f32x4.extract_lane(t, 1);
  if (other < best) { best = other; group = i32x4.extract_lane(at, 1); lane = 1; }
  other = f32x4.extract_lane(t, 2);
  if (other < best) { best = other; group = i32x4.extract_lane(at, 2); lane = 2; }
  other = f32x4.extract_lane(t, 3);
  if (other < best) { best = other; group = i32x4.extract_lane(at, 3); lane = 3; }
  store<f32>(scratch, best);
  store<i32>(scratch, group * 160 + lane * 4, 4);
}

/**
 * Traces `count` rays. `rays` holds eight columns of `capacity` numbers each: origin, direction, then what is
 * written: the nearest solid's index (integer, -1 for none) and the distance.
 *
 * @param stack room for 128 pairs of a reference and the distance to its box, and 32 bytes more
 */
export function trace(
  nodes: usize,
  leaves: usize,
  hull: usize,
  hullGroups: i32,
  rays: usize,
  capacity: usize,
  count: i32,
  stack: usize,
): void {
  const column = capacity << 2;
  const scratch = stack + 1024;
  for (let i: usize = 0; i < <usize>count; i++) {
    const ray = rays + (i << 2);
    const u = load<f32>(ray + 3 * column);
    const v = load<f32>(ray + 4 * column);
    const w = load<f32>(ray + 5 * column);
    const ox = v128.load32_splat(ray);
    const oy = v128.load32_splat(ray + column);
    const oz = v128.load32_splat(ray + 2 * column);
    const dx = f32x4.splat(u);
    const dy = f32x4.splat(v);
    const dz = f32x4.splat(w);
    const level = max<f32>(u * u + v * v, 1e-30);
    const flat = f32x4.splat(level);
    // One division for all; a direction along an axis must not become infinite.
    const divisors = f32x4.replace_lane(f32x4.replace_lane(f32x4.replace_lane(flat, 0, u), 1, v), 2, w);
    const tiny = f32x4.lt(f32x4.abs(divisors), f32x4.splat(1e-20));
    const inverses = f32x4.div(f32x4.splat(1), v128.or(divisors, v128.and(tiny, f32x4.splat(1e-20))));
    const ix = v128.shuffle<f32>(inverses, inverses, 0, 0, 0, 0);
    const iy = v128.shuffle<f32>(inverses, inverses, 1, 1, 1, 1);
    const iz = v128.shuffle<f32>(inverses, inverses, 2, 2, 2, 2);
    const iw = f32x4.extract_lane(iz, 0);
    // Bands are met from where the ray comes nearest to their axis, or, a steep one, reaches their lower edge: the
    // way there is this times the way from the band's middle at that edge.
    const steep = level < 0.5;
    const toAxis: f32 = steep ? 0 : -f32x4.extract_lane(inverses, 3);
    const sx = f32x4.splat(u * toAxis);
    const sy = f32x4.splat(v * toAxis);
    const sz = f32x4.splat(steep ? -iw : 0);
    // Rows of the near and far planes of a node's boxes by the ray's direction.
    const negative = i32x4.bitmask(inverses);
    const nearX: usize = (negative & 1) << 4;
    const nearY: usize = 32 + ((negative & 2) << 3);
    const nearZ: usize = 64 + ((negative & 4) << 2);
    const farX: usize = 16 - nearX;
    const farY: usize = 80 - nearY;
    const farZ: usize = 144 - nearZ;
    let best: f32 = Infinity;
    let solid: i32 = -1;
    let top = stack;
    let reference = 0;
    if (hullGroups > 0) {
      leaveHull(hull, hullGroups, ox, oy, dx, dy, scratch);
      const t = load<f32>(scratch);
      const panel = hull + <usize>load<i32>(scratch, 4);
      // Beyond the ends of the panel there is no wall to hit.
      const z = load<f32>(ray + 2 * column) + t * w;
      const x = load<f32>(ray) + t * u - load<f32>(panel, 16);
      const y = load<f32>(ray + column) + t * v - load<f32>(panel, 32);
      const along = x * load<f32>(panel, 48) + y * load<f32>(panel, 64);
      if (
        z >= load<f32>(panel, 96) &&
        z <= load<f32>(panel, 112) &&
        along >= 0 &&
        along <= load<f32>(panel, 80)
      ) {
        best = t;
        solid = load<i32>(panel);
      }
    }
    while (true) {
      if (reference >= 0) {
        const node = nodes + <usize>reference;
        const near = f32x4.pmax(
          f32x4.pmax(
            f32x4.mul(f32x4.sub(v128.load(node + nearX), ox), ix),
            f32x4.mul(f32x4.sub(v128.load(node + nearY), oy), iy),
          ),
          f32x4.pmax(f32x4.mul(f32x4.sub(v128.load(node + nearZ), oz), iz), f32x4.splat(0)),
        );
        const far = f32x4.pmin(
          f32x4.pmin(
            f32x4.mul(f32x4.sub(v128.load(node + farX), ox), ix),
            f32x4.mul(f32x4.sub(v128.load(node + farY), oy), iy),
          ),
          f32x4.pmin(f32x4.mul(f32x4.sub(v128.load(node + farZ), oz), iz), f32x4.splat(best)),
        );
        let mask = i32x4.bitmask(f32x4.le(near, far));
        if (mask != 0) {
          let lane = <usize>ctz(mask) << 2;
          mask &= mask - 1;
          if (mask == 0) {
            reference = load<i32>(node + nodeReferences + lane);
            continue;
          }
          // Several: keep the nearest, put the others on the stack with the nearer above.
          v128.store(scratch, near);
          const first = top;
          let nearest = load<i32>(node + nodeReferences + lane);
          let nearestAt = load<f32>(scratch + lane);
          do {
            lane = <usize>ctz(mask) << 2;
            mask &= mask - 1;
            let child = load<i32>(node + nodeReferences + lane);
            let at = load<f32>(scratch + lane);
            if (at < nearestAt) {
              const childBefore = nearest;
              const atBefore = nearestAt;
              nearest = child;
              nearestAt = at;
              child = childBefore;
              at = atBefore;
            }
            let slot = top;
            while (slot > first && load<f32>(slot - 4) < at) {
              store<u64>(slot, load<u64>(slot - 8));
              slot -= 8;
            }
            store<i32>(slot, child);
            store<f32>(slot, at, 4);
            top += 8;
          } while (mask != 0);
          reference = nearest;
          continue;
        }
      } else {
        const coded = ~reference;
        const leaf = leaves + <usize>(coded & ~15);
        const kind = coded & 15;
        let t: v128;
        let mask: i32 = 0;
        if (kind == kindRound) {
          t = hitBand(leaf, ox, oy, oz, dx, dy, dz, sx, sy, sz, flat, false);
          const flats = hitRing(leaf + ringRows, ox, oy, oz, dx, dy, iz);
          const nearest = f32x4.splat(best);
          mask = i32x4.bitmask(f32x4.lt(t, nearest)) | (i32x4.bitmask(f32x4.lt(flats, nearest)) << 4);
          if (mask != 0) v128.store(scratch, flats, 16);
        } else {
          if (kind == kindPanel) t = hitPanel(leaf, ox, oy, oz, dx, dy, dz);
          else if (kind == kindPlate) t = hitPlate(leaf, ox, oy, oz, dx, dy, iz);
          else if (kind == kindBandChord) t = hitBand(leaf, ox, oy, oz, dx, dy, dz, sx, sy, sz, flat, true);
          else t = hitBox(leaf, ox, oy, oz, dx, dy, iz);
          mask = i32x4.bitmask(f32x4.lt(t, f32x4.splat(best)));
        }
        if (mask != 0) {
          v128.store(scratch, t);
          do {
            const lane = <usize>ctz(mask);
            mask &= mask - 1;
            const at = load<f32>(scratch + (lane << 2));
            if (at < best) {
              best = at;
              // Rings have their indices in a row of their own.
              solid = load<i32>(leaf + (lane << 2) + (lane > 3 ? ringRows - 16 : 0));
            }
          } while (mask != 0);
        }
      }
      // Back to the nearest of what is left, unless it begins behind the hit.
      do {
        if (top == stack) {
          reference = i32.MAX_VALUE;
          break;
        }
        top -= 8;
        reference = load<i32>(top);
      } while (load<f32>(top, 4) >= best);
      if (reference == i32.MAX_VALUE) break;
    }
    store<i32>(ray + 6 * column, solid);
    store<f32>(ray + 7 * column, best);
  }
}
