/** A function to minimise: returns its value at `point` and writes its gradient. */
export type Objective = (point: Float64Array, gradient: Float64Array) => number;

/**
 * Limited-memory BFGS (8 pairs) with a backtracking line search, for small smooth problems solved very often.
 *
 * One instance keeps its work arrays; it is not re-entrant, so each packer owns one.
 * Source: [nocedal-wright-2006], algorithms 7.4 and 3.1
 */
export class Minimiser {
  private readonly memory = 8;
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
   * Stops when `enough(value)` holds, after `iterations`, or when a window of 12 iterations gains less than `gain`
   * of the value. `firstStep` is the length of the first step.
   */
  minimise(
    objective: Objective,
    point: Float64Array,
    size: number,
    iterations: number,
    firstStep: number,
    enough: (value: number) => boolean,
    gain: number,
  ): number {
    const { gradient, direction, trial, trialGradient, steps, changes, rho, alpha, memory } = this;
    let value = objective(point, gradient);
    let stored = 0;
    let windowValue = value;
    for (let iteration = 0; iteration < iterations; iteration++) {
      if (enough(value)) return value;
      if (iteration % 12 === 11) {
        if (windowValue - value < gain * windowValue) return value;
        windowValue = value;
      }
      // Two-loop recursion.
      let norm = 0;
      for (let i = 0; i < size; i++) {
        const g = gradient[i] as number;
        direction[i] = -g;
        norm += g * g;
      }
      if (norm === 0) return value;
      const pairs = stored < memory ? stored : memory;
      for (let k = 1; k <= pairs; k++) {
        const slot = (stored - k) % memory;
        const step = steps[slot] as Float64Array;
        const change = changes[slot] as Float64Array;
        let dot = 0;
        for (let i = 0; i < size; i++) dot += (step[i] as number) * (direction[i] as number);
        const a = dot * (rho[slot] as number);
        alpha[slot] = a;
        for (let i = 0; i < size; i++) direction[i] = (direction[i] as number) - a * (change[i] as number);
      }
      if (pairs > 0) {
        const slot = (stored - 1) % memory;
        const change = changes[slot] as Float64Array;
        let square = 0;
        for (let i = 0; i < size; i++) square += (change[i] as number) * (change[i] as number);
        const scale = 1 / ((rho[slot] as number) * square);
        for (let i = 0; i < size; i++) direction[i] = (direction[i] as number) * scale;
      } else {
        const scale = firstStep / Math.sqrt(norm);
        for (let i = 0; i < size; i++) direction[i] = (direction[i] as number) * scale;
      }
      for (let k = pairs; k >= 1; k--) {
        const slot = (stored - k) % memory;
        const step = steps[slot] as Float64Array;
        const change = changes[slot] as Float64Array;
        let dot = 0;
        for (let i = 0; i < size; i++) dot += (change[i] as number) * (direction[i] as number);
        const b = (alpha[slot] as number) - dot * (rho[slot] as number);
        for (let i = 0; i < size; i++) direction[i] = (direction[i] as number) + b * (step[i] as number);
      }
      let slope = 0;
      for (let i = 0; i < size; i++) slope += (direction[i] as number) * (gradient[i] as number);
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
        for (let i = 0; i < size; i++) trial[i] = (point[i] as number) + length * (direction[i] as number);
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
        const s = (trial[i] as number) - (point[i] as number);
        curvature += s * ((trialGradient[i] as number) - (gradient[i] as number));
        stepSquare += s * s;
      }
      // A pair without curvature would spoil the model; it is left out.
      const keep = curvature > 1e-8 * stepSquare;
      const slot = stored % memory;
      const step = steps[slot] as Float64Array;
      const change = changes[slot] as Float64Array;
      for (let i = 0; i < size; i++) {
        if (keep) {
          step[i] = (trial[i] as number) - (point[i] as number);
          change[i] = (trialGradient[i] as number) - (gradient[i] as number);
        }
        point[i] = trial[i] as number;
        gradient[i] = trialGradient[i] as number;
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
