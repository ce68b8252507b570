import type { Kelvin } from "#engine/units";
import { heatContentOf, type HeatContent } from "./heat-content.ts";

/**
 * How well a value is known: A two or more sources, B one source, C memory of a data sheet not found again,
 * D derived or estimated here.
 */
export type Quality = "A" | "B" | "C" | "D";

/** A property that is a straight line in temperature: base + slope x (T in C). */
export interface Line {
  readonly base: number;
  readonly slope: number;
}

export function lineAt({ base, slope }: Line, temperature: Kelvin): number {
  return base + slope * (temperature - 273.15);
}

/** A solid the firing knows. */
export interface Solid {
  readonly name: string;
  /** [kg/m3] */
  readonly density: number;
  /** [W/(m K)] */
  readonly conductivity: Line;
  readonly heat: HeatContent;
  /** Of its surface [-]. */
  readonly emissivity: Line;
  /** How well each property is known, and from where. */
  readonly trust: readonly {
    readonly property: "density" | "conductivity" | "heat" | "emissivity";
    readonly quality: Quality;
    readonly note: string;
  }[];
}

const constant = (base: number): Line => ({ base, slope: 0 });

/*
 * Figures gathered for the project from public tables and abstracts; a range is used by its middle.
 * Source: [materials-brick], [materials-ware]
 */

const firedClay = heatContentOf([
  [25, 751],
  [100, 872],
  [200, 983],
  [300, 1062],
  [400, 1127],
  [500, 1193],
  [600, 1146],
  [800, 1182],
  [1000, 1215],
  [1200, 1246],
]);
const firedClayNote = "oxide mixture rule, about +-3 %; a 1926 calorimeter mean of 1.16 kJ/(kg K) agrees";

const clayEmissivity: Line = { base: 0.91, slope: -5e-5 };
const clayEmissivityNote = "emissivity tables: fired and glazed clay 0.90-0.93 cold, 0.8-0.9 hot";

export type BrickGroup = "20" | "23" | "26";

/** Insulating firebrick by its group (ASTM C155). A kiln's own lining may say otherwise. */
export const bricks: Readonly<Record<BrickGroup, Solid>> = {
  "20": brick("20", 500, { base: 0.087, slope: 1.15e-4 }, 1050, "D", "scaled from group 23"),
  "23": brick("23", 500, { base: 0.11, slope: 1.1e-4 }, 1050, "B", "four sources from 0.12 to 0.20 at 400 C: +-25 %"),
  "26": brick(
    "26",
    750,
    { base: 0.21, slope: 1.2e-4 },
    1100,
    "C",
    "pressed type; cast brick of this group insulates better",
  ),
};

function brick(
  group: string,
  density: number,
  conductivity: Line,
  heat: number,
  quality: Quality,
  note: string,
): Solid {
  return {
    name: `insulating firebrick, group ${group}`,
    density,
    conductivity,
    heat: heatContentOf([[20, heat]]),
    emissivity: constant(0.75),
    trust: [
      { property: "conductivity", quality, note },
      { property: "density", quality: "B", note: "makers differ by +-20 %" },
      { property: "heat", quality: "C", note: "mean value from memory" },
      { property: "emissivity", quality: "B", note: "0.75-0.80 used and dusty; new white brick 0.4-0.65" },
    ],
  };
}

export const cordierite: Solid = {
  name: "cordierite-mullite shelf",
  density: 2000,
  conductivity: constant(1.5),
  heat: heatContentOf([
    [25, 756],
    [100, 882],
    [200, 992],
    [300, 1068],
    [400, 1128],
    [500, 1187],
    [600, 1158],
    [800, 1195],
    [1000, 1228],
    [1200, 1257],
  ]),
  emissivity: constant(0.85),
  trust: [
    { property: "density", quality: "B", note: "1800-2400" },
    { property: "conductivity", quality: "C", note: "1.0-2.0" },
    { property: "heat", quality: "D", note: "oxide mixture rule" },
    { property: "emissivity", quality: "D", note: "0.8-0.9, from firebrick and fired clay" },
  ],
};

export const siliconCarbide: Solid = {
  name: "nitride-bonded silicon carbide shelf",
  density: 2700,
  conductivity: constant(15),
  heat: heatContentOf([
    [30, 800],
    [1000, 900],
  ]),
  emissivity: constant(0.9),
  trust: [
    { property: "density", quality: "C", note: "2600-2850" },
    { property: "conductivity", quality: "B", note: "14-16" },
    { property: "heat", quality: "B", note: "800-900 from 30 to 1000 C" },
    { property: "emissivity", quality: "A", note: "0.83-0.96" },
  ],
};

export const highAlumina: Solid = {
  name: "high-alumina shelf",
  density: 2900,
  conductivity: constant(2.3),
  heat: heatContentOf([
    [25, 768],
    [100, 905],
    [200, 1013],
    [300, 1081],
    [400, 1131],
    [500, 1173],
    [600, 1186],
    [800, 1227],
    [1000, 1259],
    [1200, 1284],
  ]),
  emissivity: { base: 0.7, slope: -2e-4 },
  trust: [
    { property: "density", quality: "B", note: "2700-3100" },
    { property: "conductivity", quality: "B", note: "1.5-3.5, scattered" },
    { property: "heat", quality: "D", note: "oxide mixture rule" },
    { property: "emissivity", quality: "B", note: "0.4-0.7, falling with temperature" },
  ],
};

export const earthenware: Solid = {
  name: "bisque or earthenware",
  density: 1850,
  conductivity: constant(0.75),
  heat: firedClay,
  emissivity: clayEmissivity,
  trust: [
    { property: "density", quality: "C", note: "1700-2000" },
    { property: "conductivity", quality: "C", note: "0.5-1.0" },
    { property: "heat", quality: "B", note: firedClayNote },
    { property: "emissivity", quality: "A", note: clayEmissivityNote },
  ],
};

export const stoneware: Solid = {
  name: "stoneware",
  density: 2300,
  conductivity: constant(1.3),
  heat: firedClay,
  emissivity: clayEmissivity,
  trust: [
    { property: "density", quality: "C", note: "2200-2400" },
    { property: "conductivity", quality: "C", note: "1.0-1.6" },
    { property: "heat", quality: "B", note: firedClayNote },
    { property: "emissivity", quality: "A", note: clayEmissivityNote },
  ],
};

/** Iron-chromium-aluminium resistance wire. */
export const elementWire: Solid = {
  name: "iron-chromium-aluminium wire",
  density: 7100,
  conductivity: constant(11),
  heat: heatContentOf([
    [20, 460],
    [600, 640],
    [1000, 720],
  ]),
  emissivity: constant(0.7),
  trust: [
    { property: "density", quality: "A", note: "maker's handbook" },
    { property: "conductivity", quality: "A", note: "at 50 C" },
    { property: "heat", quality: "C", note: "460 cold from the handbook; hot values from memory" },
    { property: "emissivity", quality: "C", note: "oxidised; the groove about a coil makes it look blacker" },
  ],
};

/** Dry air at room pressure. Standard property tables, from memory (quality C). */
export const air = {
  /** Mean specific heat between room temperature and 1000 C [J/(kg K)]. */
  specificHeat: 1100,
} as const;
