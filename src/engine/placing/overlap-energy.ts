import { coreToCore, coreToPoint } from "./nearest.ts";
import type { Parts } from "./parts.ts";
import type { Region } from "./region.ts";

/**
 * Overlap energy of the items on one shelf and its exact gradient.
 *
 * E = Σ overlap², over pairs of boxes of different items (overlap = gap - distance where positive), boxes against
 * keep-outs (no gap: they carry their own) and box corners against the edge of the region [m2]. Zero exactly when
 * every rule of the plan is kept. Continuously differentiable while cores do not overlap; poses are
 * [x, y, turn x lever] per item, so that all variables are lengths.
 */
export class OverlapEnergy {
  /** Largest single overlap at the last `evaluate` [m]. */
  worst = 0;
  /** Each member's share of the energy at the last `evaluate` [m2], in the order of members. */
  readonly pain: Float64Array;
  private readonly parts: Parts;
  private gap: number;
  private readonly slack: number;
  private region: Region;
  private members: Int32Array;
  private count = 0;
  /** First world box of each member. */
  private readonly start: Int32Array;
  private readonly boxX: Float64Array;
  private readonly boxY: Float64Array;
  private readonly boxCos: Float64Array;
  private readonly boxSin: Float64Array;
  private readonly boxHalfX: Float64Array;
  private readonly boxHalfY: Float64Array;
  private readonly boxRadius: Float64Array;
  private readonly forceX: Float64Array;
  private readonly forceY: Float64Array;
  private readonly torque: Float64Array;
  private readonly contact = new Float64Array(5);

  /**
   * @param gap    between items [m]
   * @param slack  asked for beyond every clearance [m], so that a small energy still keeps the rules
   */
  constructor(parts: Parts, gap: number, slack: number) {
    const boxes = parts.x.length;
    this.parts = parts;
    this.gap = gap + slack;
    this.slack = slack;
    this.region = { x: 0, y: 0, radius: Infinity, flats: [], keepOuts: [] };
    this.members = new Int32Array(parts.count);
    this.pain = new Float64Array(parts.count);
    this.start = new Int32Array(parts.count + 1);
    this.boxX = new Float64Array(boxes);
    this.boxY = new Float64Array(boxes);
    this.boxCos = new Float64Array(boxes);
    this.boxSin = new Float64Array(boxes);
    this.boxHalfX = new Float64Array(boxes);
    this.boxHalfY = new Float64Array(boxes);
    this.boxRadius = new Float64Array(boxes);
    this.forceX = new Float64Array(parts.count);
    this.forceY = new Float64Array(parts.count);
    this.torque = new Float64Array(parts.count);
  }

  /** Asks for another gap between items [m] from now on. */
  setGap(gap: number): void {
    this.gap = gap + this.slack;
  }

  /** Sets who is on the shelf and how the shelf is bounded. */
  load(region: Region, members: ArrayLike<number>): void {
    const { slack } = this;
    this.region = {
      x: region.x,
      y: region.y,
      radius: region.radius - slack,
      flats: region.flats.map((flat) => ({ nx: flat.nx, ny: flat.ny, distance: flat.distance - slack })),
      keepOuts: region.keepOuts.map((out) => ({ ...out, radius: out.radius + slack })),
    };
    this.count = members.length;
    const { first, halfX, halfY, radius } = this.parts;
    let box = 0;
    for (let m = 0; m < members.length; m++) {
      const item = members[m];
      this.members[m] = item;
      this.start[m] = box;
      for (let part = first[item]; part < first[item + 1]; part++) {
        this.boxHalfX[box] = halfX[part];
        this.boxHalfY[box] = halfY[part];
        this.boxRadius[box] = radius[part];
        box++;
      }
    }
    this.start[members.length] = box;
  }

  /** Moves member m's boxes to its pose (x, y, turn [rad]). */
  private move(m: number, x: number, y: number, turn: number): void {
    const parts = this.parts;
    const item = this.members[m];
    const from = this.start[m];
    const firstPart = parts.first[item];
    const boxes = this.start[m + 1] - from;
    if (parts.lever[item] === 0) {
      for (let k = 0; k < boxes; k++) {
        this.boxX[from + k] = x;
        this.boxY[from + k] = y;
        this.boxCos[from + k] = 1;
        this.boxSin[from + k] = 0;
      }
      return;
    }
    const cos = Math.cos(turn);
    const sin = Math.sin(turn);
    for (let k = 0; k < boxes; k++) {
      const px = parts.x[firstPart + k];
      const py = parts.y[firstPart + k];
      const pc = parts.cos[firstPart + k];
      const ps = parts.sin[firstPart + k];
      this.boxX[from + k] = x + cos * px - sin * py;
      this.boxY[from + k] = y + sin * px + cos * py;
      this.boxCos[from + k] = cos * pc - sin * ps;
      this.boxSin[from + k] = sin * pc + cos * ps;
    }
  }

  /**
   * Energy [m2] of `poses` = [x, y, turn x lever] per member; the gradient [m] is written to `gradient`.
   */
  evaluate(poses: Float64Array, gradient: Float64Array): number {
    const { parts, count, members, forceX, forceY, torque, pain } = this;
    for (let m = 0; m < count; m++) {
      const lever = parts.lever[members[m]];
      this.move(m, poses[3 * m], poses[3 * m + 1], lever > 0 ? poses[3 * m + 2] / lever : 0);
      forceX[m] = 0;
      forceY[m] = 0;
      torque[m] = 0;
      pain[m] = 0;
    }
    this.worst = 0;
    let energy = 0;
    for (let a = 0; a < count; a++) {
      energy += this.againstRegion(a, poses[3 * a], poses[3 * a + 1]);
      const ax = poses[3 * a];
      const ay = poses[3 * a + 1];
      const reachA = parts.bound[members[a]] + this.gap;
      for (let b = a + 1; b < count; b++) {
        const dx = poses[3 * b] - ax;
        const dy = poses[3 * b + 1] - ay;
        const reach = reachA + parts.bound[members[b]];
        if (dx * dx + dy * dy < reach * reach) energy += this.between(a, b, ax, ay, ax + dx, ay + dy);
      }
    }
    for (let m = 0; m < count; m++) {
      const lever = parts.lever[members[m]];
      gradient[3 * m] = forceX[m];
      gradient[3 * m + 1] = forceY[m];
      gradient[3 * m + 2] = lever > 0 ? torque[m] / lever : 0;
    }
    return energy;
  }

  /**
   * Energy [m2] of member m alone at (x, y, turn [rad]) against the others where they stood at the last `evaluate`,
   * giving up once it exceeds `limit`. Leaves m's boxes there.
   */
  probe(m: number, x: number, y: number, turn: number, poses: Float64Array, limit: number): number {
    const { parts, count, members } = this;
    this.move(m, x, y, turn);
    this.forceX[m] = 0;
    this.forceY[m] = 0;
    this.torque[m] = 0;
    const reachM = parts.bound[members[m]] + this.gap;
    let energy = this.againstRegion(m, x, y);
    for (let b = 0; b < count && energy < limit; b++) {
      if (b === m) continue;
      const bx = poses[3 * b];
      const by = poses[3 * b + 1];
      const dx = bx - x;
      const dy = by - y;
      const reach = reachM + parts.bound[members[b]];
      if (dx * dx + dy * dy < reach * reach) energy += this.between(m, b, x, y, bx, by);
    }
    return energy;
  }

  /** Gradient [m] of the last `probe` with respect to m's x, y and turn x lever. */
  probeGradient(m: number, out: Float64Array): void {
    const lever = this.parts.lever[this.members[m]];
    out[0] = this.forceX[m];
    out[1] = this.forceY[m];
    out[2] = lever > 0 ? this.torque[m] / lever : 0;
  }

  private between(a: number, b: number, ax: number, ay: number, bx: number, by: number): number {
    const { start, boxX, boxY, boxCos, boxSin, boxHalfX, boxHalfY, boxRadius, contact } = this;
    const endA = start[a + 1];
    const startB = start[b];
    const endB = start[b + 1];
    let energy = 0;
    for (let i = start[a]; i < endA; i++) {
      const ix = boxX[i];
      const iy = boxY[i];
      const hxi = boxHalfX[i];
      const hyi = boxHalfY[i];
      const pointI = hxi === 0 && hyi === 0;
      const roundI = boxRadius[i] + this.gap;
      for (let j = startB; j < endB; j++) {
        const hxj = boxHalfX[j];
        const hyj = boxHalfY[j];
        const jx = boxX[j];
        const jy = boxY[j];
        const round = roundI + boxRadius[j];
        const dx = jx - ix;
        const dy = jy - iy;
        const reach = round + hxi + hyi + hxj + hyj;
        const square = dx * dx + dy * dy;
        if (square >= reach * reach) continue;
        let overlap: number;
        let nx: number;
        let ny: number;
        let px: number;
        let py: number;
        if (pointI && hxj === 0 && hyj === 0) {
          const distance = Math.sqrt(square);
          overlap = round - distance;
          nx = distance > 0 ? dx / distance : 1;
          ny = distance > 0 ? dy / distance : 0;
          px = ix;
          py = iy;
        } else {
          if (pointI) {
            coreToPoint(contact, jx, jy, boxCos[j], boxSin[j], hxj, hyj, ix, iy);
            nx = -contact[1];
            ny = -contact[2];
          } else if (hxj === 0 && hyj === 0) {
            coreToPoint(contact, ix, iy, boxCos[i], boxSin[i], hxi, hyi, jx, jy);
            nx = contact[1];
            ny = contact[2];
          } else {
            coreToCore(contact, ix, iy, boxCos[i], boxSin[i], hxi, hyi, jx, jy, boxCos[j], boxSin[j], hxj, hyj);
            nx = contact[1];
            ny = contact[2];
          }
          overlap = round - contact[0];
          px = contact[3];
          py = contact[4];
        }
        if (overlap <= 0) continue;
        if (overlap > this.worst) this.worst = overlap;
        energy += overlap * overlap;
        const push = 2 * overlap;
        this.forceX[a] = this.forceX[a] + push * nx;
        this.forceY[a] = this.forceY[a] + push * ny;
        this.torque[a] = this.torque[a] + push * ((px - ax) * ny - (py - ay) * nx);
        this.forceX[b] = this.forceX[b] - push * nx;
        this.forceY[b] = this.forceY[b] - push * ny;
        this.torque[b] = this.torque[b] - push * ((px - bx) * ny - (py - by) * nx);
      }
    }
    this.pain[a] = this.pain[a] + energy;
    this.pain[b] = this.pain[b] + energy;
    return energy;
  }

  private push(a: number, overlap: number, nx: number, ny: number, armX: number, armY: number): number {
    if (overlap > this.worst) this.worst = overlap;
    this.forceX[a] = this.forceX[a] + 2 * overlap * nx;
    this.forceY[a] = this.forceY[a] + 2 * overlap * ny;
    this.torque[a] = this.torque[a] + 2 * overlap * (armX * ny - armY * nx);
    return overlap * overlap;
  }

  /** Against the edge of the region and its keep-outs. */
  private againstRegion(a: number, ax: number, ay: number): number {
    const { region, start, boxX, boxY, boxCos, boxSin, boxHalfX, boxHalfY, boxRadius, contact } = this;
    const bound = this.parts.bound[this.members[a]];
    const offX = ax - region.x;
    const offY = ay - region.y;
    const nearRim = Math.sqrt(offX * offX + offY * offY) + bound > region.radius;
    const { flats, keepOuts } = region;
    let energy = 0;
    const end = start[a + 1];
    if (nearRim || flats.length > 0) {
      for (let i = start[a]; i < end; i++) {
        const hx = boxHalfX[i];
        const hy = boxHalfY[i];
        const radius = boxRadius[i];
        const corners = hx === 0 && hy === 0 ? 1 : hy === 0 ? 2 : 4;
        for (let k = 0; k < corners; k++) {
          const localX = k & 1 ? -hx : hx;
          const localY = k & 2 ? -hy : hy;
          const x = boxX[i] + boxCos[i] * localX - boxSin[i] * localY;
          const y = boxY[i] + boxSin[i] * localX + boxCos[i] * localY;
          if (nearRim) {
            const fromX = x - region.x;
            const fromY = y - region.y;
            const far = Math.sqrt(fromX * fromX + fromY * fromY);
            const over = far + radius - region.radius;
            if (over > 0 && far > 0) energy += this.push(a, over, fromX / far, fromY / far, x - ax, y - ay);
          }
          for (let f = 0; f < flats.length; f++) {
            const flat = flats[f];
            const over = x * flat.nx + y * flat.ny + radius - flat.distance;
            if (over > 0) energy += this.push(a, over, flat.nx, flat.ny, x - ax, y - ay);
          }
        }
      }
    }
    for (let k = 0; k < keepOuts.length; k++) {
      const out = keepOuts[k];
      const reach = bound + out.radius + out.halfX + out.halfY;
      const dx = out.x - ax;
      const dy = out.y - ay;
      if (dx * dx + dy * dy >= reach * reach) continue;
      const pointOut = out.halfX === 0 && out.halfY === 0;
      const cos = pointOut ? 1 : Math.cos(out.angle);
      const sin = pointOut ? 0 : Math.sin(out.angle);
      for (let i = start[a]; i < end; i++) {
        const hx = boxHalfX[i];
        const hy = boxHalfY[i];
        const ix = boxX[i];
        const iy = boxY[i];
        if (pointOut) {
          coreToPoint(contact, ix, iy, boxCos[i], boxSin[i], hx, hy, out.x, out.y);
        } else {
          coreToCore(contact, ix, iy, boxCos[i], boxSin[i], hx, hy, out.x, out.y, cos, sin, out.halfX, out.halfY);
        }
        const overlap = out.radius + boxRadius[i] - contact[0];
        if (overlap > 0) {
          energy += this.push(a, overlap, contact[1], contact[2], contact[3] - ax, contact[4] - ay);
        }
      }
    }
    this.pain[a] = this.pain[a] + energy;
    return energy;
  }
}
