import type { DayNumber, Kilograms, Metres } from "#engine/units";

/**
 * The main body of a shape, standing on z = 0, its axis through the origin.
 *
 * `revolution`: `profile` is the outside from foot to rim as [radius, height] pairs, heights never falling; the
 * wall is `wall` thick and the floor as thick as the wall; `closed` means no mouth (a ball, a figure, a bank),
 * then the profile ends at radius 0. `foot` is the radius of the ring it stands on.
 * `box`: a hollow (`wall` > 0) or solid (`wall` = 0) box, open above unless `closed`.
 * `slab`: a flat rectangle (tile, flat ornament) lying on its face, corners rounded by `corner`.
 */
export type Body =
  | {
      readonly kind: "revolution";
      readonly profile: readonly (readonly [Metres, Metres])[];
      readonly wall: Metres;
      readonly foot: Metres;
      readonly closed: boolean;
    }
  | {
      readonly kind: "box";
      readonly width: Metres;
      readonly depth: Metres;
      readonly height: Metres;
      readonly wall: Metres;
      readonly closed: boolean;
    }
  | {
      readonly kind: "slab";
      readonly width: Metres;
      readonly depth: Metres;
      readonly thickness: Metres;
      readonly corner: Metres;
    };

/** A handle or spout: it leaves the body on the +x side (handle) or -x side (spout). */
export interface Attachment {
  /** How far it stands out from the widest body radius. */
  readonly reach: Metres;
  /** Across. */
  readonly width: Metres;
  /** Lowest and highest point. */
  readonly bottom: Metres;
  readonly top: Metres;
}

/** A reusable form. Pieces refer to it. */
export interface Shape {
  readonly id: string;
  readonly name: string;
  readonly body: Body;
  readonly handle: Attachment | null;
  readonly spout: Attachment | null;
  /** A lid fired in place adds this to the height. */
  readonly lidHeight: Metres;
  readonly mass: Kilograms;
  /** True when sizes are our guess and nobody measured. */
  readonly guessed: boolean;
}

export type BodyState = "raw" | "bisque" | "glazed";

/** One object of a shape for a party by a promised day. */
export interface Piece {
  readonly id: string;
  readonly shapeId: string;
  readonly partyId: string;
  readonly classId: string;
  readonly promised: DayNumber;
  /** What it is worth to fire it now: the placing maximises the sum [-, > 0]. */
  readonly value: number;
  /** Stilt it stands on, or null for a wiped foot. */
  readonly stiltId: string | null;
  readonly state: BodyState;
}

/** What must be fired together. Cones are text: "06" is not "6". */
export interface FiringClass {
  readonly id: string;
  readonly name: string;
  readonly kind: "glaze" | "bisque" | "mid-range" | "lustre";
  /** Self-supporting cone the class is fired to. */
  readonly cone: string;
  /** Wanted range about that cone, in cones: coldest (<= 0) and hottest (>= 0) still good. */
  readonly tolerance: { readonly colder: number; readonly hotter: number };
  /** Bisque may touch. */
  readonly mayTouch: boolean;
}
