import { failure, success, type Outcome } from "#base";
import { Gmres } from "#engine/numerics";
import { stageFraction, stageWeight } from "./heater.ts";
import { Ledger } from "./ledger.ts";
import type { ThermalSystem } from "./system.ts";

/** How hard to try. */
export interface StepAccuracy {
  /** Error allowed in one step, at the worst watched node [K]. */
  readonly perStep: number;
  /** Root mean square of what the equations may leave unbalanced, in terms of temperature [K]. */
  readonly balance: number;
  readonly shortest: number;
  readonly longest: number;
}

export interface StepCounts {
  steps: number;
  rejected: number;
  newton: number;
  /** Products with the exchange matrix. */
  products: number;
}

/** Why a march through time gave up. */
export interface StepFailure {
  readonly kind: "step-too-short";
  readonly time: number;
}

/**
 * Marches a thermal system through time with steps of its own choice.
 *
 * TR-BDF2: a trapezoidal stage to 0.586 of the step, then a backward difference to its end; second order, damps what
 * is too fast to follow, both stages with the same matrix. The difference to an embedded third-order formula, passed
 * through the stiff part of the matrix, is the error that chooses the step. Each stage is solved by Newton's method
 * with the exact derivative, so stored heat, flows and the controller's power agree at every stage.
 *
 * Source: [hosea-shampine-1996]
 */
export class TimeStepper {
  time = 0;
  readonly state: Float64Array;
  /** State at the middle stage of the step taken last. */
  readonly middle: Float64Array;
  readonly counts: StepCounts = { steps: 0, rejected: 0, newton: 0, products: 0 };
  readonly ledger: Ledger;
  /** Length the next step will try [s]. */
  nextLength: number;
  private readonly contentsStart: Float64Array;
  private readonly contentsMiddle: Float64Array;
  private readonly contentsEnd: Float64Array;
  private readonly known: Float64Array;
  private readonly netStart: Float64Array;
  private readonly netMiddle: Float64Array;
  private readonly netEnd: Float64Array;
  private readonly q: Float64Array;
  private readonly residual: Float64Array;
  private readonly increment: Float64Array;
  private readonly trial: Float64Array;
  private readonly earlier: Float64Array;
  private readonly earlierMiddle: Float64Array;
  private readonly gmres: Gmres;
  private earlierLength = 0;

  constructor(
    readonly system: ThermalSystem,
    private readonly accuracy: StepAccuracy,
    /** Nodes whose error chooses the step. */
    private readonly watched: Int32Array,
    start: Float64Array,
    firstLength = 10,
  ) {
    const { size } = system;
    const zeros = (): Float64Array => new Float64Array(size);
    this.state = Float64Array.from(start);
    this.middle = Float64Array.from(start);
    this.contentsStart = zeros();
    this.contentsMiddle = zeros();
    this.contentsEnd = zeros();
    this.known = zeros();
    this.netStart = zeros();
    this.netMiddle = zeros();
    this.netEnd = zeros();
    this.q = zeros();
    this.residual = zeros();
    this.increment = zeros();
    this.trial = zeros();
    this.earlier = zeros();
    this.earlierMiddle = zeros();
    this.gmres = new Gmres(size, 40);
    this.nextLength = firstLength;
    this.ledger = new Ledger(system);
    this.restart();
    this.ledger.begin(this.contentsStart);
  }

  /** Call where power or schedule may have jumped: forgets the past and asks the heaters anew. */
  restart(): void {
    const { system } = this;
    this.earlierLength = 0;
    system.beginStep(this.state);
    system.rawWare.beginStep(0);
    system.rawWare.openStage(0);
    system.contents(this.state, this.contentsStart);
    system.setTime(this.time);
    for (const heater of system.heaters) {
      heater.beginStep(this.time, 0);
      heater.openStage(0);
    }
    system.evaluate(this.state, this.netStart);
    this.counts.products++;
    this.ledger.noteStart(system.flows);
    this.nextLength = Math.min(this.nextLength, 20);
  }

  /**
   * Takes one step that ends at `until` or before.
   *
   * @returns its length [s], or why it could not be taken; then time and state are as before
   */
  step(until: number): Outcome<number, StepFailure> {
    const { accuracy } = this;
    let length = Math.min(this.nextLength, accuracy.longest);
    for (;;) {
      const left = until - this.time;
      // No crumbs: a step that would leave less than half of itself is shared out evenly.
      if (length > left) length = left;
      else if (length * 1.5 > left) length = left / 2;
      const error = this.attempt(length);
      const factor = Math.min(Math.max(0.85 * Math.cbrt(accuracy.perStep / Math.max(error, 1e-12)), 0.25), 2.5);
      if (error <= accuracy.perStep) {
        this.accept(length);
        this.nextLength = Math.max(length * factor, this.nextLength < length ? 0 : accuracy.shortest);
        return success(length);
      }
      this.counts.rejected++;
      length *= Number.isFinite(error) ? Math.min(factor, 0.7) : 0.25;
      this.nextLength = length;
      if (length < accuracy.shortest) return failure({ kind: "step-too-short", time: this.time });
    }
  }

  /** Tries a step; its error [K], or infinity where the equations could not be solved. */
  private attempt(length: number): number {
    const { system, contentsStart, contentsMiddle, contentsEnd, netStart, netMiddle, netEnd, known, trial } = this;
    const { massive } = system.network;
    const newest = stageWeight.newest * length;
    const earlier = stageWeight.earlier * length;
    system.beginStep(this.state);
    system.rawWare.beginStep(length);
    for (const heater of system.heaters) heater.beginStep(this.time, length);

    for (const i of massive) known[i] = contentsStart[i] + newest * netStart[i];
    this.predictMiddle(length);
    if (!this.solveStage(1, length, newest, contentsMiddle)) return Infinity;
    for (const i of massive) netMiddle[i] = (contentsMiddle[i] - known[i]) / newest;
    this.middle.set(trial);
    this.ledger.noteMiddle(system.flows);

    for (const i of massive) known[i] = contentsStart[i] + earlier * (netStart[i] + netMiddle[i]);
    this.predictEnd(length);
    if (!this.solveStage(2, length, newest, contentsEnd)) return Infinity;
    for (const i of massive) netEnd[i] = (contentsEnd[i] - known[i]) / newest;
    return this.errorOf(length);
  }

  private errorOf(length: number): number {
    const { residual, netStart, netMiddle, netEnd, system } = this;
    const { earlier, newest } = stageWeight;
    // Weights of the embedded third-order formula less those of the step.
    const start = (1 - earlier) / 3 - earlier;
    const middle = (3 * earlier + 1) / 3 - earlier;
    const end = newest / 3 - newest;
    residual.fill(0);
    const perWeight = 1 / newest;
    for (const i of system.network.massive) {
      residual[i] = (start * netStart[i] + middle * netMiddle[i] + end * netEnd[i]) * perWeight;
    }
    system.precondition(residual);
    let worst = 0;
    for (const i of this.watched) worst = Math.max(worst, Math.abs(residual[i]));
    return Number.isFinite(length) && Number.isFinite(worst) ? worst : Infinity;
  }

  /** Quadratic through the last step's three instants, or the start itself where there is no past. */
  private predictMiddle(length: number): void {
    const { trial, state } = this;
    trial.set(state);
    if (this.earlierLength === 0) return;
    extrapolate(
      -this.earlierLength,
      this.earlier,
      (stageFraction[1] - 1) * this.earlierLength,
      this.earlierMiddle,
      state,
      stageFraction[1] * length,
      trial,
    );
  }

  private predictEnd(length: number): void {
    const { trial, state, middle } = this;
    const at = stageFraction[1] * length;
    if (this.earlierLength === 0) {
      for (let i = 0; i < trial.length; i++) trial[i] += (middle[i] - state[i]) * ((length - at) / at);
      return;
    }
    // Times counted from the middle stage.
    extrapolate(
      (stageFraction[1] - 1) * this.earlierLength - at,
      this.earlierMiddle,
      -at,
      state,
      middle,
      length - at,
      trial,
    );
  }

  /** Newton's method from `trial`, which holds the stage's state on return. */
  private solveStage(stage: 1 | 2, length: number, weight: number, contents: Float64Array): boolean {
    const { system, trial, residual, increment, known, q, gmres, accuracy, counts } = this;
    const { mass } = system.network;
    for (const heater of system.heaters) heater.openStage(stage);
    system.rawWare.openStage(stage);
    system.setTime(this.time + stageFraction[stage] * length);
    const goal = accuracy.balance * Math.sqrt(system.size);
    let before = Infinity;
    for (let round = 0; round < 12; round++) {
      system.contents(trial, contents);
      system.evaluate(trial, q);
      counts.products++;
      for (let i = 0; i < q.length; i++) {
        residual[i] = mass[i] > 0 ? q[i] - (contents[i] - known[i]) / weight : q[i];
      }
      system.linearise(trial, weight);
      system.precondition(residual);
      const size = Math.sqrt(sumOfSquares(residual));
      if (!Number.isFinite(size)) return false;
      if (size <= goal) return true;
      if (round > 4 && size > before) return false;
      before = size;
      counts.newton++;
      counts.products += gmres.solve(
        system.applyDerivative,
        system.precondition,
        residual,
        increment,
        0.02,
        goal * 0.3,
      );
      system.addIncrement(trial, increment);
      if (!withinReason(trial)) return false;
    }
    return false;
  }

  private accept(length: number): void {
    const { system } = this;
    this.ledger.add(length, system.flows);
    for (const heater of system.heaters) heater.acceptStep();
    system.rawWare.acceptStep(this.trial);
    this.earlier.set(this.state);
    this.earlierMiddle.set(this.middle);
    this.earlierLength = length;
    this.state.set(this.trial);
    this.contentsStart.set(this.contentsEnd);
    this.netStart.set(this.netEnd);
    this.time += length;
    this.counts.steps++;
  }

  /** Heat stored now [J], by vertex. */
  get contents(): Float64Array {
    return this.contentsStart;
  }
}

function sumOfSquares(vector: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < vector.length; i++) sum += vector[i] * vector[i];
  return sum;
}

function withinReason(state: Float64Array): boolean {
  for (let i = 0; i < state.length; i++) if (!(state[i] > -1e7 && state[i] < 1e8)) return false;
  return true;
}

/** Value at `t` of the parabola through (t0, a), (t1, b), (0, c), into `into`. */
function extrapolate(
  t0: number,
  a: Float64Array,
  t1: number,
  b: Float64Array,
  c: Float64Array,
  t: number,
  into: Float64Array,
): void {
  const wa = ((t - t1) * t) / ((t0 - t1) * t0);
  const wb = ((t - t0) * t) / ((t1 - t0) * t1);
  const wc = ((t - t0) * (t - t1)) / (t0 * t1);
  for (let i = 0; i < into.length; i++) into[i] = wa * a[i] + wb * b[i] + wc * c[i];
}
