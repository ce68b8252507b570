import type { Outline } from "#engine/geometry";
import type { Kelvin, Kilograms, Metres } from "#engine/units";

export type ShelfMaterial = "cordierite" | "silicon-carbide" | "high-alumina";

/** A kind of shelf in stock. */
export interface ShelfType {
  readonly id: string;
  readonly name: string;
  readonly outline: Outline;
  readonly thickness: Metres;
  readonly material: ShelfMaterial;
  readonly mass: Kilograms;
  readonly count: number;
}

/** A kind of post in stock. Posts may be stacked. */
export interface PostType {
  readonly length: Metres;
  /** Side of its square cross-section. */
  readonly width: Metres;
  readonly count: number;
}

export interface StiltType {
  readonly id: string;
  readonly name: string;
  /** How far it lifts a piece off the shelf. */
  readonly lift: Metres;
  /** Circle through its points. */
  readonly span: Metres;
  readonly points: "metal" | "ceramic";
  readonly maxTemperature: Kelvin;
  readonly count: number;
}

export interface Furniture {
  readonly shelves: readonly ShelfType[];
  readonly posts: readonly PostType[];
  readonly stilts: readonly StiltType[];
  /** Most posts in one stack. */
  readonly maxStack: number;
}
