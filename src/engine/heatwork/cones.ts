import { requireThat } from "#base";
import { scaleCones } from "./cone-data.ts";

/**
 * Heatwork as a place between self-supporting cones [cones]: 06 = -6 … 01 = -1, 1 = 0, 2 = 1; 05.5 = -5.5, 5.5 = 4.5.
 * A number for computing; on a screen or sheet it becomes words and quarters.
 */
export type ConePosition = number;

/** Kind of cone. A temperature without its kind and rate means nothing. */
export type ConeKind =
  | "self-supporting regular"
  | "self-supporting iron-free"
  | "large regular"
  | "large iron-free"
  | "small regular"
  | "PCE";

const namePattern = /^(0[1-9](\.5)?|0[12][0-9]|[1-9](\.5)?|[1-4][0-9])$/;

/** Cones of the scale from coldest (022) to hottest (14), as text: "06" is not "6". */
export const coneNames: readonly string[] = scaleCones;

/** True if `text` is exactly the name of a cone on the scale 022 … 14. */
export function isConeName(text: string): boolean {
  return scaleCones.includes(text);
}

/**
 * Place of a cone on the scale [cones].
 *
 * @param name  text such as "06", "5.5", "022"; also PCE cones ("20")
 * @throws RangeError if `name` is not written like a cone
 */
export function conePositionOf(name: string): ConePosition {
  requireThat(namePattern.test(name), "cone", `"${name}"`, 'a cone written as text, such as "06" or "6"');
  return name.startsWith("0") ? -Number(name.slice(1)) : Number(name) - 1;
}

/**
 * The whole or half cone nearest to a position, as text.
 *
 * @param position  on the scale of `ConePosition` [cones]; beyond the ends the end cone is returned
 * @throws RangeError if `position` is not finite
 */
export function coneAt(position: ConePosition): string {
  requireThat(Number.isFinite(position), "position", position, "a finite number of cones");
  let nearest = scaleCones[0];
  for (const name of scaleCones) {
    if (Math.abs(conePositionOf(name) - position) <= Math.abs(conePositionOf(nearest) - position)) nearest = name;
  }
  return nearest;
}

/** The parts a cone is written with; `words` joins and speaks them. */
export interface ConeLabel {
  /** As written: "06". */
  readonly name: string;
  /** Cones 022-011 are very low (lustre, overglaze), 010-01 low, 1-7 mid, 8 and up high. */
  readonly range: "very low" | "low" | "mid" | "high";
  /** What is said beside the name so that 06 and 6 are never mixed up. */
  readonly fire: "low fire" | "high fire";
}

/** @throws RangeError if `name` is not written like a cone */
export function coneLabel(name: string): ConeLabel {
  const position = conePositionOf(name);
  return { name, range: rangeOf(position), fire: position < 0 ? "low fire" : "high fire" };
}

function rangeOf(position: ConePosition): ConeLabel["range"] {
  if (position < -10) return "very low";
  if (position < 0) return "low";
  return position < 7 ? "mid" : "high";
}
