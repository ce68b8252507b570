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
      const item = members[m] as number;
      this.members[m] = item;
      this.start[m] = box;
      for (let part = first[item] as number; part < (first[item + 1] as number); part++) {
        this.boxHalfX[box] = halfX[part] as number;
        this.boxHalfY[box] = halfY[part] as number;
        this.boxRadius[box] = radius[part] as number;
        box++;
      }
    }
    this.start[members.length] = box;
  }

  /** Moves member m's boxes to its pose (x, y, turn [rad]). */
  private move(m: number, x: number, y: number, turn: number): void {
    const parts = this.parts;
    const item = this.members[m] as number;
    const from = this.start[m] as number;
    const firstPart = parts.first[item] as number;
    const boxes = (this.start[m + 1] as number) - from;
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
      const px = parts.x[firstPart + k] as number;
      const py = parts.y[firstPart + k] as number;
      const pc = parts.cos[firstPart + k] as number;
      const ps = parts.sin[firstPart + k] as number;
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
      const lever = parts.lever[members[m] as number] as number;
      this.move(
        m,
        poses[3 * m] as number,
        poses[3 * m + 1] as number,
        lever > 0 ? (poses[3 * m + 2] as number) / lever : 0,
      );
      forceX[m] = 0;
      forceY[m] = 0;
      torque[m] = 0;
      pain[m] = 0;
    }
    this.worst = 0;
    let energy = 0;
    for (let a = 0; a < count; a++) {
      energy += this.againstRegion(a, poses[3 * a] as number, poses[3 * a + 1] as number);
      const ax = poses[3 * a] as number;
      const ay = poses[3 * a + 1] as number;
      const reachA = (parts.bound[members[a] as number] as number) + this.gap;
      for (let b = a + 1; b < count; b++) {
        const dx = (poses[3 * b] as number) - ax;
        const dy = (poses[3 * b + 1] as number) - ay;
        const reach = reachA + (parts.bound[members[b] as number] as number);
        if (dx * dx + dy * dy < reach * reach) energy += this.between(a, b, ax, ay, ax + dx, ay + dy);
      }
    }
    for (let m = 0; m < count; m++) {
      const lever = parts.lever[members[m] as number] as number;
      gradient[3 * m] = forceX[m] as number;
      gradient[3 * m + 1] = forceY[m] as number;
      gradient[3 * m + 2] = lever > 0 ? (torque[m] as number) / lever : 0;
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
    const reachM = (parts.bound[members[m] as number] as number) + this.gap;
    let energy = this.againstRegion(m, x, y);
    for (let b = 0; b < count && energy < limit; b++) {
      if (b === m) continue;
      const bx = poses[3 * b] as number;
      const by = poses[3 * b + 1] as number;
      const dx = bx - x;
      const dy = by - y;
      const reach = reachM + (parts.bound[members[b] as number] as number);
      if (dx * dx + dy * dy < reach * reach) energy += this.between(m, b, x, y, bx, by);
    }
    return energy;
  }

  /** Gradient [m] of the last `probe` with respect to m's x, y and turn x lever. */
  probeGradient(m: number, out: Float64Array): void {
    const lever = this.parts.lever[this.members[m] as number] as number;
    out[0] = this.forceX[m] as number;
    out[1] = this.forceY[m] as number;
    out[2] = lever > 0 ? (this.torque[m] as number) / lever : 0;
  }

  private between(a: number, b: number, ax: number, ay: number, bx: number, by: number): number {
    const { start, boxX, boxY, boxCos, boxSin, boxHalfX, boxHalfY, boxRadius, contact } = this;
    const endA = start[a + 1] as number;
    const startB = start[b] as number;
    const endB = start[b + 1] as number;
    let energy = 0;
    for (let i = start[a] as number; i < endA; i++) {
      const ix = boxX[i] as number;
      const iy = boxY[i] as number;
      const hxi = boxHalfX[i] as number;
      const hyi = boxHalfY[i] as number;
      const pointI = hxi === 0 && hyi === 0;
      const roundI = (boxRadius[i] as number) + this.gap;
      for (let j = startB; j < endB; j++) {
        const hxj = boxHalfX[j] as number;
        const hyj = boxHalfY[j] as number;
        const jx = boxX[j] as number;
        const jy = boxY[j] as number;
        const round = roundI + (boxRadius[j] as number);
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
            coreToPoint(contact, jx, jy, boxCos[j] as number, boxSin[j] as number, hxj, hyj, ix, iy);
            nx = -(contact[1] as number);
            ny = -(contact[2] as number);
          } else if (hxj === 0 && hyj === 0) {
            coreToPoint(contact, ix, iy, boxCos[i] as number, boxSin[i] as number, hxi, hyi, jx, jy);
            nx = contact[1] as number;
            ny = contact[2] as number;
          } else {
            coreToCore(
              contact,
              ix,
              iy,
              boxCos[i] as number,
              boxSin[i] as number,
              hxi,
              hyi,
              jx,
              jy,
              boxCos[j] as number,
              boxSin[j] as number,
              hxj,
              hyj,
            );
            nx = contact[1] as number;
            ny = contact[2] as number;
          }
          overlap = round - (contact[0] as number);
          px = contact[3] as number;
          py = contact[4] as number;
        }
        if (overlap <= 0) continue;
        if (overlap > this.worst) this.worst = overlap;
        energy += overlap * overlap;
        const push = 2 * overlap;
        this.forceX[a] = (this.forceX[a] as number) + push * nx;
        this.forceY[a] = (this.forceY[a] as number) + push * ny;
        this.torque[a] = (this.torque[a] as number) + push * ((px - ax) * ny - (py - ay) * nx);
        this.forceX[b] = (this.forceX[b] as number) - push * nx;
        this.forceY[b] = (this.forceY[b] as number) - push * ny;
        this.torque[b] = (this.torque[b] as number) - push * ((px - bx) * ny - (py - by) * nx);
      }
    }
    this.pain[a] = (this.pain[a] as number) + energy;
    this.pain[b] = (this.pain[b] as number) + energy;
    return energy;
  }

  private push(a: number, overlap: number, nx: number, ny: number, armX: number, armY: number): number {
    if (overlap > this.worst) this.worst = overlap;
    this.forceX[a] = (this.forceX[a] as number) + 2 * overlap * nx;
    this.forceY[a] = (this.forceY[a] as number) + 2 * overlap * ny;
    this.torque[a] = (this.torque[a] as number) + 2 * overlap * (armX * ny - armY * nx);
    return overlap * overlap;
  }

  /** Against the edge of the region and its keep-outs. */
  private againstRegion(a: number, ax: number, ay: number): number {
    const { region, start, boxX, boxY, boxCos, boxSin, boxHalfX, boxHalfY, boxRadius, contact } = this;
    const bound = this.parts.bound[this.members[a] as number] as number;
    const offX = ax - region.x;
    const offY = ay - region.y;
    const nearRim = Math.sqrt(offX * offX + offY * offY) + bound > region.radius;
    const { flats, keepOuts } = region;
    let energy = 0;
    const end = start[a + 1] as number;
    if (nearRim || flats.length > 0) {
      for (let i = start[a] as number; i < end; i++) {
        const hx = boxHalfX[i] as number;
        const hy = boxHalfY[i] as number;
        const radius = boxRadius[i] as number;
        const corners = hx === 0 && hy === 0 ? 1 : hy === 0 ? 2 : 4;
        for (let k = 0; k < corners; k++) {
          const localX = k & 1 ? -hx : hx;
          const localY = k & 2 ? -hy : hy;
          const x = (boxX[i] as number) + (boxCos[i] as number) * localX - (boxSin[i] as number) * localY;
          const y = (boxY[i] as number) + (boxSin[i] as number) * localX + (boxCos[i] as number) * localY;
          if (nearRim) {
            const fromX = x - region.x;
            const fromY = y - region.y;
            const far = Math.sqrt(fromX * fromX + fromY * fromY);
            const over = far + radius - region.radius;
            if (over > 0 && far > 0) energy += this.push(a, over, fromX / far, fromY / far, x - ax, y - ay);
          }
          for (let f = 0; f < flats.length; f++) {
            const flat = flats[f] as (typeof flats)[number];
            const over = x * flat.nx + y * flat.ny + radius - flat.distance;
            if (over > 0) energy += this.push(a, over, flat.nx, flat.ny, x - ax, y - ay);
          }
        }
      }
    }
    for (let k = 0; k < keepOuts.length; k++) {
      const out = keepOuts[k] as (typeof keepOuts)[number];
      const reach = bound + out.radius + out.halfX + out.halfY;
      const dx = out.x - ax;
      const dy = out.y - ay;
      if (dx * dx + dy * dy >= reach * reach) continue;
      const pointOut = out.halfX === 0 && out.halfY === 0;
      const cos = pointOut ? 1 : Math.cos(out.angle);
      const sin = pointOut ? 0 : Math.sin(out.angle);
      for (let i = start[a] as number; i < end; i++) {
        const hx = boxHalfX[i] as number;
        const hy = boxHalfY[i] as number;
        const ix = boxX[i] as number;
        const iy = boxY[i] as number;
        if (pointOut) {
          coreToPoint(contact, ix, iy, boxCos[i] as number, boxSin[i] as number, hx, hy, out.x, out.y);
        } else {
          coreToCore(
            contact,
            ix,
            iy,
            boxCos[i] as number,
            boxSin[i] as number,
            hx,
            hy,
            out.x,
            out.y,
            cos,
            sin,
            out.halfX,
            out.halfY,
          );
        }
        const overlap = out.radius + (boxRadius[i] as number) - (contact[0] as number);
        if (overlap > 0) {
          energy += this.push(
            a,
            overlap,
            contact[1] as number,
            contact[2] as number,
            (contact[3] as number) - ax,
            (contact[4] as number) - ay,
          );
        }
      }
    }
    this.pain[a] = (this.pain[a] as number) + energy;
    return energy;
  }
}
