import type { Kelvin } from "#engine/units";
import type { Grade } from "./forecast.ts";

/** Parts of the physics that a study may leave out, to see what they are worth. All true in a forecast to act on. */
export interface Ingredients {
  /** Convection to the air in the chamber, and its slow exchange between layers. */
  readonly air: boolean;
  /** Brick in layers; otherwise one lump that loses heat from its hot face. */
  readonly brickLayers: boolean;
  /** Temperature differences from the top of a shelf to its underside. */
  readonly shelfThickness: boolean;
  /** Temperature differences from the outside of a piece to its inside. */
  readonly wareThickness: boolean;
  /** Conduction along shelves, walls of pieces and brick. */
  readonly sideways: boolean;
  /** Feet and stilts on shelves, posts under shelves. */
  readonly contacts: boolean;
  /** More brick and more loss where wall, lid and floor meet. */
  readonly corners: boolean;
  /** Drying and loss of bound water of raw ware. */
  readonly unfired: boolean;
}

export const allIngredients: Ingredients = {
  air: true,
  brickLayers: true,
  shelfThickness: true,
  wareThickness: true,
  sideways: true,
  contacts: true,
  corners: true,
  unfired: true,
};

export interface FiringOptions {
  /** Room temperature. Default 293.15 K. */
  readonly ambient?: Kelvin;
  /** Whether a kiln that has a vent runs it. Default true. */
  readonly vent?: boolean;
  /** Ware colder than this may be taken out with bare hands. Default 323.15 K (50 C). */
  readonly openingTemperature?: Kelvin;
  readonly ingredients?: Partial<Ingredients>;
  /** Divides the error allowed per time step; 1 is the grade's own. For studies of accuracy. */
  readonly stepRefinement?: number;
}

/** Why a firing could not be computed. */
export type FiringFailure =
  | {
      readonly kind: "cannot-reach";
      /** Segment of the schedule, from 0. */
      readonly segment: number;
      readonly target: Kelvin;
      readonly reached: Kelvin;
      readonly message: string;
    }
  | { readonly kind: "bad-schedule"; readonly segment: number; readonly message: string }
  | { readonly kind: "does-not-balance"; readonly imbalance: number; readonly message: string }
  | { readonly kind: "no-solution"; readonly time: number; readonly message: string };

/** Numbers that belong to a grade. */
export interface GradeNumbers {
  /** Error allowed in one step [K]. */
  readonly perStep: number;
  /** What the equations may leave unbalanced, in terms of temperature [K]. */
  readonly balance: number;
  readonly shelfNodes: number;
  readonly wareNodes: number;
  readonly brickLayers: number;
}

export const gradeNumbers: Readonly<Record<Grade, GradeNumbers>> = {
  preview: { perStep: 2, balance: 0.002, shelfNodes: 3, wareNodes: 2, brickLayers: 6 },
  full: { perStep: 0.5, balance: 0.001, shelfNodes: 3, wareNodes: 2, brickLayers: 6 },
};
