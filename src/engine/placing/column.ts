import type { Parts } from "./parts.ts";
import type { PostSet } from "./post-stacks.ts";
import type { Region } from "./region.ts";
import type { Level } from "./tower.ts";

/**
 * A loading problem stripped to numbers: items to set on a column of layers, one shelf (or several side by side, the
 * bays) per layer. SI throughout; z from the inner face of the floor.
 */
export interface ColumnProblem {
  readonly parts: Parts;
  /** Height of each item as it stands, stilt included [m]. */
  readonly height: Float64Array;
  /** Plan area of each item grown by half the gap [m2]. */
  readonly area: Float64Array;
  readonly worth: Float64Array;
  readonly mass: Float64Array;
  /** Between items [m]. */
  readonly gap: number;
  /** Asked for beyond every clearance in the plan [m]. */
  readonly slack: number;
  /** Top face of the lowest shelf. */
  readonly base: number;
  /** Inner height of the chamber. */
  readonly roof: number;
  /** Of every shelf above the lowest. */
  readonly thickness: number;
  readonly headroom: number;
  readonly lidHeadroom: number;
  readonly posts: readonly PostSet[];
  readonly maxStack: number;
  readonly maxLayers: number;
  /** Heights no shelf may touch: [z0, z1] about sensors. */
  readonly closed: readonly (readonly [number, number])[];
  /** Most ware on one bay [kg]. */
  readonly shelfLoad: number;
  /** Of one level's shelves together [kg]. */
  readonly shelfMass: number;
  /** Penalty for what the kiln's advice would have otherwise (gaps, cones), 0 for none [-]. */
  readonly advice: (levels: readonly Level[]) => number;
  /** Area of a bay that pieces may use, for estimates [m2]. */
  readonly bayArea: number;
  readonly bays: number;
  /** Where items may stand on bay `bay` of a layer from z0 (shelf) to z1 (next shelf or lid). */
  readonly region: (bay: number, z0: number, z1: number, top: boolean) => Region;
}
