import type { FiringClass, Furniture, Kiln, Piece, Setting, Shape } from "#engine/kiln";
import type { DayNumber } from "#engine/units";

export interface PlacingRequest {
  readonly kiln: Kiln;
  readonly furniture: Furniture;
  readonly firingClass: FiringClass;
  readonly shapes: ReadonlyMap<string, Shape>;
  /** Ready pieces of that class, in any order. */
  readonly pieces: readonly Piece[];
  /** The day the firing starts: promises near it weigh more. */
  readonly today: DayNumber;
  /** Setting to start from: its `fixed` pieces stay. */
  readonly keep: Setting | null;
  readonly seed: number;
  /** Time to spend [s], as told by RunControl.elapsed; the best so far is returned when it is up. */
  readonly seconds: number;
  /**
   * Work to spend, in energy evaluations; when given, the same request gives the same proposal on every machine, so
   * long as `seconds` is not used up first. 100 000 steps are about a second.
   */
  readonly steps?: number;
}

export type WaitReason =
  | "too-wide"
  | "too-tall"
  | "no-room"
  | "no-stilt"
  | "later-promise"
  | "other-class"
  | "too-heavy";

export interface Proposal {
  readonly setting: Setting;
  readonly waiting: readonly { readonly pieceId: string; readonly reason: WaitReason }[];
  /** Sum of the weights (value and promise) of the placed pieces [-]. */
  readonly value: number;
  /** No setting that keeps the rules can be worth more: a proven upper bound [-]. */
  readonly bound: number;
  readonly seed: number;
  readonly seconds: number;
}

/** Why no proposal could be made: what is wrong where in the request, and what would mend it. */
export interface PlacingFailure {
  readonly reason: "no-shelf-fits" | "no-posts" | "unknown-shape" | "unknown-shelf";
  /** Path in the request. */
  readonly place: string;
  readonly problem: string;
  readonly remedy: string;
}
