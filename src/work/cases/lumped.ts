import { failure, success, type Outcome } from "#base";
import { NetworkBuilder, ThermalSystem, timedHeater, TimeStepper } from "#engine/conduction";
import { heatContentOf } from "#engine/materials";

/** A lumped enclosure: isothermal grey surfaces with heat capacity, loss to the room, and power into one of them. */
export interface LumpedCase {
  readonly surfaces: readonly string[];
  readonly emissivity: readonly number[];
  readonly heat_capacity_J_K: readonly number[];
  readonly loss_W_m2K: readonly number[];
  readonly wall_power_W: readonly (readonly [number, number])[];
  readonly T0: number;
  readonly T_ambient: number;
  readonly F: readonly (readonly number[])[];
  readonly A: readonly number[];
  readonly t_s: readonly number[];
}

export interface LumpedResult {
  readonly t_s: readonly number[];
  /** One row per time, one temperature per surface [K]. */
  readonly T_K: readonly (readonly number[])[];
}

/**
 * Temperatures of a lumped enclosure at the times the case lists [K].
 *
 * Power goes to the surface named "wall". The file's view factors are made reciprocal by averaging A_i F_ij and
 * A_j F_ji; rows are taken to close the enclosure.
 *
 * @returns a failure in plain words if the case cannot be solved
 *
 * Accuracy: 0.001 K against two independent ODE solvers on lumped-1 (verification/enclosures.ts).
 */
export function solveLumped(problem: LumpedCase): Outcome<LumpedResult, string> {
  const count = problem.surfaces.length;
  const wall = problem.surfaces.indexOf("wall");
  if (wall < 0) return failure('surfaces: none is called "wall", which takes the power; name one so');
  for (const name of ["emissivity", "heat_capacity_J_K", "loss_W_m2K", "F", "A"] as const) {
    if (problem[name].length !== count) return failure(`${name}: ${problem[name].length} values for ${count} surfaces`);
  }
  const builder = new NetworkBuilder();
  const capacity = heatContentOf([[20, 1000]]);
  const room = builder.node(0, null, "fittings");
  builder.prescribe(room, () => problem.T_ambient);
  const nodes = problem.surfaces.map((_, i) => {
    const node = builder.node(problem.heat_capacity_J_K[i] / 1000, capacity, "brick");
    builder.surface(i, node, { base: problem.emissivity[i], slope: 0 });
    const loss = problem.loss_W_m2K[i];
    if (loss > 0) builder.link(node, room, problem.A[i], { base: loss, slope: 0 });
    return node;
  });
  const rows = {
    rowStart: Int32Array.from({ length: count + 1 }, (_, i) => i * count),
    column: Int32Array.from({ length: count * count }, (_, k) => k % count),
    value: Float64Array.from({ length: count * count }, (_, k) => {
      const i = Math.floor(k / count);
      const j = k % count;
      return (problem.A[i] * problem.F[i][j] + problem.A[j] * problem.F[j][i]) / 2;
    }),
  };
  const heater = timedHeater(Int32Array.of(nodes[wall]), Float64Array.of(1), (time) =>
    piecewiseLinear(problem.wall_power_W, time),
  );
  const system = new ThermalSystem(builder.build(), rows, [heater], problem.T_ambient);
  const stepper = new TimeStepper(
    system,
    { perStep: 2e-6, balance: 1e-9, shortest: 1e-6, longest: 600 },
    Int32Array.from(nodes),
    system.uniform(problem.T0),
    1,
  );
  const corners = problem.wall_power_W.map(([time]) => time);
  const times: number[] = [];
  const temperatures: number[][] = [];
  for (const time of problem.t_s) {
    const stops = [...corners.filter((corner) => corner > stepper.time && corner < time), time].sort((a, b) => a - b);
    for (const stop of stops) {
      while (stepper.time < stop - 1e-9) {
        const step = stepper.step(stop);
        if (!step.ok) return failure(`the equations could not be solved beyond ${step.failure.time} s`);
      }
      if (corners.includes(stop)) stepper.restart();
    }
    times.push(time);
    temperatures.push(nodes.map((node) => stepper.state[node]));
  }
  return success({ t_s: times, T_K: temperatures });
}

/** Value at `x` of straight lines through the points, constant beyond them. */
export function piecewiseLinear(points: readonly (readonly [number, number])[], x: number): number {
  const next = points.findIndex(([at]) => at > x);
  if (next === 0) return points[0][1];
  if (next < 0) return points.at(-1)![1];
  const [x0, y0] = points[next - 1];
  const [x1, y1] = points[next];
  return y0 + ((y1 - y0) * (x - x0)) / (x1 - x0);
}
