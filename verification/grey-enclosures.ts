import { NetworkBuilder, stefanBoltzmann, ThermalSystem, TimeStepper } from "#engine/conduction";
import type { SparseRows } from "#engine/numerics";
import { heldNode, tight } from "./slab-network.ts";
import type { VerificationCase, Verified } from "./verification-case.ts";

interface GreySurface {
  readonly area: number;
  readonly emissivity: number;
  /** Held at this temperature [K], or null where no heat is added or taken: it floats. */
  readonly temperature: number | null;
  /** Index of an earlier surface that is another face of the same thin body. */
  readonly backOf?: number;
}

/** Net heat that each surface of a grey enclosure sends out [W]. */
function greyHeat(surfaces: readonly GreySurface[], viewFactor: readonly (readonly number[])[]): readonly number[] {
  const builder = new NetworkBuilder();
  const nodes: number[] = [];
  const radiosities = surfaces.map(({ emissivity, temperature, backOf }, patch) => {
    const line = { base: emissivity, slope: 0 };
    if (backOf !== undefined) {
      nodes.push(nodes[backOf]);
      return builder.surface(patch, nodes[backOf], line);
    }
    const radiosity = builder.surface(patch, "next", line);
    nodes.push(temperature === null ? builder.node(0, null, "fittings") : heldNode(builder, temperature));
    return radiosity;
  });
  const count = surfaces.length;
  const rows: SparseRows = {
    rowStart: Int32Array.from({ length: count + 1 }, (_, i) => i * count),
    column: Int32Array.from({ length: count * count }, (_, k) => k % count),
    value: Float64Array.from(
      { length: count * count },
      (_, k) => surfaces[Math.floor(k / count)].area * viewFactor[Math.floor(k / count)][k % count],
    ),
  };
  const system = new ThermalSystem(builder.build(), rows, [], 293.15);
  const stepper = new TimeStepper(system, { ...tight, balance: 1e-10 }, new Int32Array(0), system.uniform(600));
  const step = stepper.step(1);
  if (!step.ok) throw new Error("no solution");
  const { state } = stepper;
  return surfaces.map(
    ({ area, emissivity }, i) =>
      ((area * emissivity) / (1 - emissivity)) * (black(state[nodes[i]]) - state[radiosities[i]]),
  );
}

const black = (t: number): number => stefanBoltzmann * t ** 4;

function parallelPlates(): Verified {
  const surfaces = [
    { area: 1, emissivity: 0.8, temperature: 1273.15 },
    { area: 1, emissivity: 0.5, temperature: 873.15 },
  ];
  const heat = greyHeat(surfaces, [
    [0, 1],
    [1, 0],
  ]);
  const reference = (black(1273.15) - black(873.15)) / (1 / 0.8 + 1 / 0.5 - 1);
  return { computed: heat[0], reference, tolerance: 0.01, unit: "W" };
}

function concentricCylinders(): Verified {
  const [inner, outer] = [0.2, 0.5];
  const heat = greyHeat(
    [
      { area: inner, emissivity: 0.85, temperature: 500 },
      { area: outer, emissivity: 0.6, temperature: 1200 },
    ],
    [
      [0, 1],
      [inner / outer, 1 - inner / outer],
    ],
  );
  const reference = (inner * (black(1200) - black(500))) / (1 / 0.85 + ((1 - 0.6) / 0.6) * (inner / outer));
  return { computed: heat[1], reference, tolerance: 0.01, unit: "W" };
}

function radiationShield(): Verified {
  const shield = { area: 1, emissivity: 0.1, temperature: null } as const;
  const heat = greyHeat(
    [
      { area: 1, emissivity: 0.8, temperature: 1100 },
      shield,
      { ...shield, backOf: 1 },
      { area: 1, emissivity: 0.5, temperature: 600 },
    ],
    [
      [0, 1, 0, 0],
      [1, 0, 0, 0],
      [0, 0, 0, 1],
      [0, 0, 1, 0],
    ],
  );
  const reference = (black(1100) - black(600)) / (1 / 0.8 + 1 / 0.5 + 2 / 0.1 - 2);
  return { computed: heat[0], reference, tolerance: 0.01, unit: "W" };
}

/** Two plates and a re-radiating wall around them: heat from the hot plate. */
function reradiatingWall(): Verified {
  const [across, wallArea] = [0.2, 1.5];
  const toWall = 1 - across;
  const heat = greyHeat(
    [
      { area: 1, emissivity: 0.8, temperature: 1200 },
      { area: 1, emissivity: 0.6, temperature: 700 },
      { area: wallArea, emissivity: 0.3, temperature: null },
    ],
    [
      [0, across, toWall],
      [across, 0, toWall],
      [toWall / wallArea, toWall / wallArea, 1 - (2 * toWall) / wallArea],
    ],
  );
  const direct = across + 1 / (1 / toWall + 1 / toWall);
  const reference = (black(1200) - black(700)) / ((1 - 0.8) / 0.8 + 1 / direct + (1 - 0.6) / 0.6);
  return { computed: heat[0], reference, tolerance: 0.01, unit: "W" };
}

const incropera = "[incropera] chapter 13";

export const greyEnclosureCases: readonly VerificationCase[] = [
  {
    id: "grey-parallel-plates",
    quantity: "heat between large grey plates at 1000 and 600 C",
    source: `${incropera}, two-surface enclosures: large parallel planes`,
    run: parallelPlates,
  },
  {
    id: "grey-concentric-cylinders",
    quantity: "heat from a hot grey cylinder to a colder one inside it",
    source: `${incropera}, two-surface enclosures: long concentric cylinders`,
    run: concentricCylinders,
  },
  {
    id: "grey-radiation-shield",
    quantity: "heat between plates with a shield of emissivity 0.1 between them",
    source: `${incropera}, radiation shields`,
    run: radiationShield,
  },
  {
    id: "grey-reradiating-wall",
    quantity: "heat between two plates inside a re-radiating wall",
    source: `${incropera}, three-surface enclosure with a reradiating surface`,
    run: reradiatingWall,
  },
];
