import { describe, expect, it } from "vitest";
import { cordierite } from "#engine/materials";
import type { Mesh } from "#engine/radiation";
import { networkOfMesh, type BodyMatter } from "./network-of-mesh.ts";
import { ThermalSystem, type Flows } from "./system.ts";
import { evenLayering, gradedLayering } from "./through-thickness.ts";
import { TimeStepper } from "./time-step.ts";
import { timedHeater } from "./heater.ts";

/** A brick plate facing a shelf with a rim, closed in on one another. */
const mesh: Mesh = {
  bodies: [{ kind: "wall" }, { kind: "shelf", shelfId: "s" }],
  patchCount: 4,
  area: Float64Array.of(1.5, 1, 0.05, 0.45),
  centre: new Float64Array(12),
  normal: new Float64Array(12),
  bodyOf: Int32Array.of(0, 1, 1, 1),
  cells: [
    { body: 0, front: 0, back: -1, edges: [], thickness: 0.075, volume: 1.5 * 0.075 },
    { body: 1, front: 1, back: 3, edges: [2], thickness: 0.016, volume: 0.016 },
  ],
  links: [],
  contacts: [],
};

const brick: BodyMatter = {
  store: "brick",
  density: 500,
  heat: cordierite.heat,
  conductivity: { base: 0.11, slope: 1.1e-4 },
  emissivity: { base: 0.75, slope: 0 },
  nodes: 6,
  skin: { convection: 1.31, emissivity: 0.5, outer: () => 1.3 },
  coil: null,
  unfired: false,
};
const shelf: BodyMatter = {
  ...brick,
  store: "furniture",
  density: 2000,
  conductivity: cordierite.conductivity,
  nodes: 3,
  skin: null,
};

/** Patch 0 sees all others and itself; the others see only it. */
const exchange = {
  rowStart: Int32Array.of(0, 4, 5, 6, 7),
  column: Int32Array.of(0, 1, 2, 3, 0, 0, 0),
  value: Float64Array.of(0, 1, 0.05, 0.45, 1, 0.05, 0.45),
};

describe("networkOfMesh", () => {
  it("keeps masses and areas", () => {
    const { network, cellNodes, patchNode } = networkOfMesh(mesh, [brick, shelf], null);
    const massOf = (cell: number): number => cellNodes[cell].reduce((sum, node) => sum + network.mass[node], 0);
    expect(massOf(1)).toBeCloseTo(0.016 * 2000, 9);
    // Brick grows evenly from 1 to 1.3 times its hot face.
    expect(massOf(0)).toBeCloseTo(1.5 * 0.075 * 500 * 1.15, 1);
    expect(network.skins[0].area).toBeCloseTo(1.5 * 1.3, 9);
    expect(patchNode[1]).toBe(cellNodes[1][0]);
    expect(patchNode[3]).toBe(cellNodes[1][2]);
    expect(cellNodes[0]).toHaveLength(7);
  });

  it("refuses a mesh with a patch that is no cell's face", () => {
    const open = { ...mesh, patchCount: 5, area: Float64Array.of(1.5, 1, 0.05, 0.45, 1) };
    expect(() => networkOfMesh(open, [brick, shelf], null)).toThrow(RangeError);
    expect(() => networkOfMesh(mesh, [brick], null)).toThrow("matter.length");
  });

  it("balances heat to 0.05 % over a heated day, air and vent included", () => {
    const air = { count: 2, ofPatch: Int32Array.of(0, 1, 1, 0), film: 5, mixing: Float64Array.of(0.8), vent: 0.6 };
    const { network, cellNodes } = networkOfMesh(mesh, [brick, shelf], air);
    let on = true;
    const heater = timedHeater(cellNodes[0].slice(0, 1), Float64Array.of(1), () => (on ? 5000 : 0));
    const system = new ThermalSystem(network, exchange, [heater], 293.15);
    const accuracy = { perStep: 0.5, balance: 1e-3, shortest: 0.01, longest: 900 };
    const stepper = new TimeStepper(system, accuracy, network.massive, system.uniform(293.15));
    while (stepper.time < 20000) expect(stepper.step(20000).ok).toBe(true);
    on = false;
    stepper.restart();
    while (stepper.time < 86400) expect(stepper.step(86400).ok).toBe(true);
    const totals = stepper.ledger.totals(stepper.contents);
    expect(totals.electric).toBeCloseTo(1e8, -2);
    expect(totals.lostByVent).toBeGreaterThan(1e6);
    expect(totals.imbalance).toBeLessThan(5e-4);
  });
});

describe("derivative", () => {
  it("is the slope of the flows, controller, vent and radiosities included", () => {
    const air = { count: 2, ofPatch: Int32Array.of(0, 1, 1, 0), film: 5, mixing: Float64Array.of(0.8), vent: 0.6 };
    const { network, cellNodes } = networkOfMesh(mesh, [brick, shelf], air);
    const heater = {
      ...timedHeater(cellNodes[0].slice(0, 1), Float64Array.of(1), () => 0),
      sensors: Int32Array.of(cellNodes[1][0]),
      weights: Float64Array.of(1),
      evaluate(sensor: number, lead: number): void {
        this.power = 9000 - 3 * sensor - 5 * lead;
        this.bySensor = -3;
        this.byLead = -5;
      },
    };
    const system = new ThermalSystem(network, exchange, [heater], 293.15);
    const state = system.uniform(900);
    for (let i = 0; i < state.length; i++) state[i] *= 1 + 0.02 * Math.sin(3 * i);
    system.beginStep(state);
    const q = new Float64Array(system.size);
    system.evaluate(state, q);
    const weight = 1e12; // stored heat out of the picture
    system.linearise(state, weight);
    const direction = Float64Array.from(state, (_, i) => Math.cos(7 * i));
    const slope = new Float64Array(system.size);
    system.applyDerivative(direction, slope);
    const ahead = Float64Array.from(state);
    const step = 1e-4;
    system.addIncrement(
      ahead,
      direction.map((value) => value * step),
    );
    const later = new Float64Array(system.size);
    system.evaluate(ahead, later);
    for (let i = 0; i < q.length; i++) {
      expect(-(later[i] - q[i]) / step, `vertex ${i}`).toBeCloseTo(slope[i], 1);
    }
    const flows: Flows = system.flows;
    expect(flows.lostByVent).toBeGreaterThan(0);
  });
});

describe("layerings", () => {
  it("starts brick with 4 mm and fills the thickness", () => {
    const { depth, share } = gradedLayering(6, 0.075, 0.004);
    expect(depth).toHaveLength(7);
    expect(depth[1] * 0.075).toBeCloseTo(0.004, 6);
    expect(share.reduce((a, b) => a + b)).toBeCloseTo(1, 12);
    for (let i = 2; i < 7; i++) expect(depth[i] - depth[i - 1]).toBeGreaterThan(depth[i - 1] - depth[i - 2]);
  });
  it("shares a thin lining out evenly", () => {
    expect([...gradedLayering(6, 0.02, 0.004).depth]).toEqual([...evenLayering(7).depth]);
  });
});
