import { NetworkBuilder, ThermalSystem, TimeStepper, type StepAccuracy } from "#engine/conduction";
import { heatContentOf, type Line } from "#engine/materials";
import type { SparseRows } from "#engine/numerics";

/** An exchange among no patches: for conduction alone. */
export const noExchange: SparseRows = {
  rowStart: Int32Array.of(0),
  column: new Int32Array(0),
  value: new Float64Array(0),
};

export const tight: StepAccuracy = { perStep: 1e-4, balance: 1e-8, shortest: 1e-6, longest: 1e6 };

export interface Slab {
  readonly thickness: number;
  readonly conductivity: Line;
  readonly density: number;
  readonly specificHeat: number;
  readonly intervals: number;
}

/** Adds a slab of 1 m2 to a network; returns its nodes from the first face to the last. */
export function addSlab(builder: NetworkBuilder, slab: Slab): Int32Array {
  const heat = heatContentOf([[20, slab.specificHeat]]);
  const step = slab.thickness / slab.intervals;
  const nodes = new Int32Array(slab.intervals + 1);
  for (let i = 0; i <= slab.intervals; i++) {
    const share = i === 0 || i === slab.intervals ? 0.5 : 1;
    nodes[i] = builder.node(slab.density * step * share, heat, "brick");
    if (i > 0) builder.link(nodes[i - 1], nodes[i], 1 / step, slab.conductivity);
  }
  return nodes;
}

/** A node held at a temperature. */
export function heldNode(builder: NetworkBuilder, temperature: number): number {
  const node = builder.node(0, null, "fittings");
  builder.prescribe(node, () => temperature);
  return node;
}

/** Runs a network without radiating patches to a time. */
export function runTo(
  builder: NetworkBuilder,
  start: number,
  time: number,
  accuracy: StepAccuracy = tight,
): { readonly state: Float64Array; readonly stepper: TimeStepper; readonly system: ThermalSystem } {
  const network = builder.build();
  const system = new ThermalSystem(network, noExchange, [], start);
  const stepper = new TimeStepper(system, accuracy, network.massive, system.uniform(start), Math.min(1, time / 100));
  while (stepper.time < time * (1 - 1e-12)) {
    const step = stepper.step(time);
    if (!step.ok) throw new Error(`no solution beyond ${step.failure.time} s`);
  }
  return { state: stepper.state, stepper, system };
}
