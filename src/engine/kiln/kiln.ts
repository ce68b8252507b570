import type { Outline } from "#engine/geometry";
import type { Kelvin, KelvinDifference, Kilograms, Metres, Radians, Seconds, Volts, Watts } from "#engine/units";

/*
 * Frame of every kiln: metres; z up from the inner face of the floor; the origin on the chamber's axis;
 * azimuth counter-clockwise from +x seen from above. A front-loader's door is on the -y side.
 */

/** The room the ware stands in: its plan (disc, polygon or rectangle; never a half disc) and its inner height. */
export interface Chamber {
  readonly plan: Outline;
  readonly height: Metres;
}

/** One brick lining: wall, lid (or roof) or floor. */
export interface Lining {
  readonly thickness: Metres;
  /** Conductivity k = base + slope x (T in C) [W/(m K)]: insulating firebrick is weakly known, about +-25 %. */
  readonly conductivity: { readonly base: number; readonly slope: number };
  /** [kg/m3] */
  readonly density: number;
  /** [J/(kg K)] */
  readonly heatCapacity: number;
  /** Of the hot face [-]. */
  readonly emissivity: number;
}

export type WallSide = "left" | "right" | "back" | "front";

/** One element row: a coil in its groove round the wall (or on some walls of a rectangular chamber). */
export interface ElementRow {
  /** Centre height of the groove. */
  readonly z: Metres;
  /** Height of the groove. */
  readonly height: Metres;
  /** At rated voltage, new. */
  readonly power: Watts;
  /** Which sensor's zone it belongs to (index into `Kiln.sensors`). */
  readonly zone: number;
  /** Power now over power when new, from wear [-]; 0 for a dead row. */
  readonly condition: number;
  /** Rectangular chambers: the walls that carry it. Left out: left, right and back. */
  readonly walls?: readonly WallSide[];
}

export interface Sensor {
  readonly azimuth: Radians;
  readonly z: Metres;
  /** How far the tip stands inside the hot face. */
  readonly reach: Metres;
  /** Of the tube or bead. */
  readonly diameter: Metres;
  readonly emissivity: number;
  readonly type: "K" | "N" | "R" | "S" | "B";
  /** What it reads less what is true. */
  readonly offset: KelvinDifference;
  /** Time constant of tube and bead beyond radiation's own. */
  readonly lag: Seconds;
}

export interface Vent {
  /** Mass flow of room air through the chamber while on [kg/s]. */
  readonly flow: number;
}

/** Numbers of the loading rules: settings of a kiln or studio, never constants in code. Defaults in `rules.ts`. */
export interface LoadingRules {
  /** How much smaller across than the chamber a shelf must be. */
  readonly shelfMargin: Metres;
  /** Posts under the bottom shelf, at least. */
  readonly bottomGap: Metres;
  readonly wareToWall: Metres;
  /** Radius of the clear half-ball about the sensor's tip. */
  readonly sensorClear: Metres;
  /** Above the tallest piece to the next shelf. */
  readonly headroom: Metres;
  /** Above the tallest piece to the lid. */
  readonly lidHeadroom: Metres;
  /** Between glazed pieces. */
  readonly glazeGap: Metres;
  /** Between pieces and posts. */
  readonly postGap: Metres;
  readonly postsPerShelf: number;
  /** First gap above the bottom shelf, and under the lid: advice. */
  readonly airyGap: Metres;
  /** Longest span between stilt points. */
  readonly stiltSpan: Metres;
  /** Metal-point stilts up to here. */
  readonly metalStiltLimit: Kelvin;
  /** Heaviest ware on one shelf. */
  readonly shelfLoad: Kilograms;
  /** A lift heavier than this is a job for two. */
  readonly soloLift: Kilograms;
}

export interface Kiln {
  readonly id: string;
  readonly name: string;
  /** Top-loaders open by a lid, front-loaders by a door. */
  readonly opening: "lid" | "door";
  readonly chamber: Chamber;
  readonly wall: Lining;
  readonly lid: Lining;
  readonly floor: Lining;
  /** From the bottom up. */
  readonly rows: readonly ElementRow[];
  readonly ratedVoltage: Volts;
  readonly supplyVoltage: Volts;
  /** One per zone, at least one. */
  readonly sensors: readonly Sensor[];
  readonly vent: Vent | null;
  readonly spyholes: readonly { readonly azimuth: Radians; readonly z: Metres }[];
  readonly maxTemperature: Kelvin;
  readonly rules: LoadingRules;
}

/** Sum of all rows at the present supply and wear [W]. */
export function powerOf(kiln: Kiln): Watts {
  const supply = (kiln.supplyVoltage / kiln.ratedVoltage) ** 2;
  return kiln.rows.reduce((sum, row) => sum + row.power * row.condition * supply, 0);
}
