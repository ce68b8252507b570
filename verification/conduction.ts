import { NetworkBuilder, stefanBoltzmann } from "#engine/conduction";
import { heatContentOf } from "#engine/materials";
import { addSlab, heldNode, runTo, tight } from "./slab-network.ts";
import type { VerificationCase, Verified } from "./verification-case.ts";

const constant = (base: number) => ({ base, slope: 0 });

/** Flux through brick, board and steel, hot face and room given: the mean of what enters and leaves [W/m2]. */
function threeLayerWall(): Verified {
  const layers = [
    { thickness: 0.075, k: 0.17, density: 500, specificHeat: 1050 },
    { thickness: 0.025, k: 0.09, density: 200, specificHeat: 1000 },
    { thickness: 0.0008, k: 16, density: 7800, specificHeat: 500 },
  ];
  const film = 10;
  const [hot, room] = [1273.15, 293.15];
  const builder = new NetworkBuilder();
  let last = heldNode(builder, hot);
  for (const { thickness, k, density, specificHeat } of layers) {
    const nodes = addSlab(builder, { thickness, conductivity: constant(k), density, specificHeat, intervals: 6 });
    builder.link(last, nodes[0], 1e7, constant(1));
    last = nodes.at(-1)!;
  }
  builder.link(last, heldNode(builder, room), film, constant(1));
  const { state } = runTo(builder, room, 4e6, { ...tight, perStep: 0.1 });
  const resistance = layers.reduce((sum, { thickness, k }) => sum + thickness / k, 1 / film);
  const computed = film * (state[last] - room);
  return { computed, reference: (hot - room) / resistance, tolerance: 0.01, unit: "W/m2" };
}

/** Steady flux through one layer whose conductivity rises with temperature [W/m2]. */
function risingConductivity(): Verified {
  const builder = new NetworkBuilder();
  const conductivity = { base: 0.11, slope: 1.1e-4 };
  const nodes = addSlab(builder, { thickness: 0.075, conductivity, density: 500, specificHeat: 1050, intervals: 4 });
  builder.link(heldNode(builder, 1273.15), nodes[0], 1e7, constant(1));
  const film = 1e5;
  builder.link(nodes.at(-1), heldNode(builder, 373.15), film, constant(1));
  const { state } = runTo(builder, 373.15, 4e6, { ...tight, perStep: 0.1 });
  // Mean conductivity between the faces, at 550 C.
  const reference = ((0.11 + 1.1e-4 * 550) * 900) / 0.075;
  return { computed: film * (state[nodes.at(-1)] - 373.15), reference, tolerance: 0.3, unit: "W/m2" };
}

/** Error function by its series. */
function erf(x: number): number {
  let term = x;
  let sum = x;
  for (let n = 1; n < 60; n++) {
    term *= (-x * x) / n;
    sum += term / (2 * n + 1);
  }
  return (2 / Math.sqrt(Math.PI)) * sum;
}

/** Temperature 20 mm deep in a thick brick, one hour after its face jumped to 800 C [K]. */
function semiInfiniteStep(): Verified {
  const [k, density, specificHeat] = [0.17, 500, 1050];
  const builder = new NetworkBuilder();
  const slab = { thickness: 0.3, conductivity: constant(k), density, specificHeat, intervals: 300 };
  const nodes = addSlab(builder, slab);
  const [face, start, time, depth] = [1073.15, 293.15, 3600, 0.02];
  builder.link(heldNode(builder, face), nodes[0], 1e6, constant(1));
  const { state } = runTo(builder, start, time, { ...tight, perStep: 1e-3 });
  const diffusivity = k / (density * specificHeat);
  const reference = face + (start - face) * erf(depth / (2 * Math.sqrt(diffusivity * time)));
  return { computed: state[nodes[20]], reference, tolerance: 0.05, unit: "K" };
}

const shelf = { halfThickness: 0.0095, k: 1.5, density: 2000, specificHeat: 1100, film: 250 };

/** Share of the first difference left in a slab cooled on both faces, at x of its half thickness. */
function slabSeries(x: number, time: number): number {
  const { halfThickness, k, density, specificHeat, film } = shelf;
  const biot = (film * halfThickness) / k;
  const fourier = (k * time) / (density * specificHeat * halfThickness ** 2);
  let sum = 0;
  for (let n = 0; n < 40; n++) {
    let low = n * Math.PI + 1e-12;
    let high = n * Math.PI + Math.PI / 2 - 1e-12;
    for (let i = 0; i < 200; i++) {
      const middle = (low + high) / 2;
      if (middle * Math.tan(middle) > biot) high = middle;
      else low = middle;
    }
    const root = (low + high) / 2;
    const weight = (4 * Math.sin(root)) / (2 * root + Math.sin(2 * root));
    sum += weight * Math.exp(-root * root * fourier) * Math.cos(root * x);
  }
  return sum;
}

/** Face of a shelf that meets a hot room [K], on a grid of so many intervals through the half thickness. */
export function slabFace(intervals: number, time: number): { readonly computed: number; readonly reference: number } {
  const { halfThickness, k, density, specificHeat, film } = shelf;
  const builder = new NetworkBuilder();
  const nodes = addSlab(builder, {
    thickness: halfThickness,
    conductivity: constant(k),
    density,
    specificHeat,
    intervals,
  });
  builder.link(nodes.at(-1), heldNode(builder, 1273.15), film, constant(1));
  const { state } = runTo(builder, 293.15, time, { ...tight, perStep: 1e-5 });
  return { computed: state[nodes.at(-1)], reference: 1273.15 - 980 * slabSeries(1, time) };
}

/** Exponent with which the error falls as the grid is halved [-]. */
function orderInSpace(): Verified {
  const error = (intervals: number): number => {
    const { computed, reference } = slabFace(intervals, 20);
    return Math.abs(computed - reference);
  };
  return { computed: Math.log2(error(8) / error(16)), reference: 2, tolerance: 0.1, unit: "-" };
}

/** A body that only radiates to a very cold place: T^-3 grows evenly with time. */
export function radiatingBody(
  length: number | null,
  time: number,
): { readonly computed: number; readonly reference: number } {
  const [area, mass, specificHeat, start] = [0.05, 0.4, 1000, 1273.15];
  const builder = new NetworkBuilder();
  const body = builder.node(mass, heatContentOf([[20, specificHeat]]), "ware");
  builder.radiantLink(body, heldNode(builder, 0.01), area);
  const accuracy =
    length === null ? { ...tight, perStep: 1e-5 } : { ...tight, balance: 1e-11, perStep: Infinity, longest: length };
  const { state } = runTo(builder, start, time, accuracy);
  const reference = (start ** -3 + (3 * stefanBoltzmann * area * time) / (mass * specificHeat)) ** (-1 / 3);
  return { computed: state[body], reference };
}

/** Exponent with which the error falls as a fixed time step is halved [-]. */
function orderInTime(): Verified {
  const error = (length: number): number => {
    const { computed, reference } = radiatingBody(length, 640);
    return Math.abs(computed - reference);
  };
  return { computed: Math.log2(error(2) / error(1)), reference: 2, tolerance: 0.1, unit: "-" };
}

const carslaw = "[carslaw-jaeger]";

export const conductionCases: readonly VerificationCase[] = [
  {
    id: "conduction-three-layers",
    quantity: "steady flux through firebrick, board and steel to a room",
    source: `${carslaw} section 3.2, layers in series`,
    run: threeLayerWall,
  },
  {
    id: "conduction-rising-conductivity",
    quantity: "steady flux through brick whose conductivity rises with temperature, on four intervals",
    source: `${carslaw} section 1.6, conductivity linear in temperature`,
    run: risingConductivity,
  },
  {
    id: "conduction-semi-infinite",
    quantity: "20 mm deep in brick, 1 h after its face jumped to 800 C",
    source: `${carslaw} section 2.4, erfc`,
    run: semiInfiniteStep,
  },
  {
    id: "conduction-slab-early",
    quantity: "face of a 19 mm shelf 20 s after it met a hot room, 32 intervals",
    source: `${carslaw} section 3.11, series`,
    run: () => ({ ...slabFace(32, 20), tolerance: 0.05, unit: "K" }),
  },
  {
    id: "conduction-slab-late",
    quantity: "face of a 19 mm shelf 120 s after it met a hot room, 32 intervals",
    source: `${carslaw} section 3.11, series`,
    run: () => ({ ...slabFace(32, 120), tolerance: 0.05, unit: "K" }),
  },
  {
    id: "conduction-order-in-space",
    quantity: "order of convergence of the shelf's face in the spacing of nodes",
    source: `${carslaw} section 3.11, series; second order is what the scheme promises`,
    run: orderInSpace,
  },
  {
    id: "conduction-radiating-body",
    quantity: "a body of 0.4 kg that only radiates, from 1000 C, after 640 s",
    source: "[incropera] section 5.3, radiation alone: T^-3 linear in time",
    run: () => ({ ...radiatingBody(null, 640), tolerance: 0.01, unit: "K" }),
  },
  {
    id: "conduction-order-in-time",
    quantity: "order of convergence of the radiating body in the time step",
    source: "[incropera] section 5.3; second order is what TR-BDF2 promises",
    run: orderInTime,
  },
];
