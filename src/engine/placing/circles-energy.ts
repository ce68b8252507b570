/**
 * Overlap energy of discs in a round container and its gradient, with a list of near pairs.
 *
 * Variables are [x0, y0, x1, y1, ..., R]; E = Σ (r_i + r_j - d_ij)² over overlapping pairs + Σ (|x_i| + r_i - R)² over
 * discs that reach over, in units of the mean radius.
 */
export class CirclesEnergy {
  /** Evaluations so far. */
  work = 0;
  /** Each disc's share of the energy at the last `evaluate`. */
  readonly pain: Float64Array;
  private readonly radii: Float64Array;
  private pairs = new Int32Array(64);
  private pairCount = 0;
  private readonly listedAt: Float64Array;
  private readonly skin: number;

  constructor(radii: Float64Array) {
    this.radii = radii;
    this.pain = new Float64Array(radii.length);
    this.listedAt = new Float64Array(2 * radii.length).fill(Infinity);
    this.skin = 0.6;
  }

  evaluate(point: Float64Array, gradient: Float64Array): number {
    this.work++;
    const { radii, pain } = this;
    const count = radii.length;
    this.refreshPairs(point);
    const { pairs, pairCount } = this;
    const outer = point[2 * count];
    gradient.fill(0, 0, 2 * count + 1);
    let energy = 0;
    let pull = 0;
    for (let i = 0; i < count; i++) {
      pain[i] = 0;
      const x = point[2 * i];
      const y = point[2 * i + 1];
      const room = outer - radii[i];
      const square = x * x + y * y;
      if (room > 0 && square <= room * room) continue;
      const far = Math.sqrt(square);
      const over = far - room;
      energy += over * over;
      pain[i] = over * over;
      pull -= 2 * over;
      if (far > 0) {
        gradient[2 * i] = (2 * over * x) / far;
        gradient[2 * i + 1] = (2 * over * y) / far;
      }
    }
    for (let p = 0; p < pairCount; p++) {
      const i = pairs[2 * p];
      const j = pairs[2 * p + 1];
      const dx = point[2 * j] - point[2 * i];
      const dy = point[2 * j + 1] - point[2 * i + 1];
      const reach = radii[i] + radii[j];
      const square = dx * dx + dy * dy;
      if (square >= reach * reach) continue;
      const distance = Math.sqrt(square);
      const over = reach - distance;
      const part = over * over;
      energy += part;
      pain[i] = pain[i] + part;
      pain[j] = pain[j] + part;
      const push = distance > 0 ? (2 * over) / distance : 0;
      gradient[2 * i] = gradient[2 * i] + push * dx;
      gradient[2 * i + 1] = gradient[2 * i + 1] + push * dy;
      gradient[2 * j] = gradient[2 * j] - push * dx;
      gradient[2 * j + 1] = gradient[2 * j + 1] - push * dy;
    }
    gradient[2 * count] = pull;
    return energy;
  }

  /** Lists the pairs that can overlap before any disc has moved half the skin. */
  private refreshPairs(point: Float64Array): void {
    const { radii, listedAt, skin } = this;
    const count = radii.length;
    const limit = (skin / 2) ** 2;
    let moved = false;
    for (let i = 0; i < count && !moved; i++) {
      const dx = point[2 * i] - listedAt[2 * i];
      const dy = point[2 * i + 1] - listedAt[2 * i + 1];
      moved = !(dx * dx + dy * dy < limit);
    }
    if (!moved) return;
    listedAt.set(point.subarray(0, 2 * count));
    let found = 0;
    for (let i = 0; i < count; i++) {
      const x = point[2 * i];
      const y = point[2 * i + 1];
      const reachI = radii[i] + skin;
      for (let j = i + 1; j < count; j++) {
        const dx = point[2 * j] - x;
        const dy = point[2 * j + 1] - y;
        const reach = reachI + radii[j];
        if (dx * dx + dy * dy >= reach * reach) continue;
        if (2 * found + 2 > this.pairs.length) {
          const longer = new Int32Array(4 * found + 4);
          longer.set(this.pairs);
          this.pairs = longer;
        }
        this.pairs[2 * found] = i;
        this.pairs[2 * found + 1] = j;
        found++;
      }
    }
    this.pairCount = found;
  }
}
