/** A function to minimise: returns its value at `point` and writes its gradient. */
export type Objective = (point: Float64Array, gradient: Float64Array) => number;

/**
 * Limited-memory BFGS (6 pairs) with a backtracking line search, for small smooth problems solved very often.
 *
 * One instance keeps its work arrays; it is not re-entrant, so each packer owns one.
 * Source: [nocedal-wright-2006], algorithms 7.4 and 3.1
 */
export class Minimiser {
  private readonly memory = 6;
  private readonly gradient: Float64Array;
  private readonly direction: Float64Array;
  private readonly trial: Float64Array;
  private readonly trialGradient: Float64Array;
  private readonly steps: Float64Array[];
  private readonly changes: Float64Array[];
  private readonly rho: Float64Array;
  private readonly alpha: Float64Array;

  constructor(variables: number) {
    const array = (): Float64Array => new Float64Array(variables);
    this.gradient = array();
    this.direction = array();
    this.trial = array();
    this.trialGradient = array();
    this.steps = Array.from({ length: this.memory }, array);
    this.changes = Array.from({ length: this.memory }, array);
    this.rho = new Float64Array(this.memory);
    this.alpha = new Float64Array(this.memory);
  }

  /**
   * Lowers `objective` from `point` (overwritten with the best found) over its first `size` variables; returns the value.
   *
   * Stops when `enough(value, iteration)` holds, after `iterations`, or when a window of 12 iterations gains less than `gain`
   * of the value. `firstStep` is the length of the first step.
   */
  minimise(
    objective: Objective,
    point: Float64Array,
    size: number,
    iterations: number,
    firstStep: number,
    enough: (value: number, iteration: number) => boolean,
    gain: number,
  ): number {
    const { gradient, direction, trial, trialGradient, steps, changes, rho, alpha, memory } = this;
    let value = objective(point, gradient);
    let stored = 0;
    let windowValue = value;
    for (let iteration = 0; iteration < iterations; iteration++) {
      if (enough(value, iteration)) return value;
      if (iteration % 12 === 11) {
        if (windowValue - value < gain * windowValue) return value;
        windowValue = value;
      }
      // Two-loop recursion.
      let norm = 0;
      for (let i = 0; i < size; i++) {
        const g = gradient[i];
        direction[i] = -g;
        norm += g * g;
      }
      if (norm === 0) return value;
      const pairs = stored < memory ? stored : memory;
      for (let k = 1; k <= pairs; k++) {
        const slot = (stored - k) % memory;
        const step = steps[slot];
        const change = changes[slot];
        let dot = 0;
        for (let i = 0; i < size; i++) dot += step[i] * direction[i];
        const a = dot * rho[slot];
        alpha[slot] = a;
        for (let i = 0; i < size; i++) direction[i] = direction[i] - a * change[i];
      }
      if (pairs > 0) {
        const slot = (stored - 1) % memory;
        const change = changes[slot];
        let square = 0;
        for (let i = 0; i < size; i++) square += change[i] * change[i];
        const scale = 1 / (rho[slot] * square);
        for (let i = 0; i < size; i++) direction[i] = direction[i] * scale;
      } else {
        const scale = firstStep / Math.sqrt(norm);
        for (let i = 0; i < size; i++) direction[i] = direction[i] * scale;
      }
      for (let k = pairs; k >= 1; k--) {
        const slot = (stored - k) % memory;
        const step = steps[slot];
        const change = changes[slot];
        let dot = 0;
        for (let i = 0; i < size; i++) dot += change[i] * direction[i];
        const b = alpha[slot] - dot * rho[slot];
        for (let i = 0; i < size; i++) direction[i] = direction[i] + b * step[i];
      }
      let slope = 0;
      for (let i = 0; i < size; i++) slope += direction[i] * gradient[i];
      if (slope >= 0) {
        // The pairs no longer describe the surface: start again along the gradient.
        if (stored === 0) return value;
        stored = 0;
        continue;
      }
      let length = 1;
      let next = value;
      let halvings = 0;
      for (; halvings < 12; halvings++) {
        for (let i = 0; i < size; i++) trial[i] = point[i] + length * direction[i];
        next = objective(trial, trialGradient);
        if (next <= value + 1e-4 * length * slope) break;
        length *= halvings === 0 ? 0.4 : 0.25;
      }
      if (halvings === 12) {
        if (stored === 0) return value;
        stored = 0;
        continue;
      }
      let curvature = 0;
      let stepSquare = 0;
      for (let i = 0; i < size; i++) {
        const s = trial[i] - point[i];
        curvature += s * (trialGradient[i] - gradient[i]);
        stepSquare += s * s;
      }
      // A pair without curvature would spoil the model; it is left out.
      const keep = curvature > 1e-8 * stepSquare;
      const slot = stored % memory;
      const step = steps[slot];
      const change = changes[slot];
      for (let i = 0; i < size; i++) {
        if (keep) {
          step[i] = trial[i] - point[i];
          change[i] = trialGradient[i] - gradient[i];
        }
        point[i] = trial[i];
        gradient[i] = trialGradient[i];
      }
      value = next;
      if (keep) {
        rho[slot] = 1 / curvature;
        stored++;
      }
    }
    return value;
  }
}
