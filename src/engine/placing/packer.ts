import type { Random } from "#base";
import { Minimiser } from "./minimise.ts";
import { OverlapEnergy } from "./overlap-energy.ts";
import type { Parts } from "./parts.ts";
import { boxAbout, type Region } from "./region.ts";

/** Items on one shelf and where they stand: `poses` = [x, y, turn] per member [m, m, rad]. */
export interface Packed {
  readonly members: readonly number[];
  readonly poses: Float64Array;
}

export const nothingPacked: Packed = { members: [], poses: new Float64Array(0) };

/*
 * When to give up early, as shares of the items' mean outer radius: found on the reference loads, where beyond these
 * fewer than 2 in 100 tries with one more item came to an end. First: root of the energy of newcomers at their best
 * spots. Second: largest overlap after the first descent.
 */
const hopelessSqueeze = 1.2;
const hopelessOverlap = 0.09;

/**
 * Packs items on a shelf by lowering the overlap energy from good spots, then relocating and swapping the items that
 * suffer most. Fixed items are never moved. Deterministic for one `random`.
 */
export class Packer {
  /** Energy evaluations and probes so far, in evaluations: the measure of work for step budgets. */
  work = 0;
  private readonly parts: Parts;
  private readonly energy: OverlapEnergy;
  private readonly minimiser: Minimiser;
  private readonly random: Random;
  private readonly gap: number;
  private readonly slack: number;
  private readonly scale: number;
  private readonly poses: Float64Array;
  private readonly kept: Float64Array;
  private readonly gradient: Float64Array;
  private readonly spotPoint = new Float64Array(3);
  private readonly spotMinimiser = new Minimiser(3);
  private members: number[] = [];
  private fixed: boolean[] = [];
  private box: readonly [number, number, number, number] = [0, 0, 0, 0];

  constructor(parts: Parts, gap: number, slack: number, random: Random) {
    this.parts = parts;
    this.energy = new OverlapEnergy(parts, gap, slack);
    this.minimiser = new Minimiser(3 * parts.count);
    this.random = random;
    this.gap = gap;
    this.slack = slack;
    this.scale = parts.bound.reduce((sum, bound) => sum + bound, 0) / Math.max(parts.count, 1);
    this.poses = new Float64Array(3 * parts.count);
    this.kept = new Float64Array(3 * parts.count);
    this.gradient = new Float64Array(3 * parts.count);
  }

  /**
   * `base` with `added` items standing free of each other on the region, or null if none was found.
   *
   * @param rounds  relocations and swaps to try before giving up
   * @param fixed   items that must not move (they belong to `base`)
   */
  pack(
    region: Region,
    base: Packed,
    added: readonly number[],
    rounds: number,
    fixed?: ReadonlySet<number>,
  ): Packed | null {
    this.enter(region, base, added, fixed);
    const size = this.members.length;
    const first = base.members.length;
    for (let m = first; m < size; m++) this.seat(m, added.length < 4 ? 90 : 40);
    if (rounds > 0 && added.length > 0 && first > 0) {
      const squeezed = Math.sqrt(this.evaluate(this.poses, this.gradient) / added.length);
      if (squeezed > hopelessSqueeze * this.scale) return null;
    }
    let value = this.settle(120);
    for (let round = 0; value > 0 && this.energy.worst > 0.9 * this.slack; round++) {
      if (round >= rounds || this.energy.worst > hopelessOverlap * this.scale) return null;
      value = this.disturb(value);
    }
    return this.leave();
  }

  /**
   * The same items farther apart: the widest gap found between gap and gap + `most` [m], by halving.
   */
  spread(region: Region, packed: Packed, most: number, fixed?: ReadonlySet<number>): Packed {
    let best = packed;
    let low = 0;
    let high = most;
    for (let tries = 0; tries < 7; tries++) {
      const extra = tries === 0 ? high : (low + high) / 2;
      this.energy.setGap(this.gap + extra);
      const wider = this.pack(region, best, [], 0, fixed);
      if (wider) {
        best = wider;
        low = extra;
        if (tries === 0) break;
      } else {
        high = extra;
      }
    }
    this.energy.setGap(this.gap);
    return best;
  }

  private enter(region: Region, base: Packed, added: readonly number[], fixed?: ReadonlySet<number>): void {
    this.box = boxAbout(region);
    this.members = [...base.members, ...added];
    this.fixed = this.members.map((item) => fixed?.has(item) ?? false);
    for (let m = 0; m < base.members.length; m++) {
      const lever = this.leverOf(m);
      this.poses[3 * m] = base.poses[3 * m];
      this.poses[3 * m + 1] = base.poses[3 * m + 1];
      this.poses[3 * m + 2] = base.poses[3 * m + 2] * lever;
    }
    // Newcomers wait out of everyone's reach until they are seated.
    for (let m = base.members.length; m < this.members.length; m++) {
      this.poses[3 * m] = 1e6 * (m + 1);
      this.poses[3 * m + 1] = 1e6;
      this.poses[3 * m + 2] = 0;
    }
    this.energy.load(region, this.members);
    // Loads every member's boxes where they stand, so that probes see them.
    this.energy.evaluate(this.poses, this.gradient);
    this.work++;
  }

  private leave(): Packed {
    const poses = this.poses.slice(0, 3 * this.members.length);
    for (let m = 0; m < this.members.length; m++) {
      const lever = this.leverOf(m);
      poses[3 * m + 2] = lever > 0 ? poses[3 * m + 2] / lever : 0;
    }
    return { members: this.members, poses };
  }

  private leverOf(m: number): number {
    return this.parts.lever[this.members[m]];
  }

  private evaluate = (poses: Float64Array, gradient: Float64Array): number => {
    this.work++;
    const value = this.energy.evaluate(poses, gradient);
    for (let m = 0; m < this.fixed.length; m++) {
      if (this.fixed[m]) gradient.fill(0, 3 * m, 3 * m + 3);
    }
    return value;
  };

  /** Lowers the energy of all from where they stand; returns it. */
  private settle(iterations: number): number {
    const good = 0.9 * this.slack;
    this.minimiser.minimise(
      this.evaluate,
      this.poses,
      3 * this.members.length,
      iterations,
      0.01,
      () => this.energy.worst <= good,
      0.1,
    );
    // The last evaluation may have been a rejected trial.
    return this.evaluate(this.poses, this.gradient);
  }

  /** Moves member m to the best of some random spots, improved alone. */
  private seat(m: number, samples: number): void {
    const { random, box, energy, poses, spotPoint } = this;
    const lever = this.leverOf(m);
    let best = Infinity;
    let bestX = (box[0] + box[2]) / 2;
    let bestY = (box[1] + box[3]) / 2;
    let bestTurn = 0;
    for (let sample = 0; sample < samples; sample++) {
      const x = box[0] + random.uniform() * (box[2] - box[0]);
      const y = box[1] + random.uniform() * (box[3] - box[1]);
      const turn = lever > 0 ? random.uniform() * 2 * Math.PI : 0;
      const value = energy.probe(m, x, y, turn, poses, best);
      if (value < best) {
        best = value;
        bestX = x;
        bestY = y;
        bestTurn = turn;
        if (value === 0) break;
      }
    }
    this.work += samples * 0.05;
    spotPoint[0] = bestX;
    spotPoint[1] = bestY;
    spotPoint[2] = bestTurn * lever;
    if (best > 0) {
      this.spotMinimiser.minimise(
        (point, gradient) => {
          const value = energy.probe(m, point[0], point[1], lever > 0 ? point[2] / lever : 0, poses, Infinity);
          energy.probeGradient(m, gradient);
          return value;
        },
        spotPoint,
        3,
        15,
        0.005,
        (value) => value === 0,
        0.05,
      );
      this.work += 1;
    }
    poses[3 * m] = spotPoint[0];
    poses[3 * m + 1] = spotPoint[1];
    poses[3 * m + 2] = spotPoint[2];
    energy.probe(m, spotPoint[0], spotPoint[1], lever > 0 ? spotPoint[2] / lever : 0, poses, 0);
  }

  /** One relocation or swap; kept only if the energy falls. Returns the energy now. */
  private disturb(value: number): number {
    const { random, energy, poses, kept, members } = this;
    const size = members.length;
    kept.set(poses.subarray(0, 3 * size));
    const sufferer = this.pickByPain();
    if (sufferer < 0) return value;
    const partner = random.uniform() < 0.35 ? this.pickPartner(sufferer) : -1;
    if (partner >= 0) {
      for (let k = 0; k < 2; k++) {
        const held = poses[3 * sufferer + k];
        poses[3 * sufferer + k] = poses[3 * partner + k];
        poses[3 * partner + k] = held;
      }
    } else {
      this.seat(sufferer, 40);
    }
    const next = this.settle(80);
    if (next < value || energy.worst <= 0.9 * this.slack) return next;
    poses.set(kept.subarray(0, 3 * size));
    return this.evaluate(poses, this.gradient);
  }

  private pickByPain(): number {
    const { energy, random, members, fixed } = this;
    let sum = 0;
    for (let m = 0; m < members.length; m++) if (!fixed[m]) sum += energy.pain[m];
    let left = random.uniform() * sum;
    for (let m = 0; m < members.length; m++) {
      if (fixed[m]) continue;
      left -= energy.pain[m];
      if (left < 0) return m;
    }
    return -1;
  }

  /** A free member of another size than m's, at random; -1 if there is none. */
  private pickPartner(m: number): number {
    const { random, members, fixed, parts } = this;
    const bound = parts.bound[members[m]];
    for (let tries = 0; tries < 8; tries++) {
      const other = random.below(members.length);
      if (other === m || fixed[other]) continue;
      const ratio = parts.bound[members[other]] / bound;
      if (Math.abs(ratio - 1) > 0.02 && ratio > 0.5 && ratio < 2) return other;
    }
    return -1;
  }
}
