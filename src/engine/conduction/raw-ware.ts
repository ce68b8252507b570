import type { Dehydroxylation, OnceOnly } from "#engine/materials";
import { stageWeight } from "./heater.ts";

/**
 * Heat of drying and of the clay's change, node by node.
 *
 * What happens once only follows the highest temperature reached. Loss of bound water has a state of its own,
 * g = (1 - share gone)^-2, for which third-order kinetics read dg/dt = 2 k(T): a plain integral along the step.
 */
export class RawWare {
  private readonly start: Float64Array;
  private readonly rateAtStart: Float64Array;
  private readonly rateAtMiddle: Float64Array;
  private readonly rate: Float64Array;
  private readonly g: Float64Array;
  /** Change of taken-up heat with temperature at the last `addContents` [J/K]. */
  private readonly slope: Float64Array;
  private readonly highest: Float64Array;
  private readonly heat: Float64Array;
  private length = 0;
  private stage: 0 | 1 | 2 = 0;

  constructor(
    private readonly nodes: readonly { readonly node: number; readonly mass: number }[],
    private readonly clay: { readonly onceOnly: readonly OnceOnly[]; readonly dehydroxylation: Dehydroxylation },
  ) {
    const count = nodes.length;
    this.start = new Float64Array(count).fill(1);
    this.rateAtStart = new Float64Array(count);
    this.rateAtMiddle = new Float64Array(count);
    this.rate = new Float64Array(count);
    this.g = new Float64Array(count).fill(1);
    this.slope = new Float64Array(count);
    this.highest = new Float64Array(count);
    this.heat = new Float64Array(count);
  }

  beginStep(length: number): void {
    this.length = length;
  }

  openStage(stage: 0 | 1 | 2): void {
    if (stage === 2) this.rateAtMiddle.set(this.rate);
    this.stage = stage;
  }

  acceptStep(state: Float64Array): void {
    for (let i = 0; i < this.nodes.length; i++) {
      this.start[i] = this.g[i]!;
      this.rateAtStart[i] = this.rate[i]!;
      this.highest[i] = Math.max(this.highest[i], state[this.nodes[i].node]);
    }
    this.stage = 0;
  }

  /** Adds heat taken up by reactions [J] to the heat content of each raw node. */
  addContents(state: Float64Array, contents: Float64Array): void {
    const { rate: factor, activation, heat } = this.clay.dehydroxylation;
    const newest = stageWeight.newest * this.length;
    for (let i = 0; i < this.nodes.length; i++) {
      const { node, mass } = this.nodes[i];
      const t = state[node];
      const rate = 2 * factor * Math.exp(-activation / t);
      let g = this.start[i];
      if (this.stage === 1) g += newest * (this.rateAtStart[i] + rate);
      if (this.stage === 2) {
        g += stageWeight.earlier * this.length * (this.rateAtStart[i] + this.rateAtMiddle[i]) + newest * rate;
      }
      const gone = 1 - 1 / Math.sqrt(g);
      let taken = heat * gone;
      let slope = this.stage === 0 ? 0 : (heat * 0.5 * g ** -1.5 * newest * rate * activation) / (t * t);
      const top = Math.max(t, this.highest[i]);
      for (const { from, to, heat: once } of this.clay.onceOnly) {
        const along = Math.min(Math.max((top - from) / (to - from), 0), 1);
        // A smooth step, so that a time step need not find its corners.
        taken += once * along * along * (3 - 2 * along);
        if (t >= top) slope += (once * 6 * along * (1 - along)) / (to - from);
      }
      this.rate[i] = rate;
      this.g[i] = g;
      this.slope[i] = mass * slope;
      this.heat[i] = mass * taken;
      contents[node] += mass * taken;
    }
  }

  addStorage(storage: Float64Array, weight: number): void {
    for (let i = 0; i < this.nodes.length; i++) {
      const node = this.nodes[i].node;
      // Heat given off would make the diagonal small or negative; the iteration then does without its derivative.
      storage[node] += Math.max(this.slope[i], 0) / weight;
    }
  }

  /** Heat taken up by reactions so far [J], at the last `addContents`. */
  taken(): number {
    return this.heat.reduce((sum, heat) => sum + heat, 0);
  }
}
